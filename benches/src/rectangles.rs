//! Plain rectangles, and their layout by the default effort.

use dryfit_core::{Item, Layout, LayoutSpec, Nm, Point, Shape, Stock};

use crate::{mm, nm};

/// A rectangle by its sides.
pub fn rectangle([width, height]: [Nm; 2]) -> Shape {
    let p = Point::new;
    Shape::from_loops([[p(Nm::ZERO, Nm::ZERO), p(width, Nm::ZERO), p(width, height), p(Nm::ZERO, height)]])
}

/// Rectangles with sides of 20 to 200 mm, to the tenth of a millimetre, by chance and the same each time.
pub fn rectangles(count: u64) -> Vec<Shape> {
    let side = |k: u64| nm(20_000_000 + (k.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 32) as i64 % 1801 * 100_000);
    (0..count).map(|k| rectangle([side(2 * k + 1), side(2 * k + 2)])).collect()
}

/// Shapes on as many sheets as they need, with a border of 5 mm and gaps of 1 mm.
///
/// # Panics
/// Where a shape is larger than the sheet.
#[must_use]
pub fn laid_out(shapes: &[Shape], sheet: [Nm; 2]) -> Layout {
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("part", shape)).collect();
    let stock = Stock::new(mm(3), sheet, mm(5), mm(1)).expect("a sheet");
    LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true).expect("all fit")
}

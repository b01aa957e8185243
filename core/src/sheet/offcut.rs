//! Offcuts: what is left of a sheet, as rectangles that are sheets for the next job.
//!
//! ```text
//!   +-----------+---------+    The sheet is swept from below. The rim is how high it is taken so far;
//!   |           |         |    under the lower edge of the next part, and in the end under the upper
//!   | offcut 2  |         |    edge of the sheet, stand the empty rectangles that can grow to no side.
//!   +-----+-----+ offcut  |
//!   |     |  b  |    1    |
//!   |  a  |     |         |
//!   +-----+-----+---------+
//! ```

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::{Item, Layout, Sheet, Stock, item};
use crate::bounds::{OFFCUT, OFFCUTS};
use crate::error::Error;
use crate::length::Nm;
use crate::point::Point;

/// A rectangle of a sheet that no cut comes near.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Offcut {
    /// Its lower left corner, from the sheet's lower left corner.
    pub at: Point,
    /// Its width and height.
    pub size: [Nm; 2],
}

impl Offcut {
    /// One sheet of this size, of the thickness, border, gap and grain of the sheet that it comes from.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] and [`crate::Code::BorderTooWide`] for an offcut not made by [`Sheet::offcuts`].
    pub fn stock(&self, sheet: &Stock) -> Result<Stock, Error> {
        Ok(Stock::new(sheet.thickness(), self.size, sheet.border(), sheet.gap())?.sheets(1)?.grained(sheet.grain()))
    }
}

impl Sheet {
    /// What is left of the sheet: the largest empty rectangle, then the largest of what is left then, and so on. They do not overlap; the lower
    /// and then the left one of two equal ones comes first.
    ///
    /// Parts count by the rectangles around them. An offcut stays the gap, and at least half the part's kerf, away from these, and reaches to the
    /// sheet's edge where no part is in the way: the next job keeps a border of its own. Inside that border an offcut measures 20 mm at least along
    /// both axes; at most 100 are told. `items` are those that were laid out.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    ///
    /// ```
    /// use dryfit_core::{Item, LayoutSpec, Nm, Point, Shape, Stock};
    /// let mm = |v| Nm::from_mm(v);
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
    /// let plate = Shape::from_loops([[at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 70.0)?, at(0.0, 70.0)?]]);
    /// let items = [Item::new("plate", &plate)];
    /// let stock = Stock::new(mm(2.0)?, [mm(200.0)?, mm(80.0)?], mm(5.0)?, mm(1.0)?)?;
    /// let layout = LayoutSpec { turns: false, ..LayoutSpec::default() }.lay_out(&items, &[stock], &mut |_| true)?;
    /// let offcuts = layout.sheets[0].offcuts(&items)?;
    /// assert_eq!((offcuts[0].at, offcuts[0].size), (at(66.0, 0.0)?, [mm(134.0)?, mm(80.0)?]));
    /// assert_eq!(layout.offcuts(&items)?, [offcuts[0].stock(&stock)?]);
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    pub fn offcuts(&self, items: &[Item<'_>]) -> Result<Vec<Offcut>, Error> {
        let mut taken = taken(self, items)?;
        let mut offcuts = Vec::new();
        while offcuts.len() < OFFCUTS {
            let Some(best) = largest(self, &mut taken) else { break };
            let [width, height] = best.size().map(Nm::raw);
            offcuts.push(Offcut { at: Point::raw(best.left, best.low), size: [width, height] });
            taken.push(best);
        }
        Ok(offcuts)
    }
}

impl Layout {
    /// The offcuts of all sheets as stock for the next job, the largest first. `items` are those that were laid out.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn offcuts(&self, items: &[Item<'_>]) -> Result<Vec<Stock>, Error> {
        let mut stocks = Vec::new();
        for sheet in &self.sheets {
            for offcut in sheet.offcuts(items)? {
                stocks.push(offcut.stock(&sheet.stock)?);
            }
        }
        stocks.sort_by_key(|stock: &Stock| Reverse(i128::from(stock.width().nm()) * i128::from(stock.height().nm())));
        Ok(stocks)
    }
}

/// Area of a sheet's largest offcut; 0 if it has none.
pub(crate) fn largest_offcut(sheet: &Sheet, items: &[Item<'_>]) -> i128 {
    taken(sheet, items).ok().and_then(|mut taken| largest(sheet, &mut taken)).map_or(0, |best| best.area())
}

/// A rectangle of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Field {
    left: i64,
    low: i64,
    right: i64,
    high: i64,
}

impl Field {
    fn size(&self) -> [i64; 2] {
        [self.right - self.left, self.high - self.low]
    }

    fn area(&self) -> i128 {
        let [width, height] = self.size().map(i128::from);
        width * height
    }

    /// The better of two has the higher one.
    fn rank(&self) -> (i128, Reverse<i64>, Reverse<i64>) {
        (self.area(), Reverse(self.low), Reverse(self.left))
    }
}

/// What offcuts have to keep clear of, as far as it lies on the sheet.
fn taken(sheet: &Sheet, items: &[Item<'_>]) -> Result<Vec<Field>, Error> {
    let [width, height] = [sheet.stock.width(), sheet.stock.height()].map(Nm::nm);
    let mut taken = Vec::with_capacity(sheet.placements.len());
    for placement in &sheet.placements {
        let item = item(items, placement.part)?;
        let clear = Nm::raw(sheet.stock.gap().nm().max(item.half_kerf()));
        let [w, h] = placement.size(item.path);
        let (lo, hi) = (placement.at, Point::new(placement.at.x + w, placement.at.y + h));
        let field = Field {
            left: (lo.x - clear).nm().max(0),
            low: (lo.y - clear).nm().max(0),
            right: (hi.x + clear).nm().min(width),
            high: (hi.y + clear).nm().min(height),
        };
        if field.left < field.right && field.low < field.high {
            taken.push(field);
        }
    }
    Ok(taken)
}

/// The largest rectangle that is free and large enough to be of use.
fn largest(sheet: &Sheet, taken: &mut [Field]) -> Option<Field> {
    let least = OFFCUT.least + 2 * sheet.stock.border().nm();
    let mut best: Option<Field> = None;
    every_free(sheet, taken, |field| {
        let useful = field.size().iter().all(|&side| side >= least);
        if useful && best.is_none_or(|best| field.rank() > best.rank()) {
            best = Some(field);
        }
    });
    best
}

/// From `x` on, a sheet is taken up to `level`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Step {
    x: i64,
    level: i64,
}

/// Visits every free rectangle that can grow to no side, once.
fn every_free(sheet: &Sheet, taken: &mut [Field], mut visit: impl FnMut(Field)) {
    let [width, height] = [sheet.stock.width(), sheet.stock.height()].map(Nm::nm);
    taken.sort_unstable_by_key(|field| field.low);
    let mut rim = Vec::from([Step { x: 0, level: 0 }]);
    let mut open = Vec::new();
    for row in taken.chunk_by(|a, b| a.low == b.low) {
        let top = row.first().map_or(height, |field| field.low);
        under(&rim, [width, top], &mut open, |free| {
            if row.iter().any(|field| field.left < free.right && free.left < field.right) {
                visit(free);
            }
        });
        row.iter().for_each(|field| raise(&mut rim, field));
        rim.dedup_by_key(|step| step.level);
    }
    under(&rim, [width, height], &mut open, visit);
}

/// Visits the rectangles between the rim and `top` that can grow neither down nor to the sides. `open` holds the steps from which one still
/// grows to the right, the lowest last.
fn under(rim: &[Step], [width, top]: [i64; 2], open: &mut Vec<Step>, mut visit: impl FnMut(Field)) {
    open.clear();
    let end = Step { x: width, level: top };
    for step in rim.iter().chain([&end]) {
        let mut from = step.x;
        while let Some(lower) = open.pop_if(|last| last.level < step.level) {
            visit(Field { left: lower.x, low: lower.level, right: step.x, high: top });
            from = lower.x;
        }
        if step.level < top && open.last().is_none_or(|last| last.level > step.level) {
            open.push(Step { x: from, ..*step });
        }
    }
}

/// Raises the rim to the upper edge of what is taken.
fn raise(rim: &mut Vec<Step>, field: &Field) {
    // The right end first: its step has the level that the rim has there before.
    let ends = [field.right, field.left].map(|x| {
        let place = rim.partition_point(|step| step.x < x);
        if rim.get(place).is_none_or(|step| step.x > x) {
            let level = place.checked_sub(1).and_then(|before| rim.get(before)).map_or(0, |step| step.level);
            rim.insert(place, Step { x, level });
        }
        x
    });
    let steps = rim.iter_mut().skip_while(|step| step.x < ends[1]).take_while(|step| step.x < ends[0]);
    steps.for_each(|step| step.level = step.level.max(field.high));
}

#[cfg(test)]
#[path = "offcut_tests.rs"]
mod tests;

//! SVG of a laid out sheet, to be cut.

use alloc::string::String;
use alloc::vec::Vec;

use super::label::{Font, Spot, spot};
use super::number::{integer, millimetres};
use super::sink::Sink;
use super::svg::Svg;
use crate::cut::Contour;
use crate::error::Error;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;
use crate::sheet::{Item, Sheet, item};

/// The SVG of a sheet; see [`write_sheet`].
///
/// # Errors
/// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
///
/// ```
/// use dryfit_core::{Item, LayoutSpec, Nm, Point, Shape, Stock, sheet_svg};
/// let mm = |v| Nm::from_mm(v);
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let tile = Shape::from_loops([[p(0.0, 0.0)?, p(40.0, 0.0)?, p(40.0, 25.0)?, p(0.0, 25.0)?]]);
/// let items = [Item::new("tile", &tile)];
/// let stock = Stock::new(mm(2.5)?, [mm(100.0)?, mm(50.0)?], mm(8.0)?, mm(1.0)?)?;
/// let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
/// let svg = sheet_svg(&layout.sheets[0], &items, "Tiles")?;
/// assert!(svg.contains(r#"width="100mm" height="50mm" viewBox="0 0 100 50""#));
/// assert!(svg.contains(r#"<path d="M8 42H48V17H8Z"/>"#));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn sheet_svg(sheet: &Sheet, items: &[Item<'_>], title: &str) -> Result<String, Error> {
    Ok(text(write_sheet(Vec::new(), sheet, items, title)?))
}

/// Writes the SVG of a sheet into a sink and gives the sink back: the border, each part's name on its solid board (left out where no letter
/// fits), then all holes, then the cuts that two parts share, then all outlines. `items` are those that were laid out.
///
/// # Errors
/// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`; what the sink says.
pub fn write_sheet<S: Sink>(sink: S, sheet: &Sheet, items: &[Item<'_>], title: &str) -> Result<S, Error> {
    let mut svg = begun(sink, sheet, items, title, "")?;
    let lines = sheet.lines(items)?;
    for kind in LineKind::ALL {
        for line in lines.iter().filter(|line| line.kind == kind) {
            if line.closed { svg.bent_path(kind, radii(line))? } else { svg.bent_line(kind, radii(line))? }
        }
    }
    svg.end()
}

/// A sheet's SVG up to its cuts: the border and the names. Its description ends with `more`.
pub(super) fn begun<S: Sink>(sink: S, sheet: &Sheet, items: &[Item<'_>], title: &str, more: &str) -> Result<Svg<S>, Error> {
    let stock = &sheet.stock;
    let mut svg = Svg::begin(sink, stock.width(), stock.height(), title, &(description(sheet)? + more))?;
    let border = stock.border();
    if border > Nm::ZERO {
        svg.border(Point::new(border, border), Point::new(stock.width() - border, stock.height() - border))?;
    }
    names(sheet, items)?.into_iter().try_for_each(|(name, Spot { centre, size })| svg.label(name, centre, size))?;
    Ok(svg)
}

/// The names of the parts, each with its place on the part's board, left out where no letter fits.
pub(super) fn names<'a>(sheet: &Sheet, items: &[Item<'a>]) -> Result<Vec<(&'a str, Spot)>, Error> {
    let mut names = Vec::new();
    for placement in &sheet.placements {
        let item = item(items, placement.part)?;
        names.extend(spot(&placement.place(item.path), item.name, Font::PLAIN, |_, _| true).map(|spot| (item.name, spot)));
    }
    Ok(names)
}

/// `Sheet 500 mm x 350 mm x 2.5 mm, border 8 mm, 7 parts.`
fn description(sheet: &Sheet) -> Result<String, Error> {
    let mut out = Vec::new();
    let stock = &sheet.stock;
    for (before, length) in [("Sheet ", stock.width()), (" mm x ", stock.height()), (" mm x ", stock.thickness()), (" mm, border ", stock.border())] {
        out.put(before.as_bytes())?;
        millimetres(&mut out, length.nm())?;
    }
    out.put(b" mm, parts: ")?;
    integer(&mut out, i64::try_from(sheet.placements.len()).unwrap_or(i64::MAX))?;
    out.put(b".")?;
    Ok(text(out))
}

/// The points of a line, each with the radius of the arc that leaves it.
fn radii(line: &Contour) -> impl Iterator<Item = (Point, Option<Nm>)> {
    let radius = |number| line.edge(number).and_then(|edge| edge.arc()).map(|arc| arc.radius());
    line.points.iter().enumerate().map(move |(number, (vertex, _))| (vertex.at, radius(number)))
}

/// The bytes are made of strings and ASCII.
pub(super) fn text(bytes: Vec<u8>) -> String {
    String::from_utf8(bytes).unwrap_or_default()
}

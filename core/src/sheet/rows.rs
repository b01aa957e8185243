//! A layout in rows: highest parts first, each into the first row that has room.

use alloc::format;
use alloc::vec::Vec;

use super::{Layout, Named, Placement, Sheet, Stock};
use crate::error::{Amount, Code, Error, Failure};
use crate::length::Nm;
use crate::point::Point;
use crate::shape::Shape;

/// A part as it will lie: turned or not, with its size.
struct Lying {
    part: usize,
    turned: bool,
    width: i64,
    height: i64,
}

/// A row: the sheet it is on, where it begins above the border, how high it is and how far it is filled.
struct Row {
    sheet: usize,
    base: i64,
    height: i64,
    filled: i64,
}

impl Layout {
    /// Lays parts out in rows, on as many sheets as they need. Each part is a name, a cut path and a thickness, and goes on the
    /// first stock of exactly its thickness.
    ///
    /// A part lies with its longer side along the row where it fits so; else it stands. The highest come first, each in the first row with
    /// room for it. The border of the sheet stays free, and so does the gap between the bounding boxes of any two parts. Nothing is dropped or
    /// mirrored; the same input gives the same layout.
    ///
    /// # Errors
    /// [`Code::WrongThickness`] and [`Code::LargerThanSheet`], with the part's name, its size and the largest that would fit.
    ///
    /// ```
    /// use dryfit_core::{BoxSpec, Layout, Nm, Stock};
    /// let mm = |v| Nm::from_mm(v);
    /// let boards = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?;
    /// let shapes: Vec<_> = boards.panels()?.iter().map(|p| (p.name().to_string(), p.shape().clone())).collect();
    /// let parts: Vec<_> = shapes.iter().map(|(name, shape)| (name.as_str(), shape, mm(2.5).unwrap())).collect();
    /// let stock = Stock::new(mm(2.5)?, [mm(300.0)?, mm(250.0)?], mm(8.0)?, mm(1.0)?)?;
    /// let layout = Layout::rows(&parts, &[stock])?;
    /// assert_eq!(layout.sheets.len(), 1);
    /// assert_eq!(layout.sheets[0].placements.len(), 6);
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    pub fn rows(parts: &[(&str, &Shape, Nm)], stocks: &[Stock]) -> Result<Layout, Failure> {
        let mut groups: Vec<(Stock, Vec<Lying>)> = Vec::new();
        for (part, named) in parts.iter().enumerate() {
            let stock = stock_of(named, stocks)?;
            let lying = lie(part, named, &stock)?;
            match groups.iter_mut().find(|(known, _)| known.thickness() == stock.thickness()) {
                Some((_, group)) => group.push(lying),
                None => groups.push((stock, Vec::from([lying]))),
            }
        }
        let mut layout = Layout::default();
        for (stock, mut group) in groups {
            // The sort keeps equal parts in the order given.
            group.sort_by_key(|lying| (-lying.height, -lying.width));
            fill(&mut layout.sheets, stock, &group);
        }
        Ok(layout)
    }
}

fn stock_of(&(name, _, thickness): &Named<'_>, stocks: &[Stock]) -> Result<Stock, Failure> {
    let error = Error { given: Amount::Length(thickness.nm()), ..Error::bare(Code::WrongThickness, "thickness") };
    let stock = stocks.iter().find(|stock| stock.thickness() == thickness);
    stock.copied().ok_or_else(|| Failure::at(error, format!("part \"{name}\"")))
}

/// How the part lies: the longer side along the row if it fits so.
fn lie(part: usize, &(name, shape, _): &Named<'_>, stock: &Stock) -> Result<Lying, Failure> {
    let [width, height] = Placement::default().size(shape);
    let [most_x, most_y] = stock.inside();
    let (long, short) = (width.max(height), width.min(height));
    if long <= most_x && short <= most_y {
        return Ok(Lying { part, turned: width < height, width: long.nm(), height: short.nm() });
    }
    if short <= most_x && long <= most_y {
        return Ok(Lying { part, turned: width > height, width: short.nm(), height: long.nm() });
    }
    let (most_long, most_short) = (most_x.max(most_y), most_x.min(most_y));
    let (side, given, most) = if long > most_long { ("longer side", long, most_long) } else { ("shorter side", short, most_short) };
    let error = Error::length(Code::LargerThanSheet, side, given.nm(), 0, most.nm());
    Err(Failure::at(error, format!("part \"{name}\" of {width} x {height}, at most {most_x} x {most_y}")))
}

/// Fills new sheets of one stock, highest parts first.
fn fill(sheets: &mut Vec<Sheet>, stock: Stock, group: &[Lying]) {
    let [width, height] = stock.inside().map(Nm::nm);
    let (gap, border) = (stock.gap().nm(), stock.border().nm());
    let first = sheets.len();
    let mut rows: Vec<Row> = Vec::new();
    // Where the next row of each new sheet would begin.
    let mut tops: Vec<i64> = Vec::new();
    for lying in group {
        let room = |row: &&mut Row| lying.height <= row.height && row.filled + lying.width <= width;
        let (sheet, x, y) = if let Some(row) = rows.iter_mut().find(room) {
            let x = row.filled;
            row.filled += lying.width + gap;
            (row.sheet, x, row.base)
        } else {
            let sheet = tops.iter().position(|top| top + lying.height <= height).unwrap_or(tops.len());
            if sheet == tops.len() {
                tops.push(0);
                sheets.push(Sheet { stock, placements: Vec::new() });
            }
            let base = tops.get(sheet).copied().unwrap_or(0);
            if let Some(top) = tops.get_mut(sheet) {
                *top = base + lying.height + gap;
            }
            rows.push(Row { sheet, base, height: lying.height, filled: lying.width + gap });
            (sheet, 0, base)
        };
        let placement = Placement { part: lying.part, at: Point::raw(border + x, border + y), quarter_turns: u8::from(lying.turned), flipped: false };
        if let Some(sheet) = sheets.get_mut(first + sheet) {
            sheet.placements.push(placement);
        }
    }
}

//! Sheets with parts on them, and what can be asked of them.

use alloc::vec::Vec;

use super::{Named, Placement, Stock};
use crate::error::{Amount, Code, Error};
use crate::length::Nm;
use crate::shape::Shape;

/// One sheet and the parts on it; see [`Layout`].
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Sheet {
    /// What it is cut from.
    pub stock: Stock,
    /// Where the parts lie.
    pub placements: Vec<Placement>,
}

impl Sheet {
    /// How much of the sheet's height is used: from its lower edge to the top of the highest part, and the border above that.
    /// Zero for an empty sheet. `parts` are those that were laid out: name, cut path and thickness.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a placement names a part that is not in `parts`.
    pub fn used_height(&self, parts: &[(&str, &Shape, Nm)]) -> Result<Nm, Error> {
        let mut top = Nm::ZERO;
        for placement in &self.placements {
            let (_, shape, _) = named(parts, placement.part)?;
            let [_, height] = placement.size(shape);
            top = top.max(placement.at.y + height + self.stock.border());
        }
        Ok(top)
    }

    /// The sum of the lengths of all outlines on this sheet, in nanometres; a shared edge would count twice.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a placement names a part that is not in `parts`.
    pub fn cut_length(&self, parts: &[(&str, &Shape, Nm)]) -> Result<i64, Error> {
        self.placements.iter().try_fold(0i64, |sum, placement| Ok(sum.saturating_add(named(parts, placement.part)?.1.length())))
    }
}

/// All parts on as many sheets as they need. Made by [`Layout::rows`].
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Fit, Layout, Nm, Parts, Stock};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let parts = Parts::cut(&panels, Cutter::beam(Nm::ZERO)?, Fit::EXACT, Nm::ZERO)?;
/// let named: Vec<_> = parts.iter().map(|part| (part.name(), part.path(), part.thickness())).collect();
/// let stock = Stock::new(mm(2.5)?, [mm(350.0)?, mm(250.0)?], mm(8.0)?, mm(1.0)?)?;
/// let layout = Layout::rows(&named, &[stock])?;
/// assert_eq!(layout.sheets.len(), 1);
/// assert_eq!(layout.sheets[0].placements.len(), 6);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Layout {
    /// The sheets, those of one thickness together, thicknesses in the order of the parts.
    pub sheets: Vec<Sheet>,
}

impl Layout {
    /// The sum of the lengths of all outlines, in nanometres. `parts` are those that were laid out.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a placement names a part that is not in `parts`.
    pub fn cut_length(&self, parts: &[(&str, &Shape, Nm)]) -> Result<i64, Error> {
        self.sheets.iter().try_fold(0i64, |sum, sheet| Ok(sum.saturating_add(sheet.cut_length(parts)?)))
    }
}

/// The part of a number.
pub(crate) fn named<'a, 'b>(parts: &'b [Named<'a>], number: usize) -> Result<&'b Named<'a>, Error> {
    let count = |n: usize| Amount::Count(i64::try_from(n).unwrap_or(i64::MAX));
    parts.get(number).ok_or(Error {
        code: Code::OutOfRange,
        parameter: "part",
        given: count(number),
        least: Amount::Count(0),
        most: count(parts.len().saturating_sub(1)),
    })
}

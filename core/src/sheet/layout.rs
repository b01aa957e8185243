//! Sheets with parts on them, and what can be asked of them.

use alloc::vec::Vec;

use super::{Item, Placement, Stock};
use crate::error::{Code, Error};
use crate::length::Nm;

/// One sheet and the parts on it; see [`Layout`].
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Sheet {
    /// What it is cut from.
    pub stock: Stock,
    /// Where the parts lie.
    pub placements: Vec<Placement>,
    /// Whether what two parts share is cut once; else every outline is cut all around, also where two touch.
    pub share_cuts: bool,
}

impl Sheet {
    /// How much of the sheet's height is used: from its lower edge to the top of the highest part, and the border above that.
    /// Zero for an empty sheet. `items` are those that were laid out.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn used_height(&self, items: &[Item<'_>]) -> Result<Nm, Error> {
        let mut top = Nm::ZERO;
        for placement in &self.placements {
            let [_, height] = placement.size(item(items, placement.part)?.path);
            top = top.max(placement.at.y + height + self.stock.border());
        }
        Ok(top)
    }
}

/// All parts on as many sheets as they need. Made by [`LayoutSpec::lay_out`](super::LayoutSpec::lay_out).
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Layout {
    /// The sheets, those of one thickness together, thicknesses in the order of the parts.
    pub sheets: Vec<Sheet>,
    /// The numbers of the parts for which no sheet was left.
    pub unplaced: Vec<usize>,
}

impl Layout {
    /// The length of all cuts in nanometres: every outline and hole, what two parts share once. `items` are those that were laid out.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn cut_length(&self, items: &[Item<'_>]) -> Result<i64, Error> {
        self.sheets.iter().try_fold(0i64, |sum, sheet| Ok(sum.saturating_add(sheet.cut_length(items)?)))
    }

    /// The length in nanometres that one cut does for two parts. `items` are those that were laid out.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn shared_length(&self, items: &[Item<'_>]) -> Result<i64, Error> {
        self.sheets.iter().try_fold(0i64, |sum, sheet| Ok(sum.saturating_add(sheet.shared_length(items)?)))
    }
}

/// The item of a number.
pub(crate) fn item<'a, 'b>(items: &'b [Item<'a>], number: usize) -> Result<&'b Item<'a>, Error> {
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    items.get(number).ok_or_else(|| Error::count(Code::OutOfRange, "part", count(number), 0, count(items.len().saturating_sub(1))))
}

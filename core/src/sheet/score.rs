//! Which of two layouts is better.

use core::cmp::Reverse;

use super::job::Job;
use super::offcut::largest_offcut;
use super::{Layout, Placement, area};
use crate::length::Nm;

/// What counts, the first first; less is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Score {
    /// Area of the rectangles around the parts for which no sheet was left.
    unplaced: i128,
    /// Sheets of a kind that is not at hand in a limited number: they have to be bought.
    bought: usize,
    sheets: usize,
    /// Length that is cut once for two parts; counts only where cuts may be shared.
    shared: Reverse<i64>,
    /// Area of the largest offcut.
    offcut: Reverse<i128>,
}

impl Score {
    pub fn of(job: &Job<'_>, layout: &Layout) -> Score {
        let area = |&part: &usize| job.item(part).map_or(0, |item| area(Placement::default().size(item.path).map(Nm::nm)));
        let bought = layout.sheets.iter().filter(|sheet| sheet.stock.count().is_none()).count();
        let shared = if job.spec.share_cuts { layout.shared_length(job.items).unwrap_or(0) } else { 0 };
        Score {
            unplaced: layout.unplaced.iter().map(area).sum(),
            bought,
            sheets: layout.sheets.len(),
            shared: Reverse(shared),
            offcut: Reverse(largest(job, layout)),
        }
    }
}

/// Area of the largest offcut of all sheets; 0 if there is none.
pub(crate) fn largest(job: &Job<'_>, layout: &Layout) -> i128 {
    layout.sheets.iter().map(|sheet| largest_offcut(sheet, job.items)).max().unwrap_or(0)
}

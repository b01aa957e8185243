//! What no packing can do better than, and the next better one to look for.

use alloc::vec::Vec;

use super::fill::Plan;
use super::search::Found;
use super::{Bin, Problem};
use crate::sheet::area;

pub(super) struct Bound<'a> {
    /// All sides are multiples of it, and so is all that rectangles lie at.
    step: i64,
    bins: &'a [Bin],
    /// No more sheets than this are of use.
    most: usize,
}

impl<'a> Bound<'a> {
    pub fn new(problem: &Problem<'a>) -> Bound<'a> {
        Bound { step: problem.rects.iter().flat_map(|rect| rect.size).fold(0, common).max(1), bins: problem.bins, most: problem.rects.len() }
    }

    /// Every sheet that there is, of those without a number one for each rectangle: something left out must not have one that it fits on.
    fn all(&self) -> Vec<Plan> {
        let copies = |bin: &Bin| bin.count.and_then(|count| usize::try_from(count).ok()).map_or(self.most, |count| count.min(self.most));
        let plans = |(bin, kind): (usize, &Bin)| core::iter::repeat_n(Plan { bin, top: kind.size[1] }, copies(kind));
        self.bins.iter().enumerate().flat_map(plans).collect()
    }

    /// Sheets that would be better, if all that is placed fitted on them: none where what was found is proved to be the best.
    pub fn target(&self, found: &Found, whole: i128) -> Option<Vec<Plan>> {
        let size = |bin: usize| self.bins.get(bin).map(|bin| bin.size);
        let full = |bin: usize| size(bin).map(|[_, top]| Plan { bin, top });
        if found.left > 0 {
            return Some(self.all()).filter(|plans| !plans.is_empty());
        }
        let (last, before) = found.sheets.split_last()?;
        let mut plans: Vec<Plan> = before.iter().filter_map(|sheet| full(sheet.bin)).collect();
        let room: i128 = before.iter().filter_map(|sheet| size(sheet.bin)).map(area).sum();
        let top = (found.used - 1) / self.step * self.step;
        if room + area([size(last.bin)?[0], top]) < whole {
            return None;
        }
        if top > 0 {
            plans.push(Plan { bin: last.bin, top });
        }
        Some(plans)
    }
}

/// The greatest common divisor.
fn common(mut a: i64, mut b: i64) -> i64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

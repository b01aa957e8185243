//! What no packing can do better than, and the next better one to look for.

use alloc::vec::Vec;

use super::fill::{Filling, Plan, area};
use super::search::Found;

pub(super) struct Bound {
    /// All sides are multiples of it, so all that things lie at is.
    step: i64,
    whole: i128,
    /// Width and height of each kind of sheet.
    sizes: Vec<[i64; 2]>,
}

impl Bound {
    pub fn new(filling: &Filling<'_>, list: &[u32], whole: i128) -> Bound {
        let sides = list.iter().filter_map(|rect| filling.rects.get(*rect as usize)).flat_map(|rect| rect.size);
        Bound { step: sides.fold(0, common).max(1), whole, sizes: filling.bins.iter().map(|bin| bin.size).collect() }
    }

    /// Sheets that would be better, if all that is placed fitted on them: none where what was found is proved to be the best.
    pub fn target(&self, found: &Found) -> Option<Vec<Plan>> {
        if found.left > 0 {
            return Some(found.plans.clone()).filter(|plans| !plans.is_empty());
        }
        let (last, before) = found.plans.split_last()?;
        let full: i128 = before.iter().filter_map(|plan| self.sizes.get(plan.bin)).map(|size| area(*size)).sum();
        let width = i128::from(self.sizes.get(last.bin)?[0]);
        let top = (found.used - 1) / self.step * self.step;
        if i128::from(top) * width < self.whole - full {
            return None;
        }
        let mut plans = before.to_vec();
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

//! The search: the order is turned over, and what leaves little more out than before is kept (threshold accepting).

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::bound::Bound;
use super::fill::{Filling, Plan, area};
use super::order::Order;
use super::random::Random;
use super::{Rect, Spot};
use crate::sheet::watch::Watch;

/// The most that is laid down in one search by steps.
const MOST_WORK: u64 = 4_000_000;
/// Thresholds fall to nothing this often in one search by steps.
const ROUNDS: u64 = 4;

/// A packing found.
pub(super) struct Found {
    pub plans: Vec<Plan>,
    pub spots: Vec<Spot>,
    /// The area left out.
    pub left: i128,
    /// How high the last sheet is filled.
    pub used: i64,
}

impl Found {
    fn take(filling: &mut Filling<'_>, plans: &[Plan], left: i128) -> Found {
        let spots = core::mem::take(&mut filling.spots);
        let last = spots.iter().rev().take_while(|spot| spot.sheet + 1 == plans.len());
        let used = last.filter_map(|spot| Some(spot.at[1] + filling.rects.get(spot.rect)?.lying(spot.turned)[1])).max().unwrap_or(0);
        // A sheet that nothing lies on any more is none.
        let sheets = spots.iter().map(|spot| spot.sheet + 1).max().unwrap_or(0);
        Found { plans: plans.iter().copied().take(sheets).collect(), spots, left, used }
    }

    fn key(&self) -> (i128, usize, i64) {
        (self.left, self.plans.len(), self.used)
    }
}

/// The rectangles by falling size, in several senses of the word.
fn starts(rects: &[Rect], list: &[u32]) -> [Order; 4] {
    type Key = fn(&Rect) -> (i128, i64);
    let keys: [Key; 4] = [
        |r| (area(r.size), r.longer()),
        |r| (i128::from(r.longer()), r.shorter()),
        |r| (i128::from(r.shorter()), r.longer()),
        |r| (i128::from(r.longer() + r.shorter()), r.longer()),
    ];
    keys.map(|key| {
        let mut list = list.to_vec();
        list.sort_by_key(|rect| Reverse(rects.get(*rect as usize).map(key)));
        Order::new(list, rects.iter().map(|rect| rect.size[1] > rect.size[0]).collect())
    })
}

/// The best packing that the effort allows of the rectangles in `list`.
pub(super) fn search(filling: &mut Filling<'_>, list: &[u32], seed: u64, watch: &mut Watch<'_>) -> Found {
    let whole: i128 = list.iter().filter_map(|rect| filling.rects.get(*rect as usize)).map(|rect| area(rect.size)).sum();
    let mut best: Option<(Found, Order)> = None;
    for mut order in starts(filling.rects, list) {
        let plans = filling.all(&mut order);
        let left = whole - filling.placed();
        let found = Found::take(filling, &plans, left);
        if best.as_ref().is_none_or(|(known, _)| found.key() < known.key()) {
            best = Some((found, order));
        }
        if !watch.go_on(0.0) {
            break;
        }
    }
    let Some((mut best, mut order)) = best else { return Found { plans: Vec::new(), spots: Vec::new(), left: 0, used: 0 } };
    let bound = Bound::new(filling, list, whole);
    let mut random = Random(seed);
    let n = list.len() as u64;
    let budget = n.saturating_pow(3).saturating_mul(8).min(MOST_WORK);
    let cycle = budget / ROUNDS + 1;
    let (start, mut told) = (filling.work, filling.work);
    let mut current: Option<i128> = None;
    let mut target = bound.target(&best);
    let average = whole / i128::from(n.max(1));
    while let Some(plans) = target.as_ref() {
        let done = filling.work - start;
        if filling.work - told > 1000 {
            told = filling.work;
            if !watch.go_on(share(done, budget)) {
                break;
            }
        }
        if !watch.timed && done >= budget {
            break;
        }
        let threshold = average * i128::from(cycle - done % cycle) / i128::from(cycle) / 2;
        let limit = current.map_or(i128::MAX / 4, |left| left + threshold);
        let (a, b) = (random.below(list.len()), random.below(list.len()));
        let turning = current.is_some() && a == b;
        if turning {
            order.turn(a);
        } else if current.is_some() {
            order.swap(a, b);
        }
        filling.work += 1;
        match filling.planned(plans, &mut order, whole, limit) {
            Some(left) if left <= limit => {
                current = Some(left);
                if left == 0 || left < best.left {
                    best = Found::take(filling, plans, left);
                    target = bound.target(&best);
                    current = None;
                }
            }
            _ if turning => order.turn(a),
            _ => order.swap(a, b),
        }
    }
    best
}

/// What of the work is done; only told, never decided by.
#[expect(clippy::cast_precision_loss, reason = "told to people")]
fn share(done: u64, all: u64) -> f64 {
    done.min(all) as f64 / all.max(1) as f64
}

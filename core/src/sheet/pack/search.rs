//! The search: a first packing, and better ones as long as there may be any.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::bound::Bound;
use super::fill::{Filling, Full};
use super::order::Order;
use super::sheets::{one_by_one, relieve};
use super::turn::{Cooling, Work, turn_over};
use super::{Problem, Rect};
use crate::sheet::area;
use crate::sheet::watch::Watch;

/// Thresholds fall to nothing this often in a search by steps.
const ROUNDS: u64 = 4;
/// More sheets than these are not searched as a whole.
pub(super) const FEW: usize = 2;

/// A packing found.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub sheets: Vec<Full>,
    /// The area left out.
    pub left: i128,
    /// How high the last sheet is filled.
    pub used: i64,
}

impl Found {
    /// A sheet that nothing lies on is none.
    pub fn new(problem: &Problem<'_>, mut sheets: Vec<Full>, left: i128) -> Found {
        sheets.retain(|sheet| !sheet.spots.is_empty());
        let used = sheets.last().map_or(0, |sheet| problem.used(sheet));
        Found { sheets, left, used }
    }

    fn key(&self) -> (i128, usize, i64) {
        (self.left, self.sheets.len(), self.used)
    }
}

/// How many rectangles a search by steps lays down, from how many there are.
const fn effort(n: u64) -> u64 {
    let (few, many) = (n.saturating_pow(4), 2_000_000 + n.saturating_mul(1000));
    if few < many { few } else { many }
}

/// In so many senses a rectangle is larger than another.
pub(super) const SENSES: usize = 4;

/// Rectangles by falling size, in one of the senses; they would rather lie than stand.
pub(super) fn falling(rects: &[Rect], sense: usize) -> Order {
    let key = |r: &Rect| match sense {
        0 => (area(r.size), r.longer()),
        1 => (i128::from(r.longer()), r.shorter()),
        2 => (i128::from(r.shorter()), r.longer()),
        _ => (i128::from(r.longer() + r.shorter()), r.longer()),
    };
    let mut list: Vec<u32> = (0..rects.len()).filter_map(|rect| u32::try_from(rect).ok()).collect();
    list.sort_by_key(|rect| Reverse(rects.get(*rect as usize).map(key)));
    Order::new(list, rects.iter().map(|rect| rect.size[1] > rect.size[0]).collect())
}

/// Whether all rectangles go on one sheet of the first kind, in one of the orders that a search begins with.
pub(super) fn at_once(problem: &Problem<'_>) -> bool {
    let mut filling = Filling::new(problem, (0..problem.rects.len()).collect());
    (0..SENSES).any(|sense| {
        let mut order = falling(&filling.rects, sense);
        filling.all(&mut order);
        filling.left() == 0
    })
}

/// The sheets of the best packing that the effort allows.
pub(super) fn search(problem: &Problem<'_>, seed: u64, watch: &mut Watch<'_>) -> Vec<Full> {
    let fitting = |rect: &usize| (0..problem.bins.len()).any(|bin| problem.ways(*rect, bin).next().is_some());
    let list: Vec<usize> = (0..problem.rects.len()).filter(fitting).collect();
    let n = list.len();
    if n == 0 {
        return Vec::new();
    }
    let mut work = Work::new(seed, watch, effort(n as u64));
    let mut filling = Filling::new(problem, list.clone());
    let mut best: Option<(Found, Order)> = None;
    for sense in 0..SENSES {
        let mut order = falling(&filling.rects, sense);
        let plans = filling.all(&mut order);
        let found = Found::new(problem, filling.sheets(&plans, &filling.spots), filling.left());
        if best.as_ref().is_none_or(|(known, _)| found.key() < known.key()) {
            best = Some((found, order));
        }
        if !work.go_on(n) {
            break;
        }
    }
    let Some((mut best, mut order)) = best else { return Vec::new() };
    let bound = Bound::new(problem);
    let mut target = bound.target(&best, filling.whole);
    if target.is_some() && best.left == 0 && best.sheets.len() > FEW {
        let share = work.all / 2 / best.sheets.len() as u64;
        let found = one_by_one(problem, list, share, &mut work);
        if found.left == 0 && found.key() < best.key() {
            best = found;
        }
        relieve(problem, &bound, &mut best, filling.whole, &mut work);
        target = bound.target(&best, filling.whole);
    }
    let round = work.all / ROUNDS + 1;
    while let Some(plans) = target.filter(|_| work.go_on(0)) {
        let goal = if best.left > 0 { best.left - 1 } else { 0 };
        let cooling = Cooling { from: 0, round, until: u64::MAX };
        match turn_over(&mut filling, &plans, &mut order, goal, cooling, &mut work) {
            Some((left, spots)) if left <= goal => best = Found::new(problem, filling.sheets(&plans, &spots), left),
            _ => break,
        }
        target = bound.target(&best, filling.whole);
    }
    best.sheets
}

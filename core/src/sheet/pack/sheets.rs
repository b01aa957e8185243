//! Many sheets: each filled as full as can be, one after the other; then the last one is relieved by the others.

use alloc::vec::Vec;

use super::bound::Bound;
use super::fill::{Filling, Full, Plan};
use super::search::{FEW, Found, SENSES, falling};
use super::turn::{Cooling, Work, turn_over};
use super::{Bin, Problem};
use crate::sheet::area;

/// A sheet is filled out of so many times its area.
const CHOICE: i128 = 3;

/// Fills sheet by sheet, each out of a few sheets' worth of rectangles by chance, with so much work.
pub(super) fn one_by_one(problem: &Problem<'_>, mut pool: Vec<usize>, share: u64, work: &mut Work<'_, '_>) -> Found {
    for at in (1..pool.len()).rev() {
        pool.swap(at, work.random.below(at + 1));
    }
    let mut sheets = Vec::new();
    for (bin, Bin { size, count }) in problem.bins.iter().enumerate() {
        let mut left = count.map_or(u64::MAX, u64::from);
        while left > 0 {
            let mut some = Vec::new();
            let mut sum = 0;
            pool.retain(|rect| {
                let take = sum < CHOICE * area(*size) && problem.ways(*rect, bin).next().is_some();
                if take {
                    sum += problem.rects.get(*rect).map_or(0, |rect| area(rect.size));
                    some.push(*rect);
                }
                !take
            });
            if some.is_empty() {
                break;
            }
            let full = fullest(problem, bin, &some, share, work);
            some.retain(|rect| full.spots.iter().all(|spot| spot.rect != *rect));
            some.append(&mut pool);
            pool = some;
            sheets.push(full);
            left -= 1;
        }
    }
    let left = pool.iter().filter_map(|rect| problem.rects.get(*rect)).map(|rect| area(rect.size)).sum();
    Found::new(problem, sheets, left)
}

/// One sheet, as full as so much work can make it.
fn fullest(problem: &Problem<'_>, bin: usize, some: &[usize], share: u64, work: &mut Work<'_, '_>) -> Full {
    let mut filling = Filling::new(problem, some.to_vec());
    let mut order = falling(&filling.rects, 0);
    let plan = problem.full(bin);
    let goal = (filling.whole - area(problem.bins.get(bin).map_or([0, 0], |bin| bin.size))).max(0);
    let cooling = Cooling { from: work.done, round: share, until: work.done + share };
    let spots = turn_over(&mut filling, &plan, &mut order, goal, cooling, work).map(|(_, spots)| spots).unwrap_or_default();
    filling.sheets(&plan, &spots).pop().unwrap_or(Full { bin, spots: Vec::new() })
}

/// The last sheet with another: the other gets fuller, until nothing is left on the last, or no work.
pub(super) fn relieve(problem: &Problem<'_>, bound: &Bound<'_>, best: &mut Found, whole: i128, work: &mut Work<'_, '_>) {
    while best.sheets.len() > FEW && bound.target(best, whole).is_some() && work.go_on(1) {
        let Some((last, before)) = best.sheets.split_last() else { return };
        let chosen = work.random.below(before.len());
        let Some(other) = before.get(chosen) else { return };
        let all: Vec<usize> = last.spots.iter().chain(&other.spots).map(|spot| spot.rect).collect();
        let share = 200 * all.len() as u64;
        let mut filling = Filling::new(problem, all);
        let mut order = falling(&filling.rects, work.random.below(SENSES));
        let plans = problem.full(other.bin);
        let goal = problem.area(last) - 1;
        let cooling = Cooling { from: work.done, round: share, until: work.done + share };
        let Some((left, spots)) = turn_over(&mut filling, &plans, &mut order, goal, cooling, work) else { continue };
        if left > goal {
            continue;
        }
        let Some(fuller) = filling.sheets(&plans, &spots).pop() else { continue };
        let rest: Vec<usize> =
            last.spots.iter().chain(&other.spots).map(|spot| spot.rect).filter(|rect| fuller.spots.iter().all(|spot| spot.rect != *rect)).collect();
        let mut filling = Filling::new(problem, rest);
        let mut order = falling(&filling.rects, 0);
        let plans = [Plan { bin: last.bin, top: best.used }];
        let cooling = Cooling { from: work.done, round: share, until: work.done + share };
        let Some((0, spots)) = turn_over(&mut filling, &plans, &mut order, 0, cooling, work) else { continue };
        let Some(rest) = filling.sheets(&plans, &spots).pop() else { continue };
        let mut sheets = before.to_vec();
        if let Some(other) = sheets.get_mut(chosen) {
            *other = fuller;
        }
        sheets.push(rest);
        *best = Found::new(problem, sheets, 0);
    }
}

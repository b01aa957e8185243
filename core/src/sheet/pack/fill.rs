//! Filling sheets one after the other: the lowest gap first, what suits it best into it.

use alloc::vec::Vec;

use super::order::Order;
use super::skyline::Skyline;
use super::ways::{Way, Ways};
use super::{Bin, Problem, Rect, Spot};
use crate::sheet::area;

/// A sheet to be filled: its kind, and up to where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Plan {
    pub bin: usize,
    pub top: i64,
}

/// A sheet with what lies on it.
#[derive(Clone, Debug)]
pub(super) struct Full {
    pub bin: usize,
    pub spots: Vec<Spot>,
}

/// Some of the rectangles, how they may lie on each kind of sheet, and where they lie as last filled. Numbers here count these alone.
pub(super) struct Filling<'a> {
    bins: &'a [Bin],
    /// Their numbers among all.
    numbers: Vec<usize>,
    pub rects: Vec<Rect>,
    ways: Vec<Ways>,
    skyline: Skyline,
    pub spots: Vec<Spot>,
    /// The area of all.
    pub whole: i128,
}

impl<'a> Filling<'a> {
    /// From the numbers of rectangles.
    pub fn new(problem: &Problem<'a>, numbers: Vec<usize>) -> Filling<'a> {
        let rects: Vec<Rect> = numbers.iter().filter_map(|number| problem.rects.get(*number)).copied().collect();
        let ways = |bin: usize| {
            let ways = numbers
                .iter()
                .enumerate()
                .flat_map(|(rect, number)| problem.ways(*number, bin).map(move |(turned, size)| Way { size, rect, turned }));
            Ways::new(ways.collect(), rects.len())
        };
        let ways = (0..problem.bins.len()).map(ways).collect();
        let whole = rects.iter().map(|rect| area(rect.size)).sum();
        Filling { bins: problem.bins, numbers, rects, ways, skyline: Skyline::new(), spots: Vec::new(), whole }
    }

    /// What lies on each of some sheets as last filled, by the numbers that all rectangles have.
    pub fn sheets(&self, plans: &[Plan], spots: &[Spot]) -> Vec<Full> {
        let mut sheets: Vec<Full> = plans.iter().map(|plan| Full { bin: plan.bin, spots: Vec::new() }).collect();
        for spot in spots {
            if let (Some(sheet), Some(&rect)) = (sheets.get_mut(spot.sheet), self.numbers.get(spot.rect)) {
                sheet.spots.push(Spot { rect, ..*spot });
            }
        }
        sheets
    }

    /// Fills as many sheets as are needed or there, in the order of their kinds.
    pub fn all(&mut self, order: &mut Order) -> Vec<Plan> {
        self.renew(order);
        let mut plans = Vec::new();
        for (bin, Bin { size, count }) in self.bins.iter().enumerate() {
            let mut left = count.map_or(u64::MAX, u64::from);
            while left > 0 && self.ways.get_mut(bin).is_some_and(|ways| !ways.is_empty()) {
                let plan = Plan { bin, top: size[1] };
                self.sheet(plan, plans.len(), order, &mut i128::MAX.clone());
                plans.push(plan);
                left -= 1;
            }
        }
        plans
    }

    /// Fills the sheets planned. What area is left out, if that is at most `limit`.
    pub fn planned(&mut self, plans: &[Plan], order: &mut Order, limit: i128) -> Option<i128> {
        self.renew(order);
        let room: i128 = plans.iter().filter_map(|plan| Some(area([self.bins.get(plan.bin)?.size[0], plan.top]))).sum();
        // Area that may be lost before more than the limit must be left out.
        let mut spare = room - self.whole + limit;
        for (sheet, plan) in plans.iter().enumerate() {
            self.sheet(*plan, sheet, order, &mut spare);
            if spare < 0 {
                return None;
            }
        }
        Some(self.left()).filter(|left| *left <= limit)
    }

    /// The area left out.
    pub fn left(&self) -> i128 {
        self.whole - self.spots.iter().filter_map(|spot| self.rects.get(spot.rect)).map(|rect| area(rect.size)).sum::<i128>()
    }

    fn renew(&mut self, order: &mut Order) {
        order.renew();
        self.ways.iter_mut().for_each(Ways::renew);
        self.spots.clear();
    }

    /// Fills one sheet, or gives up where more is lost than may be.
    fn sheet(&mut self, Plan { bin, top }: Plan, sheet: usize, order: &mut Order, spare: &mut i128) {
        let Some(width) = self.bins.get(bin).map(|bin| bin.size[0]) else { return };
        self.skyline.clear(width, top);
        while let Some(gap) = self.skyline.lowest() {
            let Some(way) = self.ways.get_mut(bin).and_then(|ways| ways.best(&gap, order)) else {
                *spare -= self.skyline.raise(&gap);
                if *spare < 0 {
                    return;
                }
                continue;
            };
            let [left, right] = gap.walls;
            let height = way.size[1];
            let to_right = height != left && (height == right || right > left);
            let x = self.skyline.lay(&gap, way.size, to_right);
            order.drop(way.rect);
            self.ways.iter_mut().for_each(|ways| ways.drop(way.rect));
            self.spots.push(Spot { rect: way.rect, sheet, at: [x, gap.at.y], turned: way.turned });
        }
    }
}

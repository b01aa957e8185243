//! Filling sheets one after the other: the lowest gap first, what suits it best into it.

use alloc::vec::Vec;

use super::order::Order;
use super::skyline::Skyline;
use super::ways::{Way, Ways};
use super::{Bin, Rect, Spot};

/// A sheet to be filled: its kind, and up to where.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Plan {
    pub bin: usize,
    pub top: i64,
}

/// What all fillings share: the rectangles, and how they may lie on each kind of sheet.
pub(super) struct Filling<'a> {
    pub rects: &'a [Rect],
    pub bins: &'a [Bin],
    ways: Vec<Ways>,
    skyline: Skyline,
    /// Where everything lies, as last filled.
    pub spots: Vec<Spot>,
    /// How often something was laid down: the measure of work.
    pub work: u64,
}

pub(super) fn area([width, height]: [i64; 2]) -> i128 {
    i128::from(width) * i128::from(height)
}

impl<'a> Filling<'a> {
    pub fn new(rects: &'a [Rect], bins: &'a [Bin], allowed: &dyn Fn(usize, usize) -> [bool; 2]) -> Filling<'a> {
        let ways = |(bin, Bin { size: most, .. }): (usize, &Bin)| {
            let ways = rects.iter().enumerate().flat_map(|(rect, Rect { size: [width, height], .. })| {
                let [as_is, turned] = allowed(rect, bin);
                let way = |size, turned| Way { size, rect, turned };
                let both =
                    [as_is.then(|| way([*width, *height], false)), (turned && !(as_is && width == height)).then(|| way([*height, *width], true))];
                both.into_iter().flatten().filter(|way| way.size[0] <= most[0] && way.size[1] <= most[1])
            });
            Ways::new(ways.collect(), rects.len())
        };
        Filling { rects, bins, ways: bins.iter().enumerate().map(ways).collect(), skyline: Skyline::new(), spots: Vec::new(), work: 0 }
    }

    /// Whether a rectangle fits on any kind of sheet.
    pub fn fits(&self, rect: usize) -> bool {
        self.ways.iter().any(|ways| ways.has(rect))
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

    /// Fills the sheets planned. What area is left out, if that is at most `limit`; `whole` is the area of all rectangles.
    pub fn planned(&mut self, plans: &[Plan], order: &mut Order, whole: i128, limit: i128) -> Option<i128> {
        self.renew(order);
        let room: i128 = plans.iter().filter_map(|plan| Some(area([self.bins.get(plan.bin)?.size[0], plan.top]))).sum();
        // Area that may be lost before more than the limit must be left out.
        let mut spare = room - whole + limit;
        for (sheet, plan) in plans.iter().enumerate() {
            self.sheet(*plan, sheet, order, &mut spare);
            if spare < 0 {
                return None;
            }
        }
        Some(whole - self.placed())
    }

    /// The area of all that lies somewhere.
    pub fn placed(&self) -> i128 {
        self.spots.iter().filter_map(|spot| self.rects.get(spot.rect)).map(|rect| area(rect.size)).sum()
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
            self.work += 1;
            self.spots.push(Spot { rect: way.rect, sheet, at: [x, gap.at.y], turned: way.turned });
        }
    }
}

//! Turning an order over: what leaves little more out than before is kept (threshold accepting).

use alloc::vec::Vec;

use super::Spot;
use super::fill::{Filling, Plan};
use super::order::Order;
use crate::sheet::random::Random;
use crate::sheet::watch::Watch;

/// What a search may spend, counted in rectangles laid down.
pub(super) struct Work<'a, 'b> {
    pub random: Random,
    pub watch: &'a mut Watch<'b>,
    pub done: u64,
    /// All that there is, unless a clock tells.
    pub all: u64,
    told: u64,
}

impl<'a, 'b> Work<'a, 'b> {
    /// How much is laid down between two calls of the watch, at most.
    const STRETCH: u64 = 1000;

    pub fn new(seed: u64, watch: &'a mut Watch<'b>, all: u64) -> Work<'a, 'b> {
        Work { random: Random(seed), watch, done: 0, all, told: 0 }
    }

    /// So much was done; whether to go on.
    pub fn go_on(&mut self, more: usize) -> bool {
        self.done += more as u64;
        if self.done - self.told >= Self::STRETCH {
            self.told = self.done;
            // Only told, never decided by.
            #[expect(clippy::cast_precision_loss, reason = "told to people")]
            let share = if self.watch.timed { 0.0 } else { self.done.min(self.all) as f64 / self.all.max(1) as f64 };
            if !self.watch.go_on(share) {
                self.all = 0;
            }
        }
        self.all > 0 && (self.watch.timed || self.done < self.all)
    }
}

/// How long to turn over, and how fast the threshold falls: to nothing after so much work, again and again.
#[derive(Clone, Copy)]
pub(super) struct Cooling {
    /// When it began.
    pub from: u64,
    pub round: u64,
    pub until: u64,
}

/// Turns an order over until no more than `goal` is left out of the sheets planned. What was left out at least, and the spots of that.
pub(super) fn turn_over(
    filling: &mut Filling<'_>,
    plans: &[Plan],
    order: &mut Order,
    goal: i128,
    cooling: Cooling,
    work: &mut Work<'_, '_>,
) -> Option<(i128, Vec<Spot>)> {
    let n = filling.rects.len();
    let average = filling.whole / (n as i128).max(1);
    let round = i128::from(cooling.round.max(1));
    let (mut current, mut best): (Option<i128>, Option<(i128, Vec<Spot>)>) = (None, None);
    loop {
        let phase = i128::from(work.done.saturating_sub(cooling.from)) % round;
        let limit = current.map_or(filling.whole, |left| left + average * (round - phase) / round / 2);
        let (a, b) = (work.random.below(n), work.random.below(n));
        let change = |order: &mut Order| if a == b { order.turn(a) } else { order.swap(a, b) };
        if current.is_some() {
            change(order);
        }
        match filling.planned(plans, order, limit) {
            Some(left) => {
                current = Some(left);
                if best.as_ref().is_none_or(|(least, _)| left < *least) {
                    best = Some((left, filling.spots.clone()));
                    if left <= goal {
                        return best;
                    }
                }
            }
            None => change(order),
        }
        if !work.go_on(filling.spots.len() + 1) || work.done >= cooling.until {
            return best;
        }
    }
}

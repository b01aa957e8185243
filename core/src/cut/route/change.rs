//! Changes that make a way shorter: stretches are walked the other way round (2-opt), short ones move elsewhere (Or-opt).

use alloc::collections::VecDeque;
use alloc::vec::Vec;

use super::grid::Grid;
use super::tour::{NOISE, Spot, Tour, way};

/// A change of the way, by places.
#[derive(Clone, Copy, Debug)]
enum Change {
    /// The stretch from the first to the last place is walked the other way round.
    Turn(usize, usize),
    /// The stretch from the first to the last place moves behind another place, turned round or not.
    Shift(usize, usize, usize, bool),
}

/// With how many of its neighbours each stop is tried.
const NEIGHBOURS: usize = 10;
/// The longest stretch that is moved elsewhere.
const STRETCH: usize = 3;

impl Tour {
    /// Changes the order of the places from `first` up to `end` for as long as that gains.
    pub(super) fn change(&mut self, first: usize, end: usize) {
        self.meet(first, end);
        let line = |tour: &Tour, place: usize| tour.stops.get(place).map(|stop| stop.contour);
        let mut queue: VecDeque<usize> = (first..end).filter_map(|place| line(self, place)).collect();
        queue.iter().for_each(|&line| {
            self.wait(line, true);
        });
        // Every change gains, so they come to an end; this bounds them all the same.
        let mut left = 100 * (end - first) + 1000;
        while let Some(number) = queue.pop_front().filter(|_| left > 0) {
            self.wait(number, false);
            let Some(change) = self.best(number, first, end) else { continue };
            left -= 1;
            // Whatever has a new neighbour is tried again.
            let seams = self.apply(change);
            let around = seams.into_iter().flat_map(|place| [place.saturating_sub(1), place]).filter(|place| (first..end).contains(place));
            let again: Vec<usize> = around.filter_map(|place| line(self, place)).chain([number]).collect();
            for other in again {
                if self.wait(other, true) {
                    queue.push_back(other);
                }
            }
        }
    }

    /// Notes whether a line waits for its turn; whether that is new.
    fn wait(&mut self, line: usize, waits: bool) -> bool {
        self.waits.get_mut(line).is_some_and(|wait| core::mem::replace(wait, waits) != waits)
    }

    /// Notes for each line of the places from `first` up to `end` those that are near.
    fn meet(&mut self, first: usize, end: usize) {
        let stops = self.stops.get(first..end).unwrap_or(&[]);
        // Both ends of each.
        let points: Vec<Spot> = stops.iter().flat_map(|stop| [stop.enter, stop.leave]).collect();
        let grid = Grid::new(&points);
        for stop in stops {
            let Some(own) = self.near.get_mut(stop.contour) else { continue };
            own.clear();
            for at in if stop.enter == stop.leave { alloc::vec![stop.enter] } else { alloc::vec![stop.enter, stop.leave] } {
                for other in grid.near(at, 2 * NEIGHBOURS + 2).into_iter().filter_map(|number| stops.get(number / 2)) {
                    if other.contour != stop.contour && !own.contains(&other.contour) {
                        own.push(other.contour);
                    }
                }
            }
        }
    }

    /// The change that gains most among those that bring this line next to one of its neighbours or to an end of the phase.
    fn best(&self, line: usize, first: usize, end: usize) -> Option<Change> {
        let (place, near) = (*self.places.get(line)?, self.near.get(line)?);
        let mut best: Option<(f64, Change)> = None;
        let mut consider = |change: Change| {
            let gain = self.gain(change);
            if gain > best.map_or(NOISE, |(most, _)| most) && self.allows(change) {
                best = Some((gain, change));
            }
        };
        let stretches = (0..STRETCH).flat_map(|more| [(place, place + more), (place.saturating_sub(more), place)]);
        let stretches = stretches.filter(|&(from, to)| from >= first && to < end);
        for other in near.iter().filter_map(|&line| self.places.get(line).copied()) {
            let (low, high) = (place.min(other), place.max(other));
            consider(Change::Turn(low + 1, high));
            consider(Change::Turn(low, high - 1));
            for (from, to) in stretches.clone() {
                for behind in [other - 1, other] {
                    consider(Change::Shift(from, to, behind, false));
                    consider(Change::Shift(from, to, behind, true));
                }
            }
        }
        consider(Change::Turn(first, place));
        consider(Change::Turn(place, end - 1));
        for (from, to) in stretches {
            for (behind, turned) in [(first - 1, false), (first - 1, true), (end - 1, false), (end - 1, true)] {
                consider(Change::Shift(from, to, behind, turned));
            }
        }
        best.map(|(_, change)| change)
    }

    /// By how much a change makes the way shorter; nothing where it is none.
    fn gain(&self, change: Change) -> f64 {
        match change {
            Change::Turn(from, to) => {
                let old = way(self.leave(from - 1), self.enter(from)) + way(self.leave(to), self.enter(to + 1));
                old - way(self.leave(from - 1), self.leave(to)) - way(self.enter(from), self.enter(to + 1))
            }
            Change::Shift(from, to, behind, _) if (from - 1..=to).contains(&behind) => 0.0,
            Change::Shift(from, to, behind, turned) => {
                let (enter, leave) = if turned { (self.leave(to), self.enter(from)) } else { (self.enter(from), self.leave(to)) };
                let gap = way(self.leave(from - 1), self.enter(from)) + way(self.leave(to), self.enter(to + 1));
                let old = gap + way(self.leave(behind), self.enter(behind + 1));
                old - way(self.leave(from - 1), self.enter(to + 1)) - way(self.leave(behind), enter) - way(leave, self.enter(behind + 1))
            }
        }
    }

    /// Whether no line is turned that may be walked one way only.
    fn allows(&self, change: Change) -> bool {
        match change {
            Change::Shift(_, _, _, false) => true,
            Change::Turn(from, to) | Change::Shift(from, to, _, true) => {
                self.stops.get(from..=to).is_some_and(|stretch| stretch.iter().all(|stop| !stop.one_way))
            }
        }
    }

    /// Makes a change; gives the places before which the way is new.
    fn apply(&mut self, change: Change) -> [usize; 3] {
        match change {
            Change::Turn(from, to) => {
                self.turn(from, to);
                self.number(from, to + 1);
                [from, to + 1, to + 1]
            }
            Change::Shift(from, to, behind, turned) => {
                let count = to + 1 - from;
                let (low, high, start) = if behind < from { (behind + 1, to, behind + 1) } else { (from, behind, behind + 1 - count) };
                if let Some(slice) = self.stops.get_mut(low..=high) {
                    if behind < from { slice.rotate_right(count) } else { slice.rotate_left(count) }
                }
                if turned {
                    self.turn(start, start + count - 1);
                }
                self.number(low, high + 1);
                [start, start + count, if behind < from { to + 1 } else { from }]
            }
        }
    }

    /// Walks a stretch the other way round.
    fn turn(&mut self, from: usize, to: usize) {
        let Some(stretch) = self.stops.get_mut(from..=to) else { return };
        stretch.reverse();
        for stop in stretch {
            core::mem::swap(&mut stop.enter, &mut stop.leave);
            stop.turned = !stop.turned;
        }
    }
}

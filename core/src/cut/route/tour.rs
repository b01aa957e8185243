//! A way through all stops: always on to the nearest, then made shorter.

use alloc::vec::Vec;

use super::grid::Grid;
use super::seats::{Seats, spot};
use crate::point::Point;

/// A point in nanometres. Whole numbers, so nothing is lost; roots are rounded alike everywhere.
pub(super) type Spot = [f64; 2];

/// One line on the way: where it is entered and left.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stop {
    pub contour: usize,
    pub seat: usize,
    pub enter: Spot,
    pub leave: Spot,
    pub turned: bool,
    pub one_way: bool,
}

/// What is less is no gain, in nanometres: the noise of sums of roots.
pub(super) const NOISE: f64 = 1.0;
/// How often seats are chosen anew between rounds of changes.
const ROUNDS: usize = 10;
/// The number of a stop that is no line: where the tool stands at first and at last.
const NOWHERE: usize = usize::MAX;

/// The stops in their order; the first is where the tool stands.
pub(super) struct Tour {
    pub(super) stops: Vec<Stop>,
    /// The place of each line.
    pub(super) places: Vec<usize>,
    /// The lines that are near to each line of the phase that is worked on.
    pub(super) near: Vec<Vec<usize>>,
    /// Whether each line waits to be tried.
    pub(super) waits: Vec<bool>,
}

/// How far apart two points are.
pub(super) fn apart(a: Spot, b: Spot) -> f64 {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    libm::sqrt(dx * dx + dy * dy)
}

/// The way between two points; none where one of them is missing.
pub(super) fn way(a: Option<Spot>, b: Option<Spot>) -> f64 {
    a.zip(b).map_or(0.0, |(a, b)| apart(a, b))
}

impl Tour {
    pub(super) fn new(from: Point, lines: usize) -> Tour {
        let mut tour = Tour {
            stops: Vec::with_capacity(lines + 2),
            places: alloc::vec![0; lines],
            near: alloc::vec![Vec::new(); lines],
            waits: alloc::vec![false; lines],
        };
        tour.end(from);
        tour
    }

    /// The next stop is a point, no line.
    pub(super) fn end(&mut self, at: Point) {
        let at = spot(at);
        self.stops.push(Stop { contour: NOWHERE, seat: NOWHERE, enter: at, leave: at, turned: false, one_way: true });
    }

    /// The lines in their order.
    pub(super) fn lines(&self) -> impl Iterator<Item = &Stop> {
        self.stops.iter().filter(|stop| stop.contour != NOWHERE)
    }

    pub(super) fn enter(&self, place: usize) -> Option<Spot> {
        self.stops.get(place).map(|stop| stop.enter)
    }

    pub(super) fn leave(&self, place: usize) -> Option<Spot> {
        self.stops.get(place).map(|stop| stop.leave)
    }

    /// Goes on through these lines, always to the nearest seat of those that are left.
    pub(super) fn nearest(&mut self, lines: &[usize], seats: &Seats) {
        let mut choices = Vec::new();
        for &line in lines {
            let own = choices.len()..choices.len() + seats.of(line).count();
            choices.extend(seats.of(line).map(|stop| (stop, own.clone())));
        }
        let points: Vec<Spot> = choices.iter().map(|(stop, _)| stop.enter).collect();
        let mut grid = Grid::new(&points);
        while let Some((stop, own)) = self.stops.last().and_then(|last| choices.get(grid.nearest(last.leave)?)) {
            own.clone().for_each(|number| grid.remove(number));
            self.stops.push(*stop);
        }
    }

    /// Shortens the way phase by phase, each of so many stops.
    pub(super) fn shorten(&mut self, phases: &[usize], seats: &Seats) {
        self.number(0, self.stops.len());
        for _ in 0..ROUNDS {
            let before = self.length();
            let mut first = 1;
            for &count in phases {
                self.change(first, first + count);
                first += count;
            }
            self.reseat(seats);
            if self.length() > before - NOISE {
                break;
            }
        }
    }

    pub(super) fn length(&self) -> f64 {
        (1..self.stops.len()).map(|place| way(self.leave(place - 1), self.enter(place))).sum()
    }

    /// Notes the places of the stops from `first` up to `end`.
    pub(super) fn number(&mut self, first: usize, end: usize) {
        for (place, stop) in self.stops.iter().enumerate().take(end).skip(first) {
            if let Some(slot) = self.places.get_mut(stop.contour) {
                *slot = place;
            }
        }
    }

    /// Enters and leaves each line where that makes the way shortest, its neighbours being where they are.
    fn reseat(&mut self, seats: &Seats) {
        for place in 1..self.stops.len() {
            let (before, after) = (self.leave(place - 1), self.enter(place + 1));
            let Some(stop) = self.stops.get_mut(place) else { continue };
            let length = |stop: &Stop| way(before, Some(stop.enter)) + way(Some(stop.leave), after);
            let best = seats.of(stop.contour).min_by(|a, b| length(a).total_cmp(&length(b)));
            if let Some(best) = best.filter(|best| length(best) < length(stop) - NOISE) {
                *stop = best;
            }
        }
    }
}

//! How far a trailing blade's tip strays from its line: a rod that is pulled along, in small steps.

use super::knife::{Heading, Knife};
use super::moves::Move;
use crate::length::Nm;
use crate::point::Point;

/// A straight way is looked at in so many places, which lie close at its start, where the tip is farthest off.
const PLACES: i32 = 32;
/// An arc is gone along in chords of no more than this many radians.
const CHORD: f64 = 0.05;

impl Knife {
    /// How far the tip strays from the line at most, rounded up by a tenth of a micrometre or two, if the blade points into the first direction at its start: nothing but after corners
    /// that are taken in passing.
    ///
    /// The tip is followed along the axis' way in small steps: on a straight way of length s, `tan(θ/2)` falls by `e^(-s/trail)`, θ being the angle between blade and way.
    ///
    /// ```
    /// use dryfit_core::{Knife, KnifeSpec, Move, Nm, Point};
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
    /// let bend = [at(0.0, 0.0)?, at(10.0, 0.0)?, at(20.0, 1.0)?];
    /// let moves = bend.windows(2).map(|ends| Move { from: ends[0], to: ends[1], centre: None, clockwise: false });
    /// let knife = Knife::new(KnifeSpec::new(Nm::from_mm(1.0)?))?;
    /// assert_eq!(knife.deviation(moves, false), Nm::from_mm(0.0002)?); // a turn of 6 degrees
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn deviation(&self, moves: impl Iterator<Item = Move> + Clone, closed: bool) -> Nm {
        if self.trail == 0.0 {
            return Nm::ZERO;
        }
        let ways = moves.filter(|way| way.from != way.to);
        let again = ways.clone().next().filter(|_| closed);
        let mut rod: Option<Rod> = None;
        let (mut before, mut most): (Option<Move>, f64) = (None, 0.0);
        for way in ways.chain(again) {
            let (leaving, arriving) = (Heading::at(&way, way.from), Heading::at(&way, way.to));
            let near = [before.unwrap_or(way), way];
            let pulled = rod.get_or_insert(Rod { blade: leaving, ahead: leaving, trail: self.trail, strayed: false });
            if pulled.ahead != leaving {
                let passing = pulled.ahead.cosine(leaving) >= self.passing;
                pulled.strayed |= passing;
                most = most.max(pulled.turn(way.from, leaving, passing, &near));
            }
            most = most.max(pulled.along(&way, arriving, &near));
            before = Some(way);
        }
        // What is rounding and no more counts as nothing; between two places it may be a little more.
        if most < 10.0 { Nm::ZERO } else { Nm::raw(libm::ceil(most / 100.0) as i64 * 100 + 100) }
    }
}

/// The blade as a rod from its axis to its tip.
struct Rod {
    /// How it points.
    blade: Heading,
    /// How it should point.
    ahead: Heading,
    trail: f64,
    /// Whether it ever pointed otherwise.
    strayed: bool,
}

impl Rod {
    /// Turns at a point of the line into a new direction: on an arc about it, or along the chord. Tells how far the tip gets from the moves that are near.
    fn turn(&mut self, at: Point, to: Heading, passing: bool, near: &[Move; 2]) -> f64 {
        let from = core::mem::replace(&mut self.ahead, to);
        if !self.strayed {
            self.blade = to;
            return 0.0;
        }
        let angle = libm::atan2(from.sine(to), from.cosine(to));
        let steps = if passing { PLACES } else { steps(angle) };
        let (tip, trail) = ([at.x.nm() as f64, at.y.nm() as f64], self.trail);
        let place = |step: i32| {
            let part = f64::from(step) / f64::from(steps);
            if passing {
                let along = |from: f64, to: f64| trail * (from + (to - from) * part);
                return [tip[0] + along(from.x, to.x), tip[1] + along(from.y, to.y)];
            }
            let (sine, cosine) = libm::sincos(angle * part);
            [tip[0] + trail * (from.x * cosine - from.y * sine), tip[1] + trail * (from.x * sine + from.y * cosine)]
        };
        pull(&mut self.blade, self.trail, (0..=steps).map(place), near)
    }

    /// Goes along a move of the line.
    fn along(&mut self, way: &Move, arriving: Heading, near: &[Move; 2]) -> f64 {
        let from = core::mem::replace(&mut self.ahead, arriving);
        if !self.strayed {
            self.blade = arriving;
            return 0.0;
        }
        let (a, b, trail) = (way.from, way.to, self.trail);
        let (start, end) = ([a.x.nm() as f64, a.y.nm() as f64], [b.x.nm() as f64, b.y.nm() as f64]);
        let angle = libm::atan2(from.sine(arriving), from.cosine(arriving));
        let steps = if way.centre.is_some() { steps(angle) } else { PLACES };
        let place = |step: i32| {
            let part = f64::from(step) / f64::from(steps);
            let Some(centre) = way.centre else {
                let part = part * part * part;
                return [start[0] + (end[0] - start[0]) * part + trail * from.x, start[1] + (end[1] - start[1]) * part + trail * from.y];
            };
            let (sine, cosine) = libm::sincos(angle * part);
            let (x, y) = (centre.x.nm() as f64, centre.y.nm() as f64);
            let (u, v) = (start[0] + trail * from.x - x, start[1] + trail * from.y - y);
            [x + u * cosine - v * sine, y + u * sine + v * cosine]
        };
        pull(&mut self.blade, self.trail, (0..=steps).map(place), near)
    }
}

fn steps(angle: f64) -> i32 {
    libm::ceil(libm::fabs(angle) / CHORD).clamp(1.0, 200.0) as i32
}

/// Pulls the rod's axis from place to place, and tells how far its tip gets from the moves that are near.
fn pull(blade: &mut Heading, trail: f64, mut places: impl Iterator<Item = [f64; 2]>, near: &[Move; 2]) -> f64 {
    let Some(mut at) = places.next() else { return 0.0 };
    let mut most = 0.0f64;
    for to in places {
        let (x, y) = (to[0] - at[0], to[1] - at[1]);
        let length = libm::sqrt(x * x + y * y);
        at = to;
        if length > 0.0 {
            let way = Heading { x: x / length, y: y / length };
            // The tangent of half the angle from the way to the blade.
            let half = way.sine(*blade) / (1.0 + way.cosine(*blade)).max(1e-12) * libm::exp(-length / trail);
            let square = half * half;
            let (cosine, sine) = ((1.0 - square) / (1.0 + square), 2.0 * half / (1.0 + square));
            *blade = Heading { x: way.x * cosine - way.y * sine, y: way.x * sine + way.y * cosine };
        }
        let tip = [at[0] - trail * blade.x, at[1] - trail * blade.y];
        most = most.max(near.iter().map(|way| away(way, tip)).fold(f64::INFINITY, f64::min));
    }
    most
}

/// How far a place is from a move.
fn away(way: &Move, [x, y]: [f64; 2]) -> f64 {
    let between = |a: Point| (x - a.x.nm() as f64, y - a.y.nm() as f64);
    let ends = [way.from, way.to].map(|end| {
        let (dx, dy) = between(end);
        libm::sqrt(dx * dx + dy * dy)
    });
    let nearest = ends[0].min(ends[1]);
    if let Some(arc) = way.arc() {
        let (dx, dy) = between(arc.centre);
        return nearest.min(libm::fabs(libm::sqrt(dx * dx + dy * dy) - arc.radius().nm() as f64));
    }
    let (dx, dy) = between(way.from);
    let (wx, wy) = ((way.to.x - way.from.x).nm() as f64, (way.to.y - way.from.y).nm() as f64);
    let square = wx * wx + wy * wy;
    let part = (dx * wx + dy * wy) / square;
    if (0.0..=1.0).contains(&part) { nearest.min(libm::fabs(dx * wy - dy * wx) / libm::sqrt(square)) } else { nearest }
}

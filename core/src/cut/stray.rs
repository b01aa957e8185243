//! How far a trailing blade's tip strays from its line: a rod that is pulled along.

use super::knife::{Heading, Knife};
use super::moves::Move;
use crate::length::Nm;
use crate::point::Point;

/// A way is looked at in so many places, which lie close at its start, where the tip is farthest off.
const PLACES: i32 = 32;
/// A turn about the tip is gone along in chords of no more than this many radians.
const CHORD: f64 = 0.05;
/// A blade that is off by no more than twice this many radians is on the line again.
const SETTLED: f64 = 1e-7;

impl Knife {
    /// How far the tip strays from the line at most, rounded up by a tenth of a micrometre or two, if the blade points into the first direction at its
    /// start: nothing but after corners that are taken in passing.
    ///
    /// The tip is followed along the axis' way: on a straight way of length s, `tan(θ/2)` falls by `e^(-s/trail)`, θ being the angle between blade and way.
    /// (Dunbar, Bosman, Nooij, as of [`Knife`]; of arcs and turns the same equation's solution.)
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
    /// Whether it may point otherwise.
    strayed: bool,
}

impl Rod {
    /// Turns at a point of the line into a new direction: on an arc about it, or along the chord. Tells how far the tip gets from the moves that are near.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
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

    /// Goes along a move of the line. The tangents of half the angles from the axis' way to the blade, and to where it should point, are `t` and `u`: on
    /// straight ways and on arcs alike, `(t - u) / (1 - t u)` falls by `e^(-s/trail)` over the length s of the line.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn along(&mut self, way: &Move, arriving: Heading, near: &[Move; 2]) -> f64 {
        let from = core::mem::replace(&mut self.ahead, arriving);
        if !self.strayed {
            self.blade = arriving;
            return 0.0;
        }
        let trail = self.trail;
        let start = [way.from.x.nm() as f64 + trail * from.x, way.from.y.nm() as f64 + trail * from.y];
        let end = [way.to.x.nm() as f64 + trail * arriving.x, way.to.y.nm() as f64 + trail * arriving.y];
        let sense = if way.clockwise { -1.0 } else { 1.0 };
        let round = way.arc().map(|arc| ([arc.centre.x.nm() as f64, arc.centre.y.nm() as f64], arc.angle() * sense));
        let course = round.map_or(from, |([x, y], _)| {
            let (u, v) = (start[0] - x, start[1] - y);
            let radius = libm::sqrt(u * u + v * v);
            Heading { x: -v / radius * sense, y: u / radius * sense }
        });
        let (right, blade) = (course.half(from), course.half(self.blade));
        let off = (blade - right) / (1.0 - blade * right);
        let length = way.length() as f64;
        let mut most = 0.0f64;
        for step in 1..=PLACES {
            let part = f64::from(step) / f64::from(PLACES);
            let part = part * part * part;
            let rest = off * libm::exp(-length * part / trail);
            let (at, course) = match round {
                None => ([start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part], course),
                Some(([x, y], angle)) => {
                    let (sine, cosine) = libm::sincos(angle * part);
                    let (u, v) = (start[0] - x, start[1] - y);
                    ([x + u * cosine - v * sine, y + u * sine + v * cosine], course.turned(sine, cosine))
                }
            };
            self.blade = course.by_half((rest + right) / (1.0 + rest * right));
            most = most.max(nearest([at[0] - trail * self.blade.x, at[1] - trail * self.blade.y], near));
            if libm::fabs(rest) < SETTLED {
                (self.blade, self.strayed) = (arriving, false);
                break;
            }
        }
        most
    }
}

#[cfg_attr(target_pointer_width = "32", inline(never))]
fn steps(angle: f64) -> i32 {
    libm::ceil(libm::fabs(angle) / CHORD).clamp(1.0, 200.0) as i32
}

/// Pulls the rod's axis from place to place, and tells how far its tip gets from the moves that are near.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn pull(blade: &mut Heading, trail: f64, mut places: impl Iterator<Item = [f64; 2]>, near: &[Move; 2]) -> f64 {
    let Some(mut at) = places.next() else { return 0.0 };
    let mut most = 0.0f64;
    for to in places {
        let (x, y) = (to[0] - at[0], to[1] - at[1]);
        let length = libm::sqrt(x * x + y * y);
        at = to;
        if length > 0.0 {
            let way = Heading { x: x / length, y: y / length };
            *blade = way.by_half(way.half(*blade) * libm::exp(-length / trail));
        }
        most = most.max(nearest([at[0] - trail * blade.x, at[1] - trail * blade.y], near));
    }
    most
}

impl Heading {
    /// The tangent of half the angle to another direction.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn half(self, to: Heading) -> f64 {
        self.sine(to) / (1.0 + self.cosine(to)).max(1e-12)
    }

    /// The direction at an angle, by the tangent of its half.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn by_half(self, half: f64) -> Heading {
        let square = half * half;
        self.turned(2.0 * half / (1.0 + square), (1.0 - square) / (1.0 + square))
    }

    /// The direction at an angle, by its sine and cosine.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn turned(self, sine: f64, cosine: f64) -> Heading {
        Heading { x: self.x * cosine - self.y * sine, y: self.x * sine + self.y * cosine }
    }
}

/// How far a place is from the nearest of these moves.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn nearest(at: [f64; 2], moves: &[Move; 2]) -> f64 {
    moves.iter().map(|way| away(way, at)).fold(f64::INFINITY, f64::min)
}

/// How far a place is from a move.
#[cfg_attr(target_pointer_width = "32", inline(never))]
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

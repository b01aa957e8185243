//! How long a machine takes: every move speeds up, runs and slows down, and corners are taken with care.

use alloc::vec::Vec;
use core::f64::consts::PI;

use super::contour::Contour;
use super::moves::{Move, turn};
use super::route::{Cut, Route};
use crate::bounds::{ACCELERATION, DEVIATION, FEED, LIFT, MM, PASSES, SWIVEL, TRAVEL_SPEED};
use crate::error::Error;
use crate::length::Nm;

/// What is known of a machine. Speeds and so on come from floats by [`crate::bounds::Bound::from_float`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct MachineSpec {
    /// Speed along a cut, in nanometres a second: 0.001 to 10,000 mm/s.
    pub feed: i64,
    /// Speed with the tool up, in nanometres a second: 0.001 to 10,000 mm/s.
    pub travel: i64,
    /// How fast speeds change, in nanometres a second squared: 0.001 to 1,000,000 mm/s².
    pub acceleration: i64,
    /// How far the way may be rounded off at a corner: 0 to 10 mm. With 0 it stops at every corner.
    pub deviation: Nm,
    /// How long lifting and lowering the tool take together, once for each start of a cut; in millionths of a second, 0 to 600 s.
    pub lift: i64,
    /// How long a blade takes to be turned at a corner, where it stands meanwhile; in millionths of a second, 0 to 600 s. With 0 corners are
    /// taken in passing.
    pub swivel: i64,
}

/// A machine of known feed and acceleration, and how long it takes.
///
/// A move speeds up, runs at its speed and slows down, all with one acceleration (a *trapezoid* of speed over time); a short one never gets to its
/// speed. Lines are followed without a stop: at a corner the way is thought of as rounded off by an arc whose nearest point is `deviation` from the
/// corner, and an arc of radius R, there or in the outline, is taken at `sqrt(a R)` at most. Looking ahead, no speed is higher than what can be slowed
/// down in time. (Kinematics; the corner's arc is the circle that touches both edges: with an angle θ between them
/// `R = δ sin(θ/2) / (1 - sin(θ/2))`.)
///
/// ```
/// use dryfit_core::bounds::{ACCELERATION, FEED};
/// use dryfit_core::{Contour, LineKind, Machine, MachineSpec, Nm, Point, Shape};
/// let feed = FEED.from_float(50.0)?;
/// let acceleration = ACCELERATION.from_float(500.0)?;
/// let machine = Machine::new(MachineSpec { feed, travel: feed, acceleration, deviation: Nm::ZERO, lift: 0, swivel: 0 })?;
/// let at = |x| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::ZERO));
/// let there_and_back = Shape::from_loops([[at(0.0)?, at(100.0)?]]);
/// let line = Contour::closed(LineKind::Mark, there_and_back.rings().next().unwrap().bent());
/// assert!((machine.seconds_along(line.edges()) - 2.0 * 2.1).abs() < 1e-9); // 100 mm in 2.1 s
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Machine {
    spec: MachineSpec,
}

/// Nanometres a millimetre, millionths a second.
const MILLION: f64 = MM as f64;

impl Machine {
    /// A machine by its numbers.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] with the parameter's name.
    pub fn new(spec: MachineSpec) -> Result<Machine, Error> {
        FEED.check(spec.feed)?;
        TRAVEL_SPEED.check(spec.travel)?;
        ACCELERATION.check(spec.acceleration)?;
        DEVIATION.check(spec.deviation.nm())?;
        LIFT.check(spec.lift)?;
        SWIVEL.check(spec.swivel)?;
        Ok(Machine { spec })
    }

    /// Its numbers.
    pub const fn spec(&self) -> MachineSpec {
        self.spec
    }

    /// The seconds for one sheet. Each line is cut `passes` times before the next, 1 to 1000; back to the start of an open one the tool goes up.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the passes.
    pub fn seconds(&self, contours: &[Contour], route: &Route, passes: i64) -> Result<f64, Error> {
        let passes = PASSES.check(passes)? as f64;
        let lift = self.spec.lift as f64 / MILLION;
        let lines = route.cuts().iter().filter_map(|cut| Some((contours.get(cut.contour)?, cut)));
        let seconds = |(line, cut): (&Contour, &Cut)| {
            passes * (lift + self.seconds_along(line.walk(cut.entry, cut.reversed))) + (passes - 1.0) * self.travel_seconds(line.way_back())
        };
        let cuts: f64 = lines.map(seconds).sum();
        Ok(cuts + route.legs().iter().map(|&leg| self.travel_seconds(leg)).sum::<f64>())
    }

    /// The seconds for a straight way with the tool up, in nanometres, from rest to rest.
    pub fn travel_seconds(&self, length: i64) -> f64 {
        trapezoid(length.max(0) as f64 / MILLION, [0.0, 0.0], self.spec.travel as f64 / MILLION, self.acceleration())
    }

    /// The seconds to follow these moves, each beginning where the last one ended, without a stop but for corners; from rest to rest.
    pub fn seconds_along(&self, moves: impl Iterator<Item = Move>) -> f64 {
        let moves: Vec<Move> = moves.filter(|edge| edge.from != edge.to).collect();
        let limits: Vec<f64> = moves.iter().map(|edge| self.limit(edge)).collect();
        let lengths: Vec<f64> = moves.iter().map(|edge| edge.length() as f64 / MILLION).collect();
        // The speed before each move and after the last: what its corner allows, and both moves there.
        let corners = moves.iter().zip(moves.iter().skip(1)).map(|(before, after)| self.corner(before, after));
        let pairs = limits.iter().zip(limits.iter().skip(1)).map(|(before, after)| before.min(*after));
        let inner = corners.zip(pairs).map(|(corner, limit)| corner.min(limit));
        let mut speeds: Vec<f64> = core::iter::once(0.0).chain(inner).chain([0.0]).collect();
        // What can be gained from the start on, and what can be slowed down until the end.
        let double = 2.0 * self.acceleration();
        let reach = |speed: &mut f64, from: &mut f64, length: f64| {
            *speed = speed.min(libm::sqrt(*from * *from + double * length));
            *from = *speed;
        };
        let mut from = 0.0;
        speeds.iter_mut().skip(1).zip(&lengths).for_each(|(speed, &length)| reach(speed, &mut from, length));
        from = 0.0;
        speeds.iter_mut().rev().skip(1).zip(lengths.iter().rev()).for_each(|(speed, &length)| reach(speed, &mut from, length));
        let ends = speeds.iter().zip(speeds.iter().skip(1));
        let ways = lengths.iter().zip(&limits);
        let swivels = moves.iter().zip(moves.iter().skip(1)).filter(|(before, after)| before.turns_into(after)).count() as f64;
        let running: f64 = ends.zip(ways).map(|((&a, &b), (&length, &limit))| trapezoid(length, [a, b], limit, self.acceleration())).sum();
        running + swivels * self.spec.swivel as f64 / MILLION
    }

    fn acceleration(&self) -> f64 {
        self.spec.acceleration as f64 / MILLION
    }

    /// How fast a move may be, in mm/s: as fast as the feed, and on an arc no faster than the acceleration holds it on its circle.
    fn limit(&self, edge: &Move) -> f64 {
        let feed = self.spec.feed as f64 / MILLION;
        edge.arc().map_or(feed, |arc| feed.min(libm::sqrt(self.acceleration() * arc.radius().nm().max(1) as f64 / MILLION)))
    }

    /// How fast a corner may be taken, in mm/s.
    fn corner(&self, before: &Move, after: &Move) -> f64 {
        if !before.turns_into(after) {
            return f64::INFINITY;
        }
        if self.spec.swivel > 0 {
            return 0.0;
        }
        let (sine, cosine) = turn(before.arriving(), after.leaving());
        let angle = PI - libm::atan2(sine.abs() as f64, cosine as f64);
        corner_speed(angle, self.spec.deviation.mm(), self.acceleration())
    }
}

/// The seconds for a way with a speed at either end and a limit between.
fn trapezoid(length: f64, [first, last]: [f64; 2], limit: f64, acceleration: f64) -> f64 {
    // As fast as it would become without a limit.
    let peak = libm::sqrt(acceleration * length + (first * first + last * last) / 2.0);
    let peak = peak.max(first).max(last);
    if peak <= limit {
        return (2.0 * peak - first - last) / acceleration;
    }
    let changing = (2.0 * limit * limit - first * first - last * last) / (2.0 * acceleration);
    (2.0 * limit - first - last) / acceleration + (length - changing).max(0.0) / limit
}

/// How fast a corner may be taken whose edges have this angle between them.
fn corner_speed(angle: f64, deviation: f64, acceleration: f64) -> f64 {
    let quarter = (PI - angle) / 4.0;
    // 1 - sin(θ/2), without losing what is left of it near a straight line.
    let rest = 2.0 * libm::sin(quarter) * libm::sin(quarter);
    let radius = deviation * libm::sin(angle / 2.0) / rest;
    libm::sqrt(acceleration * radius)
}

#[cfg(test)]
#[path = "machine_tests.rs"]
mod tests;

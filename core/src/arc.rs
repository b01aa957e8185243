//! Arcs: edges of an outline that bulge into the solid.

use crate::length::Nm;
use crate::point::Point;
use crate::round::root;

/// A round edge from one point to another, clockwise about its centre and at most half a circle.
///
/// The solid lies to the left of travel, so an arc bulges into it: the rim of a round hole, the end of a slot, a relieved corner.
/// Points are whole nanometres, so the ends may lie a nanometre nearer to the centre or farther from it than the radius says.
///
/// ```
/// use dryfit_core::{Arc, Nm, Point};
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let rim = Arc { from: p(0.0, 2.0)?, to: p(0.0, -2.0)?, centre: p(0.0, 0.0)? };
/// assert_eq!(rim.radius(), Nm::from_mm(2.0)?);
/// assert_eq!(rim.length(), 6_283_185); // half of 2 pi r
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Arc {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// The middle of its circle.
    pub centre: Point,
}

/// A way in the plane.
type Way = (i128, i128);

/// Ends may be so far off their circle.
#[cfg(feature = "alloc")]
const OFF: i64 = 4;

impl Arc {
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn ways(&self) -> (Way, Way) {
        let way = |p: Point| (i128::from(p.x.nm() - self.centre.x.nm()), i128::from(p.y.nm() - self.centre.y.nm()));
        (way(self.from), way(self.to))
    }

    /// The square of its radius: the mean of both ends'.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn square(&self) -> i128 {
        let (a, b) = self.ways();
        (a.0 * a.0 + a.1 * a.1 + b.0 * b.0 + b.1 * b.1) / 2
    }

    /// Its radius, rounded to the nanometre.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn radius(&self) -> Nm {
        // The root of four times the square is twice the radius, rounded down.
        let twice = root((4 * self.square()).unsigned_abs()) as i64;
        Nm::raw((twice + 1) / 2)
    }

    /// The angle about its centre in radians, 0 to pi.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn angle(&self) -> f64 {
        let (a, b) = self.ways();
        let clockwise = (b.0 * a.1 - b.1 * a.0).max(0);
        libm::atan2(clockwise as f64, (a.0 * b.0 + a.1 * b.1) as f64)
    }

    /// Its length in nanometres, rounded.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn length(&self) -> i64 {
        libm::round(libm::sqrt(self.square() as f64) * self.angle()) as i64
    }

    /// Twice the area between the arc and its chord, r² (α - sin α), in whole square nanometres.
    pub fn twice_segment(&self) -> i128 {
        let (a, b) = self.ways();
        let sector = libm::round(self.square() as f64 * self.angle()) as i128;
        (sector - (b.0 * a.1 - b.1 * a.0).max(0)).max(0)
    }

    /// Points between its two ends, each on the circle to the nanometre, so many that no chord is farther from the arc than `tolerance`.
    pub fn points(&self, tolerance: Nm) -> impl Iterator<Item = Point> + use<> {
        let (arc, steps) = (*self, self.steps(tolerance));
        (1..steps).map(move |step| arc.at(f64::from(step) / f64::from(steps)))
    }

    /// How many equal chords are needed so that none is farther from the arc than `tolerance`: 1 to 100,000.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn steps(&self, tolerance: Nm) -> i32 {
        let radius = libm::sqrt(self.square() as f64);
        let ratio = (tolerance.nm().max(1) as f64 / radius.max(1.0)).min(1.0);
        libm::ceil(self.angle() / (2.0 * libm::acos(1.0 - ratio))).clamp(1.0, 100_000.0) as i32
    }

    /// The point on it after this part of its way, 0 to 1.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn at(&self, part: f64) -> Point {
        let (start, _) = self.ways();
        let radius = libm::sqrt(self.square() as f64);
        let at = libm::atan2(start.1 as f64, start.0 as f64) - self.angle() * part;
        let along = |way: f64| libm::round(radius * way) as i64;
        Point::raw(self.centre.x.nm() + along(libm::cos(at)), self.centre.y.nm() + along(libm::sin(at)))
    }

    /// The two corners of the rectangle on its chord that holds it; whole nanometres, rounded away from the chord.
    #[cfg(feature = "alloc")]
    pub(crate) fn frame(&self) -> [Point; 2] {
        let high = libm::ceil(libm::sqrt(self.square() as f64) * (1.0 - libm::cos(self.angle() / 2.0)));
        let (dx, dy) = ((self.to.x.nm() - self.from.x.nm()) as f64, (self.to.y.nm() - self.from.y.nm()) as f64);
        let chord = libm::hypot(dx, dy).max(1.0);
        // To the left of travel; what is rounded is never less than a nanometre off but for the sign of nothing.
        let out = |way: f64| (libm::ceil(way.abs() / chord * high) as i64) * if way < 0.0 { -1 } else { 1 };
        let (x, y) = (out(-dy), out(dx));
        [self.from, self.to].map(|p| Point::raw(p.x.nm() + x, p.y.nm() + y))
    }

    /// Whether it has a length beyond what is rounded.
    #[cfg(feature = "alloc")]
    pub(crate) fn is_round(&self) -> bool {
        self.square() > i128::from(OFF) * i128::from(OFF)
    }

    /// Why this is no such arc, if it is none.
    #[cfg(feature = "alloc")]
    pub(crate) fn fault(&self) -> Option<&'static str> {
        let (a, b) = self.ways();
        let radius = |way: Way| (way.0 * way.0 + way.1 * way.1).unsigned_abs().isqrt() as i64;
        let turn = a.0 * b.1 - a.1 * b.0;
        let half = turn <= i128::from(OFF) * i128::from(radius(a)) && a.0 * b.0 + a.1 * b.1 < 0;
        if (radius(a) - radius(b)).abs() > OFF {
            Some("an arc whose ends are not as far from its centre")
        } else if turn < 0 || half {
            None
        } else {
            Some("an arc that bulges out of the solid or is more than half a circle")
        }
    }
}

#[cfg(all(test, feature = "alloc"))]
#[path = "arc_tests.rs"]
mod tests;

//! Straight and round moves of a cutter, and how sharply one turns into the next.

use crate::arc::Arc;
use crate::plane::{cross, distance};
use crate::point::Point;
use crate::round::{half, nearest};

/// One straight or round move of the cutter.
///
/// ```
/// use dryfit_core::{Move, Nm, Point};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let half_circle = Move { from: at(0.0, 2.0)?, to: at(0.0, -2.0)?, centre: Some(at(0.0, 0.0)?), clockwise: true };
/// assert_eq!(half_circle.length(), 6_283_185);
/// assert_eq!(half_circle.bounds(), (at(0.0, -2.0)?, at(2.0, 2.0)?));
/// assert_eq!(half_circle.reversed().from, at(0.0, -2.0)?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Move {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// The middle of its circle where it is an arc of at most half of it.
    pub centre: Option<Point>,
    /// Whether it runs clockwise about that centre.
    pub clockwise: bool,
}

#[cfg(feature = "alloc")]
/// A direction in the plane; its length does not matter.
pub(super) type Way = (i128, i128);

#[cfg(feature = "alloc")]
/// A way turns where the sine of the angle between its directions is more than one in so many of its cosine: about a degree.
const SMOOTH: i128 = 57;

impl Move {
    /// The arc in its clockwise sense, if it is one.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn arc(&self) -> Option<Arc> {
        let centre = self.centre?;
        let (from, to) = if self.clockwise { (self.from, self.to) } else { (self.to, self.from) };
        Some(Arc { from, to, centre })
    }

    /// The same move the other way round.
    #[must_use]
    pub fn reversed(self) -> Move {
        Move { from: self.to, to: self.from, clockwise: !self.clockwise, ..self }
    }

    /// Its length in nanometres, rounded.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn length(&self) -> i64 {
        self.arc().map_or_else(|| distance(self.from, self.to), |arc| arc.length())
    }

    /// The middle of a straight move, rounded down to the nanometre.
    pub fn middle(&self) -> Option<Point> {
        let between = |a: i64, b: i64| half(a.saturating_add(b));
        let middle = Point::raw(between(self.from.x.nm(), self.to.x.nm()), between(self.from.y.nm(), self.to.y.nm()));
        self.centre.is_none().then_some(middle)
    }

    #[cfg(feature = "alloc")]
    /// A straight move in two.
    pub(super) fn halves(self) -> Option<[Move; 2]> {
        self.middle().map(|middle| [Move { to: middle, ..self }, Move { from: middle, ..self }])
    }

    /// The same move in two, the first so many nanometres long, where it is as long as that; the point between is rounded to the nanometre.
    ///
    /// ```
    /// use dryfit_core::{Move, Nm, Point};
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
    /// let way = Move { from: at(0.0, 0.0)?, to: at(30.0, 40.0)?, centre: None, clockwise: true };
    /// let [before, beyond] = way.split(10_000_000);
    /// assert_eq!((before.to, beyond.from), (at(6.0, 8.0)?, at(6.0, 8.0)?));
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn split(self, length: i64) -> [Move; 2] {
        let whole = self.length();
        let between = if length <= 0 {
            self.from
        } else if length >= whole {
            self.to
        } else {
            self.point(length, whole)
        };
        [Move { to: between, ..self }, Move { from: between, ..self }]
    }

    /// The point so far along it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn point(&self, along: i64, whole: i64) -> Point {
        let Some(arc) = self.arc() else {
            let part = |from: i64, to: i64| from + nearest(i128::from(to - from) * i128::from(along), i128::from(whole));
            return Point::raw(part(self.from.x.nm(), self.to.x.nm()), part(self.from.y.nm(), self.to.y.nm()));
        };
        arc.at(if self.clockwise { along } else { whole - along } as f64 / whole as f64)
    }

    /// Lowest and highest corner of its bounding rectangle.
    pub fn bounds(&self) -> (Point, Point) {
        let (a, b) = (self.from, self.to);
        let straight = (Point::new(a.x.min(b.x), a.y.min(b.y)), Point::new(a.x.max(b.x), a.y.max(b.y)));
        let Some(arc) = self.arc() else { return straight };
        let (c, r) = (arc.centre, arc.radius());
        let outermost = [Point::new(c.x + r, c.y), Point::new(c.x - r, c.y), Point::new(c.x, c.y + r), Point::new(c.x, c.y - r)];
        // A clockwise arc lies to the left of its chord.
        let on = outermost.into_iter().filter(|&p| cross(arc.from, arc.to, p) > 0);
        on.fold(straight, |(lo, hi), p| (Point::new(lo.x.min(p.x), lo.y.min(p.y)), Point::new(hi.x.max(p.x), hi.y.max(p.y))))
    }

    #[cfg(feature = "alloc")]
    /// The direction in which it leaves its start.
    pub(super) fn leaving(&self) -> Way {
        self.way_at(self.from)
    }

    #[cfg(feature = "alloc")]
    /// The direction in which it arrives at its end.
    pub(super) fn arriving(&self) -> Way {
        self.way_at(self.to)
    }

    #[cfg(feature = "alloc")]
    fn way_at(&self, at: Point) -> Way {
        let between = |a: Point, b: Point| (i128::from(b.x.nm()) - i128::from(a.x.nm()), i128::from(b.y.nm()) - i128::from(a.y.nm()));
        let Some(centre) = self.centre else { return between(self.from, self.to) };
        let (x, y) = between(centre, at);
        if self.clockwise { (y, -x) } else { (-y, x) }
    }

    #[cfg(feature = "alloc")]
    /// Whether there is a corner between this move and the next.
    pub(super) fn turns_into(&self, next: &Move) -> bool {
        let (sine, cosine) = turn(self.arriving(), next.leaving());
        SMOOTH * sine.abs() > cosine
    }
}

#[cfg(feature = "alloc")]
/// Sine and cosine of the angle from one way to another, both times the product of their lengths.
pub(super) fn turn(a: Way, b: Way) -> (i128, i128) {
    (a.0 * b.1 - a.1 * b.0, a.0 * b.0 + a.1 * b.1)
}

#[cfg(feature = "alloc")]
/// Every two moves that follow each other, those without a length left out; where the line is closed also the last and the first.
pub(super) fn turns(moves: impl Iterator<Item = Move>, closed: bool) -> impl Iterator<Item = [Move; 2]> {
    let mut moves = moves.filter(|edge| edge.from != edge.to);
    let first = moves.next();
    let mut last = first;
    moves.map(Some).chain(core::iter::once(first.filter(|_| closed))).filter_map(move |next| Some([core::mem::replace(&mut last, next)?, next?]))
}

//! A nominal outline moved by allowances and kerf, edge by edge.
//!
//! A vertex between perpendicular edges moves with both. Between collinear edges that move differently the outline steps, and the
//! step moves by the kerf like any edge; where they move alike the vertex is dropped. So moving by nothing gives the plain outline.

use super::fit::{Corner, Fit, Role, Vertex};
use crate::point::Point;

/// A unit step along an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Heading {
    x: i64,
    y: i64,
}

impl Heading {
    fn between(from: Point, to: Point) -> Heading {
        Heading { x: (to.x.nm() - from.x.nm()).signum(), y: (to.y.nm() - from.y.nm()).signum() }
    }

    fn along(self, from: Point, to: Point) -> i64 {
        self.x * (to.x.nm() - from.x.nm()) + self.y * (to.y.nm() - from.y.nm())
    }

    /// `shift` to the right of travel: out of a board that lies to the left.
    fn outwards(self, shift: i64) -> (i64, i64) {
        (self.y * shift, -self.x * shift)
    }
}

/// An edge with where it goes.
#[derive(Clone, Copy, Debug)]
struct Course {
    heading: Heading,
    shift: i64,
    role: Role,
}

/// The vertices of a ring of [`Corner`]s after the move, in order from its first corner.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Moved<I> {
    ring: I,
    fit: Fit,
    grow: i64,
    first: Corner,
    now: Corner,
    before: Course,
    left: usize,
}

impl<I: Iterator<Item = Corner> + Clone> Moved<I> {
    /// `ring` is a closed outline of `count` corners, the board on its left; `grow` is half the kerf.
    #[cfg(feature = "alloc")]
    pub(crate) fn new(ring: I, count: usize, fit: Fit, grow: i64) -> Option<Moved<I>> {
        let mut rest = ring.clone();
        let first = rest.next()?;
        let last = rest.clone().last()?;
        let before = course(&last, first.at, fit, grow);
        Some(Moved { ring: rest, fit, grow, first, now: first, before, left: count })
    }

    /// A few corners in a row, out of a ring: `before` starts the edge that arrives at the first of them, and the edge that leaves
    /// the last goes through `beyond`.
    pub(super) fn part(before: Corner, mut corners: I, beyond: Point, fit: Fit, grow: i64) -> Option<Moved<I>> {
        let left = corners.size_hint().0;
        let now = corners.next()?;
        let before = course(&before, now.at, fit, grow);
        Some(Moved { ring: corners, fit, grow, first: Corner { at: beyond, ..now }, now, before, left })
    }

    /// Hands out all vertices of a ring; or the place of an edge that has no length left.
    #[cfg(feature = "alloc")]
    pub(crate) fn each(mut self, mut out: impl FnMut(Vertex)) -> Result<(), Point> {
        let Some(first) = self.step() else { return Ok(()) };
        let mut last = first;
        loop {
            last.vertices().into_iter().flatten().for_each(&mut out);
            let next = self.step();
            // The last edge ends back at the first corner.
            if !last.reaches(next.unwrap_or(first).end) {
                return Err(last.start);
            }
            let Some(next) = next else { return Ok(()) };
            last = next;
        }
    }

    /// What becomes of the next corner.
    #[inline]
    pub(super) fn step(&mut self) -> Option<Moving> {
        self.left = self.left.checked_sub(1)?;
        let next = self.ring.next().unwrap_or(self.first);
        let before = self.before;
        let after = course(&self.now, next.at, self.fit, self.grow);
        let (bx, by) = before.heading.outwards(before.shift);
        let (ax, ay) = after.heading.outwards(after.shift);
        let (x, y) = (self.now.at.x.nm(), self.now.at.y.nm());
        self.before = after;
        self.now = next;
        if before.heading != after.heading {
            let corner = Point::raw(x + bx + ax, y + by + ay);
            return Some(Moving { end: corner, start: corner, dropped: false, after });
        }
        let (end, start) = (Point::raw(x + bx, y + by), Point::raw(x + ax, y + ay));
        let (kx, ky) = Heading::between(end, start).outwards(self.grow);
        let by_kerf = |p: Point| Point::raw(p.x.nm() + kx, p.y.nm() + ky);
        Some(Moving { end: by_kerf(end), start: by_kerf(start), dropped: before.shift == after.shift, after })
    }
}

/// A corner after the move.
#[derive(Clone, Copy, Debug)]
pub(super) struct Moving {
    /// Where the edge that arrives ends.
    pub end: Point,
    /// Where the edge that leaves starts: elsewhere if the outline steps.
    pub start: Point,
    /// The outline goes straight on.
    dropped: bool,
    after: Course,
}

impl Moving {
    /// No vertex, one, or two.
    pub fn vertices(&self) -> [Option<Vertex>; 2] {
        let end = (self.end != self.start).then_some(Vertex { at: self.end, role: Role::Free });
        let start = Vertex { at: self.start, role: self.after.role };
        if self.dropped { [None, None] } else { [end, Some(start)] }
    }

    /// Whether the edge that leaves keeps a length if it ends at `end`.
    pub fn reaches(&self, end: Point) -> bool {
        self.after.heading.along(self.start, end) > 0
    }
}

fn course(corner: &Corner, to: Point, fit: Fit, grow: i64) -> Course {
    Course { heading: Heading::between(corner.at, to), shift: fit.shift(corner.role, corner.share).nm() + grow, role: corner.role }
}

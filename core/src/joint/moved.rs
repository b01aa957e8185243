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
    /// The second vertex of a step.
    pending: Option<Vertex>,
    left: usize,
}

impl<I: Iterator<Item = Corner> + Clone> Moved<I> {
    /// `ring` is a closed outline of `count` corners, the board on its left; `grow` is half the kerf.
    pub(crate) fn new(ring: I, count: usize, fit: Fit, grow: i64) -> Option<Moved<I>> {
        let mut rest = ring.clone();
        let first = rest.next()?;
        let last = rest.clone().last()?;
        let before = course(&last, first.at, fit, grow);
        Some(Moved { ring: rest, fit, grow, first, now: first, before, pending: None, left: count })
    }

    /// The number of vertices and the index of the lowest, then leftmost; or the place of an edge that has no length left.
    pub(crate) fn survey(&self) -> Result<(usize, usize), Point> {
        let mut walk = self.clone();
        let Some(first) = walk.next_pair() else { return Ok((0, 0)) };
        let (mut count, mut lowest, mut lowest_at) = (0, 0, first.0);
        let mut from = first;
        let mut note = |point: Point, count: &mut usize| {
            if (point.y, point.x) < (lowest_at.y, lowest_at.x) {
                (lowest, lowest_at) = (*count, point);
            }
            *count += 1;
        };
        let mut edge = walk.before;
        let mut step = Some(first);
        while let Some((end, start, drop)) = step {
            if !drop {
                note(end, &mut count);
                if end != start {
                    note(start, &mut count);
                }
            }
            let next = walk.next_pair();
            // Where this edge ends: at the next corner, or back at the first.
            let (end, ..) = next.unwrap_or(first);
            if edge.heading.along(start, end) <= 0 {
                return Err(from.1);
            }
            edge = walk.before;
            if let Some(next) = next {
                from = next;
            }
            step = next;
        }
        Ok((count, lowest))
    }

    /// At the next corner: where the arriving edge ends, where the leaving one starts, and whether the corner is dropped.
    fn next_pair(&mut self) -> Option<(Point, Point, bool)> {
        self.left = self.left.checked_sub(1)?;
        let next = self.ring.next().unwrap_or(self.first);
        let after = course(&self.now, next.at, self.fit, self.grow);
        let (bx, by) = self.before.heading.outwards(self.before.shift);
        let (ax, ay) = after.heading.outwards(after.shift);
        let (x, y) = (self.now.at.x.nm(), self.now.at.y.nm());
        let straight = self.before.heading == after.heading;
        let pair = if straight {
            let (end, start) = (Point::raw(x + bx, y + by), Point::raw(x + ax, y + ay));
            let (kx, ky) = Heading::between(end, start).outwards(self.grow);
            let by_kerf = |p: Point| Point::raw(p.x.nm() + kx, p.y.nm() + ky);
            (by_kerf(end), by_kerf(start), self.before.shift == after.shift)
        } else {
            let corner = Point::raw(x + bx + ax, y + by + ay);
            (corner, corner, false)
        };
        self.before = after;
        self.now = next;
        Some(pair)
    }
}

fn course(corner: &Corner, to: Point, fit: Fit, grow: i64) -> Course {
    Course { heading: Heading::between(corner.at, to), shift: fit.shift(corner.role, corner.share).nm() + grow, role: corner.role }
}

impl<I: Iterator<Item = Corner> + Clone> Iterator for Moved<I> {
    type Item = Vertex;

    #[inline]
    fn next(&mut self) -> Option<Vertex> {
        if let Some(vertex) = self.pending.take() {
            return Some(vertex);
        }
        loop {
            let (end, start, drop) = self.next_pair()?;
            if drop {
                continue;
            }
            let leaving = Vertex { at: start, role: self.before.role };
            if end == start {
                return Some(leaving);
            }
            self.pending = Some(leaving);
            return Some(Vertex { at: end, role: Role::Free });
        }
    }
}

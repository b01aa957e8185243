//! A nominal outline moved by allowances and kerf, edge by edge.
//!
//! A vertex between two edges moves with both, each square to itself. Between collinear edges that move differently the outline steps, and the
//! step moves by the kerf like any edge; where they move alike the vertex is dropped. So moving by nothing gives the plain outline.

use super::fit::{Corner, Fit, Role, Vertex};
use crate::point::Point;
use crate::round::{nearest, root};

/// An edge with where it goes, as a way from its start to its end.
#[derive(Clone, Copy, Debug)]
struct Course {
    x: i64,
    y: i64,
    shift: i64,
    role: Role,
    /// Its length times 2 to the power of [`SCALE`], if it leans.
    root: i128,
}

impl Course {
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn between(from: Point, to: Point, shift: i64, role: Role) -> Course {
        let mut course = Course { x: to.x.nm() - from.x.nm(), y: to.y.nm() - from.y.nm(), shift, role, root: 0 };
        if course.leans() {
            course.root = course.measure();
        }
        course
    }

    #[cold]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn measure(&self) -> i128 {
        i128::from(root((self.dot((self.x, self.y)) << (2 * SCALE)).unsigned_abs()))
    }

    /// Along neither axis.
    fn leans(&self) -> bool {
        self.x != 0 && self.y != 0
    }

    /// Goes on in the direction of `other`.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn parallel(&self, other: &Course) -> bool {
        if self.leans() || other.leans() {
            return self.cross(other) == 0 && self.dot((other.x, other.y)) > 0;
        }
        (self.x.signum(), self.y.signum()) == (other.x.signum(), other.y.signum())
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn cross(&self, other: &Course) -> i128 {
        i128::from(self.x) * i128::from(other.y) - i128::from(self.y) * i128::from(other.x)
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn dot(&self, (x, y): (i64, i64)) -> i128 {
        i128::from(self.x) * i128::from(x) + i128::from(self.y) * i128::from(y)
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn length(&self) -> i128 {
        if self.leans() { self.root } else { i128::from(self.x.abs() + self.y.abs()) << SCALE }
    }

    /// `shift` square to the edge, to the right of travel: out of a board that lies to the left.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn outwards(&self, shift: i64) -> (i64, i64) {
        if self.leans() {
            let along = |way: i64| nearest((i128::from(way) * i128::from(shift)) << SCALE, self.length());
            return (along(self.y), -along(self.x));
        }
        (self.y.signum() * shift, -self.x.signum() * shift)
    }

    /// Where the corner between this edge and the next moves to when each moves by its shift.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn corner(&self, next: &Course) -> (i64, i64) {
        if self.leans() || next.leans() {
            return self.leaning_corner(next);
        }
        let ((bx, by), (ax, ay)) = (self.outwards(self.shift), next.outwards(next.shift));
        (bx + ax, by + ay)
    }

    /// The same with square roots. Of unit vectors e and f along the two edges, the corner moves by (f's shift e - e's shift f) / (e x f).
    #[cold]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn leaning_corner(&self, next: &Course) -> (i64, i64) {
        let (e, f) = (self.length(), next.length());
        let turn = self.cross(next) << SCALE;
        if turn == 0 {
            return self.outwards(self.shift);
        }
        let part = |own: i64, other: i64| {
            let far = i128::from(next.shift) * i128::from(own) * f - i128::from(self.shift) * i128::from(other) * e;
            nearest(far * turn.signum(), turn.abs())
        };
        (part(self.x, next.x), part(self.y, next.y))
    }
}

/// Bits behind the point of a length that is a square root: a shift then is right to a millionth of a nanometre before it is rounded.
const SCALE: u32 = 26;

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
    #[cfg_attr(target_pointer_width = "32", inline(never))]
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
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn step(&mut self) -> Option<Moving> {
        self.left = self.left.checked_sub(1)?;
        let next = self.ring.next().unwrap_or(self.first);
        let before = self.before;
        let after = course(&self.now, next.at, self.fit, self.grow);
        let (x, y) = (self.now.at.x.nm(), self.now.at.y.nm());
        self.before = after;
        self.now = next;
        let by = |(dx, dy): (i64, i64)| Point::raw(x + dx, y + dy);
        if !before.parallel(&after) {
            let corner = by(before.corner(&after));
            return Some(Moving { end: corner, start: corner, dropped: false, after });
        }
        let (end, start) = (by(before.outwards(before.shift)), by(after.outwards(after.shift)));
        let (kx, ky) = Course::between(end, start, 0, Role::Free).outwards(self.grow);
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
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn vertices(&self) -> [Option<Vertex>; 2] {
        let end = (self.end != self.start).then_some(Vertex { at: self.end, role: Role::Free });
        let start = Vertex { at: self.start, role: self.after.role };
        if self.dropped { [None, None] } else { [end, Some(start)] }
    }

    /// Whether the edge that leaves keeps a length if it ends at `end`.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn reaches(&self, end: Point) -> bool {
        let way = (end.x.nm() - self.start.x.nm(), end.y.nm() - self.start.y.nm());
        if self.after.leans() {
            return self.after.dot(way) > 0;
        }
        self.after.x.signum() * way.0 + self.after.y.signum() * way.1 > 0
    }
}

#[cfg_attr(target_pointer_width = "32", inline(never))]
fn course(corner: &Corner, to: Point, fit: Fit, grow: i64) -> Course {
    Course::between(corner.at, to, corner.shift(fit) + grow, corner.role)
}

//! Outlines where they lie, as plain edges.

use alloc::vec::Vec;

use crate::plane::cross;
use crate::point::Point;
use crate::shape::Shape;

/// An edge, the solid on its left; of an arc the chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Edge {
    pub a: Point,
    pub b: Point,
    /// It is no arc.
    pub straight: bool,
    /// Its place among the part's edges.
    pub number: usize,
}

impl Edge {
    pub fn lo(&self) -> [i64; 2] {
        [self.a.x.nm().min(self.b.x.nm()), self.a.y.nm().min(self.b.y.nm())]
    }

    pub fn hi(&self) -> [i64; 2] {
        [self.a.x.nm().max(self.b.x.nm()), self.a.y.nm().max(self.b.y.nm())]
    }

    /// From its beginning to its end.
    pub fn way(&self) -> [i64; 2] {
        [(self.b.x - self.a.x).nm(), (self.b.y - self.a.y).nm()]
    }

    /// Whether it runs along an axis.
    pub fn plain(&self) -> bool {
        self.a.x == self.b.x || self.a.y == self.b.y
    }

    /// On which side of its line a point lies: 1 left, -1 right, 0 on it.
    pub fn side(&self, p: Point) -> i128 {
        cross(self.a, self.b, p).signum()
    }

    /// How far along it a point lies, times its length.
    pub fn along(&self, p: Point) -> i128 {
        let [x, y] = self.way().map(i128::from);
        x * i128::from((p.x - self.a.x).nm()) + y * i128::from((p.y - self.a.y).nm())
    }

    /// The square of its length.
    pub fn square(&self) -> i128 {
        self.along(self.b)
    }

    /// Whether a point lies on it, between its ends.
    pub fn holds(&self, p: Point) -> bool {
        let along = self.along(p);
        0 < along && along < self.square() && self.side(p) == 0
    }

    /// Whether the two cross at a point that is an end of neither.
    pub fn crosses(&self, other: &Edge) -> bool {
        self.side(other.a) * self.side(other.b) < 0 && other.side(self.a) * other.side(self.b) < 0
    }
}

/// How far two boxes stand apart along the axis along which they do so more; nothing or less where they touch or overlap.
pub(super) fn gap(a: ([i64; 2], [i64; 2]), b: ([i64; 2], [i64; 2])) -> i64 {
    let ([ax, ay], [aw, ah]) = a;
    let ([bx, by], [bw, bh]) = b;
    (bx - aw).max(ax - bw).max(by - ah).max(ay - bh)
}

/// A part where it lies.
#[derive(Clone, Debug)]
pub(super) struct Placed<'a> {
    /// Its place among the parts of the sheet.
    pub number: usize,
    pub name: &'a str,
    pub edges: Vec<Edge>,
    pub lo: [i64; 2],
    pub hi: [i64; 2],
}

impl<'a> Placed<'a> {
    pub fn of(number: usize, name: &'a str, shape: &Shape) -> Placed<'a> {
        let mut edges = Vec::with_capacity(shape.vertices().len());
        for ring in shape.rings() {
            let next = ring.vertices().iter().skip(1).chain(ring.vertices().first());
            for ((from, centre), to) in ring.bent().zip(next) {
                if from.at != to.at {
                    edges.push(Edge { a: from.at, b: to.at, straight: centre.is_none(), number: edges.len() });
                }
            }
        }
        let (lo, hi) = shape.bounds();
        Placed { number, name, edges, lo: [lo.x.nm(), lo.y.nm()], hi: [hi.x.nm(), hi.y.nm()] }
    }

    pub fn reach(&self) -> ([i64; 2], [i64; 2]) {
        (self.lo, self.hi)
    }

    /// Whether the middle of two points lies inside the solid, on none of its edges.
    pub fn has_inside(&self, u: Point, v: Point) -> bool {
        // Twice as large, the middle is a whole point.
        let middle = Point::raw(u.x.nm() + v.x.nm(), u.y.nm() + v.y.nm());
        let ([left, low], [right, high]) = self.reach();
        let (x, y) = (middle.x.nm(), middle.y.nm());
        if x <= 2 * left || x >= 2 * right || y <= 2 * low || y >= 2 * high {
            return false;
        }
        let mut inside = false;
        for edge in &self.edges {
            let [(ax, ay), (bx, by)] = [edge.a, edge.b].map(|p| (2 * p.x.nm(), 2 * p.y.nm()));
            if y < ay.min(by) || y > ay.max(by) || x > ax.max(bx) {
                continue;
            }
            let side = cross(Point::raw(ax, ay), Point::raw(bx, by), middle);
            if side == 0 && x >= ax.min(bx) {
                return false;
            }
            // A ray to the right crosses it.
            inside ^= (ay > y) != (by > y) && (side > 0) == (by > ay);
        }
        inside
    }
}

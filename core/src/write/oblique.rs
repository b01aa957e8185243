//! Turned boards in the picture: where their corners stand, which face is seen, and what is behind what.

use crate::assembly::Board;
use crate::point::{Axis, Point};

/// From the scene towards the viewer, who looks from the front, the right and above.
const VIEWER: [f64; 3] = [1.0, -1.0, 1.0];

type Vector = [f64; 3];

fn dot(a: Vector, b: Vector) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn cross([a, b, c]: Vector, [x, y, z]: Vector) -> Vector {
    [b * z - c * y, c * x - a * z, a * y - b * x]
}

/// A board's own axes where it stands, in nanometres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stand {
    origin: Vector,
    axes: [Vector; 3],
    size: Vector,
}

impl Stand {
    pub(super) fn of(board: &Board, offset: [i64; 3]) -> Stand {
        let [[a, b, c, x], [d, e, f, y], [g, h, i, z], _] = board.frame().matrix();
        let (u, v) = board.normal().plane();
        let mut origin = [x, y, z].map(|mm| mm * 1e6);
        for (place, by) in origin.iter_mut().zip(offset) {
            *place += by as f64;
        }
        let size = [u, v, board.normal()].map(|axis| board.size(axis) as f64);
        Stand { origin, axes: [[a, d, g], [b, e, h], [c, f, i]], size }
    }

    fn at(&self, place: Vector) -> Vector {
        let mut at = self.origin;
        for (axis, far) in self.axes.iter().zip(place) {
            for (sum, part) in at.iter_mut().zip(axis) {
                *sum += part * far;
            }
        }
        at
    }

    /// Whether the face at the full thickness is seen, or the one at nothing.
    fn face(&self) -> (Vector, bool) {
        let [_, _, w] = self.axes;
        if dot(w, VIEWER) > 0.0 { (w, true) } else { (w.map(|x| -x), false) }
    }

    /// A point of the outline on the face that is seen, or on the one behind.
    pub(super) fn point(&self, p: Point, seen: bool) -> [i64; 3] {
        let [_, _, thick] = self.size;
        let (_, upper) = self.face();
        self.at([p.x.nm() as f64, p.y.nm() as f64, if seen == upper { thick } else { 0.0 }]).map(|x| libm::round(x) as i64)
    }

    /// Where letters on the seen face go on, and where down is.
    pub(super) fn letters(&self) -> [Vector; 2] {
        let [u, v, _] = self.axes;
        [if self.face().1 { u } else { u.map(|x| -x) }, v.map(|x| -x)]
    }

    /// Towards the viewer in the board's plane, in thousandths.
    pub(super) fn sight(&self) -> (i64, i64) {
        let [u, v, _] = self.axes;
        (libm::round(dot(u, VIEWER) * 1e3) as i64, libm::round(dot(v, VIEWER) * 1e3) as i64)
    }

    /// The axis that the seen face comes nearest to facing.
    pub(super) fn facing(&self) -> Axis {
        nearest(self.face().0)
    }

    /// The same of a wall along an edge of the outline.
    pub(super) fn wall_facing(&self, dx: i64, dy: i64) -> Axis {
        let [u, v, _] = self.axes;
        let (dx, dy) = (dx as f64, dy as f64);
        let [a, b, c] = u;
        let [d, e, f] = v;
        nearest([dy * a - dx * d, dy * b - dx * e, dy * c - dx * f])
    }

    fn corners(&self) -> [Vector; 8] {
        let [a, b, c] = self.size;
        [0, 1, 2, 3, 4, 5, 6, 7]
            .map(|n: u8| self.at([if n & 1 > 0 { a } else { 0.0 }, if n & 2 > 0 { b } else { 0.0 }, if n & 4 > 0 { c } else { 0.0 }]))
    }

    /// A rectangle of the seen face, as a board of no thickness.
    pub(super) fn patch(&self, lo: Point, hi: Point) -> Stand {
        let [_, _, thick] = self.size;
        let (_, upper) = self.face();
        let origin = self.at([lo.x.nm() as f64, lo.y.nm() as f64, if upper { thick } else { 0.0 }]);
        Stand { origin, size: [(hi.x - lo.x).nm() as f64, (hi.y - lo.y).nm() as f64, 0.0], ..*self }
    }

    /// Whether the two pictures share an area: no line along any of their sides parts them.
    pub(super) fn overlaps_in_view(&self, other: &Stand) -> bool {
        let (a, b) = (self.corners(), other.corners());
        self.axes.iter().chain(&other.axes).all(|&axis| {
            let across = cross(axis, VIEWER);
            let reach = |corners: &[Vector]| {
                corners.iter().map(|&p| dot(p, across)).fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), x| (lo.min(x), hi.max(x)))
            };
            let ((a0, a1), (b0, b1)) = (reach(&a), reach(&b));
            dot(across, across) < 1e-9 || (a0 + 1.0 < b1 && b0 + 1.0 < a1)
        })
    }

    /// Whether this board is hidden by `other` in part. A face of either that parts them decides; if none does, which middle is nearer.
    pub(super) fn behind(&self, other: &Stand) -> bool {
        if !self.overlaps_in_view(other) {
            return false;
        }
        if let Some(before) = self.parts(other) {
            return before;
        }
        if let Some(before) = other.parts(self) {
            return !before;
        }
        let middle = |stand: &Stand| dot(stand.at(stand.size.map(|x| x / 2.0)), VIEWER);
        middle(self) < middle(other)
    }

    /// If all of `other` lies beyond one of this board's faces: whether that face is seen.
    fn parts(&self, other: &Stand) -> Option<bool> {
        let corners = other.corners();
        self.axes.iter().zip(self.size).find_map(|(&axis, size)| {
            let far = |p: Vector| dot(p, axis) - dot(self.origin, axis);
            let sight = dot(axis, VIEWER);
            if corners.iter().all(|&p| far(p) >= size - 1e3) {
                return Some(sight > 0.0);
            }
            corners.iter().all(|&p| far(p) <= 1e3).then_some(sight < 0.0)
        })
    }
}

/// The axis to which a direction towards the viewer comes nearest.
fn nearest(direction: Vector) -> Axis {
    let [x, y, z] = direction.map(libm::fabs);
    if z >= x && z >= y {
        Axis::Z
    } else if y >= x {
        Axis::Y
    } else {
        Axis::X
    }
}

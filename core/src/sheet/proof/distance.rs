//! How far apart two outlines are: exact, then rounded down to the nanometre.

use super::edge::{Edge, Placed, gap};
use super::near::near_edges;
use crate::plane;
use crate::point::Point;

/// The least distance of the edges of two parts and where it is, unless it is more than `far`.
pub(super) fn distance(a: &Placed<'_>, b: &Placed<'_>, far: i64) -> Option<(i64, Point)> {
    let mut least: Option<(i64, Point)> = None;
    near_edges(a, b, far, |e, f| {
        // Their boxes are no farther apart than they are.
        if least.is_some_and(|least| gap((e.lo(), e.hi()), (f.lo(), f.hi())) >= least.0) {
            return;
        }
        let found = apart(e, f);
        if found.0 <= far && least.is_none_or(|least| found.0 < least.0) {
            least = Some(found);
        }
    });
    least
}

/// The distance of two edges, and a point of one of them that has it.
fn apart(e: &Edge, f: &Edge) -> (i64, Point) {
    if e.plain() && f.plain() {
        let ([ex, ey], [ew, eh]) = (e.lo(), e.hi());
        let ([fx, fy], [fw, fh]) = (f.lo(), f.hi());
        let by = Point::raw((fx - ew).max(ex - fw).max(0), (fy - eh).max(ey - fh).max(0));
        return (plane::distance(Point::default(), by), Point::raw(fx.clamp(ex, ew), fy.clamp(ey, eh)));
    }
    if e.crosses(f) {
        return (0, e.a);
    }
    // Edges that do not cross are nearest at an end of one.
    let ends = [(f.a, e), (f.b, e), (e.a, f), (e.b, f)];
    let ends = ends.map(|(p, edge)| (from_edge(p, edge), p));
    ends.into_iter().min_by_key(|(apart, _)| *apart).unwrap_or((0, e.a))
}

/// The distance of a point from an edge.
fn from_edge(p: Point, edge: &Edge) -> i64 {
    let along = edge.along(p);
    if along <= 0 {
        plane::distance(p, edge.a)
    } else if along >= edge.square() {
        plane::distance(p, edge.b)
    } else {
        over_length(plane::cross(edge.a, edge.b, p).abs(), edge.way())
    }
}

/// A number that is not negative, divided by the length of a way, rounded down: exact, although its square may exceed all numbers at hand.
pub(super) fn over_length(number: i128, [x, y]: [i64; 2]) -> i64 {
    let [x, y] = [x, y].map(|side| i128::from(side).abs());
    if x == 0 || y == 0 {
        return (number / (x + y).max(1)) as i64;
    }
    // With the length between L and L + 1, and its square L² + e: d of the length fit in while (n - d L) (n + d L) >= d² e.
    let square = x * x + y * y;
    let root = square.isqrt();
    let rest = square - root * root;
    let (mut fits, mut most) = (number / (root + 1), number / root);
    while fits < most {
        let d = fits + (most - fits + 1) / 2;
        if (number - d * root) * (number + d * root) >= d * d * rest { fits = d } else { most = d - 1 }
    }
    fits as i64
}

#[cfg(test)]
#[path = "distance_tests.rs"]
mod tests;

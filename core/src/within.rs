//! Whether a rectangle lies wholly on solid board.

use crate::length::Nm;
use crate::plane::cross;
use crate::point::Point;
use crate::shape::Shape;

/// Whether the rectangle lies wholly on solid board, without touching an edge; `centre` is a point of it. Of arcs only the chords are seen.
pub(crate) fn solid(shape: &Shape, lo: Point, hi: Point, centre: Point) -> bool {
    shape.edges().all(|(a, b)| !meets(a, b, lo, hi)) && inside(shape, centre)
}

/// Whether the edge from `a` to `b` and the rectangle have a point in common.
fn meets(a: Point, b: Point, lo: Point, hi: Point) -> bool {
    if a.x.max(b.x) < lo.x || a.x.min(b.x) > hi.x || a.y.max(b.y) < lo.y || a.y.min(b.y) > hi.y {
        return false;
    }
    if a.x == b.x || a.y == b.y {
        return true;
    }
    // Sloped: it misses the rectangle where all corners lie on one side.
    let side = |x: Nm, y: Nm| cross(a, b, Point::new(x, y)).signum();
    let sides = [side(lo.x, lo.y), side(hi.x, lo.y), side(hi.x, hi.y), side(lo.x, hi.y)];
    !(sides.iter().all(|&s| s > 0) || sides.iter().all(|&s| s < 0))
}

/// Whether a ray to the right crosses an odd number of edges.
fn inside(shape: &Shape, p: Point) -> bool {
    let crossed = |&(a, b): &(Point, Point)| (a.y > p.y) != (b.y > p.y) && (cross(a, b, p) > 0) == (b.y > a.y);
    shape.edges().filter(crossed).count() % 2 == 1
}

//! Products and distances in the plane, in whole numbers.

use crate::point::Point;
use crate::round::root;

#[cfg(feature = "alloc")]
/// Twice the area of the triangle origin, a, b.
pub(crate) fn twice_cross(a: Point, b: Point) -> i128 {
    i128::from(a.x.nm()) * i128::from(b.y.nm()) - i128::from(b.x.nm()) * i128::from(a.y.nm())
}

/// Twice the area of the triangle a, b, c: positive if the way turns left at b.
pub(crate) fn cross(a: Point, b: Point, c: Point) -> i128 {
    let way = |from: Point, to: Point| (i128::from(to.x.nm()) - i128::from(from.x.nm()), i128::from(to.y.nm()) - i128::from(from.y.nm()));
    let ((ux, uy), (vx, vy)) = (way(a, b), way(b, c));
    ux * vy - uy * vx
}

#[cfg(feature = "alloc")]
/// Whether the way a, b, c turns at b, or goes back there no more than straight on: along the axes without a product.
pub(crate) fn turns(a: Point, b: Point, c: Point) -> bool {
    let step = |from: i64, to: i64| from != to;
    let (ux, uy) = (step(a.x.nm(), b.x.nm()), step(a.y.nm(), b.y.nm()));
    let (vx, vy) = (step(b.x.nm(), c.x.nm()), step(b.y.nm(), c.y.nm()));
    if ux & uy | vx & vy { cross(a, b, c) != 0 } else { ux & vy | uy & vx }
}

/// The distance of two points, rounded down to the nanometre.
pub(crate) fn distance(a: Point, b: Point) -> i64 {
    let (dx, dy) = ((b.x - a.x).nm(), (b.y - a.y).nm());
    if dx == 0 || dy == 0 {
        return dx.abs() + dy.abs();
    }
    root((i128::from(dx) * i128::from(dx) + i128::from(dy) * i128::from(dy)).unsigned_abs()) as i64
}

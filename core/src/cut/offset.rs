//! Whole outlines moved by one amount.

use alloc::vec::Vec;

use crate::joint::{Corner, Fit, Moved, RIGHT, Role, Share, Vertex};
use crate::point::Point;
use crate::round::nearest;
use crate::shape::{Ring, Shape};

/// Every edge moved outwards by the same amount (inwards if negative).
pub(super) fn offset(shape: &Shape, grow: i64) -> Shape {
    if grow == 0 {
        return shape.clone();
    }
    let mut out = Shape::with_capacity(shape.vertices().len(), shape.loops().len());
    for ring in shape.rings() {
        out.push_bent(grown(ring, grow));
    }
    out.sort_loops();
    out
}

/// The vertices of a loop after the move, one for each and in their order, with the centres of the arcs.
///
/// Arcs have to go on smoothly at both ends, as those of holes do: a vertex at their ends moves towards the centre.
pub(super) fn grown(ring: Ring, grow: i64) -> Vec<(Vertex, Option<Point>)> {
    let plain = ring.vertices().iter().map(|v| Corner { at: v.at, role: Role::Free, share: Share::Full, mate: Corner::NOBODY, sine: RIGHT });
    let mut places = Vec::with_capacity(ring.vertices().len());
    // One vertex in, one vertex out: without allowances no corner is dropped or doubled. That every edge keeps a length both ways was
    // asked when the path was made.
    if let Some(moved) = Moved::new(plain, ring.vertices().len(), Fit::EXACT, grow) {
        let _ = moved.each(|vertex| places.push(vertex.at));
    }
    let mut grown: Vec<_> = ring.bent().zip(places).map(|((vertex, centre), at)| (Vertex { at, ..vertex }, centre)).collect();
    for (index, arc) in ring.arcs() {
        let next = if index + 1 < grown.len() { index + 1 } else { 0 };
        for (end, from) in [(index, arc.from), (next, arc.to)] {
            if let Some((vertex, _)) = grown.get_mut(end) {
                vertex.at = towards(from, arc.centre, grow);
            }
        }
    }
    grown
}

/// The point `by` nearer to `centre`.
pub(super) fn towards(from: Point, centre: Point, by: i64) -> Point {
    let (dx, dy) = (centre.x.nm() - from.x.nm(), centre.y.nm() - from.y.nm());
    // Bits behind the point of the distance, which is a root.
    const SCALE: u32 = 20;
    let square = i128::from(dx) * i128::from(dx) + i128::from(dy) * i128::from(dy);
    let far = (square << (2 * SCALE)).unsigned_abs().isqrt() as i128;
    let part = |way: i64| nearest((i128::from(way) * i128::from(by)) << SCALE, far);
    Point::raw(from.x.nm() + part(dx), from.y.nm() + part(dy))
}

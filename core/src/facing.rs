//! How thin the solid of an outline with slanted edges gets, and whether its edges cross.
//!
//! The thinnest place lies between a corner and an edge that see each other through the solid. Corners and edges are taken in order
//! along the axis on which they are strewn the farther, so that only near ones are compared.

use alloc::vec::Vec;

use crate::plane::cross;
use crate::point::Point;
use crate::shape::Shape;
use crate::sweep::Thin;

/// Nanometres that corners of slanted outlines may lie beside their places.
const ROUNDED: f64 = 3.0;

/// An edge with the corners around it.
#[derive(Clone, Copy, Debug)]
struct Edge {
    before: Point,
    a: Point,
    b: Point,
    after: Point,
}

impl Edge {
    fn reach(&self, upright: bool) -> (i64, i64) {
        let (a, b) = if upright { (self.a.y.nm(), self.b.y.nm()) } else { (self.a.x.nm(), self.b.x.nm()) };
        (a.min(b), a.max(b))
    }

    /// How far the two stand apart along an axis; negative where they reach past each other.
    fn gap(&self, other: &Edge, upright: bool) -> i64 {
        let ((a, b), (c, d)) = (self.reach(upright), other.reach(upright));
        (c - b).max(a - d)
    }

    /// Whether the two pass through each other, or lie on each other over a length.
    fn crosses(&self, other: &Edge) -> bool {
        let side = |edge: &Edge, p: Point| cross(edge.a, edge.b, p).signum();
        let (p, q) = (side(self, other.a), side(self, other.b));
        if p == 0 && q == 0 {
            return [false, true].into_iter().any(|upright| {
                let ((a, b), (c, d)) = (self.reach(upright), other.reach(upright));
                a < d && c < b
            });
        }
        p * q < 0 && side(other, self.a) * side(other, self.b) < 0
    }

    /// The solid between this edge's first corner and `other`, if they see each other through it.
    fn solid(&self, other: &Edge) -> Option<f64> {
        if [other.a, other.b].contains(&self.a) && [other.before, other.b, other.a, other.after].contains(&self.b) {
            return None;
        }
        let vector = |from: Point, to: Point| ((to.x.nm() - from.x.nm()) as f64, (to.y.nm() - from.y.nm()) as f64);
        let (along, reach) = (vector(other.a, other.b), vector(other.a, self.a));
        let t = ((along.0 * reach.0 + along.1 * reach.1) / (along.0 * along.0 + along.1 * along.1)).clamp(0.0, 1.0);
        // From an inner corner along an edge of its own to the next corner, but for the rounding of the points: a step, no width.
        let (length, own) = (libm::hypot(along.0, along.1), [self.before, self.b]);
        let at_end = (t * length < ROUNDED && own.contains(&other.a)) || ((1.0 - t) * length < ROUNDED && own.contains(&other.b));
        if at_end && cross(self.before, self.a, self.b) < 0 {
            return None;
        }
        let way = (along.0 * t - reach.0, along.1 * t - reach.1);
        let back = (-way.0, -way.1);
        let into = |before: Point, at: Point, after: Point, way: (f64, f64)| {
            let left = |edge: (f64, f64)| edge.0 * way.1 - edge.1 * way.0 > 0.0;
            let (arrives, leaves) = (left(vector(before, at)), left(vector(at, after)));
            if cross(before, at, after) >= 0 { arrives && leaves } else { arrives || leaves }
        };
        let seen = match t {
            _ if way == (0.0, 0.0) => true,
            0.0 => into(other.before, other.a, other.b, back),
            1.0 => into(other.a, other.b, other.after, back),
            _ => along.0 * back.1 - along.1 * back.0 > 0.0,
        };
        (seen && (way == (0.0, 0.0) || into(self.before, self.a, self.b, way))).then(|| libm::hypot(way.0, way.1))
    }
}

/// The thinnest solid of a shape; or a point where edges cross. Nothing for a shape without edges.
pub(crate) fn thinnest(shape: &Shape) -> Result<Option<Thin>, Point> {
    let mut thin: Option<(f64, Point)> = None;
    near_pairs(shape, |edge, other| {
        for (corner, far) in [(edge, other), (other, edge)] {
            if let Some(width) = corner.solid(far).filter(|width| thin.is_none_or(|(least, _)| *width < least)) {
                thin = Some((width, corner.a));
            }
        }
        thin.map_or(i64::MAX, |(width, _)| width as i64)
    })?;
    Ok(thin.map(|(width, at)| Thin { width: width as i64, at }))
}

/// That no edge crosses another or lies on it; or a point where one does.
pub(crate) fn uncrossed(shape: &Shape) -> Result<(), Point> {
    near_pairs(shape, |_, _| 0)
}

/// Visits the pairs of edges that stand no farther apart along either axis than the visitor wants to see; or a point where two cross.
fn near_pairs(shape: &Shape, mut visit: impl FnMut(&Edge, &Edge) -> i64) -> Result<(), Point> {
    let mut edges = edges(shape);
    let upright = strewn(&edges, true) > strewn(&edges, false);
    edges.sort_unstable_by_key(|edge| edge.reach(upright).0);
    let mut far = i64::MAX;
    let mut near: Vec<Edge> = Vec::new();
    for edge in edges {
        let (from, _) = edge.reach(upright);
        near.retain(|other| from - other.reach(upright).1 <= far);
        for other in &near {
            if edge.gap(other, !upright) <= far {
                if edge.crosses(other) {
                    return Err(edge.a);
                }
                far = visit(&edge, other);
            }
        }
        near.push(edge);
    }
    Ok(())
}

fn edges(shape: &Shape) -> Vec<Edge> {
    let mut edges = Vec::with_capacity(shape.vertices().len());
    for ring in shape.loops() {
        let before = ring.last().into_iter().chain(ring);
        let next = ring.iter().skip(1).chain(ring.first());
        let after = ring.iter().skip(2).chain(ring.iter().take(2));
        let around = before.zip(ring).zip(next.zip(after));
        edges.extend(around.map(|((before, a), (b, after))| Edge { before: before.at, a: a.at, b: b.at, after: after.at }));
    }
    edges
}

/// How far the edges are strewn along an axis: the mean of their distances from the mean of all.
fn strewn(edges: &[Edge], upright: bool) -> i64 {
    let middle = |edge: &Edge| {
        let (from, to) = edge.reach(upright);
        from + (to - from) / 2
    };
    let count = (edges.len() as i64).max(1);
    let mean = edges.iter().map(|edge| middle(edge) / count).sum::<i64>();
    edges.iter().map(|edge| (middle(edge) - mean).abs() / count).sum()
}

#[cfg(test)]
#[path = "facing_tests.rs"]
mod tests;

//! Where two outlines touch: whether one reaches into the other, and how far one cut is the edge of both.
//!
//! An outline is cut into pieces wherever a corner of the other lies on it. Then a piece lies inside the other, outside, or along its edge. Two
//! solids share something only if edges cross, if a piece of one lies inside the other, or if two pieces coincide with the solid on the same side.

use alloc::vec::Vec;

use super::edge::{Edge, Placed};
use super::near::near_edges;
use crate::plane::distance;
use crate::point::Point;

/// What two parts have in common.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Contact {
    /// A place where, or beside which, both have solid.
    pub overlap: Option<Point>,
    /// Length of straight edges that coincide and run against each other.
    pub shared: i64,
}

pub(super) fn contact(a: &Placed<'_>, b: &Placed<'_>) -> Contact {
    let mut found = Contact::default();
    let (mut on_a, mut on_b) = (Vec::new(), Vec::new());
    near_edges(a, b, 0, |e, f| {
        on_a.extend([f.a, f.b].into_iter().filter(|&p| e.holds(p)).map(|p| (e.number, e.along(p), p)));
        on_b.extend([e.a, e.b].into_iter().filter(|&p| f.holds(p)).map(|p| (f.number, f.along(p), p)));
        if e.crosses(f) {
            found.overlap = found.overlap.or(Some(e.a));
        } else if let Some((p, q)) = common(e, f) {
            if e.along(f.b) > e.along(f.a) {
                found.overlap = found.overlap.or(Some(p));
            } else if e.straight && f.straight {
                found.shared = found.shared.saturating_add(distance(p, q));
            }
        }
    });
    found.overlap = found.overlap.or_else(|| reaches_into(a, on_a, b)).or_else(|| reaches_into(b, on_b, a));
    found
}

/// The stretch of one line that two edges have in common, from end to end.
fn common(e: &Edge, f: &Edge) -> Option<(Point, Point)> {
    if e.side(f.a) != 0 || e.side(f.b) != 0 {
        return None;
    }
    let (near, far) = if e.along(f.a) < e.along(f.b) { (f.a, f.b) } else { (f.b, f.a) };
    let from = if e.along(near) > 0 { near } else { e.a };
    let to = if e.along(far) < e.square() { far } else { e.b };
    (e.along(from) < e.along(to)).then_some((from, to))
}

/// The beginning of a piece of the first outline that lies inside the other. `cuts` are the corners of the other that lie on its edges: the edge's
/// number, how far along, the point.
fn reaches_into(part: &Placed<'_>, mut cuts: Vec<(usize, i128, Point)>, other: &Placed<'_>) -> Option<Point> {
    cuts.sort_unstable();
    let mut cuts = cuts.into_iter().peekable();
    for edge in &part.edges {
        let mut from = edge.a;
        loop {
            let cut = cuts.next_if(|(number, _, _)| *number == edge.number);
            let to = cut.map_or(edge.b, |(_, _, p)| p);
            if other.has_inside(from, to) {
                return Some(from);
            }
            from = to;
            if cut.is_none() {
                break;
            }
        }
    }
    None
}

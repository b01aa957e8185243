//! Whether the notches of a box's panel stay clear of those of its other edges, without heap.
//!
//! Along one edge they cannot meet: every edge of the outline keeps a length. So it is enough to know how deep the notches of each
//! edge are, and where the first and the last of them end.

use super::fit::{Role, Vertex};

/// The bottoms of the notches of one edge.
#[derive(Clone, Copy, Debug)]
struct Notches {
    /// How far from the edge, and from where to where along it: the notches lie between 0 and `deep`.
    deep: i64,
    from: i64,
    to: i64,
}

impl Notches {
    fn add(known: &mut Option<Notches>, deep: i64, (from, to): (i64, i64)) {
        let all = known.get_or_insert(Notches { deep, from, to });
        *all = Notches { deep: all.deep.max(deep), from: all.from.min(from), to: all.to.max(to) };
    }
}

/// Whether notches of two edges meet, or one goes through the panel. `outline` is its part, counter-clockwise; `size` is its width and
/// height, `back` how far an edge may stand back from them (0 or less).
pub(super) fn notches_meet(mut outline: impl Iterator<Item = Vertex>, size: [i64; 2], back: i64) -> bool {
    let Some(first) = outline.next() else { return false };
    let (mut bottom, mut right, mut top, mut left) = (None, None, None, None);
    let mut from = first;
    for to in outline.chain([first]) {
        let ((ax, ay), (bx, by)) = ((from.at.x.nm(), from.at.y.nm()), (to.at.x.nm(), to.at.y.nm()));
        if from.role == Role::Cheek {
            // Seen from the far sides everything is counted downwards.
            match (bx - ax, by - ay) {
                (1.., _) => Notches::add(&mut bottom, ay, (ax, bx)),
                (..=-1, _) => Notches::add(&mut top, -ay, (bx, ax)),
                (_, 1..) => Notches::add(&mut right, -ax, (ay, by)),
                _ => Notches::add(&mut left, ax, (by, ay)),
            }
        }
        from = to;
    }
    let start = |notches: Notches| (notches.from, notches.deep);
    let end = |notches: Notches| (-notches.to, notches.deep);
    let corners =
        [(bottom.map(start), left.map(start)), (bottom.map(end), right.map(start)), (top.map(end), right.map(end)), (top.map(start), left.map(end))];
    let meet = |one: Option<Notches>, other: Option<Notches>| one.zip(other).is_some_and(|(one, other)| one.deep + other.deep >= 0);
    let through = |notches: Option<Notches>, far: i64| notches.is_some_and(|notches| notches.deep >= far + back);
    let [width, height] = size;
    if through(bottom, height) || through(top, 0) || through(left, width) || through(right, 0) {
        return true;
    }
    meet(bottom, top) || meet(left, right) || corners.into_iter().any(|(one, other)| one.zip(other).is_some_and(overlap))
}

/// Whether the notches nearest to a corner share more than a point, given from where on and how deep.
fn overlap(((x, deep_y), (y, deep_x)): ((i64, i64), (i64, i64))) -> bool {
    (x <= deep_x && y < deep_y) || (x < deep_x && y <= deep_y)
}

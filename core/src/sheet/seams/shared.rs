#![cfg_attr(not(test), allow(dead_code))]
//! How long two outlines run along one line, against each other: what one cut can do for both.

use alloc::vec::Vec;

use super::super::stretch::{Stretch, meet};
use crate::shape::Shape;

/// The total length in nanometres over which straight edges of two placed paths coincide and run against each other: the solid of
/// one lies on one side of the line, that of the other on the other side. One cut along it is the edge of both.
///
/// Edges need not match end to end: what counts is the stretch that they have in common, each stretch of a slanted line rounded down to the
/// nanometre. Edges that run the same way (one part upon the other) do not count, nor does a point. Arcs never count: each bulges into its
/// own solid, so no arc of one outline is an edge of another.
pub(crate) fn shared_length(a: &Shape, b: &Shape) -> i64 {
    Lines::of(a).shared(&Lines::of(b), [0, 0])
}

/// The straight edges of one path, by their lines.
#[derive(Clone, Debug, Default)]
pub(super) struct Lines {
    /// Those that go along their line's step, and those that go against it; by line, then along it.
    ways: [Vec<Stretch>; 2],
}

impl Lines {
    pub fn of(path: &Shape) -> Lines {
        let mut lines = Lines::default();
        for ring in path.rings() {
            let next = ring.vertices().iter().skip(1).chain(ring.vertices().first());
            let straight = ring.bent().zip(next).filter(|((_, centre), _)| centre.is_none());
            for stretch in straight.filter_map(|((a, _), b)| Stretch::of(a.at, b.at)) {
                let [forth, back] = &mut lines.ways;
                if stretch.forth { forth.push(stretch) } else { back.push(stretch) }
            }
        }
        for way in &mut lines.ways {
            way.sort_unstable_by_key(|stretch| (stretch.line(), stretch.from));
        }
        lines
    }

    /// The length along which these run against the edges of another path, which is moved first.
    pub fn shared(&self, other: &Lines, by: [i64; 2]) -> i64 {
        let ([forth, back], [others_forth, others_back]) = (&self.ways, &other.ways);
        along(forth, others_back, by).saturating_add(along(back, others_forth, by))
    }
}

/// The total length of the stretches that two sorted lists have in common.
fn along(a: &[Stretch], b: &[Stretch], by: [i64; 2]) -> i64 {
    let mut total = 0i64;
    let (a, b) = (a.iter().map(|&stretch| (stretch, ())), b.iter().map(|stretch| (stretch.moved(by), ())));
    meet(a, b, |(stretch, ()), _, from, to| total = total.saturating_add(stretch.length(from, to)));
    total
}

#[cfg(test)]
#[path = "shared_tests.rs"]
mod tests;

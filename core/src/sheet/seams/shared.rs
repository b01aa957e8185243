//! How long two outlines run along one line, against each other: what one cut can do for both.

use alloc::vec::Vec;
use core::cmp::Reverse;

use super::super::stretch::{Stretch, meet};
use crate::point::Point;
use crate::shape::Shape;

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

    /// The total length in nanometres over which straight edges of two placed paths coincide and run against each other: the solid of
    /// one lies on one side of the line, that of the other on the other side. The other path is moved first. One cut along it is the edge of both.
    ///
    /// Edges need not match end to end: what counts is the stretch that they have in common, each stretch of a slanted line rounded down to the
    /// nanometre. Edges that run the same way (one part upon the other) do not count, nor does a point. Arcs never count: each bulges into its
    /// own solid, so no arc of one outline is an edge of another.
    #[cfg(test)]
    pub fn shared(&self, other: &Lines, by: [i64; 2]) -> i64 {
        self.seam(other, by).0
    }

    /// The same, and in how many lines.
    pub fn seam(&self, other: &Lines, by: [i64; 2]) -> (i64, usize) {
        let ([forth, back], [others_forth, others_back]) = (&self.ways, &other.ways);
        let mut ends = Vec::new();
        let shared = along(forth, others_back, by, &mut ends).saturating_add(along(back, others_forth, by, &mut ends));
        // A line ends where an odd number of pieces do.
        ends.sort_unstable_by_key(|end| (end.x, end.y));
        (shared, ends.chunk_by(|a, b| a == b).filter(|same| same.len() % 2 == 1).count() / 2)
    }

    /// Whether parallel edges of both paths, the other moved first, face each other and stand less than `gap` apart, but do not coincide.
    pub fn crowds(&self, other: &Lines, by: [i64; 2], gap: i64) -> bool {
        let ([forth, back], [others_forth, others_back]) = (&self.ways, &other.ways);
        // The open side of an edge that goes forth lies to its right, where offsets are less.
        let against = |back: &[Stretch], forth: &[Stretch], by: [i64; 2]| {
            back.iter().any(|edge| {
                let (from, to) = edge.nearer_than(gap, by);
                let begun = forth.partition_point(|other| other.line() <= from);
                let near = forth.iter().skip(begun).take_while(|other| other.line() < to);
                near.map(|other| other.moved(by)).any(|other| edge.from.max(other.from) < edge.to.min(other.to))
            })
        };
        against(back, others_forth, by) || against(others_back, forth, [-by[0], -by[1]])
    }

    /// Where the other path's lower left corner could lie from this one's, so that edges coincide from end to end or at least at one end:
    /// by the length that would match so, the longest first.
    pub fn matches(&self, other: &Lines) -> Vec<(Reverse<i64>, [i64; 2])> {
        let mut votes: Vec<([i64; 2], i64)> = Vec::new();
        for (own, others) in [(&self.ways[0], &other.ways[1]), (&self.ways[1], &other.ways[0])] {
            for edge in own {
                let begun = others.partition_point(|other| other.line().0 < edge.line().0);
                for other in others.iter().skip(begun).take_while(|other| other.line().0 == edge.line().0) {
                    let length = edge.length(edge.from, edge.to).min(other.length(other.from, other.to));
                    let ends = [(edge.point(edge.from), other.point(other.from)), (edge.point(edge.to), other.point(other.to))];
                    let by = ends.map(|(a, b)| [(a.x - b.x).nm(), (a.y - b.y).nm()]);
                    // What matches at both ends has one vote.
                    votes.extend(by.iter().take(if by[0] == by[1] { 1 } else { 2 }).map(|&by| (by, length)));
                }
            }
        }
        votes.sort_unstable();
        let mut matches: Vec<(Reverse<i64>, [i64; 2])> =
            votes.chunk_by(|a, b| a.0 == b.0).filter_map(|same| Some((Reverse(same.iter().map(|vote| vote.1).sum()), same.first()?.0))).collect();
        matches.sort_unstable();
        matches
    }
}

/// The total length of the stretches that two sorted lists have in common, and where each begins and ends.
fn along(a: &[Stretch], b: &[Stretch], by: [i64; 2], ends: &mut Vec<Point>) -> i64 {
    let mut total = 0i64;
    let (a, b) = (a.iter().map(|&stretch| (stretch, ())), b.iter().map(|stretch| (stretch.moved(by), ())));
    meet(a, b, |(stretch, ()), _, from, to| {
        total = total.saturating_add(stretch.length(from, to));
        ends.extend([stretch.point(from), stretch.point(to)]);
    });
    total
}

#[cfg(test)]
#[path = "shared_tests.rs"]
mod tests;

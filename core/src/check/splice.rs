//! Two boards of one plane that share the place where their slabs overlap: gaps, and what neither fills.
//!
//! Their flanks lean. Areas are exact all the same: sections see a stair in place of each slanted edge, and a stair takes in exactly
//! one triangle more than its edge.

use alloc::vec::Vec;

use super::body::Body;
use super::contact::Gaps;
use super::section::{Step, integral};
use crate::assembly::{Block, Depth};
use crate::point::{Axis, Point};

/// The edges of a body as ways along the run and across it; whether travel has the solid on its left there.
fn edges<'a>(body: &'a Body, run: Axis) -> (impl Iterator<Item = [(i64, i64); 2]> + use<'a>, bool) {
    let (u, v) = body.normal().plane();
    let (du, dv) = (body.board.lo(u), body.board.lo(v));
    let swapped = run == v;
    let place = move |p: Point| {
        let (x, y) = (p.x.nm() + du, p.y.nm() + dv);
        if swapped { (y, x) } else { (x, y) }
    };
    (body.shape.edges().map(move |(a, b)| [place(a), place(b)]), !swapped)
}

/// Twice what a body fills of a stretch of the splice, in square nanometres; `steps` is its section there.
pub(super) fn filled(body: &Body, block: &Block, depth: Depth, steps: &[Step], (from, to): (i64, i64)) -> i128 {
    let stairs = integral(steps, from, to);
    if !body.leans {
        return 2 * stairs;
    }
    let triangle = |[(x0, y0), (x1, y1)]: [(i64, i64); 2]| i128::from(x1 - x0).abs() * i128::from(y1 - y0).abs();
    let inside = |edge: &[(i64, i64); 2]| {
        let [(x0, y0), (x1, y1)] = *edge;
        let (x, y) = (x0 + x1, y0 + y1);
        2 * from <= x && x <= 2 * to && 2 * depth.from <= y && y <= 2 * depth.to
    };
    2 * stairs - edges(body, block.run).0.filter(inside).map(triangle).sum::<i128>()
}

/// All contacts of the two: flanks on the line in the middle of the depth, tips beside it. What is as far apart as `reach` does not touch.
pub(super) fn contacts(a: &Body, b: &Body, block: &Block, depth: Depth, reach: i64) -> Gaps {
    let middle = depth.from + depth.size() / 2;
    let (in_a, in_b) = (crossings(a, block, middle), crossings(b, block, middle));
    let mut gaps = Gaps::default();
    let mut all: Vec<(&Stretch, bool)> = in_a.iter().map(|s| (s, true)).chain(in_b.iter().map(|s| (s, false))).collect();
    all.sort_unstable_by(|(p, _), (q, _)| p.from.0.total_cmp(&q.from.0));
    for pair in all.windows(2) {
        if let [(before, one), (behind, other)] = pair
            && one != other
        {
            let gap = libm::round((behind.from.0 - before.to.0) * behind.from.1) as i64;
            if gap < reach {
                gaps.add(gap);
            }
        }
    }
    // An end belongs to the nearer level: with an interference it stands before the other level's ends too, by a hair.
    let near = reach.min((depth.size() + 1) / 2);
    for level in [depth.from, depth.to] {
        tips(&ends(a, block, level, near), &ends(b, block, level, near), reach, &mut gaps);
    }
    gaps
}

/// An edge along the run: from where to where, how deep, and whether the solid lies on its upper side.
type End = (i64, i64, i64, bool);

/// The ends of a body's tails or pins, and the bottoms of its sockets, near a place along the depth; in order.
fn ends(body: &Body, block: &Block, level: i64, near: i64) -> Vec<End> {
    let (edges, left) = edges(body, block.run);
    let mut ends: Vec<End> = edges
        .filter(|[(x0, y0), (x1, y1)]| y0 == y1 && x0 != x1 && (y0 - level).abs() < near)
        .map(|[(x0, y), (x1, _)]| (x0.min(x1), x0.max(x1), y, (x0 < x1) == left))
        .collect();
    ends.sort_unstable();
    ends
}

/// The distances of ends that face each other.
fn tips(a: &[End], b: &[End], reach: i64, gaps: &mut Gaps) {
    let (mut i, mut j) = (0, 0);
    while let (Some(&(a0, a1, ay, a_up)), Some(&(b0, b1, by, b_up))) = (a.get(i), b.get(j)) {
        let gap = if b_up { by - ay } else { ay - by };
        if a_up != b_up && a0.max(b0) < a1.min(b1) && gap < reach {
            gaps.add(gap);
        }
        if a1 < b1 { i += 1 } else { j += 1 }
    }
}

/// A stretch of solid on a line: where it begins and ends, each with the cosine between the run and the edge's normal there.
struct Stretch {
    from: (f64, f64),
    to: (f64, f64),
}

/// The solid of a body on the line at a place along the depth.
fn crossings(body: &Body, block: &Block, at: i64) -> Vec<Stretch> {
    let mut cuts: Vec<(f64, f64)> = edges(body, block.run)
        .0
        .filter(|[(_, y0), (_, y1)]| (*y0 <= at) != (*y1 <= at))
        .map(|[(x0, y0), (x1, y1)]| {
            let (dx, dy) = ((x1 - x0) as f64, (y1 - y0) as f64);
            (x0 as f64 + dx * ((at - y0) as f64 / dy), libm::fabs(dy) / libm::hypot(dx, dy))
        })
        .collect();
    cuts.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let stretch = |pair: &[(f64, f64)]| match *pair {
        [from, to] => Some(Stretch { from, to }),
        _ => None,
    };
    cuts.chunks(2).filter_map(stretch).filter(|s| s.to.0 > block.from as f64 && s.from.0 < block.to as f64).collect()
}

/// A slanted edge of `a` that runs through the thickness of a board at right angles to it, along which `b` stands: the sections there
/// would not be right.
pub(super) fn runs_through(a: &Body, b: &Body, run: Axis) -> bool {
    let (lo, hi) = b.thick();
    let (start, end) = b.extent(run);
    let meets = |p: i64, q: i64, lo: i64, hi: i64| p.min(q) < hi && p.max(q) > lo;
    a.leans && edges(a, run).0.any(|[(x0, y0), (x1, y1)]| x0 != x1 && y0 != y1 && meets(y0, y1, lo, hi) && meets(x0, x1, start, end))
}

#[cfg(test)]
#[path = "splice_tests.rs"]
mod tests;

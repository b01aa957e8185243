//! What lies inside what, and which phase of the cutting each line so belongs to.

use alloc::vec::Vec;
use core::cmp::Reverse;

use crate::cut::contour::Contour;
use crate::kind::LineKind;
use crate::plane::cross;
use crate::point::Point;

/// The phase in which each line is cut: 0 for marks, then the phases of the cuts, and trims last.
///
/// Phases repeat holes, shared cuts, outlines. A line comes in a later phase than whatever it encloses; holes as early, all others as late as that allows.
pub(super) fn ranks(contours: &[Contour]) -> Vec<usize> {
    let (order, parents) = nest(contours);
    let class = |line: usize| match contours.get(line).map(|line| line.kind) {
        Some(LineKind::CutInner) => 0,
        Some(LineKind::CutShared) => 1,
        _ => 2,
    };
    let parent = |line: usize| parents.get(line).copied().flatten();
    let mut phases = alloc::vec![0; contours.len()];
    // From the innermost outwards: the earliest phase that what lies inside allows.
    for &line in order.iter().rev() {
        let phase = rise(phases.get(line).copied().unwrap_or(0), class(line));
        if let Some(slot) = phases.get_mut(line) {
            *slot = phase;
        }
        if let Some(slot) = parent(line).and_then(|parent| phases.get_mut(parent)) {
            *slot = (*slot).max(phase + 1);
        }
    }
    // From the outermost inwards: all but holes wait.
    let end = rise(order.iter().filter_map(|&line| phases.get(line)).max().copied().unwrap_or(0), 2) + 1;
    for &line in order.iter().filter(|&&line| class(line) != 0) {
        let before = parent(line).and_then(|parent| phases.get(parent).copied()).unwrap_or(end);
        if let Some(slot) = phases.get_mut(line) {
            *slot = sink(before, class(line)).max(*slot);
        }
    }
    let rank = |(line, phase): (&Contour, usize)| match line.kind {
        LineKind::Mark => 0,
        LineKind::Trim => usize::MAX,
        _ => phase + 1,
    };
    contours.iter().zip(phases).map(rank).collect()
}

/// The first phase of a class at or after this one.
const fn rise(phase: usize, class: usize) -> usize {
    phase + (class + 3 - phase % 3) % 3
}

/// The last phase of a class before this one.
const fn sink(phase: usize, class: usize) -> usize {
    let last = phase.saturating_sub(1);
    last.saturating_sub((last + 3 - class) % 3)
}

/// The cuts so sorted that each comes after whatever encloses it, and for each line the innermost closed cut that does.
fn nest(contours: &[Contour]) -> (Vec<usize>, Vec<Option<usize>>) {
    let mut cuts: Vec<(usize, &Contour, (Point, Point))> = contours
        .iter()
        .enumerate()
        .filter(|(_, line)| !matches!(line.kind, LineKind::Mark | LineKind::Trim))
        .filter_map(|(number, line)| Some((number, line, line.bounds()?)))
        .collect();
    cuts.sort_by_key(|&(_, _, (lo, hi))| (lo.x, Reverse(hi.x), lo.y, Reverse(hi.y)));
    let mut parents = alloc::vec![None; contours.len()];
    // Those that reach on to where the sweep along x stands.
    let mut open: Vec<(usize, &Contour, (Point, Point))> = Vec::new();
    for &(number, line, (lo, hi)) in &cuts {
        open.retain(|(_, _, (_, end))| end.x >= lo.x);
        let around = |(low, high): (Point, Point)| low.y <= lo.y && high.y >= hi.y && high.x >= hi.x;
        let parent = open.iter().rev().find(|&&(_, other, bounds)| around(bounds) && encloses(other, line));
        if let Some(slot) = parents.get_mut(number) {
            *slot = parent.map(|&(parent, _, _)| parent);
        }
        if line.closed {
            open.push((number, line, (lo, hi)));
        }
    }
    (cuts.into_iter().map(|(number, _, _)| number).collect(), parents)
}

/// Whether a line lies inside a closed one. The first of its points that is not on an edge tells, or of the middles of its edges.
fn encloses(closed: &Contour, line: &Contour) -> bool {
    let points = line.points.iter().map(|(vertex, _)| vertex.at);
    let middles = line.edges().filter_map(|edge| edge.middle());
    points.chain(middles).find_map(|point| holds(closed, point)).unwrap_or(false)
}

/// Whether a closed line holds a point; none where the point is on an edge or chord.
fn holds(closed: &Contour, p: Point) -> Option<bool> {
    let mut inside = false;
    for edge in closed.edges() {
        let (a, b) = (edge.from, edge.to);
        let side = cross(a, b, p);
        if side == 0 && (a.x.min(b.x)..=a.x.max(b.x)).contains(&p.x) && (a.y.min(b.y)..=a.y.max(b.y)).contains(&p.y) {
            return None;
        }
        // A ray to the right crosses the chord; the segment between it and its arc turns the answer round.
        inside ^= (a.y > p.y) != (b.y > p.y) && (side > 0) == (b.y > a.y);
        inside ^= side > 0 && edge.centre.is_some_and(|centre| square(centre, p) < square(centre, a));
    }
    Some(inside)
}

fn square(a: Point, b: Point) -> i128 {
    let (dx, dy) = (i128::from(a.x.nm()) - i128::from(b.x.nm()), i128::from(a.y.nm()) - i128::from(b.y.nm()));
    dx * dx + dy * dy
}

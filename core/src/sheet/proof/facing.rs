//! Parts that share cuts: what is left between their edges is either nothing or as wide as the gap.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::distance::over_length;
use super::edge::{Edge, Placed};
use crate::point::Point;

/// An edge among the parallel ones of its group.
#[derive(Clone, Copy, Debug)]
struct Line<'a, 'b> {
    /// To the right, or straight up, in least whole numbers.
    step: [i64; 2],
    /// How far it lies to the left of the step, and from where to where along it, times the step's length.
    offset: i128,
    from: i128,
    to: i128,
    /// It goes against the step: its open side is on the left.
    back: bool,
    edge: &'b Edge,
    part: &'b Placed<'a>,
}

/// Two parts whose edges face each other, where, and how far apart they are.
type Near<'a, 'b> = (&'b Placed<'a>, &'b Placed<'a>, Point, i64);

/// Where parallel edges of two parts of one group face each other across waste, stand less than the gap apart and do not coincide.
pub(super) fn facing<'a, 'b>(placed: &'b [Placed<'a>], groups: &[usize], gap: i64) -> Vec<Near<'a, 'b>> {
    let group = |part: &Placed<'_>| groups.get(part.number).copied().unwrap_or(part.number);
    let mut sizes: BTreeMap<usize, usize> = BTreeMap::new();
    placed.iter().for_each(|part| *sizes.entry(group(part)).or_default() += 1);
    let linked = |part: &Placed<'_>| sizes.get(&group(part)).is_some_and(|&size| size > 1);
    let mut found = Vec::new();
    if placed.iter().any(linked) {
        // Other parts too hide what is behind them.
        let mut lines: Vec<Line<'a, 'b>> = placed.iter().flat_map(|part| part.edges.iter().filter_map(move |edge| line(edge, part))).collect();
        lines.sort_by_key(|line| (line.step, line.offset));
        for line in lines.iter().filter(|line| line.back && linked(line.part)) {
            opposite(line, &lines, gap, |other, apart| {
                if line.part.number != other.part.number && group(line.part) == group(other.part) {
                    found.push((line.part, other.part, line.edge.a, apart));
                }
            });
        }
    }
    found
}

/// Visits what an edge sees across from it, nearer than the gap: the nearest first, each hiding what is behind it.
fn opposite<'a, 'b>(line: &Line<'a, 'b>, lines: &[Line<'a, 'b>], gap: i64, mut visit: impl FnMut(&Line<'a, 'b>, i64)) {
    let mut open = Vec::from([(line.from, line.to)]);
    let begun = lines.partition_point(|other| (other.step, other.offset) < (line.step, line.offset));
    for other in lines.iter().skip(begun).take_while(|other| other.step == line.step) {
        let apart = over_length(other.offset - line.offset, line.step);
        if apart >= gap || open.is_empty() {
            break;
        }
        let seen = |&(from, to): &(i128, i128)| from.max(other.from) < to.min(other.to);
        if other.back || !open.iter().any(seen) {
            continue;
        }
        if other.offset > line.offset {
            visit(other, apart);
        }
        open = open.into_iter().flat_map(|(from, to)| [(from, to.min(other.from)), (from.max(other.to), to)]).filter(|(a, b)| a < b).collect();
    }
}

fn line<'a, 'b>(edge: &'b Edge, part: &'b Placed<'a>) -> Option<Line<'a, 'b>> {
    let [x, y] = edge.way();
    let parts = divisor(x, y)?;
    let back = x < 0 || (x == 0 && y < 0);
    let step = [x, y].map(|side| if back { -side / parts } else { side / parts });
    let [sx, sy] = step.map(i128::from);
    let along = |p: Point| sx * i128::from(p.x.nm()) + sy * i128::from(p.y.nm());
    let offset = sx * i128::from(edge.a.y.nm()) - sy * i128::from(edge.a.x.nm());
    let (p, q) = (along(edge.a), along(edge.b));
    Some(Line { step, offset, from: p.min(q), to: p.max(q), back, edge, part })
}

/// The greatest whole number that divides both; none for a point.
fn divisor(x: i64, y: i64) -> Option<i64> {
    let (mut a, mut b) = (x.abs(), y.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    (a != 0).then_some(a)
}

//! Which parts, and which of their edges, are near enough to be compared.

use alloc::vec::Vec;

use super::edge::{Edge, Placed, gap};

/// Visits the pairs of parts whose boxes stand no farther apart than `far` along either axis; the visitor says how far counts from then on.
pub(super) fn near_parts<'a, 'b>(placed: &'b [Placed<'a>], mut far: i64, mut visit: impl FnMut(&'b Placed<'a>, &'b Placed<'a>) -> i64) {
    // Along the axis on which the parts take less of the whole, fewer are side by side.
    let crowded = |axis: usize| {
        let reach = |part: &Placed<'_>| (at(part.lo, axis), at(part.hi, axis));
        let (from, to) = placed.iter().map(reach).fold((i64::MAX, i64::MIN), |(a, b), (c, d)| (a.min(c), b.max(d)));
        let sum: i128 = placed.iter().map(reach).map(|(a, b)| i128::from(b - a)).sum();
        sum as f64 / (to as f64 - from as f64).max(1.0)
    };
    let axis = usize::from(crowded(1) < crowded(0));
    let mut order: Vec<&Placed<'a>> = placed.iter().collect();
    order.sort_by_key(|part| at(part.lo, axis));
    let mut open: Vec<&Placed<'a>> = Vec::new();
    for part in order {
        open.retain(|other| at(part.lo, axis) - at(other.hi, axis) <= far);
        for &other in &open {
            if gap(part.reach(), other.reach()) <= far {
                let (a, b) = if part.number < other.number { (part, other) } else { (other, part) };
                far = visit(a, b);
            }
        }
        open.push(part);
    }
}

/// Visits the pairs of edges, one of each part, whose boxes stand no farther apart than `far` along either axis.
pub(super) fn near_edges(a: &Placed<'_>, b: &Placed<'_>, far: i64, mut visit: impl FnMut(&Edge, &Edge)) {
    let near = |part: &Placed<'_>, other: &Placed<'_>| -> Vec<Edge> {
        part.edges.iter().filter(|edge| gap((edge.lo(), edge.hi()), other.reach()) <= far).copied().collect()
    };
    let (mut own, mut others) = (near(a, b), near(b, a));
    // Along the longer side of where the two meet.
    let meet = |axis: usize| at(a.hi, axis).min(at(b.hi, axis)) - at(a.lo, axis).max(at(b.lo, axis));
    let axis = usize::from(meet(1) > meet(0));
    let (from, to) = (|edge: &Edge| at(edge.lo(), axis), |edge: &Edge| at(edge.hi(), axis));
    own.sort_unstable_by_key(from);
    others.sort_unstable_by_key(from);
    let longest = others.iter().map(|edge| to(edge) - from(edge)).max().unwrap_or(0);
    for edge in &own {
        let begun = others.partition_point(|other| from(other) < from(edge).saturating_sub(far).saturating_sub(longest));
        let last = to(edge).saturating_add(far);
        for other in others.iter().skip(begun).take_while(|other| from(other) <= last) {
            if gap((edge.lo(), edge.hi()), (other.lo(), other.hi())) <= far {
                visit(edge, other);
            }
        }
    }
}

fn at([x, y]: [i64; 2], axis: usize) -> i64 {
    if axis == 0 { x } else { y }
}

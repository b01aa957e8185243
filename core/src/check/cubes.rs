//! Where three slabs overlap: what nobody has.

use alloc::vec::Vec;

use super::body::Body;
use crate::point::Axis;

/// How much of the cube of three bodies none of them fills, in cubic nanometres.
///
/// The cube is cut along every edge that passes through it; each cell then belongs to each of the bodies wholly or not at all.
pub(super) fn void(bodies: [&Body; 3]) -> i128 {
    let [x, y, z] = Axis::ALL.map(|axis| cuts(axis, bodies));
    let mut void = 0;
    for (x0, x1) in pairs(&x) {
        for (y0, y1) in pairs(&y) {
            for (z0, z1) in pairs(&z) {
                let cell = i128::from(x1 - x0) * i128::from(y1 - y0) * i128::from(z1 - z0);
                // Twice the middle, so that halves of odd sizes stay whole numbers.
                let middle = [x0 + x1, y0 + y1, z0 + z1];
                if !bodies.iter().any(|body| contains(body, middle)) {
                    void += cell;
                }
            }
        }
    }
    void
}

fn pairs(cuts: &[i64]) -> impl Iterator<Item = (i64, i64)> + '_ {
    cuts.iter().zip(cuts.iter().skip(1)).map(|(&a, &b)| (a, b))
}

/// The ends of the cube along an axis, and where edges cut it.
fn cuts(axis: Axis, bodies: [&Body; 3]) -> Vec<i64> {
    let (lo, hi) = bodies.iter().fold((i64::MIN, i64::MAX), |(lo, hi), body| (lo.max(body.board.lo(axis)), hi.min(body.board.hi(axis))));
    let mut cuts = alloc::vec![lo, hi];
    for body in bodies.iter().filter(|body| body.normal() != axis) {
        let other = body.normal().third(axis);
        // Edges across this axis are the ones along the body's other axis.
        cuts.extend(body.events(other).iter().map(|event| event.across).filter(|at| (lo + 1..hi).contains(at)));
    }
    cuts.sort_unstable();
    cuts.dedup();
    cuts
}

/// Whether a point (given twice over) lies in a body's outline, by counting the edges beyond it.
fn contains(body: &Body, twice: [i64; 3]) -> bool {
    let (u, v) = body.normal().plane();
    let coordinate = |axis: Axis| {
        let [x, y, z] = twice;
        match axis {
            Axis::X => x,
            Axis::Y => y,
            Axis::Z => z,
        }
    };
    let (along, across) = (coordinate(u), coordinate(v));
    let sum: i64 =
        body.events(u).iter().filter(|event| 2 * event.along < along && 2 * event.across > across).map(|event| i64::from(event.sign)).sum();
    sum > 0
}

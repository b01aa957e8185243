//! Solid where another board's solid is.

use super::body::Body;
use super::section::{Step, both};
use crate::overlay::common;

/// What two solids share.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Overlap {
    /// In cubic nanometres.
    pub volume: i128,
    /// Least extent of the thickest shared cell.
    pub depth: i64,
}

/// The overlap of two boards of one normal whose boxes meet.
pub(super) fn coplanar(a: &Body, b: &Body) -> Overlap {
    let ((a0, a1), (b0, b1)) = (a.thick(), b.thick());
    let thick = a1.min(b1) - a0.max(b0);
    let (along, across) = a.normal().plane();
    let mut shared = common(&a.strips(along), &b.strips(along));
    if shared.area > 0 && (a.leans || b.leans) {
        // At a corner with a slanted edge, a cell of the other strips is the smaller one.
        shared.depth = shared.depth.min(common(&a.strips(across), &b.strips(across)).depth);
    }
    Overlap { volume: shared.area * i128::from(thick), depth: shared.depth.min(thick) }
}

/// The overlap of two boards at right angles: at each point of the run the shared solid is a rectangle, what the first fills of the
/// second's thickness (`p`) times what the second fills of the first's (`q`).
pub(super) fn crossing(p: &[Step], q: &[Step]) -> Overlap {
    let mut sum = Overlap::default();
    for (from, to, across_b, across_a) in both(p, q) {
        if across_a > 0 && across_b > 0 {
            sum.volume += i128::from(across_a) * i128::from(across_b) * i128::from(to - from);
            sum.depth = sum.depth.max((to - from).min(across_a).min(across_b));
        }
    }
    sum
}

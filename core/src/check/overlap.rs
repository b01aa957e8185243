//! Solid where another board's solid is.

use alloc::vec::Vec;

use super::body::Body;
use super::extent;
use super::section::{Step, both};

/// What two solids share.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Overlap {
    /// In cubic nanometres.
    pub volume: i128,
    /// Least extent of the thickest shared cell.
    pub depth: i64,
}

/// The overlap of two bodies. `p` and `q` are room to work in.
///
/// For boards at right angles the shared solid at each point of the run is a rectangle: what the first fills of the second's
/// thickness, times what the second fills of the first's.
pub(super) fn overlap(a: &Body, b: &Body, p: &mut Vec<Step>, q: &mut Vec<Step>) -> Overlap {
    if !a.near(b) {
        return Overlap::default();
    }
    if a.normal() == b.normal() {
        let ((a0, a1), (b0, b1)) = (a.thick(), b.thick());
        let thick = a1.min(b1) - a0.max(b0);
        let (area, depth) = extent::shared_area(a, b);
        return Overlap { volume: area * i128::from(thick), depth: depth.min(thick) };
    }
    let run = a.normal().third(b.normal());
    a.section(run, b.thick(), p);
    b.section(run, a.thick(), q);
    let mut sum = Overlap::default();
    for (from, to, across_b, across_a) in both(p, q) {
        if across_a > 0 && across_b > 0 {
            sum.volume += i128::from(across_a) * i128::from(across_b) * i128::from(to - from);
            sum.depth = sum.depth.max((to - from).min(across_a).min(across_b));
        }
    }
    sum
}

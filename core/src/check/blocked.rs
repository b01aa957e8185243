//! Whether one board, moved straight away, runs into another.

use alloc::vec::Vec;

use super::body::Body;
use super::section::{FAR, Step, both, filled};
use crate::overlay::{common, runs_into};
use crate::point::Axis;

/// Whether `a`, moved along `axis` upwards or downwards without end, passes through `b`. Touching is free.
pub(super) fn blocked(a: &Body, b: &Body, axis: Axis, upwards: bool, p: &mut Vec<Step>, q: &mut Vec<Step>) -> bool {
    if !boxes_meet(a, b, axis, upwards) {
        return false;
    }
    // The part of the axis that is swept from an interval on.
    let from = |(lo, hi): (i64, i64)| if upwards { (lo, FAR) } else { (-FAR, hi) };
    // The part from which a move sweeps over an interval.
    let towards = |(lo, hi): (i64, i64)| if upwards { (-FAR, hi) } else { (lo, FAR) };
    let (na, nb) = (a.normal(), b.normal());
    if na == nb {
        let along = if axis == na { na.plane().0 } else { na.third(axis) };
        let (a, b) = (a.strips(along), b.strips(along));
        return if axis == na { common(&a, &b).area > 0 } else { runs_into(&a, &b, upwards) };
    }
    let run = na.third(nb);
    if axis == run {
        a.section(run, b.thick(), p);
        b.section(run, a.thick(), q);
        let ends = |steps: &[Step]| filled(steps).next().zip(filled(steps).last()).map(|((lo, _), (_, hi))| (lo, hi));
        return match (ends(p), ends(q)) {
            (Some((a0, a1)), Some((b0, b1))) => {
                if upwards {
                    a0 < b1
                } else {
                    b0 < a1
                }
            }
            _ => false,
        };
    }
    if axis == na {
        a.section(run, b.thick(), p);
        b.section(run, from(a.thick()), q);
    } else {
        a.section(run, towards(b.thick()), p);
        b.section(run, a.thick(), q);
    }
    both(p, q).any(|(_, _, of_a, of_b)| of_a > 0 && of_b > 0)
}

/// Whether the swept box meets the other's box at all.
fn boxes_meet(a: &Body, b: &Body, axis: Axis, upwards: bool) -> bool {
    Axis::ALL.into_iter().all(|other| {
        let ((a0, a1), (b0, b1)) = (a.extent(other), b.extent(other));
        if other == axis { if upwards { a0 < b1 } else { b0 < a1 } } else { a0 < b1 && b0 < a1 }
    })
}

//! How a run is cut, and how two boards that share it fit together.

use dryfit::*;

use crate::contract::call;
use crate::made;
use crate::memory::{Filled, filled};
use crate::source::Source;

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let (joint, run, thickness) = (made::joint(s, 6), made::run(s), made::thickness(s));
    let first = std::cell::Cell::new(9);
    let all = filled(s, "dryfit_pattern", |out, cap, needed, error| {
        let mut owner = 9;
        // SAFETY: the pointers lead to what they should.
        let status = unsafe { dryfit_pattern(&joint, run, thickness, &mut owner, out, cap, needed, error) };
        assert_eq!(owner == 9, status != DRYFIT_OK, "the owner is written where all goes well");
        first.set(owner);
        status
    });
    call(s, "dryfit_pattern", &[], |s, error| {
        let (mut owner, mut needed) = (0, 0);
        let (joint, owner) = (s.at(&joint), if s.null() { std::ptr::null_mut() } else { &raw mut owner });
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_pattern(joint, run, thickness, owner, std::ptr::null_mut(), 0, &mut needed, error) }
    });
    match all {
        Filled::All(boundaries) => {
            in_order(&joint, run, first.get(), &boundaries);
            together(s, &joint, run, thickness, &boundaries);
        }
        Filled::TooMany(count) => assert!(count < 300_000, "{count} boundaries"),
        Filled::Refused(_) => {}
    }
}

/// Boundaries rise inside the run, and make the spans that were asked for.
fn in_order(joint: &dryfit_joint, run: i64, first: u32, boundaries: &[i64]) {
    let ends: Vec<i64> = [&[0], boundaries, &[run]].concat();
    let widths: Vec<i64> = ends.windows(2).map(|pair| pair[1] - pair[0]).collect();
    assert!(widths.iter().all(|width| *width > 0), "boundaries do not rise inside the run {run}: {boundaries:?}");
    match joint.kind {
        DRYFIT_JOINT_FINGERS | DRYFIT_JOINT_THROUGH_FACE => {
            assert!(joint.count == 0 || widths.len() == joint.count as usize);
            let even = widths.len().is_multiple_of(2);
            assert!(joint.count > 0 || joint.parity == DRYFIT_PARITY_ANY || even == (joint.parity == DRYFIT_PARITY_EVEN));
            let [narrow, wide] = [widths.iter().min(), widths.iter().max()].map(|width| width.copied().unwrap_or(0));
            assert!(wide - narrow <= 1, "fingers of {narrow} to {wide}");
            // Through a face there are three at least, however narrow.
            let narrower = joint.kind == DRYFIT_JOINT_THROUGH_FACE || joint.least == 0;
            assert!(narrower || narrow >= joint.least, "a finger of {narrow}, {} at least", joint.least);
            assert!(joint.kind != DRYFIT_JOINT_FINGERS || first == joint.first);
        }
        DRYFIT_JOINT_TABS => {
            assert_ne!(first, joint.first, "a run of tabs begins beside the first tab");
            assert!(!widths.len().is_multiple_of(2));
            assert!(widths.iter().skip(1).step_by(2).all(|width| *width == joint.width), "tabs of {}: {widths:?}", joint.width);
        }
        DRYFIT_JOINT_HALVES => assert_eq!((widths.len(), first), (2, joint.first)),
        DRYFIT_JOINT_WHOLE => assert_eq!((widths.len(), first), (1, joint.first)),
        _ => assert!(widths.len() > joint.count as usize * 2),
    }
}

/// Two sides of an exact fit are one line: what one board has, the other has not.
fn together(s: &mut Source<'_>, joint: &dryfit_joint, run: i64, depth: i64, boundaries: &[i64]) {
    let mut sides = [DRYFIT_SIDE_A, DRYFIT_SIDE_B].map(|side| {
        let edge = dryfit_edge { joint: *joint, run, thickness: depth, depth, side, ..dryfit_edge::default() };
        // SAFETY: the pointers lead to what they should.
        filled(s, "dryfit_edge_vertices", |out, cap, needed, error| unsafe { dryfit_edge_vertices(&edge, out, cap, needed, error) })
    });
    let [Filled::All(a), Filled::All(b)] = &mut sides else { return };
    let a: Vec<dryfit_point> = a.iter().map(|vertex| vertex.at).collect();
    let b: Vec<dryfit_point> = b.iter().map(|vertex| dryfit_point { x: vertex.at.x, y: depth - vertex.at.y }).collect();
    assert_eq!(a, b, "the two sides do not fill the joint");
    assert_eq!(a.len(), 2 * boundaries.len() + 2);
    if joint.kind != DRYFIT_JOINT_TAILS {
        let x: Vec<i64> = a.iter().map(|point| point.x).collect();
        let expected: Vec<i64> = [0].into_iter().chain(boundaries.iter().flat_map(|at| [*at, *at])).chain([run]).collect();
        assert_eq!(x, expected);
    }
}

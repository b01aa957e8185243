//! How a run is cut.

use dryfit_core::{Nm, Side};

use super::joint::{DRYFIT_SIDE_A, DRYFIT_SIDE_B, dryfit_joint};
use super::length::dryfit_nm;
use crate::answer::{call, dryfit_error};
use crate::status::dryfit_status;

/// The boundaries between the spans of a run, upwards, without its two ends; and who owns the first span. Spans alternate.
///
/// `thickness` is that of the thicker board; of tails, how deep the boards reach into each other. Errors: 102, 201 to 205, 221, 810, 811.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_pattern(
    joint: *const dryfit_joint,
    run: dryfit_nm,
    thickness: dryfit_nm,
    first: *mut u32,
    out: *mut dryfit_nm,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let (owner, buffer) = (given.out(first, "first")?, given.buffer(out, cap, needed)?);
            let joint = given.at(joint, "joint")?.core(given);
            let (run, thickness) = (given.length(run, "run"), given.length(thickness, "thickness"));
            given.done()?;
            let pattern = given.good(joint.pattern(run, thickness))?;
            let boundaries = pattern.boundaries();
            given.good(buffer.fill(boundaries.len(), boundaries.map(Nm::nm)))?;
            owner.put(if pattern.first() == Side::A { DRYFIT_SIDE_A } else { DRYFIT_SIDE_B });
            Ok(())
        })
    }
}

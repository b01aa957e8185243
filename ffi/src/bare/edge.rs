//! One side of a joint.

use core::ffi::c_void;

use dryfit_core::{Nm, Profile, Side};

use super::joint::{DRYFIT_SIDE_A, DRYFIT_SIDE_B, dryfit_fit, dryfit_joint};
use super::knife::{dryfit_knife, led};
use super::length::dryfit_nm;
use super::moves::{Each, dryfit_each_move, dryfit_point, dryfit_vertex, edges};
use crate::answer::{call, dryfit_error};
use crate::given::{Given, Refused};
use crate::status::dryfit_status;

/// One side of a joint in the plane of its board, as the line that the cutter's centre follows.
///
/// The run goes from `at` along x; the board lies at +y, so this is the bottom edge of a counter-clockwise outline. The side's own spans end at y = 0,
/// the mate's are notches of `depth`. The two ends of the run stay where they are.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_edge {
    /// How the run is shared out.
    pub joint: dryfit_joint,
    /// The length along which the boards meet.
    pub run: dryfit_nm,
    /// Of the thicker board; of tails, how deep the boards reach into each other.
    pub thickness: dryfit_nm,
    /// The mate's thickness.
    pub depth: dryfit_nm,
    /// Allowances.
    pub fit: dryfit_fit,
    /// The full width of the cut: 0 to 20 mm.
    pub kerf: dryfit_nm,
    /// Where the run begins.
    pub at: dryfit_point,
    /// One of `DRYFIT_SIDE_...`.
    pub side: u32,
}

impl dryfit_edge {
    /// The profile. It begins at the origin.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn core(&self, given: &mut Given) -> Result<Profile, Refused> {
        let joint = self.joint.core(given);
        self.check(given);
        given.done()?;
        let pattern = given.good(joint.pattern(Nm::clamped(self.run), Nm::clamped(self.thickness)))?;
        given.good(Profile::new(pattern, self.side(), Nm::clamped(self.depth), self.fit.core(), Nm::clamped(self.kerf)))
    }

    /// The same of fingers alone, made where it stands.
    #[inline]
    pub(super) fn fingers(&self, profile: &mut Profile, given: &mut Given) -> Result<(), Refused> {
        self.pattern(profile, given)?;
        self.square(profile, given)
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn pattern(&self, profile: &mut Profile, given: &mut Given) -> Result<(), Refused> {
        let fingers = self.joint.fingers(given);
        self.check(given);
        given.done()?;
        given.good(profile.take_fingers(&fingers, Nm::clamped(self.run), Nm::clamped(self.thickness)))
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn square(&self, profile: &mut Profile, given: &mut Given) -> Result<(), Refused> {
        given.good(profile.square(self.side(), Nm::clamped(self.depth), self.fit.core(), Nm::clamped(self.kerf)))
    }

    /// Looks at all numbers beside the joint's.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn check(&self, given: &mut Given) {
        given.length(self.run, "run");
        given.length(self.thickness, "thickness");
        given.length(self.depth, "depth");
        given.length(self.kerf, "kerf");
        given.up_to(self.side, DRYFIT_SIDE_B, "side");
        self.fit.check(given);
        given.point(&self.at);
    }

    const fn side(&self) -> Side {
        if self.side == DRYFIT_SIDE_A { Side::A } else { Side::B }
    }
}

/// The vertices of an edge along +x. The last one's role is `DRYFIT_ROLE_FREE`.
///
/// Errors: 102, 201 to 205, 221, 401, 810, 811.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_edge_vertices(
    edge: *const dryfit_edge,
    out: *mut dryfit_vertex,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let buffer = given.buffer(out, cap, needed)?;
            let edge = given.at(edge, "edge")?;
            let vertices = edge.core(given)?.vertices_from(edge.at.core());
            given.good(buffer.fill(vertices.len(), vertices.map(dryfit_vertex::of)))
        })
    }
}

/// Hands the moves along an edge over, one by one, without a buffer.
///
/// Errors: as `dryfit_edge_vertices` before the first move; what `each` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_edge_moves(
    edge: *const dryfit_edge,
    each: dryfit_each_move,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let each = Each::new(each, user, given)?;
            let edge = given.at(edge, "edge")?;
            each.edges(&mut edge.core(given)?.vertices_from(edge.at.core()), false, given)
        })
    }
}

/// The same of fingers only (`DRYFIT_JOINT_FINGERS`), for chips with little flash: the linker then leaves tabs, halves and tails out.
///
/// Errors: 102, also for another joint, 201, 204, 401, 810, before the first move; what `each` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_finger_moves(
    edge: *const dryfit_edge,
    each: dryfit_each_move,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let each = Each::new(each, user, given)?;
            let edge = given.at(edge, "edge")?;
            let mut profile = Profile::BLANK;
            edge.fingers(&mut profile, given)?;
            each.edges(&mut profile.vertices_from(edge.at.core()), false, given)
        })
    }
}

/// Hands the moves of a trailing blade's axis over, whose tip follows an edge; `offset` is as with `dryfit_moves_drag`.
///
/// Errors: as `dryfit_edge_vertices` and 102 for the knife's numbers, before the first move; what `each` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_edge_drag(
    edge: *const dryfit_edge,
    knife: *const dryfit_knife,
    offset: *mut dryfit_point,
    each: dryfit_each_move,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let (each, knife) = (Each::new(each, user, given)?, given.at(knife, "knife")?.core(given)?);
            let edge = given.at(edge, "edge")?;
            led(&knife, edges(edge.core(given)?.vertices_from(edge.at.core()), false), false, offset, &each, given)
        })
    }
}

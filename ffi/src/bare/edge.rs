//! One side of a joint.

use core::ffi::c_void;

use dryfit_core::{Error, Nm, Pattern, Point, Profile};

use super::joint::{dryfit_fit, dryfit_joint, side};
use super::knife::{dryfit_knife, led};
use super::length::dryfit_nm;
use super::moves::{Each, dryfit_each_move, dryfit_point, dryfit_vertex, edges};
use crate::answer::{call, dryfit_error};
use crate::buffer::Buffer;
use crate::given::{Given, at};
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
    /// The profile, and where it begins. `joint` reads the joint.
    #[inline(never)]
    fn core(&self) -> Result<(Profile, Point), Error> {
        let joint = Given::all(|given| self.joint.core(given))?;
        self.with(|run, thickness| joint.pattern(run, thickness))
    }

    /// The same of fingers alone.
    #[inline(never)]
    fn fingers(&self) -> Result<(Profile, Point), Error> {
        let fingers = Given::all(|given| self.joint.fingers(given))?;
        self.with(|run, thickness| fingers.pattern(run, thickness))
    }

    #[inline]
    fn with(&self, pattern: impl FnOnce(Nm, Nm) -> Result<Pattern, Error>) -> Result<(Profile, Point), Error> {
        let mut given = Given::default();
        let (run, thickness) = (given.length(self.run, "run"), given.length(self.thickness, "thickness"));
        let (depth, kerf) = (given.length(self.depth, "depth"), given.length(self.kerf, "kerf"));
        let (side, fit, corner) = (side(self.side, "side", &mut given), self.fit.core(&mut given), given.point(&self.at));
        given.done()?;
        Ok((Profile::new(pattern(run, thickness)?, side, depth, fit, kerf)?, corner))
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
        call(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let (profile, corner) = at(edge, "edge")?.core()?;
            let vertices = profile.vertices();
            buffer.fill(vertices.len(), vertices.map(|vertex| dryfit_vertex::of(vertex, corner)))
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
        call(error, || {
            let each = Each::new(each, user)?;
            let (profile, corner) = at(edge, "edge")?.core()?;
            each.edges(profile.vertices(), corner, false)
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
        call(error, || {
            let each = Each::new(each, user)?;
            let (profile, corner) = at(edge, "edge")?.fingers()?;
            each.edges(profile.vertices(), corner, false)
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
        call(error, || {
            let (each, knife) = (Each::new(each, user)?, at(knife, "knife")?.core()?);
            let (profile, corner) = at(edge, "edge")?.core()?;
            led(&knife, edges(profile.vertices(), corner, false), false, offset, &each)
        })
    }
}

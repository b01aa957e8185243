//! One side of a joint.

use core::ffi::c_void;

use dryfit_core::{Error, Profile, Side};

use super::joint::{dryfit_fit, dryfit_joint};
use super::knife::{dryfit_knife, led};
use super::length::dryfit_nm;
use super::moves::{Each, dryfit_each_move, dryfit_point, dryfit_vertex, edges};
use crate::answer::{answer, dryfit_error};
use crate::buffer::Buffer;
use crate::given::{at, length, one_of};
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
    #[inline(never)]
    fn core(&self) -> Result<Profile, Error> {
        let side = one_of(&[Side::A, Side::B], self.side, "side")?;
        let pattern = self.joint.core()?.pattern(length(self.run, "run")?, length(self.thickness, "thickness")?)?;
        Profile::new(pattern, side, length(self.depth, "depth")?, self.fit.core()?, length(self.kerf, "kerf")?)
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
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let edge = at(edge, "edge")?;
            let (vertices, corner) = (edge.core()?.vertices(), edge.at.core()?);
            Ok(buffer.fill(vertices.len(), vertices.map(|vertex| dryfit_vertex::of(vertex, corner)))?)
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
        answer(error, || {
            let each = Each::new(each, user)?;
            let edge = at(edge, "edge")?;
            each.edges(edge.core()?.vertices(), edge.at.core()?, false)
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
        answer(error, || {
            let (each, knife) = (Each::new(each, user)?, at(knife, "knife")?.core()?);
            let edge = at(edge, "edge")?;
            led(&knife, edges(edge.core()?.vertices(), edge.at.core()?, false), false, offset, &each)
        })
    }
}

//! The moves along fingers, one at a time: for chips whose stack is small, and whose memory for a long-lived state is not.

use dryfit_core::{Point, Profile, Vertices};

use super::edge::dryfit_edge;
use super::file::untagged;
use super::moves::{dryfit_move, dryfit_point};
use crate::answer::{call, dryfit_error};
use crate::given::{Given, Refused};
use crate::status::dryfit_status;

/// The moves along fingers, one at a time: memory of the caller, without heap. What stands in it is the library's own, and nobody else's to read.
///
/// `dryfit_fingers_begin` makes it of whatever it held before. It may be moved in memory between two calls, and there is nothing to free.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct dryfit_fingers {
    /// The library's own.
    pub state: [u64; 32],
}

/// What stands in it.
#[repr(C)]
struct Walk {
    tag: u64,
    profile: Profile,
    vertices: Vertices,
    from: dryfit_point,
}

const _: () = assert!(size_of::<Walk>() <= size_of::<dryfit_fingers>() && align_of::<Walk>() <= align_of::<dryfit_fingers>());

/// A number that memory holds by no accident.
const TAG: u64 = u64::from_le_bytes(*b"dffngrs1");

impl Walk {
    const BLANK: Walk = Walk { tag: 0, profile: Profile::BLANK, vertices: Vertices::NONE, from: dryfit_point { x: 0, y: 0 } };

    #[inline(never)]
    fn begin(&mut self, edge: &dryfit_edge, given: &mut Given) -> Result<(), Refused> {
        edge.fingers(&mut self.profile, given)?;
        self.start(edge.at.core());
        self.tag = TAG;
        Ok(())
    }

    #[inline(never)]
    fn start(&mut self, corner: Point) {
        self.vertices = self.profile.vertices_from(corner);
        self.from = self.next().unwrap_or_default();
    }

    #[inline(never)]
    fn next(&mut self) -> Option<dryfit_point> {
        self.vertices.next().map(|vertex| dryfit_point::of(vertex.at))
    }
}

/// Begins at the first finger of an edge (`DRYFIT_JOINT_FINGERS`); the edge is not needed any more.
///
/// Errors: as `dryfit_finger_moves`.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_fingers_begin(fingers: *mut dryfit_fingers, edge: *const dryfit_edge, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let walk = given.out(fingers.cast::<Walk>(), "fingers")?.fill(Walk::BLANK);
            walk.begin(given.at(edge, "edge")?, given)
        })
    }
}

/// The next move: `more` is 1. After the last one `more` is 0, and `move` is left as it was.
///
/// Errors: 810, 812 of what was never begun, or was refused when it was.
///
/// Ownership: nothing is kept. Threads: one edge by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_fingers_next(
    fingers: *mut dryfit_fingers,
    r#move: *mut dryfit_move,
    more: *mut u32,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let (way, more) = (given.out(r#move, "move")?, given.out(more, "more")?);
            let walk = given.at(fingers, "fingers").map(|_| fingers.cast::<Walk>())?;
            untagged(walk.cast(), TAG, "fingers", given)?;
            // The tag said that a whole walk stands there, and nobody else uses it.
            let walk = &mut *walk;
            walk.tag = TAG;
            let Some(to) = walk.next() else {
                more.put(0);
                return Ok(());
            };
            let from = core::mem::replace(&mut walk.from, to);
            way.put(dryfit_move { from, to, ..dryfit_move::default() });
            more.put(1);
            Ok(())
        })
    }
}

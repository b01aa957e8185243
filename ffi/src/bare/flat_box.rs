//! A box without heap.

use core::ffi::{CStr, c_char, c_void};

use dryfit_core::{Code, Face, FlatBox, Nm, Outline};

use super::joint::{dryfit_fit, dryfit_joint};
use super::knife::{dryfit_knife, led};
use super::length::dryfit_nm;
use super::moves::{Each, dryfit_each_move, dryfit_point, dryfit_vertex, edges, starting_at};
use crate::answer::{call, dryfit_error};
use crate::given::{Given, Refused};
use crate::status::dryfit_status;

/// The wall at the lowest y.
pub const DRYFIT_FACE_FRONT: u32 = 0;
/// The wall at the highest y.
pub const DRYFIT_FACE_BACK: u32 = 1;
/// The wall at the lowest x.
pub const DRYFIT_FACE_LEFT: u32 = 2;
/// The wall at the highest x.
pub const DRYFIT_FACE_RIGHT: u32 = 3;
/// The board at the lowest z.
pub const DRYFIT_FACE_BASE: u32 = 4;
/// The board at the highest z, of a closed box.
pub const DRYFIT_FACE_TOP: u32 = 5;
/// So many faces there are.
pub const DRYFIT_FACE_COUNT: u32 = 6;

/// A top like the base, joined to all four walls.
pub const DRYFIT_TOP_CLOSED: u32 = 0;
/// No top.
pub const DRYFIT_TOP_OPEN: u32 = 1;

/// A box of one board with finger joints: six panels, or five without the top. Panels are the lines that the cutter's centre follows. 0 is the usual value of
/// every field but sizes and thickness.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_flat_box {
    /// Outside sizes along x, y and z.
    pub outside: [dryfit_nm; 3],
    /// Of the board.
    pub thickness: dryfit_nm,
    /// The fingers of every run; the kind is `DRYFIT_JOINT_FINGERS`.
    pub fingers: dryfit_joint,
    /// Allowances.
    pub fit: dryfit_fit,
    /// The full width of the cut: 0 to 20 mm.
    pub kerf: dryfit_nm,
    /// Where the lowest corner of the panel's slab comes to lie.
    pub at: dryfit_point,
    /// `DRYFIT_TOP_CLOSED` or `DRYFIT_TOP_OPEN`.
    pub top: u32,
}

impl dryfit_flat_box {
    /// What is asked for, apart: it takes room while it is read.
    #[inline(never)]
    fn core(&self, given: &mut Given) -> Result<FlatBox, Refused> {
        given.lengths(&["outside x", "outside y", "outside z"], &self.outside);
        given.lengths(&["thickness", "kerf"], &[self.thickness, self.kerf]);
        let (top, fingers) = (given.up_to(self.top, DRYFIT_TOP_OPEN, "top"), self.fingers.fingers(given));
        self.fit.check(given);
        given.point(&self.at);
        given.done()?;
        given.good(FlatBox::new(self.outside.map(Nm::clamped), Nm::clamped(self.thickness), top == DRYFIT_TOP_CLOSED, fingers))
    }

    /// The outline of a panel, into memory that a small chip has once. It lies at `at`.
    #[inline(never)]
    fn panel(&self, face: u32, outline: &mut Outline, given: &mut Given) -> Result<(), Refused> {
        let face = given.one_of(&Face::ALL, Face::Front, face, "face");
        let flat = self.core(given)?;
        let there = flat.panel_into(face, self.fit.core(), Nm::clamped(self.kerf), outline);
        if given.good(there)? { Ok(()) } else { Err(given.bare(Code::NoSuchBoard, face.name())) }
    }
}

/// The name of a face, e.g. `front`; NULL for a number that is no face.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_face_name(face: u32) -> *const c_char {
    const NAMES: [&CStr; 6] = [c"front", c"back", c"left", c"right", c"base", c"top"];
    NAMES.get(face as usize).map_or(core::ptr::null(), |name| name.as_ptr())
}

/// The vertices of a panel, counter-clockwise from the lowest, then leftmost one.
///
/// Errors: 102, 201, 204, 302 for the top of an open box, 307, 401, 402, 810, 811.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_panel_vertices(
    flat: *const dryfit_flat_box,
    face: u32,
    out: *mut dryfit_vertex,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let buffer = given.buffer(out, cap, needed)?;
            let mut panel = Outline::default();
            let flat = given.at(flat, "flat")?;
            flat.panel(face, &mut panel, given)?;
            given.good(buffer.fill(panel.len(), starting_at(panel.walk(), flat.at.core()).map(dryfit_vertex::of)))
        })
    }
}

/// Hands the moves around a panel over, one by one, without a buffer; the last one ends where the first began.
///
/// Errors: as `dryfit_panel_vertices` before the first move; what `each` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_panel_moves(
    flat: *const dryfit_flat_box,
    face: u32,
    each: dryfit_each_move,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let each = Each::new(each, user, given)?;
            let mut panel = Outline::default();
            let flat = given.at(flat, "flat")?;
            flat.panel(face, &mut panel, given)?;
            each.edges(&mut starting_at(panel.walk(), flat.at.core()), true, given)
        })
    }
}

/// Hands the moves of a trailing blade's axis over, whose tip follows a panel's outline; `offset` is as with `dryfit_moves_drag`.
///
/// Errors: as `dryfit_panel_vertices` and 102 for the knife's numbers, before the first move; what `each` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_panel_drag(
    flat: *const dryfit_flat_box,
    face: u32,
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
            let mut panel = Outline::default();
            let flat = given.at(flat, "flat")?;
            flat.panel(face, &mut panel, given)?;
            led(&knife, edges(starting_at(panel.walk(), flat.at.core()), true), true, offset, &each, given)
        })
    }
}

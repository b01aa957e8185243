//! A box with all that belongs to it.

use dryfit_core::bounds::Unit;
use dryfit_core::{BoxSpec, Error, Fingers, Top};

use super::assembly::dryfit_assembly;
use super::handle::give;
use crate::answer::{answer, dryfit_error};
use crate::bare::{DRYFIT_TOP_OPEN, dryfit_joint, dryfit_nm};
use crate::buffer::Out;
use crate::given::{Given, List, at};
use crate::status::dryfit_status;

/// A lid that lies on the rim.
pub const DRYFIT_TOP_LIFT_OFF: u32 = 2;
/// A lid that slides in grooves.
pub const DRYFIT_TOP_SLIDING: u32 = 3;

/// A box. 0 is the usual value of every field but sizes and thickness.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct dryfit_box {
    /// Sizes along x, y and z: of the outside, or with `inside` of the inside.
    pub size: [dryfit_nm; 3],
    /// Of all boards.
    pub thickness: dryfit_nm,
    /// The joint of the walls, of the kind `DRYFIT_JOINT_FINGERS`.
    pub fingers: dryfit_joint,
    /// Of a lid, to what holds it; 0.2 mm if 0.
    pub clearance: dryfit_nm,
    /// So much four feet lift it; 0 without.
    pub feet: dryfit_nm,
    /// Captive shelves: how far their undersides stand above the base, upwards. NULL without.
    pub shelves: *const dryfit_nm,
    /// How many shelves.
    pub shelf_count: usize,
    /// Dividers across x and across y, evenly spaced.
    pub dividers: [u32; 2],
    /// 1 if dividers are tabbed into the base too.
    pub into_base: u32,
    /// One of `DRYFIT_TOP_...`.
    pub top: u32,
    /// 1 if the sizes are those of the inside.
    pub inside: u32,
}

impl dryfit_box {
    /// # Safety
    /// `shelves` leads to so many lengths.
    unsafe fn core(&self) -> Result<BoxSpec, Error> {
        // SAFETY: as the caller promises.
        let shelves = unsafe { List::new(self.shelves, self.shelf_count, "shelves")? };
        Given::all(|given| {
            let [x, y, z] = self.size;
            let size = [given.length(x, "size x"), given.length(y, "size y"), given.length(z, "size z")];
            let thickness = given.length(self.thickness, "thickness");
            let inside = given.flag(self.inside, "inside");
            let mut spec = if inside { BoxSpec::inside(size, thickness) } else { BoxSpec::outside(size, thickness) };
            let clearance = given.usual(self.clearance, "clearance");
            let lid = clearance.unwrap_or(Top::CLEARANCE);
            let tops = [Top::Closed, Top::Open, Top::LiftOff { clearance: lid }, Top::Sliding { clearance: lid }];
            spec.top = given.one_of(&tops, Top::Closed, self.top, "top");
            if self.top <= DRYFIT_TOP_OPEN {
                given.unused(true, Unit::Length, self.clearance, "clearance");
            }
            let fingers = self.fingers.fingers(given);
            spec.fingers = (fingers != Fingers::default()).then_some(fingers);
            spec.dividers = self.dividers;
            spec.into_base = given.flag(self.into_base, "into base");
            spec.feet = given.usual(self.feet, "feet");
            spec.shelves = shelves.map(|shelf| given.length(shelf, "shelf")).collect();
            spec
        })
    }
}

/// The boards of a box, to which more may be added. Walls are named front, back, left, right, then base and top or lid.
///
/// Errors: 102, 307, 809, 810, and what the boards themselves refuse.
///
/// Ownership: the caller frees `*out` by `dryfit_assembly_free`. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_of_box(r#box: *const dryfit_box, out: *mut *mut dryfit_assembly, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, made) = (Out::new(out, "out")?, at(r#box, "box")?);
            out.put(give(made.core()?.assembly()?));
            Ok(())
        })
    }
}

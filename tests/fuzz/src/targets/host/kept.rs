//! Handles that a host keeps, and what it knows of them.

use std::ffi::c_void;

use dryfit::*;

use crate::source::Source;

pub const SLOTS: usize = 2;

/// A handle, and what it was made of.
pub struct Slot<T, K> {
    pub handle: *mut T,
    pub known: K,
}

/// Of an assembly: the names of its boards, and whether it is a box as it came.
#[derive(Default)]
pub struct Boards {
    pub names: Vec<Vec<u8>>,
    pub exact: bool,
}

/// All of them.
pub struct Kept {
    pub assemblies: [Slot<dryfit_assembly, Boards>; SLOTS],
    /// Whether the parts are the nominal panels of a box.
    pub parts: [Slot<dryfit_parts, bool>; SLOTS],
    pub layouts: [Slot<dryfit_layout, ()>; SLOTS],
    pub reports: [Slot<dryfit_report, ()>; SLOTS],
}

fn none<T, K: Default>() -> [Slot<T, K>; SLOTS] {
    [(); SLOTS].map(|()| Slot { handle: std::ptr::null_mut(), known: K::default() })
}

impl Kept {
    pub fn new() -> Kept {
        Kept { assemblies: none(), parts: none(), layouts: none(), reports: none() }
    }

    /// A handle of another kind, NULL where there is none, or memory that is no handle.
    pub fn strange(&self, s: &mut Source<'_>, own: *mut c_void) -> *mut c_void {
        static NOTHING: [u64; 4] = [0; 4];
        let which = s.below(SLOTS);
        let nothing = (&raw const NOTHING).cast_mut().cast::<c_void>();
        let all = [
            self.assemblies[which].handle.cast(),
            self.parts[which].handle.cast(),
            self.layouts[which].handle.cast(),
            self.reports[which].handle.cast(),
            nothing,
            // SAFETY: inside of what it points to.
            unsafe { nothing.cast::<u8>().add(1).cast() },
        ];
        let strange = s.pick(&all);
        // Of one kind with it, it would be no stranger.
        let alike = [
            self.assemblies.each_ref().map(|slot| slot.handle.cast()),
            self.parts.each_ref().map(|slot| slot.handle.cast()),
            self.layouts.each_ref().map(|slot| slot.handle.cast()),
            self.reports.each_ref().map(|slot| slot.handle.cast()),
        ];
        if alike.iter().any(|kind| kind.contains(&own) && kind.contains(&strange)) { nothing } else { strange }
    }

    /// The handle itself, or rarely a strange one, and whether it is good.
    pub fn given<T>(&self, s: &mut Source<'_>, own: *mut T) -> (*mut T, bool) {
        if s.one_in(24) { (self.strange(s, own.cast()).cast(), false) } else { (own, !own.is_null()) }
    }

    /// Frees what is left. Each twice: the second time does nothing.
    pub fn free(&mut self) {
        // SAFETY: they are handles or NULL.
        unsafe {
            for _ in 0..2 {
                for at in 0..SLOTS {
                    assert_eq!(dryfit_assembly_free(&mut self.assemblies[at].handle), DRYFIT_OK);
                    assert_eq!(dryfit_parts_free(&mut self.parts[at].handle), DRYFIT_OK);
                    assert_eq!(dryfit_layout_free(&mut self.layouts[at].handle), DRYFIT_OK);
                    assert_eq!(dryfit_report_free(&mut self.reports[at].handle), DRYFIT_OK);
                }
            }
            assert_eq!(dryfit_assembly_free(std::ptr::null_mut()), DRYFIT_OK);
        }
    }
}

impl Drop for Kept {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            self.free();
        }
    }
}

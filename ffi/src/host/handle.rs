//! Handles: what the library keeps for its caller, told apart by a tag.

use alloc::boxed::Box;

use dryfit_core::{Code, Error};

use crate::given::null;

/// What a handle of this type stands for.
pub(crate) trait Kind {
    /// What is kept.
    type Kept;
    /// A number that memory holds by no accident.
    const TAG: u64;
}

#[repr(C)]
struct Handle<T> {
    tag: u64,
    kept: T,
}

/// Gives something to the caller, who frees it.
pub(crate) fn give<K: Kind>(kept: K::Kept) -> *mut K {
    Box::into_raw(Box::new(Handle { tag: K::TAG, kept })).cast()
}

/// # Safety
/// The pointer is NULL or leads to a handle of this library, of whatever kind, that was not freed.
unsafe fn checked<K: Kind>(handle: *mut K, name: &'static str) -> Result<*mut Handle<K::Kept>, Error> {
    if handle.is_null() {
        return Err(null(name));
    }
    if !handle.cast::<u64>().is_aligned() {
        return Err(Error::bare(Code::WrongHandle, name));
    }
    // SAFETY: every handle begins with its tag.
    if unsafe { handle.cast::<u64>().read() } != K::TAG {
        return Err(Error::bare(Code::WrongHandle, name));
    }
    Ok(handle.cast())
}

/// What a handle stands for, to read.
///
/// # Safety
/// As [`checked`]; nobody changes or frees it meanwhile.
pub(crate) unsafe fn read<'a, K: Kind>(handle: *const K, name: &'static str) -> Result<&'a K::Kept, Error> {
    // SAFETY: as the caller promises; the tag says what stands there.
    unsafe { Ok(&(*checked(handle.cast_mut(), name)?).kept) }
}

/// What a handle stands for, to change.
///
/// # Safety
/// As [`checked`]; nobody else uses it meanwhile.
pub(crate) unsafe fn change<'a, K: Kind>(handle: *mut K, name: &'static str) -> Result<&'a mut K::Kept, Error> {
    // SAFETY: as the caller promises; the tag says what stands there.
    unsafe { Ok(&mut (*checked(handle, name)?).kept) }
}

/// Frees what a handle stands for and sets the caller's pointer to NULL. NULL, and a pointer to NULL, are as good.
///
/// # Safety
/// `place` is NULL or leads to a pointer that is as [`checked`] asks for; nobody uses it any more.
pub(crate) unsafe fn free<K: Kind>(place: *mut *mut K, name: &'static str) -> Result<(), Error> {
    // SAFETY: as the caller promises.
    let Some(place) = (unsafe { place.as_mut() }) else { return Ok(()) };
    if place.is_null() {
        return Ok(());
    }
    // SAFETY: as the caller promises.
    let handle = unsafe { checked(*place, name)? };
    *place = core::ptr::null_mut();
    // A second free by another pointer finds no tag, if the memory still is what it was. SAFETY: it is a handle that came from `give`.
    unsafe { (&raw mut (*handle).tag).write_volatile(0) };
    // SAFETY: the same; it is freed once, as its tag is gone.
    drop(unsafe { Box::from_raw(handle) });
    Ok(())
}

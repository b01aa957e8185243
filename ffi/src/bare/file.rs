//! A file in the making, in memory of the caller.

use core::ffi::{c_char, c_void};

use dryfit_core::{Code, Error, Sink};

use crate::answer::{is_stopped, stopped};
use crate::given::null;

/// Takes bytes of a file, in order. It returns 0 to go on; any other number stops the work, and is what the call returns then.
///
/// `bytes` has no zero at its end and may be used during the call only. A callback may call any function, but not with the same `dryfit_file`: that is refused.
pub type dryfit_write = Option<unsafe extern "C" fn(user: *mut c_void, bytes: *const c_char, length: usize) -> i32>;

/// A file in the making: memory of the caller, without heap. What stands in it is the library's own, and nobody else's to read.
///
/// `..._begin` makes one of it, whatever it held before; `..._end` ends the file. A function that gets one of another format, one that was ended, one that was
/// never begun but is all zeros, one whose `write` has failed, or one that is in use (a callback of its own) returns 812. (`..._begin` alone cannot tell a file in
/// use from memory that holds anything: never begin a file anew in a callback of its own.) It may be moved in memory between two calls. There is nothing to free:
/// a file that is not ended is just incomplete.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct dryfit_file {
    /// The library's own.
    pub state: [u64; 32],
}

/// The sink of a callback.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Writer {
    write: unsafe extern "C" fn(*mut c_void, *const c_char, usize) -> i32,
    user: *mut c_void,
}

impl Writer {
    pub fn new(write: dryfit_write, user: *mut c_void) -> Result<Writer, Error> {
        Ok(Writer { write: write.ok_or_else(|| null("write"))?, user })
    }
}

impl Sink for Writer {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        if bytes.is_empty() {
            return Ok(());
        }
        // SAFETY: the caller of the library has promised that its callback may be called.
        match unsafe { (self.write)(self.user, bytes.as_ptr().cast(), bytes.len()) } {
            0 => Ok(()),
            number => Err(stopped(number)),
        }
    }
}

/// What may stand in a `dryfit_file`, told apart by a number that memory holds by no accident.
pub(crate) trait Format: Sized {
    const TAG: u64;
}

/// How it stands there.
#[repr(C)]
struct Slot<T> {
    tag: u64,
    value: T,
}

/// Where a file of a format stands in the caller's memory.
fn slot<T: Format>(file: *mut c_void) -> Result<*mut Slot<T>, Error> {
    const { assert!(size_of::<Slot<T>>() <= size_of::<dryfit_file>() && align_of::<Slot<T>>() <= align_of::<dryfit_file>()) };
    if file.is_null() { Err(null("file")) } else { Ok(file.cast()) }
}

/// Begins a file.
///
/// # Safety
/// `file` is NULL or leads to a `dryfit_file` that nobody else uses meanwhile.
pub(crate) unsafe fn begin<T: Format>(file: *mut dryfit_file, value: impl FnOnce() -> Result<T, Error>) -> Result<(), Error> {
    let slot = slot::<T>(file.cast())?;
    // While it is begun, and if that fails, it is no file. SAFETY: there is room for a whole slot.
    unsafe { (&raw mut (*slot).tag).write(0) };
    let value = value()?;
    // SAFETY: the same. What stood there has nothing to drop.
    unsafe { slot.write(Slot { tag: T::TAG, value }) };
    Ok(())
}

/// Makes no file of whatever stands there: what is refused before it is begun anew must not go on as what it was.
///
/// # Safety
/// As [`begin`].
pub(crate) unsafe fn clear<T: Format>(file: *mut dryfit_file) -> Result<(), Error> {
    let slot = slot::<T>(file.cast())?;
    // SAFETY: there is room for a whole slot.
    unsafe { (&raw mut (*slot).tag).write(0) };
    Ok(())
}

/// As [`begin`], of a file that is made where it stands: `start` is what is written first.
///
/// # Safety
/// As [`begin`].
pub(crate) unsafe fn begin_with<T: Format>(file: *mut dryfit_file, blank: T, start: impl FnOnce(&mut T) -> Result<(), Error>) -> Result<(), Error> {
    let slot = slot::<T>(file.cast())?;
    // SAFETY: there is room for a whole slot. What stood there has nothing to drop.
    unsafe { slot.write(Slot { tag: 0, value: blank }) };
    // SAFETY: it was just written, and nobody else uses it.
    let slot = unsafe { &mut *slot };
    start(&mut slot.value)?;
    slot.tag = T::TAG;
    Ok(())
}

/// Ends a file: it is one no more.
///
/// # Safety
/// As [`go_on`].
pub(crate) unsafe fn end<T: Format>(file: *mut dryfit_file, last: impl FnOnce(&mut T) -> Result<(), Error>) -> Result<(), Error> {
    // SAFETY: as the caller promises.
    last(unsafe { &mut opened::<T>(file.cast())?.value })
}

/// Works on a file that was begun. Meanwhile its tag says nothing, so that a callback cannot get at it; and it says nothing for good once `write` has stopped the
/// work, since a line may be missing then: the one that lifts the tool, for instance.
///
/// # Safety
/// As [`begin`]; what the tag of a format stands before was written by [`begin`].
pub(crate) unsafe fn go_on<T: Format>(file: *mut c_void, work: impl FnOnce(&mut T) -> Result<(), Error>) -> Result<(), Error> {
    // SAFETY: as the caller promises.
    let slot = unsafe { opened::<T>(file)? };
    let end = work(&mut slot.value);
    if !end.as_ref().is_err_and(is_stopped) {
        slot.tag = T::TAG;
    }
    end
}

/// Takes a file out: it is one no more.
///
/// # Safety
/// As [`go_on`].
pub(crate) unsafe fn take<T: Format>(file: *mut dryfit_file) -> Result<T, Error> {
    // SAFETY: as the caller promises.
    let slot = unsafe { opened::<T>(file.cast())? };
    // SAFETY: it is read once, since the tag stays away.
    Ok(unsafe { core::ptr::read(&slot.value) })
}

/// A file without its tag.
///
/// # Safety
/// As [`go_on`].
unsafe fn opened<'a, T: Format>(file: *mut c_void) -> Result<&'a mut Slot<T>, Error> {
    let slot = slot::<T>(file)?;
    // SAFETY: a tag is a number, and any memory is one.
    if unsafe { (&raw const (*slot).tag).read() } != T::TAG {
        return Err(Error::bare(Code::WrongHandle, "file"));
    }
    // SAFETY: the tag says that a whole value stands there, and nobody else uses it.
    let slot = unsafe { &mut *slot };
    slot.tag = 0;
    Ok(slot)
}

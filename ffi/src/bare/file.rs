//! A file in the making, in memory of the caller.

use core::ffi::{c_char, c_void};
use core::mem::MaybeUninit;

use dryfit_core::{Code, Error, Hpgl, Move, Sink};

use super::moves::dryfit_move;
use super::{drawing, dxf, gcode, svg};
#[cfg(feature = "host")]
use crate::answer::stopped;
use crate::answer::{call, dryfit_error, told};
use crate::given::{Given, Refused};
use crate::status::dryfit_status;

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
    pub state: [u64; 40],
}

/// The sink of a callback. It takes everything, and keeps the number that has stopped it: what writes a file needs no way out then, which is most of its code.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Writer {
    write: unsafe extern "C" fn(*mut c_void, *const c_char, usize) -> i32,
    user: *mut c_void,
    stopped: i32,
}

impl Writer {
    pub fn new(write: dryfit_write, user: *mut c_void, given: &mut Given) -> Result<Writer, Refused> {
        Ok(Writer { write: write.ok_or_else(|| given.null("write"))?, user, stopped: 0 })
    }

    #[inline(never)]
    fn hand(&mut self, bytes: &[u8]) {
        if self.stopped == 0 && !bytes.is_empty() {
            // SAFETY: the caller of the library has promised that its callback may be called.
            self.stopped = unsafe { (self.write)(self.user, bytes.as_ptr().cast(), bytes.len()) };
        }
    }

    /// Whether all went well so far.
    pub fn done(&self, given: &mut Given) -> Result<(), Refused> {
        if self.stopped == 0 { Ok(()) } else { Err(given.stop(self.stopped)) }
    }
}

impl Sink for Writer {
    #[inline]
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        self.hand(bytes);
        Ok(())
    }
}

/// The same for whole files, whose writing ends where it is stopped.
#[cfg(feature = "host")]
pub(crate) struct Stopping(Writer);

#[cfg(feature = "host")]
impl Stopping {
    pub fn new(write: dryfit_write, user: *mut c_void) -> Result<Stopping, Error> {
        Given::asked(|given| Writer::new(write, user, given)).map(Stopping)
    }
}

#[cfg(feature = "host")]
impl Sink for Stopping {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        self.0.hand(bytes);
        if self.0.stopped == 0 { Ok(()) } else { Err(stopped(self.0.stopped)) }
    }
}

/// What may stand in a `dryfit_file`, told apart by a number that memory holds by no accident.
pub(crate) trait Format: Sized {
    const TAG: u64;

    fn writer(&self) -> &Writer;
}

/// How it stands there.
#[repr(C)]
struct Slot<T> {
    tag: u64,
    value: T,
}

/// What stands behind it: what a callback for moves refused last, since it has no `dryfit_error` to tell it to.
#[repr(C)]
struct Kept {
    slot: [u64; 34],
    refused: Option<Error>,
}

const _: () = assert!(size_of::<Kept>() <= size_of::<dryfit_file>() && align_of::<Kept>() <= align_of::<dryfit_file>());

/// Where a file of a format stands in the caller's memory.
fn slot<T: Format>(file: *mut c_void, given: &mut Given) -> Result<*mut Slot<T>, Refused> {
    const { assert!(size_of::<Slot<T>>() <= core::mem::offset_of!(Kept, refused) && align_of::<Slot<T>>() <= align_of::<dryfit_file>()) };
    if file.is_null() { Err(given.null("file")) } else { Ok(file.cast()) }
}

/// Begins a file.
///
/// # Safety
/// `file` is NULL or leads to a `dryfit_file` that nobody else uses meanwhile.
pub(crate) unsafe fn begin<T: Format>(
    file: *mut dryfit_file,
    given: &mut Given,
    value: impl FnOnce(&mut Given) -> Result<T, Refused>,
) -> Result<(), Refused> {
    // SAFETY: as the caller promises.
    unsafe { clear::<T>(file, given)? };
    let value = value(given)?;
    value.writer().done(given)?;
    // SAFETY: `clear` has found room for it. What stood there has nothing to drop.
    unsafe { file.cast::<Slot<T>>().write(Slot { tag: T::TAG, value }) };
    Ok(())
}

/// Makes no file of whatever stands there: while it is begun, and if that fails, it is none.
///
/// # Safety
/// As [`begin`].
pub(crate) unsafe fn clear<T: Format>(file: *mut dryfit_file, given: &mut Given) -> Result<(), Refused> {
    let slot = slot::<T>(file.cast(), given)?;
    // SAFETY: there is room for a whole slot and what stands behind it.
    unsafe {
        (&raw mut (*slot).tag).write(0);
        (&raw mut (*file.cast::<Kept>()).refused).write(None);
    }
    Ok(())
}

/// As [`begin`], of a file that is made where it stands, in memory that [`clear`] has found: `start` is what is written first.
///
/// # Safety
/// As [`begin`]; `file` is not NULL, its tag is gone, and `blank` writes all of it.
pub(crate) unsafe fn begin_with<T: Format>(
    file: *mut dryfit_file,
    given: &mut Given,
    blank: impl FnOnce(&mut MaybeUninit<T>),
    start: impl FnOnce(&mut T) -> Result<(), Error>,
) -> Result<(), Refused> {
    // SAFETY: there is room for a whole slot, a tag is a number, and nobody else uses it. What stood there has nothing to drop.
    let slot = unsafe { &mut *file.cast::<Slot<MaybeUninit<T>>>() };
    blank(&mut slot.value);
    // SAFETY: `blank` has written it.
    let value = unsafe { slot.value.assume_init_mut() };
    given.good(start(value))?;
    value.writer().done(given)?;
    slot.tag = T::TAG;
    Ok(())
}

/// Ends a file: it is one no more.
///
/// # Safety
/// As [`go_on`].
pub(crate) unsafe fn end<T: Format>(
    file: *mut dryfit_file,
    given: &mut Given,
    last: impl FnOnce(&mut T) -> Result<(), Error>,
) -> Result<(), Refused> {
    // SAFETY: as the caller promises.
    let slot = unsafe { opened::<T>(file.cast(), given)? };
    given.good(last(&mut slot.value))?;
    slot.value.writer().done(given)
}

/// Works on a file that was begun. Meanwhile its tag says nothing, so that a callback cannot get at it; and it says nothing for good once `write` has stopped the
/// work, since a line may be missing then: the one that lifts the tool, for instance.
///
/// # Safety
/// As [`begin`]; what the tag of a format stands before was written by [`begin`].
pub(crate) unsafe fn go_on<T: Format>(file: *mut c_void, given: &mut Given, work: impl FnOnce(&mut T) -> Result<(), Error>) -> Result<(), Refused> {
    // SAFETY: as the caller promises.
    let slot = unsafe { opened::<T>(file, given)? };
    let end = work(&mut slot.value);
    slot.value.writer().done(given)?;
    slot.tag = T::TAG;
    given.good(end)
}

/// Hands a move to a file that was begun: a callback for the functions that hand moves over. What it refuses is kept in the file for [`dryfit_file_error`].
///
/// # Safety
/// As [`go_on`]; `way` is NULL or leads to a move.
#[inline]
pub(crate) unsafe fn cut<T: Format>(
    file: *mut c_void,
    way: *const dryfit_move,
    step: impl FnOnce(&mut T, &Move, bool) -> Result<(), Error>,
) -> dryfit_status {
    // SAFETY: as the caller promises.
    unsafe {
        call(core::ptr::null_mut(), |given| {
            let slot = opened::<T>(file, given)?;
            given.keeping(&raw mut (*file.cast::<Kept>()).refused);
            if let Ok(way) = given.at(way, "move") {
                let (swivel, way) = (way.swivel != 0, way.core(given));
                if given.done().is_ok() {
                    let end = step(&mut slot.value, &way, swivel);
                    slot.value.writer().done(given)?;
                    // What is refused is told, and the file goes on.
                    let _ = given.good(end);
                }
            }
            slot.tag = T::TAG;
            given.done()
        })
    }
}

/// Completes the error of a call whose callback was `dryfit_gcode_cut` or another of that kind, which have no `dryfit_error` to tell what they refuse: where
/// its `parameter` is `callback` and its status that of what this file refused last, it becomes that refusal, with the parameter, what was given and what is
/// allowed. Any other error stays as it is, so this may be called after whatever went wrong.
///
/// Errors: 810.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_file_error(file: *const dryfit_file, of: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(core::ptr::null_mut(), |given| {
            let tag = *given.at(file.cast::<u64>(), "file")?;
            let error = given.at(of, "of")?;
            let known = [gcode::Job::TAG, <Hpgl<Writer>>::TAG, svg::Job::TAG, dxf::Job::TAG, drawing::Job::TAG].contains(&tag);
            if known && error.is_callback() {
                // What goes with a tag was written by `begin`, alike for all formats.
                let refused = (*file.cast::<Kept>()).refused;
                if let Some(refused) = refused.filter(|refused| refused.code.number() == error.status) {
                    told(of, &refused, "");
                }
            }
            Ok(())
        })
    }
}

/// Takes a file out: it is one no more.
///
/// # Safety
/// As [`go_on`].
pub(crate) unsafe fn take<T: Format>(file: *mut dryfit_file, given: &mut Given) -> Result<T, Refused> {
    // SAFETY: as the caller promises.
    let slot = unsafe { opened::<T>(file.cast(), given)? };
    // SAFETY: it is read once, since the tag stays away.
    Ok(unsafe { core::ptr::read(&slot.value) })
}

/// A file without its tag.
///
/// # Safety
/// As [`go_on`].
#[inline]
unsafe fn opened<'a, T: Format>(file: *mut c_void, given: &mut Given) -> Result<&'a mut Slot<T>, Refused> {
    let slot = slot::<T>(file, given)?;
    // SAFETY: any memory is a number; as the caller promises.
    unsafe { untagged(slot.cast(), T::TAG, "file", given)? };
    // SAFETY: the tag said that a whole value stands there, and nobody else uses it.
    Ok(unsafe { &mut *slot })
}

/// Takes a tag away.
///
/// # Safety
/// The pointer leads to a number that nobody else uses meanwhile.
#[inline(never)]
pub(super) unsafe fn untagged(tag: *mut u64, right: u64, name: &'static str, given: &mut Given) -> Result<(), Refused> {
    // SAFETY: as the caller promises.
    if unsafe { tag.read() } != right {
        return Err(given.bare(Code::WrongHandle, name));
    }
    // SAFETY: the same.
    unsafe { tag.write(0) };
    Ok(())
}

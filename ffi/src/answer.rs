//! How every call ends: with a status, and the whole error where the caller has room for it.

use core::ffi::c_char;

#[cfg(any(feature = "host", feature = "std"))]
use dryfit_core::Code;
#[cfg(feature = "host")]
use dryfit_core::Failure;
use dryfit_core::bounds::Unit;
use dryfit_core::{Amount, Error};

use crate::given::{Given, Refused};
use crate::status::{DRYFIT_OK, dryfit_status};

/// So many bytes hold the name of any parameter, and the zero at its end.
pub const DRYFIT_PARAMETER_SIZE: usize = 48;
/// So many bytes hold where it happened, shortened if need be, and the zero at its end.
pub const DRYFIT_PLACE_SIZE: usize = 144;

/// There is no number to show.
pub const DRYFIT_UNIT_NONE: u32 = 0;
/// Nanometres.
pub const DRYFIT_UNIT_LENGTH: u32 = 1;
/// A count.
pub const DRYFIT_UNIT_COUNT: u32 = 2;
/// Millionths of a degree.
pub const DRYFIT_UNIT_ANGLE: u32 = 3;
/// Nanometres a second.
pub const DRYFIT_UNIT_SPEED: u32 = 4;
/// Nanometres a second squared.
pub const DRYFIT_UNIT_ACCELERATION: u32 = 5;
/// Millionths of a second.
pub const DRYFIT_UNIT_SECONDS: u32 = 6;
/// Millionths of a minute.
pub const DRYFIT_UNIT_MINUTES: u32 = 7;
/// Millionths of what has no unit.
pub const DRYFIT_UNIT_NUMBER: u32 = 8;

/// A refusal: which parameter, what was given, what is allowed, and where. It belongs to the caller; nothing in it points anywhere.
///
/// A call that goes well sets `status` to 0 and leaves the rest. `dryfit_error_message` makes a sentence of it.
#[repr(C)]
#[derive(Clone, Copy, Debug)]
pub struct dryfit_error {
    /// What the call returned.
    pub status: dryfit_status,
    /// The unit of `given`, one of `DRYFIT_UNIT_...`.
    pub given_unit: u32,
    /// The unit of `least` and `most`.
    pub range_unit: u32,
    /// What was given.
    pub given: i64,
    /// The smallest allowed value.
    pub least: i64,
    /// The largest allowed value.
    pub most: i64,
    /// The name of the parameter, ended by a zero.
    pub parameter: [c_char; DRYFIT_PARAMETER_SIZE],
    /// Where it happened, e.g. `panel "front" near (12.5, 0) mm`, ended by a zero; empty where nothing more is known. UTF-8.
    pub place: [c_char; DRYFIT_PLACE_SIZE],
}

impl dryfit_error {
    /// Whether all that is known is what a callback returned.
    pub(crate) fn is_callback(&self) -> bool {
        let name = CALLBACK.bytes().chain([0]);
        self.parameter.iter().zip(name).all(|(&letter, wanted)| letter as u8 == wanted)
    }
}

/// Why a call ends early.
#[cfg(feature = "host")]
pub(crate) enum Fault {
    /// A refusal.
    Refused(Error),
    /// A refusal, and where it happened.
    Placed(Failure),
}

/// What the work of a call comes to.
#[cfg(feature = "host")]
pub(crate) type Answer<T = ()> = Result<T, Fault>;

/// The name under which a callback's own number goes through the core, which knows nothing of callbacks.
const CALLBACK: &str = "callback";

/// Whether it is a callback's own number.
#[cfg(feature = "host")]
fn is_stopped(error: &Error) -> bool {
    error.code == Code::SinkFull && error.parameter == CALLBACK
}

/// A callback's own number as an error of the core, for what writes a whole file.
#[cfg(feature = "host")]
pub(crate) fn stopped(number: i32) -> Error {
    Error::bare(Code::SinkFull, CALLBACK).giving(Amount::Count(i64::from(number)))
}

#[cfg(feature = "host")]
impl From<Error> for Fault {
    fn from(error: Error) -> Fault {
        Fault::Refused(error)
    }
}

#[cfg(feature = "host")]
impl From<Failure> for Fault {
    fn from(failure: Failure) -> Fault {
        Fault::Placed(failure)
    }
}

/// Does the work of a call that needs no heap, and says how it ended.
///
/// # Safety
/// `error` is NULL or leads to a `dryfit_error` that nobody else uses meanwhile.
#[inline]
pub(crate) unsafe fn call(error: *mut dryfit_error, work: impl FnOnce(&mut Given) -> Result<(), Refused>) -> dryfit_status {
    // SAFETY: as the caller promises.
    let mut given = unsafe { Given::telling(error) };
    let panicked = guarded(|| {
        // What is refused is told at once.
        let _ = work(&mut given);
        Ok(())
    });
    if let Err(panicked) = panicked {
        given.refuse(&panicked);
    }
    given.end()
}

/// Does the work of a call and says how it ended.
///
/// # Safety
/// As [`call`].
#[cfg(feature = "host")]
pub(crate) unsafe fn answer(error: *mut dryfit_error, work: impl FnOnce() -> Answer) -> dryfit_status {
    let fault = guarded(work).err();
    let (refused, place) = match &fault {
        None => (None, ""),
        Some(Fault::Refused(refused)) => (Some(refused), ""),
        Some(Fault::Placed(failure)) => (Some(&failure.error), failure.place.as_str()),
    };
    // SAFETY: as the caller promises.
    unsafe { ended(error, refused, place) }
}

/// Tells the caller how its call ended.
///
/// # Safety
/// As [`call`].
#[cfg(feature = "host")]
unsafe fn ended(error: *mut dryfit_error, refused: Option<&Error>, place: &str) -> dryfit_status {
    // SAFETY: as the caller promises.
    unsafe {
        match refused {
            None => good(error),
            Some(refused) if is_stopped(refused) => told_of_stop(error, refused.numbers().1[0] as i32),
            Some(refused) => told(error, refused, place),
        }
    }
}

/// Tells the caller that its call went well.
///
/// # Safety
/// As [`call`].
#[inline]
pub(crate) unsafe fn good(error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: as the caller promises.
    if let Some(error) = unsafe { error.as_mut() } {
        error.status = DRYFIT_OK;
    }
    DRYFIT_OK
}

/// Tells the caller what was refused.
///
/// # Safety
/// As [`call`].
#[cold]
#[inline(never)]
pub(crate) unsafe fn told(error: *mut dryfit_error, refused: &Error, place: &str) -> dryfit_status {
    let status = refused.code.number();
    // SAFETY: as the caller promises.
    if let Some(error) = unsafe { tell(error, status, refused.parameter, place) } {
        let ([given_unit, range_unit], [given, least, most]) = refused.numbers();
        (error.given_unit, error.range_unit) = (unit(given_unit), unit(range_unit));
        (error.given, error.least, error.most) = (given, least, most);
    }
    status
}

/// Tells the caller of the number of its own callback, which becomes the status. Nothing was given.
///
/// # Safety
/// As [`call`].
#[cold]
#[inline(never)]
pub(crate) unsafe fn told_of_stop(error: *mut dryfit_error, number: i32) -> dryfit_status {
    // SAFETY: as the caller promises.
    unsafe { tell(error, number, CALLBACK, "") };
    number
}

/// A refusal without numbers.
///
/// # Safety
/// As [`call`].
#[inline(never)]
unsafe fn tell<'a>(error: *mut dryfit_error, status: dryfit_status, parameter: &str, place: &str) -> Option<&'a mut dryfit_error> {
    // SAFETY: as the caller promises.
    let error = unsafe { error.as_mut() }?;
    (error.status, error.given_unit, error.range_unit) = (status, DRYFIT_UNIT_NONE, DRYFIT_UNIT_NONE);
    (error.given, error.least, error.most) = (0, 0, 0);
    copy(&mut error.parameter, parameter);
    copy(&mut error.place, place);
    Some(error)
}

/// The number of a unit: the core numbers them alike.
const fn unit(unit: Option<Unit>) -> u32 {
    match unit {
        Some(unit) => unit as u32,
        None => DRYFIT_UNIT_NONE,
    }
}

/// The other way: nothing for a unit that there is not.
pub(crate) const fn amount(unit: u32, n: i64) -> Amount {
    let unit = match unit {
        DRYFIT_UNIT_LENGTH => Unit::Length,
        DRYFIT_UNIT_COUNT => Unit::Count,
        DRYFIT_UNIT_ANGLE => Unit::Angle,
        DRYFIT_UNIT_SPEED => Unit::Speed,
        DRYFIT_UNIT_ACCELERATION => Unit::Acceleration,
        DRYFIT_UNIT_SECONDS => Unit::Seconds,
        DRYFIT_UNIT_MINUTES => Unit::Minutes,
        DRYFIT_UNIT_NUMBER => Unit::Number,
        _ => return Amount::Unstated,
    };
    Amount::of(Some(unit), n)
}

/// As much of a text as there is room for, by whole letters, and zeros after it.
fn copy(room: &mut [c_char], text: &str) {
    let mut length = text.len().min(room.len().saturating_sub(1));
    while !text.is_char_boundary(length) {
        length -= 1;
    }
    let bytes = text.bytes().take(length).chain(core::iter::repeat(0));
    for (to, byte) in room.iter_mut().zip(bytes) {
        *to = byte as c_char;
    }
}

/// With std a panic ends here. Without it there is none in the bare layer, which is proved, and the process is aborted in the host layer.
#[cfg(feature = "std")]
fn guarded<E: From<Error>>(work: impl FnOnce() -> Result<(), E>) -> Result<(), E> {
    extern crate std;
    std::panic::catch_unwind(std::panic::AssertUnwindSafe(work)).unwrap_or_else(|_| Err(Error::bare(Code::Panicked, "library").into()))
}

#[cfg(not(feature = "std"))]
#[inline]
fn guarded<E>(work: impl FnOnce() -> Result<(), E>) -> Result<(), E> {
    work()
}

#[cfg(test)]
#[path = "answer_tests.rs"]
mod tests;

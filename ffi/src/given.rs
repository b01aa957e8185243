//! What comes in: pointers, texts, lists, enums and lengths, checked before they are used.

use core::ffi::c_char;

use dryfit_core::bounds::{Bound, LENGTH, Unit};
use dryfit_core::{Code, Error, Nm, Point};

use crate::answer::{dryfit_error, good, told, told_of_stop};
use crate::bare::dryfit_point;
use crate::status::{DRYFIT_OK, dryfit_status};

/// There was a refusal, and the [`Given`] at hand has it: an error is too large to be handed from one function to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Refused;

#[cfg(feature = "host")]
#[cold]
pub(crate) fn null(name: &'static str) -> Error {
    Error::bare(Code::NullPointer, name)
}

/// What a pointer leads to.
///
/// # Safety
/// As [`Given::at`].
#[cfg(feature = "host")]
pub(crate) unsafe fn at<'a, T>(pointer: *const T, name: &'static str) -> Result<&'a T, Error> {
    // SAFETY: as the caller promises.
    Given::asked(|given| unsafe { given.at(pointer, name) })
}

/// Text of so many bytes.
///
/// # Safety
/// As [`Given::text`].
#[cfg(feature = "host")]
pub(crate) unsafe fn text<'a>(pointer: *const c_char, length: usize, name: &'static str) -> Result<&'a str, Error> {
    // SAFETY: as the caller promises.
    Given::asked(|given| unsafe { given.text(pointer, length, name) })
}

/// The entries of a list, read one by one when they are asked for, so that nothing is held while a callback runs.
#[derive(Clone, Debug)]
pub(crate) struct List<T> {
    first: *const T,
    left: usize,
}

impl<T: Copy> List<T> {
    /// A list of so many entries.
    ///
    /// # Safety
    /// As [`Given::list`].
    #[cfg(feature = "host")]
    pub unsafe fn new(first: *const T, count: usize, name: &'static str) -> Result<List<T>, Error> {
        // SAFETY: as the caller promises.
        Given::asked(|given| unsafe { given.list(first, count, name) })
    }
}

impl<T: Copy> Iterator for List<T> {
    type Item = T;

    fn next(&mut self) -> Option<T> {
        self.left = self.left.checked_sub(1)?;
        // SAFETY: `new` was promised so many entries.
        let entry = unsafe { self.first.read() };
        // SAFETY: one behind the last entry at most.
        self.first = unsafe { self.first.add(1) };
        Some(entry)
    }
}

/// A number beyond the last of so many entries, which are numbered from 0; of none even 0 is, and the range ends before it begins.
#[cfg(feature = "host")]
#[cold]
pub(crate) fn beyond(count: usize, number: usize, name: &'static str) -> Error {
    outside(name, entries(number), entries(count) - 1)
}

pub(crate) fn entries(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// A number that should be from 0 to `most`.
#[cold]
fn outside(name: &'static str, given: i64, most: i64) -> Error {
    Error::count(Code::OutOfRange, name, given, 0, most)
}

/// The numbers of a struct, read one after the other: the first that is refused is kept, and stands for all. So each field costs a chip one short call, and no
/// way out of its own.
pub(crate) struct Given {
    /// Where a refusal is told, or NULL.
    error: *mut dryfit_error,
    /// The status of the first refusal.
    status: dryfit_status,
    /// Where the refusal itself is kept, if someone goes on with it, or NULL.
    kept: *mut Option<Error>,
}

impl Given {
    /// Nothing is refused yet. What is will be told here.
    ///
    /// # Safety
    /// `error` is NULL or leads to a `dryfit_error` that nobody else uses as long as this is used.
    #[inline]
    pub unsafe fn telling(error: *mut dryfit_error) -> Given {
        Given { error, status: DRYFIT_OK, kept: core::ptr::null_mut() }
    }

    /// The refusal is kept here as well.
    ///
    /// # Safety
    /// The pointer leads to room that nobody else uses as long as this is used.
    #[inline]
    pub unsafe fn keeping(&mut self, kept: *mut Option<Error>) {
        self.kept = kept;
    }

    /// Numbers whose refusal nobody is told.
    #[inline]
    pub fn silent() -> Given {
        // SAFETY: NULL leads nowhere.
        unsafe { Given::telling(core::ptr::null_mut()) }
    }

    /// How the call ended.
    #[inline]
    pub fn end(self) -> dryfit_status {
        // SAFETY: `telling` was promised that it may be written.
        if self.status == DRYFIT_OK { unsafe { good(self.error) } } else { self.status }
    }

    /// What `read` makes of the numbers, if none is refused.
    #[cfg(feature = "host")]
    #[inline]
    pub fn all<T>(read: impl FnOnce(&mut Given) -> T) -> Result<T, Error> {
        Given::asked(|given| {
            let value = read(given);
            given.done()?;
            Ok(value)
        })
    }

    /// The same of work that ends where something is refused.
    #[cfg(feature = "host")]
    #[inline]
    pub fn asked<T>(work: impl FnOnce(&mut Given) -> Result<T, Refused>) -> Result<T, Error> {
        let (mut given, mut kept) = (Given::silent(), None);
        // SAFETY: it lives as long.
        unsafe { given.keeping(&raw mut kept) };
        let value = work(&mut given);
        // Where there is no value there is a refusal.
        value.map_err(|Refused| kept.unwrap_or(Error::bare(Code::Panicked, "library")))
    }

    /// Whether nothing is refused so far.
    #[inline]
    pub fn done(&self) -> Result<(), Refused> {
        if self.status == DRYFIT_OK { Ok(()) } else { Err(Refused) }
    }

    #[cold]
    #[inline(never)]
    pub fn refuse(&mut self, error: &Error) -> Refused {
        if self.status == DRYFIT_OK {
            // SAFETY: `telling` was promised that it may be written.
            self.status = unsafe { told(self.error, error, "") };
            // SAFETY: `keeping` was promised that it may be written.
            if let Some(kept) = unsafe { self.kept.as_mut() } {
                *kept = Some(*error);
            }
        }
        Refused
    }

    /// A callback's own number.
    #[cold]
    #[inline(never)]
    pub fn stop(&mut self, number: i32) -> Refused {
        if self.status == DRYFIT_OK {
            // SAFETY: `telling` was promised that it may be written.
            self.status = unsafe { told_of_stop(self.error, number) };
        }
        Refused
    }

    /// A refusal without numbers.
    #[cold]
    #[inline(never)]
    pub fn bare(&mut self, code: Code, name: &'static str) -> Refused {
        self.refuse(&Error::bare(code, name))
    }

    /// A pointer that is NULL.
    #[cold]
    #[inline(never)]
    pub fn null(&mut self, name: &'static str) -> Refused {
        self.bare(Code::NullPointer, name)
    }

    /// What the core has made, if it has not refused.
    #[inline]
    pub fn good<T>(&mut self, made: Result<T, Error>) -> Result<T, Refused> {
        match made {
            Ok(value) => Ok(value),
            Err(ref error) => Err(self.refuse(error)),
        }
    }

    /// What a pointer leads to.
    ///
    /// # Safety
    /// The pointer is NULL or leads to a whole `T` that nobody changes for as long as the result is used.
    #[inline]
    pub unsafe fn at<'a, T>(&mut self, pointer: *const T, name: &'static str) -> Result<&'a T, Refused> {
        // SAFETY: as the caller promises.
        unsafe { pointer.as_ref() }.ok_or_else(|| self.null(name))
    }

    /// Text of so many bytes, which needs no zero at its end. NULL is an empty text if its length is 0.
    ///
    /// # Safety
    /// The pointer is NULL or leads to so many bytes that nobody changes for as long as the result is used.
    #[inline(never)]
    pub unsafe fn text<'a>(&mut self, pointer: *const c_char, length: usize, name: &'static str) -> Result<&'a str, Refused> {
        if pointer.is_null() {
            return if length == 0 { Ok("") } else { Err(self.null(name)) };
        }
        let length = self.counted(length, 1, name)?;
        // SAFETY: as the caller promises; the length is no longer than memory can be.
        let bytes = unsafe { core::slice::from_raw_parts(pointer.cast(), length) };
        crate::utf8::text(bytes).ok_or_else(|| self.bare(Code::NotText, name))
    }

    /// A list of so many entries. NULL is an empty list if its length is 0.
    ///
    /// # Safety
    /// The pointer is NULL or leads to so many whole `T` for as long as the list is used.
    pub unsafe fn list<T: Copy>(&mut self, first: *const T, count: usize, name: &'static str) -> Result<List<T>, Refused> {
        if first.is_null() && count > 0 {
            return Err(self.null(name));
        }
        Ok(List { first, left: self.counted(count, size_of::<T>(), name)? })
    }

    /// No list is longer than memory can be; the largest `size_t` shows as more than that in a message too.
    fn counted(&mut self, count: usize, size: usize, name: &'static str) -> Result<usize, Refused> {
        let most = (isize::MAX as usize - 1) / size.max(1);
        if count > most { Err(self.refuse(&outside(name, entries(count), entries(most)))) } else { Ok(count) }
    }

    /// What may be refused, or something in its place.
    pub fn or<T>(&mut self, value: Result<T, Error>, instead: T) -> T {
        value.unwrap_or_else(|error| {
            self.refuse(&error);
            instead
        })
    }

    /// A length.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn length(&mut self, nm: i64, name: &'static str) -> Nm {
        self.named(&LENGTH, name, nm);
        Nm::clamped(nm)
    }

    /// Several lengths.
    pub fn lengths(&mut self, names: &[&'static str], numbers: &[i64]) {
        self.several(&LENGTH, names, numbers);
    }

    /// Several numbers that have one range.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn several(&mut self, range: &Bound, names: &[&'static str], numbers: &[i64]) {
        for (name, &number) in names.iter().zip(numbers) {
            self.named(range, name, number);
        }
    }

    /// A number in a range that has another name.
    #[inline]
    fn named(&mut self, range: &Bound, name: &'static str, number: i64) {
        if number < range.least || range.most < number {
            self.outside(range, name, number);
        }
    }

    /// A number between two others.
    #[inline(never)]
    pub fn between(&mut self, unit: Unit, least: i64, most: i64, number: i64, name: &'static str) {
        if number < least || most < number {
            self.refuse(&Error::new(Code::OutOfRange, name, unit, number, least, most));
        }
    }

    #[cold]
    #[inline(never)]
    fn outside(&mut self, range: &Bound, name: &'static str, number: i64) {
        let mut error = range.error(number);
        error.parameter = name;
        self.refuse(&error);
    }

    /// A number in a range.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn within(&mut self, range: &Bound, number: i64) -> i64 {
        self.named(range, range.name, number);
        number.min(range.most).max(range.least)
    }

    /// Refuses a number other than 0 in a field that a tool has no use for.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn none_of(&mut self, useless: bool, number: i64, name: &'static str) {
        if useless && number != 0 {
            self.bare(Code::NotOfThisTool, name);
        }
    }

    /// A length that is left to its usual value where it is 0.
    pub fn usual(&mut self, nm: i64, name: &'static str) -> Option<Nm> {
        Some(self.length(nm, name)).filter(|_| nm != 0)
    }

    /// A point.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn point(&mut self, at: &dryfit_point) -> Point {
        // SAFETY: two numbers, one after the other.
        self.lengths(&["x", "y"], unsafe { &*(&raw const *at).cast::<[i64; 2]>() });
        at.core()
    }

    /// A number of 0 to `most`.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn up_to(&mut self, number: u32, most: u32, name: &'static str) -> u32 {
        if number > most {
            self.between(Unit::Count, 0, most.into(), number.into(), name);
            return 0;
        }
        number
    }

    /// One of the values that an enum argument may have, which are numbered from 0; `usual` where there is none of that number.
    pub fn one_of<T: Copy>(&mut self, all: &[T], usual: T, number: u32, name: &'static str) -> T {
        let number = self.up_to(number, all.len() as u32 - 1, name);
        all.get(number as usize).copied().unwrap_or(usual)
    }

    /// 0 or 1.
    pub fn flag(&mut self, number: u32, name: &'static str) -> bool {
        self.up_to(number, 1, name) == 1
    }

    /// Refuses a number other than 0 in a field that has no meaning, if it has none.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn unused(&mut self, useless: bool, unit: Unit, number: i64, name: &'static str) {
        if useless && number != 0 {
            self.between(unit, 0, 0, number, name);
        }
    }
}

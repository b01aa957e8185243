//! What comes in: pointers, texts, lists, enums and lengths, checked before they are used.

use core::ffi::c_char;

use dryfit_core::bounds::{Bound, LENGTH};
use dryfit_core::{Code, Error, Nm, Point};

use crate::bare::dryfit_point;

#[cold]
pub(crate) fn null(name: &'static str) -> Error {
    Error::bare(Code::NullPointer, name)
}

/// What a pointer leads to.
///
/// # Safety
/// The pointer is NULL or leads to a whole `T` that nobody changes for as long as the result is used.
pub(crate) unsafe fn at<'a, T>(pointer: *const T, name: &'static str) -> Result<&'a T, Error> {
    // SAFETY: as the caller promises.
    unsafe { pointer.as_ref() }.ok_or_else(|| null(name))
}

/// Text of so many bytes, which needs no zero at its end. NULL is an empty text if its length is 0.
///
/// # Safety
/// The pointer is NULL or leads to so many bytes that nobody changes for as long as the result is used.
pub(crate) unsafe fn text<'a>(pointer: *const c_char, length: usize, name: &'static str) -> Result<&'a str, Error> {
    if pointer.is_null() {
        return if length == 0 { Ok("") } else { Err(null(name)) };
    }
    let length = counted(length, 1, name)?;
    // SAFETY: as the caller promises; the length is no longer than memory can be.
    let bytes = unsafe { core::slice::from_raw_parts(pointer.cast(), length) };
    core::str::from_utf8(bytes).map_err(|_| Error::bare(Code::NotText, name))
}

/// The entries of a list, read one by one when they are asked for, so that nothing is held while a callback runs.
#[derive(Clone, Debug)]
pub(crate) struct List<T> {
    first: *const T,
    left: usize,
}

impl<T: Copy> List<T> {
    /// A list of so many entries. NULL is an empty list if its length is 0.
    ///
    /// # Safety
    /// The pointer is NULL or leads to so many whole `T` for as long as the list is used.
    pub unsafe fn new(first: *const T, count: usize, name: &'static str) -> Result<List<T>, Error> {
        if first.is_null() && count > 0 {
            return Err(null(name));
        }
        Ok(List { first, left: counted(count, size_of::<T>(), name)? })
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

/// No list is longer than memory can be; the largest `size_t` shows as more than that in a message too.
fn counted(count: usize, size: usize, name: &'static str) -> Result<usize, Error> {
    let most = (isize::MAX as usize - 1) / size.max(1);
    if count > most {
        return Err(outside(name, entries(count), entries(most)));
    }
    Ok(count)
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
#[derive(Default)]
pub(crate) struct Given {
    refused: Option<Error>,
}

impl Given {
    /// What `read` makes of the numbers, if none is refused.
    #[inline]
    pub fn all<T>(read: impl FnOnce(&mut Given) -> T) -> Result<T, Error> {
        let mut given = Given::default();
        let value = read(&mut given);
        given.done().map(|()| value)
    }

    /// Whether all numbers are good.
    #[inline]
    pub fn done(self) -> Result<(), Error> {
        self.refused.map_or(Ok(()), Err)
    }

    #[cold]
    #[inline(never)]
    pub fn refuse(&mut self, error: Error) {
        self.refused.get_or_insert(error);
    }

    /// What may be refused, or something in its place.
    pub fn or<T>(&mut self, value: Result<T, Error>, instead: T) -> T {
        value.unwrap_or_else(|error| {
            self.refuse(error);
            instead
        })
    }

    /// A length.
    pub fn length(&mut self, nm: i64, name: &'static str) -> Nm {
        Nm::new(self.within(&LENGTH.named(name), nm)).unwrap_or_default()
    }

    /// A number in a range.
    #[inline(never)]
    pub fn within(&mut self, range: &Bound, number: i64) -> i64 {
        if number < range.least || range.most < number {
            self.refuse(range.error(number));
            return range.least;
        }
        number
    }

    /// Refuses a number other than 0 in a field that a tool has no use for.
    #[inline(never)]
    pub fn none_of(&mut self, useless: bool, number: i64, name: &'static str) {
        if useless && number != 0 {
            self.refuse(Error::bare(Code::NotOfThisTool, name));
        }
    }

    /// A length that is left to its usual value where it is 0.
    pub fn usual(&mut self, nm: i64, name: &'static str) -> Option<Nm> {
        Some(self.length(nm, name)).filter(|_| nm != 0)
    }

    /// A point.
    #[inline(never)]
    pub fn point(&mut self, at: &dryfit_point) -> Point {
        Point::new(self.length(at.x, "x"), self.length(at.y, "y"))
    }

    /// A number of 0 to `most`.
    #[inline(never)]
    pub fn up_to(&mut self, number: u32, most: u32, name: &'static str) -> u32 {
        if number > most {
            self.refuse(outside(name, i64::from(number), i64::from(most)));
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

    /// Refuses a number other than 0 in a field that has no meaning here.
    #[inline(never)]
    pub fn unused(&mut self, number: i64, name: &'static str) {
        if number != 0 {
            self.refuse(outside(name, number, 0));
        }
    }
}

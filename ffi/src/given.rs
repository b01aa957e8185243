//! What comes in: pointers, texts, lists, enums and lengths, checked before they are used.

use core::ffi::c_char;

use dryfit_core::{Amount, Code, Error, Nm};

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

/// No list is longer than memory can be.
fn counted(count: usize, size: usize, name: &'static str) -> Result<usize, Error> {
    let most = isize::MAX as usize / size.max(1);
    if count > most {
        let [given, most] = [count, most].map(|n| Amount::Count(i64::try_from(n).unwrap_or(i64::MAX)));
        return Err(Error { code: Code::OutOfRange, parameter: name, given, least: Amount::Count(0), most });
    }
    Ok(count)
}

/// One of the values that an enum argument may have, which are numbered from 0.
pub(crate) fn one_of<T: Copy>(all: &[T], number: u32, name: &'static str) -> Result<T, Error> {
    all.get(number as usize).copied().ok_or_else(|| {
        let [given, most] = [i64::from(number), all.len() as i64 - 1].map(Amount::Count);
        Error { code: Code::OutOfRange, parameter: name, given, least: Amount::Count(0), most }
    })
}

/// A number beyond the last of so many entries, which are numbered from 0.
#[cfg(feature = "host")]
#[cold]
pub(crate) fn beyond(count: usize, number: usize, name: &'static str) -> Error {
    let [given, most] = [number, count.saturating_sub(1)].map(|n| Amount::Count(i64::try_from(n).unwrap_or(i64::MAX)));
    Error { code: Code::OutOfRange, parameter: name, given, least: Amount::Count(0), most }
}

/// 0 or 1.
pub(crate) fn flag(number: u32, name: &'static str) -> Result<bool, Error> {
    one_of(&[false, true], number, name)
}

/// A length under a parameter's name.
pub(crate) fn length(nm: i64, name: &'static str) -> Result<Nm, Error> {
    Nm::new(nm).map_err(|error| Error { parameter: name, ..error })
}

/// A length that is left to its usual value where it is 0.
pub(crate) fn usual(nm: i64, name: &'static str) -> Result<Option<Nm>, Error> {
    length(nm, name).map(|length| (length != Nm::ZERO).then_some(length))
}

/// Refuses a number other than 0 in a field that has no meaning here.
pub(crate) fn unused(number: i64, name: &'static str) -> Result<(), Error> {
    if number == 0 {
        return Ok(());
    }
    let [given, zero] = [number, 0].map(Amount::Count);
    Err(Error { code: Code::OutOfRange, parameter: name, given, least: zero, most: zero })
}

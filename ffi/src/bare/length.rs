//! Lengths from text and from floats.

use core::ffi::c_char;

use dryfit_core::Nm;

use crate::answer::{call, dryfit_error};
use crate::status::dryfit_status;

/// A length: a whole number of nanometres, from -10,000,000,000 to 10,000,000,000 (10 m) unless a narrower range is stated.
pub type dryfit_nm = i64;

/// One millimetre.
pub const DRYFIT_MM: dryfit_nm = 1_000_000;
/// One inch.
pub const DRYFIT_INCH: dryfit_nm = 25_400_000;
/// One degree: angles are millionths of one.
pub const DRYFIT_DEGREE: i64 = 1_000_000;
/// None of it, in a field where 0 is the usual value.
pub const DRYFIT_NONE: i64 = -1;

/// What is given, or the usual where that is 0; none of it is 0 to the core.
pub(crate) const fn or_usual(given: i64, usual: i64) -> i64 {
    match given {
        0 => usual,
        DRYFIT_NONE => 0,
        given => given,
    }
}

/// Reads a length: a number (`12.5`, `3/32`, `1 1/2`) and a unit (`um`, `mm`, `cm`, `m`, `in`, `ft`; none is mm), to the nearest nanometre, halves away from zero.
///
/// `text` has `size` bytes and needs no zero at its end. Errors: 101 not a length, 102 beyond 10 m, 806 not UTF-8, 810.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_length_parse(text: *const c_char, size: usize, out: *mut dryfit_nm, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let (out, text) = (given.out(out, "out")?, given.text(text, size, "text")?);
            out.put(given.good(Nm::parse(text))?.nm());
            Ok(())
        })
    }
}

/// The nearest length to so many millimetres.
///
/// Errors: 102 beyond 10 m, 103 NaN or infinity, 810.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_length_from_mm(millimetres: f64, out: *mut dryfit_nm, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let out = given.out(out, "out")?;
            out.put(given.good(Nm::from_mm(millimetres))?.nm());
            Ok(())
        })
    }
}

/// A length in millimetres. Any number is taken.
///
/// Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_length_to_mm(length: dryfit_nm) -> f64 {
    length as f64 / DRYFIT_MM as f64
}

//! An error as a sentence.

use core::ffi::{CStr, c_char};

use dryfit_core::{Amount, Code, write_amount, write_refusal};

use crate::answer::{amount, call, dryfit_error};
use crate::status::{DRYFIT_OK, dryfit_status};
use crate::utf8;

/// The sentence of an error, in English and UTF-8: which parameter, what was given, what is allowed; e.g. `finger count: 9 given, allowed 1 to 5`.
///
/// It ends with a zero, which `needed` counts. A status that is no number of the table is a callback's: `a callback returned -5`; that of an error of status 0 is
/// empty. Errors: 810, 811.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_error_message(of: *const dryfit_error, out: *mut c_char, cap: usize, needed: *mut usize) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(core::ptr::null_mut(), |given| {
            let buffer = given.buffer(out, cap, needed)?;
            let of = given.at(of, "of")?;
            let code = Code::from_number(of.status);
            let [parameter, place] = [words(&of.parameter), words(&of.place)];
            let numbers = [amount(of.given_unit, of.given), amount(of.range_unit, of.least), amount(of.range_unit, of.most)];
            given.good(buffer.text(|mut sink| {
                let Some(code) = code else {
                    if of.status == DRYFIT_OK {
                        return Ok(());
                    }
                    sink.put(b"a callback returned ")?;
                    return write_amount(&mut sink, Amount::Count(of.status.into()));
                };
                if !place.is_empty() {
                    sink.put(place.as_bytes())?;
                    sink.put(b": ")?;
                }
                write_refusal(&mut sink, code, parameter, numbers)
            }))
        })
    }
}

/// What stands before the zero; nothing where there is none, or where it is not UTF-8.
fn words(room: &[c_char]) -> &str {
    // SAFETY: bytes of either sign are bytes.
    let bytes = unsafe { core::slice::from_raw_parts(room.as_ptr().cast::<u8>(), room.len()) };
    CStr::from_bytes_until_nul(bytes).ok().and_then(|text| utf8::text(text.to_bytes())).unwrap_or("")
}

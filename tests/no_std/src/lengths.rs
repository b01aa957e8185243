//! Lengths from text and from floats.

use dryfit_core::Nm;

/// Nanometres of a text, or an error's number below zero.
///
/// # Safety
/// `text` points to `length` bytes.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn proof_parse(text: *const u8, length: usize) -> i64 {
    let bytes = unsafe { core::slice::from_raw_parts(text, length) };
    core::str::from_utf8(bytes).map_or(i64::MIN, |text| crate::status(Nm::parse(text).map(Nm::nm)))
}

/// Nanometres of millimetres, or an error's number below zero.
#[unsafe(no_mangle)]
pub extern "C" fn proof_millimetres(mm: f64) -> i64 {
    crate::status(Nm::from_mm(mm).map(Nm::nm))
}

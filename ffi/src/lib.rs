//! Dryfit for C: what is there so far is the version and the error table; the joints follow.
//!
//! Names are spelled here as C sees them. No function takes memory that anybody would have to free.

use core::ffi::{CStr, c_char};

use dryfit_core::Code;

/// The version of the library, the same as the package's.
const VERSION: &CStr = match CStr::from_bytes_with_nul(concat!(env!("CARGO_PKG_VERSION"), "\0").as_bytes()) {
    Ok(version) => version,
    Err(_) => c"",
};

/// The version as text, e.g. `0.1.0`.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_version() -> *const c_char {
    VERSION.as_ptr()
}

/// A number that rises with any change of a layout or symbol. 0: nothing is promised yet.
///
/// Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_abi_version() -> u32 {
    0
}

/// The name of a status in words, e.g. `fingers do not fit`; `ok` for 0, NULL for a number that is no status.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_status_name(status: i32) -> *const c_char {
    words(status, c"ok", Code::c_name)
}

/// One sentence on a status; NULL for a number that is no status.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_status_text(status: i32) -> *const c_char {
    words(status, c"all went well", Code::c_text)
}

fn words(status: i32, ok: &'static CStr, of: fn(Code) -> &'static CStr) -> *const c_char {
    match (status, Code::from_number(status)) {
        (0, _) => ok.as_ptr(),
        (_, Some(code)) => of(code).as_ptr(),
        (_, None) => core::ptr::null(),
    }
}

#[cfg(test)]
#[path = "lib_tests.rs"]
mod tests;

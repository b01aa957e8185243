//! The version three ways: macros, text and a number; tests hold them equal.

use core::ffi::{CStr, c_char};

/// The version of this header, as `dryfit_version` tells that of the library.
pub const DRYFIT_VERSION: &CStr = c"0.1.0";
/// The first number of the version: it rises where something that worked may not work any more.
pub const DRYFIT_VERSION_MAJOR: u32 = 0;
/// The second number of the version: it rises with what is new.
pub const DRYFIT_VERSION_MINOR: u32 = 1;
/// The third number of the version: it rises with what is mended.
pub const DRYFIT_VERSION_PATCH: u32 = 0;
/// What `dryfit_abi_version` returned when this header was made.
pub const DRYFIT_ABI_VERSION: u32 = 1;

/// The version of the library as text, e.g. `0.1.0`.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_version() -> *const c_char {
    DRYFIT_VERSION.as_ptr()
}

/// A number that rises with any change of a layout or symbol that a program built before would notice. Compare it with `DRYFIT_ABI_VERSION` first of all.
///
/// Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_abi_version() -> u32 {
    DRYFIT_ABI_VERSION
}

#[cfg(test)]
#[path = "version_tests.rs"]
mod tests;

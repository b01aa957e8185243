//! Texts that are made as a whole and handed over in one piece.

use alloc::string::String;
use core::ffi::c_void;

use dryfit_core::Sink;

use crate::answer::Answer;
use crate::bare::{Stopping, dryfit_write};

/// Hands a text over once it is made: where it cannot be made, nothing is written.
pub(super) fn written(write: dryfit_write, user: *mut c_void, made: impl FnOnce() -> Answer<String>) -> Answer {
    let mut writer = Stopping::new(write, user)?;
    Ok(writer.put(made()?.as_bytes())?)
}

//! A callback that takes bytes, fails at the nth call, and calls the library from within.

use std::ffi::{c_char, c_void};

use dryfit::*;

use super::calls::Format;
use crate::source::Source;
use crate::watch::STOPS;

/// What it returns where there is too much.
pub const FULL: i32 = 4243;
const MOST: usize = 100_000;

pub struct Writer {
    pub bytes: Vec<u8>,
    /// Where each call ended.
    pub ends: Vec<usize>,
    fail: Option<usize>,
    /// What it returns when it fails.
    pub number: i32,
    pub failed: bool,
    /// Whether it failed during the call that has just ended.
    pub just_failed: bool,
    inside: Option<(*mut dryfit_file, Format)>,
    reenter: bool,
    /// The statuses of the calls from within.
    pub inner: Vec<i32>,
}

impl Writer {
    pub fn new() -> Writer {
        Writer {
            bytes: Vec::new(),
            ends: Vec::new(),
            fail: None,
            number: FULL,
            failed: false,
            just_failed: false,
            inside: None,
            reenter: false,
            inner: Vec::new(),
        }
    }

    /// One that may fail.
    pub fn failing(s: &mut Source<'_>) -> Writer {
        let fail = (s.below(3) == 0).then(|| s.below(60));
        Writer { fail, number: s.pick(&STOPS), ..Writer::new() }
    }

    /// One that may fail, and may call back.
    pub fn any(s: &mut Source<'_>) -> Writer {
        let writer = Writer::failing(s);
        Writer { reenter: s.one_in(4), ..writer }
    }

    /// The file that it is the callback of.
    pub fn inside(&mut self, file: &mut dryfit_file, format: Format) {
        self.inside = self.reenter.then_some((file, format));
    }

    /// The file lies elsewhere now.
    pub fn moved(&mut self, file: &mut dryfit_file) {
        if let Some((at, _)) = &mut self.inside {
            *at = file;
        }
    }

    pub fn user(&mut self) -> *mut c_void {
        (&raw mut *self).cast()
    }
}

/// The callback.
///
/// # Safety
/// `user` leads to a [`Writer`].
pub unsafe extern "C" fn write(user: *mut c_void, bytes: *const c_char, length: usize) -> i32 {
    // SAFETY: as the caller promises.
    let (writer, bytes) = unsafe { (&mut *user.cast::<Writer>(), std::slice::from_raw_parts(bytes.cast::<u8>(), length)) };
    if let Some((file, format)) = writer.inside
        && writer.inner.len() < 20
    {
        // SAFETY: the file is still there; what is in use refuses it.
        writer.inner.extend(unsafe { format.inside(file) });
    }
    if writer.fail == Some(writer.ends.len()) {
        writer.fail = None;
        (writer.failed, writer.just_failed) = (true, true);
        return writer.number;
    }
    if writer.bytes.len() > MOST {
        (writer.failed, writer.just_failed) = (true, true);
        return FULL;
    }
    writer.bytes.extend_from_slice(bytes);
    writer.ends.push(writer.bytes.len());
    0
}

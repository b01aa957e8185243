//! HP-GL.

use core::ffi::c_void;

use dryfit_core::{Action, Hpgl};

use super::file::{Format, Writer, begin, cut, dryfit_file, dryfit_write, go_on, take};
use super::moves::{dryfit_move, line_kind};
use crate::answer::{call, dryfit_error};
use crate::status::dryfit_status;

impl Format for Hpgl<Writer> {
    const TAG: u64 = u64::from_le_bytes(*b"dfhpgl_1");

    fn writer(&self) -> &Writer {
        self.sink()
    }
}

/// Begins an HP-GL file with the cautions. One unit is 0.025 mm; arcs become chords.
///
/// Errors: 810; what `write` returns.
///
/// Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_hpgl_begin(
    file: *mut dryfit_file,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            begin(file, given, |given| {
                let writer = Writer::new(write, user, given)?;
                given.good(Hpgl::begin(writer))
            })
        })
    }
}

/// Lifts the pen and takes that of a kind of line, one of `DRYFIT_LINE_...`; pens are numbered from 1.
///
/// Errors: 102, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_hpgl_line(file: *mut dryfit_file, kind: u32, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let kind = line_kind(kind, given);
            given.done()?;
            go_on::<Hpgl<Writer>>(file.cast(), given, |file| {
                file.act(&Action::Lift)?;
                file.act(&Action::Line(kind))
            })
        })
    }
}

/// Draws along a move; a callback for the functions that hand moves over, `user` being the file. Where a move does not begin where the last one ended, the pen
/// is lifted and brought there.
///
/// Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_hpgl_cut(file: *mut c_void, r#move: *const dryfit_move) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { cut::<Hpgl<Writer>>(file, r#move, |file, way, _| file.along(way)) }
}

/// Ends the file: the pen up, over the origin, and put away.
///
/// Errors: 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_hpgl_end(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let file = take::<Hpgl<Writer>>(file, given)?;
            given.good(file.end())?.done(given)
        })
    }
}

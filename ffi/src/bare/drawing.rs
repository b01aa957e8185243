//! Path data in the unit of a document.

use core::ffi::c_void;

use dryfit_core::{PathData, Point};

use super::file::{Format, Writer, begin, cut, dryfit_file, dryfit_write, go_on, take};
use super::moves::{dryfit_move, dryfit_point};
use crate::answer::{call, dryfit_error};
use crate::status::dryfit_status;

/// Path data in the making.
pub(crate) struct Job(PathData<Writer>);

impl Format for Job {
    const TAG: u64 = u64::from_le_bytes(*b"dfpath_1");

    fn writer(&self) -> &Writer {
        self.0.sink()
    }
}

/// Begins path data, what stands in the attribute `d` of an SVG path, in the unit of a document: `nanometres` / `parts` of a nanometre.
///
/// A pixel of 96 to the inch is `DRYFIT_INCH` / 96, a point `DRYFIT_INCH` / 72, a millimetre `DRYFIT_MM` / 1. The document's y points down, and its origin lies
/// at `corner` of the board; NULL for 0, 0. Numbers have a point, whatever the host's locale. Errors: 102, 810.
///
/// Ownership: nothing is kept but `write` and `user`, which must last until the path is ended. Threads: one path by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_path_begin(
    file: *mut dryfit_file,
    nanometres: i64,
    parts: i64,
    corner: *const dryfit_point,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            begin(file, given, |given| {
                let corner = corner.as_ref().map_or(Point::default(), |corner| given.point(corner));
                given.done()?;
                let writer = Writer::new(write, user, given)?;
                Ok(Job(given.good(PathData::begin(writer, [nanometres, parts], corner))?))
            })
        })
    }
}

/// Draws a move; a callback for the functions that hand moves over, `user` being the path. A move that does not begin where the last one ended begins a line of its
/// own.
///
/// Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
///
/// Ownership: nothing is kept. Threads: one path by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_path_cut(file: *mut c_void, r#move: *const dryfit_move) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { cut::<Job>(file, r#move, |job, way, _| job.0.step(way)) }
}

/// Closes the line that is drawn; what follows is a line of its own.
///
/// Errors: 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one path by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_path_close(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { call(error, |given| go_on::<Job>(file.cast(), given, |job| job.0.close())) }
}

/// Ends the path data.
///
/// Errors: 810, 812.
///
/// Ownership: nothing is kept. Threads: one path by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_path_end(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { call(error, |given| take::<Job>(file, given).map(|_| ())) }
}

//! SVG of a sheet.

use core::ffi::{c_char, c_void};

use dryfit_core::bounds::{LETTERS, SHEET};
use dryfit_core::{LineKind, Nm, Svg};

use super::file::{Format, Writer, begin, cut, dryfit_file, dryfit_write, go_on, take};
use super::length::dryfit_nm;
use super::moves::{dryfit_move, dryfit_point, line_kind};
use crate::answer::{call, dryfit_error};
use crate::status::dryfit_status;

/// A file and the line in it.
pub(crate) struct Job {
    file: Svg<Writer>,
    kind: LineKind,
    closed: bool,
}

impl Format for Job {
    const TAG: u64 = u64::from_le_bytes(*b"dfsvg__1");

    fn writer(&self) -> &Writer {
        self.file.sink()
    }
}

/// Begins an SVG file of a sheet's size, one unit being 1 mm, with its title, a sentence on what it is, and the cautions.
///
/// Errors: 102, 806, 810; what `write` returns.
///
/// Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_svg_begin(
    file: *mut dryfit_file,
    width: dryfit_nm,
    height: dryfit_nm,
    title: *const c_char,
    title_size: usize,
    description: *const c_char,
    description_size: usize,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            begin(file, given, |given| {
                let writer = Writer::new(write, user, given)?;
                given.several(&SHEET, &["width", "height"], &[width, height]);
                let [title, description] = [given.text(title, title_size, "title")?, given.text(description, description_size, "description")?];
                given.done()?;
                let file = given.good(Svg::begin(writer, Nm::clamped(width), Nm::clamped(height), title, description))?;
                Ok(Job { file, kind: LineKind::CutOuter, closed: true })
            })
        })
    }
}

/// Ends the line that is drawn. Those that follow are of this kind, one of `DRYFIT_LINE_...`, and closed (1) or open (0); until told, they are closed outlines.
/// Kinds come in the order of their numbers.
///
/// Errors: 102, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_svg_line(file: *mut dryfit_file, kind: u32, closed: u32, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let (kind, closed) = (line_kind(kind, given), given.flag(closed, "closed"));
            given.done()?;
            go_on::<Job>(file.cast(), given, |job| {
                (job.kind, job.closed) = (kind, closed);
                job.file.finish()
            })
        })
    }
}

/// Draws a move; a callback for the functions that hand moves over, `user` being the file. A move that does not begin where the last one ended begins a line of
/// its own.
///
/// Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_svg_cut(file: *mut c_void, r#move: *const dryfit_move) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { cut::<Job>(file, r#move, |job, way, _| job.file.step(job.kind, job.closed, way)) }
}

/// Writes text centred on a point, `letters` high (0.1 mm to 1 m), in the group of marks: before all cuts.
///
/// Errors: 102, 806, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_svg_label(
    file: *mut dryfit_file,
    label: *const c_char,
    size: usize,
    centre: *const dryfit_point,
    letters: dryfit_nm,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let (label, centre) = (given.text(label, size, "label")?, given.at(centre, "centre")?);
            given.within(&LETTERS, letters);
            let (centre, letters) = (given.point(centre), Nm::clamped(letters));
            given.done()?;
            go_on::<Job>(file.cast(), given, |job| job.file.label(label, centre, letters))
        })
    }
}

/// Ends the file.
///
/// Errors: 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_svg_end(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        call(error, |given| {
            let job = take::<Job>(file, given)?;
            given.good(job.file.end())?.done(given)
        })
    }
}

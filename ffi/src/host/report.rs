//! What a dry fit or the proof of a layout found.

use core::ffi::c_char;

use dryfit_core::{LayoutReport, Report};

use alloc::string::String;
use alloc::vec::Vec;

use super::handle::{Kind, free, read};
use crate::answer::{answer, dryfit_error};
use crate::bare::dryfit_nm;
use crate::buffer::{Buffer, Out};
use crate::given::beyond;
use crate::status::dryfit_status;

/// What a dry fit or the proof of a layout found. It never changes: any number of threads may read it.
pub struct dryfit_report {
    _kept: [u8; 0],
}

/// What is kept of a report.
pub(crate) struct Found {
    values: dryfit_findings,
    problems: Vec<String>,
}

impl Kind for dryfit_report {
    type Kept = Found;
    const TAG: u64 = u64::from_le_bytes(*b"dfreprt1");
}

/// The numbers of a report.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct dryfit_findings {
    /// How many problems there are; 0: it fits.
    pub problems: usize,
    /// Dry fit: pieces that fall off their panels.
    pub loose_pieces: usize,
    /// Dry fit: how deep a board reaches into another at most.
    pub overlap_max: dryfit_nm,
    /// The smallest gap: of all contacts, negative being interference; of a layout, between two parts that share no cut, 0 without such.
    pub gap_min: dryfit_nm,
    /// Dry fit: the largest gap of all contacts.
    pub gap_max: dryfit_nm,
    /// Dry fit: the thinnest solid of any panel.
    pub thinnest_neck: dryfit_nm,
    /// Dry fit: the radius that a round cutter leaves in inner corners.
    pub corner_fillet: dryfit_nm,
    /// Layout: the length that one cut does for two parts.
    pub shared_length: dryfit_nm,
    /// Dry fit: the volume that two boards claim, in cubic millimetres.
    pub overlap_volume: f64,
    /// Dry fit: the volume of the slabs that no board fills, in cubic millimetres.
    pub void_volume: f64,
}

/// Cubic nanometres as cubic millimetres.
fn cubic(nm3: i128) -> f64 {
    nm3 as f64 / 1e18
}

impl From<Report> for Found {
    fn from(report: Report) -> Found {
        let values = dryfit_findings {
            problems: report.problems.len(),
            loose_pieces: report.loose_pieces,
            overlap_max: report.overlap_max.nm(),
            gap_min: report.gap_min.nm(),
            gap_max: report.gap_max.nm(),
            thinnest_neck: report.thinnest_neck.nm(),
            corner_fillet: report.corner_fillet.nm(),
            shared_length: 0,
            overlap_volume: cubic(report.overlap_volume),
            void_volume: cubic(report.void_volume),
        };
        Found { values, problems: report.problems }
    }
}

impl From<LayoutReport> for Found {
    fn from(report: LayoutReport) -> Found {
        let values = dryfit_findings {
            problems: report.problems.len(),
            gap_min: report.gap_min.unwrap_or_default().nm(),
            shared_length: report.shared_length,
            ..dryfit_findings::default()
        };
        Found { values, problems: report.problems }
    }
}

/// Frees a report and sets `*report` to NULL. NULL, and a pointer to NULL, are as good.
///
/// Errors: 812.
///
/// Ownership: ends. Threads: nobody uses it any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_report_free(report: *mut *mut dryfit_report) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { answer(core::ptr::null_mut(), || Ok(free(report, "report")?)) }
}

/// The numbers of a report.
///
/// Errors: 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_report_findings(report: *const dryfit_report, out: *mut dryfit_findings, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let out = Out::new(out, "out")?;
            out.put(read(report, "report")?.values);
            Ok(())
        })
    }
}

/// A problem in words, with boards and places; they are numbered from 0. UTF-8, ended by a zero, which `needed` counts.
///
/// Errors: 102 for the number, 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_report_problem(
    report: *const dryfit_report,
    number: usize,
    out: *mut c_char,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let problem = {
                let problems = &read(report, "report")?.problems;
                problems.get(number).ok_or_else(|| beyond(problems.len(), number, "problem"))?
            };
            Ok(buffer.text(|sink| sink.put(problem.as_bytes()))?)
        })
    }
}

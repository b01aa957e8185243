//! Calls of the host layer in any order, also after failures: several handles at once, strange ones, callbacks that fail or end the search.

mod asked;
mod kept;
mod pieces;
mod sheets;
mod started;

use dryfit::*;

use crate::contract::call;
use crate::memory::{Filled, filled};
use crate::source::Source;
use kept::{Kept, SLOTS};

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let kept = &mut Kept::new();
    for _ in 0..2 + s.below(14) {
        let at = s.below(SLOTS);
        match s.below(16) {
            0..=4 => started::go_on(s, kept, at),
            5..=8 => pieces::go_on(s, kept, at),
            9..=12 => sheets::go_on(s, kept, at),
            13 => report(s, kept, at),
            14 => free(s, kept, at),
            _ => readings(s),
        }
    }
}

/// What a call gives to the caller: nothing where it refuses.
fn made<T>(s: &mut Source<'_>, name: &str, good: bool, work: impl FnOnce(&mut Source<'_>, *mut *mut T, *mut dryfit_error) -> i32) -> Option<*mut T> {
    let untouched = std::ptr::without_provenance_mut::<T>(0x5A50);
    let mut out = untouched;
    let status = call(s, name, &[], |s, error| {
        let out = if s.null() { std::ptr::null_mut() } else { &raw mut out };
        work(s, out, error)
    });
    if status != DRYFIT_OK {
        assert_eq!(out, untouched, "{name}: refused, but out was written");
        return None;
    }
    assert!(good, "{name} took a strange handle");
    assert!(!out.is_null() && out != untouched, "{name}: ok, but nothing was made");
    Some(out)
}

/// A text in the caller's memory: UTF-8, and one zero at its end.
fn words(
    s: &mut Source<'_>,
    name: &str,
    good: bool,
    work: impl Fn(*mut std::ffi::c_char, usize, *mut usize, *mut dryfit_error) -> i32,
) -> Option<Vec<u8>> {
    let Filled::All(bytes) = filled(s, name, work) else { return None };
    assert!(good, "{name} took a strange handle");
    let mut bytes: Vec<u8> = bytes.into_iter().map(|byte| byte as u8).collect();
    assert_eq!(bytes.pop(), Some(0), "{name}: no zero at the end");
    assert!(std::str::from_utf8(&bytes).is_ok(), "{name}: not UTF-8");
    Some(bytes)
}

fn report(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.reports[at].handle);
    let mut found = dryfit_findings::default();
    // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
    let status = call(s, "dryfit_report_findings", &[], |_, error| unsafe { dryfit_report_findings(handle, &mut found, error) });
    assert_eq!(status == DRYFIT_OK, good);
    let number = s.pick(&[0, 1, found.problems.saturating_sub(1), found.problems, usize::MAX]);
    // SAFETY: the same.
    let problem =
        words(s, "dryfit_report_problem", good, |out, cap, needed, error| unsafe { dryfit_report_problem(handle, number, out, cap, needed, error) });
    assert_eq!(problem.is_some_and(|text| !text.is_empty()), good && number < found.problems);
}

/// Frees by a variable, twice; or by the function of another kind, which refuses and leaves the variable.
fn free(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let strange = kept.strange(s, kept.parts[at].handle.cast());
    let mut variable: *mut dryfit_parts = strange.cast();
    // SAFETY: a handle of another kind, memory that is none, or NULL.
    let status = unsafe { dryfit_parts_free(&mut variable) };
    assert_eq!(status, if strange.is_null() { DRYFIT_OK } else { DRYFIT_WRONG_HANDLE }, "a strange handle is freed");
    assert_eq!(variable.cast(), strange, "refused, but the variable was written");
    for _ in 0..2 {
        // SAFETY: handles or NULL.
        let status = unsafe {
            match s.below(4) {
                0 => dryfit_assembly_free(&mut kept.assemblies[at].handle),
                1 => dryfit_parts_free(&mut kept.parts[at].handle),
                2 => dryfit_layout_free(&mut kept.layouts[at].handle),
                _ => dryfit_report_free(&mut kept.reports[at].handle),
            }
        };
        assert_eq!(status, DRYFIT_OK);
    }
}

/// The mean of readings lies among them.
fn readings(s: &mut Source<'_>) {
    let mut readings: Vec<i64> = (0..s.below(6)).map(|_| s.number(3_000_000..=3_200_000, dryfit_core::bounds::THICKNESS)).collect();
    if s.one_in(16) {
        readings = vec![3_000_000; 9_999 + s.below(3)];
    }
    let mut out = -1;
    let status = call(s, "dryfit_mean_thickness", &[], |s, error| {
        let first = if s.null() && !readings.is_empty() { std::ptr::null() } else { readings.as_ptr() };
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_mean_thickness(first, readings.len(), &mut out, error) }
    });
    let range = readings.iter().min().copied().unwrap_or(0)..=readings.iter().max().copied().unwrap_or(0);
    assert!(if status == DRYFIT_OK { range.contains(&out) } else { out == -1 }, "{out} of {readings:?}");
}

//! Layouts and the files of their sheets.

use std::ffi::c_void;

use dryfit::*;

use super::kept::Kept;
use super::{asked, made, pieces};
use crate::contract::call;
use crate::memory::{Filled, filled};
use crate::source::Source;
use crate::targets::files::formats;
use crate::targets::files::writer::{FULL, Writer, write};

pub fn go_on(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    if kept.layouts[at].handle.is_null() || s.one_in(6) {
        lay_out(s, kept, at);
    }
    match s.below(6) {
        0 => sheets(s, kept, at),
        1 => check(s, kept, at),
        _ => file(s, kept, at),
    }
}

/// What is told of a search, and when it is to end.
struct Told {
    count: usize,
    end: usize,
    wrong: bool,
}

/// # Safety
/// `user` leads to a [`Told`].
unsafe extern "C" fn progress(user: *mut c_void, done: f64) -> i32 {
    // SAFETY: as the caller promises.
    let told = unsafe { &mut *user.cast::<Told>() };
    told.wrong |= !(0.0..=1.0).contains(&done);
    told.count += 1;
    i32::from(told.count >= told.end)
}

fn lay_out(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (parts, good) = kept.given(s, kept.parts[at].handle);
    if good && pieces::count(parts) > 14 {
        return;
    }
    let stocks: Vec<dryfit_stock> = (0..s.below(4)).map(|_| asked::stock(s)).collect();
    let spec = asked::layout_spec(s);
    let mut told = Told { count: 0, end: s.pick(&[1, 2, 5, 20]), wrong: false };
    let wanted: dryfit_progress = if s.one_in(4) { None } else { Some(progress) };
    let new = made(s, "dryfit_layout_new", good, |s, out, error| {
        let spec = if s.below(4) == 0 { std::ptr::null() } else { &spec };
        // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should or are NULL.
        unsafe { dryfit_layout_new(parts, stocks.as_ptr(), stocks.len(), spec, wanted, (&raw mut told).cast(), out, error) }
    });
    assert!(!told.wrong, "done is not between 0 and 1");
    let Some(new) = new else { return };
    // SAFETY: a handle or NULL.
    assert_eq!(unsafe { dryfit_layout_free(&mut kept.layouts[at].handle) }, DRYFIT_OK);
    kept.layouts[at].handle = new;
    whole(s, new, pieces::count(parts));
}

fn sheet_count(layout: *const dryfit_layout) -> usize {
    let mut out = usize::MAX;
    // SAFETY: a handle.
    assert_eq!(unsafe { dryfit_layout_sheets(layout, &mut out, std::ptr::null_mut()) }, DRYFIT_OK);
    out
}

/// Every part lies on one sheet, or on none.
fn whole(s: &mut Source<'_>, layout: *const dryfit_layout, parts: usize) {
    let mut seen = Vec::new();
    for number in 0..sheet_count(layout) {
        // SAFETY: a handle; the others lead to what they should.
        let lies = filled::<dryfit_placement>(s, "dryfit_layout_placements", |out, cap, needed, error| unsafe {
            dryfit_layout_placements(layout, number, out, cap, needed, error)
        });
        let Filled::All(lies) = lies else { panic!("a sheet without placements") };
        assert!(lies.iter().all(|lies| lies.quarter_turns < 4 && lies.flipped < 2));
        seen.extend(lies.iter().map(|lies| lies.part));
    }
    // SAFETY: the same.
    let left =
        filled::<usize>(s, "dryfit_layout_unplaced", |out, cap, needed, error| unsafe { dryfit_layout_unplaced(layout, out, cap, needed, error) });
    if let Filled::All(left) = left {
        seen.extend(left);
    }
    seen.sort_unstable();
    assert_eq!(seen, (0..parts).collect::<Vec<_>>(), "not every part once");
}

fn sheets(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.layouts[at].handle);
    let many = if good { sheet_count(handle) } else { 1 };
    let number = if s.one_in(8) { s.pick(&[many, usize::MAX]) } else { s.below(many) };
    let mut sheet = dryfit_sheet::default();
    // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
    let status = call(s, "dryfit_layout_sheet", &[], |_, error| unsafe { dryfit_layout_sheet(handle, number, &mut sheet, error) });
    assert_eq!(status == DRYFIT_OK, good && number < many, "sheet {number} of {many}");
    if status == DRYFIT_OK {
        assert!(sheet.placements > 0 && sheet.cut_length > 0 && (0..=sheet.cut_length).contains(&sheet.shared_length), "{sheet:?}");
    }
    // SAFETY: the same.
    let offcuts = filled::<dryfit_stock>(s, "dryfit_layout_offcuts", |out, cap, needed, error| unsafe {
        dryfit_layout_offcuts(handle, out, cap, needed, error)
    });
    if let Filled::All(offcuts) = offcuts {
        assert!(good && offcuts.iter().all(|stock| stock.width > 0 && stock.height > 0 && stock.count > 0), "{offcuts:?}");
    }
}

/// A layout of this library has nothing wrong with it.
fn check(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.layouts[at].handle);
    // SAFETY: a handle of whatever kind, memory that is none, or NULL.
    let new = made(s, "dryfit_layout_check", good, |_, out, error| unsafe { dryfit_layout_check(handle, out, error) });
    let Some(new) = new else { return };
    let mut found = dryfit_findings { problems: 99, ..dryfit_findings::default() };
    let mut text = [0; 400];
    // SAFETY: handles or NULL; the others lead to what they should.
    unsafe {
        assert_eq!(dryfit_report_findings(new, &mut found, std::ptr::null_mut()), DRYFIT_OK);
        dryfit_report_problem(new, 0, text.as_mut_ptr(), text.len(), &mut 0, std::ptr::null_mut());
        assert_eq!(dryfit_report_free(&mut kept.reports[at].handle), DRYFIT_OK);
    }
    kept.reports[at].handle = new;
    let text: String = text.iter().take_while(|letter| **letter != 0).map(|letter| *letter as u8 as char).collect();
    assert!(found.problems == 0 || !unplaced(handle).is_empty(), "{text}: {found:?}");
}

fn unplaced(layout: *const dryfit_layout) -> Vec<usize> {
    let (mut out, mut needed) = ([0; 100], 0);
    // SAFETY: a handle; the others lead to what they should.
    assert_eq!(unsafe { dryfit_layout_unplaced(layout, out.as_mut_ptr(), out.len(), &mut needed, std::ptr::null_mut()) }, DRYFIT_OK);
    out[..needed].to_vec()
}

/// A file of each format, twice the same.
fn file(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.layouts[at].handle);
    let many = if good { sheet_count(handle) } else { 1 };
    let number = if s.one_in(16) { many } else { s.below(many) };
    let (motion, title, format, mut writer) = (asked::motion(s), s.text(), s.below(4), Writer::failing(s));
    let plain = format < 2 && s.below(2) == 0;
    let name = ["dryfit_layout_svg", "dryfit_layout_dxf", "dryfit_layout_gcode", "dryfit_layout_hpgl"][format];
    let mut again = Writer::new();
    let own = [writer.number, FULL];
    let write_to = |writer: &mut Writer, motion: *const dryfit_motion, error| {
        let (title, size, user) = (title.as_ptr().cast(), title.len(), writer.user());
        // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should or are NULL.
        unsafe {
            match format {
                0 => dryfit_layout_svg(handle, number, motion, title, size, Some(write), user, error),
                1 => dryfit_layout_dxf(handle, number, motion, title, size, Some(write), user, error),
                2 => dryfit_layout_gcode(handle, number, motion, title, size, Some(write), user, error),
                _ => dryfit_layout_hpgl(handle, number, motion, Some(write), user, error),
            }
        }
    };
    let motion = if plain { std::ptr::null() } else { &raw const motion };
    let status = call(s, name, &own, |_, error| write_to(&mut writer, motion, error));
    assert!(good || status != DRYFIT_OK, "{name} took a strange handle");
    if status != DRYFIT_OK {
        assert!(writer.failed || writer.bytes.is_empty(), "{name}: refused, but written");
        return;
    }
    let second = call(s, name, &own, |_, error| write_to(&mut again, motion, error));
    assert_eq!((second, &again.bytes), (status, &writer.bytes), "{name}: not the same twice");
    let text = std::str::from_utf8(&writer.bytes).expect("UTF-8");
    match format {
        0 => formats::svg(text),
        1 => formats::dxf(text),
        2 => {
            formats::printable(&writer.bytes);
            formats::safe(&writer.bytes);
            formats::gcode(text);
        }
        _ => formats::hpgl(text),
    }
}

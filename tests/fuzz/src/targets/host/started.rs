//! Boards, joints and openings; the dry fit, the order and the picture of a piece.

use dryfit::*;

use super::kept::Kept;
use super::{asked, made, words};
use crate::contract::call;
use crate::memory::{Filled, filled};
use crate::source::Source;
use crate::targets::files::formats;
use crate::targets::files::writer::{FULL, Writer, write};

pub fn go_on(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    if kept.assemblies[at].handle.is_null() || s.one_in(6) {
        begin(s, kept, at);
    }
    match s.below(8) {
        0 => (0..1 + s.below(6)).for_each(|_| add(s, kept, at)),
        1 => joint(s, kept, at),
        2 => open(s, kept, at),
        3..=4 => dry_fit(s, kept, at),
        5 => order(s, kept, at),
        6 => exploded(s, kept, at),
        _ => named(s, kept, at),
    }
}

fn begin(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (mut shelves, boxed) = (Vec::new(), s.below(4) > 0);
    // SAFETY: the pointers are NULL or lead to what they should.
    let new = unsafe {
        if boxed {
            let asked = asked::boxed(s, &mut shelves);
            made(s, "dryfit_assembly_of_box", true, |s, out, error| dryfit_assembly_of_box(s.at(&asked), out, error))
        } else {
            made(s, "dryfit_assembly_new", true, |_, out, error| dryfit_assembly_new(out, error))
        }
    };
    let Some(new) = new else { return };
    let slot = &mut kept.assemblies[at];
    // SAFETY: a handle or NULL.
    assert_eq!(unsafe { dryfit_assembly_free(&mut slot.handle) }, DRYFIT_OK);
    slot.handle = new;
    let names = (0..count(s, new)).map(|number| name_of(s, new, number)).collect();
    (slot.known.names, slot.known.exact) = (names, boxed);
}

fn count(s: &mut Source<'_>, assembly: *const dryfit_assembly) -> usize {
    let mut out = 0;
    // SAFETY: a handle.
    assert_eq!(call(s, "dryfit_assembly_count", &[], |_, error| unsafe { dryfit_assembly_count(assembly, &mut out, error) }), DRYFIT_OK);
    out
}

fn name_of(s: &mut Source<'_>, assembly: *const dryfit_assembly, number: usize) -> Vec<u8> {
    let name = words(s, "dryfit_assembly_name", true, |out, cap, needed, error| {
        // SAFETY: a handle; the others lead to what they should.
        unsafe { dryfit_assembly_name(assembly, number, out, cap, needed, error) }
    });
    name.expect("a board has a name")
}

/// A refusal leaves the boards as they were.
fn add(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let (name, board) = (asked::name(s), asked::board(s));
    let status = call(s, "dryfit_assembly_add", &[], |s, error| {
        let text = if name.is_empty() || s.null() { std::ptr::null() } else { name.as_ptr().cast() };
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_assembly_add(handle, text, name.len(), s.at(&board), error) }
    });
    let slot = &mut kept.assemblies[at];
    if status == DRYFIT_OK {
        assert!(good, "a board for a strange handle");
        slot.known.names.push(name);
        slot.known.exact = false;
    }
    if slot.handle.is_null() {
        return;
    }
    assert_eq!(count(s, slot.handle), slot.known.names.len());
    if let Some(number) = slot.known.names.len().checked_sub(1) {
        assert_eq!(name_of(s, slot.handle, number), slot.known.names[number]);
    }
}

/// The name of one of the boards, or of any other.
fn one(s: &mut Source<'_>, kept: &Kept, at: usize) -> Vec<u8> {
    let names = &kept.assemblies[at].known.names;
    if names.is_empty() || s.one_in(8) { asked::name(s) } else { names[s.below(names.len())].clone() }
}

fn joint(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let (first, second, joint) = (one(s, kept, at), one(s, kept, at), asked::joint(s, 6));
    let status = call(s, "dryfit_assembly_joint", &[], |s, error| {
        let joint = s.at(&joint);
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_assembly_joint(handle, first.as_ptr().cast(), first.len(), second.as_ptr().cast(), second.len(), joint, error) }
    });
    assert!(good || status != DRYFIT_OK);
    kept.assemblies[at].known.exact &= status != DRYFIT_OK;
}

fn open(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let (name, opening) = (one(s, kept, at), asked::opening(s));
    let status = call(s, "dryfit_assembly_open", &[], |s, error| {
        let opening = s.at(&opening);
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_assembly_open(handle, name.as_ptr().cast(), name.len(), opening, error) }
    });
    assert!(good || status != DRYFIT_OK);
    kept.assemblies[at].known.exact &= status != DRYFIT_OK;
}

/// A box fills its blocks exactly.
fn dry_fit(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    // SAFETY: a handle of whatever kind, memory that is none, or NULL.
    let new = made(s, "dryfit_assembly_dry_fit", good, |_, out, error| unsafe { dryfit_assembly_dry_fit(handle, out, error) });
    let Some(new) = new else { return };
    let mut found = dryfit_findings { problems: 99, ..dryfit_findings::default() };
    // SAFETY: handles or NULL.
    unsafe {
        assert_eq!(dryfit_report_findings(new, &mut found, std::ptr::null_mut()), DRYFIT_OK);
        assert_eq!(dryfit_report_free(&mut kept.reports[at].handle), DRYFIT_OK);
    }
    kept.reports[at].handle = new;
    if kept.assemblies[at].known.exact {
        assert_eq!((found.problems, found.overlap_max), (0, 0), "a box: {found:?}");
        assert_eq!((found.overlap_volume, found.void_volume), (0.0, 0.0), "a box: {found:?}");
    }
}

/// Every board comes, perhaps again along with another.
fn order(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let steps = filled::<dryfit_step>(s, "dryfit_assembly_order", |out, cap, needed, error| {
        // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
        unsafe { dryfit_assembly_order(handle, out, cap, needed, error) }
    });
    let Filled::All(steps) = steps else { return };
    assert!(good);
    let mut boards: Vec<usize> = steps.iter().map(|step| step.board).collect();
    boards.sort_unstable();
    boards.dedup();
    assert!(boards.into_iter().eq(0..kept.assemblies[at].known.names.len()), "{steps:?}");
    assert!(steps.windows(2).all(|pair| pair[0].step <= pair[1].step) && steps.iter().all(|step| step.axis < 3), "{steps:?}");
}

fn exploded(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let gap = s.number(0..=40_000_000, dryfit_core::bounds::LENGTH);
    let mut writer = Writer::failing(s);
    let status = call(s, "dryfit_assembly_exploded", &[writer.number, FULL], |_, error| {
        // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
        unsafe { dryfit_assembly_exploded(handle, gap, Some(write), writer.user(), error) }
    });
    assert!(good || status != DRYFIT_OK);
    if status == DRYFIT_OK {
        formats::svg(std::str::from_utf8(&writer.bytes).expect("UTF-8"));
    }
}

fn named(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let names = kept.assemblies[at].known.names.clone();
    let number = s.pick(&[0, names.len().saturating_sub(1), names.len(), usize::MAX]);
    let name = words(s, "dryfit_assembly_name", good, |out, cap, needed, error| {
        // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
        unsafe { dryfit_assembly_name(handle, number, out, cap, needed, error) }
    });
    assert_eq!(name, if good { names.get(number).cloned() } else { None });
}

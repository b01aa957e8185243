//! Parts: cut, joined, asked for everything there is to know.

use dryfit::*;

use super::kept::Kept;
use super::{asked, made, words};
use crate::contract::call;
use crate::memory::{Filled, filled};
use crate::source::Source;
use crate::targets::files::formats;
use crate::targets::files::writer::{FULL, Writer, write};

pub fn go_on(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    if kept.parts[at].handle.is_null() || s.one_in(4) {
        cut(s, kept, at);
    }
    match s.below(6) {
        0 => join(s, kept, at),
        1 => dry_fit(s, kept, at),
        2 => picture(s, kept, at),
        _ => part(s, kept, at),
    }
}

fn keep(kept: &mut Kept, at: usize, new: *mut dryfit_parts, exact: bool) {
    // SAFETY: a handle or NULL.
    assert_eq!(unsafe { dryfit_parts_free(&mut kept.parts[at].handle) }, DRYFIT_OK);
    kept.parts[at].handle = new;
    kept.parts[at].known = exact;
}

fn cut(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.assemblies[at].handle);
    let cut = asked::cut(s);
    // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should or are NULL.
    let new = made(s, "dryfit_parts_cut", good, |s, out, error| unsafe { dryfit_parts_cut(handle, s.at(&cut), out, error) });
    let Some(new) = new else { return };
    let boards = &kept.assemblies[at].known;
    assert_eq!(count(new), boards.names.len());
    let nominal = [cut.cutter.width, cut.fit.flank, cut.fit.cheek, cut.fit.tip, cut.relief] == [0; 5];
    let exact = boards.exact && nominal;
    keep(kept, at, new, exact);
}

pub fn count(parts: *const dryfit_parts) -> usize {
    let mut out = usize::MAX;
    // SAFETY: a handle.
    assert_eq!(unsafe { dryfit_parts_count(parts, &mut out, std::ptr::null_mut()) }, DRYFIT_OK);
    out
}

/// As many as both have; not too many to lay out.
fn join(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let second = kept.parts[1 - at].handle;
    let (first, good) = kept.given(s, kept.parts[at].handle);
    if good && count(first) > 12 {
        return;
    }
    // SAFETY: handles of whatever kind, memory that is none, or NULL.
    let new = made(s, "dryfit_parts_join", good && !second.is_null(), |_, out, error| unsafe { dryfit_parts_join(first, second, out, error) });
    let Some(new) = new else { return };
    assert_eq!(count(new), count(first) + count(second));
    let names: Vec<_> = (0..count(new)).map(|number| name(s, new, number)).collect();
    assert!((1..names.len()).all(|at| !names[..at].contains(&names[at])), "names come once");
    keep(kept, at, new, false);
}

fn name(s: &mut Source<'_>, parts: *const dryfit_parts, number: usize) -> Vec<u8> {
    let name = words(s, "dryfit_parts_name", true, |out, cap, needed, error| {
        // SAFETY: a handle; the others lead to what they should.
        unsafe { dryfit_parts_name(parts, number, out, cap, needed, error) }
    });
    name.expect("a part has a name")
}

fn dry_fit(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.parts[at].handle);
    // SAFETY: a handle of whatever kind, memory that is none, or NULL.
    let new = made(s, "dryfit_parts_dry_fit", good, |_, out, error| unsafe { dryfit_parts_dry_fit(handle, out, error) });
    let Some(new) = new else { return };
    let mut found = dryfit_findings { problems: 99, ..dryfit_findings::default() };
    // SAFETY: handles or NULL.
    unsafe {
        assert_eq!(dryfit_report_findings(new, &mut found, std::ptr::null_mut()), DRYFIT_OK);
        assert_eq!(dryfit_report_free(&mut kept.reports[at].handle), DRYFIT_OK);
    }
    kept.reports[at].handle = new;
    assert!(!kept.parts[at].known || found.problems == 0, "the nominal parts of a box: {found:?}");
}

/// A part by its number: its name leads back to it, its loops close, and the area is that of the finished outline.
fn part(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.parts[at].handle);
    let many = if good { count(handle) } else { 1 };
    let number = if s.one_in(12) { s.pick(&[many, usize::MAX]) } else { s.below(many) };
    let mut part = dryfit_part::default();
    // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
    let status = call(s, "dryfit_parts_part", &[], |_, error| unsafe { dryfit_parts_part(handle, number, &mut part, error) });
    assert_eq!(status == DRYFIT_OK, good && number < many, "part {number} of {many}");
    if status != DRYFIT_OK {
        return;
    }
    let (name, mut found) = (name(s, handle, number), usize::MAX);
    let status = call(s, "dryfit_parts_find", &[], |_, error| {
        // SAFETY: a handle; the others lead to what they should.
        unsafe { dryfit_parts_find(handle, name.as_ptr().cast(), name.len(), &mut found, error) }
    });
    assert_eq!((status, found), (DRYFIT_OK, number), "the name does not lead to the part");
    let outline = s.choice(2);
    let loops = if outline == DRYFIT_OUTLINE_FINISHED { part.finished_loops } else { part.loops };
    let ring = if s.one_in(12) { s.pick(&[loops, usize::MAX]) } else { s.below(loops) };
    // SAFETY: a handle; the others lead to what they should.
    let vertices = filled::<dryfit_vertex>(s, "dryfit_parts_vertices", |out, cap, needed, error| unsafe {
        dryfit_parts_vertices(handle, number, outline, ring, out, cap, needed, error)
    });
    // SAFETY: the same.
    let moves = filled::<dryfit_move>(s, "dryfit_parts_moves", |out, cap, needed, error| unsafe {
        dryfit_parts_moves(handle, number, outline, ring, out, cap, needed, error)
    });
    match (vertices, moves) {
        (Filled::All(vertices), Filled::All(moves)) => {
            assert!(outline < 2 && ring < loops);
            assert_eq!(vertices.len(), moves.len());
            let after = vertices.iter().skip(1).chain(&vertices[..1]);
            let around = vertices.iter().zip(after).zip(&moves).all(|((from, to), way)| (way.from, way.to) == (from.at, to.at));
            assert!(around && vertices.len() > 1, "moves do not go around: {moves:?} of {vertices:?}");
        }
        (Filled::Refused(a), Filled::Refused(b)) => assert!(a == b && (outline > 1 || ring >= loops)),
        (Filled::TooMany(a), Filled::TooMany(b)) => assert_eq!(a, b),
        _ => panic!("vertices, or moves, but not both"),
    }
}

fn picture(s: &mut Source<'_>, kept: &mut Kept, at: usize) {
    let (handle, good) = kept.given(s, kept.parts[at].handle);
    let (number, outline, mut writer) = (s.below(8), s.choice(2), Writer::failing(s));
    let status = call(s, "dryfit_parts_svg", &[writer.number, FULL], |_, error| {
        // SAFETY: a handle of whatever kind, memory that is none, or NULL; the others lead to what they should.
        unsafe { dryfit_parts_svg(handle, number, outline, Some(write), writer.user(), error) }
    });
    assert!(good || status != DRYFIT_OK);
    if status == DRYFIT_OK {
        formats::svg(std::str::from_utf8(&writer.bytes).expect("UTF-8"));
    }
}

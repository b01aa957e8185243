//! One side of a joint: into a buffer, move by move, and as the way of a blade's axis.

use dryfit::*;

use super::{STOPPED, led};
use crate::contract::call;
use crate::made;
use crate::memory::{Filled, filled};
use crate::source::Source;
use crate::watch::{Watch, each};

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let edge = made::edge(s);
    // SAFETY: the pointers lead to what they should.
    let all = filled(s, "dryfit_edge_vertices", |out, cap, needed, error| unsafe { dryfit_edge_vertices(&edge, out, cap, needed, error) });
    if let Filled::All(vertices) = &all {
        let [first, .., last] = vertices[..] else { panic!("{} vertices", vertices.len()) };
        assert_eq!([first.at.x, last.at.x], [edge.at.x, edge.at.x + edge.run], "the ends of the run stay where they are");
        assert_eq!(last.role, DRYFIT_ROLE_FREE);
        assert!(vertices.iter().all(|vertex| vertex.role <= DRYFIT_ROLE_FREE));
        let steps = vertices.windows(2).map(|pair| pair[1].at.x - pair[0].at.x);
        assert!(edge.joint.kind == DRYFIT_JOINT_TAILS || steps.min() >= Some(0), "an edge does not go back: {vertices:?}");
        assert!(vertices.windows(2).all(|pair| pair[0].at != pair[1].at), "an edge without length: {vertices:?}");
    }
    moves(s, &edge, &all);
    fingers(s, &edge, &all);
    one_by_one(s, &edge, &all);
    let knife = made::knife(s);
    led(s, "dryfit_edge_drag", &edge, &knife, matches!(all, Filled::Refused(_)), |offset, user, error| {
        // SAFETY: the pointers lead to what they should.
        unsafe { dryfit_edge_drag(&edge, &knife, offset, Some(each), user, error) }
    });
    call(s, "dryfit_edge_drag", &STOPPED, |s, error| {
        let (edge, knife, callback) = (s.at(&edge), s.at(&knife), if s.null() { None } else { Some(each as _) });
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_edge_drag(edge, knife, std::ptr::null_mut(), callback, Watch::all().user(), error) }
    });
}

/// The callback gets what the buffer holds, and is obeyed.
fn moves(s: &mut Source<'_>, edge: &dryfit_edge, all: &Filled<dryfit_vertex>) {
    let mut watch = Watch::any(s, edge);
    // SAFETY: the pointers lead to what they should.
    let status = call(s, "dryfit_edge_moves", &STOPPED, |_, error| unsafe { dryfit_edge_moves(edge, Some(each), watch.user(), error) });
    match all {
        Filled::Refused(refused) => assert_eq!((status, watch.moves.len()), (*refused, 0)),
        Filled::TooMany(count) => watch.holds(status, count - 1),
        Filled::All(vertices) => {
            watch.holds(status, vertices.len() - 1);
            let handed: Vec<_> = watch.moves.iter().map(|way| [way.from, way.to]).collect();
            let expected: Vec<_> = vertices.windows(2).map(|pair| [pair[0].at, pair[1].at]).take(handed.len()).collect();
            assert_eq!(handed, expected);
        }
    }
}

/// Of fingers the other door leads to the same; of all else to none.
fn fingers(s: &mut Source<'_>, edge: &dryfit_edge, all: &Filled<dryfit_vertex>) {
    let mut watch = Watch::all();
    // SAFETY: the pointers lead to what they should.
    let status = call(s, "dryfit_finger_moves", &STOPPED, |_, error| unsafe { dryfit_finger_moves(edge, Some(each), watch.user(), error) });
    match all {
        _ if edge.joint.kind != DRYFIT_JOINT_FINGERS => assert_eq!((status, watch.moves.len()), (DRYFIT_OUT_OF_RANGE, 0)),
        Filled::Refused(_) => assert!(status != DRYFIT_OK && watch.moves.is_empty()),
        Filled::TooMany(count) => watch.holds(status, count - 1),
        Filled::All(vertices) => {
            watch.holds(status, vertices.len() - 1);
            assert!(watch.moves.iter().zip(vertices.windows(2)).all(|(way, ends)| [way.from, way.to] == [ends[0].at, ends[1].at]));
        }
    }
}

/// Neither does the third, which hands them over when they are asked for.
fn one_by_one(s: &mut Source<'_>, edge: &dryfit_edge, all: &Filled<dryfit_vertex>) {
    let mut fingers = dryfit_fingers { state: [u64::from_ne_bytes(*b"dffngrs1"); 32] };
    // SAFETY: the pointers lead to what they should.
    let begun = call(s, "dryfit_fingers_begin", &[], |_, error| unsafe { dryfit_fingers_begin(&mut fingers, edge, error) });
    assert_eq!(begun == DRYFIT_OK, edge.joint.kind == DRYFIT_JOINT_FINGERS && !matches!(all, Filled::Refused(_)));
    let Filled::All(vertices) = all else { return };
    let (mut way, mut more) = (dryfit_move::default(), 1);
    for ends in vertices.windows(2).map(Some).chain([None]) {
        // SAFETY: the same.
        let status = call(s, "dryfit_fingers_next", &[], |_, error| unsafe { dryfit_fingers_next(&mut fingers, &mut way, &mut more, error) });
        if begun != DRYFIT_OK {
            assert_eq!(status, DRYFIT_WRONG_HANDLE);
            return;
        }
        assert_eq!((status, more), (DRYFIT_OK, u32::from(ends.is_some())));
        if let Some(ends) = ends {
            assert_eq!([way.from, way.to], [ends[0].at, ends[1].at]);
        }
    }
}

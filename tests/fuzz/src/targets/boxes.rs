//! A box without heap: panels into a buffer, move by move, and as the way of a blade's axis.

use dryfit::*;

use super::{STOPPED, led};
use crate::contract::call;
use crate::made;
use crate::memory::{Filled, filled};
use crate::source::Source;
use crate::watch::{Watch, each};

pub fn run(data: &[u8]) {
    let s = &mut Source::new(data);
    let flat = made::flat_box(s);
    if s.below(3) > 0 {
        let face = s.choice(DRYFIT_FACE_COUNT);
        panel(s, &flat, face);
        return;
    }
    let mut volume = Some(0);
    for face in 0..DRYFIT_FACE_COUNT {
        volume = match (panel(s, &flat, face), volume) {
            (Some(area), Some(volume)) => Some(volume + area),
            _ if face == DRYFIT_FACE_TOP && flat.top == DRYFIT_TOP_OPEN => volume,
            _ => None,
        };
    }
    let exact = [flat.fit.flank, flat.fit.cheek, flat.fit.tip, flat.kerf] == [0; 4];
    if let (Some(twice), true) = (volume, exact) {
        let [x, y, z] = flat.outside.map(i128::from);
        let t = i128::from(flat.thickness);
        let inside = (x - 2 * t) * (y - 2 * t) * (z - t - if flat.top == DRYFIT_TOP_CLOSED { t } else { 0 });
        assert_eq!(twice * t, 2 * (x * y * z - inside), "the panels do not fill the shell");
    }
}

/// One panel; twice its area, if it has one.
fn panel(s: &mut Source<'_>, flat: &dryfit_flat_box, face: u32) -> Option<i128> {
    // SAFETY: the pointers lead to what they should.
    let all = filled(s, "dryfit_panel_vertices", |out, cap, needed, error| unsafe { dryfit_panel_vertices(flat, face, out, cap, needed, error) });
    if let (Filled::Refused(status), DRYFIT_FACE_TOP, DRYFIT_TOP_OPEN) = (&all, face, flat.top) {
        assert_ne!(*status, DRYFIT_OK);
    }
    let mut watch = Watch::any(s, &dryfit_edge { run: 100_000_000, thickness: 3_000_000, depth: 3_000_000, ..dryfit_edge::default() });
    // SAFETY: the pointers lead to what they should.
    let status = call(s, "dryfit_panel_moves", &STOPPED, |_, error| unsafe { dryfit_panel_moves(flat, face, Some(each), watch.user(), error) });
    let area = match &all {
        Filled::Refused(refused) => {
            assert_eq!((status, watch.moves.len()), (*refused, 0));
            None
        }
        Filled::TooMany(count) => {
            watch.holds(status, *count);
            None
        }
        Filled::All(vertices) => {
            watch.holds(status, vertices.len());
            let handed: Vec<_> = watch.moves.iter().map(|way| [way.from, way.to]).collect();
            let after = vertices.iter().skip(1).chain(&vertices[..1]);
            let around: Vec<_> = vertices.iter().zip(after).map(|(from, to)| [from.at, to.at]).collect();
            assert_eq!(handed, around[..handed.len()]);
            Some(outline(vertices, &around))
        }
    };
    let knife = made::knife(s);
    led(s, "dryfit_panel_drag", flat, &knife, matches!(all, Filled::Refused(_)), |offset, user, error| {
        // SAFETY: the pointers lead to what they should.
        unsafe { dryfit_panel_drag(flat, face, &knife, offset, Some(each), user, error) }
    });
    call(s, "dryfit_panel_moves", &STOPPED, |s, error| {
        let (flat, callback) = (s.at(flat), if s.null() { None } else { Some(each as _) });
        // SAFETY: the pointers are NULL or lead to what they should.
        unsafe { dryfit_panel_moves(flat, face, callback, Watch::all().user(), error) }
    });
    area
}

/// A panel is counter-clockwise from its lowest, then leftmost vertex, and goes along the axes. Twice its area.
fn outline(vertices: &[dryfit_vertex], around: &[[dryfit_point; 2]]) -> i128 {
    let lowest = vertices.iter().map(|vertex| (vertex.at.y, vertex.at.x)).min();
    assert_eq!(vertices.first().map(|vertex| (vertex.at.y, vertex.at.x)), lowest, "not from the lowest vertex");
    assert!(around.iter().all(|[from, to]| (from.x == to.x) != (from.y == to.y)), "not along an axis: {vertices:?}");
    let twice: i128 = around.iter().map(|[a, b]| i128::from(a.x) * i128::from(b.y) - i128::from(b.x) * i128::from(a.y)).sum();
    assert!(twice > 0, "not counter-clockwise");
    twice
}

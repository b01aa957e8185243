//! Any rotation of an assembly gives the same parts.
//!
//! The rules look at each run along its axis upwards, so two things would break the symmetry and are kept out of the way:
//! a boundary that falls half way between two nanometres is rounded upwards (none does: fingers have odd numbers, as `2 i L = n (2k + 1)`
//! has no solution for odd `n`, and every coordinate is even, so that no halving splits a nanometre), and the board that keeps
//! the lower part of a crossing keeps the upper one when its run is turned over (so `first` turns with it).

use std::collections::BTreeSet;

use dryfit_core::{Axis, Failure, Halves, Joint, Panel, Side};
use dryfit_tests::{Scene, Slab, Turn, config, scenes};
use proptest::prelude::*;

/// An edge of a panel in space, without its direction: two ends, role and mate.
type Edge = ([i64; 3], [i64; 3], &'static str, Option<usize>);

fn edges(panel: &Panel, place: impl Fn([i64; 3]) -> [i64; 3]) -> BTreeSet<Edge> {
    let board = panel.board();
    let (u, v) = board.normal().plane();
    let mut edges = BTreeSet::new();
    for ring in panel.rings() {
        for (now, next) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            let ends = [now, next].map(|corner| {
                // In the middle of the sheet, doubled, so that both faces turn alike.
                let mut point = Axis::ALL.map(|axis| board.lo(axis) + board.hi(axis));
                point[u.index()] = 2 * (board.lo(u) + corner.at.x.nm());
                point[v.index()] = 2 * (board.lo(v) + corner.at.y.nm());
                place(point)
            });
            edges.insert((ends[0].min(ends[1]), ends[0].max(ends[1]), now.role.name(), now.mate()));
        }
    }
    edges
}

/// Halves wherever two boards cross and neither passes through a closed slot; all other joints by default.
fn crossings(scene: &Scene) -> Vec<(usize, usize, Axis)> {
    let crosses = |&(a, b): &(usize, usize)| {
        let (p, q): (&Slab, &Slab) = (&scene.slabs[a], &scene.slabs[b]);
        let run = p.normal.third(q.normal);
        let open = !p.ends_at(q) && !q.ends_at(p) && !p.inside(q, run) && !q.inside(p, run);
        open.then_some((a, b, run))
    };
    scene.pairs().iter().filter_map(crosses).collect()
}

fn made(slabs: Vec<Slab>, joints: Vec<(usize, usize, Joint)>) -> Result<Vec<Panel>, Failure> {
    Scene { slabs, joints }.assembly()?.panels()
}

fn check(scene: &Scene, flips: &[bool]) -> Result<(), TestCaseError> {
    let crossings = crossings(scene);
    let first = |k: usize, turned: bool| if flips[k % flips.len()] != turned { Side::B } else { Side::A };
    let joints = |turned: &dyn Fn(Axis) -> bool| {
        let joint = |(k, &(a, b, run)): (usize, &(usize, usize, Axis))| (a, b, Joint::from(Halves::default().first(first(k, turned(run)))));
        crossings.iter().enumerate().map(joint).collect::<Vec<_>>()
    };
    // Where a run is too short for one finger, it is so however it is turned.
    let plain = made(scene.slabs.clone(), joints(&|_| false));
    for turn in Turn::all() {
        let slabs = scene.slabs.iter().map(|slab| turn.slab(slab)).collect();
        let turned = made(slabs, joints(&|run| turn.reverses(run)));
        prop_assert_eq!(plain.is_ok(), turned.is_ok());
        let (Ok(plain), Ok(turned)) = (&plain, &turned) else { continue };
        for (before, after) in plain.iter().zip(turned) {
            prop_assert_eq!(edges(before, |point| turn.point(point)), edges(after, |point| point), "{} after {:?}", before.name(), turn);
        }
    }
    prop_assume!(plain.is_ok());
    Ok(())
}

#[test]
fn there_are_24_turns() {
    let moved: BTreeSet<_> = Turn::all().iter().map(|turn| turn.point([1, 2, 3])).collect();
    assert_eq!(moved.len(), 24);
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn a_turned_assembly_has_the_same_parts(scene in scenes(2 * 499_979), flips in prop::collection::vec(any::<bool>(), 8)) {
        check(&scene, &flips)?;
    }
}

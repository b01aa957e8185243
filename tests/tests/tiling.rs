//! Mates tile: whatever the joints, every point of every block has exactly one owner, and nothing else is lost.

use std::collections::BTreeSet;

use dryfit_core::{Axis, Board, Fingers, Halves, Joint, Nm, Parity, Ratio, Shape, Side, Tabs};
use dryfit_tests::{Scene, Slab, config, inside, scenes};
use proptest::prelude::*;
use proptest::sample::select;

const STEP: i64 = 999_983;

fn joints() -> impl Strategy<Value = Option<Joint>> {
    let side = || select(vec![Side::A, Side::B]);
    let least = Nm::new(1).expect("one nanometre");
    let length = |steps: i64| Nm::new(steps * STEP).expect("a short length");
    prop_oneof![
        3 => Just(None),
        2 => (1..9u32, side()).prop_map(move |(n, first)| Some(Fingers::count(n).first(first).least(least).into())),
        1 => (2..30i64, select(vec![Parity::Odd, Parity::Even, Parity::Any]), side())
            .prop_map(move |(w, parity, first)| Some(Fingers::width(length(w)).parity(parity).first(first).into())),
        1 => (1..8i64, 1..12i64).prop_map(move |(w, s)| Some(Tabs::new(length(w), length(s)).into())),
        1 => (1..99u32, side()).prop_map(|(p, first)| Some(Halves::split(Ratio::new(p, 100).expect("a ratio")).first(first).into())),
        1 => side().prop_map(|side| Some(Joint::Whole(side))),
    ]
}

fn with_joints(scene: Scene, drawn: &[Option<Joint>]) -> Scene {
    let asked = scene.pairs().into_iter().zip(drawn.iter().cycle());
    let joints = asked.filter_map(|((a, b), joint)| joint.map(|joint| (a, b, joint))).collect();
    Scene { joints, ..scene }
}

/// Volume of the union by inclusion and exclusion: boards with one normal never overlap, so no point has more than three.
fn union(slabs: &[Slab]) -> i128 {
    let mut volume = 0;
    for (i, a) in slabs.iter().enumerate() {
        volume += Slab::common(&[a]);
        for (j, b) in slabs.iter().enumerate().skip(i + 1) {
            volume -= Slab::common(&[a, b]);
            volume += slabs.iter().skip(j + 1).map(|c| Slab::common(&[a, b, c])).sum::<i128>();
        }
    }
    volume
}

/// Where vertices of a panel lie along an axis of the assembly.
fn stations(board: &Board, shape: &Shape, axis: Axis) -> Vec<i64> {
    let (u, _) = board.normal().plane();
    let along = |vertex: &dryfit_core::Vertex| board.lo(axis) + if axis == u { vertex.at.x.nm() } else { vertex.at.y.nm() };
    if axis == board.normal() { Vec::new() } else { shape.vertices().iter().map(along).collect() }
}

/// Every cell of the block of two boards is claimed once.
fn one_owner(panels: &[(Board, Shape)], a: usize, b: usize) -> Result<(), TestCaseError> {
    let (p, q) = (&panels[a].0, &panels[b].0);
    let middles = |axis: Axis| {
        let (lo, hi) = (p.lo(axis).max(q.lo(axis)), p.hi(axis).min(q.hi(axis)));
        let mut cuts: BTreeSet<i64> = [lo, hi].into();
        for (board, shape) in panels {
            cuts.extend(stations(board, shape, axis).into_iter().filter(|c| lo < *c && *c < hi));
            cuts.extend([board.lo(axis), board.hi(axis)].into_iter().filter(|c| lo < *c && *c < hi));
        }
        let cuts: Vec<i64> = cuts.into_iter().collect();
        cuts.windows(2).map(|pair| pair[0] + pair[1]).collect::<Vec<_>>()
    };
    for x in middles(Axis::X) {
        for y in middles(Axis::Y) {
            for z in middles(Axis::Z) {
                let claimed = panels.iter().filter(|(board, shape)| inside(board, shape, [x, y, z]));
                let owners: Vec<_> = claimed.map(|(board, _)| board.name()).collect();
                prop_assert_eq!(owners.len(), 1, "({}, {}, {})/2 nm belongs to {:?}", x, y, z, owners);
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn every_point_has_one_owner(scene in scenes(STEP), drawn in prop::collection::vec(joints(), 36)) {
        let scene = with_joints(scene, &drawn);
        // Drawn tabs and finger widths do not fit every run.
        let made = scene.assembly().and_then(|assembly| assembly.panels());
        prop_assume!(made.is_ok());
        let panels = made.expect("just asked");
        let volume: i128 = panels.iter().map(|p| p.shape().twice_area() * i128::from(p.board().thickness().nm())).sum();
        prop_assert_eq!(volume, 2 * union(&scene.slabs));
        let panels: Vec<_> = panels.iter().map(|panel| (panel.board().clone(), panel.shape().clone())).collect();
        for (a, b) in scene.pairs() {
            one_owner(&panels, a, b)?;
        }
    }
}

use super::*;
use crate::joint::{Role, Share};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use std::vec;

const WIDTH: i64 = 12;
const HEIGHT: i64 = 9;

fn attr(mate: u16) -> Attr {
    (Role::Flank, Share::Full, mate)
}

/// A slab that loses rectangles on a coarse grid, so that many touch; and what its own edges touch, in two stretches each.
fn any_slab() -> impl Strategy<Value = (Vec<Lost>, [Vec<Stretch>; 4])> {
    let edges = prop::array::uniform4((0u16..3).prop_map(attr));
    let rectangle = (0..WIDTH, 1..3i64, 0..HEIGHT, 1..3i64, edges);
    let lost = rectangle.prop_map(|(x, w, y, h, edges)| Lost { u: (x, (x + w).min(WIDTH)), v: (y, (y + h).min(HEIGHT)), edges });
    let rim = |length: i64| (1..length, 0u16..3, 0u16..3).prop_map(move |(at, p, q)| vec![(0, at, p), (at, length, q)]);
    let rims = (rim(WIDTH), rim(HEIGHT), rim(WIDTH), rim(HEIGHT)).prop_map(|(a, b, c, d)| {
        [a, b, c, d].map(|rim| rim.into_iter().map(|(from, to, mate)| Stretch { from, to, attr: attr(10 + mate) }).collect::<Vec<_>>())
    });
    (prop::collection::vec(lost, 0..7).prop_map(apart), rims)
}

/// Only those that lie on none before.
fn apart(all: Vec<Lost>) -> Vec<Lost> {
    let mut kept: Vec<Lost> = Vec::new();
    for lost in all {
        let on = |p: (i64, i64), q: (i64, i64)| p.0 < q.1 && q.0 < p.1;
        if !kept.iter().any(|other| on(other.u, lost.u) && on(other.v, lost.v)) {
            kept.push(lost);
        }
    }
    kept
}

/// By the walk, where it says anything.
fn walked(lost: &[Lost], rims: &[Vec<Stretch>; 4]) -> Option<Vec<Vec<Corner>>> {
    let mut notches = Notches::default();
    notches.start((WIDTH, HEIGHT));
    lost.iter().for_each(|&lost| notches.add(lost));
    notches.plain().then(|| notches.rings(&mut rims.clone()))
}

fn linked(lost: &[Lost], rims: &[Vec<Stretch>; 4]) -> Vec<Vec<Corner>> {
    let mut edges = Edges::default();
    rims.iter().enumerate().for_each(|(side, rim)| edges.rim(side, (WIDTH, HEIGHT), rim));
    lost.iter().for_each(|&lost| edges.lost(lost));
    edges.rings()
}

fn sorted(mut rings: Vec<Vec<Corner>>) -> Vec<Vec<Corner>> {
    rings.sort_by_key(|ring| ring.first().map(|corner| (corner.at.y, corner.at.x)));
    rings
}

#[test]
fn a_walk_finds_the_rings_that_the_edges_form() {
    let mut runner = TestRunner::deterministic();
    let mut found = 0;
    for _ in 0..5_000 {
        let (lost, rims) = any_slab().new_tree(&mut runner).unwrap().current();
        if let Some(rings) = walked(&lost, &rims) {
            assert_eq!(sorted(rings), sorted(linked(&lost, &rims)), "{lost:?} {rims:?}");
            found += 1;
        }
    }
    assert!(found > 1_000, "{found}");
}

fn lost(u: (i64, i64), v: (i64, i64)) -> Lost {
    Lost { u, v, edges: [attr(0); 4] }
}

fn rims() -> [Vec<Stretch>; 4] {
    [WIDTH, HEIGHT, WIDTH, HEIGHT].map(|to| vec![Stretch { from: 0, to, attr: attr(9) }])
}

#[test]
fn fingers_corners_and_slots_are_walked() {
    let fingers = [lost((2, 4), (0, 1)), lost((4, 5), (0, 2)), lost((8, 11), (8, 9)), lost((0, 1), (1, 3)), lost((11, 12), (1, 2))];
    let corners = [lost((0, 1), (0, 1)), lost((11, 12), (0, 1)), lost((11, 12), (8, 9))];
    let slots = [lost((3, 4), (4, 5)), lost((5, 6), (4, 5)), lost((7, 8), (4, 5)), lost((7, 8), (5, 6))];
    let all: Vec<Lost> = fingers.into_iter().chain(corners).chain(slots).collect();
    let rings = walked(&all, &rims()).unwrap();
    assert_eq!(rings.iter().map(Vec::len).collect::<Vec<_>>(), [16, 4, 4, 4]);
    assert_eq!(sorted(rings), sorted(linked(&all, &rims())));
}

#[test]
fn what_cuts_through_or_touches_another_side_is_left_to_the_edges() {
    let cases: [&[Lost]; 6] = [
        &[lost((3, 4), (0, 9))],
        &[lost((3, 4), (0, 5)), lost((3, 4), (5, 9))],
        &[lost((1, 3), (0, 1)), lost((0, 1), (1, 3))],
        &[lost((0, 1), (0, 1)), lost((1, 3), (0, 2))],
        &[lost((2, 3), (0, 2)), lost((3, 5), (2, 3))],
        &[lost((0, 2), (0, 2)), lost((2, 3), (2, 3))],
    ];
    for case in cases {
        assert!(walked(case, &rims()).is_none(), "{case:?}");
    }
}

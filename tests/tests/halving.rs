//! Halved joints against the old textbooks.
//!
//! * J-1: each notch takes half. Noyes, *Handwork in Wood* (1910), No. 14 "Halving-joints"; Fairham, *Woodwork Joints* (1921), "The Halved Joint".
//! * J-2: a three-piece lap: each notch a third, together the whole. Fairham, "The Halved Joint", figures 45 and 46.
//! * J-3: gauged from one face on both pieces the joint is flush for any depth. Noyes, chapter IX, rule 1.

use dryfit_core::{Assembly, Axis, Fingers, Halves, Nm, Ratio, Shape};
use dryfit_tests::nm;
use proptest::prelude::*;

/// Two boards of one height that cross in the middle.
fn cross(height: Nm, halves: Halves) -> [Shape; 2] {
    let mut assembly = Assembly::new();
    let (long, thick) = (nm(100_000_000), nm(3_000_000));
    assembly.add("one", Axis::X, [nm(50_000_000), nm(0), nm(0)], [long, height], thick).unwrap();
    assembly.add("two", Axis::Y, [nm(0), nm(50_000_000), nm(0)], [long, height], thick).unwrap();
    assembly.joint("one", "two", halves.into()).unwrap();
    let panels = assembly.panels().unwrap();
    [panels[0].shape().clone(), panels[1].shape().clone()]
}

/// How deep the board's one slot is, from the edge it opens at, and the board's height.
fn slot(shape: &Shape) -> (i64, i64) {
    let (low, high) = shape.bounds();
    let inner: Vec<i64> = shape.vertices().iter().map(|v| v.at.y.nm()).filter(|y| *y != low.y.nm() && *y != high.y.nm()).collect();
    let [bottom, other] = inner[..] else { panic!("not one slot: {inner:?}") };
    assert_eq!(bottom, other, "the slot's end is level");
    let opens_at_top = shape.vertices().iter().filter(|v| v.at.y == high.y).count() == 4;
    (if opens_at_top { high.y.nm() - bottom } else { bottom - low.y.nm() }, high.y.nm() - low.y.nm())
}

#[test]
fn j_1_each_notch_is_half_and_the_edges_are_flush() {
    let height = nm(18_000_000);
    for shape in cross(height, Halves::default()) {
        assert_eq!(slot(&shape), (9_000_000, height.nm()));
    }
}

#[test]
fn j_2_three_notches_of_a_third_make_the_whole() {
    let run = nm(18_000_000);
    let thirds: Vec<i64> = Fingers::count(3).pattern(run, nm(1)).unwrap().spans().map(|span| (span.to - span.from).nm()).collect();
    assert_eq!(thirds, [6_000_000; 3]);
    let third = Halves::split(Ratio::new(1, 3).unwrap()).pattern(run).unwrap().boundary(0).unwrap();
    let rest = Halves::default().pattern(run - third).unwrap().boundary(0).unwrap();
    assert_eq!((third.nm(), rest.nm()), (6_000_000, 6_000_000));
}

proptest! {
    #[test]
    fn j_3_any_split_stays_flush(height in 1_000_000..300_000_000i64, share in 1..1000u32) {
        let shapes = cross(nm(height), Halves::split(Ratio::new(share, 1000).unwrap()));
        let [(one, high_one), (two, high_two)] = [slot(&shapes[0]), slot(&shapes[1])];
        prop_assert_eq!(one + two, height);
        prop_assert_eq!((high_one, high_two), (height, height));
    }
}

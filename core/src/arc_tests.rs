use super::*;
use crate::{Placement, Shape, dry_fit_shapes};
use proptest::prelude::*;
use std::vec::Vec;

fn p(x: i64, y: i64) -> Point {
    Point::raw(x, y)
}

/// A board 100 mm x 60 mm with a bite in its upper edge, the bite's lower corners relieved by a circle of `r x sqrt(2)` each, and a slot with
/// round ends.
fn board(r: i64) -> Shape {
    let mm = 1_000_000;
    let (left, right) = (p(40 * mm + r, 40 * mm + r), p(70 * mm - r, 40 * mm + r));
    let outer = [
        (p(0, 0), None),
        (p(100 * mm, 0), None),
        (p(100 * mm, 60 * mm), None),
        (p(70 * mm, 60 * mm), None),
        (p(70 * mm, 40 * mm + 2 * r), Some(right)),
        (p(70 * mm, 40 * mm), Some(right)),
        (p(70 * mm - 2 * r, 40 * mm), None),
        (p(40 * mm + 2 * r, 40 * mm), Some(left)),
        (p(40 * mm, 40 * mm), Some(left)),
        (p(40 * mm, 40 * mm + 2 * r), None),
        (p(40 * mm, 60 * mm), None),
        (p(0, 60 * mm), None),
    ];
    let (low, high) = (p(20 * mm, 15 * mm), p(20 * mm, 30 * mm));
    let slot = [
        (p(20 * mm - r, 15 * mm), None),
        (p(20 * mm - r, 30 * mm), Some(high)),
        (p(20 * mm + r, 30 * mm), None),
        (p(20 * mm + r, 15 * mm), Some(low)),
    ];
    Shape::from_bent_loops([outer.to_vec(), slot.to_vec()])
}

#[test]
fn area_is_that_of_the_chords_less_the_segments() {
    let r = 2_000_000;
    let shape = board(r);
    let (r, pi) = (2.0, core::f64::consts::PI);
    // Two relief circles of radius r sqrt(2), of each the half beyond the corner's diagonal less a triangle; a slot of 15 mm.
    let want = 100.0 * 60.0 - 30.0 * 20.0 - 2.0 * (pi * r * r - 2.0 * r * r) - (15.0 * 2.0 * r + pi * r * r);
    assert!((shape.area_mm2() - want).abs() < 1e-9, "{} {want}", shape.area_mm2());
    let length = 2.0 * (100.0 + 60.0 + 20.0 + 15.0) + 4.0 * (pi / 2.0 * r * 2f64.sqrt() - 2.0 * r) + 2.0 * pi * r;
    assert!((shape.length() as f64 / 1e6 - length).abs() < 1e-5, "{} {length}", shape.length());
    assert_eq!(shape.arcs().count(), 6);
    assert!(shape.arcs().all(|arc| arc.fault().is_none()));
    assert_eq!(shape.islands(), std::slice::from_ref(&shape));
}

#[test]
fn an_envelope_holds_the_arcs() {
    let shape = board(2_000_000);
    let envelope = shape.envelope();
    assert!(!envelope.is_bent() && envelope.area_mm2() < shape.area_mm2());
    assert_eq!(envelope.bounds(), shape.bounds());
    let thin = crate::necks::thinnest(&shape).unwrap().unwrap();
    // Between the slot's lower end and the board's lower edge.
    assert_eq!(thin.width, 13_000_000);
}

#[test]
fn arcs_that_bulge_outwards_are_not_judged() {
    let mut lone = crate::Assembly::new();
    let mm = |v: f64| Nm::from_mm(v).unwrap();
    lone.add("lone", crate::Axis::Z, [Nm::ZERO; 3], [mm(100.0), mm(60.0)], mm(3.0)).unwrap();
    let boards: Vec<_> = lone.boards().iter().collect();
    let said = |shape: Shape| dry_fit_shapes(&boards, &[shape]).problems;
    assert!(said(board(2_000_000)).iter().all(|said| said.contains("lost board") && said.ends_with("that no other claims")));
    let corners = [p(0, 0), p(100_000_000, 0), p(100_000_000, 60_000_000), p(0, 60_000_000)];
    let with = |centre| Shape::from_bent_loops([corners.map(|at| (at, (at == corners[1]).then_some(centre)))]);
    let outwards = p(90_000_000, 30_000_000);
    assert_eq!(
        said(with(outwards)),
        ["panel \"lone\": an arc that bulges out of the solid or is more than half a circle near (100, 0) mm: nothing was judged"]
    );
    let askew = p(110_000_000, 30_000_100);
    assert_eq!(said(with(askew)), ["panel \"lone\": an arc whose ends are not as far from its centre near (100, 0) mm: nothing was judged"]);
    assert_eq!(said(with(p(110_000_000, 30_000_000))).last().unwrap(), "panel \"lone\" has lost board in an arc that no other claims");
}

proptest! {
    /// Turned and mirrored, a shape keeps its area, its length and its arcs.
    #[test]
    fn placements_carry_arcs(r in 1_000_001i64..4_000_000, quarter_turns in 0u8..4, flipped: bool, (x, y) in (0i64..1_000_000, 0i64..1_000_000)) {
        let shape = board(r);
        let placed = Placement { part: 0, at: p(x, y), quarter_turns, flipped }.place(&shape);
        prop_assert_eq!(placed.arcs().count(), 6);
        prop_assert!(placed.arcs().all(|arc| arc.fault().is_none()));
        prop_assert_eq!(placed.length(), shape.length());
        // Each arc is rounded to a square nanometre, after a product of floats.
        prop_assert!((placed.twice_area() - shape.twice_area()).abs() < 60_000);
        let again = Placement { part: 0, at: p(0, 0), quarter_turns: 0, flipped: false }.place(&shape);
        prop_assert_eq!(again, shape);
    }

    /// Points on an arc are no farther from it than the tolerance, and the flattened area converges.
    #[test]
    fn flat_arcs_are_near(r in 1_000_001i64..4_000_000, tolerance in 100i64..100_000) {
        let shape = board(r);
        let flat = shape.flattened(Nm::raw(tolerance));
        let most = shape.arcs().map(|arc| arc.length() as f64 / 1e6 * (tolerance + 2) as f64 / 1e6).sum::<f64>();
        let more = flat.area_mm2() - shape.area_mm2();
        prop_assert!(more > 0.0 && more < most, "{} {}", more, most);
    }
}

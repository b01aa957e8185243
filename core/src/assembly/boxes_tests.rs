//! Lids, shelves and feet: what the proof and the order of assembly say of them.

use super::*;
use crate::{Code, Cutter, Fingers, Fit, Panel, Parts, dry_fit, dry_fit_parts, order};
use proptest::prelude::*;
use std::string::{String, ToString};
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn mm(value: i64) -> Nm {
    nm(value * 1_000_000)
}

fn spec(size: [i64; 3], top: Top) -> BoxSpec {
    let mut spec = BoxSpec::outside(size.map(mm), nm(2_500_000));
    spec.top = top;
    spec
}

fn steps(panels: &[Panel]) -> Vec<String> {
    order(panels).unwrap().iter().map(|step| std::format!("{} {}", step.name, step.direction)).collect()
}

fn any_top() -> impl Strategy<Value = Top> {
    let clearance = || (0i64..2_000_000).prop_map(nm);
    prop_oneof![
        Just(Top::Open),
        Just(Top::Closed),
        clearance().prop_map(|clearance| Top::LiftOff { clearance }),
        clearance().prop_map(|clearance| Top::Sliding { clearance }),
    ]
}

fn any_furnished() -> impl Strategy<Value = BoxSpec> {
    (
        (60_000_000i64..300_000_000, 60_000_000i64..300_000_000, 60_000_000i64..200_000_000, 500_000i64..3_000_000),
        any_top(),
        (0u32..3, 0u32..3, any::<bool>()),
        prop::collection::vec(0i64..20_000_000, 0..2),
        prop::option::of(3_000_000i64..20_000_000),
        prop::option::of(1i64..8),
    )
        .prop_map(|((x, y, z, t), top, (nx, ny, into_base), rises, feet, fingers)| {
            let mut spec = BoxSpec::outside([nm(x), nm(y), nm(z)], nm(t));
            (spec.top, spec.dividers, spec.into_base) = (top, [nx, ny], into_base);
            let mut height = -t;
            for rise in rises {
                height += 2 * t + rise;
                spec.shelves.push(nm(height));
            }
            spec.feet = feet.map(nm);
            spec.fingers = fingers.map(|boards| Fingers::width(nm(boards * t)));
            spec
        })
}

proptest! {
    /// Whatever is put together fits exactly and comes apart, nominal and cut; or is refused.
    #[test]
    fn furnished_boxes_fit_and_go_together(spec in any_furnished(), kerf in 0i64..200_001) {
        let made = spec.assembly().and_then(|assembly| assembly.panels());
        if let Err(failure) = &made {
            prop_assert!(matches!(failure.error.code, Code::OutOfRange | Code::NotAvailable | Code::RunTooShort), "{}", failure);
        }
        if let Ok(panels) = made {
            let report = dry_fit(&panels);
            prop_assert!(report.ok(), "{:?}", report.problems);
            prop_assert_eq!((report.overlap_volume, report.void_volume, report.loose_pieces), (0, 0, 0));
            prop_assert_eq!(steps(&panels).len(), panels.len());
            let fit = Fit::new(nm(20_000), nm(50_000), Nm::ZERO).unwrap();
            let parts = Parts::cut(&panels, Cutter::beam(nm(kerf)).unwrap(), fit, Nm::ZERO).unwrap();
            let report = dry_fit_parts(&parts);
            prop_assert!(report.ok(), "{:?}", report.problems);
        }
    }
}

/// The name and direction of a step, and the names of what moves along.
fn whole(panels: &[Panel], index: usize) -> (String, Vec<&str>) {
    let step = &order(panels).unwrap()[index];
    (std::format!("{} {}", step.name, step.direction), step.along.iter().map(|&i| panels[i].name()).collect())
}

#[test]
fn a_lid_lifts_off_with_its_battens() {
    let panels = spec([110, 85, 60], Top::lift_off()).assembly().unwrap().panels().unwrap();
    assert_eq!(steps(&panels), ["base -z", "front -z", "back -z", "left +x", "right -x", "batten-left +z", "batten-right +z", "lid -z"]);
    assert_eq!(whole(&panels, 7), ("lid -z".into(), std::vec!["batten-left", "batten-right"]));
    let bounds =
        |name: &str| Axis::ALL.map(|axis| panels.iter().map(Panel::board).find(|b| b.name() == name).map(|b| (b.lo(axis), b.hi(axis))).unwrap());
    // 2.5 mm walls and 0.2 mm of clearance, 5 mm below the lid, and up through it.
    assert_eq!(bounds("batten-left"), [(2_700_000, 5_200_000), (2_700_000, 82_300_000), (52_500_000, 60_000_000)]);
    assert_eq!(bounds("left")[2], (0, 57_500_000));
}

#[test]
fn a_lid_slides_in_over_the_front_with_its_pull() {
    let panels = spec([110, 85, 60], Top::sliding()).assembly().unwrap().panels().unwrap();
    assert_eq!(steps(&panels)[9..], ["pull -z", "lid +y"]);
    assert_eq!(whole(&panels, 10), ("lid +y".into(), std::vec!["pull"]));
    let z = |name: &str| panels.iter().map(Panel::board).find(|b| b.name() == name).map(|b| (b.lo(Axis::Z), b.hi(Axis::Z))).unwrap();
    assert_eq!([z("runner-left"), z("lid"), z("kicker-left")], [(49_800_000, 52_300_000), (52_300_000, 54_800_000), (55_000_000, 57_500_000)]);
    assert_eq!(z("front").1, z("lid").0);
}

#[test]
fn no_shelf_leaves_before_two_walls() {
    let mut spec = spec([110, 85, 60], Top::Closed);
    spec.shelves = std::vec![mm(20)];
    let all = spec.assembly().unwrap();
    let panels = all.panels().unwrap();
    let at = |name: &str| steps(&panels).iter().position(|step| step.starts_with(name)).unwrap();
    let walls = ["front", "back", "left", "right"].map(at);
    assert!(walls.iter().filter(|&&wall| wall > at("shelf-1")).count() >= 2, "{walls:?}");
}

#[test]
fn feet_lift_the_base() {
    let mut spec = BoxSpec::inside([mm(100), mm(80), mm(50)], nm(2_500_000));
    spec.feet = Some(mm(12));
    assert_eq!(spec.outside_size().unwrap(), [mm(105), mm(85), mm(67)]);
    let panels = spec.assembly().unwrap().panels().unwrap();
    assert_eq!(steps(&panels)[..5], ["foot-x1 -z", "foot-x2 -z", "foot-y1 -z", "foot-y2 -z", "base -z"]);
}

#[test]
fn inside_sizes_do_not_count_what_hangs_into_the_box() {
    let size = |top| {
        let mut spec = BoxSpec::inside([mm(100), mm(80), mm(50)], mm(3));
        spec.top = top;
        spec.outside_size().unwrap().map(Nm::nm)
    };
    assert_eq!(size(Top::Open), [106_000_000, 86_000_000, 53_000_000]);
    assert_eq!(size(Top::lift_off()), [106_000_000, 86_000_000, 56_000_000]);
    // The lid, the clearance, the kicker and a board above it.
    assert_eq!(size(Top::sliding()), [106_000_000, 86_000_000, 62_200_000]);
}

#[test]
fn refusals_name_the_parameter_and_the_range() {
    let said = |change: fn(&mut BoxSpec)| {
        let mut spec = spec([110, 85, 60], Top::Closed);
        change(&mut spec);
        spec.assembly().unwrap_err().to_string()
    };
    assert_eq!(said(|s| s.shelves = std::vec![mm(2)]), "shelf 1: shelves: 2 mm given, allowed 2.5 mm to 50 mm");
    assert_eq!(said(|s| s.shelves = std::vec![mm(20), mm(20)]), "shelf 2: shelves: 20 mm given, allowed 25 mm to 50 mm");
    // The one above needs its room too.
    assert_eq!(said(|s| s.shelves = std::vec![mm(50), mm(52)]), "shelf 1: shelves: 50 mm given, allowed 2.5 mm to 45 mm");
    let many = "outside z: 60 mm given, allowed 107.5 mm to 10000 mm: two walls and the space between them do not fit the size";
    assert_eq!(said(|s| s.shelves = std::vec![mm(1); 20]), many);
    assert_eq!(said(|s| (s.shelves, s.dividers) = (std::vec![mm(20)], [0, 1])), "with dividers: shelves: this version cannot do that yet");
    assert_eq!(said(|s| s.feet = Some(mm(1))), "feet: 1 mm given, allowed 2.5 mm to 1000 mm");
    assert_eq!(
        said(|s| s.feet = Some(mm(56))),
        "outside z: 60 mm given, allowed 61.000001 mm to 10000 mm: two walls and the space between them do not fit the size"
    );
    assert_eq!(said(|s| s.top = Top::LiftOff { clearance: mm(11) }), "lid clearance: 11 mm given, allowed 0 mm to 10 mm");
    assert_eq!(said(|s| s.top = Top::Sliding { clearance: mm(-1) }), "lid clearance: -1 mm given, allowed 0 mm to 10 mm");
}

#[test]
fn an_inside_too_large_is_named_as_it_was_given() {
    let mm = |v| Nm::from_mm(v).unwrap();
    let error = BoxSpec::inside([mm(9999.0), mm(100.0), mm(100.0)], mm(3.0)).assembly().unwrap_err().error;
    assert_eq!(std::format!("{error}"), "inside x: 9999 mm given, allowed 0.001 mm to 9994 mm");
}

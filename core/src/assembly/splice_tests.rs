use super::*;
use crate::{Cutter, Fingers, Fit, Half, Parts, Ratio, Tails, dry_fit, dry_fit_parts, order};
use proptest::prelude::*;
use std::string::ToString;
use std::vec::Vec;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

/// A long board along x out of two, with `deep` of overlap from x = 100 - deep to 100.
fn long(deep: f64, wide: f64) -> Assembly {
    let mut splice = Assembly::new();
    splice.add("left", Axis::Z, [mm(0.0); 3], [mm(100.0), mm(wide)], mm(3.0)).unwrap();
    splice.add("right", Axis::Z, [mm(100.0 - deep), mm(0.0), mm(0.0)], [mm(120.0), mm(wide)], mm(3.0)).unwrap();
    splice
}

fn points(panel: &Panel) -> Vec<(f64, f64)> {
    panel.shape().vertices().iter().map(|v| (v.at.x.mm(), v.at.y.mm())).collect()
}

#[test]
fn two_boards_of_one_plane_share_their_overlap_by_tails() {
    let mut splice = long(15.0, 60.0);
    splice.joint("left", "right", Tails::new(1, Ratio::new(1, 6).unwrap()).into()).unwrap();
    let panels = splice.panels().unwrap();
    assert_eq!(
        points(&panels[0]),
        [(0.0, 0.0), (85.0, 0.0), (85.0, 16.25), (100.0, 13.75), (100.0, 46.25), (85.0, 43.75), (85.0, 60.0), (0.0, 60.0)]
    );
    assert_eq!(points(&panels[1]), [(0.0, 0.0), (120.0, 0.0), (120.0, 60.0), (0.0, 60.0), (0.0, 43.75), (15.0, 46.25), (15.0, 13.75), (0.0, 16.25)]);
    let report = dry_fit(&panels);
    assert!(report.ok(), "{:?}", report.problems);
    assert_eq!((report.void_volume, report.overlap_volume, report.gap_min, report.gap_max), (0, 0, Nm::ZERO, Nm::ZERO));
    // Only across the sheet.
    let steps = order(&panels).unwrap();
    assert_eq!(steps[1].direction.axis, Axis::Z);
}

#[test]
fn a_butterfly_key_holds_two_boards() {
    let mut table = Assembly::new();
    table.add("left", Axis::Z, [mm(0.0); 3], [mm(100.0), mm(80.0)], mm(3.0)).unwrap();
    table.add("right", Axis::Z, [mm(100.0), mm(0.0), mm(0.0)], [mm(90.0), mm(80.0)], mm(3.0)).unwrap();
    table.add("key", Axis::Z, [mm(85.0), mm(30.0), mm(0.0)], [mm(30.0), mm(20.0)], mm(3.0)).unwrap();
    let slope = Ratio::new(1, 5).unwrap();
    for board in ["left", "right"] {
        table.joint("key", board, Tails::key(slope).into()).unwrap();
    }
    let panels = table.panels().unwrap();
    assert_eq!(points(&panels[2]), [(0.0, 0.0), (15.0, 3.0), (30.0, 0.0), (30.0, 20.0), (15.0, 17.0), (0.0, 20.0)]);
    assert_eq!(points(&panels[0])[2..6], [(100.0, 33.0), (85.0, 30.0), (85.0, 50.0), (100.0, 47.0)]);
    let report = dry_fit(&panels);
    assert!(report.ok() && report.void_volume == 0, "{:?}", report.problems);
    assert!(order(&panels).unwrap().iter().filter(|step| step.direction.axis == Axis::Z).count() >= 2);
    // It goes together with a gap all around, and with a kerf.
    let fit = Fit::new(mm(0.1), mm(0.0), mm(0.0)).unwrap();
    let parts = Parts::cut(&panels, Cutter::beam(mm(0.2)).unwrap(), fit, mm(1.0)).unwrap();
    let report = dry_fit_parts(&parts);
    assert!(report.ok(), "{:?}", report.problems);
    assert!((report.gap_min.nm() - 100_000).abs() <= 4 && (report.gap_max.nm() - 100_000).abs() <= 4, "{report:?}");
}

#[test]
fn a_spliced_side_stands_on_a_base() {
    // A long side of two boards, spliced, fingered into a base below and into two ends: third boards cross the splice and its neighbours.
    let mut tray = Assembly::new();
    tray.add("base", Axis::Z, [mm(0.0); 3], [mm(220.0), mm(90.0)], mm(3.0)).unwrap();
    tray.add("front west", Axis::Y, [mm(0.0); 3], [mm(118.0), mm(60.0)], mm(3.0)).unwrap();
    tray.add("front east", Axis::Y, [mm(104.0), mm(0.0), mm(0.0)], [mm(116.0), mm(60.0)], mm(3.0)).unwrap();
    tray.add("back", Axis::Y, [mm(0.0), mm(87.0), mm(0.0)], [mm(220.0), mm(60.0)], mm(3.0)).unwrap();
    tray.add("left", Axis::X, [mm(0.0); 3], [mm(90.0), mm(60.0)], mm(3.0)).unwrap();
    tray.add("right", Axis::X, [mm(217.0), mm(0.0), mm(0.0)], [mm(90.0), mm(60.0)], mm(3.0)).unwrap();
    tray.add("shelf", Axis::Z, [mm(0.0), mm(0.0), mm(30.0)], [mm(220.0), mm(90.0)], mm(3.0)).unwrap();
    let panels = tray.panels().unwrap();
    let report = dry_fit(&panels);
    assert!(report.ok(), "{:?}", report.problems);
    assert_eq!((report.void_volume, report.overlap_volume), (0, 0));
    let parts = Parts::cut(&panels, Cutter::beam(mm(0.2)).unwrap(), Fit::new(mm(0.05), mm(0.08), mm(0.0)).unwrap(), Nm::ZERO).unwrap();
    let report = dry_fit_parts(&parts);
    assert!(report.ok(), "{:?}", report.problems);
    // A board that lies along the splice has no place.
    tray.add("post", Axis::X, [mm(110.0), mm(0.0), mm(0.0)], [mm(90.0), mm(60.0)], mm(3.0)).unwrap();
    assert_eq!(tray.panels().unwrap_err().error.code, Code::Crowded);
}

#[test]
fn refusals_of_splices() {
    // Neither end to end, nor in one plane, nor at right angles.
    let mut splice = long(15.0, 60.0);
    let at = [mm(-50.0), mm(-50.0), mm(0.0)];
    assert_eq!(splice.add("askew", Axis::Z, at, [mm(100.0), mm(90.0)], mm(3.0)).unwrap_err().error.code, Code::SamePlace);
    let at = [mm(-50.0), mm(0.0), mm(1.0)];
    assert_eq!(splice.add("high", Axis::Z, at, [mm(60.0), mm(60.0)], mm(3.0)).unwrap_err().error.code, Code::SamePlace);
    splice.add("wall", Axis::X, [mm(0.0); 3], [mm(60.0), mm(40.0)], mm(3.0)).unwrap();
    splice.joint("wall", "left", Tails::new(2, Ratio::EIGHTH).into()).unwrap();
    let failure = splice.panels().unwrap_err();
    assert_eq!(failure.error.code, Code::NotInOnePlane);
    assert!(failure.to_string().contains("\"left\" and \"wall\""), "{failure}");
    let mut steep = long(40.0, 60.0);
    steep.joint("left", "right", Tails::new(4, Ratio::new(1, 4).unwrap()).into()).unwrap();
    assert_eq!(
        steep.panels().unwrap_err().to_string(),
        "joint of \"left\" and \"right\": slope times depth: 10 mm given, allowed 0 mm to 7.499998 mm"
    );
}

proptest! {
    /// Whatever splice, along whichever axes and in whichever plane: it tiles exactly, keeps its gap, and goes together across the sheet only.
    #[test]
    fn any_splice_fits(
        plane in 0usize..3, along_v: bool, swapped: bool, deep in 5_000_000i64..30_000_000, run in 40_000_000i64..300_000_000,
        count in 1u32..6, n in 4u32..13, tails: bool, owned_by_b: bool, flank in -100_000i64..200_000, kerf in 0i64..300_000, pin in prop::option::of(3_000_000i64..20_000_000),
    ) {
        let normal = Axis::ALL[plane];
        let (u, v) = normal.plane();
        let nm = |v| Nm::new(v).unwrap();
        let across = if along_v { v } else { u };
        let mut splice = Assembly::new();
        for (name, start) in [("one", 0), ("other", 90_000_000 - deep)] {
            let mut at = [Nm::ZERO; 3];
            at[across.index()] = nm(start);
            let size = |axis| if axis == across { nm(90_000_000) } else { nm(run) };
            splice.add(name, normal, at, [size(u), size(v)], nm(3_000_000)).unwrap();
        }
        let mut joint = Tails::new(count, Ratio::new(1, n).unwrap()).half(if tails { Half::Tails } else { Half::Pins });
        if let Some(pin) = pin { joint = joint.pin_width(nm(pin)); }
        if owned_by_b { joint = joint.swapped(); }
        let (a, b) = if swapped { ("other", "one") } else { ("one", "other") };
        splice.joint(a, b, joint.into()).unwrap();
        let Ok(panels) = splice.panels() else { return Ok(()) };
        let report = dry_fit(&panels);
        prop_assert!(report.ok(), "{:?}", report.problems);
        prop_assert_eq!((report.void_volume, report.overlap_volume, report.gap_min, report.gap_max), (0, 0, Nm::ZERO, Nm::ZERO));
        let areas: i128 = panels.iter().map(|p| p.shape().twice_area()).sum();
        prop_assert_eq!(areas, 2 * i128::from(180_000_000 - deep) * i128::from(run));
        let steps = order(&panels).unwrap();
        prop_assert_eq!(steps[1].direction.axis, normal);
        // A pin's edge as thin as the gap would come to a point.
        prop_assume!(report.thinnest_neck.nm() > 500_000);
        let Ok(parts) = Parts::cut(&panels, Cutter::beam(nm(kerf)).unwrap(), Fit::new(nm(flank), Nm::ZERO, Nm::ZERO).unwrap(), Nm::ZERO) else { return Ok(()) };
        let report = dry_fit_parts(&parts);
        prop_assert!(report.ok(), "{:?}", report.problems);
        prop_assert!((report.gap_min.nm() - flank).abs() <= 4 && (report.gap_max.nm() - flank).abs() <= 4, "{:?}", report);
    }
}

#[test]
fn straight_fingers_in_one_plane() {
    let mut splice = long(12.0, 60.0);
    splice.joint("left", "right", Fingers::count(5).least(mm(1.0)).into()).unwrap();
    let panels = splice.panels().unwrap();
    assert!(dry_fit(&panels).ok());
    assert_eq!(points(&panels[0]).len(), 12);
    // Nothing leans: it can be pulled apart.
    let way = order(&panels).unwrap()[1].direction;
    assert_ne!(way.axis, Axis::Y);
}

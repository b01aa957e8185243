use super::*;
use crate::{Axis, BoxSpec, Cutter, Fit, Parts, Reach, Relief, dry_fit, dry_fit_parts, order};
use std::string::ToString;
use std::vec::Vec;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

fn tray() -> Assembly {
    let mut spec = BoxSpec::outside([mm(200.0), mm(150.0), mm(90.0)], mm(6.0));
    spec.fingers = Some(crate::Fingers::count(5));
    spec.assembly().unwrap()
}

#[test]
fn bolted_boards_fit_and_go_together() {
    let bolt = Bolt::new(Thread::M4, mm(25.0)).unwrap();
    // Runs and depths in every direction of a panel.
    for (edge, face) in [("front", "left"), ("front", "right"), ("front", "base"), ("front", "top"), ("left", "base"), ("base", "front")] {
        let mut made = tray();
        let [one, other] = [edge, face].map(|name| &made.boards()[made.find(name).unwrap()]);
        let block = Block::between(one, other, 0, 1).unwrap().unwrap();
        let run = block.to - block.from;
        // The middles of the five fingers; those of the face board hold the bolt.
        let places = (0..5).map(|k| Nm::raw(run * (2 * k + 1) / 10));
        let fits: Vec<bool> = places
            .map(|at| {
                let mut tried = made.clone();
                tried.bolt(edge, face, bolt, at).unwrap();
                tried.panels().is_ok()
            })
            .collect();
        assert!(fits.iter().any(|fit| *fit) && fits.iter().any(|fit| !fit), "{edge} {face} {fits:?}");
        let good = fits.iter().position(|fit| *fit).unwrap() as i64;
        made.bolt(edge, face, bolt, Nm::raw(run * (2 * good + 1) / 10)).unwrap();
        let panels = made.panels().unwrap();
        let report = dry_fit(&panels);
        assert!(report.ok() && report.void_volume == 0, "{edge} {face}: {:?}", report.problems);
        assert_eq!(order(&panels).unwrap().len(), panels.len());
        let fit = Fit::new(mm(0.05), mm(0.1), Nm::ZERO).unwrap();
        let parts = Parts::cut(&panels, Cutter::bit(mm(2.0)).unwrap(), fit, mm(0.5)).unwrap();
        let parts = parts.relieve(Relief::new(mm(1.0), Reach::Diagonal).unwrap()).unwrap();
        let report = dry_fit_parts(&parts);
        assert!(report.ok(), "{edge} {face}: {:?}", report.problems);
        // Hole and slot of the widths in the tables: shaft from the shoulder to 25 - 6 + 0.7 mm, pocket 7.2 mm x 3.4 mm.
        let lost = |name: &str| {
            let (plain, panel) = (tray().panels().unwrap(), panels.iter().find(|panel| panel.name() == name).unwrap());
            plain.iter().find(|other| other.name() == name).unwrap().shape().area_mm2() - panel.shape().area_mm2()
        };
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-5, "{a} {b}");
        near(lost(face), core::f64::consts::PI * 2.25 * 2.25);
        near(lost(edge), 4.5 * 19.7 + (7.2 - 4.5) * 3.4);
    }
}

#[test]
fn bolts_that_do_not_hold_name_the_range() {
    let said = |thread, length, edge: &str, face: &str, at| {
        let made = Bolt::new(thread, mm(length)).map_err(Failure::from).and_then(|bolt| tray().bolt(edge, face, bolt, mm(at)));
        made.unwrap_err().to_string()
    };
    assert_eq!(
        said(Thread::M4, 10.0, "front", "left", 45.0),
        "bolt of \"front\" to \"left\": screw length: 10 mm given, allowed 13.8 mm to 196.1 mm: the screw ends before its nut, or deeper than its board"
    );
    assert_eq!(
        said(Thread::M8, 40.0, "front", "left", 45.0),
        "bolt of \"front\" to \"left\": screw diameter: 8 mm given, allowed 0.000001 mm to 6 mm: the nut's pocket leaves too little of its board"
    );
    assert_eq!(
        said(Thread::M4, 25.0, "front", "left", 4.0),
        "bolt of \"front\" to \"left\": at: 4 mm given, allowed 6.8 mm to 83.2 mm: the nut's pocket leaves too little of its board"
    );
    assert_eq!(
        said(Thread::M4, 25.0, "front", "back", 4.0),
        "bolt of \"front\" to \"back\": bolt: the two slabs do not overlap; extend one into the other"
    );
    assert_eq!(said(Thread::M4, 25.0, "front", "lid", 4.0), "board \"lid\": bolt: the assembly has no board of this name");
    let mut narrow = Assembly::new();
    narrow.add("face", Axis::X, [Nm::ZERO; 3], [mm(12.0), mm(60.0)], mm(6.0)).unwrap();
    narrow.add("strip", Axis::Z, [mm(0.0), mm(0.0), mm(30.0)], [mm(90.0), mm(12.0)], mm(6.0)).unwrap();
    let failure = narrow.bolt("strip", "face", Bolt::new(Thread::M4, mm(25.0)).unwrap(), mm(6.0)).unwrap_err();
    assert_eq!(
        failure.to_string(),
        "bolt of \"strip\" to \"face\": nut's pocket: 7.2 mm given, allowed 0.000001 mm to 5.6 mm: the nut's pocket leaves too little of its board"
    );
}

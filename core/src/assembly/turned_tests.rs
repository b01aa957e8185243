use super::*;
use crate::{Angle, BoxSpec, Cutter, Fingers, Fit, Parts, PrismSpec, Report, Tabs, Top, dry_fit, dry_fit_parts, order};
use std::string::{String, ToString};
use std::vec::Vec;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

fn deg(value: f64) -> Angle {
    Angle::degrees(value).unwrap()
}

fn fits(assembly: &Assembly) -> Report {
    let report = dry_fit(&assembly.panels().unwrap());
    assert_eq!(report.problems, [""; 0]);
    assert_eq!((report.overlap_volume, report.loose_pieces), (0, 0));
    report
}

fn prism(sides: u32, closed: bool) -> Assembly {
    let mut spec = PrismSpec::new(sides, mm(60.0), mm(50.0), mm(3.0));
    spec.closed = closed;
    spec.assembly().unwrap()
}

/// Two boards that cross in the middle, 100 x 60 mm, the second turned from a right angle.
fn cross(turn: f64, [first, second]: [f64; 2]) -> Assembly {
    let mut cross = Assembly::new();
    cross.add("long", Axis::Y, [mm(0.0), mm(50.0 - first / 2.0), mm(0.0)], [mm(100.0), mm(60.0)], mm(first)).unwrap();
    let at = [mm(50.0 - second / 2.0), mm(0.0), mm(0.0)];
    cross.add_turned("slanted", Axis::X, at, [mm(100.0), mm(60.0)], mm(second), (Axis::Z, deg(turn))).unwrap();
    cross
}

#[test]
fn prisms_of_all_sides_fit_and_state_their_wedges() {
    for sides in 3..=12 {
        for closed in [false, true] {
            let report = fits(&prism(sides, closed));
            assert_eq!(report.void_volume == 0, sides == 4, "{sides}: {}", report.void_volume);
            assert!(report.gap_min.nm() <= 4, "{sides}: {}", report.gap_min);
        }
    }
}

#[test]
fn four_sides_are_a_box() {
    let square = prism(4, true);
    let report = fits(&square);
    assert_eq!((report.void_volume, report.gap_max), (0, Nm::ZERO));
    let mut spec = BoxSpec::outside([mm(60.0), mm(60.0), mm(50.0)], mm(3.0));
    spec.top = Top::Closed;
    let plain = spec.assembly().unwrap().panels().unwrap();
    let panels = square.panels().unwrap();
    // The base is the box's; the sides differ from its front in whose finger is first at one end.
    assert_eq!(panels[4].shape(), plain[4].shape());
    assert_eq!(panels[5].shape(), plain[5].shape());
    let area = |panels: &[Panel]| panels.iter().map(|panel| panel.shape().twice_area()).sum::<i128>();
    assert_eq!(area(&panels), area(&plain));
}

#[test]
fn all_sides_are_alike() {
    for sides in 3..=12 {
        let panels = prism(sides, true).panels().unwrap();
        assert!(panels[1..sides as usize].iter().all(|panel| panel.shape() == panels[0].shape()), "{sides}");
    }
}

#[test]
fn slots_have_the_width_of_the_shadow() {
    for turn in [-75.0, -45.0, -10.0, 0.0, 20.0, 33.3, 60.0, 75.0] {
        let made = cross(turn, [3.0, 5.0]);
        let panels = made.panels().unwrap();
        let angle = deg(90.0 - turn);
        for (panel, mate, own) in [(&panels[0], 5.0, 3.0), (&panels[1], 3.0, 5.0)] {
            let inner: Vec<i64> = panel.shape().vertices().iter().filter(|v| v.at.y == mm(30.0)).map(|v| v.at.x.nm()).collect();
            let width = inner.iter().max().unwrap() - inner.iter().min().unwrap();
            let asked = angle.slot_width(mm(mate), mm(own)).unwrap().nm();
            // Both ends are rounded outwards.
            assert!((asked - 1..=asked + 1).contains(&width), "{turn}: {width}, not {asked}");
        }
        let report = fits(&made);
        // Outside of the common parallelogram two triangles stay open in each board's half.
        let (cos, sin) = angle.cos_sin();
        let (cos, sin) = (cos.abs(), sin.abs());
        let open = 30.0 * (25.0 + 9.0) * cos / sin * 1e18;
        assert!((report.void_volume as f64 - open).abs() <= 1e-4 * open.max(1e18), "{turn}: {} {open}", report.void_volume);
    }
}

#[test]
fn gaps_are_measured_square_to_the_face() {
    let fit = Fit::new(mm(0.2), mm(0.1), Nm::ZERO).unwrap();
    for turn in [0.0, 30.0, -60.0] {
        let panels = cross(turn, [3.0, 3.0]).panels().unwrap();
        let parts = Parts::cut(&panels, Cutter::beam(mm(0.15)).unwrap(), fit, Nm::ZERO).unwrap();
        let report = dry_fit_parts(&parts);
        assert_eq!(report.problems, [""; 0]);
        assert!((report.gap_min.nm() - 100_000).abs() <= 6, "{turn}: {}", report.gap_min);
    }
    for sides in [3, 5, 6, 12] {
        let panels = prism(sides, true).panels().unwrap();
        let parts = Parts::cut(&panels, Cutter::beam(mm(0.15)).unwrap(), fit, Nm::ZERO).unwrap();
        let report = dry_fit_parts(&parts);
        assert_eq!(report.problems, [""; 0], "{sides}");
        assert!((report.gap_min.nm() - 100_000).abs() <= 6, "{sides}: {}", report.gap_min);
    }
}

fn star(turns: &[f64]) -> Assembly {
    let mut star = Assembly::new();
    let names: Vec<String> = (1..=turns.len()).map(|k| k.to_string()).collect();
    for (name, &turn) in names.iter().zip(turns) {
        star.add_turned(name, Axis::Y, [mm(0.0), mm(48.5), Nm::ZERO], [mm(100.0), mm(60.0)], mm(3.0), (Axis::Z, deg(turn))).unwrap();
    }
    star.lap(&names.iter().map(String::as_str).collect::<Vec<_>>()).unwrap();
    star
}

/// Fairham, *Woodwork Joints* (1921), the halved joint: of three pieces each keeps a third.
#[test]
fn third_laps_leave_a_third_to_each() {
    let made = star(&[0.0, 60.0, 120.0]);
    fits(&made);
    let panels = made.panels().unwrap();
    let slots: Vec<i64> = panels.iter().map(|p| (2 * mm(100.0).nm() as i128 * mm(60.0).nm() as i128 - p.shape().twice_area()) as i64).collect();
    let width = deg(60.0).slot_width(mm(3.0), mm(3.0)).unwrap().nm();
    for lost in slots {
        // Two thirds of the height, as wide as the shadow.
        let expected = 2 * 40_000_000 * width;
        assert!((lost - expected).abs() <= 2 * 40_000_000 * 2, "{lost} {expected}");
    }
    // The middle board keeps the middle third.
    let levels: Vec<i64> = panels[1].shape().vertices().iter().map(|v| v.at.y.nm()).filter(|&y| y != 0 && y != 60_000_000).collect();
    assert_eq!((levels.iter().min(), levels.iter().max()), (Some(&20_000_000), Some(&40_000_000)));
    fits(&star(&[0.0, 45.0, 90.0, 135.0]));
    fits(&star(&[0.0, 30.0, 100.0]));
}

#[test]
fn ribs_lean_and_tabs_go_through_at_an_angle() {
    // A rib that leans by 30 degrees from upright, tabbed through a base of 4 mm.
    for lean in [30.0f64, -30.0, 50.0] {
        let mut rib = Assembly::new();
        rib.add("base", Axis::Z, [mm(-60.0), mm(0.0), mm(0.0)], [mm(120.0), mm(100.0)], mm(4.0)).unwrap();
        // About its middle: the lower end comes to the base's lower face at its nearer corner.
        let (sin, cos) = lean.abs().to_radians().sin_cos();
        let middle = 30.0 * cos + 1.5 * sin;
        let at = (middle * 1e6).round() / 1e6 - 30.0;
        rib.add_turned("rib", Axis::X, [mm(-1.5), mm(0.0), mm(at)], [mm(100.0), mm(60.0)], mm(3.0), (Axis::Y, deg(lean))).unwrap();
        rib.joint("rib", "base", Tabs::new(mm(12.0), mm(18.0)).into()).unwrap();
        let panels = rib.panels().unwrap();
        let base = panels[0].shape();
        assert!(base.loops().len() > 2, "{lean}: closed slots");
        fits(&rib);
    }
}

#[test]
fn boards_across_turned_boards_take_closed_slots() {
    let mut made = Assembly::new();
    made.add("base", Axis::Z, [mm(0.0), mm(0.0), mm(0.0)], [mm(120.0), mm(100.0)], mm(4.0)).unwrap();
    made.add_turned("rib", Axis::X, [mm(58.0), mm(20.0), mm(0.0)], [mm(60.0), mm(60.0)], mm(3.0), (Axis::Z, deg(37.0))).unwrap();
    let report = fits(&made);
    assert_eq!((report.void_volume, report.gap_min.nm() / 10), (0, 0));
    let panels = made.panels().unwrap();
    assert!(panels[0].shape().loops().len() > 1 && panels[0].shape().leans());
    let fit = Fit::new(mm(0.2), mm(0.1), Nm::ZERO).unwrap();
    let report = dry_fit_parts(&Parts::cut(&panels, Cutter::beam(mm(0.1)).unwrap(), fit, Nm::ZERO).unwrap());
    assert_eq!(report.problems, [""; 0]);
    assert!((report.gap_min.nm() - 100_000).abs() <= 6 && (report.gap_max.nm() - 200_000).abs() <= 6, "{report:?}");
}

#[test]
fn what_cannot_be_cut_is_refused() {
    let said = |failure: Failure| failure.to_string();
    let mut made = cross(10.0, [3.0, 3.0]);
    let mut third = |axis, angle| {
        let added = made.add_turned("third", Axis::X, [mm(40.0), mm(0.0), mm(0.0)], [mm(90.0), mm(60.0)], mm(3.0), (axis, deg(angle)));
        added.map(drop).map_err(|failure| (failure.error.code, said(failure)))
    };
    let flat = third(Axis::Z, 80.0).unwrap_err().1;
    assert_eq!(flat, "boards \"long\" and \"third\": angle between boards: 10 deg given, allowed 15 deg to 90 deg");
    assert_eq!(third(Axis::X, 10.0).unwrap_err().0, Code::TwoAxes);
    assert_eq!(third(Axis::Y, 10.0).unwrap_err().0, Code::TwoAxes);
    assert_eq!(made.lap(&["long"]).unwrap_err().to_string(), "boards of a lap: 1 given, allowed 2 to 4");
    let mut open = star(&[0.0, 60.0, 120.0]);
    open.laps.clear();
    assert_eq!(open.panels().unwrap_err().error.code, Code::NotLapped);
    let sides = |sides, side, height| PrismSpec::new(sides, mm(side), mm(height), mm(3.0)).assembly().map(drop).map_err(said);
    assert_eq!(sides(13, 60.0, 50.0), Err("sides: 13 given, allowed 3 to 12".into()));
    assert_eq!(sides(2, 60.0, 50.0), Err("sides: 2 given, allowed 3 to 12".into()));
    assert_eq!(sides(6, 8.0, 50.0), Err("outside: 8 mm given, allowed 8.196154 mm to 10000 mm".into()));
    assert!(sides(6, 60.0, 3.0).unwrap_err().starts_with("height: 3 mm given"));
    let mut wide = PrismSpec::new(5, mm(60.0), mm(50.0), mm(3.0));
    wide.fingers = Some(Fingers::count(41));
    assert_eq!(wide.assembly().unwrap().panels().unwrap_err().error.code, Code::FingersDoNotFit);
}

/// The moves that put an assembly together, as text.
fn moves(assembly: &Assembly) -> Vec<String> {
    order(&assembly.panels().unwrap()).unwrap().iter().map(|step| std::format!("{} {}", step.name, step.direction)).collect()
}

#[test]
fn turned_boards_go_together_in_straight_moves() {
    for sides in 3..=12 {
        for closed in [false, true] {
            let steps = moves(&prism(sides, closed));
            assert!(steps[0].starts_with("base"), "{sides}: {steps:?}");
            assert_eq!(steps.len(), sides as usize + 1 + usize::from(closed));
            assert!(!closed || steps.last().unwrap() == "top -z", "{sides}: {steps:?}");
        }
    }
    assert_eq!(moves(&star(&[0.0, 60.0, 120.0])), ["1 -z", "2 -z", "3 -z"]);
    assert_eq!(moves(&cross(30.0, [3.0, 3.0])).len(), 2);
}

#[test]
fn a_move_of_a_turned_panel_goes_along_its_own_axis() {
    let made = prism(6, false);
    let panels = made.panels().unwrap();
    let steps = order(&panels).unwrap();
    let step = steps.iter().find(|step| step.name == "side-2").unwrap();
    assert!(step.direction.own, "{}", step.direction);
    let board = panels[step.board].board();
    let [x, y, z] = step.direction.vector(board);
    assert!((x * x + y * y + z * z - 1.0).abs() < 1e-12 && z.abs() < 1e-12);
}

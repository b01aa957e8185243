use super::*;
use crate::{Assembly, Axis, Code, Cutter, Fit, Parts, dry_fit, dry_fit_parts, dry_fit_shapes};
use core::f64::consts::PI;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

fn p(x: f64, y: f64) -> Point {
    Point::new(mm(x), mm(y))
}

fn board() -> Assembly {
    let mut lone = Assembly::new();
    lone.add("lid", Axis::Z, [Nm::ZERO; 3], [mm(200.0), mm(100.0)], mm(6.0)).unwrap();
    lone
}

#[test]
fn areas_are_those_of_circles_and_sides() {
    let area = |opening: Opening| -opening.closed().unwrap().area_mm2();
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-5, "{a} {b}");
    near(area(Opening::round(p(50.0, 50.0), mm(5.5)).unwrap()), PI * 2.75 * 2.75);
    near(area(Opening::stadium(p(50.0, 50.0), [mm(90.0), mm(30.0)]).unwrap()), 60.0 * 30.0 + PI * 225.0);
    near(area(Opening::stadium(p(50.0, 50.0), [mm(30.0), mm(90.0)]).unwrap()), 60.0 * 30.0 + PI * 225.0);
    near(area(Opening::rectangle(p(50.0, 50.0), [mm(30.0), mm(20.0)]).unwrap()), 600.0);
    for size in [[mm(30.000001), mm(20.0)], [mm(20.0), mm(30.000001)], [mm(20.000001), mm(20.000001)]] {
        let odd = Opening::stadium(p(0.0, 0.0), size).unwrap().closed().unwrap();
        assert!(odd.arcs().count() >= 2 && odd.arcs().all(|arc| arc.fault().is_none()));
    }
}

#[test]
fn openings_are_no_void_but_must_be_there() {
    let mut lid = board();
    lid.open("lid", Opening::stadium(p(100.0, 70.0), [mm(80.0), mm(25.0)]).unwrap()).unwrap();
    for hole in Opening::round(p(20.0, 20.0), mm(4.5)).unwrap().grid([5, 2], [mm(30.0), mm(15.0)]).unwrap() {
        lid.open("lid", hole).unwrap();
    }
    let panels = lid.panels().unwrap();
    assert_eq!(panels[0].shape().loops().len(), 12);
    let report = dry_fit(&panels);
    assert!(report.ok() && report.void_volume == 0, "{report:?}");
    // Between the centres 15 mm, less a diameter.
    assert_eq!(report.thinnest_neck, mm(10.5));
    let parts = Parts::cut(&panels, Cutter::bit(mm(3.0)).unwrap(), Fit::EXACT, mm(2.0)).unwrap();
    let report = dry_fit_parts(&parts);
    assert!(report.ok() && report.void_volume == 0, "{report:?}");
    let part = parts.find("lid").unwrap();
    assert_eq!(part.finished(), panels[0].shape());
    let radii: Vec<i64> = part.path().arcs().map(|arc| arc.radius().nm()).collect();
    assert!(radii.iter().all(|r| [11_000_000, 750_000].iter().any(|want| (r - want).abs() < 3)), "{radii:?}");
    // Without one of them, and with one hole more.
    let boards: Vec<_> = lid.boards().iter().collect();
    let rings: Vec<_> = panels[0].shape().rings().map(|ring| ring.bent().map(|(v, c)| (v.at, c)).collect::<Vec<_>>()).collect();
    let less = Shape::from_bent_loops(rings.iter().filter(|ring| ring.len() != 4 || ring[0].0.x < mm(100.0)).cloned());
    assert!(dry_fit_shapes(&boards, &[less]).problems[0].starts_with("panel \"lid\" lacks its opening near ("));
    let more = Opening::rectangle(p(180.0, 80.0), [mm(5.0); 2]).unwrap().closed().unwrap();
    let more = rings.iter().cloned().chain(more.rings().map(|ring| ring.bent().map(|(v, c)| (v.at, c)).collect()));
    assert_eq!(dry_fit_shapes(&boards, &[Shape::from_bent_loops(more)]).problems, ["panel \"lid\" has lost board that no other claims"]);
}

#[test]
fn misplaced_openings_are_refused() {
    let said = |openings: &[Opening]| {
        let mut lid = board();
        openings.iter().for_each(|opening| lid.open("lid", *opening).unwrap());
        let failure = lid.panels().unwrap_err();
        assert_eq!(failure.error.code, Code::OpeningMisplaced);
        failure.place
    };
    let hole = |x, y| Opening::round(p(x, y), mm(10.0)).unwrap();
    assert_eq!(said(&[hole(4.0, 50.0)]), "panel \"lid\" near (4, 50) mm");
    assert_eq!(said(&[hole(300.0, 50.0)]), "panel \"lid\" near (300, 50) mm");
    assert_eq!(said(&[hole(50.0, 50.0), hole(57.0, 50.0)]), "panel \"lid\" near (57, 50) mm");
    assert_eq!(said(&[Opening::rectangle(p(50.0, 50.0), [mm(40.0); 2]).unwrap(), hole(50.0, 50.0)]), "panel \"lid\" near (50, 50) mm");
    assert_eq!(board().open("lib", hole(50.0, 50.0)).unwrap_err().error.code, Code::NoSuchBoard);
    assert_eq!(Opening::round(p(0.0, 0.0), Nm::ZERO).unwrap_err().code, Code::OutOfRange);
    assert_eq!(hole(50.0, 50.0).grid([0, 1], [mm(1.0); 2]).unwrap_err().code, Code::OutOfRange);
    let mut lid = board();
    lid.open("lid", Opening::round(p(50.0, 50.0), mm(3.0)).unwrap()).unwrap();
    let failure = Parts::cut(&lid.panels().unwrap(), Cutter::bit(mm(3.0)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap_err();
    assert_eq!((failure.error.code, failure.place.as_str()), (Code::SlotCloses, "panel \"lid\" near (50, 50) mm"));
}

//! A check that cannot fail proves nothing: each kind of damage to a finished outline is found, and measured exactly.

use super::*;

fn shapes() -> (Assembly, Vec<Shape>) {
    let spec = BoxSpec::outside([mm(100), mm(80), mm(60)], mm(3));
    let assembly = spec.assembly().unwrap();
    let shapes = assembly.panels().unwrap().iter().map(|panel| panel.shape().clone()).collect();
    (assembly, shapes)
}

fn report(assembly: &Assembly, shapes: &[Shape]) -> Report {
    dry_fit_shapes(&assembly.boards().iter().collect::<Vec<_>>(), shapes)
}

fn with(shape: &Shape, change: impl Fn(usize, Point) -> Point) -> Shape {
    Shape::from_loops(shape.loops().map(|ring| ring.iter().enumerate().map(|(i, v)| change(i, v.at)).collect::<Vec<_>>()))
}

#[test]
fn none() {
    let (assembly, shapes) = shapes();
    assert!(report(&assembly, &shapes).ok());
}

#[test]
fn a_finger_too_wide() {
    let (assembly, mut shapes) = shapes();
    // The first notch of the front's bottom edge begins 0.1 mm late: the finger before it is 0.1 mm too wide.
    shapes[0] = with(&shapes[0], |i, p| if i == 1 || i == 2 { Point::new(p.x + um(100), p.y) } else { p });
    let report = report(&assembly, &shapes);
    assert_eq!(report.overlap_max, um(100));
    assert_eq!(report.overlap_volume, 100_000 * 3_000_000 * 3_000_000);
    assert_eq!(report.gap_min, um(-100));
    assert!(report.problems.iter().any(|p| p.contains("\"front\" and \"base\" overlap by 0.1 mm")), "{:?}", report.problems);
}

#[test]
fn a_finger_too_narrow() {
    let (assembly, mut shapes) = shapes();
    shapes[0] = with(&shapes[0], |i, p| if i == 1 || i == 2 { Point::new(p.x - um(100), p.y) } else { p });
    let report = report(&assembly, &shapes);
    assert_eq!(report.gap_max, um(100));
    assert_eq!(report.void_volume, 100_000 * 3_000_000 * 3_000_000);
    assert!(report.problems.iter().any(|p| p.contains("stand 0.1 mm apart")), "{:?}", report.problems);
}

#[test]
fn a_notch_too_deep() {
    let (assembly, mut shapes) = shapes();
    shapes[0] = with(&shapes[0], |i, p| if i == 2 || i == 3 { Point::new(p.x, p.y + um(50)) } else { p });
    let report = report(&assembly, &shapes);
    assert_eq!(report.gap_max, um(50));
    assert!(report.void_volume > 0 && report.overlap_volume == 0);
    assert!(!report.ok());
}

#[test]
fn a_hole_in_the_middle() {
    let (assembly, mut shapes) = shapes();
    let hole = [(40, 30), (40, 32), (42, 32), (42, 30)].map(|(x, y)| Point::new(mm(x), mm(y)));
    let outer: Vec<Point> = shapes[0].loops().next().unwrap().iter().map(|v| v.at).collect();
    shapes[0] = Shape::from_loops([outer, hole.to_vec()]);
    let report = report(&assembly, &shapes);
    assert_eq!(report.void_volume, 2_000_000 * 2_000_000 * 3_000_000);
    assert!(report.problems.iter().any(|p| p.contains("\"front\" has lost board")), "{:?}", report.problems);
}

#[test]
fn two_holes_that_meet_in_a_point() {
    let (assembly, mut shapes) = shapes();
    let hole = |x, y| [(x, y), (x, y + 2), (x + 2, y + 2), (x + 2, y)].map(|(x, y)| Point::new(mm(x), mm(y))).to_vec();
    let outer: Vec<Point> = shapes[0].loops().next().unwrap().iter().map(|v| v.at).collect();
    shapes[0] = Shape::from_loops([outer, hole(40, 30), hole(42, 32)]);
    let report = report(&assembly, &shapes);
    assert_eq!(report.thinnest_neck, Nm::ZERO);
    assert!(report.problems.iter().any(|p| p.contains("\"front\" is no wider than a point near (42, 32) mm")), "{:?}", report.problems);
}

#[test]
fn a_corner_cube_missing() {
    let (assembly, mut shapes) = shapes();
    // The front owns the corner at its origin: cut it off.
    let mut outer: Vec<Point> = shapes[0].loops().next().unwrap().iter().map(|v| v.at).collect();
    assert_eq!(outer[0], Point::default());
    outer.splice(0..1, [Point::new(mm(0), mm(3)), Point::new(mm(3), mm(3)), Point::new(mm(3), mm(0))]);
    shapes[0] = Shape::from_loops([outer]);
    let report = report(&assembly, &shapes);
    assert_eq!(report.void_volume, 27_000_000_000_000_000_000);
    assert!(report.problems.iter().any(|p| p.contains("has no owner")), "{:?}", report.problems);
}

#[test]
fn a_loose_piece_and_a_thin_neck() {
    let (assembly, mut shapes) = shapes();
    let crumb = [(10, 100), (12, 100), (12, 101), (10, 101)].map(|(x, y)| Point::new(mm(x), mm(y)));
    let outer: Vec<Point> = shapes[5].loops().next().unwrap().iter().map(|v| v.at).collect();
    shapes[5] = Shape::from_loops([outer, crumb.to_vec()]);
    let report = report(&assembly, &shapes);
    assert_eq!((report.loose_pieces, report.thinnest_neck), (1, mm(1)));
}

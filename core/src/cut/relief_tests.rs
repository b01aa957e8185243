use super::super::corner::unrelieved;
use super::*;
use crate::cut::{Cutter, Parts};
use crate::{BoxSpec, Fit, dry_fit_parts};
use proptest::prelude::*;
use std::string::ToString;

const REACHES: [Reach; 3] = [Reach::Diagonal, Reach::Flank, Reach::Cheek];

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

/// A board with a socket in its upper edge, `wide` at the bottom; its flanks lean outwards by `lean` (a dovetail's) or inwards.
fn socket(wide: i64, deep: i64, lean: i64) -> Shape {
    let (x, y) = (100_000_000, 50_000_000);
    let (a, b) = (50_000_000 - wide / 2, 50_000_000 + wide / 2);
    let ring = [
        (0, 0, Role::Free),
        (x, 0, Role::Free),
        (x, y, Role::Tip),
        (b - lean, y, Role::Flank),
        (b, y - deep, Role::Cheek),
        (a, y - deep, Role::Flank),
        (a + lean, y, Role::Tip),
        (0, y, Role::Free),
    ];
    let mut shape = Shape::default();
    shape.push(ring.map(|(x, y, role)| Vertex { at: Point::raw(x, y), role }));
    shape
}

/// The vertices at which an outline turns.
fn turns(shape: &Shape) -> Vec<Point> {
    shape.rings().flat_map(|ring| corners(ring).filter(|c| cross(c.before, c.at, c.after) != 0).map(|c| c.at).collect::<Vec<_>>()).collect()
}

/// The least distance of a point from the edges of a flat shape.
fn near(at: Point, edges: &[(Point, Point)]) -> f64 {
    let xy = |p: Point| (p.x.nm() as f64, p.y.nm() as f64);
    let (px, py) = xy(at);
    let far = |&(a, b): &(Point, Point)| {
        let ((ax, ay), (bx, by)) = (xy(a), xy(b));
        let (dx, dy) = (bx - ax, by - ay);
        let t = (((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
        libm::hypot(px - ax - t * dx, py - ay - t * dy)
    };
    edges.iter().map(far).fold(f64::INFINITY, f64::min)
}

/// A disc of the tool's radius on the path takes all that the part's reliefs lack, and nothing of the part.
fn proves(part: &Shape, path: &Shape, tool: i64) {
    let flat = Nm::raw(20);
    let (flat_part, flat_path) = (part.flattened(flat), path.flattened(flat));
    let (of_part, of_path): (Vec<_>, Vec<_>) = (flat_part.edges().collect(), flat_path.edges().filter(|(a, b)| a != b).collect());
    // Between the ends of an edge of the path too.
    for &(a, b) in &of_path {
        for step in 0..=16 {
            let between = |a: Nm, b: Nm| a.nm() + ((b - a).nm() * step) / 16;
            let at = Point::raw(between(a.x, b.x), between(a.y, b.y));
            let far = near(at, &of_part);
            assert!(far > (tool - 30) as f64, "the tool at {at:?} comes as near as {far}, radius {tool}");
        }
    }
    for (a, b) in part.flattened(Nm::raw(1000)).edges() {
        for step in 0..40 {
            let between = |a: Nm, b: Nm| a.nm() + ((b - a).nm() * step) / 40;
            let at = Point::raw(between(a.x, b.x), between(a.y, b.y));
            let far = near(at, &of_path);
            // A chord lies beyond its arc.
            assert!(far < (tool + 30) as f64 && far > (tool - 1030) as f64, "{at:?} lies {far} from the path, radius {tool}");
        }
    }
    assert!(part.arcs().all(|arc| arc.fault().is_none()) && path.arcs().all(|arc| arc.fault().is_none()));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// In corners of any angle, whatever the tool.
    #[test]
    fn the_tool_takes_what_the_relief_says(
        lean in -9_000_000i64..9_000_000, square: bool, radius in 500_000i64..2_000_000, share in 20i64..=100, reach in 0usize..3,
    ) {
        let (lean, tool) = (if square { 0 } else { lean }, radius * share / 100);
        let part = socket(30_000_000, 12_000_000, lean);
        let relief = Relief::new(Nm::raw(radius), REACHES[reach]).unwrap();
        // In a corner of less than a quarter turn the relief has to be larger than the tool.
        let tool = if lean > 0 { tool * 9 / 20 } else { tool };
        let (relieved, path) = relief.apply(&part, tool).unwrap();
        prop_assert!(relieved.is_bent());
        prop_assert_eq!(unrelieved(&relieved), None);
        if square {
            prop_assert_eq!(turns(&relieved), turns(&part));
        }
        // Beyond the chords, which are the part without relief but for the rounding of points on slanted edges.
        let chords = part.twice_area() - relieved.twice_area() - relieved.twice_segments();
        prop_assert!((0..200_000_000).contains(&chords), "{}", chords);
        proves(&relieved, &path, tool);
    }

    /// Boxes for a bit fit, and their void is that of the segments.
    #[test]
    fn relieved_boxes_fit(
        x in 90_000_000i64..200_000_000, t in 5_000_000i64..9_000_000, tool in 500_000i64..800_000, more in 0i64..300_000, reach in 0usize..3,
        flank in 0i64..100_000, cheek in 0i64..100_000,
    ) {
        let spec = BoxSpec::outside([Nm::raw(x), mm(90.0), mm(60.0)], Nm::raw(t));
        let panels = spec.assembly().unwrap().panels().unwrap();
        let fit = Fit::new(Nm::raw(flank), Nm::raw(cheek), Nm::ZERO).unwrap();
        let plain = Parts::cut(&panels, Cutter::bit(Nm::raw(2 * tool)).unwrap(), fit, Nm::ZERO).unwrap();
        let parts = plain.clone().relieve(Relief::new(Nm::raw(tool + more), REACHES[reach]).unwrap()).unwrap();
        let (before, report) = (dry_fit_parts(&plain), dry_fit_parts(&parts));
        for (part, plain) in parts.iter().zip(plain.iter()) {
            prop_assert_eq!(turns(part.finished()), turns(plain.finished()));
        }
        prop_assert!(!before.ok() && report.ok(), "{:?}", report.problems);
        prop_assert_eq!((before.gap_min, before.gap_max), (report.gap_min, report.gap_max));
        prop_assert_eq!(report.corner_fillet, Nm::ZERO);
        let void: i128 = parts.iter().map(|part| part.finished().twice_segments() * i128::from(t) / 2).sum();
        prop_assert!((report.void_volume - before.void_volume - void).abs() < 6);
        for (part, plain) in parts.iter().zip(plain.iter()) {
            prop_assert_eq!(turns(part.finished()), turns(plain.finished()));
            prop_assert_eq!(part.path().bounds(), plain.path().bounds());
        }
    }
}

#[test]
fn a_relief_of_its_tool_is_there_and_back_along_the_diagonal() {
    let part = socket(30_000_000, 12_000_000, 0);
    let (relieved, path) = Relief::new(mm(1.5), Reach::Diagonal).unwrap().apply(&part, 1_500_000).unwrap();
    assert!(!path.is_bent(), "straight spurs only");
    assert_eq!((relieved.vertices().len(), path.vertices().len()), (12, 12));
    // Each corner loses the circle less the half of it in the notch's quadrant: pi r² / 2 - r².
    let lost = (part.area_mm2() - relieved.area_mm2()) / 2.0;
    assert!((lost - 1.5 * 1.5 * (core::f64::consts::PI / 2.0 - 1.0)).abs() < 1e-5, "{lost}");
}

#[test]
fn reliefs_that_do_not_fit_name_the_range() {
    let leans = |wide, deep, radius, reach, tool, lean| {
        let (error, at) = Relief::new(mm(radius), reach).unwrap().apply(&socket(wide, deep, lean), tool).unwrap_err();
        std::format!("{error} at ({}, {})", at.x, at.y)
    };
    let said = |wide, deep, radius, reach, tool| leans(wide, deep, radius, reach, tool, 0);
    let (wide, deep) = (6_000_000, 6_000_000);
    assert_eq!(said(wide, deep, 1.0, Reach::Diagonal, 1_500_000), "relief radius: 1 mm given, allowed 1.5 mm to 20 mm at (53 mm, 44 mm)");
    // A slope of 1:6 leaves 80.5 degrees: 1.5 mm / sin, and 1.5 mm x cot of half of it.
    assert_eq!(
        leans(wide, deep, 1.5, Reach::Diagonal, 1_500_000, 1_000_000),
        "relief radius: 1.5 mm given, allowed 1.520691 mm to 20 mm at (53 mm, 44 mm)"
    );
    assert_eq!(
        leans(wide, deep, 1.5, Reach::Cheek, 1_500_000, 1_000_000),
        "relief radius: 1.5 mm given, allowed 1.770691 mm to 20 mm at (53 mm, 44 mm)"
    );
    // Two reliefs meet at the bottom of the socket: each takes the root of two times its radius.
    assert_eq!(
        said(wide, deep, 2.2, Reach::Diagonal, 1_500_000),
        "relief radius: 2.2 mm given, allowed 0.001 mm to 2.121319 mm: two reliefs meet, or one is longer than its edge at (53 mm, 44 mm)"
    );
    assert_eq!(
        said(wide, 3_000_000, 1.5, Reach::Flank, 1_500_000),
        "relief radius: 1.5 mm given, allowed 0.001 mm to 1.499999 mm: two reliefs meet, or one is longer than its edge at (53 mm, 50 mm)"
    );
    // On the flank it takes nothing of the socket's bottom.
    assert!(Relief::new(mm(2.9), Reach::Flank).unwrap().apply(&socket(wide, deep, 0), 1_500_000).is_ok());
    assert_eq!(Relief::new(Nm::ZERO, Reach::Flank).unwrap_err().to_string(), "relief radius: 0 mm given, allowed 0.001 mm to 20 mm");
}

#[test]
fn a_relief_does_not_break_through_a_web() {
    let mut spec = BoxSpec::outside([mm(100.0), mm(80.0), mm(60.0)], mm(6.0));
    spec.fingers = Some(crate::Fingers::width(mm(6.0)).parity(crate::Parity::Any));
    let panels = spec.assembly().unwrap().panels().unwrap();
    let cut = |web| Parts::cut(&panels, Cutter::bit(mm(2.0)).unwrap(), Fit::EXACT, mm(web)).unwrap();
    assert!(cut(0.0).relieve(Relief::new(mm(2.0), Reach::Flank).unwrap()).is_ok());
    let failure = cut(3.0).relieve(Relief::new(mm(2.0), Reach::Flank).unwrap()).unwrap_err();
    assert_eq!(failure.error.code, Code::WebTooThin, "{failure}");
    assert!(failure.place.starts_with("panel \"front\" near ("), "{failure}");
    // Two circles from both sides of a finger of 6.7 mm run into each other.
    let mut thin = BoxSpec::outside([mm(100.0), mm(80.0), mm(60.0)], mm(8.0));
    thin.fingers = Some(crate::Fingers::width(mm(4.0)).least(mm(4.0)));
    let panels = thin.assembly().unwrap().panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::bit(mm(2.0)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    assert_eq!(parts.relieve(Relief::new(mm(3.5), Reach::Flank).unwrap()).map(|_| ()).unwrap_err().error.code, Code::ReliefBreaksThrough);
}

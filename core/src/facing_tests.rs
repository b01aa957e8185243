use super::*;
use proptest::prelude::*;

fn shape(loops: &[&[(i64, i64)]]) -> Shape {
    Shape::from_loops(loops.iter().map(|points| points.iter().map(|&(x, y)| Point::raw(x, y)).collect::<Vec<_>>()))
}

/// In thousands of nanometres, so that the rounding of corners does not count.
fn width(loops: &[&[(i64, i64)]]) -> i64 {
    let large: Vec<Vec<(i64, i64)>> = loops.iter().map(|points| points.iter().map(|&(x, y)| (1000 * x, 1000 * y)).collect()).collect();
    let large: Vec<&[(i64, i64)]> = large.iter().map(Vec::as_slice).collect();
    thinnest(&shape(&large)).unwrap().unwrap().width / 1000
}

#[test]
fn a_flank_that_leans_by_its_rounding_is_no_neck() {
    // Fingers 10 long and 20 wide on a board of 40; one flank leans by a nanometre.
    let comb = [(0, 0), (20_000, 0), (20_001, 10_000), (60_000, 10_000), (60_000, 0), (80_000, 0), (80_000, 50_000), (0, 50_000)];
    assert_eq!(thinnest(&shape(&[&comb])).unwrap().unwrap().width, 20_000);
}

#[test]
fn known_widths() {
    // A tail: its neck is 20 wide, its head 28, 32 long. A shorter one is as thin as it is long, from a corner of its neck.
    assert_eq!(width(&[&[(-40, 0), (-10, 0), (-14, -32), (14, -32), (10, 0), (40, 0), (40, 60), (-40, 60)]]), 20);
    assert_eq!(width(&[&[(-40, 0), (-10, 0), (-12, -16), (12, -16), (10, 0), (40, 0), (40, 60), (-40, 60)]]), 16);
    // A triangle is as thin as its least height: 3, 4, 5 gives 12 / 5 of a unit.
    assert_eq!(width(&[&[(0, 0), (4000, 0), (0, 3000)]]), 2400);
    // A slanted slot near an edge: between the slot's corner and the plate's side.
    assert_eq!(width(&[&[(0, 0), (1000, 0), (1000, 1000), (0, 1000)], &[(100, 500), (500, 900), (530, 870), (130, 470)]]), 100);
    // Two slots whose corners face each other diagonally: 30 and 40 apart.
    let near = [(10, 10), (10, 90), (90, 90), (90, 11)];
    let far = [(120, 130), (119, 200), (190, 200), (190, 131)];
    assert_eq!(width(&[&[(-900, -900), (900, -900), (900, 900), (-900, 900)], &near, &far]), 50);
}

#[test]
fn crossing_edges_are_found() {
    let bow = shape(&[&[(0, 0), (100, 100), (100, 0), (0, 90)]]);
    assert!(thinnest(&bow).is_err());
    // A slot on the plate's edge, over a length.
    assert!(thinnest(&shape(&[&[(0, 0), (100, 0), (120, 100), (0, 100)], &[(10, 0), (10, 50), (50, 50), (50, 0)]])).is_err());
    assert_eq!(thinnest(&Shape::default()), Ok(None));
}

proptest! {
    /// Turned to a slant, a plate with slots is as thin as it was upright, by the other method.
    #[test]
    fn as_the_sweep_finds_it(slots in prop::collection::vec((0i64..9, 1i64..9, 1i64..9), 1..4), wide in 100_000i64..200_000) {
        let mut loops = std::vec![std::vec![(0, 0), (1_000_000, 0), (1_000_000, wide), (0, wide)]];
        for (k, (x, w, y)) in slots.into_iter().enumerate() {
            let (x, y, w) = (k as i64 * 300_000 + x * 10_000 + 20_000, y * wide / 12, w * 9_000);
            loops.push(std::vec![(x, y), (x, y + wide / 13), (x + w, y + wide / 13), (x + w, y)]);
        }
        let upright = Shape::from_loops(loops.iter().map(|l| l.iter().map(|&(x, y)| Point::raw(x, y)).collect::<Vec<_>>()));
        let by_sweep = crate::sweep::thinnest(&crate::edges::Edges::of(&upright, (0, 0))).unwrap().unwrap().width;
        prop_assert_eq!(thinnest(&upright).unwrap().unwrap().width, by_sweep);
        // A turn by 3, 4, 5 that makes everything five times as large.
        let turned = Shape::from_loops(loops.iter().map(|l| l.iter().map(|&(x, y)| Point::raw(4 * x - 3 * y, 3 * x + 4 * y)).collect::<Vec<_>>()));
        prop_assert!((thinnest(&turned).unwrap().unwrap().width - 5 * by_sweep).abs() <= 5);
    }
}

/// Whether a point lies inside, by the edges that a line from it to the right crosses.
fn inside(points: &[(f64, f64)], (x, y): (f64, f64)) -> bool {
    let edges = (0..points.len()).map(|k| (points[k], points[(k + 1) % points.len()]));
    let crossed = edges.filter(|&((ax, ay), (bx, by))| (ay > y) != (by > y) && ax + (bx - ax) * ((y - ay) / (by - ay)) > x);
    crossed.count() % 2 == 1
}

/// Slow and plain: from every corner to the nearest point of every edge, if the way there lies inside.
fn by_every_pair(points: &[(f64, f64)]) -> f64 {
    let count = points.len();
    let mut least = f64::INFINITY;
    for (v, &(x, y)) in points.iter().enumerate() {
        for k in (0..count).filter(|&k| k != v && (k + 1) % count != v) {
            let ((ax, ay), (bx, by)) = (points[k], points[(k + 1) % count]);
            let (dx, dy) = (bx - ax, by - ay);
            let t = (((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)).clamp(0.0, 1.0);
            let (to_x, to_y) = (ax + dx * t - x, ay + dy * t - y);
            let beside = (t == 0.0 && (k + count - 1) % count == v) || (t == 1.0 && (k + 2) % count == v);
            let seen = !beside && (1..200).all(|i| inside(points, (x + to_x * f64::from(i) / 200.0, y + to_y * f64::from(i) / 200.0)));
            if seen {
                least = least.min(to_x.hypot(to_y));
            }
        }
    }
    least
}

proptest! {
    /// Outlines around a middle, with corners that go in and out.
    #[test]
    fn as_every_pair_of_corner_and_edge_says(spokes in prop::collection::vec((0.2f64..0.8, 0.2f64..1.0), 4..12)) {
        let at = |(k, &(part, far)): (usize, &(f64, f64))| {
            let (sin, cos) = ((k as f64 + part) / spokes.len() as f64 * core::f64::consts::TAU).sin_cos();
            ((cos * far * 1e8).round(), (sin * far * 1e8).round())
        };
        let points: std::vec::Vec<(f64, f64)> = spokes.iter().enumerate().map(at).collect();
        let whole: std::vec::Vec<(i64, i64)> = points.iter().map(|&(x, y)| (x as i64, y as i64)).collect();
        prop_assert!((width(&[&whole]) as f64 - by_every_pair(&points)).abs() <= 1.0);
    }
}

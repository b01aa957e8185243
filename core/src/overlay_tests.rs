use super::*;
use proptest::prelude::*;
use std::vec;

fn polygon(points: &[(i64, i64)]) -> Vec<(Point, Point)> {
    let at = |&(x, y): &(i64, i64)| Point::raw(x, y);
    (0..points.len()).map(|i| (at(&points[i]), at(&points[(i + 1) % points.len()]))).collect()
}

fn strips(points: &[(i64, i64)], upright: bool) -> Strips {
    Strips::of(polygon(points).into_iter(), upright)
}

fn both_ways(a: &[(i64, i64)], b: &[(i64, i64)]) -> [Common; 2] {
    [false, true].map(|upright| common(&strips(a, upright), &strips(b, upright)))
}

#[test]
fn rectangles_are_measured_exactly() {
    let (a, b) = ([(0, 0), (100, 0), (100, 50), (0, 50)], [(90, 20), (300, 20), (300, 200), (90, 200)]);
    assert_eq!(both_ways(&a, &b), [Common { area: 300, depth: 10 }; 2]);
}

#[test]
fn a_triangle_through_a_square() {
    // The square 0..1000 and the half plane below y = x / 2 + 100, far enough around: plane geometry, area 1000 * 100 + 1000 * 500 / 2.
    let a = [(0, 0), (1000, 0), (1000, 1000), (0, 1000)];
    let b = [(-200, -500), (1800, -500), (1800, 1000), (-200, 0)];
    for found in both_ways(&a, &b) {
        assert!((found.area - 350_000).abs() <= 2, "{found:?}");
    }
}

#[test]
fn crossing_diamonds() {
    // Two long diamonds across each other share a square on its tip: between |x| + |y| / 10 <= 100 and |x| / 10 + |y| <= 100.
    // By symmetry it is 8 triangles with corners (0, 0), (100, 0), (100 / 1.1, 100 / 1.1): area 8 * 100 * 90.909 / 2.
    let a = [(-100, 0), (0, -1000), (100, 0), (0, 1000)];
    let b = [(-1000, 0), (0, -100), (1000, 0), (0, 100)];
    for found in both_ways(&a, &b) {
        assert!((found.area as f64 - 8.0 * 100.0 * (100.0 / 1.1) / 2.0).abs() <= 4.0, "{found:?}");
        assert!((90..=182).contains(&found.depth), "{found:?}");
    }
}

proptest! {
    /// Two outlines on either side of any zigzag share nothing, exactly; moved into each other by any amount they do.
    #[test]
    fn a_common_border_is_no_overlap(steps in prop::collection::vec((1i64..1_000_000, -900_000i64..900_000), 1..12), dx in 1i64..1000) {
        let mut border = vec![(0, 0)];
        for (x, y) in steps {
            let (last, _) = border[border.len() - 1];
            border.push((last + x, y));
        }
        let end = border[border.len() - 1].0;
        let (mut above, mut below) = (border.clone(), border.clone());
        above.extend([(end, 2_000_000), (0, 2_000_000)]);
        below.reverse();
        below.extend([(0, -2_000_000), (end, -2_000_000)]);
        prop_assert_eq!(both_ways(&above, &below), [Common::default(); 2]);
        for upright in [false, true] {
            let (a, b) = (strips(&above, upright), strips(&below, upright));
            // Along the strips' lines upwards the upper one is free, downwards it is not.
            if !upright {
                prop_assert!(!runs_into(&a, &b, true));
                prop_assert!(runs_into(&a, &b, false));
            }
        }
        let sunk: Vec<(i64, i64)> = above.iter().map(|&(x, y)| (x, y - dx)).collect();
        for found in both_ways(&sunk, &below) {
            prop_assert!(found.area >= i128::from(dx) * i128::from(end) - 4 * border.len() as i128, "{:?}", found);
            prop_assert!(found.area <= i128::from(dx) * i128::from(end) + 40 * border.len() as i128, "{:?}", found);
            prop_assert!(found.depth >= 1);
        }
    }
}

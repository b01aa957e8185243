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

/// Points around a middle, each seen from it without anything between: the outline is the triangles from the middle to its edges.
fn star() -> impl Strategy<Value = ((i64, i64), Vec<(i64, i64)>)> {
    let spokes = prop::collection::vec((0.05f64..0.95, 0.15f64..1.0), 4..14);
    ((-40_000_000i64..40_000_000, -40_000_000i64..40_000_000), 1_000.0f64..60_000_000.0, spokes).prop_map(|((x, y), reach, spokes)| {
        let turn = |k: usize, part: f64| (k as f64 + part) / spokes.len() as f64 * core::f64::consts::TAU;
        let at = |(k, &(part, far)): (usize, &(f64, f64))| {
            let (sin, cos) = turn(k, part).sin_cos();
            (x + (cos * far * reach).round() as i64, y + (sin * far * reach).round() as i64)
        };
        let points = spokes.iter().enumerate().map(at).collect();
        ((x, y), points)
    })
}

type Flat = (f64, f64);

fn side((ax, ay): Flat, (bx, by): Flat, (x, y): Flat) -> f64 {
    (bx - ax) * (y - ay) - (by - ay) * (x - ax)
}

/// A convex piece cut down to what lies left of every edge of a triangle, one edge after the other (Sutherland and Hodgman 1974).
fn clipped(mut piece: Vec<Flat>, triangle: [Flat; 3]) -> Vec<Flat> {
    for k in 0..3 {
        let (a, b) = (triangle[k], triangle[(k + 1) % 3]);
        let mut rest = Vec::new();
        for (i, &p) in piece.iter().enumerate() {
            let q = piece[(i + 1) % piece.len()];
            let (s, t) = (side(a, b, p), side(a, b, q));
            if s >= 0.0 {
                rest.push(p);
            }
            if (s > 0.0 && t < 0.0) || (s < 0.0 && t > 0.0) {
                let part = s / (s - t);
                rest.push((p.0 + (q.0 - p.0) * part, p.1 + (q.1 - p.1) * part));
            }
        }
        piece = rest;
    }
    piece
}

fn area(piece: &[Flat]) -> f64 {
    let cross = |k: usize| side(piece[0], piece[k], piece[k + 1]);
    if piece.len() < 3 { 0.0 } else { (1..piece.len() - 1).map(cross).sum::<f64>() / 2.0 }
}

fn triangles((middle, points): &((i64, i64), Vec<(i64, i64)>)) -> Vec<[Flat; 3]> {
    let flat = |&(x, y): &(i64, i64)| (x as f64, y as f64);
    (0..points.len()).map(|k| [flat(middle), flat(&points[k]), flat(&points[(k + 1) % points.len()])]).collect()
}

/// Where an outline begins and ends on the line at `x`.
fn ends(points: &[(i64, i64)], x: f64) -> Option<(f64, f64)> {
    let edges = (0..points.len()).map(|k| (points[k], points[(k + 1) % points.len()]));
    let on_line = edges.map(|((ax, ay), (bx, by))| (ax as f64, ay as f64, bx as f64, by as f64)).filter(|(ax, _, bx, _)| (*ax <= x) != (*bx <= x));
    let heights: Vec<f64> = on_line.map(|(ax, ay, bx, by)| ay + (by - ay) * ((x - ax) / (bx - ax))).collect();
    heights.iter().copied().reduce(f64::min).zip(heights.iter().copied().reduce(f64::max))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// By another route: every triangle of the one clipped by every triangle of the other.
    #[test]
    fn common_areas_are_those_of_clipped_triangles(a in star(), b in star()) {
        let pairs = triangles(&a).into_iter().flat_map(|one| triangles(&b).into_iter().map(move |other| (one, other)));
        let slow: f64 = pairs.map(|(one, other)| area(&clipped(one.to_vec(), other))).sum();
        for found in both_ways(&a.1, &b.1) {
            // Each cell is rounded up to a whole square nanometre.
            let cells = (4 * a.1.len() * b.1.len()) as f64;
            prop_assert!((found.area as f64 - slow).abs() <= cells + 1e-9 * slow, "{:?} {}", found, slow);
            prop_assert_eq!(found.area == 0, found.depth == 0);
        }
    }

    /// By another route: on a line beside every corner, how far the one's highest point lies above the other's lowest.
    #[test]
    fn what_runs_into_what_on_single_lines(a in star(), b in star()) {
        let mut places: Vec<i64> = a.1.iter().chain(&b.1).map(|p| p.0).collect();
        places.sort_unstable();
        places.dedup();
        let beside = places.windows(2).flat_map(|pair| [1e-6, 1.0 - 1e-6].map(|part| pair[0] as f64 + part * (pair[1] - pair[0]) as f64));
        let (mut up, mut down) = (f64::NEG_INFINITY, f64::NEG_INFINITY);
        for x in beside {
            if let (Some((a_low, a_high)), Some((b_low, b_high))) = (ends(&a.1, x), ends(&b.1, x)) {
                up = up.max(b_high - a_low);
                down = down.max(a_high - b_low);
            }
        }
        let (one, other) = (strips(&a.1, false), strips(&b.1, false));
        for (upwards, most) in [(true, up), (false, down)] {
            // Too near to tell with floats: within a millionth of the longest edge.
            if most.abs() > 200.0 {
                prop_assert_eq!(runs_into(&one, &other, upwards), most > 0.0, "{} {}", upwards, most);
            }
        }
    }
}

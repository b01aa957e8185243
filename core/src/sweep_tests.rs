use super::*;
use crate::shape::Shape;

fn thinnest(shape: &Shape) -> Result<Option<Thin>, Point> {
    super::thinnest(&Edges::of(shape, (0, 0)))
}
use proptest::prelude::*;

fn shape(loops: &[&[(i64, i64)]]) -> Shape {
    Shape::from_loops(loops.iter().map(|ring| ring.iter().map(|&(x, y)| Point::raw(x, y))))
}

#[test]
fn a_rectangle_is_as_thin_as_its_shorter_side() {
    let thin = thinnest(&shape(&[&[(0, 0), (60, 0), (60, 40), (0, 40)]])).unwrap().unwrap();
    assert_eq!(thin.width, 40);
}

#[test]
fn the_web_between_a_hole_and_the_edge_counts() {
    let plate: &[(i64, i64)] = &[(0, 0), (60, 0), (60, 40), (0, 40)];
    let hole: &[(i64, i64)] = &[(10, 33), (10, 37), (50, 37), (50, 33)];
    assert_eq!(thinnest(&shape(&[plate, hole])).unwrap().unwrap().width, 3);
}

#[test]
fn two_slots_corner_to_corner_leave_a_diagonal_web() {
    // 3-4-5 between the inner corners, on both diagonals.
    let plate: &[(i64, i64)] = &[(0, 0), (100, 0), (100, 100), (0, 100)];
    let a: &[(i64, i64)] = &[(20, 20), (20, 40), (40, 40), (40, 20)];
    let b: &[(i64, i64)] = &[(43, 44), (43, 64), (63, 64), (63, 44)];
    assert_eq!(thinnest(&shape(&[plate, a, b])).unwrap().unwrap().width, 5);
    let c: &[(i64, i64)] = &[(43, 0), (43, 16), (63, 16), (63, 0)];
    let d: &[(i64, i64)] = &[(43, 1), (43, 16), (63, 16), (63, 1)];
    assert_eq!(thinnest(&shape(&[plate, a, d])).unwrap().unwrap().width, 1);
    assert!(thinnest(&shape(&[plate, a, c])).is_err(), "a hole on the edge touches it");
}

#[test]
fn corners_right_above_or_beside_each_other_leave_a_web() {
    let plate: &[(i64, i64)] = &[(0, 0), (100, 0), (100, 100), (0, 100)];
    let a: &[(i64, i64)] = &[(20, 20), (20, 40), (40, 40), (40, 20)];
    let width = |b: &[(i64, i64)]| thinnest(&shape(&[plate, a, b])).unwrap().unwrap().width;
    assert_eq!(width(&[(40, 47), (40, 67), (60, 67), (60, 47)]), 7);
    assert_eq!(width(&[(47, 40), (47, 60), (67, 60), (67, 40)]), 7);
    assert_eq!(width(&[(47, 10), (47, 20), (67, 20), (67, 10)]), 7);
    assert_eq!(width(&[(40, 40), (40, 60), (60, 60), (60, 40)]), 0, "they meet in a point");
}

/// Seen from each side: the sweeps may differ, but each must find it.
#[test]
fn notches_through_the_board_and_slots_of_no_width_are_found() {
    let through: &[(i64, i64)] = &[(0, 0), (30, 0), (30, 100), (0, 100), (0, 80), (33, 80), (33, 60), (0, 60)];
    let folded: &[(i64, i64)] = &[(0, 0), (40, 0), (40, 10), (20, 10), (20, 40), (40, 40), (40, 50), (0, 50), (0, 30), (20, 30), (20, 20), (0, 20)];
    type View = fn((i64, i64)) -> (i64, i64);
    let turns: [View; 4] = [|(x, y)| (x, y), |(x, y)| (-y, x), |(x, y)| (-x, -y), |(x, y)| (y, -x)];
    for ring in [through, folded] {
        for turn in turns {
            let turned: Vec<(i64, i64)> = ring.iter().copied().map(turn).collect();
            let edges = Edges::of(&shape(&[&turned]), (0, 0));
            assert!(uncrossed(&edges).is_err(), "{turned:?}");
            assert!(super::thinnest(&edges).is_err(), "{turned:?}");
        }
    }
    let edges = Edges::of(&shape(&[through]), (0, 0));
    assert!(sweep(&edges.level).is_err() && sweep(&edges.upright).is_err(), "either sweep tells of a crossing");
}

#[test]
fn crossing_edges_are_found() {
    assert!(thinnest(&shape(&[&[(0, 0), (60, 0), (60, 40), (0, 40)], &[(50, 10), (50, 20), (70, 20), (70, 10)]])).is_err());
    assert!(thinnest(&shape(&[&[(0, 0), (0, 40), (60, 40), (60, 0)]])).is_err(), "a lone clockwise loop encloses nothing");
    let a: &[(i64, i64)] = &[(10, 10), (10, 30), (30, 30), (30, 10)];
    let b: &[(i64, i64)] = &[(20, 20), (20, 35), (40, 35), (40, 20)];
    assert!(thinnest(&shape(&[&[(0, 0), (60, 0), (60, 40), (0, 40)], a, b])).is_err(), "two holes that overlap");
}

proptest! {
    /// Against the slow way: every pair of parallel edges that see each other, on combs.
    #[test]
    fn combs_by_hand(widths in prop::collection::vec((1i64..50, 1i64..50), 1..30), height in 20i64..90, back in 1i64..60) {
        // A comb: teeth of given widths and gaps on a back.
        let mut points = std::vec![(0, -back)];
        let total: i64 = widths.iter().map(|(tooth, gap)| tooth + gap).sum::<i64>() - widths.last().unwrap().1;
        points.push((total, -back));
        let mut x = total;
        for (i, (tooth, gap)) in widths.iter().rev().enumerate() {
            if i > 0 {
                x -= gap;
                points.extend([(x + gap, 0), (x, 0)]);
            }
            points.extend([(x, height), (x - tooth, height)]);
            x -= tooth;
        }
        let found = thinnest(&shape(&[&points])).unwrap().unwrap().width;
        let teeth = widths.iter().map(|w| w.0).min().unwrap();
        let expected = if widths.len() == 1 { teeth.min(height + back) } else { teeth.min(back).min(height + back) };
        prop_assert_eq!(found, expected);
    }
}

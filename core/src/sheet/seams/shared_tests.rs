use std::vec::Vec;

use proptest::prelude::*;

use super::Lines;
use crate::{Nm, Placement, Point, Shape};

fn shared_length(a: &Shape, b: &Shape) -> i64 {
    Lines::of(a).shared(&Lines::of(b), [0, 0])
}

fn shape(points: &[(i64, i64)]) -> Shape {
    Shape::from_loops([points.iter().map(|&(x, y)| Point::raw(x, y))])
}

fn moved(shape: &Shape, x: i64, y: i64) -> Shape {
    let (lo, _) = shape.bounds();
    Placement { at: Point::new(lo.x + Nm::raw(x), lo.y + Nm::raw(y)), ..Placement::default() }.place(shape)
}

#[test]
fn what_two_plates_share() {
    let plate = shape(&[(0, 0), (30, 0), (30, 10), (0, 10)]);
    let at = |x, y| shared_length(&plate, &moved(&plate, x, y));
    assert_eq!([at(30, 0), at(0, 10), at(-30, 0), at(0, -10)], [10, 30, 10, 30]);
    // Part of an edge, only a corner, nothing, one upon the other.
    assert_eq!([at(30, 4), at(-7, 10), at(30, 10), at(31, 0), at(0, 0), at(5, 0)], [6, 23, 0, 0, 0, 0]);
}

#[test]
fn fingers_in_notches() {
    // Two fingers, and their counterpart: along the seam 3 + 4 + 3 + 4 + 3, and four flanks of 2.
    let fingers = shape(&[(0, 0), (17, 0), (17, 5), (14, 5), (14, 3), (10, 3), (10, 5), (7, 5), (7, 3), (3, 3), (3, 5), (0, 5)]);
    let counter = shape(&[(3, 0), (7, 0), (7, 2), (10, 2), (10, 0), (14, 0), (14, 2), (17, 2), (17, 6), (0, 6), (0, 2), (3, 2)]);
    assert_eq!(shared_length(&fingers, &moved(&counter, 0, 3)), 17 + 4 * 2);
    assert_eq!(shared_length(&moved(&counter, 0, 3), &fingers), 17 + 4 * 2);
    // One finger's pitch aside: the tips and notches of one and a half pitches, two flanks, and an end against the next tongue.
    assert_eq!(shared_length(&fingers, &moved(&counter, 7, 3)), 3 + 4 + 3 + 3 * 2);
}

#[test]
fn slanted_edges_share_whole_steps() {
    // 300 : 100 and a side of 4 : 3, so that the lengths are whole.
    let wedge = shape(&[(0, 0), (40, 0), (40, 30)]);
    let other = shape(&[(0, 0), (40, 30), (0, 30)]);
    assert_eq!(shared_length(&wedge, &other), 50);
    assert_eq!(shared_length(&wedge, &moved(&other, 12, 9)), 35);
    assert_eq!(shared_length(&wedge, &moved(&other, 12, 10)), 0);
    // Rounded down: the root of 2 * 7 * 7 is 9.9.
    let (half, rest) = (shape(&[(0, 0), (7, 0), (7, 7)]), shape(&[(0, 0), (7, 7), (0, 7)]));
    assert_eq!(shared_length(&half, &rest), 9);
}

#[test]
fn holes_share_and_arcs_do_not() {
    let frame =
        Shape::from_loops([[(0, 0), (9, 0), (9, 9), (0, 9)], [(2, 2), (2, 6), (6, 6), (6, 2)]].map(|ring| ring.map(|(x, y)| Point::raw(x, y))));
    let plug = shape(&[(2, 2), (6, 2), (6, 6), (2, 6)]);
    assert_eq!(shared_length(&frame, &plug), 16);
    // Its upper edge an arc instead: the chord is no edge.
    let (from, to) = (Point::raw(60, 60), Point::raw(20, 60));
    let dented = Shape::from_bent_loops([[(Point::raw(20, 20), None), (Point::raw(60, 20), None), (from, Some(Point::raw(40, 80))), (to, None)]]);
    let beam = shape(&[(0, 60), (90, 60), (90, 90), (0, 90)]);
    assert_eq!(shared_length(&dented, &beam), 0);
    assert_eq!(shared_length(&dented, &shape(&[(0, 0), (90, 0), (90, 20), (0, 20)])), 40);
}

/// An outline of unit cells: columns of some height upon a common base, so that it is one loop.
fn skyline(heights: &[i64]) -> Shape {
    let width = heights.len() as i64;
    let mut points = Vec::from([(0, 0), (width, 0)]);
    for (x, &height) in heights.iter().enumerate().rev() {
        points.extend([(x as i64 + 1, height), (x as i64, height)]);
    }
    shape(&points)
}

/// The unit edges of an outline, each with its way.
fn units(shape: &Shape) -> Vec<[i64; 4]> {
    let unit = |(a, b): (Point, Point)| {
        let (dx, dy) = ((b.x - a.x).nm(), (b.y - a.y).nm());
        (0..dx.abs() + dy.abs()).map(move |i| [a.x.nm() + i * dx.signum(), a.y.nm() + i * dy.signum(), dx.signum(), dy.signum()])
    };
    shape.edges().flat_map(unit).collect()
}

proptest! {
    /// Against the slow count, unit edge by unit edge.
    #[test]
    fn as_many_as_unit_edges(a in prop::collection::vec(1i64..6, 1..9), b in prop::collection::vec(1i64..6, 1..9), x in -9i64..10, y in -7i64..8, turns in 0u8..4) {
        let a = skyline(&a);
        let b = Placement { at: Point::raw(x, y), quarter_turns: turns, ..Placement::default() }.place(&skyline(&b));
        let against = |[x, y, dx, dy]: [i64; 4]| [x + dx, y + dy, -dx, -dy];
        let others = units(&b);
        let slow = units(&a).into_iter().filter(|&unit| others.contains(&against(unit))).count() as i64;
        prop_assert_eq!(shared_length(&a, &b), slow);
        prop_assert_eq!(shared_length(&b, &a), slow);
        // The same seven times as large, so that lines are longer than their steps.
        let large = |shape: &Shape| Shape::from_loops(shape.loops().map(|ring| ring.iter().map(|v| Point::raw(7 * v.at.x.nm(), 7 * v.at.y.nm())).collect::<Vec<_>>()));
        prop_assert_eq!(shared_length(&large(&a), &large(&b)), 7 * slow);
    }
}

#[test]
fn the_widest_gap_beside_the_longest_steps() {
    // Two slanted edges that face each other, a few nanometres apart, ten metres long and of steps with no common divisor.
    let far = 10_000_000_000;
    let lower = Lines::of(&shape(&[(0, 0), (far, 0), (far, far - 1)]));
    let upper = Lines::of(&shape(&[(0, 10), (far, far + 9), (0, far)]));
    for gap in [1_000, far] {
        assert!(lower.crowds(&upper, [0, 0], gap) && upper.crowds(&lower, [0, 0], gap));
    }
    assert!(!lower.crowds(&upper, [0, 0], 5));
}

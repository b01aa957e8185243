use std::vec::Vec;

use proptest::prelude::*;

use super::{Contour, Entry};
use crate::joint::{Role, Vertex};
use crate::{LineKind, Point, Shape};

const MM: i64 = 1_000_000;

fn at(x: i64, y: i64) -> Point {
    Point::raw(x * MM, y * MM)
}

fn free(points: &[(Point, Option<Point>)]) -> Vec<(Vertex, Option<Point>)> {
    points.iter().map(|&(at, centre)| (Vertex { at, role: Role::Free }, centre)).collect()
}

/// A slot 20 mm long from centre to centre and 6 mm wide with round ends, clockwise.
fn slot() -> Contour {
    let (left, right) = (Some(at(20, 20)), Some(at(40, 20)));
    Contour::closed(LineKind::CutInner, free(&[(at(20, 17), left), (at(20, 23), None), (at(40, 23), right), (at(40, 17), None)]))
}

#[test]
fn a_slot_with_round_ends_has_no_corner() {
    let slot = slot();
    assert_eq!(slot.corners(), 0);
    assert_eq!(slot.length(), 40 * MM + 2 * 9_424_778); // 2 pi r
    assert_eq!(slot.bounds(), Some((at(17, 17), at(43, 23))));
    assert!(slot.twice_area() < 0);
}

#[test]
fn lengths_are_those_of_shapes() {
    let slot = slot();
    let shape = Shape::from_bent_loops([slot.points.iter().map(|(vertex, centre)| (vertex.at, *centre))]);
    assert_eq!(shape.length(), slot.length());
}

#[test]
fn points_along_a_straight_edge_are_no_corners() {
    let points = free(&[at(0, 0), at(5, 0), at(10, 0), at(10, 0), at(10, 10), at(0, 10)].map(|at| (at, None)));
    assert_eq!(Contour::closed(LineKind::CutOuter, points.clone()).corners(), 4);
    assert_eq!(Contour::open(LineKind::CutOuter, points).corners(), 2);
    // There and back turns at both ends.
    assert_eq!(Contour::closed(LineKind::Mark, free(&[(at(0, 0), None), (at(5, 0), None)])).corners(), 2);
}

#[test]
fn lines_of_less_than_two_points_have_nothing() {
    for count in 0..2 {
        let points = &free(&[(at(3, 4), None)])[..count];
        for contour in [Contour::open(LineKind::Mark, points.to_vec()), Contour::closed(LineKind::Mark, points.to_vec())] {
            assert_eq!((contour.length(), contour.corners(), contour.twice_area()), (0, 0, 0));
            for entry in [Entry::Point(7), Entry::Middle(7)] {
                assert!([false, true].into_iter().flat_map(|reversed| contour.walk(entry, reversed)).all(|edge| edge.length() == 0));
            }
        }
    }
}

#[test]
fn reversed_arcs_are_counter_clockwise() {
    let moves: Vec<_> = slot().walk(Entry::Point(0), true).collect();
    assert_eq!((moves[0].from, moves[0].to, moves[0].centre), (at(20, 17), at(40, 17), None));
    assert_eq!((moves[1].to, moves[1].centre, moves[1].clockwise), (at(40, 23), Some(at(40, 20)), false));
}

proptest! {
    /// A walk is one chain of moves over the whole line, wherever it begins.
    #[test]
    fn walks_are_whole(points in prop::collection::vec((-50i64..50, -50i64..50), 1..12), number in 0usize..12,
                       middle: bool, reversed: bool, closed: bool) {
        let points: Vec<_> = points.into_iter().map(|(x, y)| (Point::raw(x, y), None)).collect();
        let number = number % points.len();
        let contour = if closed { Contour::closed(LineKind::Mark, free(&points)) } else { Contour::open(LineKind::Mark, free(&points)) };
        let entry = if middle { Entry::Middle(number) } else { Entry::Point(number) };
        let moves: Vec<_> = contour.walk(entry, reversed).collect();
        prop_assert!(moves.windows(2).all(|pair| pair[0].to == pair[1].from));
        prop_assert_eq!(moves.len(), contour.edge_count() + usize::from(middle && closed));
        if closed {
            prop_assert_eq!(Some(moves[0].from), contour.entry_point(entry));
            prop_assert_eq!(moves[0].from, moves[moves.len() - 1].to);
        }
        // Every edge once, whole or in two halves.
        let mut walked: Vec<_> = moves.iter().map(|edge| if reversed { edge.reversed() } else { *edge }).collect();
        let mut edges: Vec<_> = contour.edges().collect();
        if middle && closed {
            let split = edges.remove(number);
            let halves = [walked.remove(0), walked.pop().unwrap()];
            let (before, beyond) = if reversed { (halves[0], halves[1]) } else { (halves[1], halves[0]) };
            prop_assert_eq!((before.from, before.to, beyond.to), (split.from, beyond.from, split.to));
        }
        walked.sort_by_key(|edge| (edge.from, edge.to));
        edges.sort_by_key(|edge| (edge.from, edge.to));
        prop_assert_eq!(walked, edges);
    }
}

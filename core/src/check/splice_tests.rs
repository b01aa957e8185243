use crate::{Assembly, Axis, Board, Nm, Point, Report, Shape, dry_fit_shapes};
use std::vec::Vec;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

/// The dry fit of boards across z or y, given by their normal, lowest corner and size, and their outlines; lengths in millimetres.
fn judged(boards: &[(Axis, [f64; 3], [f64; 2])], outlines: &[&[&[(f64, f64)]]]) -> Report {
    // Each out of an assembly of its own, which cannot refuse where it stands.
    let of = |(number, &(normal, at, size)): (usize, &(Axis, [f64; 3], [f64; 2]))| {
        let mut alone = Assembly::new();
        alone.add(["one", "two", "three"][number], normal, at.map(mm), size.map(mm), mm(3.0)).unwrap();
        alone.boards()[0].clone()
    };
    let boards: Vec<Board> = boards.iter().enumerate().map(of).collect();
    let points = |ring: &&[(f64, f64)]| ring.iter().map(|&(x, y)| Point::new(mm(x), mm(y))).collect::<Vec<_>>();
    let shapes: Vec<Shape> = outlines.iter().map(|rings| Shape::from_loops(rings.iter().map(points))).collect();
    dry_fit_shapes(&boards.iter().collect::<Vec<_>>(), &shapes)
}

#[test]
fn boards_of_one_plane_that_overlap_at_their_corners_are_not_judged() {
    // Their common edge folds back on itself, so that the stairs beside it take in more than the holes lack.
    let one: [&[(f64, f64)]; 2] = [
        &[(0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (81.0, 95.0), (99.0, 85.0), (80.0, 100.0), (0.0, 100.0)],
        &[(20.0, 20.0), (20.0, 30.0), (30.0, 30.0), (30.0, 20.0)],
    ];
    let two: [&[(f64, f64)]; 2] = [
        &[(100.0, 0.0), (100.0, 100.0), (0.0, 100.0), (0.0, 20.0), (19.0, 5.0), (1.0, 15.0), (20.0, 0.0)],
        &[(60.0, 60.0), (60.0, 70.0), (70.0, 70.0), (70.0, 60.0)],
    ];
    let report = judged(&[(Axis::Z, [0.0; 3], [100.0; 2]), (Axis::Z, [80.0, 80.0, 0.0], [100.0; 2])], &[&one, &two]);
    assert_eq!(report.problems, ["boards \"one\" and \"two\": at: two boards in one plane overlap other than end to end: nothing was judged"]);
}

#[test]
fn a_third_board_that_ends_inside_a_splice_hides_no_void() {
    // Where the wall stops, nobody has the rest of the splice's depth: from x = 80 to 90.
    let wall = (Axis::Y, [90.0, 30.0, 0.0], [110.0, 40.0]);
    let (left, right) = ((Axis::Z, [0.0; 3], [100.0, 60.0]), (Axis::Z, [80.0, 0.0, 0.0], [120.0, 60.0]));
    let of_wall: [&[(f64, f64)]; 1] = [&[(0.0, 0.0), (10.0, 0.0), (10.0, 3.0), (110.0, 3.0), (110.0, 40.0), (0.0, 40.0)]];
    let of_left: [&[(f64, f64)]; 1] = [&[(0.0, 0.0), (100.0, 0.0), (100.0, 30.0), (80.0, 30.0), (80.0, 60.0), (0.0, 60.0)]];
    let of_right: [&[(f64, f64)]; 1] = [&[(20.0, 0.0), (120.0, 0.0), (120.0, 60.0), (0.0, 60.0), (0.0, 33.0), (20.0, 33.0)]];
    let report = judged(&[wall, left, right], &[&of_wall, &of_left, &of_right]);
    assert!(report.problems.iter().any(|said| said.contains("\"two\", \"three\" and \"one\": at: a third board")), "{:?}", report.problems);
}

#[test]
fn edges_that_lean_by_a_nanometre_beside_a_wall_are_counted_on_their_side() {
    let wall = (Axis::Y, [0.0, 30.0, 0.0], [200.0, 40.0]);
    let (left, right) = ((Axis::Z, [0.0; 3], [100.0, 60.0]), (Axis::Z, [80.0, 0.0, 0.0], [120.0, 60.0]));
    let near = 29.999_999;
    let of_wall: [&[(f64, f64)]; 1] = [&[(0.0, 0.0), (200.0, 0.0), (200.0, 40.0), (0.0, 40.0)]];
    let of_left: [&[(f64, f64)]; 2] =
        [&[(0.0, 0.0), (100.0, 0.0), (100.0, near), (80.0, 30.0), (0.0, 30.0)], &[(0.0, 33.0), (80.0, 33.0), (80.0, 60.0), (0.0, 60.0)]];
    let of_right: [&[(f64, f64)]; 2] =
        [&[(20.0, 0.0), (120.0, 0.0), (120.0, 30.0), (0.0, 30.0), (20.0, near)], &[(0.0, 33.0), (120.0, 33.0), (120.0, 60.0), (0.0, 60.0)]];
    let report = judged(&[left, right, wall], &[&of_left, &of_right, &of_wall]);
    assert_eq!((report.void_volume, report.overlap_volume), (0, 0), "{:?}", report.problems);
}

use std::collections::BTreeMap;
use std::vec::Vec;

use proptest::prelude::*;

use super::super::{Item, Placement, Sheet, Stock};
use crate::{Contour, LineKind, Nm, Point, Shape};

/// A sheet with the shapes where they are drawn, in nanometres.
fn sheet(shapes: &[Shape]) -> (Sheet, Vec<Item<'_>>) {
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("p", shape)).collect();
    let placed = |(part, shape): (usize, &Shape)| Placement { part, at: shape.bounds().0, ..Placement::default() };
    let stock = Stock::new(Nm::raw(1_000_000), [Nm::raw(1_000_000); 2], Nm::ZERO, Nm::ZERO).unwrap();
    (Sheet { stock, placements: shapes.iter().enumerate().map(placed).collect(), share_cuts: true }, items)
}

fn loops(loops: &[&[(i64, i64)]]) -> Shape {
    Shape::from_loops(loops.iter().map(|ring| ring.iter().map(|&(x, y)| Point::raw(x, y)).collect::<Vec<_>>()))
}

fn rectangle(x: i64, y: i64, w: i64, h: i64) -> Shape {
    loops(&[&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]])
}

fn points(line: &Contour) -> Vec<(i64, i64)> {
    line.points.iter().map(|(vertex, _)| (vertex.at.x.nm(), vertex.at.y.nm())).collect()
}

#[test]
fn two_plates_share_a_side() {
    let shapes = [rectangle(0, 0, 30, 10), rectangle(30, 4, 20, 10)];
    let (sheet, items) = sheet(&shapes);
    let lines = sheet.lines(&items).unwrap();
    let shown: Vec<_> = lines.iter().map(|line| (line.kind, line.part, line.closed, points(line))).collect();
    assert_eq!(
        shown,
        [
            (LineKind::CutOuter, Some(0), false, std::vec![(30, 10), (0, 10), (0, 0), (30, 0), (30, 4)]),
            (LineKind::CutOuter, Some(1), false, std::vec![(30, 4), (50, 4), (50, 14), (30, 14), (30, 10)]),
            (LineKind::CutShared, None, false, std::vec![(30, 4), (30, 10)]),
        ]
    );
    assert_eq!((sheet.shared_length(&items), sheet.cut_length(&items)), (Ok(6), Ok(80 + 60 - 6)));
}

#[test]
fn a_part_that_is_shared_all_around_has_no_line_of_its_own() {
    let frame = loops(&[&[(0, 0), (30, 0), (30, 30), (0, 30)], &[(10, 10), (10, 20), (20, 20), (20, 10)]]);
    let shapes = [frame, rectangle(10, 10, 10, 10)];
    let (sheet, items) = sheet(&shapes);
    let lines = sheet.lines(&items).unwrap();
    let kinds: Vec<_> = lines.iter().map(|line| (line.kind, line.closed, points(line).len())).collect();
    assert_eq!(kinds, [(LineKind::CutOuter, true, 4), (LineKind::CutShared, false, 5)]);
}

#[test]
fn the_way_into_a_relief_and_back_is_one_part_s_own() {
    // The path of a bit as wide as the relief: from the corner along the diagonal to its centre and back.
    let relieved = loops(&[&[(0, 0), (30, 0), (30, 30), (20, 30), (20, 20), (25, 15), (20, 20), (0, 20)]]);
    let shapes = [relieved];
    let (sheet, items) = sheet(&shapes);
    let lines = sheet.lines(&items).unwrap();
    assert_eq!((lines.len(), lines[0].closed, lines[0].points.len()), (1, true, 8));
    assert_eq!((sheet.shared_length(&items), sheet.cut_length(&items)), (Ok(0), Ok(lines[0].length())));
}

#[test]
fn straight_lines_go_on_over_crossings() {
    let shapes: Vec<Shape> = (0..6).map(|n| rectangle(n % 3 * 10, n / 3 * 10, 10, 10)).collect();
    let (sheet, items) = sheet(&shapes);
    let lines = sheet.lines(&items).unwrap();
    let mut shared: Vec<_> = lines.iter().filter(|line| line.kind == LineKind::CutShared).map(points).collect();
    shared.sort();
    assert_eq!(shared, [[(0, 10), (30, 10)], [(10, 0), (10, 20)], [(20, 0), (20, 20)]]);
    assert_eq!(sheet.cut_length(&items), Ok(6 * 40 - 70));
}

#[test]
fn slanted_edges_are_shared_too() {
    let shapes = [loops(&[&[(0, 0), (40, 0), (40, 30)]]), loops(&[&[(4, 3), (40, 30), (4, 30)]])];
    let (sheet, items) = sheet(&shapes);
    let lines = sheet.lines(&items).unwrap();
    let shared: Vec<_> = lines.iter().filter(|line| line.kind == LineKind::CutShared).map(points).collect();
    assert_eq!(shared, [[(4, 3), (40, 30)]]);
    assert_eq!(sheet.shared_length(&items), Ok(45));
    assert_eq!([points(&lines[0]).len(), points(&lines[1]).len()], [4, 3]);
}

/// How often each unit edge is covered, whichever way.
fn units<'a>(edges: impl Iterator<Item = (Point, Point)> + 'a) -> BTreeMap<[(i64, i64); 2], usize> {
    let mut count = BTreeMap::new();
    for (a, b) in edges {
        let (mut x, mut y) = (a.x.nm(), a.y.nm());
        let (dx, dy) = ((b.x.nm() - x).signum(), (b.y.nm() - y).signum());
        while (x, y) != (b.x.nm(), b.y.nm()) {
            let mut ends = [(x, y), (x + dx, y + dy)];
            ends.sort_unstable();
            *count.entry(ends).or_insert(0) += 1;
            (x, y) = (x + dx, y + dy);
        }
    }
    count
}

proptest! {
    #[test]
    fn every_unit_of_every_edge_lies_on_one_line(wanted in prop::collection::vec((0i64..12, 0i64..12, 1i64..7, 1i64..7), 1..14)) {
        // Those that overlap none before them stay.
        let mut kept: Vec<(i64, i64, i64, i64)> = Vec::new();
        for (x, y, w, h) in wanted {
            if kept.iter().all(|&(a, b, c, d)| x + w <= a || a + c <= x || y + h <= b || b + d <= y) {
                kept.push((x, y, w, h));
            }
        }
        let shapes: Vec<Shape> = kept.iter().map(|&(x, y, w, h)| rectangle(x, y, w, h)).collect();
        let (sheet, items) = sheet(&shapes);
        let lines = sheet.lines(&items).unwrap();
        let outlines = units(shapes.iter().flat_map(|shape| shape.edges()));
        let cut = units(lines.iter().flat_map(|line| line.edges().map(|edge| (edge.from, edge.to)).collect::<Vec<_>>()));
        prop_assert!(cut.values().all(|&times| times == 1));
        prop_assert!(cut.keys().eq(outlines.keys()));
        let shared = outlines.values().filter(|&&times| times == 2).count() as i64;
        prop_assert_eq!(sheet.shared_length(&items), Ok(shared));
        prop_assert_eq!(sheet.cut_length(&items), Ok(cut.len() as i64));
        let marked = units(lines.iter().filter(|line| line.kind == LineKind::CutShared).flat_map(|line| line.edges().map(|edge| (edge.from, edge.to)).collect::<Vec<_>>()));
        prop_assert!(marked.keys().all(|unit| outlines[unit] == 2) && marked.len() as i64 == shared);
    }
}

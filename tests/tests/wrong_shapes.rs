//! The dry fit of outlines that do not fit, against brute force: space cut into cells, each cell counted by hand.

use dryfit_core::{Axis, Board, Cutter, Fit, Nm, Panel, Parts, Point, Shape, dry_fit, dry_fit_parts, dry_fit_shapes};
use dryfit_tests::{Scene, config, inside, nm, scenes};
use proptest::prelude::*;
use proptest::sample::Index;

const STEP: i64 = 999_983;

/// Volumes in cubic nanometres: claimed by each further board of a cell, and inside slabs but claimed by none.
#[derive(Debug, PartialEq, Eq)]
struct Counted {
    overlap: i128,
    void: i128,
}

fn cuts(boards: &[Board], shapes: &[Shape], axis: Axis) -> Vec<i64> {
    let mut cuts = Vec::new();
    for (board, shape) in boards.iter().zip(shapes) {
        cuts.extend([board.lo(axis), board.hi(axis)]);
        if axis != board.normal() {
            let (u, _) = board.normal().plane();
            cuts.extend(shape.vertices().iter().map(|v| board.lo(axis) + if axis == u { v.at.x.nm() } else { v.at.y.nm() }));
        }
    }
    cuts.sort_unstable();
    cuts.dedup();
    cuts
}

fn counted(boards: &[Board], shapes: &[Shape]) -> Counted {
    let [xs, ys, zs] = Axis::ALL.map(|axis| cuts(boards, shapes, axis));
    let mut sum = Counted { overlap: 0, void: 0 };
    for x in xs.windows(2) {
        for y in ys.windows(2) {
            for z in zs.windows(2) {
                let volume: i128 = [x, y, z].iter().map(|c| i128::from(c[1] - c[0])).product();
                let middle = [x[0] + x[1], y[0] + y[1], z[0] + z[1]];
                let slab = |board: &Board| Axis::ALL.iter().zip(middle).all(|(&k, c)| 2 * board.lo(k) < c && c < 2 * board.hi(k));
                let claims = boards.iter().zip(shapes).filter(|(board, shape)| inside(board, shape, middle)).count() as i128;
                // Two boards share one volume, three share three in pairs.
                sum.overlap += volume * (claims * (claims - 1) / 2);
                sum.void += if claims == 0 && boards.iter().any(slab) { volume } else { 0 };
            }
        }
    }
    sum
}

/// Up to four boards: the cells are many.
fn few(scene: Scene) -> Scene {
    let mut slabs = scene.slabs;
    slabs.truncate(4);
    Scene { slabs, joints: Vec::new() }
}

fn panels(scene: &Scene) -> Option<Vec<Panel>> {
    scene.assembly().and_then(|assembly| assembly.panels()).ok()
}

/// One edge moved at right angles to itself.
fn with_moved_edge(shape: &Shape, ring: Index, edge: Index, by: i64) -> Option<Shape> {
    let mut rings: Vec<Vec<Point>> = shape.loops().map(|ring| ring.iter().map(|v| v.at).collect()).collect();
    let count = rings.len();
    let ring = rings.get_mut(ring.index(count.max(1)))?;
    let (i, j) = (edge.index(ring.len()), (edge.index(ring.len()) + 1) % ring.len());
    let upright = ring[i].x == ring[j].x;
    for k in [i, j] {
        let Point { x, y } = ring[k];
        ring[k] = if upright { Point::new(nm(x.nm() + by), y) } else { Point::new(x, nm(y.nm() + by)) };
    }
    Some(Shape::from_loops(rings))
}

proptest! {
    #![proptest_config(config(200))]

    #[test]
    fn one_moved_edge_is_found(scene in scenes(STEP).prop_map(few), which: Index, ring: Index, edge: Index, by in prop_oneof![-900_000..=-1i64, 1..=900_000i64]) {
        let made = panels(&scene);
        prop_assume!(made.is_some());
        let panels = made.expect("just asked");
        let boards: Vec<Board> = panels.iter().map(|panel| panel.board().clone()).collect();
        let mut shapes: Vec<Shape> = panels.iter().map(|panel| panel.shape().clone()).collect();
        let right = dry_fit(&panels);
        prop_assert_eq!((right.overlap_volume, right.void_volume), (0, 0));
        prop_assert_eq!(counted(&boards, &shapes), Counted { overlap: 0, void: 0 });

        let number = which.index(shapes.len());
        let moved = with_moved_edge(&shapes[number], ring, edge, by);
        prop_assume!(moved.is_some());
        shapes[number] = moved.expect("just asked");
        let report = dry_fit_shapes(&boards.iter().collect::<Vec<_>>(), &shapes);
        prop_assume!(!report.problems.iter().any(|problem| problem.contains("edges cross")));
        let counted = counted(&boards, &shapes);
        prop_assert_eq!((report.overlap_volume, report.void_volume), (counted.overlap, counted.void));
        // A drawn panel may fall in two, or nearly, whatever is done to it.
        let fits = report.problems.iter().all(|problem| problem.contains("pieces") || problem.contains("no wider than a point"));
        prop_assert_eq!(fits, counted.overlap == 0 && counted.void == 0, "{:?}", report.problems);
    }

    #[test]
    fn parts_with_allowances_are_counted_right(
        scene in scenes(STEP).prop_map(few),
        (flank, cheek, tip) in (-300_000..300_000i64, -300_000..300_000i64, -300_000..300_000i64),
    ) {
        let made = panels(&scene);
        prop_assume!(made.is_some());
        let fit = Fit::new(nm(flank), nm(cheek), nm(tip)).expect("small allowances");
        let parts = Parts::cut(&made.expect("just asked"), Cutter::beam(nm(180_000)).expect("a beam"), fit, Nm::ZERO);
        prop_assume!(parts.is_ok());
        let parts = parts.expect("just asked");
        let boards: Vec<Board> = parts.iter().map(|part| part.board().expect("a panel").clone()).collect();
        let shapes: Vec<Shape> = parts.iter().map(|part| part.finished().clone()).collect();
        let (report, counted) = (dry_fit_parts(&parts), counted(&boards, &shapes));
        prop_assert_eq!(report.overlap_volume, counted.overlap);
        // An end that stands proud of its own slab may fill a gap in a slab that it has nothing to do with; the report leaves that out.
        if flank >= 0 && tip <= 0 {
            prop_assert_eq!(report.void_volume, counted.void);
        } else {
            prop_assert!(report.void_volume >= counted.void);
        }
    }
}

use std::format;
use std::string::{String, ToString};
use std::vec::Vec;

use proptest::prelude::*;

use super::{LayoutReport, TOLD};
use crate::bounds::OFFCUTS;
use crate::{BoxSpec, Cutter, Fit, Grain, Item, Layout, LayoutSpec, Nm, Parts, Placement, Point, Shape, Sheet, Stock};

const MM: i64 = 1_000_000;

fn mm(v: i64) -> Nm {
    Nm::raw(v * MM)
}

fn polygon(points: &[[i64; 2]]) -> Shape {
    Shape::from_loops([points.iter().map(|&[x, y]| Point::raw(x, y))])
}

fn rectangle(w: i64, h: i64) -> Shape {
    polygon(&[[0, 0], [w, 0], [w, h], [0, h]])
}

/// A frame: a square with a square hole in its middle.
fn frame(side: i64, hole: i64) -> Shape {
    let (a, b) = ((side - hole) / 2, (side + hole) / 2);
    let outer = [(0, 0), (side, 0), (side, side), (0, side)];
    Shape::from_loops([outer, [(a, a), (a, b), (b, b), (b, a)]].map(|ring| ring.map(|(x, y)| Point::raw(x, y))))
}

/// A sheet of 100 mm without border, whose parts keep a gap in nanometres.
fn sheet(gap: i64) -> Stock {
    Stock::new(mm(3), [mm(100), mm(100)], Nm::ZERO, Nm::raw(gap)).unwrap()
}

/// The report on shapes that lie where they are drawn on a sheet of shared cuts, named by their numbers.
fn report(shapes: &[Shape], stock: Stock) -> LayoutReport {
    report_of(shapes, stock, true)
}

fn report_of(shapes: &[Shape], stock: Stock, share_cuts: bool) -> LayoutReport {
    let names: Vec<String> = (0..shapes.len()).map(|number| number.to_string()).collect();
    let items: Vec<Item<'_>> = names.iter().zip(shapes).map(|(name, shape)| Item::new(name, shape)).collect();
    let place = |(part, shape): (usize, &Shape)| Placement { part, at: shape.bounds().0, ..Placement::default() };
    let sheet = Sheet { stock, placements: shapes.iter().enumerate().map(place).collect(), share_cuts };
    Layout { sheets: Vec::from([sheet]), unplaced: Vec::new() }.check(&items, &[stock])
}

fn moved(shape: &Shape, x: i64, y: i64) -> Shape {
    Placement { at: Point::raw(shape.bounds().0.x.nm() + x, shape.bounds().0.y.nm() + y), ..Placement::default() }.place(shape)
}

/// Whether the report says that two parts overlap; whether it says that they are too near.
fn told(report: &LayoutReport, a: usize, b: usize) -> [bool; 2] {
    let pair = format!("parts \"{a}\" and \"{b}\" ");
    ["overlap", "are"].map(|verb| report.problems.iter().any(|problem| problem.contains(&format!("{pair}{verb}"))))
}

/// A box's panels, laid out.
fn laid_out(check: impl Fn(&[Item<'_>], &Stock, Layout)) {
    let panels = BoxSpec::outside([mm(110), mm(85), mm(60)], mm(3)).assembly().unwrap().panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::beam(Nm::raw(181_001)).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    let stock = Stock::new(mm(3), [mm(350), mm(250)], mm(8), mm(1)).unwrap().sheets(1).unwrap();
    let items = Item::of(&parts);
    check(&items, &stock, LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true).unwrap());
}

#[test]
fn a_layout_as_it_is_made() {
    laid_out(|items, stock, layout| {
        let report = layout.check(items, &[*stock]);
        assert_eq!((report.problems.len(), report.gap_min, report.shared_length), (0, Some(mm(1)), 0), "{:?}", report.problems);
    });
}

#[test]
fn one_nanometre_over_the_border() {
    laid_out(|items, stock, mut layout| {
        // The path keeps 8 mm and half of 0.181001 mm, rounded up.
        let clear = 8 * MM + 90_501;
        let corner = layout.sheets[0].placements.iter().position(|p| p.at == Point::raw(clear, clear)).unwrap();
        let name = items[layout.sheets[0].placements[corner].part].name;
        layout.sheets[0].placements[corner].at = Point::raw(clear - 1, clear);
        assert_eq!(layout.check(items, &[*stock]).problems, [format!("sheet 1: part \"{name}\" reaches 0.000001 mm too far into the border")]);
    });
}

#[test]
fn one_nanometre_too_near() {
    laid_out(|items, stock, layout| {
        // Moved by a nanometre to some side, a part in the middle comes too near to some other.
        let mut near = 0;
        for index in 0..layout.sheets[0].placements.len() {
            let mut layout = layout.clone();
            let at = &mut layout.sheets[0].placements[index].at;
            *at = Point::raw(at.x.nm() - 1, at.y.nm());
            let report = layout.check(items, &[*stock]);
            near += report.problems.iter().filter(|problem| problem.contains("are 0.999999 mm apart")).count();
            assert!(report.problems.iter().all(|problem| problem.contains("apart") || problem.contains("border")), "{:?}", report.problems);
        }
        assert!(near > 0);
    });
}

#[test]
fn every_part_once() {
    laid_out(|items, stock, layout| {
        let problems = |change: &dyn Fn(&mut Layout)| {
            let mut layout = layout.clone();
            change(&mut layout);
            layout.check(items, &[*stock]).problems
        };
        let lost = layout.sheets[0].placements[2];
        let name = items[lost.part].name;
        assert_eq!(problems(&|l| _ = l.sheets[0].placements.remove(2)), [format!("part \"{name}\" is missing")]);
        assert_eq!(problems(&|l| l.unplaced.push(l.sheets[0].placements.remove(2).part)), [""; 0]);
        assert_eq!(problems(&|l| l.unplaced.push(lost.part)), [format!("part \"{name}\" is both laid out and unplaced")]);
        assert_eq!(problems(&|l| l.unplaced.push(9)), ["part 9 is unplaced, but there are only 6"]);
        assert_eq!(problems(&|l| l.sheets[0].placements.push(Placement { part: 6, ..lost })), ["part 6 is laid out, but there are only 6"]);
        let twice = problems(&|l| l.sheets[0].placements.push(lost));
        assert_eq!(twice.len(), 2, "{twice:?}");
        assert_eq!(twice[0], format!("part \"{name}\" is listed 2 times"));
        assert!(twice[1].contains("overlap"));
    });
}

#[test]
fn sheets_thicknesses_and_grain() {
    laid_out(|items, stock, layout| {
        let again = Layout { sheets: [layout.sheets.clone(), layout.sheets.clone()].concat(), ..Layout::default() };
        let problems = again.check(items, &[*stock]).problems;
        assert!(problems.contains(&String::from("sheet 2: the stocks have only 1 of its kind")), "{problems:?}");
        assert_eq!(again.check(items, &[*stock, *stock]).problems.len(), 6); // each part twice, nothing else
        let thinner = Stock::new(mm(2), [mm(350), mm(250)], mm(8), mm(1)).unwrap();
        assert_eq!(layout.check(items, &[thinner]).problems, ["sheet 1: it is none of the stocks"]);
        let mut other = layout.clone();
        other.sheets[0].stock = thinner;
        assert_eq!(other.check(items, &[thinner]).problems.len(), 6);
        assert_eq!(other.check(items, &[thinner]).problems[0].split_once("is ").unwrap().1, "for 3 mm, the sheet has 2 mm");
        // Grain along y: what is not turned a quarter lies across it.
        let mut grained = layout.clone();
        grained.sheets[0].stock = stock.grained(Grain::Y);
        let across = layout.sheets[0].placements.iter().filter(|p| p.quarter_turns % 2 == 0).count();
        let problems = grained.check(items, &[stock.grained(Grain::Y)]).problems;
        assert_eq!(problems.len(), across, "{problems:?}");
        assert!(across > 0 && problems.iter().all(|problem| problem.ends_with("lies across the grain")));
    });
}

#[test]
fn holes_and_solids() {
    let ring = frame(50 * MM, 30 * MM);
    let part = |side: i64, x, y| moved(&rectangle(side, side), x, y);
    let said = |other: &Shape, gap| report(&[ring.clone(), other.clone()], sheet(gap));
    // In the hole, filling it, across its rim, in the solid, around all.
    let report = said(&part(20 * MM, 15 * MM, 15 * MM), 5 * MM);
    assert_eq!((report.ok(), report.gap_min), (true, Some(mm(5))));
    assert!(!said(&part(20 * MM, 15 * MM, 15 * MM), 5 * MM + 1).ok());
    let report = said(&part(30 * MM, 10 * MM, 10 * MM), 5 * MM);
    assert_eq!((report.ok(), report.gap_min, report.shared_length), (true, None, 120 * MM));
    for other in [part(20 * MM, 9_999_999, 15 * MM), part(5 * MM, 2 * MM, 2 * MM), part(60 * MM, 0, 0), ring.clone()] {
        assert_eq!(told(&said(&other, 0), 0, 1), [true, false]);
    }
}

#[test]
fn slanted_edges_to_the_nanometre() {
    // The halves of a square 10 mm wide, cut from corner to corner.
    let (s, half) = (10 * MM, polygon(&[[0, 0], [10 * MM, 0], [10 * MM, 10 * MM]]));
    let other = polygon(&[[0, 0], [s, s], [0, s]]);
    let said = |x, y, gap| report(&[half.clone(), moved(&other, x, y)], sheet(gap));
    let whole = said(0, 0, MM);
    assert_eq!((whole.ok(), whole.shared_length), (true, 14_142_135));
    assert_eq!(told(&said(0, -1, 0), 0, 1), [true, false], "they would have to be one below the other");
    assert!(said(0, 1, 0).ok());
    // 3 mm upwards is 2.121 mm square to the edge.
    assert_eq!(said(0, 3 * MM, 0).gap_min, Some(Nm::raw(2_121_320)));
    assert_eq!(told(&said(0, 3 * MM, 2_121_321), 0, 1), [false, true]);
    assert!(said(0, 3 * MM, 2_121_320).ok());
}

#[test]
fn parts_that_share_a_cut() {
    // Two plates share an upright edge; the right one has a step 2 mm back from it.
    let left = rectangle(20 * MM, 40 * MM);
    let step = polygon(&[[20, 0], [40, 0], [40, 40], [22, 40], [22, 30], [20, 30]].map(|p| p.map(|v| v * MM)));
    let said = |gap| report(&[left.clone(), step.clone()], sheet(gap));
    assert_eq!((said(2 * MM).ok(), said(2 * MM).shared_length, said(2 * MM).gap_min), (true, 30 * MM, None));
    assert_eq!(said(2 * MM + 1).problems, ["sheet 1: parts \"0\" and \"1\" are 2 mm apart at (22, 40) mm, less than the gap of 2.000001 mm"]);
    // A third part fills the step: nothing faces across waste, although the others are as near as before.
    let filler = moved(&rectangle(2 * MM, 10 * MM), 20 * MM, 30 * MM);
    let filled = report(&[left.clone(), step.clone(), filler], sheet(5 * MM));
    assert_eq!((filled.problems.len(), filled.shared_length), (0, 52 * MM), "{:?}", filled.problems);
    // A bridge links two parts that share nothing: they too may be near at their corners, but not along an edge.
    let [a, b] = [[0, 0], [21, 0]].map(|[x, y]| moved(&rectangle(20 * MM, 20 * MM), x * MM, y * MM));
    let bridge = moved(&rectangle(41 * MM, 10 * MM), 0, 20 * MM);
    assert!(report(&[a.clone(), b.clone(), bridge.clone()], sheet(MM)).ok());
    assert_eq!(told(&report(&[a, b, bridge], sheet(MM + 1)), 0, 1), [false, true]);
}

#[test]
fn parts_that_touch_but_share_nothing() {
    let parts = [rectangle(20 * MM, 40 * MM), moved(&rectangle(20 * MM, 40 * MM), 20 * MM, 5 * MM)];
    let said = |gap| report_of(&parts, sheet(gap), false);
    assert_eq!((said(0).ok(), said(0).gap_min, said(0).shared_length), (true, Some(Nm::ZERO), 0));
    assert_eq!(said(1).problems, ["sheet 1: parts \"0\" and \"1\" are 0 mm apart at (20, 5) mm, less than the gap of 0.000001 mm"]);
    assert!(report(&parts, sheet(MM)).ok());
}

#[test]
fn arcs_are_no_shared_cuts() {
    let p = |x: i64, y: i64| Point::raw(x * MM, y * MM);
    // The right edge bulges into the solid: its chord is what the other's edge lies on.
    let bent = Shape::from_bent_loops([[(p(0, 0), None), (p(20, 0), Some(p(25, 10))), (p(20, 20), None), (p(0, 20), None)]]);
    let found = report(&[bent.clone(), moved(&rectangle(20 * MM, 20 * MM), 20 * MM, 0)], sheet(0));
    assert_eq!((found.shared_length, found.gap_min), (0, Some(Nm::ZERO)));
    assert!(!report(&[bent, moved(&rectangle(20 * MM, 20 * MM), 20 * MM, 0)], sheet(1)).ok());
}

#[test]
fn problems_end_somewhere() {
    let pile: Vec<Shape> = (0..60).map(|_| rectangle(MM, MM)).collect();
    let found = report(&pile, sheet(0));
    assert_eq!((found.problems.len(), found.problems[TOLD].as_str()), (TOLD + 1, "there are more problems"));
    assert!(report(&[], sheet(0)).ok() && report(&[Shape::default(), rectangle(MM, MM)], sheet(0)).ok());
}

/// Twice the area of a triangle, small numbers only.
fn turn(a: [i64; 2], b: [i64; 2], c: [i64; 2]) -> i64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

fn corners(shape: &Shape) -> Vec<[i64; 2]> {
    shape.vertices().iter().map(|v| [v.at.x.nm(), v.at.y.nm()]).collect()
}

fn sides(corners: &[[i64; 2]]) -> impl Iterator<Item = ([i64; 2], [i64; 2])> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// Convex ones only: apart if an edge of one has all of the other on its open side.
fn slowly_overlap(a: &[[i64; 2]], b: &[[i64; 2]]) -> bool {
    let parted = |a: &[[i64; 2]], b: &[[i64; 2]]| sides(a).any(|(p, q)| b.iter().all(|&r| turn(p, q, r) <= 0));
    !parted(a, b) && !parted(b, a)
}

fn slowly_share(a: &[[i64; 2]], b: &[[i64; 2]]) -> bool {
    let dot = |p: [i64; 2], q: [i64; 2], r: [i64; 2]| (q[0] - p[0]) * (r[0] - p[0]) + (q[1] - p[1]) * (r[1] - p[1]);
    sides(a).any(|(p, q)| {
        sides(b)
            .any(|(r, s)| turn(p, q, r) == 0 && turn(p, q, s) == 0 && dot(p, q, r) > dot(p, q, s) && dot(p, q, r) > 0 && dot(p, q, s) < dot(p, q, q))
    })
}

/// Whether the distance of two that do not overlap is less than a number: of every corner from every edge, as fractions.
fn slowly_near(a: &[[i64; 2]], b: &[[i64; 2]], gap: i64) -> bool {
    let near = |p: [i64; 2], (a, b): ([i64; 2], [i64; 2])| {
        let square = |u: [i64; 2], v: [i64; 2]| (u[0] - v[0]).pow(2) + (u[1] - v[1]).pow(2);
        let (along, length) = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1]), square(a, b));
        let end = square(p, a).min(square(p, b)) < gap * gap;
        end || (0..=length).contains(&along) && turn(a, b, p).pow(2) < gap * gap * length
    };
    let any = |a: &[[i64; 2]], b: &[[i64; 2]]| a.iter().any(|&p| sides(b).any(|side| near(p, side)));
    any(a, b) || any(b, a)
}

fn triangle() -> impl Strategy<Value = Shape> {
    let point = || [0i64..14, 0i64..14];
    [point(), point(), point()].prop_filter_map("flat", |[a, b, c]| match turn(a, b, c) {
        0 => None,
        left if left > 0 => Some(polygon(&[a, b, c])),
        _ => Some(polygon(&[a, c, b])),
    })
}

fn block() -> impl Strategy<Value = Shape> {
    (0i64..12, 0i64..12, 1i64..7, 1i64..7).prop_map(|(x, y, w, h)| moved(&rectangle(w, h), x, y))
}

proptest! {
    #[test]
    fn triangles_and_rectangles_as_the_slow_way(
        shapes in prop::collection::vec(prop_oneof![triangle(), block()], 2..5),
        gap in 0i64..5,
    ) {
        let found = report(&shapes, sheet(gap));
        let corners: Vec<_> = shapes.iter().map(corners).collect();
        let pairs = || (0..shapes.len()).flat_map(|b| (0..b).map(move |a| (a, b)));
        // Who hangs together with whom: those that share or overlap, and what they hang together with.
        let mut group: Vec<usize> = (0..shapes.len()).collect();
        for _ in 0..shapes.len() {
            for (a, b) in pairs() {
                if slowly_share(&corners[a], &corners[b]) || slowly_overlap(&corners[a], &corners[b]) {
                    let least = group[a].min(group[b]);
                    (group[a], group[b]) = (least, least);
                }
            }
        }
        for (a, b) in pairs() {
            let [overlap, near] = told(&found, a, b);
            prop_assert_eq!(overlap, slowly_overlap(&corners[a], &corners[b]), "{} {}: {:?}", a, b, found);
            if group[a] != group[b] {
                prop_assert_eq!(near, slowly_near(&corners[a], &corners[b], gap), "{} {}: {:?}", a, b, found);
                let least = found.gap_min.unwrap().nm();
                prop_assert!(!slowly_near(&corners[a], &corners[b], least), "{} {}: {:?}", a, b, found);
            }
        }
        let least = found.gap_min.map(|least| least.nm() + 1);
        let reached = |least| pairs().any(|(a, b)| group[a] != group[b] && slowly_near(&corners[a], &corners[b], least));
        prop_assert!(least.is_none_or(reached), "{:?}", found);
    }

    /// Cell by cell: who owns it, and what the first cell is that a row or column of waste leads to.
    #[test]
    fn rectangles_that_hang_together_as_cells_say(
        cuts in prop::collection::vec((0i64..12, 0i64..12, 1i64..6, 1i64..6), 2..7),
        gap in 1i64..5,
    ) {
        const SIDE: usize = 20;
        let mut owner = [[usize::MAX; SIDE]; SIDE];
        let mut shapes: Vec<Shape> = Vec::new();
        for (x, y, w, h) in cuts {
            let cells = || (x..x + w).flat_map(move |i| (y..y + h).map(move |j| (i as usize, j as usize)));
            if cells().all(|(i, j)| owner[i][j] == usize::MAX) {
                cells().for_each(|(i, j)| owner[i][j] = shapes.len());
                shapes.push(moved(&rectangle(w, h), x, y));
            }
        }
        let mut group: Vec<usize> = (0..shapes.len()).collect();
        let lines = || (0..SIDE).flat_map(|i| [true, false].map(|level| (i, level)));
        let line = |i: usize, level: bool| -> Vec<usize> { (0..SIDE).map(|j| if level { owner[j][i] } else { owner[i][j] }).collect() };
        for _ in 0..shapes.len() {
            for (i, level) in lines() {
                for pair in line(i, level).windows(2).filter(|pair| pair.iter().all(|&p| p != usize::MAX)) {
                    let least = group[pair[0]].min(group[pair[1]]);
                    (group[pair[0]], group[pair[1]]) = (least, least);
                }
            }
        }
        let mut facing = Vec::new();
        for (i, level) in lines() {
            let solid: Vec<(usize, usize)> = line(i, level).into_iter().enumerate().filter(|&(_, p)| p != usize::MAX).collect();
            for pair in solid.windows(2) {
                let ((from, a), (to, b)) = (pair[0], pair[1]);
                if a != b && group[a] == group[b] && (2..=gap as usize).contains(&(to - from)) {
                    facing.push((a.min(b), a.max(b)));
                }
            }
        }
        let found = report(&shapes, sheet(gap));
        for b in 0..shapes.len() {
            for a in (0..b).filter(|&a| group[a] == group[b]) {
                let [overlap, near] = told(&found, a, b);
                prop_assert_eq!((overlap, near), (false, facing.contains(&(a, b))), "{} {}: {:?} {:?}", a, b, shapes, found);
            }
        }
    }
}

/// Places that are likely to break arithmetic: of the public range, and of what sums of lengths come to.
fn place() -> impl Strategy<Value = i64> {
    let far = 1i64 << 50;
    prop_oneof![Just(0), Just(10_000 * MM), Just(-10_000 * MM), -10_000 * MM..=10_000 * MM, -3i64..4, -far..=far]
}

proptest! {
    #[test]
    fn anything_anywhere_has_an_end(
        loops in prop::collection::vec(prop::collection::vec([place(), place()], 0..6), 0..5),
        at in prop::collection::vec((place(), place(), 0u8..8, any::<bool>()), 5),
        gap in 0i64..=10_000 * MM,
        share_cuts: bool,
    ) {
        let shapes: Vec<Shape> = loops.iter().map(|points| polygon(points)).collect();
        let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item { kerf: Nm::raw(gap), ..Item::new("p", shape) }).collect();
        let stock = Stock::new(mm(1), [Nm::MAX; 2], Nm::ZERO, Nm::raw(gap)).unwrap();
        let place = |(part, &(x, y, quarter_turns, flipped))| Placement { part, at: Point::raw(x, y), quarter_turns, flipped };
        let placements = at.iter().enumerate().take(shapes.len()).map(place).collect();
        let layout = Layout { sheets: Vec::from([Sheet { stock, placements, share_cuts }]), unplaced: Vec::new() };
        prop_assert!(layout.check(&items, &[stock]).problems.len() <= TOLD + 1);
        prop_assert!(layout.offcuts(&items).unwrap().len() <= OFFCUTS);
    }
}

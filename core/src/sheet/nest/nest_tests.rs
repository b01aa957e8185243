use std::vec::Vec;

use proptest::prelude::*;

use super::Nest;
use crate::sheet::job::Job;
use crate::sheet::watch::Watch;
use crate::{BoxSpec, Cutter, Fit, Grain, Item, Layout, LayoutSpec, Nm, Parts, Placement, Point, Shape, Stock};

const MM: i64 = 1_000_000;

fn shape(loops: &[&[[i64; 2]]]) -> Shape {
    Shape::from_loops(loops.iter().map(|points| points.iter().map(|&[x, y]| Point::raw(x, y)).collect::<Vec<_>>()))
}

fn rectangle(w: i64, h: i64) -> Shape {
    shape(&[&[[0, 0], [w, 0], [w, h], [0, h]]])
}

fn frame(w: i64, h: i64, rail: i64) -> Shape {
    let (x, y) = (w - rail, h - rail);
    shape(&[&[[0, 0], [w, 0], [w, h], [0, h]], &[[rail, rail], [rail, y], [x, y], [x, rail]]])
}

fn ell(w: i64, h: i64, limb: i64) -> Shape {
    shape(&[&[[0, 0], [w, 0], [w, limb], [limb, limb], [limb, h], [0, h]]])
}

/// Three teeth on a spine.
fn comb(tooth: i64, bay: i64, high: i64) -> Shape {
    let (b, c, d, e) = (tooth, tooth + bay, 2 * tooth + bay, 2 * (tooth + bay));
    let f = e + tooth;
    shape(&[&[[0, 0], [f, 0], [f, high], [e, high], [e, b], [d, b], [d, high], [c, high], [c, b], [b, b], [b, high], [0, high]]])
}

fn triangle(w: i64, h: i64, top: i64) -> Shape {
    shape(&[&[[0, 0], [w, 0], [top, h]]])
}

fn stock(w: i64, h: i64, gap: i64) -> Stock {
    Stock::new(Nm::raw(3 * MM), [Nm::raw(w), Nm::raw(h)], Nm::ZERO, Nm::raw(gap)).unwrap()
}

/// A nesting after a short search, whether or not it is better than rectangles; none where outlines cannot help.
fn nested(shapes: &[Shape], stocks: &[Stock], spec: LayoutSpec) -> Option<Layout> {
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("part", shape)).collect();
    let job = Job::new(&items, (0..items.len()).collect(), stocks.to_vec(), spec);
    let mut calls = 0;
    let mut go_on = |_| {
        calls += 1;
        calls < 200
    };
    let layout = Nest::of(&job)?.lay_out(&mut Watch::new(&mut go_on, false))?;
    let report = layout.check(&items, stocks);
    // What is left out is told as a problem only where it is not listed.
    assert!(report.ok(), "{:?}", report.problems);
    assert_eq!(layout.sheets.iter().map(|sheet| sheet.placements.len()).sum::<usize>() + layout.unplaced.len(), shapes.len());
    apart(shapes, &layout);
    Some(layout)
}

type Edge = [[i128; 2]; 2];

fn edges(shape: &Shape) -> Vec<Edge> {
    shape.edges().map(|(a, b)| [a, b].map(|p| [i128::from(p.x.nm()), i128::from(p.y.nm())])).collect()
}

fn minus(a: [i128; 2], b: [i128; 2]) -> [i128; 2] {
    [a[0] - b[0], a[1] - b[1]]
}

fn cross(a: [i128; 2], b: [i128; 2]) -> i128 {
    a[0] * b[1] - a[1] * b[0]
}

fn dot(a: [i128; 2], b: [i128; 2]) -> i128 {
    a[0] * b[0] + a[1] * b[1]
}

/// Whether a point is at least so far from an edge.
fn clear(p: [i128; 2], [a, b]: Edge, gap: i128) -> bool {
    let (way, to) = (minus(b, a), minus(p, a));
    let along = dot(way, to);
    if along <= 0 {
        return dot(to, to) >= gap * gap;
    }
    let back = minus(p, b);
    if along >= dot(way, way) {
        return dot(back, back) >= gap * gap;
    }
    cross(way, to) * cross(way, to) >= gap * gap * dot(way, way)
}

fn crossing(a: Edge, b: Edge) -> bool {
    let side = |e: Edge, p: [i128; 2]| cross(minus(e[1], e[0]), minus(p, e[0])).signum();
    side(a, b[0]) * side(a, b[1]) < 0 && side(b, a[0]) * side(b, a[1]) < 0
}

fn inside(p: [i128; 2], edges: &[Edge]) -> bool {
    let left = |&&[a, b]: &&Edge| {
        let (a, b) = if a[1] < b[1] { (a, b) } else { (b, a) };
        a[1] <= p[1] && p[1] < b[1] && cross(minus(b, a), minus(p, a)) < 0
    };
    edges.iter().filter(left).count() % 2 == 1
}

/// Every pair of edges of every pair of parts: the slow and obvious way.
fn apart(shapes: &[Shape], layout: &Layout) {
    for sheet in &layout.sheets {
        let gap = i128::from(sheet.stock.gap().nm());
        let placed: Vec<Vec<Edge>> = sheet.placements.iter().map(|placement| edges(&placement.place(&shapes[placement.part]))).collect();
        for (index, a) in placed.iter().enumerate() {
            let far = |p: [i128; 2]| {
                0 <= p[0] && p[0] <= i128::from(sheet.stock.width().nm()) && 0 <= p[1] && p[1] <= i128::from(sheet.stock.height().nm())
            };
            assert!(a.iter().all(|edge| far(edge[0])));
            for b in placed.iter().take(index) {
                assert!(a.iter().all(|&e| b.iter().all(|&f| !crossing(e, f) && clear(e[0], f, gap) && clear(f[0], e, gap))));
                assert!(!inside(a[0][0], b) && !inside(b[0][0], a));
            }
        }
    }
}

fn on_one(shapes: &[Shape], sheet: Stock) -> bool {
    let layout = nested(shapes, &[sheet], LayoutSpec::default()).unwrap();
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("part", shape)).collect();
    let chosen = LayoutSpec::default().lay_out(&items, &[sheet], &mut |_| true).unwrap();
    layout.sheets.len() == 1 && chosen.sheets.len() == 1
}

#[test]
fn frames_lie_in_frames() {
    let mut shapes = Vec::from([frame(300 * MM, 220 * MM, 30 * MM), frame(150 * MM, 230 * MM, 25 * MM)]);
    shapes.extend((0..6).map(|_| rectangle(40 * MM, 56 * MM)));
    assert!(on_one(&shapes[..2], stock(300 * MM, 220 * MM, 2 * MM)));
    assert!(on_one(&shapes, stock(300 * MM, 220 * MM, 2 * MM)));
}

#[test]
fn a_hole_just_wide_enough_will_do() {
    let shapes = [frame(100 * MM, 100 * MM, 20 * MM), rectangle(56 * MM, 56 * MM)];
    assert!(on_one(&shapes, stock(100 * MM, 100 * MM, 2 * MM)));
    let layout = nested(&shapes, &[stock(100 * MM, 100 * MM, 2 * MM + 1)], LayoutSpec::default());
    assert!(layout.is_none_or(|layout| layout.sheets.len() == 2));
}

#[test]
fn two_ells_interlock() {
    let shapes = [ell(100 * MM, 100 * MM, 30 * MM), ell(100 * MM, 100 * MM, 30 * MM)];
    assert!(on_one(&shapes, stock(132 * MM, 132 * MM, 2 * MM)));
}

#[test]
fn combs_interlock() {
    let shapes = [comb(12 * MM, 32 * MM, 60 * MM), comb(12 * MM, 32 * MM, 60 * MM)];
    assert!(on_one(&shapes, stock(130 * MM, 74 * MM, 2 * MM)));
}

#[test]
fn panels_with_fingers_are_left_to_the_packer() {
    let mm = |v| Nm::from_mm(v).unwrap();
    let panels = BoxSpec::outside([mm(110.0), mm(85.0), mm(60.0)], mm(2.5)).assembly().unwrap().panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::beam(Nm::ZERO).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    let items = Item::of(&parts);
    let stocks = Vec::from([stock(500 * MM, 350 * MM, MM)]);
    let job = Job::new(&items, (0..items.len()).collect(), stocks, LayoutSpec::default());
    assert!(Nest::of(&job).is_none());
}

#[test]
fn counts_are_kept() {
    let shapes: Vec<Shape> = (0..4).map(|_| ell(100 * MM, 100 * MM, 30 * MM)).collect();
    let one = stock(132 * MM, 132 * MM, 2 * MM).sheets(1).unwrap();
    let layout = nested(&shapes, &[one], LayoutSpec::default()).unwrap();
    assert_eq!((layout.sheets.len(), layout.unplaced.len()), (1, 2));
    // Two of one kind named twice are two.
    let layout = nested(&shapes, &[one, one], LayoutSpec::default()).unwrap();
    assert_eq!((layout.sheets.len(), layout.unplaced.len()), (2, 0));
}

#[test]
fn the_grain_forbids_quarter_turns() {
    let shapes = [frame(100 * MM, 60 * MM, 10 * MM), rectangle(30 * MM, 70 * MM)];
    let plain = stock(110 * MM, 72 * MM, 2 * MM);
    let count = |stock| nested(&shapes, &[stock], LayoutSpec::default()).unwrap().sheets.len();
    assert_eq!((count(plain), count(plain.grained(Grain::X))), (1, 2));
    let drawn = nested(&shapes, &[plain], LayoutSpec { turns: false, ..LayoutSpec::default() }).unwrap();
    assert!(drawn.sheets.iter().flat_map(|sheet| &sheet.placements).all(|placement| placement.quarter_turns == 0 && !placement.flipped));
}

#[test]
fn it_can_be_stopped_at_every_part() {
    let shapes: Vec<Shape> = (0..30).map(|i| ell((60 + i) * MM, 70 * MM, 12 * MM)).collect();
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("part", shape)).collect();
    let stocks = Vec::from([stock(900 * MM, 900 * MM, 2 * MM)]);
    let job = Job::new(&items, (0..items.len()).collect(), stocks, LayoutSpec::default());
    let nest = Nest::of(&job).unwrap();
    let lay_out = |most: usize| {
        let mut told = Vec::new();
        let mut go_on = |done| {
            told.push(done);
            told.len() < most
        };
        let layout = nest.lay_out(&mut Watch::new(&mut go_on, false));
        assert!(told.len() <= most && told.iter().all(|done| (0.0..=1.0).contains(done)) && told.is_sorted());
        layout
    };
    assert!(lay_out(1).is_none() && lay_out(30).is_none());
    let (first, whole) = (lay_out(31).unwrap(), lay_out(usize::MAX).unwrap());
    assert_eq!(lay_out(50).unwrap(), first);
    for layout in [first, whole] {
        assert_eq!(layout.sheets.iter().map(|sheet| sheet.placements.len()).sum::<usize>(), 30);
    }
}

fn shapes() -> impl Strategy<Value = Vec<Shape>> {
    let size = || 20 * MM..90 * MM;
    let one = (0..5, size(), size(), 4 * MM..9 * MM).prop_map(|(kind, w, h, limb)| match kind {
        0 => rectangle(w, h),
        1 => frame(w, h, limb),
        2 => ell(w, h, limb),
        3 => comb(limb, w / 3 - limb, h),
        _ => triangle(w, h, h),
    });
    prop::collection::vec(one, 2..9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Gaps, borders and counts of whatever comes out; the same again for the same seed.
    #[test]
    fn outlines_keep_their_gap(shapes in shapes(), gap in 1..4 * MM, flips: bool, seed: u64) {
        let spec = LayoutSpec { flips, seed, ..LayoutSpec::default() };
        let stocks = [stock(130 * MM, 100 * MM, gap)];
        prop_assert_eq!(nested(&shapes, &stocks, spec), nested(&shapes, &stocks, spec));
    }

    /// Mirrored and turned covers hold the outline where it lies.
    #[test]
    fn covers_hold_the_outline(w in 20 * MM..90 * MM, h in 20 * MM..90 * MM, top in -50 * MM..90 * MM, quarter_turns in 0u8..4, flipped: bool) {
        let shape = triangle(w, h, top);
        let cover = super::Cover::of(&shape, shape.twice_area(), 3 * MM);
        let mut cover = if flipped { cover.mirrored() } else { cover };
        for _ in 0..quarter_turns {
            cover = cover.turned();
        }
        let placed = Placement { quarter_turns, flipped, ..Placement::default() }.place(&shape);
        for (a, b) in placed.edges() {
            for step in 0..=64 {
                let at = |a: Nm, b: Nm| a.nm() + (b - a).nm() * step / 64;
                let (x, y) = (at(a.x, b.x), at(a.y, b.y));
                // A point of an edge, rounded, is less than a nanometre off it.
                let holds = |[[x0, x1], [y0, y1]]: &[[i64; 2]; 2]| x0 - 1 <= x && x <= x1 + 1 && y0 - 1 <= y && y <= y1 + 1;
                prop_assert!(cover.rects.iter().any(holds), "{x} {y} {:?}", cover);
            }
        }
    }
}

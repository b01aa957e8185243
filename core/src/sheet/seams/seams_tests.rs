use std::vec::Vec;

use proptest::prelude::*;

use super::super::{Item, Layout, LayoutSpec, Stock};
use crate::{BoxSpec, Cutter, Fit, Nm, Parts, Point, Ratio, Reach, Relief, Shape, SpliceSpec, Tails, Top};

const MM: i64 = 1_000_000;

fn um(v: i64) -> Nm {
    Nm::new(v * 1000).unwrap()
}

fn parts(outside: [i64; 3], thickness: i64, kerf: i64, fit: Fit) -> Parts {
    let panels = BoxSpec::outside(outside.map(um), um(thickness)).assembly().unwrap().panels().unwrap();
    Parts::cut(&panels, Cutter::beam(um(kerf)).unwrap(), fit, Nm::ZERO).unwrap()
}

/// Sheets of 11 in with a border of 6.5 mm: 266.4 mm inside.
fn sheets(thickness: i64) -> Stock {
    Stock::new(um(thickness), [Nm::parse("11 in").unwrap(); 2], um(6_500), um(1000)).unwrap()
}

fn lay(parts: &Parts, stock: Stock, share_cuts: bool) -> Layout {
    LayoutSpec { share_cuts, ..LayoutSpec::default() }.lay_out(&Item::of(parts), &[stock], &mut |_| true).unwrap()
}

/// The length of one seam of a cube: its side, and two flanks a board deep for each change of owner.
fn seam(parts: &Parts, side: i64, thickness: i64) -> i64 {
    // Of the front, one side's edges: those that lie on neither of the two lines the slab ends at are flanks.
    let shape = parts.find("front").unwrap().path();
    let t = thickness * 1000;
    let flanks = shape.edges().filter(|(a, b)| a.y == b.y && (a.x.nm() - b.x.nm()).abs() == t && a.x.nm().max(b.x.nm()) <= t).count() as i64;
    side * 1000 + flanks * t
}

#[test]
fn six_panels_of_a_cube_share_seven_seams() {
    for side in [80_000, 90_000, 100_000] {
        let parts = parts([side; 3], 2000, 0, Fit::EXACT);
        let items = Item::of(&parts);
        let stock = Stock::new(um(2000), [um(600_000); 2], um(6_500), um(1000)).unwrap();
        let layout = lay(&parts, stock, true);
        assert_eq!(layout.sheets.len(), 1);
        let seam = seam(&parts, side, 2000);
        // Seven seams, which end where a third panel begins: so each may lack up to a board's thickness at both ends.
        let shared = layout.shared_length(&items).unwrap();
        assert!(shared <= 7 * seam && shared >= 7 * (seam - 2 * 2 * 2 * MM), "{side}: {shared} of {}", 7 * seam);
        assert_eq!(shared + layout.cut_length(&items).unwrap(), items.iter().map(|item| item.path.length()).sum::<i64>());
    }
}

/// Three panels in a row overlap twice by a board: 3 x 90 mm - 2 x 2 mm = 266 mm, which fits. Common practice, no source: without shared cuts
/// four panels lie on one sheet and two on another; at 80 mm all six on one.
#[test]
fn a_cube_of_90_mm_fits_one_sheet() {
    let parts = parts([90_000; 3], 2000, 0, Fit::EXACT);
    let shared = lay(&parts, sheets(2000), true);
    assert_eq!(shared.sheets.len(), 1);
    let counts = |layout: &Layout| layout.sheets.iter().map(|sheet| sheet.placements.len()).collect::<Vec<_>>();
    assert_eq!(counts(&lay(&parts, sheets(2000), false)), [4, 2]);
    for (side, counted) in [(80_000, std::vec![6]), (100_000, std::vec![4, 2]), (120_000, std::vec![4, 2])] {
        assert_eq!(counts(&lay(&self::parts([side; 3], 2000, 0, Fit::EXACT), sheets(2000), false)), counted);
    }
}

#[test]
fn a_kerf_that_the_fit_allows_is_shared() {
    let kerf = 180;
    let allowed = Fit::new(um(kerf), um(kerf), Nm::ZERO).unwrap();
    let stock = Stock::new(um(2500), [um(500_000), um(400_000)], um(8000), um(1000)).unwrap();
    let with = |fit| {
        let parts = parts([110_000, 85_000, 60_000], 2500, kerf, fit);
        let layout = lay(&parts, stock, true);
        assert_eq!(layout.sheets.iter().map(|sheet| sheet.placements.len()).sum::<usize>(), 6);
        layout.shared_length(&Item::of(&parts)).unwrap()
    };
    let exact = parts([110_000, 85_000, 60_000], 2500, 0, Fit::EXACT);
    let most = lay(&exact, stock, true).shared_length(&Item::of(&exact)).unwrap();
    assert!(most > 600 * MM, "{most}");
    assert!(with(allowed) > most / 2);
    // Fingers that are cut half a kerf wider do not go into notches that are cut half a kerf narrower. Only a few wide tips that meet tips are worth their starts.
    assert!(with(Fit::EXACT) < most / 8);
    let report = crate::dry_fit_parts(&parts([110_000, 85_000, 60_000], 2500, kerf, allowed));
    assert!(report.ok() && report.gap_max == um(kerf), "{report:?}");
}

#[test]
fn plain_rectangles_make_a_grid() {
    let card = crate::Shape::from_loops([[(0, 0), (60, 0), (60, 40), (0, 40)].map(|(x, y)| crate::Point::raw(x * MM, y * MM))]);
    let items: Vec<Item<'_>> = (0..6).map(|_| Item::new("card", &card)).collect();
    let stock = Stock::new(um(1000), [um(190_000), um(90_000)], um(4000), um(2000)).unwrap();
    let spec = LayoutSpec { share_cuts: true, ..LayoutSpec::default() };
    let layout = spec.lay_out(&items, &[stock], &mut |_| true).unwrap();
    assert_eq!((layout.sheets.len(), layout.shared_length(&items)), (1, Ok((3 * 60 + 4 * 40) * MM)));
}

#[test]
fn a_box_with_dividers_and_several_boxes() {
    let mut spec = BoxSpec::outside([um(160_000), um(110_000), um(50_000)], um(2500));
    (spec.top, spec.dividers) = (Top::Open, [3, 2]);
    let panels = spec.assembly().unwrap().panels().unwrap();
    let tray = Parts::cut(&panels, Cutter::blade(Nm::ZERO, Nm::ZERO).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    let four = (0..3).fold(parts([90_000; 3], 2500, 0, Fit::EXACT), |all, _| all.join(parts([90_000; 3], 2500, 0, Fit::EXACT)));
    for parts in [tray, four] {
        let stock = Stock::new(um(2500), [um(500_000), um(350_000)], um(8000), um(1000)).unwrap();
        let (plain, shared) = (lay(&parts, stock, false), lay(&parts, stock, true));
        let items = Item::of(&parts);
        assert!(shared.sheets.len() <= plain.sheets.len() && shared.unplaced.is_empty());
        assert!(shared.shared_length(&items).unwrap() * 10 > items.iter().map(|item| item.path.length()).sum::<i64>());
        assert_eq!(shared, lay(&parts, stock, true));
        let mut seen: Vec<usize> = shared.sheets.iter().flat_map(|sheet| sheet.placements.iter().map(|placement| placement.part)).collect();
        seen.sort_unstable();
        assert!(seen.into_iter().eq(0..items.len()));
    }
}

/// The outlines on each sheet, where they lie.
fn placed(layout: &Layout, items: &[Item<'_>]) -> Vec<Vec<Shape>> {
    layout.sheets.iter().map(|sheet| sheet.placements.iter().map(|placement| placement.place(items[placement.part].path)).collect()).collect()
}

/// The edges along one axis as (across, from, to, whether upwards along), seen along x, or along y.
fn level(shape: &Shape, upright: bool) -> Vec<(i64, i64, i64, bool)> {
    let seen = |p: Point| if upright { (p.y.nm(), p.x.nm()) } else { (p.x.nm(), p.y.nm()) };
    let edges = shape.edges().map(|(a, b)| (seen(a), seen(b))).filter(|(a, b)| a.1 == b.1 && a.0 != b.0);
    edges.map(|((x0, y), (x1, _))| (y, x0.min(x1), x0.max(x1), x0 < x1)).collect()
}

/// Every edge of every outline against every one of all others: how long they run against each other.
fn slow_shared(shapes: &[Shape]) -> i64 {
    let mut sum = 0;
    for upright in [false, true] {
        let edges: Vec<Vec<_>> = shapes.iter().map(|shape| level(shape, upright)).collect();
        for (i, a) in edges.iter().enumerate() {
            for &(y, from, to, on) in a {
                let others = edges[..i].iter().flatten().filter(|other| other.0 == y && other.3 != on);
                sum += others.map(|other| (to.min(other.2) - from.max(other.1)).max(0)).sum::<i64>();
            }
        }
    }
    sum
}

/// Slowly, cell by cell of the grid of all corners: no cell has two owners, and along a column of cells the waste between two parts is none or
/// at least as wide as the gap. Along rows likewise.
fn owners(shapes: &[Shape], gap: i64) {
    for upright in [false, true] {
        let edges: Vec<Vec<_>> = shapes.iter().map(|shape| level(shape, upright)).collect();
        let mut places: Vec<i64> = edges.iter().flatten().flat_map(|edge| [edge.1, edge.2]).collect();
        places.sort_unstable();
        places.dedup();
        for column in places.windows(2) {
            let mut solid: Vec<(i64, i64, usize)> = Vec::new();
            for (owner, edges) in edges.iter().enumerate() {
                let mut crossed: Vec<i64> = edges.iter().filter(|edge| edge.1 <= column[0] && column[1] <= edge.2).map(|edge| edge.0).collect();
                crossed.sort_unstable();
                solid.extend(crossed.chunks(2).map(|pair| (pair[0], pair[1], owner)));
            }
            solid.sort_unstable();
            for pair in solid.windows(2) {
                let waste = pair[1].0 - pair[0].1;
                assert!(waste >= 0, "two owners at {column:?}: {pair:?}");
                assert!(waste == 0 || waste >= gap || pair[0].2 == pair[1].2, "a sliver at {column:?}: {pair:?}");
            }
        }
    }
}

/// By hand: 86 mm between the corners in 15 fingers, so 14 flanks of 2 mm, on each of the seven seams; the rest lies in the corners, where of 2 mm
/// along a seam a third panel may own some.
#[test]
fn a_cube_is_a_block_of_two_by_three() {
    let parts = parts([90_000; 3], 2000, 0, Fit::EXACT);
    let items = Item::of(&parts);
    let layout = lay(&parts, sheets(2000), true);
    let shapes = placed(&layout, &items);
    owners(&shapes[0], MM);
    let corners: Vec<(Point, Point)> = shapes[0].iter().map(Shape::bounds).collect();
    let reach = |at: fn(Point) -> Nm| corners.iter().map(|c| at(c.1)).max().unwrap() - corners.iter().map(|c| at(c.0)).min().unwrap();
    let mut sides = [reach(|p| p.x), reach(|p| p.y)];
    sides.sort_unstable();
    assert_eq!(sides, [um(178_000), um(266_000)]);
    let shared = layout.shared_length(&items).unwrap();
    assert_eq!(shared, slow_shared(&shapes[0]));
    assert!((7 * (86 + 14 * 2) * MM..=7 * (90 + 14 * 2) * MM).contains(&shared), "{shared}");
}

#[test]
fn spliced_boards_share_their_slanted_seam() {
    let panels = SpliceSpec::new([um(400_000), um(60_000)], um(6000), Tails::new(2, Ratio::new(1, 8).unwrap()))
        .pieces(2)
        .assembly()
        .unwrap()
        .panels()
        .unwrap();
    let parts = Parts::cut(&panels, Cutter::blade(Nm::ZERO, Nm::ZERO).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    let items = Item::of(&parts);
    assert!(items.iter().all(|item| item.path.leans()));
    let stock = Stock::new(um(6000), [um(600_000), um(300_000)], um(5000), um(2000)).unwrap();
    let layout = lay(&parts, stock, true);
    assert!(layout.check(&items, &[stock]).problems.is_empty());
    // At least the width of the board.
    assert!(layout.shared_length(&items).unwrap() >= 60 * MM);
}

/// A way into a relief that leaves the outline would run through the mate's finger; one that stays inside does no harm.
#[test]
fn relieved_parts_share_where_the_tool_stays_out_of_the_mate() {
    let panels = BoxSpec::outside([90_000, 90_000, 60_000].map(um), um(3000)).assembly().unwrap().panels().unwrap();
    let stock = Stock::new(um(3000), [um(500_000), um(400_000)], um(8000), um(1000)).unwrap();
    for (radius, some) in [(500, true), (900, false)] {
        let fit = Fit::new(um(1000), um(1000), Nm::ZERO).unwrap();
        let parts = Parts::cut(&panels, Cutter::bit(um(1000)).unwrap(), fit, Nm::ZERO).unwrap();
        let parts = parts.relieve(Relief::new(um(radius), Reach::Diagonal).unwrap()).unwrap();
        let items = Item::of(&parts);
        let layout = lay(&parts, stock, true);
        assert_eq!(layout.check(&items, &[stock]).problems, Vec::<std::string::String>::new());
        assert_eq!(layout.shared_length(&items).unwrap() > 400 * MM, some);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// Boxes of any size, gaps wider than the board too, kerfs that the fit allows and that it does not.
    #[test]
    fn no_cell_has_two_owners(
        sizes in prop::collection::vec([30i64..90, 25..80, 20..60], 1..3),
        (gap, kerf, allowed) in (0i64..4000, 0i64..300, any::<bool>()),
        (width, height) in (100i64..400, 100i64..300),
        seed in 0u64..9,
    ) {
        let fit = if allowed { Fit::new(um(kerf), um(kerf), Nm::ZERO).unwrap() } else { Fit::EXACT };
        let parts = sizes.iter().map(|size| parts(size.map(|side| side * 1000 + 37), 2000, kerf, fit)).reduce(Parts::join).unwrap();
        let items = Item::of(&parts);
        let stock = Stock::new(um(2000), [um(width * 1000), um(height * 1000)], um(3000), um(gap)).unwrap();
        let spec = LayoutSpec { share_cuts: true, seed, ..LayoutSpec::default() };
        let layout = spec.lay_out(&items, &[stock], &mut |_| true).unwrap();
        prop_assert_eq!(layout.check(&items, &[stock]).problems, Vec::<std::string::String>::new());
        prop_assert_eq!(&layout, &spec.lay_out(&items, &[stock], &mut |_| true).unwrap());
        let shapes = placed(&layout, &items);
        prop_assert_eq!(layout.shared_length(&items).unwrap(), shapes.iter().map(|shapes| slow_shared(shapes)).sum::<i64>());
        shapes.iter().for_each(|shapes| owners(shapes, gap * 1000));
    }
}

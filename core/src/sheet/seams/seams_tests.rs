use std::vec::Vec;

use super::super::{Item, Layout, LayoutSpec, Stock};
use crate::{BoxSpec, Cutter, Fit, Nm, Parts, Top};

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

//! The proof of layouts and their offcuts: six panels of a box, apart and with shared cuts; 100 to 10,000 parts in rows, 1 mm apart and touching.

use criterion::{BenchmarkId, Criterion, Throughput};
use dryfit_benches::{closed_box, mm, rectangle};
use dryfit_core::{Cutter, Fit, Item, Layout, LayoutSpec, Nm, Parts, Placement, Point, Shape, Sheet, Stock};
use std::hint::black_box;

pub fn measure(c: &mut Criterion) {
    let mut group = c.benchmark_group("proved");
    let panels = closed_box().assembly().and_then(|boards| boards.panels()).expect("the box is sound");
    let parts = Parts::cut(&panels, Cutter::beam(Nm::ZERO).expect("no kerf"), Fit::EXACT, Nm::ZERO).expect("the box is sound");
    let items = Item::of(&parts);
    let thickness = items.first().and_then(|item| item.thickness).expect("boards have one");
    let stock = Stock::new(thickness, [mm(500), mm(350)], mm(8), mm(1)).expect("a sheet");
    for (key, share_cuts) in [("six", false), ("six-shared", true)] {
        let layout = LayoutSpec { share_cuts, ..LayoutSpec::default() }.lay_out(&items, &[stock], &mut |_| true).expect("they fit");
        assert!(layout.check(&items, &[stock]).ok());
        group.bench_function(key, |b| b.iter(|| black_box(&layout).check(&items, &[stock])));
        group.bench_function(format!("{key}-offcuts"), |b| b.iter(|| black_box(&layout).offcuts(&items)));
    }
    let tile = rectangle([mm(9), mm(7)]);
    for side in [10, 32, 100] {
        let count = side * side;
        for (key, gap) in [("apart", 1), ("touching", 0)] {
            let (items, stock, layout) = rows(&tile, side, gap);
            assert!(layout.check(&items, &[stock]).ok());
            group.throughput(Throughput::Elements(count as u64));
            group.bench_function(BenchmarkId::new(key, count), |b| b.iter(|| black_box(&layout).check(&items, &[stock])));
            if gap > 0 {
                group.bench_function(BenchmarkId::new("offcuts", count), |b| b.iter(|| black_box(&layout).offcuts(&items)));
            }
        }
    }
    group.finish();
}

/// As many tiles in as many rows, with a rim left over.
fn rows(tile: &Shape, side: i64, gap: i64) -> (Vec<Item<'_>>, Stock, Layout) {
    let items = (0..side * side).map(|_| Item::new("tile", tile)).collect();
    let stock = Stock::new(mm(3), [mm(side * 11 + 50), mm(side * 9 + 50)], Nm::ZERO, mm(gap)).expect("a sheet");
    let at = |part: i64| Point::new(mm(part % side * (9 + gap)), mm(part / side * (7 + gap)));
    let placements = (0..side * side).map(|part| Placement { part: part as usize, at: at(part), ..Placement::default() }).collect();
    (items, stock, Layout { sheets: vec![Sheet { stock, placements, share_cuts: gap == 0 }], unplaced: Vec::new() })
}

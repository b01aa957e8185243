use std::vec::Vec;

use proptest::prelude::*;

use super::{Offcut, largest_offcut};
use crate::bounds::OFFCUT;
use crate::{Code, Grain, Item, Layout, Nm, Placement, Point, Shape, Sheet, Stock};

const MM: i64 = 1_000_000;

fn rectangle([w, h]: [i64; 2]) -> Shape {
    Shape::from_loops([[(0, 0), (w, 0), (w, h), (0, h)].map(|(x, y)| Point::raw(x, y))])
}

fn stock([w, h]: [i64; 2], border: i64, gap: i64) -> Stock {
    Stock::new(Nm::raw(3 * MM), [w, h].map(Nm::raw), Nm::raw(border), Nm::raw(gap)).unwrap()
}

/// A sheet with rectangles on it: left, low, width, height.
fn scene(stock: Stock, boxes: &[[i64; 4]]) -> (Vec<Shape>, Sheet) {
    let shapes = boxes.iter().map(|&[_, _, w, h]| rectangle([w, h])).collect();
    let place = |(part, &[x, y, _, _]): (usize, &[i64; 4])| Placement { part, at: Point::raw(x, y), ..Placement::default() };
    (shapes, Sheet { stock, placements: boxes.iter().enumerate().map(place).collect(), share_cuts: false })
}

fn offcuts(stock: Stock, boxes: &[[i64; 4]]) -> Vec<[i64; 4]> {
    let (shapes, sheet) = scene(stock, boxes);
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("part", shape)).collect();
    sheet.offcuts(&items).unwrap().into_iter().map(plain).collect()
}

fn plain(offcut: Offcut) -> [i64; 4] {
    let [w, h] = offcut.size.map(Nm::nm);
    [offcut.at.x.nm(), offcut.at.y.nm(), w, h]
}

/// The slow way: of all rectangles between any two places along x and any two along y, the largest free one, again and again.
fn slowly(stock: Stock, boxes: &[[i64; 4]]) -> Vec<[i64; 4]> {
    let (width, height, gap) = (stock.width().nm(), stock.height().nm(), stock.gap().nm());
    let mut taken: Vec<[i64; 4]> = boxes.iter().map(|&[x, y, w, h]| [x - gap, y - gap, x + w + gap, y + h + gap]).collect();
    let least = OFFCUT.least + 2 * stock.border().nm();
    let mut found = Vec::new();
    loop {
        let places = |a: usize, b: usize, end: i64| -> Vec<i64> {
            let ends = taken.iter().flat_map(|t| [t[a], t[b]]).filter(|p| (0..=end).contains(p));
            ends.chain([0, end]).collect()
        };
        let (xs, ys) = (places(0, 2, width), places(1, 3, height));
        let mut best: Option<(i64, i64, i64, [i64; 4])> = None;
        for (&x0, &x1) in xs.iter().flat_map(|a| xs.iter().map(move |b| (a, b))).filter(|(a, b)| **b - **a >= least) {
            for (&y0, &y1) in ys.iter().flat_map(|a| ys.iter().map(move |b| (a, b))).filter(|(a, b)| **b - **a >= least) {
                let free = taken.iter().all(|t| t[2] <= x0 || x1 <= t[0] || t[3] <= y0 || y1 <= t[1]);
                let rank = ((x1 - x0) * (y1 - y0), -y0, -x0, [x0, y0, x1, y1]);
                if free && best.is_none_or(|best| rank > best) {
                    best = Some(rank);
                }
            }
        }
        let Some((_, _, _, [x0, y0, x1, y1])) = best else { return found };
        found.push([x0, y0, x1 - x0, y1 - y0]);
        taken.push([x0, y0, x1, y1]);
    }
}

#[test]
fn an_empty_sheet_is_one_offcut() {
    assert_eq!(offcuts(stock([300, 200].map(|v| v * MM), 8 * MM, MM), &[]), [[0, 0, 300 * MM, 200 * MM]]);
    // Inside its border it must still be 20 mm wide.
    assert_eq!(offcuts(stock([36 * MM, 200 * MM], 8 * MM, 0), &[]).len(), 1);
    assert_eq!(offcuts(stock([36 * MM - 1, 200 * MM], 8 * MM, 0), &[]).len(), 0);
}

#[test]
fn they_keep_the_gap_and_half_the_kerf_and_reach_the_edge() {
    let plate = rectangle([100 * MM, 60 * MM]);
    let sheet = |gap| Sheet {
        share_cuts: false,
        stock: stock([300 * MM, 100 * MM], 5 * MM, gap).grained(Grain::Y),
        placements: Vec::from([Placement { at: Point::raw(5 * MM, 5 * MM), ..Placement::default() }]),
    };
    let items = [Item { kerf: Nm::raw(3 * MM + 1), ..Item::new("plate", &plate) }];
    let found = |gap| sheet(gap).offcuts(&items).unwrap().into_iter().map(plain).collect::<Vec<_>>();
    assert_eq!(found(2 * MM), [[107 * MM, 0, 193 * MM, 100 * MM], [0, 67 * MM, 107 * MM, 33 * MM]]);
    // Half of 3.000001 mm, rounded up.
    assert_eq!(found(MM)[0], [106_500_001, 0, 300 * MM - 106_500_001, 100 * MM]);
    let layout = Layout { sheets: Vec::from([sheet(2 * MM), sheet(MM)]), unplaced: Vec::new() };
    let stocks = layout.offcuts(&items).unwrap();
    assert_eq!(stocks[0].width(), Nm::raw(300 * MM - 106_500_001));
    assert_eq!((stocks[1].width(), stocks[1].gap(), stocks[1].border()), (Nm::raw(193 * MM), Nm::raw(2 * MM), Nm::raw(5 * MM)));
    assert!(stocks.iter().all(|stock| stock.count() == Some(1) && stock.grain() == Grain::Y && stock.thickness() == Nm::raw(3 * MM)));
    assert_eq!(largest_offcut(&sheet(2 * MM), &items), i128::from(193 * MM) * i128::from(100 * MM));
    assert_eq!(layout.offcuts(&[]).unwrap_err().code, Code::OutOfRange);
    let made_up = Offcut { at: Point::default(), size: [Nm::raw(9 * MM); 2] };
    assert_eq!(made_up.stock(&sheet(0).stock).unwrap_err().code, Code::BorderTooWide);
}

#[test]
fn a_free_window_among_parts_is_found() {
    // Four parts around a window, like a pinwheel.
    let boxes = [[0, 0, 60, 30], [60, 0, 30, 60], [30, 60, 60, 30], [0, 30, 30, 60]].map(|b| b.map(|v| v * MM));
    assert_eq!(offcuts(stock([90 * MM, 90 * MM], 0, 0), &boxes), [[30, 30, 30, 30].map(|v| v * MM)]);
    // What lies off the sheet takes nothing.
    assert_eq!(offcuts(stock([90 * MM, 90 * MM], 0, 0), &[[90, 0, 50, 50].map(|v| v * MM)]).len(), 1);
}

#[test]
fn many_parts_leave_what_they_leave() {
    // 100 x 100 tiles of 9 mm, 1 mm apart, with a corner of 25 x 30 tiles left out.
    let tiles = (0..10_000i64).map(|n| [n % 100, n / 100]).filter(|[x, y]| *x < 75 || *y < 70);
    let boxes: Vec<[i64; 4]> = tiles.map(|[x, y]| [10 * x * MM, 10 * y * MM, 9 * MM, 9 * MM]).collect();
    assert_eq!(offcuts(stock([1000 * MM, 1000 * MM], 0, MM), &boxes), [[750, 700, 250, 300].map(|v| v * MM)]);
}

proptest! {
    #[test]
    fn as_the_slow_way_finds(
        boxes in prop::collection::vec([0i64..19, 0i64..19, 1i64..9, 1i64..9], 0..7),
        (border, gap) in (0i64..6, 0i64..6),
    ) {
        // Places on a coarse grid meet often.
        let boxes: Vec<[i64; 4]> = boxes.iter().map(|b| b.map(|v| v * 10 * MM)).collect();
        let stock = stock([200 * MM, 150 * MM], border * MM, gap * 5 * MM);
        prop_assert_eq!(offcuts(stock, &boxes), slowly(stock, &boxes));
    }
}

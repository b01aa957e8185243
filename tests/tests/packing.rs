//! Strips with known optima (Hopper and Turton 2000; Hopper 2000), laid out by the default effort. The data and their source: `tests/data/packing`.

use dryfit_core::{Item, Layout, LayoutSpec, Nm, Point, Shape, Stock};
use dryfit_tests::{Strip, read_strip, strips};

const MM: i64 = 1_000_000;

fn mm(length: i64) -> Nm {
    Nm::new(length * MM).expect("in range")
}

fn rectangle([width, height]: &[i64; 2]) -> Shape {
    let p = |x, y| Point::new(mm(x), mm(y));
    Shape::from_loops([[p(0, 0), p(*width, 0), p(*width, *height), p(0, *height)]])
}

/// A strip laid out on a sheet of twice the optimum: how high, and the layout.
fn laid_out(strip: &Strip, turns: bool, seed: u64) -> (i64, Layout) {
    let shapes: Vec<Shape> = strip.sizes.iter().map(rectangle).collect();
    let items: Vec<Item<'_>> = shapes.iter().map(|shape| Item::new("r", shape)).collect();
    let stock = Stock::new(mm(1), [mm(strip.width), mm(2 * strip.optimum)], Nm::ZERO, Nm::ZERO).expect("a sheet");
    let layout = LayoutSpec { turns, seed, ..LayoutSpec::default() }.lay_out(&items, &[stock], &mut |_| true).expect("it fits");
    assert!(layout.unplaced.is_empty() && layout.sheets.len() == 1, "{}", strip.name);
    let mut rows: Vec<Vec<bool>> = vec![vec![false; strip.width as usize]; 2 * strip.optimum as usize];
    let mut top = 0;
    for placement in &layout.sheets[0].placements {
        let size = strip.sizes[placement.part];
        let [w, h] = if placement.quarter_turns % 2 == 1 { [size[1], size[0]] } else { size };
        assert!(turns || placement.quarter_turns == 0);
        let (x, y) = (placement.at.x.nm() / MM, placement.at.y.nm() / MM);
        assert_eq!((x * MM, y * MM), (placement.at.x.nm(), placement.at.y.nm()));
        // Every square millimetre once: no other check of overlap is as plain.
        for cell in rows[y as usize..(y + h) as usize].iter_mut().flat_map(|row| &mut row[x as usize..(x + w) as usize]) {
            assert!(!std::mem::replace(cell, true), "{}: overlap", strip.name);
        }
        top = top.max(y + h);
    }
    (top, layout)
}

/// Mean per cent over the optimum.
fn mean(heights: &[(i64, i64)]) -> f64 {
    heights.iter().map(|(height, optimum)| (*height as f64 / *optimum as f64 - 1.0) * 100.0).sum::<f64>() / heights.len() as f64
}

/// How many instances: without optimization, the smaller ones only; `tests/outside/test_packing.py` takes all.
const MANY: usize = if cfg!(debug_assertions) { 9 } else { 21 };

#[test]
fn strips_with_turns_come_close_to_the_optimum() {
    let heights: Vec<_> = strips("hopper_turton_c")[..MANY].iter().map(|strip| (laid_out(strip, true, 0).0, strip.optimum)).collect();
    assert!(heights.iter().all(|(height, optimum)| height >= optimum && *height <= optimum + 1), "{heights:?}");
    assert!(heights[..6].iter().all(|(height, optimum)| height == optimum), "C1 and C2 are solved: {heights:?}");
    assert!(mean(&heights) < 0.6, "{} {heights:?}", mean(&heights));
}

#[test]
fn strips_without_turns_too() {
    let heights: Vec<_> = strips("hopper_t")[..MANY].iter().map(|strip| (laid_out(&shuffled(strip), false, 0).0, strip.optimum)).collect();
    assert!(heights.iter().all(|(height, optimum)| height >= optimum) && mean(&heights) < 5.0, "{} {heights:?}", mean(&heights));
}

/// In no order; the step has no factor in common with any count up to its own.
fn shuffled(strip: &Strip) -> Strip {
    let n = strip.sizes.len();
    Strip { sizes: (0..n).map(|i| strip.sizes[i * 1009 % n]).collect(), ..strip.clone() }
}

#[test]
fn the_same_seed_gives_the_same_layout() {
    let strip = &strips("hopper_turton_c")[6];
    assert_eq!(laid_out(strip, true, 3).1, laid_out(strip, true, 3).1);
}

#[test]
fn all_strips_are_as_printed() {
    let count = |folder| strips(folder).iter().map(|strip| (strip.sizes.len(), strip.width, strip.optimum)).collect::<Vec<_>>();
    // Table 1 of the paper.
    let classes = [([16, 17, 16], 20, 20), ([25, 25, 25], 40, 15), ([28, 29, 28], 60, 30), ([49, 49, 49], 60, 60), ([73, 73, 73], 60, 90)];
    let classes = classes.into_iter().chain([([97, 97, 97], 80, 120), ([196, 197, 196], 160, 240)]);
    let printed: Vec<_> = classes.flat_map(|(counts, width, optimum)| counts.map(|n| (n, width, optimum))).collect();
    assert_eq!(count("hopper_turton_c"), printed);
    assert!(count("hopper_t").iter().all(|(_, width, optimum)| (*width, *optimum) == (200, 200)));
}

#[test]
fn a_file_that_is_not_what_it_says_is_refused() {
    let good = "# A strip width 4 known optimal height 3 items 2 total area 12\n# any comment\nwidth,height\n4,2\n4,1\n";
    let strip = Strip { name: "A".into(), width: 4, optimum: 3, sizes: vec![[4, 2], [4, 1]] };
    assert_eq!(read_strip(good), Ok(strip));
    for (from, to, problem) in [
        ("items 2", "items 3", "2 items, not 3 as the head says"),
        ("4,1", "4,x", "line 5: not a whole number: \"x\""),
        ("4,1", "4,-1", "line 5: -1 is not from 1 to 1000000"),
        ("4,1", "4,0", "line 5: 0 is not from 1 to 1000000"),
        ("4,1", "4,1.5", "line 5: not a whole number: \"1.5\""),
        ("4,1", "4", "line 5: not two numbers: \"4\""),
        ("4,1", "2,1", "total area 10, not 12 as the head says, or more than 4 x 3"),
        ("4,1", "5,6", "line 5: 5 x 6 is wider than the strip of 4"),
        ("strip width", "strip wide", "line 1: not the head of a strip: \"# A strip wide 4 known optimal height 3 items 2 total area 12\""),
        ("width 4", "width -4", "line 1: -4 is not from 1 to 1000000"),
    ] {
        assert_eq!(read_strip(&good.replacen(from, to, 1)), Err(problem.to_string()));
    }
    assert!(read_strip("").is_err());
}

#[test]
fn the_slip_that_other_copies_have_is_found() {
    // One collection has 5 x 14 in C7P3 where the authors print 5 x 24.
    let text = include_str!("../data/packing/hopper_turton_c/C7P3.csv");
    let slipped = text.replacen("5,24", "5,14", 1);
    assert!(read_strip(&slipped).is_err_and(|problem| problem.starts_with("total area 38350, not 38400")));
}

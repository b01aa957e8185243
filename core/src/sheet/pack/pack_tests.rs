//! What is packed is whole, apart, inside and lies as it may; what is left out fits nowhere.

use std::vec;
use std::vec::Vec;

use proptest::prelude::*;

use super::*;

const NANO: i64 = 1_000_000;

fn rects(sizes: &[[i64; 2]]) -> Vec<Rect> {
    sizes.iter().map(|size| Rect { size: size.map(|side| side * NANO) }).collect()
}

fn many(size: [i64; 2]) -> Bin {
    Bin { size: size.map(|side| side * NANO), count: None }
}

fn packed(rects: &[Rect], bins: &[Bin], allowed: &dyn Fn(usize, usize) -> [bool; 2], seed: u64) -> Packing {
    // A short search, counted in calls and so the same each time.
    let mut calls = 0;
    let mut few = |_| {
        calls += 1;
        calls < 8
    };
    pack(rects, bins, allowed, seed, &mut Watch::new(&mut few, false))
}

/// How high a sheet is filled.
fn used(rects: &[Rect], packing: &Packing, sheet: usize) -> i64 {
    let on = packing.spots.iter().filter(|spot| spot.sheet == sheet);
    on.map(|spot| spot.at[1] + rects[spot.rect].lying(spot.turned)[1]).max().unwrap_or(0)
}

/// Corners of a rectangle that lies.
fn corners(rects: &[Rect], spot: &Spot) -> [[i64; 2]; 2] {
    let [width, height] = rects[spot.rect].lying(spot.turned);
    let [x, y] = spot.at;
    [spot.at, [x + width, y + height]]
}

fn apart(a: [[i64; 2]; 2], b: [[i64; 2]; 2]) -> bool {
    (0..2).any(|axis| a[1][axis] <= b[0][axis] || b[1][axis] <= a[0][axis])
}

/// Everything that must hold of every packing, asked of all pairs.
fn check(rects: &[Rect], bins: &[Bin], allowed: &dyn Fn(usize, usize) -> [bool; 2], packing: &Packing) {
    let mut times = vec![0; rects.len()];
    for (i, a) in packing.spots.iter().enumerate() {
        times[a.rect] += 1;
        let bin = packing.sheets[a.sheet];
        assert!(allowed(a.rect, bin)[usize::from(a.turned)], "{a:?} may not lie so");
        let [low, high] = corners(rects, a);
        assert!((0..2).all(|axis| low[axis] >= 0 && high[axis] <= bins[bin].size[axis]), "{a:?} lies outside");
        for b in packing.spots[i + 1..].iter().filter(|b| b.sheet == a.sheet) {
            assert!(apart([low, high], corners(rects, b)), "{a:?} lies on {b:?}");
        }
    }
    packing.unplaced.iter().for_each(|rect| times[*rect] += 1);
    assert!(times.iter().all(|times| *times == 1), "each once: {times:?}");
    assert!((0..packing.sheets.len()).all(|sheet| packing.spots.iter().any(|spot| spot.sheet == sheet)), "no sheet is empty");
    assert!(packing.sheets.is_sorted(), "kinds in their order");
    for (bin, Bin { count, .. }) in bins.iter().enumerate() {
        let taken = packing.sheets.iter().filter(|kind| **kind == bin).count();
        assert!(count.is_none_or(|count| taken <= count as usize));
    }
    for rect in &packing.unplaced {
        assert!(!has_room(rects, bins, allowed, packing, *rect), "{rect} would have fitted");
    }
}

/// Whether a rectangle left out fits on a sheet not taken, or in a hole: a free place can be pushed left and down until it touches something.
fn has_room(rects: &[Rect], bins: &[Bin], allowed: &dyn Fn(usize, usize) -> [bool; 2], packing: &Packing, rect: usize) -> bool {
    (0..bins.len()).any(|bin| {
        [false, true].into_iter().filter(|turned| allowed(rect, bin)[usize::from(*turned)]).any(|turned| {
            let size = rects[rect].lying(turned);
            let inside = |at: [i64; 2]| (0..2).all(|axis| at[axis] + size[axis] <= bins[bin].size[axis]);
            let taken = packing.sheets.iter().filter(|kind| **kind == bin).count();
            let unopened = bins[bin].count.is_none_or(|count| taken < count as usize);
            let hole = |sheet: usize| {
                let lying: Vec<_> = packing.spots.iter().filter(|spot| spot.sheet == sheet).map(|spot| corners(rects, spot)).collect();
                let ends = |axis: usize| lying.iter().map(move |corners| corners[1][axis]).chain([0]);
                ends(0).any(|x| ends(1).any(|y| inside([x, y]) && lying.iter().all(|other| apart(*other, [[x, y], [x + size[0], y + size[1]]]))))
            };
            inside([0, 0]) && (unopened || packing.sheets.iter().enumerate().any(|(sheet, kind)| *kind == bin && hole(sheet)))
        })
    })
}

#[test]
fn nothing_is_packed_on_nothing() {
    assert_eq!(packed(&[], &[many([10, 10])], &|_, _| [true, true], 0), Packing::default());
    let one = rects(&[[3, 2]]);
    assert_eq!(packed(&one, &[], &|_, _| [true, true], 0).unplaced, [0]);
    assert_eq!(packed(&one, &[Bin { count: Some(0), ..many([10, 10]) }], &|_, _| [true, true], 0).unplaced, [0]);
    assert_eq!(packed(&one, &[many([10, 10])], &|_, _| [false, false], 0).unplaced, [0]);
}

#[test]
fn a_rectangle_as_large_as_the_sheet_fits_as_it_may() {
    let one = rects(&[[3, 2]]);
    let spot = Spot { rect: 0, sheet: 0, at: [0, 0], turned: false };
    assert_eq!(packed(&one, &[many([3, 2])], &|_, _| [true, true], 0).spots, [spot]);
    assert_eq!(packed(&one, &[many([2, 3])], &|_, _| [true, true], 0).spots, [Spot { turned: true, ..spot }]);
    assert_eq!(packed(&one, &[many([2, 3])], &|_, _| [true, false], 0).unplaced, [0]);
}

#[test]
fn offcuts_come_first_and_larger_sheets_only_for_what_needs_them() {
    let wanted = rects(&[[4, 4], [4, 4], [4, 4], [9, 9]]);
    let bins = [Bin { count: Some(2), ..many([5, 5]) }, many([10, 10])];
    let packing = packed(&wanted, &bins, &|_, _| [true, true], 0);
    check(&wanted, &bins, &|_, _| [true, true], &packing);
    assert_eq!(packing.sheets, [0, 0, 1, 1]);
}

#[test]
fn of_too_few_sheets_the_most_is_made() {
    // Three of five strips fill the sheet; the large one alone would not.
    let wanted = rects(&[[9, 9], [10, 4], [10, 3], [10, 3], [10, 2]]);
    let bins = [Bin { count: Some(1), ..many([10, 10]) }];
    let packing = packed(&wanted, &bins, &|_, _| [true, false], 0);
    check(&wanted, &bins, &|_, _| [true, false], &packing);
    assert_eq!(packing.unplaced, [0, 4]);
}

#[test]
fn what_would_fit_is_not_left_out() {
    let wanted = rects(&[[19, 7], [6, 6], [4, 4], [10, 23], [19, 3], [5, 18], [8, 2], [3, 12], [5, 1], [23, 16]]);
    let bins = [Bin { count: Some(1), ..many([31, 25]) }, many([8, 8])];
    for seed in 0..10 {
        check(&wanted, &bins, &|_, _| [true, true], &packed(&wanted, &bins, &|_, _| [true, true], seed));
    }
}

#[test]
fn the_last_sheet_is_filled_no_higher_than_need_be() {
    // Nine squares of 10: four and four, and one that needs 10 of the third sheet.
    let wanted = rects(&[[10, 10]; 9]);
    let packing = packed(&wanted, &[many([20, 25])], &|_, _| [true, true], 0);
    assert_eq!((packing.sheets.len(), used(&wanted, &packing, 2)), (3, 10 * NANO));
}

#[test]
fn it_stops_when_told_to_and_has_something_by_then() {
    let wanted = rects(&(1..40).map(|i| [7 + i % 11, 5 + i % 13]).collect::<Vec<_>>());
    let mut calls = 0;
    let stopping = &mut |done: f64| {
        assert!((0.0..=1.0).contains(&done));
        calls += 1;
        false
    };
    let packing = pack(&wanted, &[many([50, 40])], &|_, _| [true, true], 0, &mut Watch::new(stopping, true));
    check(&wanted, &[many([50, 40])], &|_, _| [true, true], &packing);
    assert_eq!(calls, 1);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn every_packing_holds(
        sizes in prop::collection::vec([1i64..30, 1i64..30], 0..14),
        ways in prop::collection::vec(any::<[bool; 2]>(), 14),
        kinds in prop::collection::vec(([8i64..40, 8i64..40], prop::option::of(0u32..3)), 0..4),
        grain in any::<bool>(),
        unit in prop::sample::select(vec![1i64, NANO, 777_777_777]),
        seed in any::<u64>(),
    ) {
        let rects: Vec<Rect> = sizes.iter().map(|size| Rect { size: size.map(|side| side * unit) }).collect();
        let bins: Vec<Bin> = kinds.iter().map(|(size, count)| Bin { size: size.map(|side| side * unit), count: *count }).collect();
        let allowed = |rect: usize, bin: usize| if grain { let [a, b] = ways[rect]; [a, b && bin.is_multiple_of(2)] } else { [true, true] };
        let packing = packed(&rects, &bins, &allowed, seed);
        check(&rects, &bins, &allowed, &packing);
        prop_assert_eq!(packing, packed(&rects, &bins, &allowed, seed));
    }

    #[test]
    fn many_sheets_hold_after_a_whole_search(
        sizes in prop::collection::vec([5i64..30, 5i64..30], 8..17),
        offcuts in prop::option::of(0u32..3),
        seed in any::<u64>(),
    ) {
        let rects = rects(&sizes);
        let bins = [Bin { count: offcuts, ..many([31, 30]) }, many([40, 33])];
        let packing = pack(&rects, &bins, &|_, _| [true, true], seed, &mut Watch::new(&mut |_| true, false));
        check(&rects, &bins, &|_, _| [true, true], &packing);
        prop_assert!(packing.unplaced.is_empty());
    }

    #[test]
    fn odd_nanometres_too(
        rects in prop::collection::vec([1i64..3_000_000_000, 1i64..3_000_000_000], 1..40),
        size in [2_000_000_000i64..10_000_000_000, 2_000_000_000i64..10_000_000_000],
    ) {
        let rects: Vec<Rect> = rects.into_iter().map(|size| Rect { size }).collect();
        let bins = [Bin { size, count: None }];
        check(&rects, &bins, &|_, _| [true, true], &packed(&rects, &bins, &|_, _| [true, true], 1));
    }
}

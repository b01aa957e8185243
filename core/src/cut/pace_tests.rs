use std::string::ToString;
use std::vec::Vec;

use proptest::prelude::*;

use super::{Cost, Pace, Tally, Work};
use crate::cut::contour::Contour;
use crate::cut::machine::{Machine, MachineSpec};
use crate::cut::route::{Route, RouteSpec};
use crate::{BoxSpec, Code, Cutter, Fit, LineKind, Nm, Parts, Placement, Point};

const MM: i64 = 1_000_000;

fn mm(value: f64) -> Nm {
    Nm::from_mm(value).unwrap()
}

/// The lines of a closed cube in 2 mm board on 11 in sheets with a taped border of 6.5 mm: six parts on one sheet where three fit in a row,
/// else four and two.
fn cube(side: f64) -> Vec<Vec<Contour>> {
    let panels = BoxSpec::outside([mm(side); 3], mm(2.0)).assembly().unwrap().panels().unwrap();
    let parts = Parts::cut(&panels, Cutter::blade(Nm::ZERO, Nm::ZERO).unwrap(), Fit::EXACT, Nm::ZERO).unwrap();
    let across = ((11.0 * 25.4 - 2.0 * 6.5) / side) as i64;
    let field = |place: i64| (place / (across * across), place % across, place / across % across);
    let mut sheets: Vec<Vec<Contour>> = Vec::new();
    for (part, place) in parts.iter().zip(0..) {
        let (sheet, column, row) = field(place);
        let along = |fields: i64| mm(6.5 + fields as f64 * side);
        let placed = Placement { at: Point::new(along(column), along(row)), ..Placement::default() }.place(part.path());
        sheets.resize_with(sheets.len().max(sheet as usize + 1), Vec::new);
        sheets[sheet as usize].extend(placed.rings().map(|ring| Contour::closed(LineKind::CutOuter, ring.bent())));
    }
    sheets
}

fn tally(sheets: &[Vec<Contour>]) -> Tally {
    let one = |lines: &Vec<Contour>| Tally::of(&Work { lines, route: &Route::new(lines, &RouteSpec::default()), parts: lines.len() }, 1).unwrap();
    sheets.iter().map(one).sum()
}

/// Common practice, no source: such a cube took 92 minutes at 80 mm and 102 minutes at 120 mm; 80 mm fit one sheet, larger ones two.
#[test]
fn two_cubes_tell_of_those_between() {
    let (small, large) = (tally(&cube(80.0)), tally(&cube(120.0)));
    assert_eq!((small.sheets, large.sheets, small.parts, large.parts), (1, 2, 6, 6));
    let pace = Pace::from_known(&[(small, 92.0), (large, 102.0)]).unwrap();
    let costs = pace.costs().unwrap();
    assert!(costs[0].1 > 0.0 && costs[1].1 > 0.0, "{costs:?}");
    assert!(costs[2..].iter().all(|(_, cost)| *cost == 0.0), "{costs:?}");
    assert!(pace.residuals().iter().all(|residual| residual.abs() < 1e-9) && pace.spread().is_none());
    let sizes: Vec<f64> = (160..=240).map(|half| f64::from(half) / 2.0).collect();
    let minutes: Vec<f64> = sizes
        .iter()
        .map(|&side| {
            let estimate = pace.estimate_tally(&tally(&cube(side))).unwrap();
            assert!(estimate.outside.is_empty(), "{side}: {:?}", estimate.outside);
            estimate.minutes
        })
        .collect();
    assert!((minutes[0] - 92.0).abs() < 1e-9 && (minutes[80] - 102.0).abs() < 1e-9);
    // Half a millimetre more is never less, and never more than what one more pair of fingers a run is longer.
    for (pair, side) in minutes.windows(2).zip(&sizes) {
        assert!(pair[1] > pair[0] && pair[1] - pair[0] < 1.2, "{side}: {pair:?}");
    }
    // No farther from the straight line between both than the fingers' steps reach.
    for (minutes, side) in minutes.iter().zip(&sizes) {
        assert!((minutes - (92.0 + (side - 80.0) / 4.0)).abs() < 1.0, "{side}: {minutes}");
    }
    let outside = |side| pace.estimate_tally(&tally(&cube(side))).unwrap().outside;
    assert_eq!(outside(70.0), [Cost::Cut, Cost::Corners]);
    assert_eq!(outside(130.0), [Cost::Cut, Cost::Corners]);
}

fn works<'a>(sheets: &'a [Vec<Contour>], routes: &'a [Route]) -> Vec<Work<'a>> {
    sheets.iter().zip(routes).map(|(lines, route)| Work { lines, route, parts: lines.len() }).collect()
}

#[test]
fn a_machine_is_a_pace_too() {
    let machine =
        Machine::new(MachineSpec { feed: 20 * MM, travel: 100 * MM, acceleration: 500 * MM, deviation: Nm::ZERO, lift: 400_000, swivel: 0 }).unwrap();
    let sheets = cube(120.0);
    let routes: Vec<Route> = sheets.iter().map(|lines| Route::new(lines, &RouteSpec::default())).collect();
    let job = works(&sheets, &routes);
    let pace = Pace::from(machine);
    let seconds: f64 = job.iter().map(|work| machine.seconds(work.lines, work.route, 2).unwrap()).sum();
    let estimate = pace.estimate(&job, 2).unwrap();
    assert_eq!((estimate.minutes, estimate.spread, estimate.outside.len()), (seconds / 60.0, None, 0));
    assert_eq!((pace.machine(), pace.costs(), pace.known().len()), (Some(machine), None, 0));
    assert_eq!(pace.estimate(&job, 0).unwrap_err().parameter, "passes");
    // And known jobs of this machine give it back: they cost in length, starts, corners and travel.
    let known: Vec<(Tally, f64)> = [60.0, 75.0, 80.0, 95.0, 100.0, 110.0, 120.0]
        .map(|side| {
            let sheets = cube(side);
            let routes: Vec<Route> = sheets.iter().map(|lines| Route::new(lines, &RouteSpec::default())).collect();
            let job = works(&sheets, &routes);
            (tally(&sheets), pace.estimate(&job, 1).unwrap().minutes)
        })
        .to_vec();
    let learnt = Pace::from_known(&known).unwrap();
    let (by_known, by_machine) = (learnt.estimate(&job, 1).unwrap(), pace.estimate(&job, 1).unwrap());
    assert!((by_known.minutes / by_machine.minutes - 1.0).abs() < 0.01, "{by_known:?} {by_machine:?}");
    assert!(by_known.spread.unwrap() < 0.01 * by_known.minutes);
}

fn job(cut: i64, parts: i64, corners: i64) -> Tally {
    Tally { cut: cut * MM, parts, starts: parts, corners, travel: 0, sheets: 1 }
}

#[test]
fn what_tells_nothing_is_named() {
    let (a, b) = (job(1000, 6, 100), job(2000, 6, 150));
    let refused = |known: &[(Tally, f64)]| {
        let failure = Pace::from_known(known).unwrap_err();
        (failure.error.code, failure.to_string())
    };
    assert_eq!(refused(&[]).1, "known: 0 given, allowed 2 to 10000");
    assert_eq!(refused(&[(a, 5.0)]).1, "known: 1 given, allowed 2 to 10000");
    assert_eq!(refused(&[(a, 5.0), (b, 0.0)]).1, "known[1]: minutes: 0 min given, allowed 0.000001 min to 1000000 min");
    assert_eq!(refused(&[(a, -5.0), (b, 7.0)]).1, "known[0]: minutes: -5 min given, allowed 0.000001 min to 1000000 min");
    for minutes in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let (code, text) = refused(&[(a, 5.0), (b, minutes)]);
        assert_eq!(code, Code::NotFinite);
        assert!(text.starts_with("known[1]: minutes, allowed 0.000001 min"), "{text}");
    }
    // Of one size, however it was laid out.
    let again = Tally { travel: 77, sheets: 2, ..a };
    assert_eq!(refused(&[(a, 5.0), (again, 6.0), (a, 5.0)]).0, Code::KnownAlike);
    assert_eq!(refused(&[(a, 5.0), (a, 5.0)]).0, Code::KnownAlike);
}

#[test]
fn simple_explanations_are_taken() {
    let costs = |known: &[(Tally, f64)]| Pace::from_known(known).unwrap().costs().unwrap().map(|(_, cost)| cost);
    let near = |found: [f64; 6], wanted: [f64; 6]| assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
    // In proportion to the length: nothing else is needed.
    near(costs(&[(job(1000, 6, 100), 5.0), (job(2000, 6, 150), 10.0)]), [5.0, 0.0, 0.0, 0.0, 0.0, 0.0]);
    // Corners beside the length, where parts say nothing.
    near(costs(&[(job(1000, 6, 100), 5.0), (job(2000, 12, 100), 8.0), (job(3000, 18, 400), 17.0)]), [3.0, 0.0, 0.0, 0.02, 0.0, 0.0]);
    // The longer one took less: the length alone cannot be, and nothing costs less than nothing.
    let odd = Pace::from_known(&[(job(1000, 9, 100), 9.0), (job(2000, 6, 150), 6.0)]).unwrap();
    near(odd.costs().unwrap().map(|(_, cost)| cost), [0.0, 1.0, 0.0, 0.0, 0.0, 0.0]);
    // Three jobs, of which two costs explain all but a little: one is left to tell how sure it is.
    let known = [(job(1000, 6, 100), 11.0), (job(2000, 6, 150), 16.1), (job(3000, 6, 190), 20.9)];
    let pace = Pace::from_known(&known).unwrap();
    assert_eq!(pace.costs().unwrap().iter().filter(|(_, cost)| *cost > 0.0).count(), 2);
    assert!(pace.spread().is_some_and(|spread| spread > 0.0 && spread < 0.2));
}

/// A line through points: the standard errors that every handbook of statistics has, s² = Σr² / (n - 2) and, of one more value at x,
/// s² (1 + 1/n + (x - mean)² / Σ(x - mean)²).
#[test]
fn spreads_are_those_of_a_line() {
    let known: Vec<(Tally, f64)> =
        [(1000, 8.3), (1500, 9.6), (2200, 12.4), (3100, 15.2), (4000, 18.1)].map(|(cut, minutes)| (job(cut, 1, 7), minutes)).to_vec();
    let pace = Pace::from_known(&known).unwrap();
    let x: Vec<f64> = known.iter().map(|(tally, _)| tally.cut as f64 / 1e9).collect();
    let (n, mean) = (x.len() as f64, x.iter().sum::<f64>() / x.len() as f64);
    let squares: f64 = x.iter().map(|x| (x - mean) * (x - mean)).sum();
    let slope: f64 = known.iter().zip(&x).map(|((_, y), x)| y * (x - mean)).sum::<f64>() / squares;
    let start = known.iter().map(|(_, y)| y).sum::<f64>() / n - slope * mean;
    let s = (known.iter().zip(&x).map(|((_, y), x)| (y - start - slope * x).powi(2)).sum::<f64>() / (n - 2.0)).sqrt();
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
    near(pace.costs().unwrap()[0].1, slope);
    near(pace.costs().unwrap()[1].1, start);
    near(pace.spread().unwrap(), s);
    for cut in [500, 2360, 9000] {
        let at = cut as f64 / 1000.0;
        let estimate = pace.estimate_tally(&job(cut, 1, 7)).unwrap();
        near(estimate.minutes, start + slope * at);
        near(estimate.spread.unwrap(), s * (1.0 + 1.0 / n + (at - mean).powi(2) / squares).sqrt());
    }
}

#[test]
fn travel_and_sheets_lie_outside_only_where_they_cost() {
    let a = Tally { travel: 10 * MM, ..job(1000, 6, 100) };
    let b = Tally { travel: 20 * MM, ..job(2000, 6, 150) };
    let pace = Pace::from_known(&[(a, 5.0), (b, 8.0)]).unwrap();
    let far = Tally { travel: 90 * MM, sheets: 7, ..job(1500, 6, 120) };
    assert_eq!(pace.estimate_tally(&far).unwrap().outside, []);
    let pace = Pace::from_known(&[(a, 5.0), (Tally { sheets: 3, ..b }, 15.0)]).unwrap();
    assert!(pace.costs().unwrap()[5].1 > 0.0);
    assert_eq!(pace.estimate_tally(&far).unwrap().outside, [Cost::Sheets]);
}

#[test]
fn passes_multiply_what_is_cut() {
    let lines = cube(80.0).remove(0);
    let route = Route::new(&lines, &RouteSpec::default());
    let work = Work { lines: &lines, route: &route, parts: 6 };
    let (one, three) = (Tally::of(&work, 1).unwrap(), Tally::of(&work, 3).unwrap());
    assert_eq!((three.cut, three.starts, three.corners), (3 * one.cut, 3 * one.starts, 3 * one.corners));
    assert_eq!((three.parts, three.travel, three.sheets, one.travel), (6, one.travel, 1, route.travel()));
    assert_eq!(Tally::of(&work, 0).unwrap_err().parameter, "passes");
}

proptest! {
    /// Any jobs give a pace whose costs are not negative, or a refusal; estimates are numbers, and known jobs are not outside.
    #[test]
    fn any_jobs_give_costs(jobs in prop::collection::vec((1i64..100_000, 1i64..50, 1i64..5000, 1i64..9, 0.1..500.0f64), 2..9)) {
        let known: Vec<(Tally, f64)> = jobs.iter().map(|&(cut, parts, corners, sheets, minutes)| (Tally { sheets, ..job(cut, parts, corners) }, minutes)).collect();
        let Ok(pace) = Pace::from_known(&known) else { return Ok(()) };
        let costs = pace.costs().unwrap();
        prop_assert!(costs.iter().all(|(_, cost)| cost.is_finite() && *cost >= 0.0));
        let taken = costs.iter().filter(|(_, cost)| *cost > 0.0).count();
        let most = if known.len() > 2 { known.len() - 1 } else { 2 };
        prop_assert!(taken >= 1 && taken <= most);
        for ((tally, minutes), residual) in known.iter().zip(pace.residuals()) {
            let estimate = pace.estimate_tally(tally).unwrap();
            prop_assert!((estimate.minutes + residual - minutes).abs() < 1e-6);
            prop_assert!(estimate.outside.is_empty() && estimate.spread.is_none_or(|spread| spread >= pace.spread().unwrap()));
        }
    }
}

use super::*;
use crate::{Fit, Profile, Vertex};
use proptest::prelude::*;
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn mm(value: i64) -> Nm {
    nm(value * 1_000_000)
}

fn slope(rise: u32, run: u32) -> Ratio {
    Ratio::new(rise, run).unwrap()
}

fn line(pattern: Pattern, side: Side, depth: Nm, fit: Fit, kerf: Nm) -> Vec<(i64, i64)> {
    Profile::new(pattern, side, depth, fit, kerf).unwrap().vertices().map(|v: Vertex| (v.at.x.nm(), v.at.y.nm())).collect()
}

/// DT-18, DT-19: a tail of neck a, length L, slope s has head a + 2 L s, area L (a + L s), flank L sqrt(1 + s^2). Derived, plane geometry.
#[test]
fn a_tail_by_neck_length_and_slope() {
    for (neck, length, (rise, run), head, area, flank) in [(20, 15, (1, 6), 25.0, 337.5, 15.206_906), (20, 16, (1, 8), 24.0, 352.0, 16.124_515)] {
        // At mid-depth the tail is neck + L s wide; the pin takes the rest of the run.
        let middle = 1_000_000 * neck + 1_000_000 * length * rise / run;
        let total = mm(60);
        let tails = Tails::new(1, slope(rise as u32, run as u32)).pin_width(nm(total.nm() - middle));
        let points = line(tails.pattern(total, mm(length)).unwrap(), Side::A, mm(length), Fit::EXACT, Nm::ZERO);
        let (tip, base) = (&points[2..4], [points[1], points[4]]);
        assert_eq!((tip[1].0 - tip[0].0) as f64 / 1e6, head);
        assert_eq!((base[1].0 - base[0].0) / 1_000_000, neck);
        assert_eq!(((tip[1].0 - tip[0].0 + base[1].0 - base[0].0) as f64 / 2e6) * length as f64, area);
        let (dx, dy) = ((points[2].0 - points[1].0) as f64 / 1e6, (points[2].1 - points[1].1) as f64 / 1e6);
        assert!((dx.hypot(dy) - flank).abs() < 1e-6);
    }
}

/// DT-1 to DT-3, DT-5: the angle of a leaning flank. Fairham p. 134 (1:8), his limit 1:6, Noyes No. 48 (5:24); 1:7 is arithmetic.
#[test]
fn flanks_lean_by_the_handbooks_angles() {
    for ((rise, run), degrees) in [((1, 8), 7.125_016), ((1, 6), 9.462_322), ((5, 24), 11.768_289), ((1, 7), 8.130_102)] {
        let depth = mm(168);
        let pattern = Tails::new(1, slope(rise, run)).pattern(mm(400), depth).unwrap();
        let points = line(pattern, Side::B, depth, Fit::EXACT, Nm::ZERO);
        let (dx, dy) = ((points[2].0 - points[1].0) as f64, (points[2].1 - points[1].1) as f64);
        assert!(((dx / dy).abs().atan().to_degrees() - degrees).abs() < 1e-6, "{rise}:{run}");
    }
}

/// DT-11, DT-12: Noyes No. 48 on 120 mm, 5 tails, t = 12 mm: widths at the baseline and at the end.
#[test]
fn corner_setting_out_by_noyes() {
    for (socket, ratio, tail, tail_end, socket_end) in [(8, (1, 8), 16, 19_000, 5_000), (12, (1, 6), 12, 16_000, 8_000)] {
        let (depth, rise) = (mm(12), 12_000_000 * i64::from(ratio.0) / i64::from(ratio.1));
        // His socket is widest at the baseline; at mid-depth it is narrower by the rise of one flank.
        let tails = Tails::new(5, slope(ratio.0, ratio.1)).pin_width(nm(socket * 1_000_000 - rise));
        let points = line(tails.pattern(mm(120), depth).unwrap(), Side::A, depth, Fit::EXACT, Nm::ZERO);
        // Vertices 2 and 3 are the first tail's end, 1 and 4 its neck at the baseline, 4 and 5 the socket beside it.
        assert_eq!(points[3].0 - points[2].0, tail_end * 1_000);
        assert_eq!(points[4].0 - points[1].0, tail * 1_000_000);
        assert_eq!(points[5].0 - points[4].0, socket * 1_000_000);
        assert_eq!(points[6].0 - points[3].0, socket_end * 1_000);
        assert_eq!(points[1].0, socket * 500_000, "half a socket at the edge");
        assert_eq!(points[2].0, socket_end * 500);
    }
}

proptest! {
    /// Moved together, the two sides share every vertex: they tile exactly, whatever the rounding.
    #[test]
    fn mates_share_their_vertices(run in 50_000_000i64..900_000_000, depth in 1_000_001i64..40_000_000, count in 1u32..12, run_of in 4u32..13, tails: bool) {
        let half = if tails { Half::Tails } else { Half::Pins };
        let Ok(pattern) = Tails::new(count, slope(1, run_of)).half(half).pattern(nm(run), nm(depth)) else { return Ok(()) };
        let a = line(pattern, Side::A, nm(depth), Fit::EXACT, Nm::ZERO);
        let b = line(pattern, Side::B, nm(depth), Fit::EXACT, Nm::ZERO);
        for (i, (p, q)) in a.iter().zip(&b).enumerate().skip(1).take(a.len() - 2) {
            prop_assert_eq!((p.0, p.1), (q.0, depth - q.1), "vertex {}", i);
        }
        let owns_end = pattern.first() == Side::A;
        prop_assert_eq!(owns_end, tails);
        prop_assert_eq!(pattern.first(), pattern.last());
    }

    /// A flank allowance opens every leaning flank by that much, measured square to it, to a nanometre at each rounded end.
    #[test]
    fn allowances_are_square_to_the_flank(run in 90_000_000i64..900_000_000, depth in 5_000_000i64..20_000_000, count in 1u32..5, run_of in 4u32..13, flank in 0i64..300_000, kerf in 0i64..300_000) {
        let fit = Fit::new(nm(flank), Nm::ZERO, Nm::ZERO).unwrap();
        let Ok(pattern) = Tails::new(count, slope(1, run_of)).pattern(nm(run), nm(depth)) else { return Ok(()) };
        let plain = line(pattern, Side::A, nm(depth), Fit::EXACT, Nm::ZERO);
        for (side, share) in [(Side::A, flank.div_euclid(2)), (Side::B, flank - flank.div_euclid(2))] {
            let moved = line(pattern, side, nm(depth), fit, nm(kerf));
            let flip = |(x, y): (i64, i64)| if side == Side::A { (x as f64, y as f64) } else { (x as f64, (depth - y) as f64) };
            for i in (1..plain.len() - 2).step_by(2) {
                let ((ax, ay), (bx, by)) = ((plain[i].0 as f64, plain[i].1 as f64), (plain[i + 1].0 as f64, plain[i + 1].1 as f64));
                for end in [moved[i], moved[i + 1]] {
                    let (x, y) = flip(end);
                    let away = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)).abs() / (bx - ax).hypot(by - ay);
                    let asked = (kerf.div_euclid(2) - share).abs() as f64;
                    prop_assert!((away - asked).abs() < 1.6, "{} for {}", away, asked);
                }
            }
        }
    }
}

#[test]
fn tails_that_come_to_a_point_are_refused() {
    let error = Tails::new(10, slope(1, 4)).pattern(mm(40), mm(30)).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::FingersDoNotFit, "slope times depth"));
    let error = Tails::new(2, slope(1, 8)).pin_width(mm(20)).pattern(mm(40), mm(10)).unwrap_err();
    assert_eq!((error.code, error.parameter), (Code::FingersDoNotFit, "pin width"));
    assert_eq!(Tails::new(0, slope(1, 8)).pattern(mm(40), mm(10)).unwrap_err().code, Code::OutOfRange);
}

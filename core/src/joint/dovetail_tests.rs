use super::*;
use crate::{Fit, Side};
use proptest::prelude::*;
use std::string::ToString;
use std::vec::Vec;

const INCH: i64 = 25_400_000;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn mm(value: i64) -> Nm {
    nm(value * 1_000_000)
}

fn ratio(rise: u32, run: u32) -> Ratio {
    Ratio::new(rise, run).unwrap()
}

/// The corner of the published cases: both boards 12 mm, 120 mm wide.
fn corner(count: u32, socket: i64, slope: (u32, u32)) -> DovetailCorner {
    DovetailCorner::new(mm(120), mm(12), mm(12), count, ratio(slope.0, slope.1)).socket(mm(socket))
}

fn flanks(layout: &DovetailLayout, surface: Surface) -> Vec<LayoutLine> {
    layout.lines().filter(|line| line.surface == surface && line.stroke == Stroke::Flank).collect()
}

fn degrees(line: &LayoutLine) -> f64 {
    let (dx, dy) = ((line.to.x - line.from.x).mm(), (line.to.y - line.from.y).mm());
    (dx / dy).abs().atan().to_degrees()
}

/// DT-1 to DT-8: the angle of every slope, on the tail board's face and on the pin board's end grain. 1:8 Fairham p. 134 Fig. 271, 1:6 his
/// steepest, 5:24 Noyes No. 48 Fig. 250, the others arithmetic; 9.5 degrees is 1:5.9758, so it is but a rounding of 1:6.
#[test]
fn slopes_lean_by_their_angles() {
    let cases = [
        ((1, 8), 7.125_016),
        ((1, 6), 9.462_322),
        ((5, 24), 11.768_289),
        ((1, 5), 11.309_932),
        ((1, 7), 8.130_102),
        ((1, 10), 5.710_593),
        ((1, 12), 4.763_642),
        ((10_000, 59_758), 9.5),
    ];
    for ((rise, run), angle) in cases {
        let tolerance = if run == 59_758 { 1e-4 } else { 1e-6 };
        let layout = DovetailCorner::new(mm(400), mm(20), mm(168), 1, ratio(rise, run)).layout().unwrap();
        for surface in [Surface::TailOuter, Surface::TailInner, Surface::PinEnd] {
            let lines = flanks(&layout, surface);
            assert_eq!(lines.len(), 2);
            assert!(lines.iter().all(|line| (degrees(line) - angle).abs() < tolerance), "{rise}:{run} {surface:?}");
        }
        // DT-3: the other angle of the triangle.
        assert!(rise != 5 || (90.0 - degrees(&flanks(&layout, Surface::PinEnd)[0]) - 78.231_711).abs() < 1e-6);
    }
}

/// DT-9: 1:6 for softwood and 1:8 for hardwood (common trade rule), printed as 9.5 and 7.1 degrees (Popular Woodworking, "Dovetail layout: what
/// ratio or degree"): neither is warned of, what lies outside is. DT-2, DT-3: Fairham's "on no account" beyond 1:6, and Noyes's 5:24 beyond it.
#[test]
fn slopes_between_the_handbooks_pass() {
    for ((rise, run), expected, printed) in [
        ((1, 6), None, "9.5"),
        ((1, 8), None, "7.1"),
        ((1, 7), None, "8.1"),
        ((5, 24), Some(true), "11.8"),
        ((1, 5), Some(true), "11.3"),
        ((1, 9), Some(false), "6.3"),
    ] {
        let layout = corner(5, 8, (rise, run)).layout().unwrap();
        let slope = ratio(rise, run);
        let wanted = expected.map(|steep| if steep { DovetailWarning::SlopeSteep(slope) } else { DovetailWarning::SlopeFlat(slope) });
        assert_eq!(layout.warnings().collect::<Vec<_>>(), wanted.into_iter().collect::<Vec<_>>());
        assert_eq!(std::format!("{:.1}", degrees(&flanks(&layout, Surface::TailOuter)[0])), printed);
    }
}

/// DT-10: Noyes No. 48 in inches: 6 in wide, 4 tails, sockets 3/4 in, 1/2 in boards, 5:24.
#[test]
fn noyes_in_inches() {
    let corner = DovetailCorner::new(nm(6 * INCH), nm(INCH / 2), nm(INCH / 2), 4, ratio(5, 24)).socket(nm(INCH * 3 / 4));
    let widths = corner.layout().unwrap().widths();
    let inches = |pair: [Nm; 2]| pair.map(|width| width.nm() as f64 / INCH as f64);
    for (found, wanted) in [(widths.tail, [0.75, 0.958_333_3]), (widths.socket, [0.75, 0.541_666_7]), (widths.half_socket, [0.375, 0.270_833_3])] {
        assert!(inches(found).iter().zip(wanted).all(|(a, b)| (a - b).abs() < 1e-7), "{found:?}");
    }
}

/// DT-11 to DT-13: Noyes No. 48 in mm: widths of tails, sockets and the half sockets at the edges, at the baseline and at the end.
#[test]
fn noyes_in_millimetres() {
    for (count, socket, slope, tail, narrow, half) in [
        (5, 8, (1, 8), [16_000, 19_000], 5_000, [4_000, 2_500]),
        (5, 12, (1, 6), [12_000, 16_000], 8_000, [6_000, 4_000]),
        (3, 8, (1, 8), [32_000, 35_000], 5_000, [4_000, 2_500]),
    ] {
        let layout = corner(count, socket, slope).layout().unwrap();
        let widths = layout.widths();
        assert_eq!(widths.tail, tail.map(|um| nm(um * 1000)));
        assert_eq!(widths.socket, [mm(socket), nm(narrow * 1000)]);
        assert_eq!(widths.half_socket, half.map(|um| nm(um * 1000)));
        assert_eq!(layout.warnings().count(), 0);
        // "The strongest": tails as wide as sockets at the baseline is what comes of leaving the width out.
        if tail[0] == 12_000 {
            assert_eq!(DovetailCorner { socket: None, ..corner(count, socket, slope) }.layout(), Ok(layout));
        }
    }
}

/// DT-13, DT-14: tails four times as wide as the sockets pass, a nanometre less socket does not; 1 3/4 in passes, a nanometre more does not (Noyes).
#[test]
fn tails_as_wide_as_noyes_allows() {
    assert_eq!(corner(3, 8, (1, 8)).layout().unwrap().warnings().count(), 0);
    let over = corner(3, 8, (1, 8)).socket(nm(7_999_999)).layout().unwrap();
    let tail = nm(32_000_001);
    assert_eq!(over.warnings().collect::<Vec<_>>(), [DovetailWarning::TailOverFourSockets { tail, socket: nm(7_999_999) }]);
    let wide =
        |more: i64| DovetailCorner::new(nm(2 * (44_450_000 + 20_000_000) + more), mm(12), mm(12), 2, ratio(1, 8)).socket(mm(20)).layout().unwrap();
    assert_eq!(wide(0).warnings().count(), 0);
    assert_eq!(wide(2).warnings().collect::<Vec<_>>(), [DovetailWarning::TailWide(nm(44_450_001))]);
}

/// DT-15: a pin's narrow edge of 1/16 in passes, a nanometre less does not (Griffith, section 100).
#[test]
fn pins_as_narrow_as_griffith_allows() {
    let narrow = |less| corner(12, 8, (1, 8)).socket(nm(3_000_000 + INCH / 16 - less)).layout().unwrap();
    assert_eq!(narrow(0).warnings().count(), 0);
    let said: Vec<_> = narrow(1).warnings().map(|warning| warning.to_string()).collect();
    assert_eq!(
        said,
        ["pin width at the narrow edge: 1.587499 mm given, advised at least 1.5875 mm (Griffith, Essentials of Woodworking, section 100)"]
    );
}

/// DT-16: a front lap of 1/4 in (Fairham, "Lap-dovetailing", Gauging): the tails are so much shorter, nothing shows on the outer face.
#[test]
fn a_lap_hides_the_tails() {
    assert_eq!(DovetailCorner::FRONT_LAP.nm() * 4, INCH);
    let board = nm(INCH * 7 / 8);
    let layout = DovetailCorner::new(mm(100), mm(9), board, 3, ratio(1, 8)).lapped(DovetailCorner::FRONT_LAP).layout().unwrap();
    assert_eq!(layout.tail_length().nm(), INCH * 5 / 8);
    assert_eq!(layout.pin_length(), mm(9));
    assert!(layout.lines().all(|line| line.surface != Surface::PinOuter));
    let laps: Vec<_> = layout.lines().filter(|line| line.stroke == Stroke::Lap).collect();
    assert_eq!(laps.len(), 1);
    assert_eq!((laps[0].surface, board - laps[0].from.y), (Surface::PinEnd, DovetailCorner::FRONT_LAP));
    assert!(flanks(&layout, Surface::PinEnd).iter().all(|line| line.to.y == laps[0].from.y));
    for (lap, text) in
        [(board, "lap: 22.225 mm given, allowed 0.000001 mm to 22.224999 mm"), (Nm::ZERO, "lap: 0 mm given, allowed 0.000001 mm to 22.224999 mm")]
    {
        assert_eq!(DovetailCorner::new(mm(100), mm(9), board, 3, ratio(1, 8)).lapped(lap).layout().unwrap_err().to_string(), text);
    }
}

/// DT-17: the baseline may lie 1/32 in deeper than the mate's thickness (Fairham, Noyes), and no more. The pin board's lines stay in its thickness.
#[test]
fn the_gauge_may_be_set_deeper() {
    let layout = corner(5, 8, (1, 8)).gauge(nm(INCH / 32)).layout().unwrap();
    assert_eq!([layout.tail_length(), layout.pin_length()].map(Nm::nm), [12_793_750; 2]);
    let plain = corner(5, 8, (1, 8)).layout().unwrap();
    assert_eq!(flanks(&layout, Surface::PinEnd), flanks(&plain, Surface::PinEnd));
    assert_eq!(layout.widths().tail, [mm(16), nm(16_000_000 + 2 * 1_599_219)]);
    let lapped = corner(5, 8, (1, 8)).lapped(mm(4)).gauge(nm(INCH / 32)).layout().unwrap();
    assert_eq!([lapped.tail_length(), lapped.pin_length()].map(Nm::nm), [8_000_000, 12_793_750]);
    let error = corner(5, 8, (1, 8)).gauge(nm(INCH / 32 + 1)).layout().unwrap_err();
    assert_eq!(error.to_string(), "gauge allowance: 0.793751 mm given, allowed 0 mm to 0.79375 mm");
}

/// Fairham, Fig. 303: on the pin board the flanks lean on the end grain only; on its faces they stand square, and pins are narrower outside.
#[test]
fn pins_are_square_on_the_faces() {
    let layout = corner(5, 8, (1, 8)).layout().unwrap();
    let (outer, inner, end) = (flanks(&layout, Surface::PinOuter), flanks(&layout, Surface::PinInner), flanks(&layout, Surface::PinEnd));
    assert_eq!((outer.len(), inner.len(), end.len()), (10, 10, 10));
    for ((outer, inner), end) in outer.iter().zip(&inner).zip(&end) {
        assert!(outer.from.x == outer.to.x && inner.from.x == inner.to.x);
        assert_eq!((end.from.x, end.to.x), (inner.to.x, outer.to.x));
        assert_eq!((end.from.y, end.to.y), (Nm::ZERO, mm(12)));
    }
    let pin = |lines: &[LayoutLine]| lines[2].from.x - lines[1].from.x;
    assert_eq!((pin(&outer), pin(&inner)), (mm(5), mm(8)));
    // Marks on the pin board, without exception.
    assert!(layout.lines().filter(LayoutLine::may_cut).all(|line| matches!(line.surface, Surface::TailOuter | Surface::TailInner)));
    assert_eq!(layout.lines().filter(LayoutLine::may_cut).count(), 20);
}

#[test]
fn what_cannot_be_set_out_is_refused() {
    let said = |corner: DovetailCorner| corner.layout().unwrap_err().to_string();
    let closes = "neighbouring tails meet at their ends, or neighbouring sockets at the baseline";
    // The slope takes 1.5 mm off either side of a socket.
    assert_eq!(said(corner(5, 3, (1, 8))), std::format!("socket width: 3 mm given, allowed 3.000002 mm to 23.999999 mm: {closes}"));
    assert_eq!(said(corner(5, 24, (1, 8))), std::format!("socket width: 24 mm given, allowed 3.000002 mm to 23.999999 mm: {closes}"));
    assert_eq!(said(corner(50, 3, (1, 8))), std::format!("tail count: 50 given, allowed 1 to 39: {closes}"));
    assert_eq!(said(corner(1, 8, (9, 1))), std::format!("slope times depth: 108 mm given, allowed 0 mm to 59.999998 mm: {closes}"));
    let plain = DovetailCorner { socket: None, ..corner(20, 8, (1, 8)) };
    assert_eq!(said(plain), std::format!("tail count: 20 given, allowed 1 to 19: {closes}"));
    assert_eq!(
        said(DovetailCorner { count: 1, slope: ratio(5, 1), ..plain }),
        std::format!("slope times depth: 60 mm given, allowed 0 mm to 29.999999 mm: {closes}")
    );
    assert_eq!(said(corner(0, 8, (1, 8))), "tail count: 0 given, allowed 1 to 100000");
    assert_eq!(said(corner(5, 8, (0, 8))), "slope rise: 0 given, allowed 1 to 1000000");
    let thick = DovetailCorner { tail_board: mm(201), ..corner(5, 8, (1, 8)) };
    assert_eq!(said(thick), "tail board: 201 mm given, allowed 0.01 mm to 200 mm");
    assert_eq!(said(DovetailCorner { pin_board: Nm::ZERO, ..corner(5, 8, (1, 8)) }), "pin board: 0 mm given, allowed 0.01 mm to 200 mm");
    assert_eq!(said(DovetailCorner { width: Nm::ZERO, ..corner(5, 8, (1, 8)) }), "width: 0 mm given, allowed 0.001 mm to 10000 mm");
}

proptest! {
    /// Along the baseline and along the end, tails and sockets add up to the width; all of them are there; the profile has the same corners.
    #[test]
    fn widths_add_up_and_the_profile_is_the_lines(
        width in 1_000i64..10_000_000_000, thick in 10_000i64..200_000_000, count in 1u32..40, run in 1u32..13, socket in prop::option::of(1i64..300_000_000), lap in prop::option::of(1i64..100_000_000),
    ) {
        let mut corner = DovetailCorner::new(nm(width), nm(thick), nm(thick), count, ratio(1, run));
        corner.socket = socket.map(nm);
        corner.lap = lap.map(nm);
        let layout = match corner.layout() {
            Ok(layout) => layout,
            Err(error) => {
                // Every refusal has a range, and a value outside it.
                let (crate::Amount::Length(given) | crate::Amount::Count(given)) = error.given() else { panic!("{error}") };
                let (crate::Amount::Length(least) | crate::Amount::Count(least)) = error.least() else { panic!("{error}") };
                let (crate::Amount::Length(most) | crate::Amount::Count(most)) = error.most() else { panic!("{error}") };
                prop_assert!(least <= most && !(least..=most).contains(&given), "{}", error);
                prop_assert!(error.code != Code::FingersDoNotFit && error.code != Code::TabsDoNotFit, "{}", error);
                return Ok(());
            }
        };
        let lines = flanks(&layout, Surface::TailOuter);
        prop_assert_eq!(lines.len(), 2 * count as usize);
        for place in [|line: &LayoutLine| line.from.x, |line: &LayoutLine| line.to.x] {
            let stations: Vec<_> = std::iter::once(Nm::ZERO).chain(lines.iter().map(place)).chain([nm(width)]).collect();
            prop_assert!(stations.is_sorted_by(|a, b| a < b));
        }
        let profile: Vec<_> = layout.tail_profile(Fit::EXACT, Nm::ZERO).unwrap().vertices().map(|v| v.at).collect();
        let corners: Vec<_> = lines.iter().enumerate().flat_map(|(i, line)| if i % 2 == 0 { [line.from, line.to] } else { [line.to, line.from] }).collect();
        prop_assert_eq!(&profile[1..profile.len() - 1], &corners[..]);
        prop_assert_eq!(layout.pattern.first(), Side::B);
    }
}

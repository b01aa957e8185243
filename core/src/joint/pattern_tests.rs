use super::*;
use crate::{Code, Fingers, Halves, Parity, Tabs};
use proptest::prelude::*;
use std::string::ToString;
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

fn any_pattern() -> impl Strategy<Value = Pattern> {
    let run = 1i64..=10_000_000_000;
    prop_oneof![
        (run.clone(), 1u32..=400, any::<bool>()).prop_filter_map("fits", |(run, n, b)| {
            let first = if b { Side::A } else { Side::B };
            Fingers::count(n).first(first).pattern(nm(run), nm(1)).ok().or_else(|| Fingers::count(n).least(nm(1000)).pattern(nm(run), nm(1000)).ok())
        }),
        (run.clone(), 1_000i64..100_000_000, 1_000i64..100_000_000)
            .prop_filter_map("fits", |(run, w, s)| Tabs::new(nm(w), nm(s)).pattern(nm(run)).ok()),
        (run.clone(), 1u32..100, 1u32..100).prop_filter_map("fits", |(run, p, q)| Halves::split(Ratio::new(p, p + q).unwrap()).pattern(nm(run)).ok()),
        run.prop_map(|run| Pattern::whole(nm(run), Side::B).unwrap()),
    ]
}

#[test]
fn fingers_never_have_no_width() {
    let far = (0..100).fold(Nm::MAX, |sum, _| sum + sum);
    let code = |fingers: Fingers, run, thick| fingers.pattern(nm(run), thick).unwrap_err().code;
    // Three spans need three nanometres, whatever the least width says.
    assert_eq!(code(Fingers::through_face(), 2, nm(10_000)), Code::RunTooShort);
    assert_eq!(Fingers::through_face().pattern(nm(3), nm(10_000)).unwrap().spans().len(), 3);
    assert_eq!(Fingers::through_face().parity(Parity::Even).pattern(nm(100), nm(100)).unwrap().spans().len(), 4);
    // The default width needs a thickness, even where the least width does not.
    assert_eq!(code(Fingers::default().least(nm(1)), 100, nm(0)), Code::OutOfRange);
    assert_eq!(code(Fingers::default().least(nm(1)), 100, far), Code::OutOfRange);
    assert_eq!(
        Fingers::count(9).pattern(nm(10), nm(20)).unwrap_err().to_string(),
        "run: 0.00001 mm given, allowed 0.00002 mm to 10000 mm: the run is shorter than the smallest number of fingers at the least width"
    );
}

proptest! {
    #[test]
    fn spans_add_up_to_the_run_and_alternate(pattern in any_pattern()) {
        let mut at = Nm::ZERO;
        let mut owner = pattern.first();
        for span in pattern.spans() {
            prop_assert_eq!(span.from, at);
            prop_assert_eq!(span.owner, owner);
            prop_assert!(span.to > span.from, "{:?}", pattern);
            at = span.to;
            owner = owner.other();
        }
        prop_assert_eq!(at, pattern.run());
        prop_assert_eq!(owner.other(), pattern.last());
    }

    #[test]
    fn boundaries_by_steps_are_the_boundaries_by_formula(pattern in any_pattern()) {
        let stepped: Vec<Nm> = pattern.boundaries().collect();
        let direct: Vec<Nm> = (0..).map_while(|i| pattern.boundary(i)).collect();
        prop_assert_eq!(&stepped, &direct);
        let mut back: Vec<Nm> = pattern.boundaries().rev().collect();
        back.reverse();
        prop_assert_eq!(back, direct);
        let mut spans: Vec<Span> = pattern.spans().rev().collect();
        spans.reverse();
        prop_assert!(spans.into_iter().eq(pattern.spans()));
    }

    #[test]
    fn narrowest_is_a_tight_lower_limit(pattern in any_pattern()) {
        let spans: Vec<Span> = pattern.spans().collect();
        for side in [Side::A, Side::B] {
            let last = spans.len() - 1;
            let inner = spans.iter().enumerate().filter(|(i, s)| s.owner == side && *i != 0 && *i != last).map(|(_, s)| (s.to - s.from).nm()).min();
            let widths = pattern.narrowest(side);
            match (inner, widths.inner) {
                (None, limit) => prop_assert_eq!(limit, Widths::NONE),
                (Some(found), limit) => prop_assert!(limit <= found && found <= limit + 1, "{found} {limit}"),
            }
            let ends = [(spans.first(), 0), (spans.last(), last)].into_iter().filter(|(s, _)| last > 0 && s.unwrap().owner == side);
            let end = ends.map(|(s, _)| (s.unwrap().to - s.unwrap().from).nm()).min();
            prop_assert_eq!(widths.end, end.unwrap_or(Widths::NONE));
        }
    }

    /// Scaling by a whole number is exact wherever the divisions are; elsewhere a boundary may differ by the rounding alone.
    #[test]
    fn scaling_scales_every_boundary(n in 1u32..60, unit in 1i64..1000, scale in 2i64..50) {
        let run = unit * i64::from(n) * 1000;
        let small = Fingers::count(n).least(nm(1000)).pattern(nm(run), nm(1000)).unwrap();
        let large = Fingers::count(n).least(nm(1000)).pattern(nm(run * scale), nm(1000)).unwrap();
        for (a, b) in small.boundaries().zip(large.boundaries()) {
            prop_assert_eq!(a.nm() * scale, b.nm());
        }
    }

    #[test]
    fn fingers_are_never_narrower_than_the_board(run in 1_000_000i64..2_000_000_000, width in 1_000i64..50_000_000, board in 100_000i64..20_000_000) {
        for parity in [Parity::Odd, Parity::Even, Parity::Any] {
            match Fingers::width(nm(width)).parity(parity).pattern(nm(run), nm(board)) {
                Ok(pattern) => {
                    prop_assert!(pattern.spans().all(|s| (s.to - s.from).nm() >= board));
                    let count = pattern.spans().len();
                    prop_assert!(parity == Parity::Any || (count % 2 == 1) == (parity == Parity::Odd));
                }
                Err(error) => prop_assert!(error.code == Code::RunTooShort && run < 2 * board || error.code == Code::OutOfRange),
            }
        }
    }
}

#[test]
fn a_million_fingers_are_refused() {
    let error = Fingers::count(1_000_000).pattern(nm(10_000_000_000), nm(10_000)).unwrap_err();
    assert_eq!(std::string::ToString::to_string(&error), "finger count: 1000000 given, allowed 1 to 100000");
}

#[test]
fn tabs_are_counted_as_tabs() {
    let error = Tabs::new(nm(10_000), nm(10_000)).pattern(nm(10_000_000_000)).unwrap_err();
    assert_eq!(std::string::ToString::to_string(&error), "tab count: 500000 given, allowed 1 to 100000");
    assert_eq!(Tabs::new(nm(50_000), nm(50_000)).pattern(nm(10_000_000_000)).unwrap().spans().len(), 200_001);
}

/// Fairham, *Woodwork Joints*, "The Halved Joint", Figs 45-46: three-piece lap, each one third, the notches total the thickness.
#[test]
fn third_lap_totals_the_thickness() {
    for thickness in [18_000_000, 19_050_000, 7, 100_000_001] {
        let pattern = Fingers::count(3).least(nm(1_000)).pattern(nm(thickness.max(3000)), nm(1_000)).unwrap();
        let widths: Vec<i64> = pattern.spans().map(|s| (s.to - s.from).nm()).collect();
        assert_eq!(widths.iter().sum::<i64>(), thickness.max(3000));
        assert!(widths.iter().all(|w| (w - thickness.max(3000) / 3).abs() <= 1));
    }
}

proptest! {
    /// Noyes, *Handwork in Wood* (1910), No. 14 and ch. IX rule 1: one notch d, the other T - d: flush for any d; halved when d = T/2.
    #[test]
    fn halving_stays_flush_for_any_split(run in 2i64..10_000_000_000, p in 1u32..1000, q in 1u32..1000) {
        let split = Ratio::new(p, p + q).unwrap();
        if let Ok(pattern) = Halves::split(split).pattern(nm(run)) {
            let d = pattern.boundary(0).unwrap().nm();
            let widths: Vec<i64> = pattern.spans().map(|s| (s.to - s.from).nm()).collect();
            prop_assert_eq!(widths, [d, run - d]);
        }
        if run % 2 == 0 {
            prop_assert_eq!(Halves::default().pattern(nm(run)).unwrap().boundary(0).unwrap().nm(), run / 2);
        }
    }
}

//! Spans add up to the run, to the nanometre, and both sides' profiles are one line.

use dryfit_core::{Fingers, Fit, Halves, Joint, Nm, Parity, Pattern, Profile, Ratio, Side, Tabs};
use dryfit_tests::nm;
use proptest::prelude::*;
use proptest::sample::select;

fn patterns() -> impl Strategy<Value = (i64, Pattern)> {
    let side = || select(vec![Side::A, Side::B]);
    let joints = prop_oneof![
        (1..2000u32, side()).prop_map(|(n, first)| Joint::from(Fingers::count(n).first(first).least(nm(1)))),
        (1..50_000_000i64, side(), select(vec![Parity::Odd, Parity::Even, Parity::Any])).prop_map(|(w, first, parity)| Fingers::width(nm(w))
            .first(first)
            .parity(parity)
            .least(nm(1 + w / 3))
            .into()),
        (1..50_000_000i64, 1..50_000_000i64).prop_map(|(w, s)| Tabs::new(nm(w), nm(s)).into()),
        (1..1000u32, side()).prop_map(|(p, first)| Halves::split(Ratio::new(p, 1000).unwrap()).first(first).into()),
    ];
    let runs = prop_oneof![1..5000i64, 1..10_000_000_000i64];
    let made = |(run, joint): (i64, Joint)| joint.pattern(nm(run), Nm::ZERO).ok().map(|pattern| (run, pattern));
    (runs, joints).prop_filter_map("does not fit the run", made)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, max_local_rejects: 1_000_000, ..ProptestConfig::default() })]

    #[test]
    fn spans_add_up((run, pattern) in patterns()) {
        let mut at = 0;
        let mut owner = pattern.first();
        for span in pattern.spans() {
            prop_assert_eq!((span.from.nm(), span.owner), (at, owner));
            prop_assert!(span.to.nm() > at);
            (at, owner) = (span.to.nm(), owner.other());
        }
        prop_assert_eq!(at, run);
        prop_assert_eq!(owner.other(), pattern.last());
    }

    #[test]
    fn both_sides_follow_one_line((_, pattern) in patterns(), depth in 1..20_000_000i64) {
        let side = |side| Profile::new(pattern, side, nm(depth), Fit::EXACT, Nm::ZERO).unwrap().vertices();
        // Seen from the other board the line is upside down: its own spans are this one's notches.
        for (one, two) in side(Side::A).zip(side(Side::B)) {
            prop_assert_eq!((one.at.x, one.at.y), (two.at.x, nm(depth) - two.at.y));
        }
        prop_assert_eq!(side(Side::A).len(), side(Side::B).len());
    }
}

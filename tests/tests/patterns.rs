//! Runs cut into spans, held against `vectors/patterns.json`.

use dryfit_core::{Error, Nm, Pattern};
use dryfit_tests::{Case, cases, joint, nm, side};

/// The joint's thickness never matters here: every finger spec states its `least` and its width or count.
fn made(case: &Case) -> Result<Pattern, Error> {
    joint(&Case(case.get("spec").clone()))?.pattern(nm(case.int("length")), Nm::ZERO)
}

#[test]
fn boundaries_are_the_oracles() {
    let mut refused = 0;
    for case in cases("patterns") {
        let pattern = made(&case);
        if case.refused() {
            refused += 1;
            assert!(pattern.is_err(), "must be refused: {}", case.0);
            continue;
        }
        let pattern = pattern.unwrap_or_else(|error| panic!("{error}: {}", case.0));
        let boundaries = case.ints("boundaries");
        assert_eq!(pattern.first(), side(case.text("first")), "{}", case.0);
        assert_eq!(pattern.boundaries().map(Nm::nm).collect::<Vec<_>>(), boundaries, "{}", case.0);
        for (index, &boundary) in boundaries.iter().enumerate() {
            assert_eq!(pattern.boundary(index as u32).map(Nm::nm), Some(boundary), "boundary {index} of {}", case.0);
        }
        assert_eq!(pattern.boundary(boundaries.len() as u32), None, "{}", case.0);
    }
    assert!(refused > 0, "no refused pattern among the cases");
}

#[test]
fn spans_from_either_end_add_up_to_the_run() {
    for case in cases("patterns") {
        let Ok(pattern) = made(&case) else { continue };
        let spans: Vec<_> = pattern.spans().collect();
        let mut backwards: Vec<_> = pattern.spans().rev().collect();
        backwards.reverse();
        assert_eq!(spans, backwards, "{}", case.0);
        assert_eq!(spans.len(), pattern.spans().len());
        assert_eq!(spans.iter().map(|span| (span.to - span.from).nm()).sum::<i64>(), case.int("length"));
        assert!(spans.iter().all(|span| span.from < span.to), "an empty span: {}", case.0);
        assert!(spans.windows(2).all(|pair| pair[0].to == pair[1].from && pair[0].owner != pair[1].owner), "{}", case.0);
    }
}

use super::*;
use crate::{Fingers, Tabs};
use proptest::prelude::*;
use std::vec::Vec;

fn nm(value: i64) -> Nm {
    Nm::new(value).unwrap()
}

proptest! {
    /// Without allowances the two sides, moved together, share every vertex; with a flank allowance every contact opens by just that.
    #[test]
    fn mates_tile(run in 50_000_000i64..500_000_000, n in 2u32..40, flank in -40_000i64..200_000, thick in 500_000i64..1_200_000) {
        let pattern = Fingers::count(n).pattern(nm(run), nm(thick)).unwrap();
        let fit = Fit::new(nm(flank), Nm::ZERO, Nm::ZERO).unwrap();
        let a: Vec<Vertex> = Profile::new(pattern, Side::A, nm(thick), fit, Nm::ZERO).unwrap().vertices().collect();
        let b: Vec<Vertex> = Profile::new(pattern, Side::B, nm(thick), fit, Nm::ZERO).unwrap().vertices().collect();
        prop_assert_eq!(a.len(), b.len());
        for (i, pair) in a.iter().zip(&b).enumerate().skip(1).take(a.len() - 2) {
            let opened = (pair.0.at.x.nm() - pair.1.at.x.nm()).abs();
            prop_assert_eq!(opened, flank.abs(), "vertex {}", i);
            prop_assert_eq!(pair.0.at.y.nm() + pair.1.at.y.nm(), thick);
        }
    }

    #[test]
    fn exact_size_and_fused(run in 50_000_000i64..500_000_000, n in 1u32..40) {
        let profile = Profile::new(Fingers::count(n).pattern(nm(run), nm(1_000_000)).unwrap(), Side::B, nm(1_000_000), Fit::EXACT, Nm::ZERO).unwrap();
        let mut vertices = profile.vertices();
        let promised = vertices.len();
        prop_assert_eq!(vertices.by_ref().count(), promised);
        prop_assert!(vertices.next().is_none() && vertices.next().is_none());
    }
}

#[test]
fn a_closing_notch_is_refused() {
    let pattern = Tabs::new(nm(2_000_000), nm(5_000_000)).pattern(nm(30_000_000)).unwrap();
    let fit = Fit::new(nm(5_000_000), Nm::ZERO, Nm::ZERO).unwrap();
    let error = Profile::new(pattern, Side::A, nm(3_000_000), fit, Nm::ZERO).unwrap_err();
    assert_eq!(error.code, Code::SlotCloses);
    let wide_kerf = Profile::new(pattern, Side::B, nm(3_000_000), Fit::EXACT, nm(2_000_000)).unwrap_err();
    assert_eq!(wide_kerf.code, Code::SlotCloses);
}

/// Part from a contour cut on the line loses half a kerf on each side: a compensated edge moves out by half.
#[test]
fn kerf_moves_the_line_by_half() {
    let pattern = Fingers::count(3).pattern(nm(30_000_000), nm(3_000_000)).unwrap();
    let line: Vec<(i64, i64)> =
        Profile::new(pattern, Side::A, nm(3_000_000), Fit::EXACT, nm(200_000)).unwrap().vertices().map(|v| (v.at.x.nm(), v.at.y.nm())).collect();
    assert_eq!(
        line,
        [(0, -100_000), (10_100_000, -100_000), (10_100_000, 2_900_000), (19_900_000, 2_900_000), (19_900_000, -100_000), (30_000_000, -100_000)]
    );
}

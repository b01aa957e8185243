use super::*;
use crate::{Fingers, Ratio, Tabs, Tails};
use proptest::prelude::*;
use std::string::ToString;
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

/// Both sides' boards as outlines of one plane: side A above its profile, side B turned round below its own.
#[cfg(feature = "alloc")]
mod together {
    use super::super::*;
    use crate::overlay::{Common, Strips, common};
    use crate::{Fingers, Half, Halves, Joint, Parity, Ratio, Tabs, Tails};
    use proptest::prelude::*;
    use std::vec::Vec;

    fn nm(value: i64) -> Nm {
        Nm::new(value).unwrap()
    }

    /// 10 m.
    const METRES: i64 = 10_000_000_000;

    fn joint() -> impl Strategy<Value = Joint> {
        let parity = prop_oneof![Just(Parity::Odd), Just(Parity::Even), Just(Parity::Any)];
        let side = prop_oneof![Just(Side::A), Just(Side::B)];
        let tails =
            (1u32..9, 1u32..4, 4u32..14, any::<bool>(), prop::option::of(1_000_000i64..9_000_000)).prop_map(|(count, rise, run, half, pin)| {
                let tails = Tails::new(count, Ratio::new(rise, run * rise).unwrap()).half(if half { Half::Tails } else { Half::Pins });
                pin.map_or(tails, |pin| tails.pin_width(nm(pin)))
            });
        prop_oneof![
            (1_000_000i64..60_000_000, parity, side.clone()).prop_map(|(w, parity, side)| Fingers::width(nm(w)).parity(parity).first(side).into()),
            (1u32..60, side.clone()).prop_map(|(n, side)| Fingers::count(n).least(nm(1)).first(side).into()),
            (1_000_000i64..30_000_000, 1_000_000i64..30_000_000).prop_map(|(w, s)| Tabs::new(nm(w), nm(s)).into()),
            (1u32..20, 21u32..40, side.clone()).prop_map(|(p, q, side)| Halves::split(Ratio::new(p, q).unwrap()).first(side).into()),
            side.prop_map(Joint::Whole),
            tails.clone().prop_map(Joint::from),
            tails.prop_map(|tails| tails.swapped().into()),
            (4u32..14).prop_map(|n| Tails::key(Ratio::new(1, n).unwrap()).into()),
        ]
    }

    fn board(pattern: Pattern, side: Side, depth: i64, fit: Fit) -> Option<Vec<(i64, i64)>> {
        let profile = Profile::new(pattern, side, nm(depth), fit, Nm::ZERO).ok()?;
        let mut points: Vec<(i64, i64)> = profile.vertices().map(|v| (v.at.x.nm(), v.at.y.nm())).collect();
        let far = 3 * depth;
        points.extend([(pattern.run().nm(), far), (0, far)]);
        if side == Side::B {
            points.iter_mut().for_each(|(_, y)| *y = depth - *y);
            points.reverse();
        }
        Some(points)
    }

    fn shared(a: &[(i64, i64)], b: &[(i64, i64)]) -> Common {
        let at = |&(x, y): &(i64, i64)| Point::raw(x, y);
        let strips =
            |points: &[(i64, i64)], upright| Strips::of(points.iter().zip(points.iter().cycle().skip(1)).map(|(a, b)| (at(a), at(b))), upright);
        let [one, other] = [false, true].map(|upright| common(&strips(a, upright), &strips(b, upright)));
        Common { depth: one.depth.min(other.depth), ..one }
    }

    fn twice_area(points: &[(i64, i64)]) -> i128 {
        let cross = |(&(ax, ay), &(bx, by)): (&(i64, i64), &(i64, i64))| i128::from(ax) * i128::from(by) - i128::from(bx) * i128::from(ay);
        points.iter().zip(points.iter().cycle().skip(1)).map(cross).sum()
    }

    proptest! {
        /// Of every kind of joint the two sides, moved together, cover the block once: nothing twice, and all of it.
        #[test]
        fn both_sides_cover_the_block_once(joint in joint(), run in 20_000_001i64..400_000_000, depth in 1_000_000i64..20_000_000) {
            let Ok(pattern) = joint.pattern(nm(run), nm(depth)) else { return Ok(()) };
            let (Some(a), Some(b)) = (board(pattern, Side::A, depth, Fit::EXACT), board(pattern, Side::B, depth, Fit::EXACT)) else {
                // Only a key's half pins come to a point, which a profile of their own board refuses.
                prop_assert!(pattern.slope().num() > 0);
                return Ok(());
            };
            prop_assert_eq!(shared(&a, &b), Default::default());
            // Together they fill from 3 depths above to 2 below, the block between 0 and the depth counted once.
            prop_assert_eq!(twice_area(&a) + twice_area(&b), 2 * i128::from(run) * i128::from(5 * depth));
        }

        /// Read at once from any vertex on they are what `next` gives, and a start elsewhere moves them all, whether flanks lean or not.
        #[test]
        fn vertices_come_alike(joint in joint(), run in 20_000_001i64..400_000_000, depth in 1_000_000i64..20_000_000, x in -METRES..=METRES, y in -METRES..=METRES, skipped in 0usize..9) {
            let Ok(pattern) = joint.pattern(nm(run), nm(depth)) else { return Ok(()) };
            for side in [Side::A, Side::B] {
                let Ok(profile) = Profile::new(pattern, side, nm(depth), Fit::EXACT, Nm::ZERO) else { continue };
                let (there, mut beside) = (profile.vertices(), Vec::new());
                for vertex in there {
                    beside.push(Vertex { at: Point::raw(vertex.at.x.nm() + x, vertex.at.y.nm() + y), role: vertex.role });
                }
                let mut rest = profile.vertices_from(Point::new(nm(x), nm(y)));
                let mut all: Vec<Vertex> = rest.by_ref().take(skipped).collect();
                rest.for_each(|vertex| all.push(vertex));
                prop_assert_eq!(all, beside);
            }
        }

        /// With an interference they do share something.
        #[test]
        fn an_interference_is_shared(joint in joint(), run in 20_000_001i64..400_000_000, depth in 1_000_000i64..20_000_000, by in 10i64..100_000) {
            let Ok(pattern) = joint.pattern(nm(run), nm(depth)) else { return Ok(()) };
            prop_assume!(pattern.boundaries().len() > 0);
            let fit = Fit::new(nm(-by), Nm::ZERO, Nm::ZERO).unwrap();
            let (Some(a), Some(b)) = (board(pattern, Side::A, depth, fit), board(pattern, Side::B, depth, fit)) else { return Ok(()) };
            let shared = shared(&a, &b);
            // Corners between slanted edges were rounded.
            prop_assert!(shared.area > 0 && (shared.depth - by).abs() <= 4, "{:?}", shared);
        }
    }
}

#[test]
fn flanks_that_lean_farther_than_the_run_are_refused() {
    // The pattern was made for another depth.
    let slope = Ratio::new(1_000_000, 1).unwrap();
    let pattern = Tails::new(1, slope).pattern(nm(100_000_000), nm(1)).unwrap();
    let fit = Fit::new(nm(10_000_000), Nm::ZERO, Nm::ZERO).unwrap();
    let error = Profile::new(pattern, Side::A, nm(200_000_000), fit, nm(20_000_000)).unwrap_err();
    assert_eq!(error.to_string(), "slope times depth: 200000000 mm given, allowed 0 mm to 100 mm");
}

use std::vec::Vec;

use super::*;
use crate::bounds::MM;

const CENTRE: Point = Point::raw(3 * MM, -2 * MM);

#[test]
fn chords_stay_as_near_as_was_asked_and_keep_the_ends() {
    let radius = 7 * MM;
    let (a, b) = (Point::raw(CENTRE.x.nm() + radius, CENTRE.y.nm()), Point::raw(CENTRE.x.nm(), CENTRE.y.nm() + radius));
    for (from, to, clockwise) in [(a, b, false), (b, a, true)] {
        for tolerance in [100, 5_000, 100_000, MM] {
            let way = Move { from, to, centre: Some(CENTRE), clockwise };
            let chords: Vec<Move> = flat(way, Some(Nm::raw(tolerance))).collect();
            assert_eq!((chords[0].from, chords[chords.len() - 1].to), (from, to));
            assert!(chords.windows(2).all(|pair| pair[0].to == pair[1].from));
            for chord in &chords {
                let x = (chord.from.x.nm() + chord.to.x.nm()) as f64 / 2.0 - CENTRE.x.nm() as f64;
                let y = (chord.from.y.nm() + chord.to.y.nm()) as f64 / 2.0 - CENTRE.y.nm() as f64;
                let sagitta = radius as f64 - x.hypot(y);
                assert!(chord.centre.is_none() && sagitta > -1.0 && sagitta <= tolerance as f64 + 1.0, "{sagitta}");
            }
            // No more than are needed: one less would be too few.
            let fewer = (chords.len() - 1) as f64;
            assert!(fewer == 0.0 || radius as f64 * (1.0 - (core::f64::consts::FRAC_PI_4 / fewer).cos()) > tolerance as f64);
        }
    }
}

#[test]
fn straight_moves_stay_as_they_are() {
    let way = Move { from: CENTRE, to: Point::default(), centre: None, clockwise: true };
    assert_eq!(flat(way, Some(Nm::raw(1))).collect::<Vec<_>>(), [way]);
}

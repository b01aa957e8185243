//! Chords in place of arcs.

use super::moves::Move;
use crate::length::Nm;
use crate::point::Point;

/// A move as itself, or an arc as chords no farther from it than a tolerance; the ends are the arc's own.
///
/// ```
/// use dryfit_core::{Move, Nm, Point, flat};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let arc = Move { from: at(5.0, 0.0)?, to: at(-5.0, 0.0)?, centre: Some(at(0.0, 0.0)?), clockwise: false };
/// let chords: Vec<Move> = flat(arc, Some(Nm::from_mm(0.5)?)).collect();
/// assert_eq!(chords.len(), 4);
/// assert_eq!(chords[1].to, at(0.0, 5.0)?);
/// assert_eq!(flat(arc, None).collect::<Vec<_>>(), [arc]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn flat(way: Move, tolerance: Option<Nm>) -> impl Iterator<Item = Move> + Clone {
    let cut = tolerance.and_then(|tolerance| Some((way.arc()?, tolerance)));
    let steps = cut.map_or(1, |(arc, tolerance)| arc.steps(tolerance));
    let ends = (1..=steps).map(move |step| match cut {
        Some((arc, _)) if step < steps => {
            let part = if way.clockwise { step } else { steps - step };
            arc.at(f64::from(part) / f64::from(steps))
        }
        _ => way.to,
    });
    let mut from: Point = way.from;
    ends.map(move |to| match steps {
        1 if cut.is_none() => way,
        _ => Move { from: core::mem::replace(&mut from, to), to, centre: None, ..way },
    })
}

#[cfg(test)]
#[path = "flat_tests.rs"]
mod tests;

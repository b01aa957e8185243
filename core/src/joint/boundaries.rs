//! Boundaries one after another without a division each.
//!
//! `round(n / d) = floor((2n + d) / 2d)`; from one boundary to the next of the same parity the numerator grows by a
//! constant, so quotient and remainder are carried along (as in line drawing by Bresenham, 1965). Works from both ends.

use core::iter::FusedIterator;

use super::pattern::Pattern;
use crate::length::Nm;
use crate::round::floor;

/// From boundary to boundary: quotients and remainders of `(2n + d) / 2d` of the next one and of the one after it.
#[derive(Clone, Copy, Debug)]
struct Walk {
    quotients: [i64; 2],
    remainders: [u32; 2],
}

/// The boundaries in order, without an end.
#[derive(Clone, Copy, Debug)]
pub(super) struct Forwards {
    walk: Walk,
    /// What is added for every second boundary.
    quotient: i64,
    remainder: u32,
    /// Twice a denominator, which is four times the pitches of tails at most: 32 bits are plenty.
    divisor: u32,
}

impl Forwards {
    /// Nothing but zeros, which a divisor of 0 never ends.
    pub const NONE: Forwards = Forwards { walk: Walk { quotients: [0; 2], remainders: [0; 2] }, quotient: 0, remainder: 0, divisor: 0 };

    /// Those of a run that begins at `start`.
    pub fn new(pattern: &Pattern, start: i64) -> Forwards {
        let divisor = 2 * pattern.den;
        let (quotient, remainder) = divided(2 * pattern.step, divisor);
        Forwards { walk: Walk::new(pattern, start, [0, 1]), quotient, remainder, divisor: divisor as u32 }
    }

    #[inline]
    pub fn next(&mut self) -> Nm {
        let [boundary, then] = self.walk.quotients;
        let [rest, after] = self.walk.remainders;
        let sum = rest + self.remainder;
        let over = sum >= self.divisor;
        self.walk.quotients = [then, boundary + self.quotient + i64::from(over)];
        self.walk.remainders = [after, if over { sum - self.divisor } else { sum }];
        Nm::raw(boundary)
    }
}

impl Walk {
    /// Two boundaries of a run that begins at `start`.
    fn new(pattern: &Pattern, start: i64, indices: [i64; 2]) -> Walk {
        let ((a, p), (b, q)) = (Walk::at(pattern, indices[0]), Walk::at(pattern, indices[1]));
        Walk { quotients: [start + a, start + b], remainders: [p, q] }
    }

    /// A run of 10^10 nm, at most 10^5 boundaries and as large a denominator: 64 bits are plenty.
    #[inline(never)]
    fn at(pattern: &Pattern, index: i64) -> (i64, u32) {
        let [even, odd] = pattern.starts;
        let start = if index & 1 == 0 { even } else { odd };
        divided(2 * (start + (index >> 1) * pattern.step) + pattern.den, 2 * pattern.den)
    }
}

/// Quotient and remainder.
fn divided(numerator: i64, divisor: i64) -> (i64, u32) {
    let quotient = floor(numerator, divisor);
    (quotient, (numerator - quotient * divisor) as u32)
}

/// The boundaries of a [`Pattern`], in order and from both ends; nanometres from the run's start. `Copy` state, no heap.
///
/// ```
/// use dryfit_core::{Fingers, Nm};
/// let pattern = Fingers::count(4).pattern(Nm::parse("80 mm")?, Nm::parse("3 mm")?)?;
/// let mut boundaries = pattern.boundaries();
/// assert_eq!(boundaries.len(), 3);
/// assert_eq!(boundaries.next(), Some(Nm::parse("20 mm")?));
/// assert_eq!(boundaries.next_back(), Some(Nm::parse("60 mm")?));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Boundaries {
    forwards: Forwards,
    /// The next from the back and the one before it.
    back: Walk,
    left: u32,
}

impl Boundaries {
    pub(super) fn new(pattern: &Pattern) -> Boundaries {
        let last = i64::from(pattern.boundaries) - 1;
        Boundaries { forwards: Forwards::new(pattern, 0), back: Walk::new(pattern, 0, [last, last - 1]), left: pattern.boundaries }
    }
}

impl Iterator for Boundaries {
    type Item = Nm;

    #[inline]
    fn next(&mut self) -> Option<Nm> {
        self.left = self.left.checked_sub(1)?;
        Some(self.forwards.next())
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.left as usize, Some(self.left as usize))
    }
}

impl DoubleEndedIterator for Boundaries {
    #[inline]
    fn next_back(&mut self) -> Option<Nm> {
        self.left = self.left.checked_sub(1)?;
        let [boundary, then] = self.back.quotients;
        let [rest, after] = self.back.remainders;
        let less = self.forwards.remainder;
        let under = rest < less;
        self.back.quotients = [then, boundary - self.forwards.quotient - i64::from(under)];
        self.back.remainders = [after, if under { rest + self.forwards.divisor - less } else { rest - less }];
        Some(Nm::raw(boundary))
    }
}

impl ExactSizeIterator for Boundaries {}
impl FusedIterator for Boundaries {}

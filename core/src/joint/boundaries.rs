//! Boundaries one after another without a division each.
//!
//! `round(n / d) = floor((2n + d) / 2d)`; from one boundary to the next of the same parity the numerator grows by a
//! constant, so quotient and remainder are carried along (as in line drawing by Bresenham, 1965). Works from both ends.

use core::iter::FusedIterator;

use super::pattern::Pattern;
use crate::length::Nm;

/// Quotient and remainder of `(2n + d) / 2d`.
#[derive(Clone, Copy, Debug)]
struct Fraction {
    quotient: i64,
    remainder: i64,
}

impl Fraction {
    fn of(numerator: i64, divisor: i64) -> Fraction {
        let divisor = divisor.max(1);
        Fraction { quotient: numerator.div_euclid(divisor), remainder: numerator.rem_euclid(divisor) }
    }

    fn add(&mut self, step: Fraction, divisor: i64) {
        self.quotient += step.quotient;
        self.remainder += step.remainder;
        if self.remainder >= divisor {
            self.remainder -= divisor;
            self.quotient += 1;
        }
    }

    fn subtract(&mut self, step: Fraction, divisor: i64) {
        self.quotient -= step.quotient;
        self.remainder -= step.remainder;
        if self.remainder < 0 {
            self.remainder += divisor;
            self.quotient -= 1;
        }
    }
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
    /// The next from the front and the one after it.
    front: [Fraction; 2],
    /// The next from the back and the one before it.
    back: [Fraction; 2],
    step: Fraction,
    divisor: i64,
    left: usize,
}

impl Boundaries {
    pub(super) fn new(pattern: &Pattern) -> Boundaries {
        let divisor = 2 * pattern.den;
        // A run of 10^10 nm, at most 10^5 boundaries and as large a denominator: 64 bits are plenty.
        let [even, odd] = pattern.starts;
        let numerator = |index: i64| {
            let start = if index & 1 == 0 { even } else { odd };
            2 * (start + (index >> 1) * pattern.step) + pattern.den
        };
        let last = i64::from(pattern.boundaries) - 1;
        let at = |index| Fraction::of(numerator(index), divisor);
        Boundaries {
            front: [at(0), at(1)],
            back: [at(last), at(last - 1)],
            step: Fraction::of(2 * pattern.step, divisor),
            divisor,
            left: pattern.boundaries as usize,
        }
    }
}

impl Iterator for Boundaries {
    type Item = Nm;

    #[inline]
    fn next(&mut self) -> Option<Nm> {
        self.left = self.left.checked_sub(1)?;
        let [mut now, then] = self.front;
        let boundary = now.quotient;
        now.add(self.step, self.divisor);
        self.front = [then, now];
        Some(Nm::raw(boundary))
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.left, Some(self.left))
    }
}

impl DoubleEndedIterator for Boundaries {
    #[inline]
    fn next_back(&mut self) -> Option<Nm> {
        self.left = self.left.checked_sub(1)?;
        let [mut now, then] = self.back;
        let boundary = now.quotient;
        now.subtract(self.step, self.divisor);
        self.back = [then, now];
        Some(Nm::raw(boundary))
    }
}

impl ExactSizeIterator for Boundaries {}
impl FusedIterator for Boundaries {}

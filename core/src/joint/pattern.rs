//! A run cut into spans: the one type behind fingers, tabs, halves and tails.
//!
//! ```text
//!   0        b0      b1      b2      b3       run
//!   |---A----|---B---|---A---|---B---|---A----|
//! ```
//!
//! Every boundary is `round((start + k * step) / den)`, with one start for the boundaries of even number and one for
//! the odd ones. So a pattern of any length is seven numbers, and any boundary is known without the others.

use core::iter::FusedIterator;

use super::boundaries::Boundaries;
use crate::bounds::{RUN, within};
use crate::error::Error;
use crate::length::Nm;
use crate::ratio::Ratio;
use crate::round::{floor, nearest_small};

/// One of the two boards that share a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// The board named first.
    A,
    /// The other board.
    B,
}

impl Side {
    /// The other side.
    #[must_use]
    pub const fn other(self) -> Side {
        match self {
            Side::A => Side::B,
            Side::B => Side::A,
        }
    }
}

/// A piece of a run and its owner; lengths in nanometres from the run's start.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Span {
    /// Where it begins.
    pub from: Nm,
    /// Where it ends.
    pub to: Nm,
    /// Whose it is.
    pub owner: Side,
}

/// A run cut into spans that alternate between side A and side B.
///
/// The spans add up to the run, to the nanometre. Made by [`super::Fingers`], [`super::Tabs`], [`super::Halves`] and [`Pattern::whole`].
///
/// ```
/// use dryfit_core::{Fingers, Nm};
/// let pattern = Fingers::count(3).pattern(Nm::parse("0.1 mm")?, Nm::parse("0.01 mm")?)?;
/// let widths: Vec<i64> = pattern.spans().map(|s| (s.to - s.from).nm()).collect();
/// assert_eq!(widths, [33_333, 33_334, 33_333]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pattern {
    pub(super) run: i64,
    pub(super) first: Side,
    pub(super) boundaries: u32,
    /// Numerators of boundary 0 and boundary 1.
    pub(super) starts: [i64; 2],
    /// Added to the numerator for every second boundary.
    pub(super) step: i64,
    pub(super) den: i64,
    /// Pieces shorter than this join a neighbour where a third board cuts the run.
    pub(super) least: i64,
    pub(super) slope: Ratio,
}

impl Pattern {
    /// The whole run to one side.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for a run that is not positive.
    pub fn whole(run: Nm, owner: Side) -> Result<Pattern, Error> {
        within!(RUN, run.nm());
        Ok(Pattern::new(run, owner, 0, [0, 0], 0, 1))
    }

    /// No run at all.
    pub(super) const BLANK: Pattern = Pattern::new(Nm::ZERO, Side::A, 0, [0, 0], 0, 1);

    /// `count` boundaries as the module's head describes them; the callers keep them inside the run, which they have checked, and in order.
    pub(super) const fn new(run: Nm, first: Side, boundaries: u32, starts: [i64; 2], step: i64, den: i64) -> Pattern {
        Pattern { run: run.nm(), first, boundaries, starts, step, den, least: 0, slope: Ratio::ZERO }
    }

    /// The run's length.
    pub const fn run(&self) -> Nm {
        Nm::raw(self.run)
    }

    /// The owner of the first span.
    pub const fn first(&self) -> Side {
        self.first
    }

    /// The owner of the last span.
    pub const fn last(&self) -> Side {
        if self.boundaries.is_multiple_of(2) { self.first } else { self.first.other() }
    }

    /// How the flanks lean, rise : run; 0 for all joints but tails.
    pub const fn slope(&self) -> Ratio {
        self.slope
    }

    /// The width below which a piece beside a third board joins its neighbour.
    pub const fn least(&self) -> Nm {
        Nm::raw(self.least)
    }

    /// Boundary `index`, counted from 0, if there is one.
    ///
    /// ```
    /// use dryfit_core::{Fingers, Nm};
    /// let pattern = Fingers::count(5).pattern(Nm::parse("100 mm")?, Nm::parse("3 mm")?)?;
    /// assert_eq!(pattern.boundary(3), Some(Nm::parse("80 mm")?));
    /// assert_eq!(pattern.boundary(4), None);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn boundary(&self, index: u32) -> Option<Nm> {
        if index >= self.boundaries {
            return None;
        }
        Some(Nm::raw(self.place(index)))
    }

    /// Where a boundary is.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn place(&self, index: u32) -> i64 {
        let [even, odd] = self.starts;
        let start = if index.is_multiple_of(2) { even } else { odd };
        // A run of 10^10 nm, at most 10^5 spans and a denominator of four times that: 64 bits are plenty.
        nearest_small(start + i64::from(index / 2) * self.step, self.den)
    }

    /// All boundaries, in order; from both ends.
    pub fn boundaries(&self) -> Boundaries {
        Boundaries::new(self)
    }

    /// All spans, in order; from both ends.
    pub fn spans(&self) -> Spans {
        Spans { boundaries: self.boundaries(), from: 0, to: self.run, owner: self.first, last: self.last(), left: self.boundaries as usize + 1 }
    }

    /// A lower limit of the width of any inner span of `side`, exact to the nanometre, and of its end spans.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn narrowest(&self, side: Side) -> Widths {
        let mut end = Widths::NONE;
        if let Some(last) = self.boundaries.checked_sub(1) {
            if side == self.first {
                end = self.place(0);
            }
            if side == self.last() {
                end = end.min(self.run - self.place(last));
            }
        }
        Widths { inner: self.narrowest_inner(side), end }
    }

    /// A lower limit of the width of any span of `side` between two boundaries, exact to the nanometre.
    pub(super) fn narrowest_inner(&self, side: Side) -> i64 {
        // Spans between boundary 2k and 2k+1 belong to the second owner, the others to the first.
        let [a, b] = self.starts;
        let (fewest, spread) = if side == self.first { (3, a + self.step - b) } else { (2, b - a) };
        if self.boundaries < fewest { Widths::NONE } else { floor(spread, self.den) }
    }
}

/// Narrowest widths of one side's spans.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Widths {
    /// Between two boundaries.
    pub inner: i64,
    /// Between a boundary and an end of the run.
    pub end: i64,
}

impl Widths {
    /// Where there is no such span: wider than any.
    pub(crate) const NONE: i64 = 1 << 60;
}

/// The spans of a [`Pattern`].
#[derive(Clone, Copy, Debug)]
pub struct Spans {
    boundaries: Boundaries,
    from: i64,
    to: i64,
    owner: Side,
    last: Side,
    left: usize,
}

impl Iterator for Spans {
    type Item = Span;

    fn next(&mut self) -> Option<Span> {
        self.left = self.left.checked_sub(1)?;
        let to = self.boundaries.next().map_or(self.to, Nm::nm);
        let span = Span { from: Nm::raw(self.from), to: Nm::raw(to), owner: self.owner };
        self.from = to;
        self.owner = self.owner.other();
        Some(span)
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.left, Some(self.left))
    }
}

impl DoubleEndedIterator for Spans {
    fn next_back(&mut self) -> Option<Span> {
        self.left = self.left.checked_sub(1)?;
        let from = self.boundaries.next_back().map_or(self.from, Nm::nm);
        let span = Span { from: Nm::raw(from), to: Nm::raw(self.to), owner: self.last };
        self.to = from;
        self.last = self.last.other();
        Some(span)
    }
}

impl ExactSizeIterator for Spans {}
impl FusedIterator for Spans {}

#[cfg(test)]
#[path = "pattern_tests.rs"]
mod tests;

//! Tails: spans whose flanks lean, so that a splice in the plane of the sheet holds against a pull.
//!
//! ```text
//!      end of side A's board
//!   ___     _______     ___         y = 0: A's tips, where its tails are widest
//!      \   /       \   /
//!       \_/         \_/             y = depth: the necks of A's tails, the tips of B's pins
//! ```
//!
//! Widths are those at mid-depth. Every edge of a splice is a cut edge against a cut edge: `flank` is the gap all along it.
//!
//! Fairham, *Woodwork Joints*, "The Dovetail Joint": a slope of one in eight, by no means steeper than one in six;
//! Noyes, *Handwork in Wood* (1910), No. 48: equal spaces for the tails, half a socket left at either edge, tails and sockets of equal width the strongest.

use super::pattern::{Pattern, Side};
use crate::bounds::{Bound, DEPTH, FINGER_COUNT, RATIO_TERM, RUN, TAB_WIDTH, within};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::ratio::Ratio;
use crate::round::{floor, half, nearest_small};

const SLOPE: Bound = RATIO_TERM.named("slope");
const TAIL_COUNT: Bound = FINGER_COUNT.named("tail count");
const PIN_WIDTH: Bound = TAB_WIDTH.named("pin width");

/// What stands at both ends of the run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Half {
    /// Half a pin of side B.
    Pins,
    /// Half a tail of side A.
    Tails,
}

/// Tails of side A between pins of side B, at a slope of rise : run.
///
/// ```
/// use dryfit_core::{Fit, Nm, Profile, Ratio, Side, Tails};
/// let (run, depth) = (Nm::parse("40 mm")?, Nm::parse("15 mm")?);
/// let pattern = Tails::new(1, Ratio::new(1, 6)?).pattern(run, depth)?;
/// let tail = Profile::new(pattern, Side::A, depth, Fit::EXACT, Nm::ZERO)?;
/// let points: Vec<_> = tail.vertices().map(|v| (v.at.x.mm(), v.at.y.mm())).collect();
/// assert_eq!(points, [(0.0, 15.0), (11.25, 15.0), (8.75, 0.0), (31.25, 0.0), (28.75, 15.0), (40.0, 15.0)]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tails {
    count: u32,
    slope: Ratio,
    half: Half,
    pins: Pins,
    owner: Side,
}

/// How wide the pins are at mid-depth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Pins {
    /// As wide as the tails.
    Even,
    Wide(Nm),
    /// As much as takes both half pins down to nothing at the tips: the tail is as wide there as the run.
    Pointed,
}

impl Tails {
    /// `count` whole tails with flanks of a slope (rise : run, 1:8 for instance), half pins at the ends, pins as wide as tails.
    pub fn new(count: u32, slope: Ratio) -> Tails {
        Tails { count, slope, half: Half::Pins, pins: Pins::Even, owner: Side::A }
    }

    /// What two boards of one plane get where no joint was asked for: half pins, a slope of 1:8, tails about as wide as they are long.
    pub fn for_run(run: Nm, depth: Nm) -> Tails {
        let count = nearest_small(run.nm(), 2 * depth.nm()).clamp(1, FINGER_COUNT.most);
        Tails::new(count as u32, Ratio::EIGHTH)
    }

    /// Half of a butterfly key: one tail, as wide at its tips as the run.
    pub fn key(slope: Ratio) -> Tails {
        Tails { pins: Pins::Pointed, ..Tails::new(1, slope) }
    }

    /// The same with the tails on side B.
    #[must_use]
    pub fn swapped(self) -> Tails {
        Tails { owner: self.owner.other(), ..self }
    }

    /// Half pins, or half tails beside the whole ones, at the ends of the run.
    #[must_use]
    pub fn half(self, half: Half) -> Tails {
        Tails { half, ..self }
    }

    /// The width of a pin at mid-depth, in place of that of a tail.
    #[must_use]
    pub fn pin_width(self, width: Nm) -> Tails {
        Tails { pins: Pins::Wide(width), ..self }
    }

    /// How often tail and pin repeat along the run: half tails at both ends make one more than there are whole tails.
    pub fn pitches(&self) -> u32 {
        match self.half {
            Half::Pins => self.count,
            Half::Tails => self.count.saturating_add(1),
        }
    }

    /// The pattern of a run; `depth` is how far the two boards reach into each other.
    ///
    /// # Errors
    /// [`Code::FingersDoNotFit`] where the slope makes the flanks of a tail or pin meet and for a pin as wide as the pitch,
    /// [`Code::OutOfRange`] for a run, depth, count or width outside [`crate::bounds`].
    pub fn pattern(&self, run: Nm, depth: Nm) -> Result<Pattern, Error> {
        let length = within!(RUN, run.nm());
        let depth = within!(DEPTH, depth.nm());
        within!(SLOPE, i64::from(self.slope.num()));
        let rise = self.slope.of(Nm::raw(depth)).nm();
        within!(TAIL_COUNT, i64::from(self.count));
        let pitches = i64::from(self.pitches());
        let first = if self.half == Half::Pins { self.owner.other() } else { self.owner };
        // In the middle of every pitch stands a whole tail (half pins at the ends) or a whole pin: its width times twice the pitches.
        let spread = match self.pins {
            Pins::Even => length,
            Pins::Pointed => {
                let lost = if self.owner == Side::A { half(rise) } else { rise - half(rise) };
                2 * length - 4 * lost
            }
            Pins::Wide(pin) => {
                let pin = within!(PIN_WIDTH, pin.nm());
                if pin >= floor(length, pitches) {
                    return Err(Error::length(Code::FingersDoNotFit, "pin width", pin, 1, floor(length, pitches) - 1));
                }
                let pins = 2 * pin * pitches;
                if self.half == Half::Tails { pins } else { 2 * length - pins }
            }
        };
        let starts = [2 * length - spread, 2 * length + spread];
        let mut pattern = Pattern::new(run, first, (2 * pitches) as u32, starts, 4 * length, 4 * pitches);
        pattern.slope = self.slope;
        pattern.least = 2 * rise;
        self.check(&pattern, rise)?;
        Ok(pattern)
    }

    /// No tail and no pin may come to a point, but for the half pins beside a key.
    fn check(&self, pattern: &Pattern, rise: i64) -> Result<(), Error> {
        let odd = rise - 2 * half(rise);
        let pointed = self.pins == Pins::Pointed;
        for (side, more) in [(Side::A, odd), (Side::B, 0)] {
            if pointed && side != self.owner {
                continue;
            }
            let widths = pattern.narrowest(side);
            // At its neck an inner span loses half the rise on both sides, on side A the greater half; those at the ends on one side.
            let room = widths.inner.min(2 * widths.end);
            if 2 * half(rise) + 2 * more >= room {
                let most = (2 * half(room - 1) + i64::from(side == Side::B)).max(0);
                return Err(Error::length(Code::FingersDoNotFit, "slope times depth", rise, 0, most));
            }
        }
        Ok(())
    }
}

#[cfg(test)]
#[path = "tails_tests.rs"]
mod tests;

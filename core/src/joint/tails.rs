//! Tails: spans whose flanks lean, so that a splice in the plane of the sheet holds against a pull.
//!
//! ```text
//!      end of side A's board
//!   ___     _______     ___         y = 0: A's tips, where its tails are widest
//!      \   /       \   /
//!       \_/         \_/             y = depth: the necks of A's tails, the tips of B's pins
//! ```
//!
//! Widths are those at mid-depth. Patterns and profiles so far: assemblies do not take tails yet.
//!
//! Fairham, *Woodwork Joints*, "The Dovetail Joint": a slope of one in eight, by no means steeper than one in six;
//! Noyes, *Handwork in Wood* (1910), No. 48: equal spaces for the tails, half a socket left at either edge, tails and sockets of equal width the strongest.

use super::pattern::{Pattern, Side};
use crate::bounds::{DEPTH, FINGER_COUNT, RUN, TAB_WIDTH};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::ratio::Ratio;

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
    pin: Option<Nm>,
}

impl Tails {
    /// `count` whole tails with flanks of a slope (rise : run, 1:8 for instance), half pins at the ends, pins as wide as tails.
    pub fn new(count: u32, slope: Ratio) -> Tails {
        Tails { count, slope, half: Half::Pins, pin: None }
    }

    /// Half pins, or half tails beside the whole ones, at the ends of the run.
    #[must_use]
    pub fn half(self, half: Half) -> Tails {
        Tails { half, ..self }
    }

    /// The width of a pin at mid-depth, in place of that of a tail.
    #[must_use]
    pub fn pin_width(self, width: Nm) -> Tails {
        Tails { pin: Some(width), ..self }
    }

    /// The pattern of a run; `depth` is how far the two boards reach into each other.
    ///
    /// # Errors
    /// [`Code::FingersDoNotFit`] where the slope makes the flanks of a tail or pin meet, [`Code::TabsDoNotFit`] for a pin as wide as
    /// the pitch, [`Code::OutOfRange`] for a run, depth, count or width outside [`crate::bounds`].
    pub fn pattern(&self, run: Nm, depth: Nm) -> Result<Pattern, Error> {
        let length = RUN.check(run.nm())?;
        let depth = DEPTH.check(depth.nm())?;
        let count = FINGER_COUNT.named("tail count").check(i64::from(self.count))?;
        // Pitches in the run: half tails at both ends make one more.
        let (pitches, first) = match self.half {
            Half::Pins => (count, Side::B),
            Half::Tails => (count + 1, Side::A),
        };
        // In the middle of every pitch stands a whole tail (half pins at the ends) or a whole pin: its width times twice the pitches.
        let spread = match self.pin {
            None => length,
            Some(pin) => {
                let pin = TAB_WIDTH.named("pin width").check(pin.nm())?;
                if pin >= length / pitches {
                    return Err(Error::length(Code::TabsDoNotFit, "pin width", pin, 1, length / pitches - 1));
                }
                let pins = 2 * pin * pitches;
                if self.half == Half::Tails { pins } else { 2 * length - pins }
            }
        };
        let starts = [2 * length - spread, 2 * length + spread];
        let mut pattern = Pattern::new(run, first, (2 * pitches) as u32, starts, 4 * length, 4 * pitches)?;
        pattern.slope = self.slope;
        self.check(&pattern, depth)?;
        Ok(pattern)
    }

    /// No tail and no pin may come to a point.
    fn check(&self, pattern: &Pattern, depth: i64) -> Result<(), Error> {
        let rise = self.slope.of(Nm::raw(depth)).nm();
        let widths = [Side::A, Side::B].into_iter().filter_map(|side| pattern.narrowest(side));
        // An inner span loses half the rise on both sides at its neck, a half one at the ends on one side only.
        let room = widths.flat_map(|widths| [widths.inner, widths.end.map(|end| 2 * end)]).flatten().min().unwrap_or(pattern.run);
        if rise >= room {
            return Err(Error::length(Code::FingersDoNotFit, "slope times depth", rise, 0, room - 1));
        }
        Ok(())
    }
}

#[cfg(test)]
#[path = "tails_tests.rs"]
mod tests;

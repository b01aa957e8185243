//! Halves: one part of the run to each board, where two cross.
//!
//! ```text
//!        ┌──┐  ┌──┐            ┌────────┐
//!   A    │  │  │  │       B    │        │       A keeps the part below, B the one above
//!        │  └──┘  │            │  ┌──┐  │
//!        └────────┘            └──┘  └──┘
//! ```
//!
//! Noyes, *Handwork in Wood* (1910), No. 14: each notch half the thickness. Any other split stays flush as well (ch. IX, rule 1).

use super::pattern::{Pattern, Side};
use crate::bounds::{RUN, within};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::ratio::Ratio;

/// A halving: the part of the run before the split to one side, the rest to the other.
///
/// ```
/// use dryfit_core::{Halves, Nm, Ratio};
/// let pattern = Halves::split(Ratio::new(1, 3)?).pattern(Nm::parse("60 mm")?)?;
/// assert_eq!(pattern.boundary(0), Some(Nm::parse("20 mm")?));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Halves {
    split: Ratio,
    first: Side,
}

impl Default for Halves {
    /// In the middle; side A keeps the lower part.
    fn default() -> Halves {
        Halves::split(Ratio::HALF)
    }
}

impl Halves {
    /// Split at a share of the run; side A keeps the part before it.
    pub fn split(split: Ratio) -> Halves {
        Halves { split, first: Side::A }
    }

    /// Who keeps the part before the split (the lower one: runs go along their axis upwards).
    #[must_use]
    pub fn first(self, first: Side) -> Halves {
        Halves { first, ..self }
    }

    /// The same with the sides' names exchanged.
    #[must_use]
    pub fn swapped(self) -> Halves {
        Halves { first: self.first.other(), ..self }
    }

    /// The pattern of a run.
    ///
    /// # Errors
    /// [`Code::SplitOutsideRun`] where one side would get nothing, [`Code::OutOfRange`] for the run.
    pub fn pattern(&self, run: Nm) -> Result<Pattern, Error> {
        within!(RUN, run.nm());
        let at = self.split.of(run).nm();
        if at <= 0 || at >= run.nm() {
            return Err(Error::length(Code::SplitOutsideRun, "split", at, 1, run.nm() - 1));
        }
        Ok(Pattern::new(run, self.first, 1, [at, at], 0, 1))
    }
}

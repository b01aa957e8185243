//! Exact ratios: slopes and splits.

use crate::bounds::{RATIO_TERM, within};
use crate::error::Error;
use crate::length::Nm;
use crate::round::{floor, nearest_small};

/// An exact ratio of two whole numbers; both from 0 to 1,000,000, the second at least 1.
///
/// Used for the split of a halving and the slope of a flank (rise : run), never as an angle.
///
/// ```
/// use dryfit_core::{Nm, Ratio};
/// let third = Ratio::new(1, 3)?;
/// assert_eq!(third.of(Nm::new(10)?).nm(), 3);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Ratio {
    num: u32,
    den: u32,
}

impl Ratio {
    /// Nothing: the slope of a straight flank.
    pub const ZERO: Ratio = Ratio { num: 0, den: 1 };
    /// One half.
    pub const HALF: Ratio = Ratio { num: 1, den: 2 };
    /// The slope of a flank that is "considered correct": one in eight (Fairham, *Woodwork Joints*, "The Dovetail Joint").
    pub const EIGHTH: Ratio = Ratio { num: 1, den: 8 };

    /// `num / den`.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for a term above 1,000,000 or a zero denominator.
    pub const fn new(num: u32, den: u32) -> Result<Ratio, Error> {
        if num != 0 {
            within!(RATIO_TERM, num as i64);
        }
        within!(RATIO_TERM, den as i64);
        Ok(Ratio { num, den })
    }

    /// First term.
    pub const fn num(self) -> u32 {
        self.num
    }

    /// Second term.
    pub const fn den(self) -> u32 {
        self.den
    }

    /// This share of a length, rounded to the nanometre.
    #[inline(never)]
    pub const fn of(self, length: Nm) -> Nm {
        // Whole parts of the denominator and what is left, so that 64 bits are enough for any length.
        let (num, den) = (self.num as i64, self.den as i64);
        let whole = floor(length.nm(), den);
        Nm::raw(whole.wrapping_mul(num).wrapping_add(nearest_small((length.nm() - whole * den) * num, den)))
    }
}

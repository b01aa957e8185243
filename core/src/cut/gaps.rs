//! What becomes of the gaps when the board or the cut is not as wide as the parts were made for.

use crate::joint::Fit;
use crate::length::Nm;
use crate::round::half;

/// How thick a board is, and how wide a cut: as parts are made for, or as they come out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Making {
    /// Of the board.
    pub thickness: Nm,
    /// Full width of the cut.
    pub kerf: Nm,
}

/// The gaps of parts once they are cut, where boards meet at right angles; negative is interference.
///
/// Each edge stands `d = half(real kerf) - half(meant kerf)` further in than it was meant to. So a gap between two cut edges grows by `2 d`, and
/// one between a cut edge and a face by `d`. A board that is thinner than meant by `t` leaves `t` more of a slot. In a corner it does not: a board
/// keeps the face that the mates' shoulders touch where it was meant to be, and the other face shows the difference at the tips. (Once such
/// boards are pushed home, the shoulders' gaps are nought and the tips stand so much further out.)
///
/// ```
/// use dryfit_core::{Fit, Gaps, Making, Nm};
/// let mm = |text| Nm::parse(text);
/// let meant = Making { thickness: mm("3")?, kerf: mm("0.2")? };
/// let real = Making { thickness: mm("2.9")?, kerf: mm("0.3")? };
/// let gaps = Gaps::of(Fit::EXACT, meant, real);
/// assert_eq!([gaps.flank, gaps.shoulder, gaps.cheek, gaps.tip], [mm("0.1")?, mm("0.05")?, mm("0.2")?, mm("0.05")?]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Gaps {
    /// Between two cut edges.
    pub flank: Nm,
    /// Between the cut edge behind a finger or tab and the mate's face.
    pub shoulder: Nm,
    /// Between both sides of a slot and the faces of the board in it, together.
    pub cheek: Nm,
    /// How far a finger's end stands proud (+) or back (-) of the mate's outer face.
    pub tip: Nm,
}

impl Gaps {
    /// Of parts made for one thickness and kerf with a fit, and cut with another kerf from a board of another thickness.
    #[inline]
    pub const fn of(fit: Fit, meant: Making, real: Making) -> Gaps {
        let further_in = half(real.kerf.nm()) - half(meant.kerf.nm());
        let thinner = meant.thickness.nm() - real.thickness.nm();
        Gaps {
            flank: Nm::raw(fit.flank().nm() + 2 * further_in),
            shoulder: Nm::raw(fit.cheek().nm() + further_in),
            cheek: Nm::raw(fit.cheek().nm() + 2 * further_in + thinner),
            tip: Nm::raw(fit.tip().nm() - further_in + thinner),
        }
    }

    /// The least of flank, shoulder and cheek.
    #[inline]
    pub fn least(&self) -> Nm {
        self.flank.min(self.shoulder).min(self.cheek)
    }

    /// The greatest of flank, shoulder and cheek.
    #[inline]
    pub fn most(&self) -> Nm {
        self.flank.max(self.shoulder).max(self.cheek)
    }
}

#[cfg(all(test, feature = "alloc"))]
#[path = "gaps_tests.rs"]
mod tests;

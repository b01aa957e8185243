//! Two boards that meet at an angle, cut straight down: how wide a slot must be, where a finger ends and where a shoulder stands.
//!
//! Each board loses the *shadow* of the place where the two slabs overlap: its extent along the board. Seen along the run:
//!
//! ```text
//!          /   /                    mate
//!     ____/___/_                  /     /
//!    |  |/   /| |  own board     /_____/_____
//!    |__/___/_|_|               /_|    |         a corner of more than a right angle: the shoulder stands
//!      /   /  slot             /__|____|____     behind the finger's inner edge, and a wedge stays open
//! ```
//!
//! Where the shadow is wider than the mate, a wedge stays open that no straight-down cut can reach: the dry fit states it.

use crate::angle::Angle;
use crate::bounds::{CROSSING, THICKNESS, within};
use crate::error::Error;
use crate::length::Nm;
use crate::round::up;

impl Angle {
    /// The width of a slot in a board of thickness `own` for a mate that crosses it at this angle:
    /// `mate / sin a + own / |tan a|`, rounded up; at a right angle the mate's thickness exactly.
    ///
    /// From the overlap of two strips: a parallelogram, of which this is the extent along the board.
    ///
    /// ```
    /// use dryfit_core::{Angle, Nm};
    /// let board = Nm::parse("3 mm")?;
    /// assert_eq!(Angle::degrees(90.0)?.slot_width(board, board)?, board);
    /// assert_eq!(Angle::degrees(60.0)?.slot_width(board, board)?, Nm::parse("5.196153 mm")?); // 3 sqrt 3
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for a thickness, or an angle of less than 15 degrees between the boards.
    pub fn slot_width(self, mate: Nm, own: Nm) -> Result<Nm, Error> {
        let (mate, own) = (within!(THICKNESS, mate.nm()) as f64, within!(THICKNESS, own.nm()) as f64);
        let (cos, sin) = self.crossing()?;
        Ok(Nm::raw(up((mate + own * cos) / sin)))
    }

    /// How far from the outer corner line the shoulders stand where the ends of two boards of one thickness meet at this inner angle:
    /// `t sin a` from a right angle on, else `t / tan (a / 2)`; rounded up.
    ///
    /// ```
    /// use dryfit_core::{Angle, Nm};
    /// let board = Nm::parse("3 mm")?;
    /// assert_eq!(Angle::degrees(90.0)?.shoulder(board)?, board);
    /// assert_eq!(Angle::degrees(150.0)?.shoulder(board)?, Nm::parse("1.5 mm")?);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// As [`Angle::slot_width`].
    pub fn shoulder(self, thickness: Nm) -> Result<Nm, Error> {
        let thick = within!(THICKNESS, thickness.nm()) as f64;
        let (_, sin) = self.crossing()?;
        let (cos, _) = self.cos_sin();
        Ok(Nm::raw(up(if cos <= 0.0 { thick * sin } else { thick * (1.0 + cos) / sin })))
    }

    /// How far from the outer corner line a finger's tip stays at this inner angle so that it does not stand proud of the mate's outer
    /// face: `t / tan a` below a right angle, rounded up, else nothing.
    ///
    /// # Errors
    /// As [`Angle::slot_width`].
    pub fn tip(self, thickness: Nm) -> Result<Nm, Error> {
        let thick = within!(THICKNESS, thickness.nm()) as f64;
        let (_, sin) = self.crossing()?;
        let (cos, _) = self.cos_sin();
        Ok(Nm::raw(up(cos.max(0.0) * thick / sin)))
    }

    /// Cosine and sine of the angle between the planes, both positive.
    pub(crate) fn crossing(self) -> Result<(f64, f64), Error> {
        within!(CROSSING, self.opening());
        let (cos, sin) = self.cos_sin();
        Ok((libm::fabs(cos), libm::fabs(sin)))
    }
}

/// How far an edge must move along its board so that it stands off a leaning face by `gap`, measured square to the face; `sine` is that of
/// the angle between them, in billionths.
pub(crate) fn along(gap: i64, sine: u32) -> i64 {
    crate::round::nearest(i128::from(gap) * i128::from(RIGHT), i128::from(sine.max(1)))
}

/// The sine of a right angle, in billionths.
pub(crate) const RIGHT: u32 = 1_000_000_000;

#[cfg(test)]
#[path = "angled_tests.rs"]
mod tests;

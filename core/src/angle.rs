//! Angles, as whole numbers.

use core::fmt;

use crate::bounds::{TURN, within};
use crate::error::{Code, Error};

/// An angle from 0 up to a full turn, anticlockwise: a whole number of 77ths of a nano-degree.
///
/// So a nano-degree is exact, and so is the corner of every box with up to twelve sides.
///
/// ```
/// use dryfit_core::Angle;
/// assert_eq!(Angle::degrees(-90.0)?, Angle::degrees(270.0)?);
/// assert_eq!(Angle::degrees(90.0)?.cos_sin(), (0.0, 1.0));
/// assert!(Angle::degrees(f64::NAN).is_err());
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Angle(i64);

impl Angle {
    const NANO_DEGREE: i64 = 77;
    const QUARTER: i64 = 90 * 1_000_000_000 * Angle::NANO_DEGREE;
    const FULL: i64 = 4 * Angle::QUARTER;

    /// An angle in degrees, rounded to the nano-degree; from -360 to 360.
    ///
    /// # Errors
    /// [`Code::NotFinite`], or [`Code::OutOfRange`].
    pub fn degrees(degrees: f64) -> Result<Angle, Error> {
        if !degrees.is_finite() {
            return Err(Error::bare(Code::NotFinite, TURN.name));
        }
        // Whatever lies beyond is out of range all the same.
        within!(TURN, libm::round(degrees.clamp(-1e9, 1e9) * 1e6) as i64);
        Ok(Angle::raw(libm::round(degrees * 1e9) as i64 * Angle::NANO_DEGREE))
    }

    /// A share of a full turn, `part` of `parts` (at least 1): exact for up to twelve parts.
    ///
    /// ```
    /// use dryfit_core::Angle;
    /// assert_eq!(Angle::part(1, 8), Angle::degrees(45.0)?);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn part(part: i64, parts: i64) -> Angle {
        Angle::raw(crate::round::nearest(i128::from(part) * i128::from(Angle::FULL), i128::from(parts.max(1))))
    }

    fn raw(value: i64) -> Angle {
        Angle(value.rem_euclid(Angle::FULL))
    }

    /// In degrees, from 0 up to 360.
    pub fn as_degrees(self) -> f64 {
        self.0 as f64 / (Angle::NANO_DEGREE as f64 * 1e9)
    }

    /// Two boards whose planes differ by this: how far they are from lying in one, in millionths of a degree, from 0 to 90.
    pub(crate) fn opening(self) -> i64 {
        let half = self.0.rem_euclid(2 * Angle::QUARTER);
        half.min(2 * Angle::QUARTER - half) / (1000 * Angle::NANO_DEGREE)
    }

    /// Cosine and sine: exact for quarter turns.
    pub fn cos_sin(self) -> (f64, f64) {
        let rest = (self.0 % Angle::QUARTER) as f64 / Angle::QUARTER as f64 * core::f64::consts::FRAC_PI_2;
        let (cos, sin) = (libm::cos(rest), libm::sin(rest));
        match self.0 / Angle::QUARTER {
            0 => (cos, sin),
            1 => (-sin, cos),
            2 => (-cos, -sin),
            _ => (sin, -cos),
        }
    }
}

impl core::ops::Sub for Angle {
    type Output = Angle;
    fn sub(self, other: Angle) -> Angle {
        Angle::raw(self.0 - other.0)
    }
}

impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} deg", self.as_degrees())
    }
}

//! Lengths: whole nanometres.

use core::fmt;

use crate::bounds::{LENGTH, MM, within};
use crate::error::{Amount, Code, Error};

/// A length: a whole number of nanometres, from -10 m to 10 m.
///
/// 0.001 mm, 0.001 in and 1/64 in are exact. Floats exist only at the doors, [`Nm::from_mm`] and [`Nm::mm`].
///
/// ```
/// use dryfit_core::Nm;
/// assert_eq!(Nm::parse("3/32 in")?.nm(), 2_381_250);
/// assert_eq!(Nm::from_mm(0.1)?, Nm::parse("0.1 mm")?);
/// assert_eq!(Nm::parse("1 1/2 in")?.to_string(), "38.1 mm");
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Nm(i64);

impl Nm {
    /// No length.
    pub const ZERO: Nm = Nm(0);
    /// -10 m.
    pub const MIN: Nm = Nm(LENGTH.least);
    /// 10 m.
    pub const MAX: Nm = Nm(LENGTH.most);

    /// Where sums end, some 1000 km: far beyond any length, and small enough that nothing made of it overflows.
    const END: i64 = 1 << 50;

    /// A length of `nm` nanometres.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] beyond 10 m.
    pub const fn new(nm: i64) -> Result<Nm, Error> {
        Ok(Nm(within!(LENGTH, nm)))
    }

    /// The nearest length within 10 m: for numbers that were checked where they came in.
    ///
    /// ```
    /// use dryfit_core::Nm;
    /// assert_eq!((Nm::clamped(5).nm(), Nm::clamped(i64::MIN)), (5, Nm::MIN));
    /// ```
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn clamped(nm: i64) -> Nm {
        LENGTH.nearest(nm)
    }

    /// Without the check, for values that are bounded already.
    pub(crate) const fn raw(nm: i64) -> Nm {
        Nm(nm)
    }

    /// The nanometres.
    pub const fn nm(self) -> i64 {
        self.0
    }

    /// A length from millimetres, rounded to the nearest nanometre (halves away from zero).
    ///
    /// # Errors
    /// [`Code::NotFinite`] for NaN and infinities, [`Code::OutOfRange`] beyond 10 m.
    pub fn from_mm(mm: f64) -> Result<Nm, Error> {
        if !mm.is_finite() {
            return Err(Error::bare(Code::NotFinite, LENGTH.name));
        }
        let nm = libm::round(mm * MM as f64);
        // A float cast saturates, so an enormous value stays out of range.
        Nm::new(nm as i64)
    }

    /// The millimetres, as near as a double comes.
    pub fn mm(self) -> f64 {
        self.0 as f64 / MM as f64
    }

    /// Reads a length: a sign if wanted, a number (`12`, `12.5`, `3/32`, `1 1/2`) and a unit
    /// (`um` or `µm`, `mm`, `cm`, `m`, `in`, `"`, `ft`; none is mm).
    ///
    /// The value is exact, then rounded once to the nearest nanometre (halves away from zero).
    ///
    /// # Errors
    /// [`Code::NotALength`] for anything else, [`Code::OutOfRange`] beyond 10 m.
    pub fn parse(text: &str) -> Result<Nm, Error> {
        parse::length(text)
    }
}

impl core::ops::Add for Nm {
    type Output = Nm;
    /// Saturates far outside the public range, so it never overflows.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn add(self, other: Nm) -> Nm {
        Nm(self.0.saturating_add(other.0).clamp(-Nm::END, Nm::END))
    }
}

impl core::ops::Sub for Nm {
    type Output = Nm;
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn sub(self, other: Nm) -> Nm {
        Nm(self.0.saturating_sub(other.0).clamp(-Nm::END, Nm::END))
    }
}

impl core::ops::Neg for Nm {
    type Output = Nm;
    fn neg(self) -> Nm {
        Nm(self.0.saturating_neg())
    }
}

impl fmt::Display for Nm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        Amount::Length(self.0).fmt(f)
    }
}

mod parse {
    //! The grammar, over bytes: `sign? number unit?`.

    use super::{Code, Error, Nm};
    use crate::bounds::LENGTH;
    use crate::round::wide_quotient;

    const DIGITS: usize = 18;

    /// A number as a fraction; up to 18 digits a part, so both fit `i128`.
    struct Number {
        num: i128,
        den: i128,
    }

    fn refuse() -> Error {
        Error::bare(Code::NotALength, LENGTH.name)
    }

    pub(super) fn length(text: &str) -> Result<Nm, Error> {
        let text = text.trim();
        let (negative, rest) = match text.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let (number, unit) = number(rest.trim_start())?;
        let scale = unit_nm(unit.trim())?;
        // Where the product overflows, the length is far beyond the range: a denominator has 18 digits at most.
        let twice = number.num.checked_mul(2 * scale).and_then(|twice| twice.checked_add(number.den));
        let magnitude = twice.map(|twice| wide_quotient(twice.unsigned_abs(), (2 * number.den).unsigned_abs()));
        let magnitude = magnitude.and_then(|magnitude| i64::try_from(magnitude).ok()).unwrap_or(i64::MAX);
        Nm::new(if negative { -magnitude } else { magnitude })
    }

    fn unit_nm(unit: &str) -> Result<i128, Error> {
        Ok(match unit {
            "" | "mm" => 1_000_000,
            "um" | "µm" | "μm" => 1_000,
            "cm" => 10_000_000,
            "m" => 1_000_000_000,
            "in" | "\"" => 25_400_000,
            "ft" => 304_800_000,
            _ => return Err(refuse()),
        })
    }

    /// Splits off leading digits: their value, how many, the rest.
    fn digits(text: &str) -> Result<(i128, usize, &str), Error> {
        let count = text.bytes().take_while(u8::is_ascii_digit).count();
        if count > DIGITS {
            return Err(refuse());
        }
        let (head, tail) = text.split_at_checked(count).ok_or_else(refuse)?;
        let value = head.bytes().fold(0i128, |value, byte| value * 10 + i128::from(byte - b'0'));
        Ok((value, count, tail))
    }

    fn number(text: &str) -> Result<(Number, &str), Error> {
        let (whole, count, rest) = digits(text)?;
        if let Some(rest) = rest.strip_prefix('.') {
            let (part, places, rest) = digits(rest)?;
            if count + places == 0 {
                return Err(refuse());
            }
            let den = 10i128.pow(places as u32);
            return Ok((Number { num: whole * den + part, den }, rest));
        }
        if count == 0 {
            return Err(refuse());
        }
        if let Some(rest) = rest.strip_prefix('/') {
            let (number, rest) = denominator(whole, rest)?;
            return Ok((number, rest));
        }
        // "1 1/2": a blank, digits and a slash.
        let after = rest.trim_start();
        if after.len() < rest.len() {
            let (num, count, tail) = digits(after)?;
            if count > 0 {
                let tail = tail.strip_prefix('/').ok_or_else(refuse)?;
                let (part, tail) = denominator(num, tail)?;
                return Ok((Number { num: whole * part.den + part.num, den: part.den }, tail));
            }
        }
        Ok((Number { num: whole, den: 1 }, rest))
    }

    fn denominator(num: i128, text: &str) -> Result<(Number, &str), Error> {
        let (den, count, rest) = digits(text)?;
        if count == 0 || den == 0 {
            return Err(refuse());
        }
        Ok((Number { num, den }, rest))
    }
}

#[cfg(test)]
#[path = "length_tests.rs"]
mod tests;

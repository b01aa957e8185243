//! Integers and exact millimetres as text, without the language's own formatting.

use super::sink::Sink;
use crate::error::Error;

/// As many digits as a `u64` can have.
const DIGITS: usize = 20;

/// Writes a whole number in decimal.
#[cfg_attr(not(feature = "alloc"), allow(dead_code))]
pub(crate) fn integer(sink: &mut impl Sink, value: i64) -> Result<(), Error> {
    if value < 0 {
        sink.put(b"-")?;
    }
    digits(sink, value.unsigned_abs(), 1)
}

/// Writes nanometres as exact millimetres: at most six places, none that is not needed.
pub(crate) fn millimetres(sink: &mut impl Sink, nm: i64) -> Result<(), Error> {
    trimmed(sink, nm, 6)
}

/// Writes a number of steps that are so many decimal places small, without places that are not needed.
#[inline]
pub(crate) fn trimmed(sink: &mut impl Sink, steps: i64, places: usize) -> Result<(), Error> {
    if steps < 0 {
        sink.put(b"-")?;
    }
    let unit = 10u64.saturating_pow(places as u32).max(1);
    let (whole, mut part) = (steps.unsigned_abs() / unit, steps.unsigned_abs() % unit);
    digits(sink, whole, 1)?;
    if part == 0 {
        return Ok(());
    }
    let mut places = places;
    while part % 10 == 0 {
        part /= 10;
        places -= 1;
    }
    sink.put(b".")?;
    digits(sink, part, places)
}

/// Writes a number with at least `least` digits.
fn digits(sink: &mut impl Sink, mut value: u64, least: usize) -> Result<(), Error> {
    let mut text = [b'0'; DIGITS];
    let mut used = 0;
    for digit in text.iter_mut().rev() {
        *digit = b'0' + (value % 10) as u8;
        value /= 10;
        used += 1;
        if value == 0 && used >= least {
            break;
        }
    }
    sink.put(text.get(DIGITS - used..).unwrap_or(&[]))
}

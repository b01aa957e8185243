//! Integers and exact millimetres as text, without the language's own formatting.

use super::sink::Sink;
use crate::bounds::MM;
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
    if nm < 0 {
        sink.put(b"-")?;
    }
    let (whole, mut part) = (nm.unsigned_abs() / MM as u64, nm.unsigned_abs() % MM as u64);
    digits(sink, whole, 1)?;
    if part == 0 {
        return Ok(());
    }
    let mut places = 6;
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

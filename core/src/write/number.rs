//! Integers and exact millimetres as text, without the language's own formatting.

use super::sink::Sink;
use crate::error::Error;
use crate::point::Point;
use crate::round::divide;

/// A sign, a point and the digits of a `u64`.
const LONGEST: usize = 22;

/// Writes a whole number in decimal.
#[inline]
pub(crate) fn integer(sink: &mut impl Sink, value: i64) -> Result<(), Error> {
    trimmed(sink, value, 0)
}

/// Writes nanometres as exact millimetres: at most six places, none that is not needed.
#[inline]
pub(crate) fn millimetres(sink: &mut impl Sink, nm: i64) -> Result<(), Error> {
    trimmed(sink, nm, 6)
}

/// Writes a number of steps that are so many decimal places small, without places that are not needed.
#[inline]
pub(crate) fn trimmed(sink: &mut impl Sink, steps: i64, places: usize) -> Result<(), Error> {
    let mut text = [0; LONGEST];
    let used = push(&mut text, steps, places);
    sink.put(text.get(..used).unwrap_or(&[]))
}

/// The same at the start of a text; how many letters there are. What does not fit is left out.
pub(crate) fn push(text: &mut [u8], steps: i64, mut places: usize) -> usize {
    let mut free = text.iter_mut();
    let capacity = free.len();
    // From the last sign to the first.
    let mut put = |sign: u8| {
        if let Some(to) = free.next() {
            *to = sign;
        }
    };
    let mut left = steps.unsigned_abs();
    // Places that are zero are left out, up to one that is not.
    let mut shown = places == 0;
    loop {
        let (rest, digit) = divide(left, 10);
        left = rest;
        shown |= digit != 0;
        if shown {
            put(b'0' + digit as u8);
        }
        if places == 0 && left == 0 {
            break;
        }
        if places == 1 && shown {
            put(b'.');
        }
        shown |= places == 1;
        places = places.saturating_sub(1);
    }
    if steps < 0 {
        put(b'-');
    }
    let used = capacity - free.len();
    text.get_mut(..used).unwrap_or(&mut []).reverse();
    used
}

/// The nearest place on a grid of so many nanometres (an even number), counted in them; half way between two the higher one.
#[inline(never)]
pub(crate) fn on_grid(point: &Point, step: u16) -> [i64; 2] {
    [steps(point.x.nm(), step), steps(point.y.nm(), step)]
}

/// The nearest whole number of steps, an even number each; half way between two the higher one.
pub(crate) fn steps(value: i64, step: u16) -> i64 {
    let value = value + i64::from(step / 2);
    // The complement of a negative number divided is that of the number divided, rounded down.
    let sign = value >> 63;
    divide((value ^ sign) as u64, step).0 as i64 ^ sign
}

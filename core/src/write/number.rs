//! Integers and exact millimetres as text, without the language's own formatting.

use super::sink::Sink;
use crate::error::Error;
use crate::point::Point;
use crate::round::divide;

/// A sign, a point and the digits of a `u64`.
pub(crate) const LONGEST: usize = 22;

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
    sink.put(digits(&mut [0; LONGEST], steps, places))
}

/// The same at the end of a small memory.
#[cfg_attr(target_pointer_width = "64", inline)]
#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(crate) fn digits(text: &mut [u8; LONGEST], steps: i64, mut places: usize) -> &[u8] {
    let mut free = text.iter_mut();
    // From the last sign to the first.
    let mut put = |sign: u8| {
        if let Some(to) = free.next_back() {
            *to = sign;
        }
    };
    // One division for each digit: what is left, and the last digit.
    let last = |value: u64| {
        let left = divide(value, 10);
        (left, (value as u8).wrapping_sub((left as u8).wrapping_mul(10)))
    };
    let (mut left, mut digit) = last(steps.unsigned_abs());
    while places > 0 && digit == 0 {
        places -= 1;
        (left, digit) = last(left);
    }
    if places > 0 {
        for _ in 0..places {
            put(b'0' + digit);
            (left, digit) = last(left);
        }
        put(b'.');
    }
    loop {
        put(b'0' + digit);
        if left == 0 {
            break;
        }
        (left, digit) = last(left);
    }
    if steps < 0 {
        put(b'-');
    }
    let unused = free.len();
    text.get(unused..).unwrap_or(&[])
}

/// The nearest place on a grid of so many nanometres (an even number), counted in them; half way between two the higher one.
#[inline(never)]
pub(crate) fn on_grid(point: &Point, step: u16) -> [i32; 2] {
    // Steps of a tenth of a micrometre: 32 bits are enough for 200 m.
    [steps(point.x.nm(), step) as i32, steps(point.y.nm(), step) as i32]
}

/// The nearest whole number of steps, an even number each; half way between two the higher one.
pub(crate) fn steps(value: i64, step: u16) -> i64 {
    let value = value + i64::from(step / 2);
    // The complement of a negative number divided is that of the number divided, rounded down.
    let sign = value >> 63;
    divide((value ^ sign) as u64, step) as i64 ^ sign
}

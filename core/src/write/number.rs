//! Integers and exact millimetres as text, without the language's own formatting.

use super::sink::Sink;
use crate::error::Error;
use crate::point::Point;

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
pub(crate) fn trimmed(sink: &mut impl Sink, steps: i64, mut places: usize) -> Result<(), Error> {
    let mut text = [0; LONGEST];
    let mut free = text.iter_mut();
    // From the last sign to the first.
    let mut put = |sign: u8| free.next_back().map(|to| *to = sign);
    let mut left = steps.unsigned_abs();
    while places > 0 && left.is_multiple_of(10) {
        (left, places) = (left / 10, places - 1);
    }
    if places > 0 {
        for _ in 0..places {
            put(b'0' + (left % 10) as u8);
            left /= 10;
        }
        put(b'.');
    }
    loop {
        put(b'0' + (left % 10) as u8);
        left /= 10;
        if left == 0 {
            break;
        }
    }
    if steps < 0 {
        put(b'-');
    }
    let unused = free.len();
    sink.put(text.get(unused..).unwrap_or(&[]))
}

/// The nearest place on a grid of so many nanometres, counted in them; half way between two the higher one.
#[inline]
pub(crate) fn on_grid(point: Point, step: i64) -> [i64; 2] {
    [point.x, point.y].map(|way| (way.nm() + step / 2).div_euclid(step))
}

//! The path of one loop or line in an SVG file.

use super::number::millimetres;
use super::sink::Sink;
use crate::error::Error;

/// Writes points (nm, y down already) as `M`, `L`, `H` and `V`, and `Z` if the line is closed. Points that repeat the last one are left out.
pub(crate) fn path(sink: &mut impl Sink, points: impl IntoIterator<Item = (i64, i64)>, closed: bool) -> Result<(), Error> {
    let mut last: Option<(i64, i64)> = None;
    for (x, y) in points {
        match last {
            None => pair(sink, b"M", x, y)?,
            Some(before) if before == (x, y) => continue,
            Some((_, before)) if before == y => one(sink, b"H", x)?,
            Some((before, _)) if before == x => one(sink, b"V", y)?,
            Some(_) => pair(sink, b"L", x, y)?,
        }
        last = Some((x, y));
    }
    if closed && last.is_some() { sink.put(b"Z") } else { Ok(()) }
}

fn one(sink: &mut impl Sink, letter: &[u8], value: i64) -> Result<(), Error> {
    sink.put(letter)?;
    millimetres(sink, value)
}

fn pair(sink: &mut impl Sink, letter: &[u8], x: i64, y: i64) -> Result<(), Error> {
    one(sink, letter, x)?;
    one(sink, b" ", y)
}

//! The path of one loop or line in an SVG file.

use super::number::millimetres;
use super::sink::Sink;
use crate::cut::Move;
use crate::error::Error;
use crate::point::Point;

/// Writes points (nm, y down already) as `M`, `L`, `H` and `V`, and `Z` if the line is closed. Points that repeat the last one are left out.
#[cfg(feature = "alloc")]
pub(crate) fn path(sink: &mut impl Sink, points: impl IntoIterator<Item = (i64, i64)>, closed: bool) -> Result<(), Error> {
    bent(sink, points.into_iter().map(|point| (point, None)), closed)
}

/// The same of points that each have the radius of the arc that leaves them, if the edge is one: an `A`, clockwise as one sees it.
pub(crate) fn bent(sink: &mut impl Sink, points: impl IntoIterator<Item = ((i64, i64), Option<i64>)>, closed: bool) -> Result<(), Error> {
    let mut first: Option<(i64, i64)> = None;
    let mut last: Option<((i64, i64), Option<i64>)> = None;
    for ((x, y), radius) in points {
        match last {
            None => pair(sink, b"M", x, y)?,
            Some((before, _)) if before == (x, y) => {}
            Some((_, Some(radius))) => arc(sink, radius, (x, y))?,
            Some(((_, before), _)) if before == y => one(sink, b"H", x)?,
            Some(((before, _), _)) if before == x => one(sink, b"V", y)?,
            Some(_) => pair(sink, b"L", x, y)?,
        }
        first = first.or(Some((x, y)));
        last = Some(((x, y), radius));
    }
    match (closed, first, last) {
        (true, Some(end), Some((_, radius))) => {
            if let Some(radius) = radius {
                arc(sink, radius, end)?;
            }
            sink.put(b"Z")
        }
        _ => Ok(()),
    }
}

/// A path along moves, in the making.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Pen {
    last: Option<Point>,
}

impl Pen {
    /// Goes along a move as it looks once `turned` has put y down. A move that does not begin where the last one ended begins a line of its own.
    pub fn step(&mut self, sink: &mut impl Sink, way: &Move, turned: impl Fn(Point) -> (i64, i64), scaled: impl Fn(i64) -> i64) -> Result<(), Error> {
        let ((x0, y0), (x, y)) = (turned(way.from), turned(way.to));
        if self.last.replace(way.to) != Some(way.from) {
            pair(sink, b"M", x0, y0)?;
        }
        match way.arc() {
            Some(arc) => round(sink, scaled(arc.radius().nm()), way.clockwise, (x, y)),
            None if y0 == y => one(sink, b"H", x),
            None if x0 == x => one(sink, b"V", y),
            None => pair(sink, b"L", x, y),
        }
    }

    /// Back to where the line began. What follows is a line of its own.
    pub fn close(&mut self, sink: &mut impl Sink) -> Result<(), Error> {
        if self.last.take().is_some() { sink.put(b"Z") } else { Ok(()) }
    }

    /// Whether a line that ends here is in the making.
    pub fn is_at(&self, point: Point) -> bool {
        self.last == Some(point)
    }

    /// Whether nothing was drawn since the last line was closed.
    pub const fn is_new(&self) -> bool {
        self.last.is_none()
    }
}

fn arc(sink: &mut impl Sink, radius: i64, to: (i64, i64)) -> Result<(), Error> {
    round(sink, radius, true, to)
}

fn round(sink: &mut impl Sink, radius: i64, clockwise: bool, (x, y): (i64, i64)) -> Result<(), Error> {
    pair(sink, b"A", radius, radius)?;
    pair(sink, if clockwise { b" 0 0 1 " } else { b" 0 0 0 " }, x, y)
}

fn one(sink: &mut impl Sink, letter: &[u8], value: i64) -> Result<(), Error> {
    sink.put(letter)?;
    millimetres(sink, value)
}

fn pair(sink: &mut impl Sink, letter: &[u8], x: i64, y: i64) -> Result<(), Error> {
    one(sink, letter, x)?;
    one(sink, b" ", y)
}

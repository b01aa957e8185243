//! The path data of an SVG document whose unit is not the millimetre, streamed without heap.

use super::path::Pen;
use super::sink::Sink;
use crate::bounds::{Bound, MM, UNIT, within};
use crate::cut::Move;
use crate::error::{Code, Error};
use crate::point::Point;
use crate::round::nearest;

const PARTS: Bound = UNIT.named("parts of the unit");

/// What goes into the attribute `d` of a path, in any unit of the document, with six decimals at most.
///
/// The unit is a ratio of nanometres, so that no unit is rounded: a pixel of 96 to the inch is 25,400,000 / 96 nm, a point 25,400,000 / 72 nm, a
/// millimetre 1,000,000 / 1 nm. The document's y points down; its origin lies at the point `corner` of the board. (Units: CSS Values and Units Level 4,
/// section 6.2, Absolute Lengths.)
///
/// ```
/// use dryfit_core::{Move, Nm, PathData, Point};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::parse(x)?, Nm::parse(y)?));
/// let way = Move { from: at("0 in", "0 in")?, to: at("1 in", "0.5 in")?, centre: None, clockwise: false };
/// let mut data = PathData::begin(Vec::new(), [25_400_000, 96], at("0 in", "1 in")?)?;
/// data.step(&way)?;
/// assert_eq!(data.end(), b"M0 96L96 48");
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Debug)]
pub struct PathData<S> {
    sink: S,
    unit: [i64; 2],
    corner: Point,
    pen: Pen,
}

impl<S: Sink> PathData<S> {
    /// Begins at nothing.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where a unit is not 1 nm to 10 m, or its parts are not 1 to 1,000,000,000.
    pub fn begin(sink: S, unit: [i64; 2], corner: Point) -> Result<PathData<S>, Error> {
        let [nm, parts] = unit;
        within!(UNIT, nm);
        within!(PARTS, parts);
        if nm < parts {
            return Err(Error::count(Code::OutOfRange, "parts of the unit", parts, 1, nm));
        }
        Ok(PathData { sink, unit, corner, pen: Pen::default() })
    }

    /// The sink.
    pub const fn sink(&self) -> &S {
        &self.sink
    }

    /// Goes along a move. One that does not begin where the last one ended begins a line of its own.
    ///
    /// # Errors
    /// [`Code::SinkFull`], as in all that follows.
    pub fn step(&mut self, way: &Move) -> Result<(), Error> {
        if way.from == way.to {
            return Ok(());
        }
        let ([nm, parts], corner) = (self.unit, self.corner);
        // At most 2 x 10^10 nm by a million millionths and no more parts than nanometres.
        let scaled = |length: i64| nearest(i128::from(length) * i128::from(MM) * i128::from(parts), i128::from(nm));
        self.pen.step(&mut self.sink, way, |p| (scaled(p.x.nm() - corner.x.nm()), scaled(corner.y.nm() - p.y.nm())), scaled)
    }

    /// Closes the line: what follows is a line of its own.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn close(&mut self) -> Result<(), Error> {
        self.pen.close(&mut self.sink)
    }

    /// Gives the sink back.
    pub fn end(self) -> S {
        self.sink
    }
}

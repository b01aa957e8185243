//! How thin the solid of any outline gets: along both axes by the sweep, with slanted edges by what faces what.

use crate::edges::Edges;
use crate::facing;
use crate::point::Point;
use crate::shape::Shape;
use crate::sweep::{self, Thin};

/// The thinnest solid of a shape; or a point where edges cross.
pub(crate) fn thinnest(shape: &Shape) -> Result<Option<Thin>, Point> {
    if shape.leans() { facing::thinnest(shape) } else { sweep::thinnest(&Edges::of(shape, (0, 0))) }
}

/// That no edge crosses another or lies on it; or a point where one does.
pub(crate) fn uncrossed(shape: &Shape) -> Result<(), Point> {
    if shape.leans() { facing::thinnest(shape).map(drop) } else { sweep::uncrossed(&Edges::of(shape, (0, 0))) }
}

//! How thin the solid of any outline gets: along both axes by the sweep, with slanted edges by what faces what. The rectangle that
//! holds an arc counts as void: near a round edge the answer may be too thin, never too thick.

use crate::edges::Edges;
use crate::facing;
use crate::point::Point;
use crate::shape::Shape;
use crate::sweep::{self, Thin};

/// The thinnest solid of a shape; or a point where edges cross.
pub(crate) fn thinnest(shape: &Shape) -> Result<Option<Thin>, Point> {
    if shape.is_bent() {
        return thinnest(&shape.envelope());
    }
    if shape.leans() { facing::thinnest(shape) } else { sweep::thinnest(&Edges::of(shape, (0, 0))) }
}

/// That no edge crosses another or lies on it; or a point where one does.
pub(crate) fn uncrossed(shape: &Shape) -> Result<(), Point> {
    if shape.is_bent() {
        return uncrossed(&shape.envelope());
    }
    if shape.leans() { facing::uncrossed(shape) } else { sweep::uncrossed(&Edges::of(shape, (0, 0))) }
}

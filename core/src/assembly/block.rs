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
    /// For each board, its mates by their normals.
    of_board: Vec<Vec<Meeting>>,
}

/// A mate of a board: its normal, its number, and the number of the block.
type Meeting = (Axis, u16, usize);

impl Blocks {
    pub(crate) fn of<B: Borrow<Board>>(boards: &[B]) -> Result<Blocks, Failure> {
        let mut all = Vec::with_capacity(4 * boards.len());
        let mut of_board: Vec<Vec<Meeting>> = vec![Vec::with_capacity(8); boards.len()];
        for (i, p) in boards.iter().enumerate() {
            for (j, q) in boards.iter().enumerate().skip(i + 1) {
                let (p, q) = (p.borrow(), q.borrow());
                if let Some(block) = Block::between(p, q, i, j)? {
                    for (number, mate, normal) in [(i, block.b, q.normal()), (j, block.a, p.normal())] {
                        if let Some(list) = of_board.get_mut(number) {
                            list.push((normal, mate, all.len()));
                        }
                    }
                    all.push(block);
                }
            }
        }
        for list in &mut of_board {
            list.sort_unstable();
        }
        Ok(Blocks { all, of_board })
    }

    pub(crate) fn all(&self) -> &[Block] {
        &self.all
    }

    fn meetings(&self, board: u16) -> &[Meeting] {
        self.of_board.get(usize::from(board)).map_or(&[], Vec::as_slice)
    }

    /// The blocks of one board, with their numbers.
    pub(crate) fn of_board(&self, board: u16) -> impl Iterator<Item = (usize, Block)> + '_ {
        self.meetings(board).iter().filter_map(|&(.., n)| self.all.get(n).map(|&block| (n, block)))
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
        let across = |board| {
            let all = self.meetings(board);
            let (from, to) = (all.partition_point(|&(normal, ..)| normal < block.run), all.partition_point(|&(normal, ..)| normal <= block.run));
            (all.get(from..to).unwrap_or(&[]), board)
        };
        // Of the two boards, the one with fewer mates across the run names the candidates.
        let (a, b) = (across(block.a), across(block.b));
        let ((few, _), (_, other)) = if a.0.len() <= b.0.len() { (a, b) } else { (b, a) };
        let mut thirds: Vec<_> = few
            .iter()
            .filter(|&&(_, third, _)| self.find(other, third).is_some())
            .filter_map(|&(_, third, _)| boards.get(usize::from(third)).map(|board| (board.borrow(), third)))
            .map(|(board, third)| (board.lo(block.run), board.hi(block.run), third))
            .filter(|&(lo, hi, _)| lo < block.to && hi > block.from)
            .collect();
        thirds.sort_unstable();
        thirds
    }
}

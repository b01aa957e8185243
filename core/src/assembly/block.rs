//! Blocks: where two slabs overlap.

use alloc::format;
use alloc::vec;
use alloc::vec::Vec;
use core::borrow::Borrow;

use super::board::Board;
use super::turned::{self, Shadows};
use crate::error::{Code, Error, Failure};
use crate::joint::RIGHT;
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
    /// Of two boards in one plane: how deep they reach into each other.
    pub splice: Option<Depth>,
    /// Of two boards at an angle: how far they reach along each other.
    pub shadows: Option<Shadows>,
}

/// How deep two boards of one plane reach into each other, end to end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Depth {
    pub axis: Axis,
    pub from: i64,
    pub to: i64,
}

impl Depth {
    /// Of two boards with one normal that overlap; `None` where they lie otherwise than end to end in one plane: each must end inside
    /// the other along one axis only, and be no wider there than the other or the other way round.
    pub(super) fn between(p: &Board, q: &Board) -> Option<Depth> {
        let normal = p.normal();
        if (p.lo(normal), p.hi(normal)) != (q.lo(normal), q.hi(normal)) {
            return None;
        }
        let staggered = |axis: Axis| (p.lo(axis) < q.lo(axis) && p.hi(axis) < q.hi(axis)) || (q.lo(axis) < p.lo(axis) && q.hi(axis) < p.hi(axis));
        let (u, v) = normal.plane();
        let axis = match (staggered(u), staggered(v)) {
            (true, false) => u,
            (false, true) => v,
            _ => return None,
        };
        Some(Depth { axis, from: p.lo(axis).max(q.lo(axis)), to: p.hi(axis).min(q.hi(axis)) })
    }

    /// How deep.
    pub fn size(&self) -> i64 {
        self.to - self.from
    }
}

impl Block {
    /// The block of boards `p` and `q`, numbered `i` and `j`, if they overlap.
    pub(super) fn between(p: &Board, q: &Board, i: usize, j: usize) -> Result<Option<Block>, Failure> {
        if let Some(axis) = p.upright().or(q.upright()) {
            return turned::block(p, q, (i, j), axis);
        }
        if !p.overlaps(q) {
            return Ok(None);
        }
        if p.normal() == q.normal() {
            let same_place = || Failure::at(Error::bare(Code::SamePlace, "at"), format!("boards \"{}\" and \"{}\"", p.name(), q.name()));
            let depth = Depth::between(p, q).ok_or_else(same_place)?;
            return Ok(Some(Block::along(p.normal().third(depth.axis), p, q, (i, j), Some(depth))));
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
        Ok(Some(Block::along(p.normal().third(q.normal()), p, q, (i, j), None)))
    }

    fn along(run: Axis, p: &Board, q: &Board, (i, j): (usize, usize), splice: Option<Depth>) -> Block {
        let (from, to) = (p.lo(run).max(q.lo(run)), p.hi(run).min(q.hi(run)));
        Block { a: i.min(j) as u16, b: i.max(j) as u16, run, from, to, splice, shadows: None }
    }

    /// What of its own plane a board shares with the mate, across the run: along which axis, from where to where.
    pub fn region(&self, number: u16, own: &Board, mate: &Board) -> (Axis, (i64, i64)) {
        match (self.splice, self.shadows) {
            (Some(depth), _) => (depth.axis, (depth.from, depth.to)),
            (None, Some(Shadows { on: [a, b], .. })) => (self.run.third(own.normal()), if number == self.a { a } else { b }),
            (None, None) => (mate.normal(), (mate.lo(mate.normal()), mate.hi(mate.normal()))),
        }
    }

    /// The sine of the angle between the two, in billionths.
    pub fn sine(&self) -> u32 {
        self.shadows.map_or(RIGHT, |shadows| shadows.sine)
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
    /// Board after board, its mates by their normals.
    meetings: Vec<Meeting>,
    /// Where each board's mates end in `meetings`.
    ends: Vec<usize>,
    /// The axis about which boards are turned, if any is.
    axis: Option<Axis>,
}

/// A mate of a board: its normal, its number, and the number of the block.
type Meeting = (Axis, u16, usize);

impl Blocks {
    pub(crate) fn of<B: Borrow<Board>>(boards: &[B]) -> Result<Blocks, Failure> {
        let mut all = Vec::with_capacity(4 * boards.len());
        // How many mates each board has, and then where they end.
        let mut ends = vec![0; boards.len()];
        for (i, p) in boards.iter().enumerate() {
            for (j, q) in boards.iter().enumerate().skip(i + 1) {
                if let Some(block) = Block::between(p.borrow(), q.borrow(), i, j)? {
                    [i, j].into_iter().for_each(|board| ends.get_mut(board).into_iter().for_each(|count| *count += 1));
                    all.push(block);
                }
            }
        }
        let mut total = 0;
        for end in &mut ends {
            // Where they begin; each that comes moves it on.
            total += core::mem::replace(end, total);
        }
        let mut meetings = vec![(Axis::X, 0, 0); total];
        let normal = |board: u16| boards.get(usize::from(board)).map_or(Axis::X, |board| board.borrow().normal());
        for (number, block) in all.iter().enumerate() {
            for (board, mate) in [(block.a, block.b), (block.b, block.a)] {
                let Some(end) = ends.get_mut(usize::from(board)) else { continue };
                if let Some(place) = meetings.get_mut(*end) {
                    *place = (normal(mate), mate, number);
                }
                *end += 1;
            }
        }
        let mut rest = meetings.as_mut_slice();
        let mut start = 0;
        for &end in &ends {
            let (own, others) = rest.split_at_mut_checked(end - start).unwrap_or_default();
            own.sort_unstable();
            (rest, start) = (others, end);
        }
        let axis = boards.iter().find_map(|board| board.borrow().upright());
        Ok(Blocks { all, meetings, ends, axis })
    }

    pub(crate) fn all(&self) -> &[Block] {
        &self.all
    }

    /// The axis about which boards are turned, if any is.
    pub(crate) fn axis(&self) -> Option<Axis> {
        self.axis
    }

    /// Changes the shadows of a block.
    pub(super) fn widen(&mut self, block: usize, wider: impl FnOnce(&mut Block)) {
        if let Some(block) = self.all.get_mut(block) {
            wider(block);
        }
    }

    /// From where to where a third board takes a block's run.
    pub(super) fn reach<B: Borrow<Board>>(&self, boards: &[B], block: &Block, third: u16) -> Option<(i64, i64)> {
        let board = |number: u16| boards.get(usize::from(number)).map(Borrow::borrow);
        let other = board(third)?;
        let Some(axis) = self.axis.filter(|&axis| block.run != axis) else { return Some((other.lo(block.run), other.hi(block.run))) };
        // The run lies along the upright one of the two.
        let number = if board(block.a)?.normal() == axis { block.b } else { block.a };
        let meeting = self.find(number, third).and_then(|index| self.all.get(index))?;
        Some(meeting.region(number, board(number)?, other).1)
    }

    fn meetings(&self, board: u16) -> &[Meeting] {
        let board = usize::from(board);
        let start = board.checked_sub(1).and_then(|before| self.ends.get(before)).copied().unwrap_or(0);
        self.ends.get(board).and_then(|&end| self.meetings.get(start..end)).unwrap_or(&[])
    }

    /// The blocks of one board, with their numbers.
    pub(crate) fn of_board(&self, board: u16) -> impl Iterator<Item = (usize, &Block)> {
        self.meetings(board).iter().filter_map(|&(.., n)| self.all.get(n).map(|block| (n, block)))
    }

    /// The number of the block of two boards.
    pub(crate) fn find(&self, p: u16, q: u16) -> Option<usize> {
        let key = (p.min(q), p.max(q));
        self.all.binary_search_by_key(&key, |block| (block.a, block.b)).ok()
    }

    /// A board without any block.
    pub(super) fn lonely(&self) -> Option<usize> {
        (0..self.ends.len()).find(|&board| self.meetings(board as u16).is_empty())
    }

    /// The third boards that cross a block, ordered along its run: from where to where, and their numbers.
    pub(crate) fn thirds<B: Borrow<Board>>(&self, boards: &[B], block: &Block) -> Vec<(i64, i64, u16)> {
        let mut thirds = Vec::new();
        self.find_thirds(boards, block, &mut thirds);
        thirds
    }

    /// The same into a list that is used again.
    pub(super) fn find_thirds<B: Borrow<Board>>(&self, boards: &[B], block: &Block, thirds: &mut Vec<(i64, i64, u16)>) {
        thirds.clear();
        if self.axis.is_some() {
            self.thirds_at_angles(boards, block, thirds);
        } else {
            self.thirds_at_right_angles(boards, block, thirds);
        }
        thirds.sort_unstable();
    }

    fn thirds_at_right_angles<B: Borrow<Board>>(&self, boards: &[B], block: &Block, thirds: &mut Vec<(i64, i64, u16)>) {
        let mates = |board: u16, normal: Axis| {
            let all = self.meetings(board);
            let (from, to) = (all.partition_point(|&(n, ..)| n < normal), all.partition_point(|&(n, ..)| n <= normal));
            all.get(from..to).unwrap_or(&[])
        };
        // Of the two boards, the one with fewer mates across the run names the candidates.
        let (a, b) = (mates(block.a, block.run), mates(block.b, block.run));
        let (few, other) = if a.len() <= b.len() { (a, block.b) } else { (b, block.a) };
        // A board in the plane of either is spliced to it there.
        let plane = |board: u16| boards.get(usize::from(board)).map_or(&[][..], |of| mates(board, of.borrow().normal()));
        let spliced = if block.splice.is_some() { [&[][..]; 2] } else { [plane(block.a), plane(block.b)] };
        let candidates = [(few, other), (spliced[0], block.b), (spliced[1], block.a)];
        for (&(_, third, _), other) in candidates.iter().flat_map(|&(list, other)| list.iter().map(move |meeting| (meeting, other))) {
            let Some(board) = boards.get(usize::from(third)).map(Borrow::borrow) else { continue };
            let (lo, hi) = (board.lo(block.run), board.hi(block.run));
            if lo < block.to && hi > block.from && self.find(other, third).is_some() {
                thirds.push((lo, hi, third));
            }
        }
    }

    /// The same in an assembly with turned boards: flat boards cross what runs along their axis, upright ones all else.
    fn thirds_at_angles<B: Borrow<Board>>(&self, boards: &[B], block: &Block, thirds: &mut Vec<(i64, i64, u16)>) {
        let both =
            self.of_board(block.a).map(|(_, other)| other.mate(block.a)).filter(|&third| third != block.b && self.find(block.b, third).is_some());
        let flat = |third: &u16| boards.get(usize::from(*third)).is_some_and(|board| Some(board.borrow().normal()) == self.axis);
        let both = both.filter(|third| (self.axis == Some(block.run)) == flat(third));
        let reach = |third: u16| self.reach(boards, block, third).map(|(lo, hi)| (lo, hi, third));
        thirds.extend(both.filter_map(reach).filter(|&(lo, hi, _)| lo < block.to && hi > block.from));
    }

    /// Across a splice only boards that cross its run may go, over its whole depth: any other would share all of it with both, or leave a
    /// part of the depth to neither. And no two of them in one place: four boards would meet there.
    pub(crate) fn uncrowded<B: Borrow<Board>>(&self, boards: &[B], block: &Block, thirds: &[(i64, i64, u16)]) -> Result<(), Failure> {
        let board = |number: u16| boards.get(usize::from(number)).map(Borrow::borrow);
        let (Some(p), Some(q)) = (board(block.a), board(block.b)) else { return Ok(()) };
        let fourth = thirds.iter().zip(thirds.iter().skip(1)).find(|((_, hi, _), (lo, ..))| lo < hi).and_then(|(_, &(.., c))| board(c));
        let in_the_way = |depth: Depth| {
            let across = move |c: &Board| c.normal() == block.run && c.lo(depth.axis) <= depth.from && c.hi(depth.axis) >= depth.to;
            let mates = self.of_board(block.a).map(|(_, other)| other.mate(block.a)).filter(|&mate| mate != block.b);
            mates.filter_map(board).find(move |c| !across(c) && c.overlaps(q))
        };
        match fourth.or_else(|| block.splice.and_then(in_the_way)) {
            Some(c) => Err(Failure::at(Error::bare(Code::Crowded, "at"), format!("boards \"{}\", \"{}\" and \"{}\"", p.name(), q.name(), c.name()))),
            None => Ok(()),
        }
    }
}

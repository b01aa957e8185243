//! Who owns what: each block's run in pieces, and the corner cubes between them.

use alloc::format;
use alloc::vec::Vec;
use core::cmp::Reverse;

use super::block::{Block, Blocks, Depth};
use super::board::Board;
use super::defaults;
use super::laps;
use crate::error::{Code, Error, Failure};
use crate::joint::{Joint, Pattern, Side, cube_owner};
use crate::length::Nm;
use crate::round::half;

/// A part of a block's run and its owner, in assembly coordinates along the run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    pub from: i64,
    pub to: i64,
    pub owner: u16,
}

/// Where three boards overlap, and the owner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Cube {
    pub boards: [u16; 3],
    pub owner: u16,
}

/// The shared-out blocks of an assembly.
#[derive(Clone, Debug)]
pub(super) struct Shared {
    pieces: Vec<Piece>,
    /// Where each block's pieces end.
    ends: Vec<usize>,
    /// Blocks whose flanks lean, in order.
    leans: Vec<(usize, Lean)>,
    pub cubes: Vec<Cube>,
    /// Who loses them, in order, with their numbers.
    losers: Vec<(u16, usize)>,
}

impl Shared {
    pub fn of(boards: &[Board], blocks: &Blocks, joints: &[(usize, usize, Joint)], laps: &[Vec<usize>]) -> Result<Shared, Failure> {
        let mut shared = Shared {
            pieces: Vec::with_capacity(16 * blocks.all().len()),
            ends: Vec::with_capacity(blocks.all().len()),
            leans: Vec::new(),
            cubes: Vec::new(),
            losers: Vec::new(),
        };
        let (mut triples, mut thirds) = (Vec::new(), Vec::new());
        for block in blocks.all() {
            let (Some(p), Some(q)) = (boards.get(usize::from(block.a)), boards.get(usize::from(block.b))) else { continue };
            blocks.find_thirds(boards, block, &mut thirds);
            blocks.uncrowded(boards, block, &thirds)?;
            triples.extend(thirds.iter().filter(|&&(.., c)| c > block.b).map(|&(.., c)| [block.a, block.b, c]));
            if let Some(lap) = laps::of(block, laps) {
                shared.pieces.extend(laps::pieces(block, lap));
                shared.ends.push(shared.pieces.len());
                continue;
            }
            let lean = share(block, p, q, joint_of(block, p, q, joints), &thirds, &mut shared.pieces)?;
            shared.leans.extend(lean.map(|lean| (shared.ends.len(), lean)));
            shared.ends.push(shared.pieces.len());
        }
        shared.cubes = triples.into_iter().map(|triple| shared.cube(boards, blocks, triple)).collect();
        let losers = |(number, cube): (usize, &Cube)| cube.boards.map(|board| (board, number, board != cube.owner));
        shared.losers =
            shared.cubes.iter().enumerate().flat_map(losers).filter(|&(.., loses)| loses).map(|(board, number, _)| (board, number)).collect();
        shared.losers.sort_unstable();
        Ok(shared)
    }

    /// The cubes that a board loses.
    pub fn lost_cubes(&self, board: u16) -> impl Iterator<Item = &Cube> {
        let first = self.losers.partition_point(|&(loser, _)| loser < board);
        self.losers.iter().skip(first).take_while(move |&&(loser, _)| loser == board).filter_map(|&(_, cube)| self.cubes.get(cube))
    }

    /// The pieces of one block, in order.
    pub fn pieces(&self, block: usize) -> &[Piece] {
        let start = block.checked_sub(1).and_then(|b| self.ends.get(b)).copied().unwrap_or(0);
        self.ends.get(block).and_then(|&end| self.pieces.get(start..end)).unwrap_or(&[])
    }

    /// How the flanks of a block lean, if they do.
    pub fn lean(&self, block: usize) -> Option<Lean> {
        self.leans.binary_search_by_key(&block, |&(number, _)| number).ok().and_then(|index| self.leans.get(index)).map(|&(_, lean)| lean)
    }

    /// The cube of three boards, by the pieces that touch it.
    fn cube(&self, boards: &[Board], blocks: &Blocks, triple: [u16; 3]) -> Cube {
        let [a, b, c] = triple;
        let runs = [(a, b, c), (a, c, b), (b, c, a)].into_iter().filter_map(|(p, q, third)| {
            let block = blocks.find(p, q)?;
            let pieces = self.pieces(block);
            let (lo, hi) = blocks.reach(boards, blocks.all().get(block)?, third)?;
            let before = pieces.binary_search_by_key(&lo, |piece| piece.to).ok();
            let behind = pieces.binary_search_by_key(&hi, |piece| piece.from).ok();
            Some([before, behind].map(|index| index.and_then(|i| pieces.get(i)).map(|piece| piece.owner)))
        });
        Cube { boards: triple, owner: cube_owner(triple, runs) }
    }
}

/// The joint of a block with its lower-numbered board as side A.
fn joint_of(block: &Block, p: &Board, q: &Board, joints: &[(usize, usize, Joint)]) -> Joint {
    let pair = (usize::from(block.a), usize::from(block.b));
    let asked = joints.iter().find_map(|&(a, b, joint)| match () {
        () if (a, b) == pair => Some(joint),
        () if (b, a) == pair => Some(joint.swapped()),
        () => None,
    });
    match (asked, defaults::edge_board(p, q)) {
        (None, _) => defaults::joint(block, p, q),
        (Some(joint), _) if block.splice.is_some() => joint,
        (Some(Joint::Tabs(tabs)), Some(side)) => Joint::Tabs(tabs.owned_by(side)),
        (Some(joint), _) => joint,
    }
}

/// Cuts a block's run into pieces around the third boards that cross it; and how their flanks lean.
fn share(block: &Block, p: &Board, q: &Board, joint: Joint, thirds: &[(i64, i64, u16)], pieces: &mut Vec<Piece>) -> Result<Option<Lean>, Failure> {
    let (mut start, mut end) = (block.from, block.to);
    let mut middle = thirds;
    while let Some((&(lo, hi, _), rest)) = middle.split_first()
        && lo <= start
    {
        start = start.max(hi);
        middle = rest;
    }
    while let Some((&(lo, hi, _), rest)) = middle.split_last()
        && hi >= end
    {
        end = end.min(lo);
        middle = rest;
    }
    if start >= end {
        return Ok(None);
    }
    let place = |error| Failure::at(error, format!("joint of \"{}\" and \"{}\"", p.name(), q.name()));
    let deep = match (block.splice, joint) {
        (Some(depth), _) => Nm::raw(depth.size()),
        (None, Joint::Tails(_)) => return Err(place(Error::bare(Code::NotInOnePlane, "joint"))),
        (None, _) => p.thickness().max(q.thickness()),
    };
    let pattern = joint.pattern(Nm::raw(end - start), deep).map_err(place)?;
    let owner = |side| if side == Side::A { block.a } else { block.b };
    let whole = pattern.spans().map(|span| Piece { from: start + span.from.nm(), to: start + span.to.nm(), owner: owner(span.owner) });
    if middle.is_empty() {
        pieces.extend(whole);
    } else {
        around(whole, middle, &pattern, pieces);
    }
    Ok(block.splice.and_then(|depth| Lean::of(&pattern, p, depth)))
}

/// How the flanks of two spliced boards lean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Lean {
    depth: Depth,
    /// Half the rise, at the level of the tips of the board added first, and the other half.
    rise: [i64; 2],
    /// Those tips are at the upper end of the depth.
    upwards: bool,
}

impl Lean {
    fn of(pattern: &Pattern, p: &Board, depth: Depth) -> Option<Lean> {
        let rise = pattern.slope().of(Nm::raw(depth.size())).nm();
        (rise > 0).then(|| Lean { depth, rise: [half(rise), rise - half(rise)], upwards: p.hi(depth.axis) == depth.to })
    }

    /// The two ends of a flank: their place along the depth, and how far they move along the run where the span before the flank
    /// belongs to the board added first. Its spans are widest at its tips, as are the other's at theirs.
    pub fn ends(&self) -> [(i64, i64); 2] {
        let [tip, neck] = self.rise;
        if self.upwards { [(self.depth.to, tip), (self.depth.from, -neck)] } else { [(self.depth.from, tip), (self.depth.to, -neck)] }
    }
}

/// The pieces that are left of spans outside the cubes in the middle of a run.
fn around(spans: impl Iterator<Item = Piece>, cubes: &[(i64, i64, u16)], pattern: &Pattern, pieces: &mut Vec<Piece>) {
    let mut clipped: Vec<Piece> = Vec::with_capacity(spans.size_hint().0 + cubes.len());
    let mut next = cubes.iter().peekable();
    for span in spans {
        let mut from = span.from;
        while let Some(&&(lo, hi, _)) = next.peek()
            && lo < span.to
        {
            if lo > from {
                clipped.push(Piece { from, to: lo, ..span });
            }
            from = from.max(hi);
            if hi > span.to {
                break;
            }
            next.next();
        }
        if from < span.to {
            clipped.push(Piece { from, to: span.to, ..span });
        }
    }
    let at_cube = |at: i64| cubes.binary_search_by_key(&at, |&(lo, ..)| lo).or_else(|_| cubes.binary_search_by_key(&at, |&(_, hi, _)| hi)).is_ok();
    // A piece too short to stand beside a cube, and its neighbour on the other side.
    let short = |index: usize, piece: &Piece| {
        let neighbour = match (at_cube(piece.from), at_cube(piece.to)) {
            (true, false) => index + 1,
            (false, true) => index.checked_sub(1)?,
            _ => return None,
        };
        Some(neighbour).filter(|_| piece.to - piece.from < pattern.least().nm())
    };
    let rank = |piece: &Piece| (piece.to - piece.from, Reverse(piece.owner));
    for (index, piece) in clipped.iter().enumerate() {
        let joins = short(index, piece).and_then(|n| clipped.get(n).map(|neighbour| (n, neighbour)));
        // Of two short pieces the longer stays.
        let joins = joins.filter(|(n, neighbour)| short(*n, neighbour).is_none() || rank(piece) < rank(neighbour));
        pieces.push(Piece { owner: joins.map_or(piece.owner, |(_, neighbour)| neighbour.owner), ..*piece });
    }
}

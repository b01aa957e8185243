//! From what a slab lost to the panel's outline.

use alloc::vec::Vec;

use super::block::{Block, Blocks};
use super::board::Board;
use super::flat;
use super::panel::Panel;
use super::pieces::{Lean, Piece, Shared};
use super::segments::{Attr, Segment, rings};
use crate::error::Failure;
use crate::joint::{Corner, RIGHT, Role, Share};
use crate::point::{Axis, Point};

/// One rectangle of a slab's own plane: the ends along u and along v, from the slab's lowest corner.
#[derive(Clone, Copy, Debug)]
struct Rect {
    u: (i64, i64),
    v: (i64, i64),
}

/// The slab that is being cut out.
struct Slab<'a> {
    number: u16,
    board: &'a Board,
    u: Axis,
    v: Axis,
    level: Vec<Segment>,
    upright: Vec<Segment>,
}

pub(super) fn panels(boards: &[Board], blocks: &Blocks, shared: &Shared) -> Result<Vec<Panel>, Failure> {
    let mut lost_cubes: Vec<Vec<(u16, [u16; 3])>> = alloc::vec![Vec::new(); boards.len()];
    for cube in &shared.cubes {
        for loser in cube.boards.into_iter().filter(|&b| b != cube.owner) {
            if let Some(list) = lost_cubes.get_mut(usize::from(loser)) {
                list.push((cube.owner, cube.boards));
            }
        }
    }
    let make = |(number, board): (usize, &Board)| {
        let number = number as u16;
        if flat::slants(number, board, boards, blocks) {
            return Ok(Panel::new(board.clone(), flat::rings(number, board, boards, blocks, shared)?));
        }
        let (u, v) = board.normal().plane();
        let edges = 2 + blocks.of_board(number).map(|(n, _)| shared.pieces(n).len() + 4).sum::<usize>();
        let mut slab = Slab { number, board, u, v, level: Vec::with_capacity(2 * edges), upright: Vec::with_capacity(2 * edges) };
        slab.boundary(boards, blocks);
        for (index, block) in blocks.of_board(number) {
            let Some(mate) = boards.get(usize::from(block.mate(number))) else { continue };
            let (across, deep) = block.region(number, board, mate);
            for piece in shared.pieces(index).iter().filter(|piece| piece.owner == block.mate(number)) {
                slab.lose((block.mate(number), mate), (across, deep), (piece.from, piece.to));
            }
        }
        for &(owner, cube) in lost_cubes.get(usize::from(number)).into_iter().flatten() {
            let third = cube.into_iter().find(|&b| b != number && b != owner).and_then(|b| boards.get(usize::from(b)));
            if let (Some(winner), Some(third)) = (boards.get(usize::from(owner)), third) {
                if let Some(axis) = blocks.axis() {
                    slab.lose_at_angle((owner, winner), third, blocks, cube, axis);
                    continue;
                }
                let common = |axis: Axis| {
                    let all = [board, winner, third];
                    (all.iter().map(|b| b.lo(axis)).fold(i64::MIN, i64::max), all.iter().map(|b| b.hi(axis)).fold(i64::MAX, i64::min))
                };
                let across = if winner.normal() == board.normal() { third.normal().third(board.normal()) } else { winner.normal() };
                slab.lose((owner, winner), (across, common(across)), common(across.third(board.normal())));
            }
        }
        let mut rings = rings(slab.level, slab.upright);
        lean(&mut rings, board, blocks.of_board(number).filter_map(|(index, block)| Some((shared.lean(index)?, block, shared.pieces(index)))));
        slant(&mut rings, number, blocks);
        Ok(Panel::new(board.clone(), rings))
    };
    boards.iter().enumerate().map(make).collect()
}

impl Slab<'_> {
    /// Takes a corner cube away from an upright board where boards are turned: of its two other boards one is upright, one flat.
    fn lose_at_angle(&mut self, (number, winner): (u16, &Board), third: &Board, blocks: &Blocks, cube: [u16; 3], axis: Axis) {
        let (flat, other) = if winner.normal() == axis { (winner, third) } else { (third, winner) };
        let upright =
            cube.into_iter().filter_map(|n| blocks.find(self.number, n)).filter_map(|n| blocks.all().get(n)).find(|block| block.run == axis);
        if let Some(block) = upright {
            let (across, region) = block.region(self.number, self.board, other);
            let thick = (flat.lo(axis), flat.hi(axis));
            let (across, stretch) = if winner.normal() == axis { ((axis, thick), region) } else { ((across, region), thick) };
            self.lose((number, winner), across, stretch);
        }
    }

    /// Takes away what `winner` owns: a stretch of the run, and across it the winner's thickness or how deep a splice reaches.
    fn lose(&mut self, (number, winner): (u16, &Board), (across, (low, high)): (Axis, (i64, i64)), (from, to): (i64, i64)) {
        let along = if across == self.u { self.v } else { self.u };
        // A slot has the board beyond both faces of the winner: each side takes its half of the allowance.
        let slot = self.board.lo(across) < low && high < self.board.hi(across);
        let flank = self.flank(number);
        let in_plane = winner.normal() == self.board.normal() && winner.upright().or(self.board.upright()).is_none();
        let cheek = |share| if in_plane { flank } else { (Role::Cheek, if slot { share } else { Share::Full }, number) };
        let thick = (low - self.board.lo(across), high - self.board.lo(across));
        let stretch = (from - self.board.lo(along), to - self.board.lo(along));
        let rect = if across == self.u { Rect { u: thick, v: stretch } } else { Rect { u: stretch, v: thick } };
        let (lower, upper) = (cheek(Share::Lower), cheek(Share::Upper));
        let [left, right, bottom, top] = if across == self.u { [lower, upper, flank, flank] } else { [flank, flank, lower, upper] };
        // The board lies outside the rectangle: left of an upward edge on its left side, above a rightward edge on its top.
        self.upright.push(Segment { line: rect.u.0, from: rect.v.0, to: rect.v.1, forward: true, attr: left });
        self.upright.push(Segment { line: rect.u.1, from: rect.v.0, to: rect.v.1, forward: false, attr: right });
        self.level.push(Segment { line: rect.v.0, from: rect.u.0, to: rect.u.1, forward: false, attr: bottom });
        self.level.push(Segment { line: rect.v.1, from: rect.u.0, to: rect.u.1, forward: true, attr: top });
    }

    fn flank(&self, mate: u16) -> Attr {
        (Role::Flank, if self.number < mate { Share::Lower } else { Share::Upper }, mate)
    }

    /// The slab's own four edges, in stretches of one role.
    fn boundary(&mut self, boards: &[Board], blocks: &Blocks) {
        for (across, along) in [(self.u, self.v), (self.v, self.u)] {
            for high in [false, true] {
                let stretches = self.roles(boards, blocks, across, along, high);
                let line = if high { self.board.size(across) } else { 0 };
                // Counter-clockwise: rightwards at the bottom, upwards on the right.
                let forward = high == (across == self.u);
                let list = if across == self.u { &mut self.upright } else { &mut self.level };
                list.extend(stretches.into_iter().map(|(from, to, attr)| Segment { line, from, to, forward, attr }));
            }
        }
    }

    /// The roles along the edge at one end of axis `across`.
    fn roles(&self, boards: &[Board], blocks: &Blocks, across: Axis, along: Axis, high: bool) -> Vec<(i64, i64, Attr)> {
        let board = self.board;
        let origin = board.lo(along);
        let (mut tips, mut flanks) = (Vec::new(), Vec::new());
        for (_, block) in blocks.of_board(self.number) {
            let number = block.mate(self.number);
            let Some(mate) = boards.get(usize::from(number)) else { continue };
            if let Some(depth) = block.splice {
                let (end, far) = if high { (board.hi(across), depth.to) } else { (board.lo(across), depth.from) };
                if depth.axis == across && end == far {
                    tips.push((block.from - origin, block.to - origin, self.flank(number)));
                } else if depth.axis == along && goes_beyond(mate, board, across, high) {
                    flanks.push((depth.from - origin, depth.to - origin, self.flank(number)));
                }
            } else if block.shadows.is_some() {
                let (axis, (from, to)) = block.region(self.number, board, mate);
                let end = if high { board.hi(across) == to } else { board.lo(across) == from };
                if axis == across && end {
                    tips.push((block.from - origin, block.to - origin, (Role::Tip, Share::Full, number)));
                } else if axis == along && goes_beyond(mate, board, across, high) {
                    flanks.push((from - origin, to - origin, self.flank(number)));
                }
            } else if mate.normal() == across {
                let flush = if high { mate.hi(across) == board.hi(across) } else { mate.lo(across) == board.lo(across) };
                if flush {
                    tips.push((block.from - origin, block.to - origin, (Role::Tip, Share::Full, number)));
                }
            } else if mate.upright().or(board.upright()).is_none() && goes_beyond(mate, board, across, high) {
                flanks.push((mate.lo(along) - origin, mate.hi(along) - origin, self.flank(number)));
            }
        }
        let free = alloc::vec![(0, board.size(along), (Role::Free, Share::Full, Corner::NOBODY))];
        overlay(overlay(free, tips), flanks)
    }
}

/// Moves the ends of the flanks that two spliced boards share: both boards move the same corners by the same way.
fn lean<'a>(rings: &mut [Vec<Corner>], board: &Board, splices: impl Iterator<Item = (Lean, Block, &'a [Piece])>) {
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

fn goes_beyond(mate: &Board, board: &Board, axis: Axis, high: bool) -> bool {
    if high { mate.hi(axis) > board.hi(axis) } else { mate.lo(axis) < board.lo(axis) }
}

/// Covers the lower stretches by the upper ones; both are in order once sorted.
fn overlay(lower: Vec<(i64, i64, Attr)>, mut upper: Vec<(i64, i64, Attr)>) -> Vec<(i64, i64, Attr)> {
    if upper.is_empty() {
        return lower;
    }
    upper.sort_unstable_by_key(|&(from, ..)| from);
    let mut out = Vec::with_capacity(lower.len() + 2 * upper.len());
    let mut covers = upper.iter().copied().peekable();
    for (mut from, to, attr) in lower {
        while let Some(&(lo, hi, cover)) = covers.peek()
            && lo < to
        {
            if lo > from {
                out.push((from, lo, attr));
            }
            // A cover that reaches over the end is cut here and goes on with the next stretch; those of two spliced boards overlap.
            let end = hi.min(to);
            if lo.max(from) < end {
                out.push((lo.max(from), end, cover));
            }
            from = from.max(end);
            if hi > to {
                break;
            }
            covers.next();
        }
        if from < to {
            out.push((from, to, attr));
        }
    }
    out
}

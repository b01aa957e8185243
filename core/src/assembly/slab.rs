//! What a slab loses to the boards it meets, and what its own four edges touch.

use alloc::vec::Vec;

use super::block::{Block, Blocks};
use super::board::Board;
use super::pieces::{Cube, Shared};
use crate::joint::{Corner, RIGHT, Role, Share};
use crate::point::{Axis, Point};

/// Role, share and mate of an edge.
pub(super) type Attr = (Role, Share, u16);

/// A rectangle of the slab's own plane that another board owns: the ends along u and along v, from the slab's lowest corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Lost {
    pub u: (i64, i64),
    pub v: (i64, i64),
    /// What its edges touch, from the left one on anticlockwise: left, bottom, right, top.
    pub edges: [Attr; 4],
}

impl Lost {
    /// Whether two rectangles have a point in common.
    pub fn meets(&self, other: &Lost) -> bool {
        let meet = |p: (i64, i64), q: (i64, i64)| p.0 <= q.1 && q.0 <= p.1;
        meet(self.u, other.u) && meet(self.v, other.v)
    }
}

/// A corner at which nothing leans.
pub(super) fn corner(at: Point, (role, share, mate): Attr) -> Corner {
    Corner { at, role, share, mate, sine: RIGHT }
}

/// A stretch of one of the slab's own edges that touches one thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    pub from: i64,
    pub to: i64,
    pub attr: Attr,
}

/// The slab that is being cut out, and whom it meets.
pub(super) struct Slab<'a> {
    pub number: u16,
    pub board: &'a Board,
    pub u: Axis,
    pub v: Axis,
    boards: &'a [Board],
    blocks: &'a Blocks,
    shared: &'a Shared,
}

impl<'a> Slab<'a> {
    pub fn new(number: u16, board: &'a Board, boards: &'a [Board], blocks: &'a Blocks, shared: &'a Shared) -> Slab<'a> {
        let (u, v) = board.normal().plane();
        Slab { number, board, u, v, boards, blocks, shared }
    }

    /// Its size along u and v.
    pub fn size(&self) -> (i64, i64) {
        (self.board.size(self.u), self.board.size(self.v))
    }

    fn mate(&self, number: u16) -> Option<&'a Board> {
        self.boards.get(usize::from(number))
    }

    /// Everything that it loses, in any order.
    pub fn lost(&self, mut each: impl FnMut(Lost)) {
        for (index, block) in self.blocks.of_board(self.number) {
            let number = block.mate(self.number);
            let Some(mate) = self.mate(number) else { continue };
            let (across, ends) = block.region(self.number, self.board, mate);
            let taken = Taken::of(self, (number, mate), across, ends);
            for piece in self.shared.pieces(index).iter().filter(|piece| piece.owner == number) {
                each(taken.along(piece.from, piece.to));
            }
        }
        for cube in self.shared.lost_cubes(self.number) {
            if let Some((taken, (from, to))) = self.corner(cube) {
                each(taken.along(from, to));
            }
        }
    }

    /// A corner cube that another board owns.
    fn corner(&self, cube: &Cube) -> Option<(Taken, (i64, i64))> {
        let winner = self.mate(cube.owner)?;
        let third = self.mate(cube.boards.into_iter().find(|&b| b != self.number && b != cube.owner)?)?;
        if let Some(axis) = self.blocks.axis() {
            return self.corner_at_angle((cube.owner, winner), third, cube.boards, axis);
        }
        let all = [self.board, winner, third];
        let common = |axis: Axis| (all.iter().map(|b| b.lo(axis)).fold(i64::MIN, i64::max), all.iter().map(|b| b.hi(axis)).fold(i64::MAX, i64::min));
        let normal = self.board.normal();
        let across = if winner.normal() == normal { third.normal().third(normal) } else { winner.normal() };
        Some((Taken::of(self, (cube.owner, winner), across, common(across)), common(across.third(normal))))
    }

    /// A corner cube of an upright board where boards are turned: of its two other boards one is upright, one flat.
    fn corner_at_angle(&self, (number, winner): (u16, &Board), third: &Board, cube: [u16; 3], axis: Axis) -> Option<(Taken, (i64, i64))> {
        let (flat, other) = if winner.normal() == axis { (winner, third) } else { (third, winner) };
        let blocks = cube.into_iter().filter_map(|n| self.blocks.find(self.number, n)).filter_map(|n| self.blocks.all().get(n));
        let upright: &Block = { blocks }.find(|block| block.run == axis)?;
        let (across, region) = upright.region(self.number, self.board, other);
        let thick = (flat.lo(axis), flat.hi(axis));
        let ((across, ends), stretch) = if winner.normal() == axis { ((axis, thick), region) } else { ((across, region), thick) };
        Some((Taken::of(self, (number, winner), across, ends), stretch))
    }

    fn flank(&self, mate: u16) -> Attr {
        (Role::Flank, if self.number < mate { Share::Lower } else { Share::Upper }, mate)
    }

    /// What its own edges touch, each from its lower end to its upper: the bottom, and on anticlockwise.
    pub fn rims<'r>(&self, room: &'r mut Room) -> &'r mut [Vec<Stretch>; 4] {
        let sides = [(self.v, self.u, false), (self.u, self.v, true), (self.v, self.u, true), (self.u, self.v, false)];
        let Room { rims, other } = room;
        for (rim, (across, along, high)) in rims.iter_mut().zip(sides) {
            self.rim(across, along, high, other, rim);
        }
        rims
    }

    fn rim(&self, across: Axis, along: Axis, high: bool, [tips, flanks, half]: &mut [Vec<Stretch>; 3], rim: &mut Vec<Stretch>) {
        let board = self.board;
        let origin = board.lo(along);
        tips.clear();
        flanks.clear();
        for (_, block) in self.blocks.of_board(self.number) {
            let number = block.mate(self.number);
            let Some(mate) = self.mate(number) else { continue };
            let stretch = |(from, to): (i64, i64), attr| Stretch { from: from - origin, to: to - origin, attr };
            let tip = (Role::Tip, Share::Full, number);
            if let Some(depth) = block.splice {
                let (end, far) = if high { (board.hi(across), depth.to) } else { (board.lo(across), depth.from) };
                if depth.axis == across && end == far {
                    tips.push(stretch((block.from, block.to), self.flank(number)));
                } else if depth.axis == along && goes_beyond(mate, board, across, high) {
                    flanks.push(stretch((depth.from, depth.to), self.flank(number)));
                }
            } else if block.shadows.is_some() {
                let (axis, (from, to)) = block.region(self.number, board, mate);
                let end = if high { board.hi(across) == to } else { board.lo(across) == from };
                if axis == across && end {
                    tips.push(stretch((block.from, block.to), tip));
                } else if axis == along && goes_beyond(mate, board, across, high) {
                    flanks.push(stretch((from, to), self.flank(number)));
                }
            } else if mate.normal() == across {
                let flush = if high { mate.hi(across) == board.hi(across) } else { mate.lo(across) == board.lo(across) };
                if flush {
                    tips.push(stretch((block.from, block.to), tip));
                }
            } else if mate.upright().or(board.upright()).is_none() && goes_beyond(mate, board, across, high) {
                flanks.push(stretch((mate.lo(along), mate.hi(along)), self.flank(number)));
            }
        }
        let free = [Stretch { from: 0, to: board.size(along), attr: (Role::Free, Share::Full, Corner::NOBODY) }];
        overlay(&free, tips, half);
        overlay(half, flanks, rim);
    }
}

/// What one mate takes, but for the stretch along it: the same of all its pieces.
struct Taken {
    /// Whether the stretch runs along v.
    upright: bool,
    across: (i64, i64),
    origin: i64,
    edges: [Attr; 4],
}

impl Taken {
    /// Across the stretch `winner` takes its thickness, or how deep a splice reaches.
    fn of(slab: &Slab, (number, winner): (u16, &Board), across: Axis, (low, high): (i64, i64)) -> Taken {
        let board = slab.board;
        let upright = across == slab.u;
        // A slot has the board beyond both faces of the winner: each side takes its half of the allowance.
        let slot = board.lo(across) < low && high < board.hi(across);
        let flank = slab.flank(number);
        let in_plane = winner.normal() == board.normal() && winner.upright().or(board.upright()).is_none();
        let cheek = |share| if in_plane { flank } else { (Role::Cheek, if slot { share } else { Share::Full }, number) };
        let (lower, upper) = (cheek(Share::Lower), cheek(Share::Upper));
        let edges = if upright { [lower, flank, upper, flank] } else { [flank, lower, flank, upper] };
        let origin = board.lo(if upright { slab.v } else { slab.u });
        Taken { upright, across: (low - board.lo(across), high - board.lo(across)), origin, edges }
    }

    fn along(&self, from: i64, to: i64) -> Lost {
        let stretch = (from - self.origin, to - self.origin);
        let (u, v) = if self.upright { (self.across, stretch) } else { (stretch, self.across) };
        Lost { u, v, edges: self.edges }
    }
}

fn goes_beyond(mate: &Board, board: &Board, axis: Axis, high: bool) -> bool {
    if high { mate.hi(axis) > board.hi(axis) } else { mate.lo(axis) < board.lo(axis) }
}

/// Room for the stretches of a slab's edges, used again for the next slab.
#[derive(Default)]
pub(super) struct Room {
    rims: [Vec<Stretch>; 4],
    /// On the way to a rim.
    other: [Vec<Stretch>; 3],
}

/// Covers the lower stretches by the upper ones; both are in order once sorted.
fn overlay(lower: &[Stretch], upper: &mut [Stretch], out: &mut Vec<Stretch>) {
    out.clear();
    upper.sort_unstable_by_key(|stretch| stretch.from);
    let mut covers = upper.iter().copied().peekable();
    for &Stretch { mut from, to, attr } in lower {
        while let Some(&cover) = covers.peek()
            && cover.from < to
        {
            if cover.from > from {
                out.push(Stretch { from, to: cover.from, attr });
            }
            // A cover that reaches over the end is cut here and goes on with the next stretch; those of two spliced boards overlap.
            let (start, end) = (cover.from.max(from), cover.to.min(to));
            if start < end {
                out.push(Stretch { from: start, to: end, attr: cover.attr });
            }
            from = from.max(end);
            if cover.to > to {
                break;
            }
            covers.next();
        }
        if from < to {
            out.push(Stretch { from, to, attr });
        }
    }
}

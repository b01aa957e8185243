//! Sheets filled with parts in a sequence.

use alloc::vec::Vec;

use super::cover::{Cover, Rect};
use super::place::lowest;
use super::{PAIRS, Turn};
use crate::point::Point;
use crate::sheet::job::Job;
use crate::sheet::watch::Watch;
use crate::sheet::{Layout, Placement, Sheet, Stock};

/// One way for a part to lie.
#[derive(Clone, Debug)]
pub(super) struct Way {
    pub quarter_turns: u8,
    pub flipped: bool,
    pub cover: Cover,
}

impl Way {
    /// All ways that need different places; which of them a stock allows is asked later. Of those alike along the same axis the first.
    pub fn all(cover: &Cover, turns: bool, flips: bool) -> Vec<Way> {
        let mut ways: Vec<Way> = Vec::new();
        for flipped in [false, true].into_iter().take(if flips { 2 } else { 1 }) {
            let mut cover = if flipped { cover.mirrored() } else { cover.clone() };
            for quarter_turns in 0..if turns { 4 } else { 1 } {
                // The grain tells only odd turns from even ones.
                if !ways.iter().any(|way| way.cover == cover && (way.quarter_turns + quarter_turns).is_multiple_of(2)) {
                    ways.push(Way { quarter_turns, flipped, cover: cover.clone() });
                }
                cover = cover.turned();
            }
        }
        ways
    }
}

/// One sheet in the making.
struct Board {
    /// Which of the stocks it is.
    kind: usize,
    stock: Stock,
    lying: Vec<Rect>,
    placements: Vec<Placement>,
    top: i64,
}

/// Sheets with parts on them, what did not find a place, and how good that is.
pub(super) struct Filling<'a> {
    job: &'a Job<'a>,
    boards: Vec<Board>,
    unplaced: Vec<usize>,
    left_out: i128,
}

impl<'a> Filling<'a> {
    /// Lays parts, one after the other, on the first sheet with a place for it. None where it is stopped meanwhile.
    pub fn of(job: &'a Job<'a>, sequence: &[Turn<'_>], work: &mut u64, watch: &mut Watch<'_>) -> Option<Filling<'a>> {
        let mut filling = Filling { job, boards: Vec::new(), unplaced: Vec::new(), left_out: 0 };
        for turn in sequence {
            if !watch.go_on((*work as f64 / PAIRS as f64).min(1.0)) {
                return None;
            }
            let placed = filling.boards.iter_mut().any(|board| board.lay(job, turn, work)) || filling.open(turn, work);
            if !placed {
                filling.unplaced.push(turn.part.number);
                filling.left_out += turn.part.area;
            }
        }
        Some(filling)
    }

    /// Lays a part on a new sheet, of the first stock that has one left and room for it.
    fn open(&mut self, turn: &Turn<'_>, work: &mut u64) -> bool {
        for (kind, stock) in self.job.stocks.iter().enumerate() {
            let used = self.boards.iter().filter(|board| board.kind == kind).count();
            if stock.count().is_some_and(|count| used >= count as usize) {
                continue;
            }
            let mut board = Board { kind, stock: *stock, lying: Vec::new(), placements: Vec::new(), top: 0 };
            if board.lay(self.job, turn, work) {
                self.boards.push(board);
                return true;
            }
        }
        false
    }

    /// What counts, the first first; less is better.
    pub fn rank(&self) -> (i128, usize, usize, i64, usize) {
        let bought = self.boards.iter().filter(|board| board.stock.count().is_none()).count();
        let (top, on_last) = self.boards.last().map_or((0, 0), |board| (board.top, board.placements.len()));
        (self.left_out, bought, self.boards.len(), top, on_last)
    }

    pub fn layout(self) -> Layout {
        let share_cuts = self.job.spec.share_cuts;
        let sheet = |board: Board| Sheet { stock: board.stock, placements: board.placements, share_cuts };
        let mut unplaced = self.unplaced;
        unplaced.sort_unstable();
        Layout { sheets: self.boards.into_iter().map(sheet).collect(), unplaced }
    }
}

impl Board {
    /// Lays a part the way it is told, else as it ends lowest, then farthest left; false where it has no place.
    fn lay(&mut self, job: &Job<'_>, &Turn { part, way: told }: &Turn<'_>, work: &mut u64) -> bool {
        let Some(item) = job.item(part.number) else { return false };
        let (room, gap, corner) = (job.room(&self.stock), job.gap(), job.corner(&self.stock));
        let allowed = part.ways.iter().enumerate().filter(|(_, way)| job.may_turn(item, &self.stock, way.quarter_turns));
        let found = allowed.filter_map(|(index, way)| Some((lowest(&way.cover, &self.lying, room, gap, work)?, told != Some(index), way)));
        let ends = |[x, y]: [i64; 2], way: &Way| (y + way.cover.size[1], x + way.cover.size[0]);
        let Some(([x, y], _, way)) = found.min_by_key(|&(at, other, way)| (other, ends(at, way))) else { return false };
        self.lying.extend(way.cover.rects.iter().map(|&[[x0, x1], [y0, y1]]| [[x + x0, x + x1], [y + y0, y + y1]]));
        self.top = self.top.max(y + way.cover.size[1]);
        let at = Point::raw(corner + x, corner + y);
        self.placements.push(Placement { part: part.number, at, quarter_turns: way.quarter_turns, flipped: way.flipped });
        true
    }
}

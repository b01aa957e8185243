//! Boards that meet at an angle: the shadow that each throws on the other.

use alloc::format;
use alloc::vec::Vec;

use super::block::{Block, Blocks};
use super::board::Board;
use super::plan::{At, Plan, clipped};
use crate::error::{Code, Error, Failure};
use crate::point::{Axis, Point};
use crate::round::{down, up};

/// What is thinner than this, in nanometres, is rounding.
pub(super) const NOTHING: f64 = 2.5;

/// How far from a mate's far face a board's end may lie and still go through: 0.01 mm.
const NEARLY: f64 = 10_000.0;

/// Whether two slabs share volume, seen along the axis of turning.
pub(super) fn overlap(p: &Board, q: &Board, axis: Axis) -> bool {
    let along = p.lo(axis) < q.hi(axis) && q.lo(axis) < p.hi(axis);
    if !along {
        return false;
    }
    let shared = shared(p, q, axis);
    !shared.is_empty() && thick(&shared, p, axis) && thick(&shared, q, axis)
}

/// What two boards share in the plan.
fn shared(p: &Board, q: &Board, axis: Axis) -> Vec<At> {
    match (p.normal() == axis, q.normal() == axis) {
        (false, false) => Plan::of(p, axis).overlap(&Plan::of(q, axis)),
        (true, _) => within(p, corners(q, axis)),
        (false, true) => within(q, corners(p, axis)),
    }
}

/// A board's slab in the plan, anticlockwise.
fn corners(board: &Board, axis: Axis) -> Vec<At> {
    if board.normal() == axis { outline(board) } else { Plan::of(board, axis).stretch(0.0, Plan::of(board, axis).length()).to_vec() }
}

/// The outline of a flat board in the plan.
pub(super) fn outline(board: &Board) -> Vec<At> {
    let (u, v) = board.normal().plane();
    let place = |p: Point| ((p.x.nm() + board.lo(u)) as f64, (p.y.nm() + board.lo(v)) as f64);
    board.corners().into_iter().map(place).collect()
}

/// The part of an outline inside a flat board.
fn within(flat: &Board, mut other: Vec<At>) -> Vec<At> {
    let ring = outline(flat);
    for (&p, &q) in ring.iter().zip(ring.iter().skip(1).chain(ring.first())) {
        other = clipped(other, |at| left_of(p, q, at));
    }
    other
}

/// How far a point lies to the left of the line from `p` to `q`.
pub(super) fn left_of(p: At, q: At, at: At) -> f64 {
    let (dx, dy) = (q.0 - p.0, q.1 - p.1);
    (dx * (at.1 - p.1) - dy * (at.0 - p.0)) / libm::hypot(dx, dy).max(1.0)
}

/// Whether an outline is more than rounding.
fn thick(outline: &[At], board: &Board, axis: Axis) -> bool {
    let extent = |pairs: [(f64, f64); 2]| pairs.into_iter().all(|(lo, hi)| hi - lo > NOTHING);
    if board.normal() == axis {
        let start = [(f64::INFINITY, f64::NEG_INFINITY); 2];
        let box_of = outline.iter().fold(start, |[x, y], p| [(x.0.min(p.0), x.1.max(p.0)), (y.0.min(p.1), y.1.max(p.1))]);
        return extent(box_of);
    }
    extent(Plan::of(board, axis).reach(outline))
}

/// The block of two boards of which one is turned or has an outline of its own; `axis` is that of turning.
pub(super) fn block(p: &Board, q: &Board, (i, j): (usize, usize), axis: Axis) -> Result<Option<Block>, Failure> {
    let place = |error| Failure::at(error, format!("boards \"{}\" and \"{}\"", p.name(), q.name()));
    if !overlap(p, q, axis) {
        return Ok(None);
    }
    let numbers = |run: Axis, from: i64, to: i64, shadows| Block { a: i.min(j) as u16, b: i.max(j) as u16, run, from, to, splice: None, shadows };
    match (p.normal() == axis, q.normal() == axis) {
        (true, true) => Err(place(Error::bare(Code::SamePlace, "at"))),
        (false, false) => {
            let angle = |board: &Board| board.turn().map(|turn| turn.angle()).unwrap_or_default();
            let mut between = angle(p) - angle(q);
            if p.normal() != q.normal() {
                between = between - crate::angle::Angle::part(1, 4);
            }
            let (_, sine) = between.crossing().map_err(place)?;
            let sine = libm::round(sine * f64::from(crate::joint::RIGHT)) as u32;
            let (of_p, of_q) = (Plan::of(p, axis), Plan::of(q, axis));
            let common = of_p.overlap(&of_q);
            let shadow = |own: Plan, board: &Board| {
                let [(from, to), (near, far)] = own.reach(&common);
                if near > NEARLY || far < own.thickness() - NEARLY {
                    let full = board.thickness().nm();
                    return Err(place(Error::length(Code::Blind, "depth", up(far - near), full, full)));
                }
                let lowest = board.lo(axis.third(board.normal()));
                Ok((lowest + down(from).max(0), lowest + up(to).min(up(own.length()))))
            };
            let shadows = [shadow(of_p, p)?, shadow(of_q, q)?];
            let [x, y] = shadows;
            let (from, to) = (p.lo(axis).max(q.lo(axis)), p.hi(axis).min(q.hi(axis)));
            let shadows = if i < j { [x, y] } else { [y, x] };
            Ok(Some(numbers(axis, from, to, Some(Shadows { on: shadows, sine }))))
        }
        (flat_first, _) => {
            let (flat, wall) = if flat_first { (p, q) } else { (q, p) };
            if flat.lo(axis) < wall.lo(axis) || flat.hi(axis) > wall.hi(axis) {
                let reach = flat.hi(axis).min(wall.hi(axis)) - flat.lo(axis).max(wall.lo(axis));
                let full = flat.size(axis);
                return Err(place(Error::length(Code::Blind, "depth", reach, full, full)));
            }
            let (from, to) = run_in_flat(flat, wall, axis);
            if to - from < 1 {
                let full = wall.thickness().nm();
                return Err(place(Error::length(Code::Blind, "depth", 0, full, full)));
            }
            Ok(Some(numbers(axis.third(wall.normal()), from, to, None)))
        }
    }
}

/// The stretch of an upright board over which its whole thickness lies in a flat one, along the upright board.
fn run_in_flat(flat: &Board, wall: &Board, axis: Axis) -> (i64, i64) {
    let plan = Plan::of(wall, axis);
    let ring = outline(flat);
    let (mut from, mut to) = (0.0f64, plan.length());
    for (&p, &q) in ring.iter().zip(ring.iter().skip(1).chain(ring.first())) {
        for deep in [0.0, plan.thickness()] {
            // How far inside both ends of the line lie; rounding does not count.
            let (start, end) = (left_of(p, q, plan.at(0.0, deep)) + NOTHING, left_of(p, q, plan.at(plan.length(), deep)) + NOTHING);
            let cut = plan.length() * start / (start - end);
            match (start < 0.0, end < 0.0) {
                (true, true) => return (0, 0),
                (true, false) => from = from.max(cut),
                (false, true) => to = to.min(cut),
                (false, false) => {}
            }
        }
    }
    let lowest = wall.lo(axis.third(wall.normal()));
    (lowest + up(from), lowest + down(to))
}

/// How far two upright boards reach along each other: the stretch of each, in its own coordinates, and the sine of their angle in billionths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Shadows {
    pub on: [(i64, i64); 2],
    pub sine: u32,
}

/// Whether `mate` ends at a face of `board`.
pub(super) fn at_edge(board: &Board, mate: &Board, axis: Axis) -> bool {
    match (board.normal() == axis, mate.normal() == axis) {
        (true, _) => mate.lo(axis) == board.lo(axis) || mate.hi(axis) == board.hi(axis),
        (false, true) => side_of(mate, board, axis).is_some(),
        (false, false) => {
            let plan = Plan::of(mate, axis);
            let [(from, to), _] = plan.reach(&Plan::of(board, axis).overlap(&plan));
            from <= NOTHING || to >= plan.length() - NOTHING
        }
    }
}

/// The side of a flat board's outline along which an upright board stands with its face flush, if it does.
pub(super) fn side_of(flat: &Board, wall: &Board, axis: Axis) -> Option<usize> {
    let plan = Plan::of(wall, axis);
    let ring = outline(flat);
    let sides = ring.iter().zip(ring.iter().skip(1).chain(ring.first()));
    let flush = |p: At, q: At, deep: f64| [0.0, plan.length()].iter().all(|&along| libm::fabs(left_of(p, q, plan.at(along, deep))) <= NOTHING);
    sides.into_iter().position(|(&p, &q)| flush(p, q, 0.0) || flush(p, q, plan.thickness()))
}

/// Refuses a board that lies too flat against another, or in its place. That a board ends inside the other's thickness shows later.
pub(super) fn meeting(p: &Board, q: &Board, i: usize, j: usize) -> Result<(), Failure> {
    match Block::between(p, q, i, j) {
        Err(failure) if failure.error.code != Code::Blind => Err(failure),
        _ => Ok(()),
    }
}

/// No two boards may take the same place of a third, but in a lap.
pub(super) fn apart(boards: &[Board], blocks: &Blocks, laps: &[Vec<usize>]) -> Result<(), Failure> {
    let Some(axis) = blocks.axis() else { return Ok(()) };
    for (number, own) in boards.iter().enumerate().filter(|(_, board)| board.normal() != axis) {
        let number = number as u16;
        let upright = blocks.of_board(number).map(|(_, block)| block).filter(|block| block.run == axis);
        let regions: Vec<(&Block, (i64, i64))> =
            upright.filter_map(|block| boards.get(usize::from(block.mate(number))).map(|mate| (block, block.region(number, own, mate).1))).collect();
        for (index, (block, (lo, hi))) in regions.iter().enumerate() {
            let same = |(other, (from, to)): &&(&Block, (i64, i64))| {
                from < hi
                    && lo < to
                    && block.from < other.to
                    && other.from < block.to
                    && super::laps::of(block, laps).is_none_or(|lap| super::laps::of(other, laps) != Some(lap))
            };
            if let Some((other, _)) = regions.iter().skip(index + 1).find(same) {
                let name = |block: &Block| boards.get(usize::from(block.mate(number))).map_or("", Board::name);
                let names = format!("boards \"{}\", \"{}\" and \"{}\"", own.name(), name(block), name(other));
                return Err(Failure::at(Error::bare(Code::NotLapped, "at"), names));
            }
        }
    }
    Ok(())
}

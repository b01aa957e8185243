//! Boards that lie across turned boards: notches along the sides of their outline, and closed slots inside it.

use alloc::format;
use alloc::vec::Vec;

use super::block::{Block, Blocks};
use super::board::Board;
use super::pieces::Shared;
use super::plan::{At, Plan};
use super::segments::from_lowest;
use super::turned::{NOTHING, left_of, outline, side_of};
use crate::error::{Code, Error, Failure};
use crate::joint::{Corner, RIGHT, Role, Share};
use crate::point::Point;

/// What an upright board takes from a flat one.
struct Wall<'a> {
    number: u16,
    name: &'a str,
    plan: Plan,
    /// The side of the flat board's outline along which it stands flush.
    side: Option<usize>,
    /// What it takes, along itself from its lowest corner; in order.
    lost: Vec<(f64, f64)>,
}

/// Whether a board has to be cut by this rule: it lies flat, and has an outline of its own or a turned mate.
pub(super) fn slants(number: u16, board: &Board, boards: &[Board], blocks: &Blocks) -> bool {
    let turned = |block: &Block| boards.get(usize::from(block.mate(number))).is_some_and(|mate| mate.turned_by().is_some());
    blocks.axis() == Some(board.normal()) && (board.blank().is_some() || blocks.of_board(number).any(|(_, block)| turned(block)))
}

/// The outline of such a board.
pub(super) fn rings(number: u16, board: &Board, boards: &[Board], blocks: &Blocks, shared: &Shared) -> Result<Vec<Vec<Corner>>, Failure> {
    let axis = board.normal();
    let walls = walls(number, board, boards, blocks, shared)?;
    let ring = outline(board);
    let (u, v) = axis.plane();
    let round = |(x, y): At| Point::raw(libm::round(x) as i64 - board.lo(u), libm::round(y) as i64 - board.lo(v));
    let mut sides = Vec::with_capacity(ring.len());
    for (index, (&p, &q)) in ring.iter().zip(ring.iter().skip(1).chain(ring.first())).enumerate() {
        let mut along = walls.iter().filter(|wall| wall.side == Some(index));
        let side = along.next().map_or_else(|| Side::free(p, q), |wall| Side::notched(number, wall, (p, q)));
        if along.next().is_some() {
            return Err(refuse(board, ""));
        }
        sides.push(side);
    }
    // A corner cut off between two sides that are lost there is lost with them.
    let swallowed = |index: usize| {
        let around = [index + sides.len() - 1, index, index + 1].map(|i| sides.get(i % sides.len()));
        let [Some(before), Some(Side { start: (p, q), own: false, .. }), Some(after)] = around else { return false };
        before.own && after.own && crossing(before.end, after.start).is_some_and(|at| left_of(*p, *q, at) > NOTHING)
    };
    let kept: Vec<&Side> = sides.iter().enumerate().filter(|(index, _)| !swallowed(*index)).map(|(_, side)| side).collect();
    let mut outer = Vec::new();
    for (before, side) in kept.iter().rev().take(1).chain(&kept).zip(&kept) {
        let Some(corner) = crossing(before.end, side.start) else { return Err(refuse(board, "")) };
        outer.push(Corner { at: round(corner), ..side.first });
        outer.extend(side.middle.iter().map(|&(at, corner)| Corner { at: round(at), ..corner }));
    }
    from_lowest(&mut outer);
    let mut rings = alloc::vec![outer];
    for wall in walls.iter().filter(|wall| wall.side.is_none()) {
        for &(from, to) in &wall.lost {
            let corners = wall.plan.stretch(from, to);
            let sides = || ring.iter().zip(ring.iter().skip(1).chain(ring.first()));
            if corners.iter().any(|&at| sides().any(|(&p, &q)| left_of(p, q, at) < NOTHING)) {
                return Err(refuse(board, wall.name));
            }
            rings.push(hole(number, wall, (from, to), round));
        }
    }
    Ok(rings)
}

fn walls<'a>(number: u16, board: &Board, boards: &'a [Board], blocks: &Blocks, shared: &Shared) -> Result<Vec<Wall<'a>>, Failure> {
    let axis = board.normal();
    let mut walls = Vec::new();
    for (index, block) in blocks.of_board(number) {
        let mate = block.mate(number);
        let Some(wall) = boards.get(usize::from(mate)) else { continue };
        let side = side_of(board, wall, axis);
        let own = |(from, to): (i64, i64)| (from - wall.lo(block.run), to - wall.lo(block.run));
        let mut lost: Vec<(i64, i64)> =
            shared.pieces(index).iter().filter(|piece| piece.owner == mate).map(|piece| own((piece.from, piece.to))).collect();
        for cube in shared.cubes.iter().filter(|cube| cube.owner != number && cube.boards.contains(&number) && cube.boards.contains(&mate)) {
            let third = cube.boards.into_iter().find(|&n| n != number && n != mate);
            let reach = third.and_then(|third| blocks.reach(boards, block, third)).map(own);
            match (reach, side) {
                (Some(reach), Some(_)) => lost.push(reach),
                // A corner inside the outline would leave a notch in a slot.
                (Some(reach), None) if cube.owner == mate || lost.iter().any(|&(from, to)| from == reach.1 || to == reach.0) => {
                    return Err(refuse(board, wall.name()));
                }
                _ => {}
            }
        }
        lost.sort_unstable();
        let mut joined: Vec<(f64, f64)> = Vec::with_capacity(lost.len());
        for (from, to) in lost.into_iter().map(|(from, to)| (from as f64, to as f64)) {
            match joined.last_mut() {
                Some(last) if from <= last.1 => last.1 = last.1.max(to),
                _ => joined.push((from, to)),
            }
        }
        walls.push(Wall { number: mate, name: wall.name(), plan: Plan::of(wall, axis), side, lost: joined });
    }
    Ok(walls)
}

fn refuse(board: &Board, other: &str) -> Failure {
    let error = Error::bare(Code::SlantedCut, "at");
    if other.is_empty() {
        return Failure::at(error, format!("board \"{}\"", board.name()));
    }
    Failure::at(error, format!("boards \"{}\" and \"{other}\"", board.name()))
}

/// A side of the outline: the lines on which it starts and ends, and what lies between.
struct Side {
    start: (At, At),
    end: (At, At),
    first: Corner,
    /// A wall stands along it.
    own: bool,
    middle: Vec<(At, Corner)>,
}

const BARE: Corner = Corner { at: Point::raw(0, 0), role: Role::Free, share: Share::Full, mate: Corner::NOBODY, sine: RIGHT };

impl Side {
    fn free(p: At, q: At) -> Side {
        Side { start: (p, q), end: (p, q), first: BARE, own: false, middle: Vec::new() }
    }

    /// A side along which a wall stands.
    fn notched(number: u16, wall: &Wall, (p, q): (At, At)) -> Side {
        let plan = &wall.plan;
        let (start, deep) = plan.local(p);
        let (end, _) = plan.local(q);
        let onwards = start < end;
        // The face that is flush, and the one inside.
        let (outer, inner) = if deep < plan.thickness() / 2.0 { (0.0, plan.thickness()) } else { (plan.thickness(), 0.0) };
        let inside = (plan.at(start, inner), plan.at(end, inner));
        let cheek = Corner { role: Role::Cheek, mate: wall.number, ..BARE };
        let tip = Corner { role: Role::Tip, ..cheek };
        let flank = Corner { role: Role::Flank, share: if number < wall.number { Share::Lower } else { Share::Upper }, ..cheek };
        let mut lost: Vec<(f64, f64)> = wall.lost.iter().map(|&(from, to)| if onwards { (from, to) } else { (to, from) }).collect();
        if !onwards {
            lost.reverse();
        }
        let beyond = |at: f64, end: f64| if onwards { at >= end - NOTHING } else { at <= end + NOTHING };
        let at_start = lost.first().is_some_and(|&(from, _)| beyond(start, from));
        let at_end = lost.last().is_some_and(|&(_, to)| beyond(to, end));
        let mut middle = Vec::with_capacity(4 * lost.len());
        for (index, &(from, to)) in lost.iter().enumerate() {
            if index > 0 || !at_start {
                middle.extend([(plan.at(from, outer), flank), (plan.at(from, inner), cheek)]);
            }
            if index + 1 < lost.len() || !at_end {
                middle.extend([(plan.at(to, inner), flank), (plan.at(to, outer), tip)]);
            }
        }
        let line = |lost| if lost { inside } else { (p, q) };
        Side { start: line(at_start), end: line(at_end), first: if at_start { cheek } else { tip }, own: true, middle }
    }
}

/// A closed slot, clockwise.
fn hole(number: u16, wall: &Wall, (from, to): (f64, f64), round: impl Fn(At) -> Point) -> Vec<Corner> {
    let cheek = |share| Corner { role: Role::Cheek, share, mate: wall.number, ..BARE };
    let flank = Corner { role: Role::Flank, share: if number < wall.number { Share::Lower } else { Share::Upper }, mate: wall.number, ..BARE };
    let t = wall.plan.thickness();
    let [p, q, r, s] = [(from, 0.0), (to, 0.0), (to, t), (from, t)].map(|(along, deep)| round(wall.plan.at(along, deep)));
    let corners = [(p, flank), (s, cheek(Share::Upper)), (r, flank), (q, cheek(Share::Lower))];
    let turned = [(q, flank), (r, cheek(Share::Upper)), (s, flank), (p, cheek(Share::Lower))];
    let clockwise = crate::plane::cross(p, s, r) < 0;
    let mut ring: Vec<Corner> = (if clockwise { corners } else { turned }).into_iter().map(|(at, corner)| Corner { at, ..corner }).collect();
    from_lowest(&mut ring);
    ring
}

/// Where two lines cross.
fn crossing((p, q): (At, At), (r, s): (At, At)) -> Option<At> {
    let ((ax, ay), (bx, by)) = ((q.0 - p.0, q.1 - p.1), (s.0 - r.0, s.1 - r.1));
    let turn = ax * by - ay * bx;
    if libm::fabs(turn) <= 1e-6 * libm::hypot(ax, ay) * libm::hypot(bx, by) {
        return None;
    }
    let t = ((r.0 - p.0) * by - (r.1 - p.1) * bx) / turn;
    Some((p.0 + ax * t, p.1 + ay * t))
}

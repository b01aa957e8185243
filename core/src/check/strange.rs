//! Outlines from elsewhere that the proof does not understand. What cannot be judged must not pass.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use crate::assembly::Board;
use crate::bounds::{BOARDS, REACH};
use crate::joint::Vertex;
use crate::plane::cross;
use crate::point::Point;
use crate::shape::{Shape, place};

/// Why boards and outlines cannot be judged; nothing if they can.
pub(super) fn strange(boards: &[&Board], shapes: &[Shape]) -> Vec<String> {
    if boards.len() != shapes.len() {
        return alloc::vec![format!("{} boards but {} outlines: nothing was judged", boards.len(), shapes.len())];
    }
    if i64::try_from(boards.len()).map_or(true, |count| count > BOARDS.most) {
        return alloc::vec![format!("{} boards, at most {}: nothing was judged", boards.len(), BOARDS.most)];
    }
    let faults = boards.iter().zip(shapes).filter_map(|(board, shape)| fault(shape, || splices(boards, board)).map(|(what, at)| (board, what, at)));
    faults.map(|(board, what, at)| format!("panel \"{}\": {what} near {}: nothing was judged", board.name(), place(at))).collect()
}

/// Where a board overlaps others of its plane: only there edges may slant, and in boards that lie across turned ones. Lowest and highest
/// corner, as the panel sees them.
fn splices(boards: &[&Board], board: &Board) -> Vec<(Point, Point)> {
    let (u, v) = board.normal().plane();
    let others = boards.iter().filter(|other| !core::ptr::eq(**other, board) && other.normal() == board.normal() && other.overlaps(board));
    let corner = |end: fn(i64, i64) -> i64, at: [i64; 4]| Point::raw(end(at[0], at[1]) - board.lo(u), end(at[2], at[3]) - board.lo(v));
    let common = |other: &&Board| {
        let lowest = corner(i64::max, [board.lo(u), other.lo(u), board.lo(v), other.lo(v)]);
        (lowest, corner(i64::min, [board.hi(u), other.hi(u), board.hi(v), other.hi(v)]))
    };
    if boards.iter().any(|other| other.upright() == Some(board.normal())) {
        return alloc::vec![(Point::raw(-2 * REACH, -2 * REACH), Point::raw(2 * REACH, 2 * REACH))];
    }
    others.map(common).collect()
}

/// What is wrong with the first loop that is not a closed walk along both axes, but for the places where edges may slant, or with an arc;
/// and where.
fn fault(shape: &Shape, splices: impl Fn() -> Vec<(Point, Point)>) -> Option<(&'static str, Point)> {
    let slant = if shape.leans() { splices() } else { Vec::new() };
    let inside = |p: Point, (lo, hi): &(Point, Point)| lo.x <= p.x && p.x <= hi.x && lo.y <= p.y && p.y <= hi.y;
    let corner = shape.loops().find(|ring| ring.len() < 4).map(|ring| ring.first().map(|v| v.at).unwrap_or_default());
    let edge = |(a, b): (Point, Point)| match (a.x == b.x, a.y == b.y) {
        // Twice the limit: a part can stand proud of its slab, which ends at the limit itself.
        _ if [a.x, a.y].iter().any(|c| c.nm().abs() > 2 * REACH) => Some(("a point out of reach", a)),
        (true, true) => Some(("two points in one place", a)),
        (false, false) if !slant.iter().any(|place| inside(a, place) && inside(b, place)) => Some(("an edge along neither axis", a)),
        _ => None,
    };
    let corner = corner.map(|at| ("a loop of fewer than four points", at));
    let arc = || shape.arcs().find_map(|arc| arc.fault().map(|what| (what, arc.from)));
    corner.or_else(|| shape.edges().find_map(edge)).or_else(|| shape.loops().find_map(spike).map(|at| ("an edge that turns back", at))).or_else(arc)
}

/// Where a loop goes back the way it came.
fn spike(ring: &[Vertex]) -> Option<Point> {
    let before = ring.last().into_iter().chain(ring);
    let after = ring.iter().skip(1).chain(ring.first());
    let along = |a: Point, b: Point, c: Point| {
        let part = |a: i64, b: i64, c: i64| i128::from(b - a) * i128::from(c - b);
        part(a.x.nm(), b.x.nm(), c.x.nm()) + part(a.y.nm(), b.y.nm(), c.y.nm())
    };
    let back = |(a, b, c): (Point, Point, Point)| cross(a, b, c) == 0 && along(a, b, c) < 0;
    before.zip(ring).zip(after).map(|((a, b), c)| (a.at, b.at, c.at)).find(|&corner| back(corner)).map(|(_, at, _)| at)
}

#[cfg(test)]
#[path = "strange_tests.rs"]
mod tests;

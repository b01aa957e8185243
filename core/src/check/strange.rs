//! Outlines from elsewhere that the proof does not understand. What cannot be judged must not pass.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use crate::assembly::Board;
use crate::bounds::{BOARDS, REACH};
use crate::joint::Vertex;
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
    let faults = boards.iter().zip(shapes).filter_map(|(board, shape)| fault(shape).map(|(what, at)| (board, what, at)));
    faults.map(|(board, what, at)| format!("panel \"{}\": {what} near {}: nothing was judged", board.name(), place(at))).collect()
}

/// What is wrong with the first loop that is not a closed walk along both axes, and where.
fn fault(shape: &Shape) -> Option<(&'static str, Point)> {
    let corner = shape.loops().find(|ring| ring.len() < 4).map(|ring| ring.first().map(|v| v.at).unwrap_or_default());
    let edge = |(a, b): (Point, Point)| match (a.x == b.x, a.y == b.y) {
        // Twice the limit: a part can stand proud of its slab, which ends at the limit itself.
        _ if [a.x, a.y].iter().any(|c| c.nm().abs() > 2 * REACH) => Some(("a point out of reach", a)),
        (true, true) => Some(("two points in one place", a)),
        (false, false) => Some(("an edge along neither axis", a)),
        _ => None,
    };
    let corner = corner.map(|at| ("a loop of fewer than four points", at));
    corner.or_else(|| shape.edges().find_map(edge)).or_else(|| shape.loops().find_map(spike).map(|at| ("an edge that turns back", at)))
}

/// Where a loop goes back the way it came. The edges of the loop run along the axes.
fn spike(ring: &[Vertex]) -> Option<Point> {
    let before = ring.last().into_iter().chain(ring);
    let after = ring.iter().skip(1).chain(ring.first());
    let back = |a: i64, b: i64, c: i64| (b > a && b > c) || (b < a && b < c);
    let turns = |(a, b, c): (Point, Point, Point)| back(a.x.nm(), b.x.nm(), c.x.nm()) || back(a.y.nm(), b.y.nm(), c.y.nm());
    before.zip(ring).zip(after).map(|((a, b), c)| (a.at, b.at, c.at)).find(|&corner| turns(corner)).map(|(_, at, _)| at)
}

#[cfg(test)]
#[path = "strange_tests.rs"]
mod tests;

//! Outlines from elsewhere that the proof does not understand. What cannot be judged must not pass.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use crate::assembly::Board;
use crate::bounds::{BOARDS, REACH};
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
    corner.map(|at| ("a loop of fewer than four points", at)).or_else(|| shape.edges().find_map(edge))
}

#[cfg(test)]
#[path = "strange_tests.rs"]
mod tests;

//! The few vertices at one corner of a panel, moved by allowances and kerf.

use super::fit::{Fit, Role, Vertex};
use super::frame::Frame;
use super::moved::{Moved, Moving};
use crate::point::Point;

/// A corner has at most five nominal vertices and, where a flank goes on as a cheek, one step.
const MOST: usize = 6;

/// The vertices at one corner, in the direction of travel.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turn {
    vertices: [Vertex; MOST],
    count: usize,
    /// Where the edge before the corner ends.
    pub entry: Point,
    /// Where the edge after the corner starts.
    pub exit: Point,
}

impl Turn {
    /// The corner after edge `index`; `None` where an edge between its vertices has no length left.
    pub(super) fn new(frame: &Frame, index: usize, fit: Fit, grow: i64) -> Option<Turn> {
        let mut moved = Moved::part(frame.arriving(index), frame.corner(index), frame.beyond(index), fit, grow)?;
        let blank = Vertex { at: Point::raw(0, 0), role: Role::Free };
        let mut turn = Turn { vertices: [blank; MOST], count: 0, entry: blank.at, exit: blank.at };
        let mut last: Option<Moving> = None;
        while let Some(step) = moved.step() {
            match last {
                None => turn.entry = step.end,
                Some(last) if !last.reaches(step.end) => return None,
                Some(_) => {}
            }
            for vertex in step.vertices().into_iter().flatten() {
                if let Some(slot) = turn.vertices.get_mut(turn.count) {
                    *slot = vertex;
                    turn.count += 1;
                }
            }
            turn.exit = step.start;
            last = Some(step);
        }
        Some(turn)
    }

    #[inline]
    pub(super) fn vertices(&self) -> &[Vertex] {
        self.vertices.get(..self.count).unwrap_or(&[])
    }
}

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
    count: u8,
}

impl Turn {
    /// No vertex.
    pub(super) const BLANK: Turn = Turn { vertices: [Vertex { at: Point::raw(0, 0), role: Role::Free }; MOST], count: 0 };

    /// Becomes the corner after edge `index`; `false` where an edge between its vertices has no length left.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn fill(&mut self, frame: &Frame<'_>, index: usize, fit: Fit, grow: i64) -> bool {
        self.count = 0;
        let Some(mut moved) = Moved::part(frame.arriving(index), frame.corner(index), frame.beyond(index), fit, grow) else { return false };
        let mut last: Option<Moving> = None;
        while let Some(step) = moved.step() {
            if last.is_some_and(|last| !last.reaches(step.end)) {
                return false;
            }
            for vertex in step.vertices().into_iter().flatten() {
                if let Some(slot) = self.vertices.get_mut(usize::from(self.count)) {
                    *slot = vertex;
                    self.count += 1;
                }
            }
            last = Some(step);
        }
        true
    }

    #[inline]
    pub(super) fn vertices(&self) -> &[Vertex] {
        self.vertices.get(..usize::from(self.count)).unwrap_or(&[])
    }

    /// Where the edge before the corner ends, and where the edge after it starts.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn ends(&self) -> Option<(Point, Point)> {
        self.vertices().first().zip(self.vertices().last()).map(|(first, last)| (first.at, last.at))
    }
}

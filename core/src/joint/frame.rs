//! One panel of a box: four edges and their corner cubes, and the nominal corners between the edges.
//!
//! ```text
//!             edge 2
//!        3 ┌─────────┐ 2      edge k runs from corner k-1 to corner k; at a corner two strips,
//!   edge 3 │         │ edge 1 each as deep as a mate is thick, overlap in a cube, which the panel
//!        0 └─────────┘ 1      owns or has lost to one of the two mates
//!             edge 0
//! ```

use super::angled::RIGHT;
use super::fit::{Corner, Role, Share};
use super::pattern::{Pattern, Side};
use crate::point::Point;

/// What the panel meets along one edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge<'a> {
    pub mate: u16,
    /// The mate's thickness; 0 for a free edge.
    pub depth: i64,
    /// The shared run, if the edge has a mate.
    pub pattern: Option<&'a Pattern>,
    pub side: Side,
    /// Where the run starts along its axis.
    pub offset: i64,
}

/// Who has the cube at a corner, seen from the panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Cube {
    /// No cube: at most one of the edges has a mate.
    Absent,
    Own,
    /// The mate of the edge before the corner.
    Before,
    /// The mate of the edge after the corner.
    After,
}

/// A panel's four edges, counter-clockwise from the bottom, and the cube at the end of each.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame<'a> {
    pub panel: u16,
    pub width: i64,
    pub height: i64,
    pub edges: [Edge<'a>; 4],
    pub cubes: [Cube; 4],
}

impl<'a> Frame<'a> {
    /// A point given by the way along an edge and the depth inside it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn point(&self, edge: usize, along: i64, depth: i64) -> Point {
        let (w, h) = (self.width, self.height);
        let (x, y) = match edge % 4 {
            0 => (along, depth),
            1 => (w - depth, along),
            2 => (w - along, h - depth),
            _ => (depth, h - along),
        };
        Point::raw(x, y)
    }

    pub fn edge(&self, index: usize) -> &Edge<'a> {
        let [a, b, c, d] = &self.edges;
        match index % 4 {
            0 => a,
            1 => b,
            2 => c,
            _ => d,
        }
    }

    fn cube(&self, index: usize) -> Cube {
        let [a, b, c, d] = self.cubes;
        match index % 4 {
            0 => a,
            1 => b,
            2 => c,
            _ => d,
        }
    }

    fn length(&self, edge: usize) -> i64 {
        if edge.is_multiple_of(2) { self.width } else { self.height }
    }

    /// Whether travel along the edge goes against its run's axis.
    pub fn reversed(edge: usize) -> bool {
        edge % 4 >= 2
    }

    pub fn flank(&self, mate: u16) -> (Role, Share, u16) {
        (Role::Flank, if self.panel < mate { Share::Lower } else { Share::Upper }, mate)
    }

    /// Whether the panel owns the span at the start or end of travel along an edge; free edges count as owned.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn owns_end(&self, index: usize, at_end: bool) -> bool {
        let edge = self.edge(index);
        let Some(pattern) = edge.pattern else { return true };
        let owner = if at_end != Frame::reversed(index) { pattern.last() } else { pattern.first() };
        owner == edge.side
    }

    /// The place across an edge at a depth inside it, on the panel's other axis.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn across(&self, edge: usize, depth: i64) -> i64 {
        match edge % 4 {
            0 | 3 => depth,
            1 => self.width - depth,
            _ => self.height - depth,
        }
    }

    /// Start of the stretch that leads into the corner after edge `index`.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn arriving(&self, index: usize) -> Corner {
        let edge = self.edge(index);
        let (role, mate, depth) = match (edge.pattern, self.owns_end(index, true)) {
            (None, _) => (Role::Free, Corner::NOBODY, 0),
            (_, true) => (Role::Tip, edge.mate, 0),
            (_, false) => (Role::Cheek, edge.mate, edge.depth),
        };
        Corner { at: self.point(index, 0, depth), role, share: Share::Full, mate, sine: RIGHT }
    }

    /// A point of the stretch that leads out of the corner after edge `index`.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn beyond(&self, index: usize) -> Point {
        let next = index + 1;
        let depth = if self.owns_end(next, false) { 0 } else { self.edge(next).depth };
        self.point(next, self.length(next), depth)
    }

    /// The vertices at the corner after edge `index`, nominal and in order.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn corner(&self, index: usize) -> Queue {
        let (before, after) = (self.edge(index), self.edge(index + 1));
        let length = self.length(index);
        let inner = self.point(index, length - after.depth, before.depth);
        let on_before = self.point(index, length - after.depth, 0);
        let outer = self.point(index, length, 0);
        let on_after = self.point(index, length, before.depth);
        let cheek = |edge: &Edge<'_>| (Role::Cheek, Share::Full, edge.mate);
        let outside =
            |edge: &Edge<'_>| if edge.pattern.is_some() { (Role::Tip, Share::Full, edge.mate) } else { (Role::Free, Share::Full, Corner::NOBODY) };
        let (out_before, out_after) = (self.owns_end(index, true), self.owns_end(index + 1, false));
        let mut queue = Queue::default();
        let cube = self.cube(index);
        // The cube's edges, if it is lost: along the edge after the corner, and along the one before.
        let (upright, level) = if cube == Cube::After { (cheek(after), self.flank(after.mate)) } else { (self.flank(before.mate), cheek(before)) };
        match (cube, out_before, out_after) {
            (Cube::Absent, ..) => {
                if !out_before {
                    queue.push(on_after, outside(after));
                } else if !out_after {
                    queue.push(on_before, cheek(after));
                } else {
                    queue.push(outer, outside(after));
                }
            }
            (Cube::Own, ..) => {
                if !out_before {
                    queue.push(inner, self.flank(before.mate));
                    queue.push(on_before, outside(before));
                }
                queue.push(outer, outside(after));
                if !out_after {
                    queue.push(on_after, self.flank(after.mate));
                    queue.push(inner, cheek(after));
                }
            }
            (_, true, true) => {
                queue.push(on_before, upright);
                queue.push(inner, level);
                queue.push(on_after, outside(after));
            }
            (_, true, false) => {
                queue.push(on_before, upright);
                if upright != cheek(after) {
                    queue.push(inner, cheek(after));
                }
            }
            (_, false, true) => {
                if level != cheek(before) {
                    queue.push(inner, level);
                }
                queue.push(on_after, outside(after));
            }
            (_, false, false) => queue.push(inner, cheek(after)),
        }
        queue
    }
}

/// Up to five corners that wait to be handed out.
#[derive(Clone, Copy, Debug)]
pub(super) struct Queue {
    corners: [Corner; 5],
    from: usize,
    to: usize,
}

impl Default for Queue {
    fn default() -> Queue {
        let blank = Corner { at: Point::raw(0, 0), role: Role::Free, share: Share::Full, mate: Corner::NOBODY, sine: RIGHT };
        Queue { corners: [blank; 5], from: 0, to: 0 }
    }
}

impl Queue {
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn push(&mut self, at: Point, (role, share, mate): (Role, Share, u16)) {
        if let Some(slot) = self.corners.get_mut(self.to) {
            *slot = Corner { at, role, share, mate, sine: RIGHT };
            self.to += 1;
        }
    }
}

impl Iterator for Queue {
    type Item = Corner;

    fn next(&mut self) -> Option<Corner> {
        let corner = self.corners.get(self.from..self.to)?.first().copied();
        self.from += 1;
        corner
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = self.to.saturating_sub(self.from);
        (left, Some(left))
    }
}

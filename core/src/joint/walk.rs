//! The outline of one panel of a box: four profiles and their corner cubes, walked counter-clockwise without heap.
//!
//! ```text
//!             edge 2
//!        3 ┌─────────┐ 2      edge k runs from corner k-1 to corner k; at a corner two strips,
//!   edge 3 │         │ edge 1 each as deep as a mate is thick, overlap in a cube, which the panel
//!        0 └─────────┘ 1      owns or has lost to one of the two mates
//!             edge 0
//! ```

use super::boundaries::Boundaries;
use super::fit::{Corner, Role, Share};
use super::pattern::{Pattern, Side};
use crate::length::Nm;
use crate::point::Point;

/// What the panel meets along one edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub mate: u16,
    /// The mate's thickness; 0 for a free edge.
    pub depth: i64,
    /// The shared run, if the edge has a mate.
    pub pattern: Option<Pattern>,
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
pub(super) struct Frame {
    pub panel: u16,
    pub width: i64,
    pub height: i64,
    pub edges: [Edge; 4],
    pub cubes: [Cube; 4],
}

impl Frame {
    /// A point given by the way along an edge and the depth inside it.
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

    fn edge(&self, index: usize) -> Edge {
        let [a, b, c, d] = self.edges;
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
    fn reversed(edge: usize) -> bool {
        edge % 4 >= 2
    }

    fn flank(&self, mate: u16) -> (Role, Share, u16) {
        (Role::Flank, if self.panel < mate { Share::Lower } else { Share::Upper }, mate)
    }

    /// Whether the panel owns the span at the start or end of travel along an edge; free edges count as owned.
    fn owns_end(&self, index: usize, at_end: bool) -> bool {
        let edge = self.edge(index);
        let Some(pattern) = edge.pattern else { return true };
        let owner = if at_end != Frame::reversed(index) { pattern.last() } else { pattern.first() };
        owner == edge.side
    }

    /// The vertices at the corner after edge `index`, nominal and in order.
    fn corner(&self, index: usize) -> Queue {
        let (before, after) = (self.edge(index), self.edge(index + 1));
        let length = self.length(index);
        let inner = self.point(index, length - after.depth, before.depth);
        let on_before = self.point(index, length - after.depth, 0);
        let outer = self.point(index, length, 0);
        let on_after = self.point(index, length, before.depth);
        let cheek = |edge: Edge| (Role::Cheek, Share::Full, edge.mate);
        let outside =
            |edge: Edge| if edge.pattern.is_some() { (Role::Tip, Share::Full, edge.mate) } else { (Role::Free, Share::Full, Corner::NOBODY) };
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
struct Queue {
    corners: [Corner; 5],
    from: u8,
    to: u8,
}

impl Default for Queue {
    fn default() -> Queue {
        let blank = Corner { at: Point::raw(0, 0), role: Role::Free, share: Share::Full, mate: Corner::NOBODY };
        Queue { corners: [blank; 5], from: 0, to: 0 }
    }
}

impl Queue {
    fn push(&mut self, at: Point, (role, share, mate): (Role, Share, u16)) {
        if let Some(slot) = self.corners.get_mut(usize::from(self.to)) {
            *slot = Corner { at, role, share, mate };
            self.to += 1;
        }
    }

    #[inline]
    fn pop(&mut self) -> Option<Corner> {
        if self.from >= self.to {
            return None;
        }
        let corner = self.corners.get(usize::from(self.from)).copied();
        self.from += 1;
        corner
    }
}

/// The corners of a panel's outline, counter-clockwise from the bottom edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Walk {
    frame: Frame,
    edge: usize,
    boundaries: Option<Boundaries>,
    /// Whether the span we are on is the panel's own.
    own: bool,
    queue: Queue,
}

impl Walk {
    pub(super) fn new(frame: Frame) -> Walk {
        let mut walk = Walk { frame, edge: 0, boundaries: None, own: true, queue: Queue::default() };
        walk.enter(0);
        walk
    }

    fn enter(&mut self, index: usize) {
        self.edge = index;
        self.boundaries = self.frame.edge(index).pattern.map(|pattern| pattern.boundaries());
        self.own = self.frame.owns_end(index, false);
    }

    /// The next boundary along the edge, as the way from its start.
    fn boundary(&mut self) -> Option<i64> {
        let boundaries = self.boundaries.as_mut()?;
        let offset = self.frame.edge(self.edge).offset;
        if Frame::reversed(self.edge) {
            boundaries.next_back().map(|b: Nm| self.frame.length(self.edge) - offset - b.nm())
        } else {
            boundaries.next().map(|b| offset + b.nm())
        }
    }
}

impl Iterator for Walk {
    type Item = Corner;

    #[inline]
    fn next(&mut self) -> Option<Corner> {
        loop {
            if let Some(corner) = self.queue.pop() {
                return Some(corner);
            }
            if self.edge >= 4 {
                return None;
            }
            self.queue = Queue::default();
            if let Some(along) = self.boundary() {
                let edge = self.frame.edge(self.edge);
                let (outer, inner) = (self.frame.point(self.edge, along, 0), self.frame.point(self.edge, along, edge.depth));
                let flank = self.frame.flank(edge.mate);
                if self.own {
                    self.queue.push(outer, flank);
                    self.queue.push(inner, (Role::Cheek, Share::Full, edge.mate));
                } else {
                    self.queue.push(inner, flank);
                    self.queue.push(outer, (Role::Tip, Share::Full, edge.mate));
                }
                self.own = !self.own;
            } else {
                self.queue = self.frame.corner(self.edge);
                self.enter(self.edge + 1);
            }
        }
    }
}

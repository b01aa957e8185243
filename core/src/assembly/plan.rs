//! Boards seen along the axis about which they are turned: each upright one is a rectangle, each flat one its outline.

use alloc::vec::Vec;

use super::board::Board;
use crate::point::Axis;

/// A point of the plan: along the two axes of the assembly across the axis of turning, in nanometres.
pub(crate) type At = (f64, f64);

/// The rectangle of an upright board, turned about its lowest corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Plan {
    lowest: At,
    cos: f64,
    sin: f64,
    size: [f64; 2],
    /// The board's own axis is the first of the two.
    first: bool,
}

impl Plan {
    /// Of a board whose plane contains the axis.
    pub fn of(board: &Board, axis: Axis) -> Plan {
        let (a, b) = axis.plane();
        let (cos, sin) = board.turn().map_or((1.0, 0.0), |turn| turn.cos_sin());
        let place = board.turn().map_or([0.0; 2], |turn| turn.fraction());
        let lowest = (board.lo(a) as f64 + place[0], board.lo(b) as f64 + place[1]);
        Plan { lowest, cos, sin, size: [board.size(a) as f64, board.size(b) as f64], first: board.normal() == b }
    }

    /// The point so far along the board from its lowest corner, and so far into its thickness.
    pub fn at(&self, along: f64, deep: f64) -> At {
        let (a, b) = if self.first { (along, deep) } else { (deep, along) };
        (self.lowest.0 + a * self.cos - b * self.sin, self.lowest.1 + a * self.sin + b * self.cos)
    }

    /// How far along the board and into its thickness a point lies.
    pub fn local(&self, (x, y): At) -> At {
        let (dx, dy) = (x - self.lowest.0, y - self.lowest.1);
        let (a, b) = (dx * self.cos + dy * self.sin, dy * self.cos - dx * self.sin);
        if self.first { (a, b) } else { (b, a) }
    }

    /// Its length along the board.
    pub fn length(&self) -> f64 {
        let [a, b] = self.size;
        if self.first { a } else { b }
    }

    /// Whether along and into the thickness stand to each other as the two axes of the plan do.
    pub fn anticlockwise(&self) -> bool {
        self.first
    }

    /// The board's thickness.
    pub fn thickness(&self) -> f64 {
        let [a, b] = self.size;
        if self.first { b } else { a }
    }

    /// The corners of a stretch of it, anticlockwise as the two axes of the plan see it.
    pub fn stretch(&self, from: f64, to: f64) -> [At; 4] {
        let t = self.thickness();
        let [p, q, r, s] = [(from, 0.0), (to, 0.0), (to, t), (from, t)].map(|(along, deep)| self.at(along, deep));
        if self.first { [p, q, r, s] } else { [p, s, r, q] }
    }

    /// What it shares with another, as a convex outline; empty if nothing.
    pub fn overlap(&self, other: &Plan) -> Vec<At> {
        let corners = self.stretch(0.0, self.length());
        // Most boards lie wholly beyond one end or face of each other.
        let misses = |[along, deep]: [(f64, f64); 2]| along.1 <= 0.0 || along.0 >= other.length() || deep.1 <= 0.0 || deep.0 >= other.thickness();
        if misses(other.reach(&corners)) {
            return Vec::new();
        }
        let mut outline = corners.to_vec();
        for (across, end) in [(false, other.length()), (true, other.thickness())] {
            let place = |p: At| if across { other.local(p).1 } else { other.local(p).0 };
            outline = clipped(outline, place);
            outline = clipped(outline, |p| end - place(p));
        }
        outline
    }

    /// From where to where an outline reaches along the board and into its thickness.
    pub fn reach(&self, outline: &[At]) -> [(f64, f64); 2] {
        let start = [(f64::INFINITY, f64::NEG_INFINITY); 2];
        outline.iter().map(|&p| self.local(p)).fold(start, |[along, deep], (a, d)| [(along.0.min(a), along.1.max(a)), (deep.0.min(d), deep.1.max(d))])
    }
}

/// The part of a convex outline where `inside` is not negative; it must be linear.
pub(crate) fn clipped(outline: Vec<At>, inside: impl Fn(At) -> f64) -> Vec<At> {
    if outline.iter().all(|&p| inside(p) >= 0.0) {
        return outline;
    }
    let mut out = Vec::with_capacity(outline.len() + 1);
    let next = outline.iter().skip(1).chain(outline.first());
    for (&p, &q) in outline.iter().zip(next) {
        let (d, e) = (inside(p), inside(q));
        if d >= 0.0 {
            out.push(p);
        }
        if (d > 0.0 && e < 0.0) || (d < 0.0 && e > 0.0) {
            let t = d / (d - e);
            out.push((p.0 + (q.0 - p.0) * t, p.1 + (q.1 - p.1) * t));
        }
    }
    out
}

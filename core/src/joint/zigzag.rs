//! The flanks along one edge of a panel, moved by allowances and kerf: two vertices for each boundary of the shared run.

use core::iter::FusedIterator;

use super::boundaries::Boundaries;
use super::fit::{Fit, Role, Share, Vertex};
use super::frame::{Edge, Frame};
use super::pattern::Pattern;
use crate::point::Point;

/// The vertices between the two corners of an edge, in the direction of travel. `Copy`-sized state, no heap.
#[derive(Clone, Copy, Debug)]
pub(super) struct Zigzag {
    boundaries: Boundaries,
    /// Edges along u, at the bottom and at the top, or along v.
    upright: bool,
    /// Travel against the run's axis.
    backwards: bool,
    offset: i64,
    /// How far the next boundary moves along the run's axis.
    shift: i64,
    /// The place across the edge of the span we are on, and of the other.
    levels: [i64; 2],
    /// The role along the span we are on, and along the other.
    roles: [Role; 2],
    /// Where the flank whose second vertex comes next stands.
    flank: Option<i64>,
}

impl Zigzag {
    /// The flanks of edge `index`, if it has a mate; `grow` is half the kerf.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn new(frame: &Frame<'_>, index: usize, fit: Fit, grow: i64) -> Option<Zigzag> {
        let edge = frame.edge(index);
        let pattern = edge.pattern?;
        let own = frame.owns_end(index, false);
        let level = |role, depth| frame.across(index, depth - fit.shift(role, Share::Full).nm() - grow);
        let levels = [level(Role::Tip, 0), level(Role::Cheek, edge.depth)];
        let (levels, roles) = if own { (levels, [Role::Tip, Role::Cheek]) } else { ([levels[1], levels[0]], [Role::Cheek, Role::Tip]) };
        let out = Zigzag::out(frame, edge, fit, grow);
        let backwards = Frame::reversed(index);
        // Out of the board: onwards at the end of an own span, back at its start.
        let shift = if own == backwards { -out } else { out };
        Some(Zigzag { boundaries: pattern.boundaries(), upright: index % 2 == 1, backwards, offset: edge.offset, shift, levels, roles, flank: None })
    }

    /// How far each flank moves out of the board.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn out(frame: &Frame<'_>, edge: &Edge<'_>, fit: Fit, grow: i64) -> i64 {
        let (role, share, _) = frame.flank(edge.mate);
        fit.shift(role, share).nm() + grow
    }

    /// Whether every span between two boundaries, and every flank, keeps a length.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn keeps_lengths(self, frame: &Frame<'_>, index: usize, fit: Fit, grow: i64) -> bool {
        let edge = frame.edge(index);
        let Some(pattern) = edge.pattern.filter(|_| self.boundaries.len() > 0) else { return true };
        let deep = edge.depth + fit.tip().nm() - fit.shift(Role::Cheek, Share::Full).nm() > 0;
        deep && (Zigzag::surely_wide(edge, pattern, Zigzag::out(frame, edge, fit, grow)) || self.wide())
    }

    /// A lower limit for all spans at once, without looking at each.
    fn surely_wide(edge: &Edge<'_>, pattern: &Pattern, out: i64) -> bool {
        let wide = |side, out: i64| pattern.narrowest_inner(side) + 2 * out > 0;
        wide(edge.side, out) && wide(edge.side.other(), -out)
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn wide(self) -> bool {
        let travel = if self.backwards { -1 } else { 1 };
        let flanks = self.step_by(2).map(|v| travel * if self.upright { v.at.y.nm() } else { v.at.x.nm() });
        flanks.is_sorted_by(|a, b| a < b)
    }

    /// The first and the last vertex.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn ends(self) -> Option<(Point, Point)> {
        let mut boundaries = self.boundaries;
        let even = boundaries.len().is_multiple_of(2);
        let first = if self.backwards { boundaries.next_back() } else { boundaries.next() }?.nm();
        let last = if self.backwards { boundaries.next() } else { boundaries.next_back() }.map_or(first, |b| b.nm());
        let [now, other] = self.levels;
        let (shift, level) = if even { (-self.shift, now) } else { (self.shift, other) };
        Some((self.point(self.offset + first + self.shift, now), self.point(self.offset + last + shift, level)))
    }

    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn point(&self, along: i64, across: i64) -> Point {
        if self.upright { Point::raw(across, along) } else { Point::raw(along, across) }
    }
}

impl Iterator for Zigzag {
    type Item = Vertex;

    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn next(&mut self) -> Option<Vertex> {
        let [level, other] = self.levels;
        if let Some(along) = self.flank.take() {
            let [role, _] = self.roles;
            return Some(Vertex { at: self.point(along, level), role });
        }
        let boundary = if self.backwards { self.boundaries.next_back() } else { self.boundaries.next() }?;
        let along = self.offset + boundary.nm() + self.shift;
        self.flank = Some(along);
        self.shift = -self.shift;
        self.levels = [other, level];
        let [role, next] = self.roles;
        self.roles = [next, role];
        Some(Vertex { at: self.point(along, level), role: Role::Flank })
    }

    #[inline]
    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = 2 * self.boundaries.len() + usize::from(self.flank.is_some());
        (left, Some(left))
    }
}

impl ExactSizeIterator for Zigzag {}
impl FusedIterator for Zigzag {}

//! The outline of a slab that loses rectangles along its sides, in its corners and well inside: once around, side by side.
//!
//! ```text
//!             2
//!      +-+   +--+   +----+
//!      | |___|  |___|    |     Sides and corners are numbered on the way: side 0 is the bottom, corner 0 the one where it starts.
//!      +-+              _|     Along a side stand notches, in order; each has an edge that goes in, one along and one out.
//!    3   |     +--+    |_  1
//!      +-+     +--+      |
//!      |_             _  |
//!        |__   ______| |_|
//!           |_|
//!             0
//! ```
//!
//! Of rectangles that lie otherwise it makes nothing: [`super::segments`] takes them as they are.

use alloc::vec::Vec;

use super::segments::{Edges, from_lowest};
use super::slab::{Attr, Lost, Stretch, corner};
use crate::joint::Corner;
use crate::length::Nm;
use crate::point::Point;

/// A rectangle along a side, as seen on the way.
#[derive(Clone, Copy, Debug)]
struct Notch {
    from: i64,
    to: i64,
    depth: i64,
    into: Attr,
    along: Attr,
    out: Attr,
}

/// A side of the slab, and what is lost along it and in the corner where it starts.
#[derive(Debug, Default)]
struct Side {
    length: i64,
    notches: Vec<Notch>,
    /// How deep the notches go.
    reach: i64,
    corner: Option<Notch>,
}

/// What a slab loses, sorted by where it lies.
#[derive(Debug, Default)]
pub(super) struct Notches {
    size: (i64, i64),
    sides: [Side; 4],
    corners: Vec<Lost>,
    holes: Vec<Lost>,
    /// Something lies otherwise.
    odd: bool,
}

impl Notches {
    /// Forgets the slab before.
    pub fn start(&mut self, size: (i64, i64)) {
        for (side, length) in self.sides.iter_mut().zip([size.0, size.1, size.0, size.1]) {
            side.notches.clear();
            (side.length, side.reach, side.corner) = (length, 0, None);
        }
        self.corners.clear();
        self.holes.clear();
        (self.size, self.odd) = (size, false);
    }

    /// Takes a rectangle away.
    pub fn add(&mut self, lost: Lost) {
        let (width, height) = self.size;
        let Lost { u, v, edges: [left, bottom, right, top] } = lost;
        self.odd |= u.0 < 0 || v.0 < 0 || u.1 > width || v.1 > height || u.0 >= u.1 || v.0 >= v.1;
        let seen = |from, to, depth, into, along, out| Notch { from, to, depth, into, along, out };
        let [a, b, c, d] = &mut self.sides;
        let (side, in_corner, notch) = match [v.0 <= 0, u.1 >= width, v.1 >= height, u.0 <= 0] {
            [false, false, false, false] => return self.holes.push(lost),
            [true, false, false, corner] => (a, corner, seen(u.0, u.1, v.1, left, top, right)),
            [corner, true, false, false] => (b, corner, seen(v.0, v.1, width - u.0, bottom, left, top)),
            [false, corner, true, false] => (c, corner, seen(width - u.1, width - u.0, height - v.0, right, bottom, left)),
            [false, false, corner, true] => (d, corner, seen(height - v.1, height - v.0, u.1, top, right, bottom)),
            _ => return self.odd = true,
        };
        if in_corner {
            self.odd |= side.corner.is_some();
            side.corner = Some(notch);
            self.corners.push(lost);
        } else {
            side.reach = side.reach.max(notch.depth);
            side.notches.push(notch);
        }
    }

    /// Puts the notches in order; and whether all lie in one of those ways and apart, but for those that touch along one side or in a corner.
    pub fn plain(&mut self) -> bool {
        let [.., c, d] = &mut self.sides;
        c.notches.reverse();
        d.notches.reverse();
        for side in &mut self.sides {
            let apart = |notches: &[Notch]| notches.is_sorted_by(|notch, next| notch.to <= next.from);
            if !apart(&side.notches) {
                side.notches.sort_unstable_by_key(|notch| notch.from);
                self.odd |= !apart(&side.notches);
            }
        }
        let [a, b, c, d] = &self.sides;
        let around = [(d, a, b), (a, b, c), (b, c, d), (c, d, a)];
        let [bottom, right, top, left] = around.map(|(_, side, next)| side.deepest(next));
        let (width, height) = self.size;
        let apart = bottom + top < height && left + right < width && around.into_iter().all(|(before, side, _)| side.joins(before));
        let inside = |hole: &Lost| a.reach < hole.v.0 && hole.v.1 < height - c.reach && d.reach < hole.u.0 && hole.u.1 < width - b.reach;
        !self.odd && apart && self.holes.iter().all(|hole| inside(hole) && !self.corners.iter().any(|corner| corner.meets(hole)))
    }

    /// Whether the holes lie apart from each other.
    fn holes_apart(&self) -> bool {
        // Those of one mate stand in a row or a column.
        let mate = |hole: &Lost| hole.edges[0].2;
        let follows = |a: &Lost, b: &Lost| (a.v == b.v && a.u.1 < b.u.0) || (a.u == b.u && a.v.1 < b.v.0);
        let mut rows: Vec<Lost> = Vec::new();
        for row in self.holes.chunk_by(|a, b| mate(a) == mate(b)) {
            let (Some(&first), Some(&last)) = (row.first(), row.last()) else { continue };
            let whole = Lost { u: (first.u.0, last.u.1), v: (first.v.0, last.v.1), ..first };
            if !row.is_sorted_by(follows) || rows.iter().any(|other| other.meets(&whole)) {
                return false;
            }
            rows.push(whole);
        }
        true
    }

    /// The rings, each from its lowest, then leftmost corner, that around it all first; holes that touch are linked by their edges. The rims are what the slab's own edges touch, each in
    /// the order of its axis; they are turned the way it goes.
    pub fn rings(&self, [p, q, r, s]: &mut [Vec<Stretch>; 4]) -> Vec<Vec<Corner>> {
        let ([a, b, c, d], (width, height)) = (&self.sides, self.size);
        turn(r, width);
        turn(s, height);
        let notches = a.notches.len() + b.notches.len() + c.notches.len() + d.notches.len();
        let mut way = Way { ring: Vec::with_capacity(4 * notches + 16), start: (0, 0), along: (1, 0), closes_straight: false };
        a.walk(d, b, p, &mut way);
        let lowest = way.ring.iter().position(|corner| corner.at.y == Nm::ZERO);
        (way.start, way.along) = ((width, 0), (0, 1));
        b.walk(a, c, q, &mut way);
        (way.start, way.along) = ((width, height), (-1, 0));
        c.walk(b, d, r, &mut way);
        (way.start, way.along) = ((0, height), (0, -1));
        d.walk(c, a, s, &mut way);
        let mut rings = Vec::with_capacity(1 + self.holes.len());
        rings.push(way.closed(lowest));
        if self.holes_apart() {
            rings.extend(self.holes.iter().map(hole));
        } else {
            let mut edges = Edges::default();
            self.holes.iter().for_each(|&hole| edges.lost(hole));
            rings.extend(edges.rings());
        }
        rings
    }
}

/// Stretches seen the other way round.
fn turn(rim: &mut [Stretch], length: i64) {
    rim.reverse();
    rim.iter_mut().for_each(|stretch| (stretch.from, stretch.to) = (length - stretch.to, length - stretch.from));
}

impl Side {
    /// How deep anything goes that is lost along this side.
    fn deepest(&self, next: &Side) -> i64 {
        self.reach.max(self.corner.as_ref().map_or(0, |corner| corner.depth)).max(next.corner.as_ref().map_or(0, |corner| corner.to))
    }

    /// How far a notch ends before the end of the side.
    fn rest(&self, notch: &Notch) -> i64 {
        self.length - notch.to
    }

    /// Whether the notches of this side and of the one before touch nowhere but at the corner, where they are flush with it.
    fn joins(&self, before: &Side) -> bool {
        let fits = self.corner.as_ref().is_none_or(|corner| {
            let here = self.notches.first().is_none_or(|n| n.from > corner.to || (n.from == corner.to && n.depth == corner.depth));
            here && before
                .notches
                .last()
                .map(|n| (before.rest(n), n.depth))
                .is_none_or(|(end, depth)| end > corner.depth || (end, depth) == (corner.depth, corner.to))
        });
        let at_corner = |n: &Notch, p: &Notch| self.corner.as_ref().is_some_and(|corner| n.from == corner.to && before.rest(p) == corner.depth);
        let apart = |n: &Notch, p: &Notch| n.from > p.depth || before.rest(p) > n.depth || at_corner(n, p);
        let near = |n: &Notch| before.notches.iter().rev().take_while(|p| before.rest(p) <= self.reach).all(|p| apart(n, p));
        fits && self.notches.iter().take_while(|n| n.from <= before.reach).all(near)
    }

    /// From where the side before has ended to where the next one starts.
    fn walk(&self, before: &Side, next: &Side, rim: &[Stretch], way: &mut Way) {
        // What is being left, and whether the way goes outwards there already: where the last notch of the side before touches the corner.
        let (mut last, mut outwards) = (self.corner.as_ref(), false);
        if let Some(corner) = last {
            outwards = before.notches.last().is_some_and(|notch| before.rest(notch) == corner.depth);
            if !outwards {
                way.turn(0, corner.depth, corner.along);
            }
        }
        let mut rim = Rim { rest: rim };
        for notch in &self.notches {
            match last {
                Some(before) if before.to == notch.from && before.depth == notch.depth => way.go(notch.from, notch.depth, notch.along, !outwards),
                Some(before) if before.to == notch.from => {
                    way.turn(notch.from, before.depth, if notch.depth > before.depth { notch.into } else { before.out });
                    way.turn(notch.from, notch.depth, notch.along);
                }
                _ => {
                    rim.walk(last, outwards, notch.from, way);
                    way.turn(notch.from, 0, notch.into);
                    way.turn(notch.from, notch.depth, notch.along);
                }
            }
            (last, outwards) = (Some(notch), false);
        }
        let end = self.length - next.corner.as_ref().map_or(0, |corner| corner.depth);
        if next.corner.is_none() || last.is_none_or(|notch| notch.to != end) {
            rim.walk(last, outwards, end, way);
        }
    }
}

/// What is left of the slab's own edge.
struct Rim<'a> {
    rest: &'a [Stretch],
}

impl Rim<'_> {
    /// Out of a notch, and along the edge to where it ends.
    fn walk(&mut self, notch: Option<&Notch>, outwards: bool, end: i64, way: &mut Way) {
        if let Some(notch) = notch {
            way.go(notch.to, notch.depth, notch.out, outwards);
        }
        let (at, mut straight) = (notch.map_or(0, |notch| notch.to), false);
        while let Some((stretch, rest)) = self.rest.split_first()
            && stretch.from < end
        {
            if stretch.to > at {
                way.go(stretch.from.max(at), 0, stretch.attr, straight);
                straight = true;
            }
            if stretch.to > end {
                break;
            }
            self.rest = rest;
        }
    }
}

/// The ring so far.
struct Way {
    ring: Vec<Corner>,
    /// Where the side starts, and which way it leads; its inside is on the left.
    start: (i64, i64),
    along: (i64, i64),
    /// The first corner may stand on a straight line.
    closes_straight: bool,
}

impl Way {
    fn turn(&mut self, along: i64, deep: i64, attr: Attr) {
        let ((x, y), (dx, dy)) = (self.start, self.along);
        self.ring.push(corner(Point::raw(x + dx * along - dy * deep, y + dy * along + dx * deep), attr));
    }

    /// Where the way goes straight on there is a corner only if something else is touched.
    fn go(&mut self, along: i64, deep: i64, attr: Attr, straight: bool) {
        match self.ring.last() {
            Some(last) if straight && touches(last) == attr => {}
            last => {
                self.closes_straight |= straight && last.is_none();
                self.turn(along, deep, attr);
            }
        }
    }

    /// The ring from its lowest, then leftmost corner on: on the way along the bottom that is the first on the slab's own edge, if any is.
    fn closed(mut self, lowest: Option<usize>) -> Vec<Corner> {
        match lowest {
            // Where the first corner goes, the way starts in a corner cube, above the bottom.
            _ if self.closes_straight && self.ring.first().map(touches) == self.ring.last().map(touches) => {
                self.ring.remove(0);
                from_lowest(&mut self.ring);
            }
            Some(lowest) => self.ring.rotate_left(lowest),
            None => from_lowest(&mut self.ring),
        }
        self.ring
    }
}

fn touches(corner: &Corner) -> Attr {
    (corner.role, corner.share, corner.mate)
}

/// A hole, clockwise from its lowest corner.
fn hole(Lost { u, v, edges: [left, bottom, right, top] }: &Lost) -> Vec<Corner> {
    let corners = [(u.0, v.0, *left), (u.0, v.1, *top), (u.1, v.1, *right), (u.1, v.0, *bottom)];
    corners.map(|(x, y, attr)| corner(Point::raw(x, y), attr)).to_vec()
}

#[cfg(test)]
#[path = "walk_tests.rs"]
mod tests;

//! The outline of one panel of a box: four edges and the corners between them, travelled counter-clockwise without heap.

use core::iter::FusedIterator;

use super::fit::{Fit, Vertex};
use super::frame::Frame;
use super::turn::Turn;
use super::zigzag::Zigzag;
use crate::point::Point;

/// A closed outline of one panel; exact-size, fused, no heap. The first vertex is not repeated.
///
/// It is large for a small chip, where [`Outline::walk`] goes along it without a copy. The default has no vertex.
#[derive(Clone, Copy, Debug)]
pub struct Outline {
    sides: Sides,
    way: Way,
}

/// Four edges and the corner after each.
#[derive(Clone, Copy, Debug)]
struct Sides {
    edges: [Option<Zigzag>; 4],
    turns: [Turn; 4],
}

/// How far a walk is.
#[derive(Clone, Copy, Debug)]
struct Way {
    now: Place,
    /// What is left of the edge that we are on.
    zigzag: Option<Zigzag>,
    left: usize,
}

/// A walk along an [`Outline`]; exact-size, fused.
#[derive(Clone, Debug)]
pub struct OutlineWalk<'a> {
    sides: &'a Sides,
    way: Way,
}

/// Where we are on the way around.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Edge(usize),
    /// At the corner after an edge, before a vertex.
    Turn(usize, usize),
}

impl Default for Outline {
    // Apart: it is made in place then.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn default() -> Outline {
        Outline { sides: Sides { edges: [None; 4], turns: [Turn::BLANK; 4] }, way: Way { now: Place::Edge(0), zigzag: None, left: 0 } }
    }
}

impl Outline {
    /// Becomes the outline moved by allowances and half the kerf; `false`, and without a vertex, where an edge has no length left.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn fill(&mut self, frame: &Frame<'_>, fit: Fit, grow: i64) -> bool {
        self.clear();
        if !self.sides.fill(frame, fit, grow) {
            return false;
        }
        let Sides { edges, turns } = &self.sides;
        let [bottom, ..] = edges;
        let flanks: usize = edges.iter().flatten().map(Zigzag::len).sum();
        let left = flanks + turns.iter().map(|turn| turn.vertices().len()).sum::<usize>();
        self.way = Way { now: Place::Edge(0), zigzag: *bottom, left };
        self.way.start(&self.sides);
        true
    }

    /// Takes all vertices away.
    pub(super) fn clear(&mut self) {
        self.way.left = 0;
    }

    /// Goes along it from its first vertex, or from where the outline itself has been followed to.
    pub fn walk(&self) -> OutlineWalk<'_> {
        OutlineWalk { sides: &self.sides, way: self.way }
    }

    /// Twice the enclosed area in square nanometres, by the shoelace formula.
    pub fn twice_area(&self) -> i128 {
        let mut rest = self.walk();
        let Some(first) = rest.next() else { return 0 };
        let cross = |a: Point, b: Point| i128::from(a.x.nm()) * i128::from(b.y.nm()) - i128::from(b.x.nm()) * i128::from(a.y.nm());
        let (sum, last) = rest.fold((0, first.at), |(sum, last), v| (sum + cross(last, v.at), v.at));
        sum + cross(last, first.at)
    }
}

impl Sides {
    /// See [`Outline::fill`].
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn fill(&mut self, frame: &Frame<'_>, fit: Fit, grow: i64) -> bool {
        for (index, (edge, turn)) in self.edges.iter_mut().zip(&mut self.turns).enumerate() {
            *edge = Zigzag::new(frame, index, fit, grow);
            if !turn.fill(frame, index, fit, grow) {
                return false;
            }
        }
        let [.., last] = &self.turns;
        let Some((_, mut from)) = last.ends() else { return false };
        for (index, (edge, turn)) in self.edges.iter().zip(&self.turns).enumerate() {
            if let Some((zigzag, (first, last))) = edge.as_ref().and_then(|zigzag| Some((zigzag, zigzag.ends()?))) {
                if !onwards(index, from, first) || !zigzag.keeps_lengths(frame, index, fit, grow) {
                    return false;
                }
                from = last;
            }
            let Some((entry, exit)) = turn.ends() else { return false };
            if !onwards(index, from, entry) {
                return false;
            }
            from = exit;
        }
        true
    }
}

/// Whether the way from one point of edge `index` to another goes in the direction of travel.
#[cfg_attr(target_pointer_width = "32", inline(never))]
fn onwards(index: usize, from: Point, to: Point) -> bool {
    match index {
        0 => from.x < to.x,
        1 => from.y < to.y,
        2 => from.x > to.x,
        _ => from.y > to.y,
    }
}

impl Way {
    /// Goes to the lowest, then leftmost vertex: at the corner before the bottom edge, at its first two boundaries, or at the corner behind it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn start(&mut self, sides: &Sides) {
        let mut lowest: Option<Point> = None;
        let mut lower = |at: Point| {
            let found = lowest.is_none_or(|lowest| (at.y, at.x) < (lowest.y, lowest.x));
            if found {
                lowest = Some(at);
            }
            found
        };
        let [after, .., before] = &sides.turns;
        for (index, turn) in [(3, before), (0, after)] {
            for (k, vertex) in turn.vertices().iter().enumerate() {
                if lower(vertex.at) {
                    self.now = Place::Turn(index, k);
                }
            }
        }
        let Some(mut along) = self.zigzag else { return };
        for _ in 0..4 {
            let from_here = along;
            let Some(vertex) = along.next() else { return };
            if lower(vertex.at) {
                (self.now, self.zigzag) = (Place::Edge(0), Some(from_here));
            }
        }
    }

    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn next(&mut self, sides: &Sides) -> Option<Vertex> {
        self.left = self.left.checked_sub(1)?;
        loop {
            match self.now {
                Place::Edge(index) => {
                    if let Some(vertex) = self.zigzag.as_mut().and_then(Zigzag::next) {
                        return Some(vertex);
                    }
                    self.now = Place::Turn(index, 0);
                }
                Place::Turn(index, at) => {
                    if let Some(&vertex) = sides.turns.get(index).and_then(|turn| turn.vertices().get(at)) {
                        self.now = Place::Turn(index, at + 1);
                        return Some(vertex);
                    }
                    let next = (index + 1) % 4;
                    self.now = Place::Edge(next);
                    self.zigzag = sides.edges.get(next).copied().flatten();
                }
            }
        }
    }
}

impl Iterator for Outline {
    type Item = Vertex;

    #[inline]
    fn next(&mut self) -> Option<Vertex> {
        self.way.next(&self.sides)
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.way.left, Some(self.way.left))
    }
}

impl ExactSizeIterator for Outline {}
impl FusedIterator for Outline {}

impl Iterator for OutlineWalk<'_> {
    type Item = Vertex;

    #[inline]
    fn next(&mut self) -> Option<Vertex> {
        self.way.next(self.sides)
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.way.left, Some(self.way.left))
    }
}

impl ExactSizeIterator for OutlineWalk<'_> {}
impl FusedIterator for OutlineWalk<'_> {}

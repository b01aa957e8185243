//! The outline of one panel of a box: four edges and the corners between them, travelled counter-clockwise without heap.

use core::iter::FusedIterator;

use super::fit::{Fit, Vertex};
use super::frame::Frame;
use super::turn::Turn;
use super::zigzag::Zigzag;
use crate::point::Point;

/// A closed outline of one panel; exact-size, fused, no heap. The first vertex is not repeated.
#[derive(Clone, Copy, Debug)]
pub struct Outline {
    edges: [Option<Zigzag>; 4],
    /// The corner after each edge.
    turns: [Turn; 4],
    now: Place,
    /// What is left of the edge that we are on.
    zigzag: Option<Zigzag>,
    left: usize,
}

/// Where we are on the way around.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    Edge(usize),
    /// At the corner after an edge, before a vertex.
    Turn(usize, usize),
}

impl Outline {
    /// The outline moved by allowances and half the kerf; `None` where an edge has no length left.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn new(frame: &Frame<'_>, fit: Fit, grow: i64) -> Option<Outline> {
        let turn = |index| Turn::new(frame, index, fit, grow);
        let turns = [turn(0)?, turn(1)?, turn(2)?, turn(3)?];
        let edges = [0, 1, 2, 3].map(|index| Zigzag::new(frame, index, fit, grow));
        let [.., last] = &turns;
        let (_, mut from) = last.ends()?;
        for (index, (zigzag, turn)) in edges.iter().zip(&turns).enumerate() {
            if let Some((zigzag, (first, last))) = zigzag.and_then(|zigzag| Some((zigzag, zigzag.ends()?))) {
                if !onwards(index, from, first) || !zigzag.keeps_lengths(frame, index, fit, grow) {
                    return None;
                }
                from = last;
            }
            let (entry, exit) = turn.ends()?;
            if !onwards(index, from, entry) {
                return None;
            }
            from = exit;
        }
        let [bottom, ..] = edges;
        let flanks: usize = edges.iter().flatten().map(Zigzag::len).sum();
        let left = flanks + turns.iter().map(|turn| turn.vertices().len()).sum::<usize>();
        let mut outline = Outline { edges, turns, now: Place::Edge(0), zigzag: bottom, left };
        outline.start();
        Some(outline)
    }

    /// Goes to the lowest, then leftmost vertex: at the corner before the bottom edge, at its first two boundaries, or at the corner behind it.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn start(&mut self) {
        let mut lowest: Option<Point> = None;
        let mut lower = |at: Point| {
            let found = lowest.is_none_or(|lowest| (at.y, at.x) < (lowest.y, lowest.x));
            if found {
                lowest = Some(at);
            }
            found
        };
        let [after, .., before] = &self.turns;
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

    /// Twice the enclosed area in square nanometres, by the shoelace formula.
    pub fn twice_area(&self) -> i128 {
        let mut rest = *self;
        let Some(first) = rest.next() else { return 0 };
        let cross = |a: Point, b: Point| i128::from(a.x.nm()) * i128::from(b.y.nm()) - i128::from(b.x.nm()) * i128::from(a.y.nm());
        let (sum, last) = rest.fold((0, first.at), |(sum, last), v| (sum + cross(last, v.at), v.at));
        sum + cross(last, first.at)
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

impl Iterator for Outline {
    type Item = Vertex;

    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn next(&mut self) -> Option<Vertex> {
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
                    if let Some(&vertex) = self.turns.get(index).and_then(|turn| turn.vertices().get(at)) {
                        self.now = Place::Turn(index, at + 1);
                        return Some(vertex);
                    }
                    let next = (index + 1) % 4;
                    self.now = Place::Edge(next);
                    self.zigzag = self.edges.get(next).copied().flatten();
                }
            }
        }
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.left, Some(self.left))
    }
}

impl ExactSizeIterator for Outline {}
impl FusedIterator for Outline {}

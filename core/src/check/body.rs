//! A finished outline where its slab stands, ready for questions.

use alloc::vec::Vec;

use super::section::{Step, section};
use crate::assembly::Board;
use crate::edges::{Edges, Event};
use crate::necks;
use crate::overlay::Strips;
use crate::point::{Axis, Point};
use crate::shape::Shape;
use crate::sweep::{self, Thin};

/// One board's solid: its slab, and its outline in assembly coordinates.
#[derive(Clone, Debug)]
pub(super) struct Body<'a> {
    pub board: &'a Board,
    pub shape: &'a Shape,
    /// The same with its openings.
    open: &'a Shape,
    /// Whether any edge runs along neither axis.
    pub leans: bool,
    /// The outline's edges, in assembly coordinates; a stair in place of each slanted one.
    edges: Edges,
    /// The solid's box.
    lo: [i64; 3],
    hi: [i64; 3],
}

impl<'a> Body<'a> {
    pub fn new(board: &'a Board, shape: &'a Shape) -> Body<'a> {
        Body::plugged(board, shape, shape)
    }

    /// The body of an outline whose openings are filled; `open` is the one that has them.
    pub fn plugged(board: &'a Board, shape: &'a Shape, open: &'a Shape) -> Body<'a> {
        let (u, v) = board.normal().plane();
        let (du, dv) = (board.lo(u), board.lo(v));
        let (low, high) = shape.bounds();
        let normal = board.normal();
        let place = |axis: Axis, u_value: i64, v_value: i64, w: i64| match axis {
            _ if axis == normal => w,
            _ if axis == u => u_value + du,
            _ => v_value + dv,
        };
        let lo = Axis::ALL.map(|axis| place(axis, low.x.nm(), low.y.nm(), board.lo(normal)));
        let hi = Axis::ALL.map(|axis| place(axis, high.x.nm(), high.y.nm(), board.hi(normal)));
        let leans = shape.leans();
        let edges = if leans { Edges::of(&shape.stairs(), (du, dv)) } else { Edges::of(shape, (du, dv)) };
        Body { board, shape, open, leans, edges, lo, hi }
    }

    pub fn normal(&self) -> Axis {
        self.board.normal()
    }

    /// Its thickness interval.
    pub fn thick(&self) -> (i64, i64) {
        (self.board.lo(self.normal()), self.board.hi(self.normal()))
    }

    /// The solid's extent along an axis.
    pub fn extent(&self, axis: Axis) -> (i64, i64) {
        let ([x0, y0, z0], [x1, y1, z1]) = (self.lo, self.hi);
        match axis {
            Axis::X => (x0, x1),
            Axis::Y => (y0, y1),
            Axis::Z => (z0, z1),
        }
    }

    /// The ends of the edges along one of its axes.
    pub fn events(&self, along: Axis) -> &[Event] {
        if along == self.normal().plane().0 { &self.edges.level } else { &self.edges.upright }
    }

    /// Its thinnest solid, or where its edges cross, as the panel sees it.
    pub fn thinnest(&self) -> Result<Option<Thin>, Point> {
        if self.leans || self.open.is_bent() || !core::ptr::eq(self.open, self.shape) {
            return necks::thinnest(self.open);
        }
        let (u, v) = self.normal().plane();
        let local = |at: Point| Point::raw(at.x.nm() - self.board.lo(u), at.y.nm() - self.board.lo(v));
        sweep::thinnest(&self.edges).map(|thin| thin.map(|thin| Thin { at: local(thin.at), ..thin })).map_err(local)
    }

    /// The filled width of a band, along one of its axes.
    pub fn section(&self, along: Axis, (lo, hi): (i64, i64), out: &mut Vec<Step>) {
        section(self.events(along), lo, hi, out);
    }

    /// The outline in assembly coordinates, in strips along one of its axes.
    pub fn strips(&self, along: Axis) -> Strips {
        let (u, v) = self.normal().plane();
        let (du, dv) = (self.board.lo(u), self.board.lo(v));
        let place = |p: Point| Point::raw(p.x.nm() + du, p.y.nm() + dv);
        Strips::of(self.shape.edges().map(|(a, b)| (place(a), place(b))), along == v)
    }

    /// Whether the boxes of two solids share volume.
    pub fn near(&self, other: &Body) -> bool {
        Axis::ALL.into_iter().all(|axis| {
            let ((a, b), (c, d)) = (self.extent(axis), other.extent(axis));
            a < d && c < b
        })
    }
}

//! A finished outline where its slab stands, ready for questions.

use alloc::vec::Vec;

use super::section::{Event, Step, section};
use crate::assembly::Board;
use crate::point::Axis;
use crate::shape::Shape;

/// One board's solid: its slab, and its outline in assembly coordinates.
#[derive(Clone, Debug)]
pub(super) struct Body<'a> {
    pub board: &'a Board,
    pub shape: &'a Shape,
    /// The ends of the edges along each of the board's two axes, in order.
    events: [Vec<Event>; 2],
    /// The solid's box.
    lo: [i64; 3],
    hi: [i64; 3],
}

impl<'a> Body<'a> {
    pub fn new(board: &'a Board, shape: &'a Shape) -> Body<'a> {
        let (u, v) = board.normal().plane();
        let (du, dv) = (board.lo(u), board.lo(v));
        let count = shape.vertices().len() + 2;
        let mut events = [Vec::with_capacity(count), Vec::with_capacity(count)];
        let [along_u, along_v] = &mut events;
        for (a, b) in shape.edges() {
            let ((ax, ay), (bx, by)) = ((a.x.nm() + du, a.y.nm() + dv), (b.x.nm() + du, b.y.nm() + dv));
            // Solid lies to the left: above an edge that goes right, left of one that goes up.
            if ay == by {
                push(along_u, ax, bx, ay, if bx > ax { -1 } else { 1 });
            } else {
                push(along_v, ay, by, ax, if by > ay { 1 } else { -1 });
            }
        }
        along_u.sort_unstable();
        along_v.sort_unstable();
        let (low, high) = shape.bounds();
        let normal = board.normal();
        let place = |axis: Axis, u_value: i64, v_value: i64, w: i64| match axis {
            _ if axis == normal => w,
            _ if axis == u => u_value + du,
            _ => v_value + dv,
        };
        let lo = Axis::ALL.map(|axis| place(axis, low.x.nm(), low.y.nm(), board.lo(normal)));
        let hi = Axis::ALL.map(|axis| place(axis, high.x.nm(), high.y.nm(), board.hi(normal)));
        Body { board, shape, events, lo, hi }
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
        let [u, v] = &self.events;
        if along == self.normal().plane().0 { u } else { v }
    }

    /// The filled width of a band, along one of its axes.
    pub fn section(&self, along: Axis, (lo, hi): (i64, i64), out: &mut Vec<Step>) {
        section(self.events(along), lo, hi, out);
    }

    /// Whether the boxes of two solids share volume.
    pub fn near(&self, other: &Body) -> bool {
        Axis::ALL.into_iter().all(|axis| {
            let ((a, b), (c, d)) = (self.extent(axis), other.extent(axis));
            a < d && c < b
        })
    }
}

fn push(list: &mut Vec<Event>, from: i64, to: i64, across: i64, sign: i64) {
    list.push(Event { along: from.min(to), across, sign });
    list.push(Event { along: from.max(to), across, sign: -sign });
}

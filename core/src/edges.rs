//! The edges of an outline along each axis, by their ends in order: what the sweeps and sections go over.

use alloc::vec::Vec;

use crate::point::Point;
use crate::shape::Shape;

/// An end of an edge: one for each vertex and axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Event {
    /// Where along the edge's axis.
    pub along: i64,
    /// The edge's place across it.
    pub across: i64,
    /// What the edge adds from here on, counted upwards across: +1 if solid lies below it, -1 if above; the opposite at its other end.
    pub sign: i8,
    /// The edge's lower end.
    pub start: bool,
    /// Where the void opens, if the solid has an inner corner here.
    pub void: Void,
}

/// The quadrant of the void at an inner corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Void {
    None,
    UpperRight,
    UpperLeft,
    LowerLeft,
    LowerRight,
}

/// The ends of all edges along x and along y, each in order; ends come before starts.
#[derive(Clone, Debug, Default)]
pub(crate) struct Edges {
    pub level: Vec<Event>,
    pub upright: Vec<Event>,
}

impl Edges {
    /// The edges of a rectilinear shape whose origin is put at `x`, `y`. Vertices where the outline goes straight on are passed over.
    pub fn of(shape: &Shape, (x, y): (i64, i64)) -> Edges {
        let count = shape.vertices().len();
        let mut edges = Edges { level: Vec::with_capacity(count), upright: Vec::with_capacity(count) };
        for ring in shape.loops() {
            let before = ring.last().into_iter().chain(ring);
            let after = ring.iter().skip(1).chain(ring.first());
            for ((a, b), c) in before.zip(ring).zip(after) {
                edges.corner(a.at, b.at, c.at, (x, y));
            }
        }
        edges.level = in_order(&edges.level);
        edges.upright = in_order(&edges.upright);
        edges
    }

    /// Adds the two edge ends at `b`, between `a` and `c`.
    #[inline]
    fn corner(&mut self, a: Point, b: Point, c: Point, (x, y): (i64, i64)) {
        let (arrives_level, leaves_level) = (a.y == b.y, b.y == c.y);
        if arrives_level == leaves_level {
            return;
        }
        let (at_x, at_y) = (b.x.nm() + x, b.y.nm() + y);
        // The solid lies to the left of travel.
        if leaves_level {
            let (right, up) = (c.x > b.x, b.y > a.y);
            let void = if right == up { inner(up, !up) } else { Void::None };
            self.level.push(Event { along: at_x, across: at_y, sign: -1, start: right, void });
            self.upright.push(Event { along: at_y, across: at_x, sign: -1, start: !up, void });
        } else {
            let (right, up) = (b.x > a.x, c.y > b.y);
            let void = if right != up { inner(up, up) } else { Void::None };
            self.level.push(Event { along: at_x, across: at_y, sign: 1, start: !right, void });
            self.upright.push(Event { along: at_y, across: at_x, sign: 1, start: up, void });
        }
    }
}

fn inner(right: bool, up: bool) -> Void {
    match (right, up) {
        (true, true) => Void::UpperRight,
        (false, true) => Void::UpperLeft,
        (false, false) => Void::LowerLeft,
        (true, false) => Void::LowerRight,
    }
}

/// The events by their way along, ends before starts. Sorting small keys and looking the events up is the faster way.
fn in_order(events: &[Event]) -> Vec<Event> {
    // A way along takes 37 bits with its sign and the start flag, so there is room for the index.
    const INDEX: u32 = 26;
    let place = |event: &Event| 2 * event.along + i64::from(event.start);
    if events.len() >= 1 << INDEX {
        let mut sorted = events.to_vec();
        sorted.sort_by_key(place);
        return sorted;
    }
    let mut keys: Vec<i64> = events.iter().zip(0..).map(|(event, index)| (place(event) << INDEX) | index).collect();
    keys.sort_unstable();
    let mut sorted = Vec::with_capacity(events.len());
    sorted.extend(keys.into_iter().filter_map(|key| events.get((key & ((1 << INDEX) - 1)) as usize)).copied());
    sorted
}

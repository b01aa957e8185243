//! Outlines as plain numbers, so that a difference can be read.

use dryfit_core::{Board, Outline, Panel, Shape, Vertex};
use serde_json::Value;

/// Loops of points in nanometres.
pub type Loops = Vec<Vec<[i64; 2]>>;

fn point(vertex: &Vertex) -> [i64; 2] {
    [vertex.at.x.nm(), vertex.at.y.nm()]
}

/// The loops of a shape.
pub fn shape_loops(shape: &Shape) -> Loops {
    shape.loops().map(|ring| ring.iter().map(point).collect()).collect()
}

/// The points of an outline without heap.
pub fn outline_points(outline: Outline) -> Vec<[i64; 2]> {
    outline.map(|vertex| point(&vertex)).collect()
}

/// Twice the area of each panel, in square nanometres.
pub fn areas_doubled(panels: &[Panel]) -> Vec<i128> {
    panels.iter().map(|panel| panel.shape().twice_area()).collect()
}

/// Whether the sheet cut to this outline has a point of the assembly, given in doubled coordinates and never on an edge: even-odd rule.
pub fn inside(board: &Board, shape: &Shape, point: [i64; 3]) -> bool {
    let normal = board.normal();
    let (u, v) = normal.plane();
    let (x, y) = (point[u.index()] - 2 * board.lo(u), point[v.index()] - 2 * board.lo(v));
    let crossed = || {
        shape.edges().filter(|(a, b)| {
            let (ya, yb) = (2 * a.y.nm(), 2 * b.y.nm());
            a.x == b.x && 2 * a.x.nm() > x && (ya > y) != (yb > y)
        })
    };
    let w = point[normal.index()];
    2 * board.lo(normal) < w && w < 2 * board.hi(normal) && crossed().count() % 2 == 1
}

/// Loops from a vector file.
impl crate::Case {
    /// A list of loops of points under a key.
    pub fn loops(&self, key: &str) -> Loops {
        self.list(key).iter().map(|ring| points(&ring.0)).collect()
    }

    /// One loop of points under a key.
    pub fn points(&self, key: &str) -> Vec<[i64; 2]> {
        points(self.get(key))
    }
}

fn points(ring: &Value) -> Vec<[i64; 2]> {
    let pair = |value: &Value| match value.as_array().map(Vec::as_slice) {
        Some([x, y]) => [x.as_i64().expect("a whole number"), y.as_i64().expect("a whole number")],
        _ => panic!("a point is two numbers, not {value}"),
    };
    ring.as_array().expect("a loop is a list").iter().map(pair).collect()
}

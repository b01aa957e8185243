//! Finished outlines: the loops of one flat piece.

use alloc::vec::Vec;

use crate::joint::{Role, Vertex};
use crate::length::Nm;
use crate::point::Point;

/// The outline of one flat piece: outer loops first (counter-clockwise), then holes (clockwise).
///
/// Each loop starts at its lowest, then leftmost vertex and does not repeat it.
///
/// ```
/// use dryfit_core::{Nm, Point, Shape};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let plate = [at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 40.0)?, at(0.0, 40.0)?];
/// let slot = [at(10.0, 10.0)?, at(10.0, 13.0)?, at(30.0, 13.0)?, at(30.0, 10.0)?]; // clockwise: a hole
/// let shape = Shape::from_loops([plate, slot]);
/// assert_eq!(shape.area_mm2(), 60.0 * 40.0 - 20.0 * 3.0);
/// assert_eq!(shape.length(), 2 * (60 + 40 + 20 + 3) * 1_000_000);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Shape {
    vertices: Vec<Vertex>,
    /// Where each loop ends in `vertices`.
    ends: Vec<usize>,
}

impl Shape {
    /// A shape from loops of points, for outlines that come from elsewhere. The loops are taken as they are.
    pub fn from_loops<L: IntoIterator<Item = Point>>(loops: impl IntoIterator<Item = L>) -> Shape {
        let mut shape = Shape::default();
        for points in loops {
            shape.push(points.into_iter().map(|at| Vertex { at, role: Role::Free }));
        }
        shape
    }

    pub(crate) fn with_capacity(vertices: usize, loops: usize) -> Shape {
        Shape { vertices: Vec::with_capacity(vertices), ends: Vec::with_capacity(loops) }
    }

    /// Adds a loop, turned so that it starts at its lowest, then leftmost vertex.
    pub(crate) fn push(&mut self, vertices: impl IntoIterator<Item = Vertex>) {
        let start = self.vertices.len();
        self.vertices.extend(vertices);
        if let Some(ring) = self.vertices.get_mut(start..) {
            let lowest = (0..ring.len()).min_by_key(|&i| ring.get(i).map(|v| (v.at.y, v.at.x))).unwrap_or(0);
            ring.rotate_left(lowest);
        }
        self.ends.push(self.vertices.len());
    }

    /// Puts the loops in their order: outer loops, then holes, each by their first vertex (y, then x).
    pub(crate) fn sort_loops(&mut self) {
        if self.ends.len() < 2 {
            return;
        }
        let mut rings: Vec<Vec<Vertex>> = self.loops().map(<[Vertex]>::to_vec).collect();
        rings.sort_by_key(|ring| (is_hole(ring), ring.first().map(|v| (v.at.y, v.at.x))));
        self.vertices.clear();
        self.ends.clear();
        for ring in rings {
            self.vertices.extend(ring);
            self.ends.push(self.vertices.len());
        }
    }

    /// The loops.
    pub fn loops(&self) -> impl ExactSizeIterator<Item = &[Vertex]> + Clone {
        let mut start = 0;
        self.ends.iter().map(move |&end| {
            let ring = self.vertices.get(start..end).unwrap_or(&[]);
            start = end;
            ring
        })
    }

    /// All vertices, loop after loop.
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// Every edge of every loop, from point to point.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> {
        self.loops().flat_map(|ring| {
            let next = ring.iter().skip(1).chain(ring.first());
            ring.iter().zip(next).map(|(a, b)| (a.at, b.at))
        })
    }

    /// Whether any edge runs along neither axis.
    pub(crate) fn leans(&self) -> bool {
        self.edges().any(|(a, b)| a.x != b.x && a.y != b.y)
    }

    /// The least outline along both axes around the shape that has its corners: each slanted edge becomes a stair of one step.
    pub(crate) fn stairs(&self) -> Shape {
        let mut stairs = Shape::with_capacity(2 * self.vertices.len(), self.ends.len());
        for ring in self.loops() {
            let next = ring.iter().skip(1).chain(ring.first());
            let step = |(a, b): (&Vertex, &Vertex)| {
                let corner = [Point::new(b.at.x, a.at.y), Point::new(a.at.x, b.at.y)].into_iter().find(|&c| cross(a.at, b.at, c) < 0);
                [Some(*a), corner.map(|at| Vertex { at, ..*a })]
            };
            stairs.push(ring.iter().zip(next).flat_map(step).flatten());
        }
        stairs
    }

    /// Twice the area in square nanometres (shoelace formula); holes count against it.
    pub fn twice_area(&self) -> i128 {
        self.edges().map(|(a, b)| twice_cross(a, b)).sum()
    }

    /// The area in square millimetres.
    pub fn area_mm2(&self) -> f64 {
        self.twice_area() as f64 / 2e12
    }

    /// Lowest and highest corner of the bounding rectangle.
    pub fn bounds(&self) -> (Point, Point) {
        let fold = |f: fn(i64, i64) -> i64, start| self.vertices.iter().fold((start, start), |(x, y), v| (f(x, v.at.x.nm()), f(y, v.at.y.nm())));
        if self.vertices.is_empty() {
            return (Point::default(), Point::default());
        }
        let ((x0, y0), (x1, y1)) = (fold(i64::min, i64::MAX), fold(i64::max, i64::MIN));
        (Point::raw(x0, y0), Point::raw(x1, y1))
    }

    /// The sum of all edges' lengths in nanometres, each rounded.
    pub fn length(&self) -> i64 {
        self.edges().map(|(a, b)| distance(a, b)).fold(0, i64::saturating_add)
    }
}

/// Twice the area of the triangle origin, a, b.
pub(crate) fn twice_cross(a: Point, b: Point) -> i128 {
    i128::from(a.x.nm()) * i128::from(b.y.nm()) - i128::from(b.x.nm()) * i128::from(a.y.nm())
}

/// Twice the area of the triangle a, b, c: positive if the way turns left at b.
pub(crate) fn cross(a: Point, b: Point, c: Point) -> i128 {
    let way = |from: Point, to: Point| (i128::from(to.x.nm()) - i128::from(from.x.nm()), i128::from(to.y.nm()) - i128::from(from.y.nm()));
    let ((ux, uy), (vx, vy)) = (way(a, b), way(b, c));
    ux * vy - uy * vx
}

/// The distance of two points, rounded down to the nanometre.
pub(crate) fn distance(a: Point, b: Point) -> i64 {
    let (dx, dy) = ((b.x - a.x).nm(), (b.y - a.y).nm());
    if dx == 0 || dy == 0 {
        return dx.abs() + dy.abs();
    }
    (i128::from(dx) * i128::from(dx) + i128::from(dy) * i128::from(dy)).isqrt() as i64
}

/// Whether a loop encloses a hole: its area is negative.
pub(crate) fn is_hole(ring: &[Vertex]) -> bool {
    let next = ring.iter().skip(1).chain(ring.first());
    ring.iter().zip(next).map(|(a, b)| twice_cross(a.at, b.at)).sum::<i128>() < 0
}

/// Points as text for messages: `(12.5, 0) mm`.
pub(crate) fn place(at: Point) -> alloc::string::String {
    use alloc::string::ToString;
    let bare = |nm: Nm| nm.to_string().trim_end_matches(" mm").to_string();
    alloc::format!("({}, {}) mm", bare(at.x), bare(at.y))
}

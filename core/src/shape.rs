//! Finished outlines: the loops of one flat piece.

use alloc::vec::Vec;

use crate::arc::Arc;
use crate::joint::{Corner, Role, Vertex};
use crate::length::Nm;
use crate::plane::{distance, turns, twice_cross};
use crate::point::Point;

/// The outline of one flat piece: outer loops first (counter-clockwise), then holes (clockwise).
///
/// Each loop starts at its lowest, then leftmost vertex and does not repeat it. Edges are straight but for those that are an [`Arc`]:
/// arcs bulge into the solid, so the straight chords alone bound a solid that contains it.
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
    /// The edges that are arcs, in the order of the vertices.
    bends: Vec<Bend>,
}

/// That the edge that leaves a vertex is an arc.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
struct Bend {
    /// The vertex' place among all.
    vertex: usize,
    centre: Point,
}

/// One loop of a shape.
#[derive(Clone, Copy, Debug)]
pub struct Ring<'a> {
    vertices: &'a [Vertex],
    bends: &'a [Bend],
    /// The place of its first vertex among all.
    first: usize,
}

impl<'a> Ring<'a> {
    /// Its vertices.
    pub const fn vertices(&self) -> &'a [Vertex] {
        self.vertices
    }

    /// Its vertices, each with the centre of the arc that leaves it; none where a straight edge does.
    pub fn bent(&self) -> impl Iterator<Item = (Vertex, Option<Point>)> + Clone + use<'a> {
        let (mut bends, first) = (self.bends.iter().peekable(), self.first);
        self.vertices.iter().zip(first..).map(move |(vertex, place)| (*vertex, bends.next_if(|bend| bend.vertex == place).map(|bend| bend.centre)))
    }

    /// Its arcs, each with the place of its first vertex in the loop.
    pub fn arcs(&self) -> impl Iterator<Item = (usize, Arc)> + use<'a> {
        let (vertices, first) = (self.vertices, self.first);
        self.bends.iter().filter_map(move |bend| {
            let index = bend.vertex - first;
            let (from, to) = (vertices.get(index)?, vertices.get(index + 1).or(vertices.first())?);
            Some((index, Arc { from: from.at, to: to.at, centre: bend.centre }))
        })
    }

    /// Whether it encloses a hole.
    pub fn is_hole(&self) -> bool {
        is_hole(self.vertices)
    }
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

    /// The same from points that each have the centre of the arc that leaves them, if the edge is no straight one.
    ///
    /// ```
    /// use dryfit_core::{Nm, Point, Shape};
    /// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
    /// let plate = [p(0.0, 0.0)?, p(60.0, 0.0)?, p(60.0, 40.0)?, p(0.0, 40.0)?].map(|at| (at, None));
    /// // A slot 20 mm long from centre to centre and 6 mm wide, its ends round; clockwise, as holes run.
    /// let (left, right) = (Some(p(20.0, 20.0)?), Some(p(40.0, 20.0)?));
    /// let slot = [(p(20.0, 17.0)?, left), (p(20.0, 23.0)?, None), (p(40.0, 23.0)?, right), (p(40.0, 17.0)?, None)];
    /// let area = Shape::from_bent_loops([plate, slot]).area_mm2();
    /// assert!((area - (60.0 * 40.0 - 20.0 * 6.0 - 9.0 * core::f64::consts::PI)).abs() < 1e-9);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn from_bent_loops<L: IntoIterator<Item = (Point, Option<Point>)>>(loops: impl IntoIterator<Item = L>) -> Shape {
        let mut shape = Shape::default();
        for points in loops {
            shape.push_bent(points.into_iter().map(|(at, centre)| (Vertex { at, role: Role::Free }, centre)));
        }
        shape
    }

    pub(crate) fn with_capacity(vertices: usize, loops: usize) -> Shape {
        Shape { vertices: Vec::with_capacity(vertices), ends: Vec::with_capacity(loops), bends: Vec::new() }
    }

    /// Adds a loop, turned so that it starts at its lowest, then leftmost vertex.
    pub(crate) fn push(&mut self, vertices: impl IntoIterator<Item = Vertex>) {
        let start = self.vertices.len();
        self.vertices.extend(vertices);
        self.close(start);
    }

    /// The same of the corners at which a ring turns.
    pub(crate) fn push_turns(&mut self, ring: &[Corner]) {
        let (Some((first, rest)), Some(last)) = (ring.split_first(), ring.last()) else { return };
        let start = self.vertices.len();
        let (mut before, mut here) = (last.at, *first);
        let mut step = |after: &Corner| {
            if turns(before, here.at, after.at) {
                self.vertices.push(Vertex { at: here.at, role: here.role });
            }
            (before, here) = (here.at, *after);
        };
        rest.iter().for_each(&mut step);
        step(first);
        self.close(start);
    }

    /// What was added since is a loop.
    fn close(&mut self, start: usize) {
        if let Some(ring) = self.vertices.get_mut(start..) {
            ring.rotate_left(lowest(ring));
        }
        self.ends.push(self.vertices.len());
    }

    /// The same of vertices that each have the centre of the arc that leaves them, if it is one.
    pub(crate) fn push_bent(&mut self, vertices: impl IntoIterator<Item = (Vertex, Option<Point>)>) {
        let start = self.vertices.len();
        let (ring, centres): (Vec<Vertex>, Vec<Option<Point>>) = vertices.into_iter().unzip();
        let first = lowest(&ring);
        let turned = centres.iter().skip(first).chain(centres.iter().take(first));
        self.bends.extend(turned.zip(start..).filter_map(|(centre, vertex)| centre.map(|centre| Bend { vertex, centre })));
        self.push(ring);
    }

    /// Adds a loop of another shape.
    pub(crate) fn push_ring(&mut self, ring: Ring) {
        let start = self.vertices.len();
        self.vertices.extend_from_slice(ring.vertices);
        self.ends.push(self.vertices.len());
        self.bends.extend(ring.bends.iter().map(|bend| Bend { vertex: bend.vertex - ring.first + start, ..*bend }));
    }

    /// Puts the loops in their order: outer loops, then holes, each by their first vertex (y, then x).
    pub(crate) fn sort_loops(&mut self) {
        if self.ends.len() < 2 {
            return;
        }
        let mut rings: Vec<Ring> = self.rings().collect();
        rings.sort_by_key(|ring| (ring.is_hole(), ring.vertices.first().map(|v| (v.at.y, v.at.x))));
        let mut sorted = Shape::with_capacity(self.vertices.len(), self.ends.len());
        for ring in rings {
            sorted.push_ring(ring);
        }
        *self = sorted;
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

    /// The loops with their arcs.
    pub fn rings(&self) -> impl ExactSizeIterator<Item = Ring<'_>> + Clone {
        let (mut first, mut bends) = (0, self.bends.as_slice());
        self.ends.iter().map(move |&end| {
            let (own, rest) = bends.split_at(bends.partition_point(|bend| bend.vertex < end));
            let ring = Ring { vertices: self.vertices.get(first..end).unwrap_or(&[]), bends: own, first };
            (first, bends) = (end, rest);
            ring
        })
    }

    /// All arcs.
    pub fn arcs(&self) -> impl Iterator<Item = Arc> {
        self.rings().flat_map(|ring| ring.arcs()).map(|(_, arc)| arc)
    }

    /// Whether any edge is an arc.
    pub fn is_bent(&self) -> bool {
        !self.bends.is_empty()
    }

    /// All vertices, loop after loop.
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// Every edge of every loop, from point to point; of an arc the chord.
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

    /// Twice the area in square nanometres (shoelace formula, less the circular segments beyond the chords, each rounded); holes count
    /// against it.
    pub fn twice_area(&self) -> i128 {
        self.edges().map(|(a, b)| twice_cross(a, b)).sum::<i128>() - self.twice_segments()
    }

    /// Twice the area that its arcs take beyond their chords.
    pub(crate) fn twice_segments(&self) -> i128 {
        self.arcs().map(|arc| arc.twice_segment()).sum()
    }

    /// The area in square millimetres.
    pub fn area_mm2(&self) -> f64 {
        self.twice_area() as f64 / 2e12
    }

    /// Lowest and highest corner of the bounding rectangle. Arcs bulge inwards, so the vertices reach farthest.
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
        let straight = self.edges().map(|(a, b)| distance(a, b)).fold(0, i64::saturating_add);
        self.arcs().map(|arc| arc.length() - distance(arc.from, arc.to)).fold(straight, i64::saturating_add)
    }
}

/// The place of the lowest, then leftmost vertex of a loop.
fn lowest(ring: &[Vertex]) -> usize {
    lowest_of(ring.iter().map(|vertex| vertex.at))
}

/// The place of the lowest, then leftmost of some points; the first of equal ones.
pub(crate) fn lowest_of(points: impl Iterator<Item = Point>) -> usize {
    let mut lowest = (0, i64::MAX, i64::MAX);
    for (index, at) in points.enumerate() {
        let (x, y) = (at.x.nm(), at.y.nm());
        if y < lowest.1 || (y == lowest.1 && x < lowest.2) {
            lowest = (index, y, x);
        }
    }
    lowest.0
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

//! Where one part lies on a sheet.

use alloc::vec::Vec;

use crate::joint::Vertex;
use crate::length::Nm;
use crate::point::Point;
use crate::shape::Shape;

/// Where a part lies: mirrored if so, then turned, then moved so that its bounding box begins at `at`. Exact: whole nanometres.
///
/// ```
/// use dryfit_core::{Nm, Placement, Point, Shape};
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::new(x)?, Nm::new(y)?));
/// let wide = Shape::from_loops([[p(0, 0)?, p(30, 0)?, p(30, 10)?, p(0, 10)?]]);
/// let placed = Placement { part: 0, at: p(5, 7)?, quarter_turns: 1, flipped: false }.place(&wide);
/// assert_eq!(placed.bounds(), (p(5, 7)?, p(15, 37)?));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Placement {
    /// The part's number in the list that was laid out.
    pub part: usize,
    /// Lowest corner of the placed part's bounding box, from the sheet's lower left corner: x right, y up.
    pub at: Point,
    /// Quarter turns counter-clockwise; 4 are none.
    pub quarter_turns: u8,
    /// Mirrored in x (left to right) before it is turned.
    pub flipped: bool,
}

impl Placement {
    /// The shape where it lies on the sheet. Outer loops stay counter-clockwise and holes clockwise, mirrored or not; every edge keeps its role,
    /// and arcs stay arcs.
    #[must_use]
    pub fn place(&self, shape: &Shape) -> Shape {
        self.place_along(shape, shape)
    }

    /// Another outline of the part, such as what comes off the cutter, where `place` puts its path: both in the part's own coordinates.
    #[must_use]
    pub fn place_along(&self, path: &Shape, shape: &Shape) -> Shape {
        let (a, b) = path.bounds();
        let (p, q) = (self.turn(a), self.turn(b));
        let (dx, dy) = (self.at.x - p.x.min(q.x), self.at.y - p.y.min(q.y));
        let land = |p: Point| Point::new(p.x + dx, p.y + dy);
        let mut placed = Shape::with_capacity(shape.vertices().len(), shape.loops().len());
        for ring in shape.rings() {
            let moved: Vec<_> =
                ring.bent().map(|(v, centre)| (Vertex { at: land(self.turn(v.at)), ..v }, centre.map(|c| land(self.turn(c))))).collect();
            if self.flipped {
                // Backwards, an edge leaves from its other end: role and arc move to that vertex.
                let leaving = moved.iter().rev().skip(1).chain(moved.last());
                placed.push_bent(moved.iter().rev().zip(leaving).map(|((v, _), (edge, centre))| (Vertex { at: v.at, ..*edge }, *centre)));
            } else {
                placed.push_bent(moved);
            }
        }
        placed
    }

    /// Width and height of the placed part.
    pub fn size(&self, shape: &Shape) -> [Nm; 2] {
        let (lo, hi) = shape.bounds();
        let (width, height) = (hi.x - lo.x, hi.y - lo.y);
        if self.quarter_turns.is_multiple_of(2) { [width, height] } else { [height, width] }
    }

    /// Mirrors and turns about the origin.
    fn turn(&self, p: Point) -> Point {
        let x = if self.flipped { -p.x } else { p.x };
        match self.quarter_turns % 4 {
            0 => Point::new(x, p.y),
            1 => Point::new(-p.y, x),
            2 => Point::new(-x, -p.y),
            _ => Point::new(p.y, -x),
        }
    }
}

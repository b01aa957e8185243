//! A shape's solids, one by one: each outer loop with the holes inside it.

use alloc::vec::Vec;

use crate::joint::Vertex;
use crate::shape::{Ring, Shape};

impl Shape {
    /// The solids that the shape consists of, in the order of their outer loops; one for a panel that stays in one piece.
    ///
    /// A hole goes to the smallest outer loop around it.
    ///
    /// ```
    /// use dryfit_core::{Nm, Point, Shape};
    /// let square = |from, to| {
    ///     let p = |x, y| Point::new(Nm::new(x).unwrap(), Nm::new(y).unwrap());
    ///     [p(from, from), p(to, from), p(to, to), p(from, to)]
    /// };
    /// let mut hole = square(70, 80);
    /// hole.reverse();
    /// let islands = Shape::from_loops([square(0, 50), square(60, 90), hole]).islands();
    /// assert_eq!(islands.iter().map(|island| island.loops().len()).collect::<Vec<_>>(), [1, 2]);
    /// ```
    pub fn islands(&self) -> Vec<Shape> {
        let (holes, outers): (Vec<_>, Vec<_>) = self.rings().partition(Ring::is_hole);
        let mut islands: Vec<Shape> = outers.iter().map(|ring| island(*ring)).collect();
        let areas: Vec<i128> = islands.iter().map(Shape::twice_area).collect();
        for hole in holes {
            let around = outers.iter().zip(&areas).enumerate().filter(|(_, (outer, _))| surrounds(outer.vertices(), hole.vertices()));
            let smallest = around.min_by_key(|(_, (_, area))| **area).map(|(index, _)| index);
            if let Some(island) = smallest.and_then(|index| islands.get_mut(index)) {
                island.push_ring(hole);
            }
        }
        islands
    }
}

fn island(ring: Ring) -> Shape {
    let mut shape = Shape::with_capacity(ring.vertices().len(), 1);
    shape.push_ring(ring);
    shape
}

/// Whether the hole lies inside the outer loop: a ray to the right from half a nanometre beyond the hole's lowest corner, where no vertex
/// can be, crosses an odd number of edges.
fn surrounds(outer: &[Vertex], hole: &[Vertex]) -> bool {
    let Some(corner) = hole.iter().min_by_key(|v| (v.at.y, v.at.x)) else { return false };
    let twice = |v: &Vertex| (2 * i128::from(v.at.x.nm()), 2 * i128::from(v.at.y.nm()));
    let (px, py) = (2 * i128::from(corner.at.x.nm()) + 1, 2 * i128::from(corner.at.y.nm()) + 1);
    let next = outer.iter().skip(1).chain(outer.first());
    let crossed = outer.iter().zip(next).filter(|(a, b)| {
        let ((ax, ay), (bx, by)) = (twice(a), twice(b));
        (ay > py) != (by > py) && ((bx - ax) * (py - ay) - (px - ax) * (by - ay) > 0) == (by > ay)
    });
    crossed.count() % 2 == 1
}

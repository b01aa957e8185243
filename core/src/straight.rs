//! Outlines with simpler edges that stand for a shape: chords for arcs, stairs for slants.

use alloc::vec::Vec;

use crate::arc::Arc;
use crate::joint::Vertex;
use crate::length::Nm;
use crate::plane::cross;
use crate::point::Point;
use crate::shape::Shape;

impl Shape {
    /// The shape with points in place of each arc, so many that no chord is farther from its arc than `tolerance`. The points lie on the
    /// arcs, so the solid is a little larger than the true one, by less than `tolerance` along each arc.
    ///
    /// ```
    /// use dryfit_core::{Nm, Point, Shape};
    /// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
    /// let middle = Some(p(0.0, 0.0)?);
    /// let hole = [(p(0.0, -3.0)?, middle), (p(-3.0, 0.0)?, middle), (p(0.0, 3.0)?, middle), (p(3.0, 0.0)?, middle)];
    /// let hole = Shape::from_bent_loops([hole]);
    /// let flat = hole.flattened(Nm::parse("1 um")?);
    /// assert!(flat.vertices().len() > 100 && (flat.area_mm2() - hole.area_mm2()).abs() < 0.02);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    #[must_use]
    pub fn flattened(&self, tolerance: Nm) -> Shape {
        self.with_arcs_as(|arc| arc.points(tolerance))
    }

    /// An outline inside the shape's with straight edges only: each arc becomes three sides of the rectangle that holds it.
    pub(crate) fn envelope(&self) -> Shape {
        self.with_arcs_as(|arc| arc.frame())
    }

    fn with_arcs_as<P: IntoIterator<Item = Point>>(&self, points: impl Fn(Arc) -> P) -> Shape {
        let mut shape = Shape::with_capacity(self.vertices().len(), self.loops().len());
        for ring in self.rings() {
            let mut arcs = ring.arcs().peekable();
            let mut vertices = Vec::with_capacity(ring.vertices().len());
            for (index, &vertex) in ring.vertices().iter().enumerate() {
                vertices.push(vertex);
                if let Some((_, arc)) = arcs.next_if(|&(at, _)| at == index) {
                    vertices.extend(points(arc).into_iter().map(|at| Vertex { at, ..vertex }));
                }
            }
            shape.push(vertices);
        }
        shape
    }

    /// The least outline along both axes around the shape that has its corners: each slanted edge becomes a stair of one step.
    pub(crate) fn stairs(&self) -> Shape {
        let mut stairs = Shape::with_capacity(2 * self.vertices().len(), self.loops().len());
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
}

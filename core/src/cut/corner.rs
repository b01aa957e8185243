//! The corners of an outline, and which of them a round tool does not reach though a mate must.

use crate::joint::Role;
use crate::plane::cross;
use crate::point::Point;
use crate::shape::{Ring, Shape};

/// A corner and the edges at it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sides {
    pub before: Point,
    pub at: Point,
    pub after: Point,
    pub arrives: Role,
    pub leaves: Role,
    /// Either edge is an arc.
    bent: bool,
}

impl Sides {
    /// An inner corner that a mate must fill and a round tool does not reach.
    pub fn inner(&self) -> bool {
        !self.bent && self.arrives != Role::Free && self.leaves != Role::Free && cross(self.before, self.at, self.after) < 0
    }
}

/// The corners of a loop.
pub(super) fn corners(ring: Ring<'_>) -> impl Iterator<Item = Sides> + use<'_> {
    let count = ring.vertices().len();
    let before = ring.bent().cycle().skip(count.saturating_sub(1));
    let after = ring.bent().cycle().skip(1);
    before.zip(ring.bent()).zip(after).take(count).map(|(((a, arc), (b, next_arc)), (c, _))| Sides {
        before: a.at,
        at: b.at,
        after: c.at,
        arrives: a.role,
        leaves: b.role,
        bent: arc.is_some() || next_arc.is_some(),
    })
}

/// The first inner corner that a mate must fill and that has no relief.
pub(crate) fn unrelieved(shape: &Shape) -> Option<Point> {
    shape.rings().find_map(|ring| corners(ring).find(Sides::inner).map(|corner| corner.at))
}

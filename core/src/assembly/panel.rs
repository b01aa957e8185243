//! A panel: what is left of a slab.

use alloc::vec::Vec;

use super::board::Board;
use crate::joint::{Corner, Vertex};
use crate::shape::{Shape, cross};

/// One flat piece of an assembly, nominal: the outline, and what each edge of it touches. Made by [`super::Assembly::panels`].
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, Role};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(100.0)?, mm(80.0)?, mm(60.0)?], mm(3.0)?).assembly()?.panels()?;
/// let (front, base) = (&panels[0], 4);
/// let corner = front.rings()[0][0];
/// assert_eq!((corner.at.x, corner.at.y), (Nm::ZERO, Nm::ZERO));
/// // Its lowest edge is the end of a finger that goes through the base.
/// assert_eq!((corner.role, corner.mate()), (Role::Tip, Some(base)));
/// assert_eq!(front.shape().loops().len(), 1);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Panel {
    board: Board,
    rings: Vec<Vec<Corner>>,
    shape: Shape,
}

impl Panel {
    pub(super) fn new(board: Board, mut rings: Vec<Vec<Corner>>) -> Panel {
        // At their lowest corner outer loops turn left, holes right.
        let key = |ring: &Vec<Corner>| {
            let hole = matches!(ring.as_slice(), [first, second, .., last] if cross(last.at, first.at, second.at) < 0);
            (hole, ring.first().map(|c| (c.at.y, c.at.x)))
        };
        rings.sort_by_key(key);
        let shape = plain(&rings);
        Panel { board, rings, shape }
    }

    /// The slab it is cut from.
    pub const fn board(&self) -> &Board {
        &self.board
    }

    /// The board's name.
    pub fn name(&self) -> &str {
        self.board.name()
    }

    /// The outline with roles: a corner stands wherever the direction or the role changes. Outer loops first.
    pub fn rings(&self) -> &[Vec<Corner>] {
        &self.rings
    }

    /// The plain nominal outline, measured from the slab's lowest corner.
    pub const fn shape(&self) -> &Shape {
        &self.shape
    }
}

/// Rings without the corners where only the role changes and the outline goes straight on.
fn plain(rings: &[Vec<Corner>]) -> Shape {
    let mut shape = Shape::with_capacity(rings.iter().map(Vec::len).sum(), rings.len());
    for ring in rings {
        let before = ring.last().into_iter().chain(ring);
        let after = ring.iter().skip(1).chain(ring.first());
        let turns = before.zip(ring).zip(after).filter(|((a, b), c)| cross(a.at, b.at, c.at) != 0);
        shape.push(turns.map(|((_, b), _)| Vertex { at: b.at, role: b.role }));
    }
    shape
}

//! A panel: what is left of a slab.

use alloc::format;
use alloc::vec::Vec;

use super::board::Board;
use super::opening::Opening;
use crate::error::{Code, Error, Failure};
use crate::joint::{Corner, RIGHT, Role, Share};
use crate::plane::cross;
use crate::point::Point;
use crate::round::half;
use crate::shape::{Shape, place};
use crate::within::solid;

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
        if rings.len() > 1 {
            rings.sort_by_key(key);
        }
        let shape = plain(&rings);
        Panel { board, rings, shape }
    }

    /// The panel with the openings that its board is meant to have.
    pub(super) fn opened(mut self) -> Result<Panel, Failure> {
        for opening in self.board.openings() {
            let refused = || {
                let place = format!("panel \"{}\" near {}", self.board.name(), place(opening.place()));
                Failure::at(Error::bare(Code::OpeningMisplaced, "opening"), place)
            };
            let middle = |(lo, hi): (Point, Point)| Point::raw(half(lo.x.nm() + hi.x.nm()), half(lo.y.nm() + hi.y.nm()));
            if !opening.rectangles().into_iter().all(|both| solid(&self.shape, both.0, both.1, middle(both))) {
                return Err(refused());
            }
            if let Some(hole) = opening.closed() {
                hole.rings().for_each(|ring| self.shape.push_ring(ring));
            } else if let Some(([from, to], inner)) = opening.open() {
                if !self.rings.iter_mut().any(|ring| bite(ring, from, &inner, to)) {
                    return Err(refused());
                }
                let holes: Vec<Shape> = self.board.openings().iter().take_while(|other| *other != opening).filter_map(Opening::closed).collect();
                self.shape = plain(&self.rings);
                holes.iter().flat_map(Shape::rings).for_each(|ring| self.shape.push_ring(ring));
            }
        }
        self.shape.sort_loops();
        Ok(self)
    }

    /// The slab it is cut from.
    pub const fn board(&self) -> &Board {
        &self.board
    }

    /// The board's name.
    pub fn name(&self) -> &str {
        self.board.name()
    }

    /// The outline with roles, without the holes that are closed all around: a corner stands wherever the direction or the role changes. Outer
    /// loops first.
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
    rings.iter().for_each(|ring| shape.push_turns(ring));
    shape
}

/// Cuts into the edge on which `from` and `to` lie in this order, if the ring has one.
fn bite(ring: &mut Vec<Corner>, from: Point, inner: &[Point], to: Point) -> bool {
    let along = |a: Point, b: Point| ((b.x.nm() - a.x.nm()).signum(), (b.y.nm() - a.y.nm()).signum());
    let way = along(from, to);
    let next = ring.iter().skip(1).chain(ring.first());
    let holds = |(a, b): (&Corner, &Corner)| [(a.at, from), (a.at, b.at), (to, b.at)].iter().all(|&(p, q)| along(p, q) == way);
    let Some(index) = ring.iter().zip(next).position(holds) else { return false };
    let Some(edge) = ring.get(index).copied() else { return false };
    let free = |at| Corner { at, role: Role::Free, share: Share::Full, mate: Corner::NOBODY, sine: RIGHT };
    let corners = core::iter::once(free(from)).chain(inner.iter().copied().map(free)).chain([Corner { at: to, ..edge }]);
    let _ = ring.splice(index + 1..index + 1, corners);
    true
}

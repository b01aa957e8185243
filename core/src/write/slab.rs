//! One board as a slab in isometric view: its face and the walls that can be seen.

use alloc::vec::Vec;

use super::oblique::Stand;
use super::order::{Block3, paint_order};
use crate::assembly::Board;
use crate::joint::{Role, Vertex};
use crate::point::{Axis, Point};
use crate::shape::Shape;

/// Moves beyond this (1000 km) are cut short, so that all sums stay small.
const FAR: i64 = 1_000_000_000_000_000;

/// Lengths of the unit vectors in the picture: along x and y, x counts this much to the right and half of it downwards.
#[derive(Clone, Copy, Debug)]
pub(super) struct View {
    pub(super) cos: f64,
    pub(super) sin: f64,
}

impl View {
    /// The isometric view: from the front, the right and above.
    pub(super) fn isometric() -> View {
        let angle = core::f64::consts::FRAC_PI_6;
        View { cos: libm::cos(angle), sin: libm::sin(angle) }
    }

    /// A point of the assembly in the picture: nm, x right, y down, in whole thousandths of a millimetre.
    pub(super) fn project(&self, [x, y, z]: [i64; 3]) -> (i64, i64) {
        let thousandths = |v: f64| libm::round(v / 1000.0) as i64 * 1000;
        (thousandths((x + y) as f64 * self.cos), thousandths((x - y) as f64 * self.sin - z as f64))
    }
}

/// A wall of a slab: an edge of the outline, as thick as the board.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wall {
    from: Point,
    to: Point,
    role: Role,
    /// The axis it faces, nearest.
    pub(super) facing: Axis,
    /// It goes on smoothly at both ends, as along an arc.
    pub(super) smooth: bool,
}

/// A board that was moved.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slab<'a> {
    pub(super) board: &'a Board,
    pub(super) shape: &'a Shape,
    pub(super) block: Block3,
    /// Where boards are turned.
    stand: Option<Stand>,
}

impl<'a> Slab<'a> {
    /// `turned` says whether any board of the picture is.
    pub(super) fn new(board: &'a Board, shape: &'a Shape, offset: [i64; 3], turned: bool) -> Slab<'a> {
        let moved = |corner: &dyn Fn(Axis) -> i64| {
            let [x, y, z] = Axis::ALL.map(corner);
            let [dx, dy, dz] = offset.map(|d| d.clamp(-FAR, FAR));
            [x + dx, y + dy, z + dz]
        };
        let block = Block3 { lo: moved(&|axis| board.extent(axis).0), hi: moved(&|axis| board.extent(axis).1) };
        let stand = turned.then(|| Stand::of(board, offset.map(|d| d.clamp(-FAR, FAR))));
        Slab { board, shape, block, stand }
    }

    /// A point of the outline on the face that is seen, or on the one behind.
    pub(super) fn point(&self, p: Point, seen: bool) -> [i64; 3] {
        if let Some(stand) = &self.stand {
            return stand.point(p, seen);
        }
        let ([x, y, z], [x1, y1, z1]) = (self.block.lo, self.block.hi);
        let (u, v) = (p.x.nm(), p.y.nm());
        match self.board.normal() {
            Axis::X => [if seen { x1 } else { x }, y + u, z + v],
            Axis::Y => [x + u, if seen { y } else { y1 }, z + v],
            Axis::Z => [x + u, y + v, if seen { z1 } else { z }],
        }
    }

    /// Whether the picture of a rectangle of the seen face shares area with another board's.
    pub(super) fn covered_by(&self, other: &Slab, lo: Point, hi: Point) -> bool {
        match (&self.stand, &other.stand) {
            (Some(own), Some(other)) => other.overlaps_in_view(&own.patch(lo, hi)),
            _ => other.block.overlaps_in_view(&Block3 { lo: self.point(lo, true), hi: self.point(hi, true) }),
        }
    }

    /// Whether it is hidden by `other` in part.
    pub(super) fn behind(&self, other: &Slab) -> bool {
        match (&self.stand, &other.stand) {
            (Some(own), Some(other)) => own.behind(other),
            _ => self.block.behind(&other.block),
        }
    }

    /// Where letters on the face go on, and where down is, if not along the axes.
    pub(super) fn letters(&self) -> Option<[[f64; 3]; 2]> {
        self.stand.as_ref().map(Stand::letters)
    }

    /// The axis that its face comes nearest to facing.
    pub(super) fn facing(&self) -> Axis {
        self.stand.as_ref().map_or(self.board.normal(), Stand::facing)
    }

    /// Towards the viewer in the board's plane.
    fn sight(&self) -> (i64, i64) {
        if let Some(stand) = &self.stand {
            return stand.sight();
        }
        match self.board.normal() {
            Axis::X => (-1, 1),
            Axis::Y => (1, 1),
            Axis::Z => (1, -1),
        }
    }

    /// The walls that face the viewer, from behind to the front. Those behind the face are among them; the face is painted over them.
    pub(super) fn walls(&self) -> Vec<Wall> {
        let (gu, gv) = self.sight();
        let (u, v) = self.board.normal().plane();
        let square = |dx: i64, dy: i64| if dy.abs() >= dx.abs() { u } else { v };
        let facing = |dx, dy| self.stand.as_ref().map_or_else(|| square(dx, dy), |stand| stand.wall_facing(dx, dy));
        let edges = self.shape.loops().flat_map(|ring| {
            let at = |k: usize| ring.iter().cycle().skip(k);
            at(ring.len().saturating_sub(1)).zip(at(0)).zip(at(1)).zip(at(2)).take(ring.len())
        });
        let faces = edges.filter_map(|(((before, &Vertex { at: from, role }), &Vertex { at: to, .. }), after)| {
            let (dx, dy) = ((to.x - from.x).nm(), (to.y - from.y).nm());
            let smooth = is_slight(before.at, from, to) && is_slight(from, to, after.at);
            // The outside is to the right of the edge.
            (dy * gu - dx * gv > 0).then_some(Wall { from, to, role, facing: facing(dx, dy), smooth })
        });
        let walls: Vec<Wall> = faces.collect();
        let spans: Vec<Span> = walls.iter().map(|wall| Span::of(wall, gu, gv)).collect();
        let order = paint_order(walls.len(), |i, j| matches!((spans.get(i), spans.get(j)), (Some(a), Some(b)) if a.behind(b)));
        order.into_iter().filter_map(|i| walls.get(i).copied()).collect()
    }

    /// Whether a wall lies against a mate that is in place: inside one of the boards that overlap this one.
    pub(super) fn is_joined(&self, wall: &Wall, others: &[Slab<'_>]) -> bool {
        if self.stand.is_some() {
            return false;
        }
        let corners = self.corners(wall);
        let inside = |block: &Block3| corners.iter().all(|p| p.iter().zip(block.lo).zip(block.hi).all(|((&x, lo), hi)| lo <= x && x <= hi));
        let mates = others.iter().filter(|other| other.block != self.block && other.block.overlaps(&self.block));
        matches!(wall.role, Role::Flank | Role::Cheek) && mates.into_iter().any(|mate| inside(&mate.block))
    }

    /// The four corners of a wall.
    pub(super) fn corners(&self, wall: &Wall) -> [[i64; 3]; 4] {
        [self.point(wall.from, true), self.point(wall.to, true), self.point(wall.to, false), self.point(wall.from, false)]
    }
}

/// Whether an outline turns by less than 30 degrees at `b`.
fn is_slight(a: Point, b: Point, c: Point) -> bool {
    let way = |p: Point, q: Point| ((q.x - p.x).nm() as f64, (q.y - p.y).nm() as f64);
    let ((ux, uy), (vx, vy)) = (way(a, b), way(b, c));
    ux * vx + uy * vy > libm::sqrt(0.75) * libm::hypot(ux, uy) * libm::hypot(vx, vy)
}

/// A wall seen along its board: where it lies across the line of sight, and how near its two ends are.
struct Span {
    across: (i64, i64),
    near: (i64, i64),
}

impl Span {
    fn of(wall: &Wall, gu: i64, gv: i64) -> Span {
        let across = |p: Point| p.y.nm() * gu - p.x.nm() * gv;
        let near = |p: Point| p.x.nm() * gu + p.y.nm() * gv;
        // A wall that faces the viewer goes upwards across the line of sight.
        Span { across: (across(wall.from), across(wall.to)), near: (near(wall.from), near(wall.to)) }
    }

    /// Whether both lie on one line of sight and this one is farther there.
    fn behind(&self, other: &Span) -> bool {
        let (lo, hi) = (self.across.0.max(other.across.0), self.across.1.min(other.across.1));
        lo < hi && self.near_at(lo, hi) < other.near_at(lo, hi)
    }

    /// How near it is in the middle between `lo` and `hi`.
    fn near_at(&self, lo: i64, hi: i64) -> f64 {
        let ((a0, a1), (n0, n1)) = (self.across, self.near);
        let middle = (lo - a0) as f64 / 2.0 + (hi - a0) as f64 / 2.0;
        n0 as f64 + (n1 - n0) as f64 * middle / (a1 - a0) as f64
    }
}

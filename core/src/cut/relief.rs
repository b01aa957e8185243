//! Relief of inner corners: room for a square mate where a round tool leaves a fillet.
//!
//! ```text
//!   on the diagonal     on the flank        on the cheek
//!       │  void            │  void             │  void
//!      ╭╯                ╭─╯                   │
//!      ╰╮                │                     │
//!       ╰╮ ╭─────        ╰───────────          ╰╮    ╭────
//!        ╰─╯                                    ╰────╯
//! ```
//!
//! A relief is a circle through the corner. Its centre lies in the void on the corner's bisector, or on one of the two edges; what it takes of
//! the board are the segments beyond the edges. So each edge that the circle crosses becomes an arc from the corner to the crossing.

use alloc::vec::Vec;

use super::corner::{Sides, corners};
use super::offset::{grown, towards};
use crate::arc::Arc;
use crate::bounds::RELIEF;
use crate::error::{Code, Error};
use crate::joint::{Role, Vertex};
use crate::length::Nm;
use crate::plane::cross;
use crate::point::Point;
use crate::shape::{Ring, Shape};

/// Where the circle of a relief lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Reach {
    /// On the corner's bisector (dog-bone): the shortest way, and the least that is taken of either edge.
    Diagonal,
    /// On the flank, into the finger beside the corner (T-bone).
    Flank,
    /// On the cheek, into the board behind the shoulder (T-bone).
    Cheek,
}

/// Round holes at the inner corners that a mate must fill, cut for a round tool.
///
/// ```
/// use dryfit_core::{BoxSpec, Cutter, Fit, Nm, Parts, Reach, Relief, dry_fit_parts};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(200.0)?, mm(150.0)?, mm(100.0)?], mm(6.0)?).assembly()?.panels()?;
/// let parts = Parts::cut(&panels, Cutter::bit(mm(3.0)?)?, Fit::EXACT, Nm::ZERO)?;
/// assert!(!dry_fit_parts(&parts).ok()); // the fillets are in the way
/// let parts = parts.relieve(Relief::new(mm(1.5)?, Reach::Diagonal)?)?;
/// assert!(dry_fit_parts(&parts).ok());
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Relief {
    radius: Nm,
    reach: Reach,
}

impl Relief {
    /// A relief of a radius, from 0.001 mm to 20 mm. It must be at least the tool's, half the kerf.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the radius.
    pub const fn new(radius: Nm, reach: Reach) -> Result<Relief, Error> {
        match RELIEF.check(radius.nm()) {
            Ok(_) => Ok(Relief { radius, reach }),
            Err(error) => Err(error),
        }
    }

    /// The radius of the circle.
    pub const fn radius(&self) -> Nm {
        self.radius
    }

    /// Where the circle lies.
    pub const fn reach(&self) -> Reach {
        self.reach
    }

    /// The part and the path of a tool of radius `tool` that cuts it, from the part without relief; or why not, and where.
    pub(super) fn apply(self, part: &Shape, tool: i64) -> Result<(Shape, Shape), (Error, Point)> {
        let mut relieved = Shape::with_capacity(part.vertices().len(), part.loops().len());
        let mut path = relieved.clone();
        for ring in part.rings() {
            let circle = |corner: Sides| corner.inner().then(|| self.circle(&corner, tool)).transpose();
            let reliefs = corners(ring).map(circle).collect::<Result<Vec<Option<Circle>>, _>>()?;
            self.fits(ring, &reliefs)?;
            let (mut edge, mut way) = (Vec::with_capacity(ring.vertices().len()), Vec::with_capacity(ring.vertices().len()));
            let before = ring.vertices().last().into_iter().chain(ring.vertices());
            for (((corner, centre), (moved, moved_centre)), (relief, before)) in ring.bent().zip(grown(ring, tool)).zip(reliefs.iter().zip(before)) {
                match relief {
                    None => {
                        edge.push((corner, centre));
                        way.push((moved, moved_centre));
                    }
                    Some(circle) => {
                        edge.extend(circle.rim(corner, before.role));
                        way.extend(circle.round(corner.at, moved, tool));
                    }
                }
            }
            relieved.push_bent(edge);
            path.push_bent(way);
        }
        path.sort_loops();
        relieved.sort_loops();
        Ok((relieved, path))
    }

    /// The circle at a corner; or why the tool does not get to it.
    fn circle(&self, corner: &Sides, tool: i64) -> Result<Circle, (Error, Point)> {
        let (back, on) = (unit(corner.at, corner.before), unit(corner.at, corner.after));
        let flank = |role| role == Role::Flank;
        let wanted = |arrives: bool| match self.reach {
            Reach::Diagonal => None,
            // Between two edges of one kind it lies on the first.
            _ if flank(corner.arrives) == flank(corner.leaves) => Some(true),
            Reach::Flank => Some(arrives),
            Reach::Cheek => Some(!arrives),
        };
        let edge = wanted(flank(corner.arrives));
        let (ux, uy) = match edge {
            Some(true) => back,
            Some(false) => on,
            None => {
                let (x, y) = (back.0 + on.0, back.1 + on.1);
                (x / libm::hypot(x, y), y / libm::hypot(x, y))
            }
        };
        // In a corner of less than a quarter turn the tool, on its way to the centre, must not touch the other edge.
        let (cosine, sine) = (back.0 * on.0 + back.1 * on.1, libm::fabs(back.0 * on.1 - back.1 * on.0));
        let times = if cosine <= ROUNDED {
            1.0
        } else if edge.is_none() {
            1.0 / sine
        } else {
            (1.0 + cosine) / sine
        };
        let (given, least) = (self.radius.nm(), libm::ceil(tool as f64 * times) as i64);
        if given < least {
            return Err((Error::length(Code::OutOfRange, RELIEF.name, given, least, RELIEF.most), corner.at));
        }
        let away = |way: f64| libm::round(way * given as f64) as i64;
        let (x, y) = (away(ux), away(uy));
        let crossing = |along: (f64, f64)| libm::round(2.0 * (x as f64 * along.0 + y as f64 * along.1)) as i64;
        let (first, last) = (crossing(back), crossing(on));
        let centre = Point::raw(corner.at.x.nm() + x, corner.at.y.nm() + y);
        // Out into the void, to the right of travel.
        let out = |arrives: bool| if arrives { (-back.1, back.0) } else { (on.1, -on.0) };
        let beside = |arrives: bool| {
            let by = |way: f64| libm::round(way * tool as f64) as i64;
            let (x, y) = out(arrives);
            Gate { arrives, at: Point::raw(centre.x.nm() + by(x), centre.y.nm() + by(y)), other: out(!arrives) }
        };
        Ok(Circle {
            centre,
            gate: edge.map(beside),
            first: (first > 0).then(|| on_edge(corner.at, back, first, corner.before, corner.at)),
            last: (last > 0).then(|| on_edge(corner.at, on, last, corner.at, corner.after)),
        })
    }

    /// That no two reliefs meet and none is longer than its edge.
    fn fits(&self, ring: Ring, reliefs: &[Option<Circle>]) -> Result<(), (Error, Point)> {
        let next = reliefs.iter().skip(1).chain(reliefs.first());
        for ((corner, here), next) in corners(ring).zip(reliefs).zip(next) {
            let far = |a: Point, b: Point| crate::plane::distance(a, b);
            let taken = here.and_then(|circle| circle.last).map_or(0, |end| far(corner.at, end))
                + next.and_then(|circle| circle.first).map_or(0, |end| far(corner.after, end));
            let length = far(corner.at, corner.after);
            if taken >= length {
                let most = i128::from(self.radius.nm()) * i128::from(length - 1) / i128::from(taken);
                return Err((Error::length(Code::ReliefTooLarge, RELIEF.name, self.radius.nm(), RELIEF.least, most as i64), corner.at));
            }
        }
        Ok(())
    }
}

/// A relief's circle: its centre, where the tool enters, and where it crosses the edges that arrive at the corner and leave it.
#[derive(Clone, Copy, Debug)]
struct Circle {
    centre: Point,
    gate: Option<Gate>,
    first: Option<Point>,
    last: Option<Point>,
}

/// The place beside an edge, on the path without relief, from where the tool goes square to the edge to a centre on it. Without a gate it
/// goes from the path's corner.
#[derive(Clone, Copy, Debug)]
struct Gate {
    arrives: bool,
    at: Point,
    /// Out of the other edge, into the void.
    other: (f64, f64),
}

impl Gate {
    /// Where the tool, having left the circle at `stop`, meets its path along the other edge: straight on, if it is not there already.
    fn straight_on(&self, corner: Point, centre: Point, stop: Point, tool: i64) -> Point {
        let (nx, ny) = self.other;
        let high = (stop.x.nm() - corner.x.nm()) as f64 * nx + (stop.y.nm() - corner.y.nm()) as f64 * ny;
        let away = if stop == centre { corner } else { stop };
        let (dx, dy) = unit(centre, away);
        // Along the circle, away from the other edge.
        let (tx, ty) = if -dy * nx + dx * ny > 0.0 { (-dy, dx) } else { (dy, -dx) };
        let far = (tool as f64 - high) / (tx * nx + ty * ny);
        if far < 1.0 {
            return stop;
        }
        Point::raw(stop.x.nm() + libm::round(tx * far) as i64, stop.y.nm() + libm::round(ty * far) as i64)
    }
}

impl Circle {
    /// The part's outline from the arriving edge to the leaving one.
    fn rim(&self, corner: Vertex, arrives: Role) -> impl Iterator<Item = (Vertex, Option<Point>)> {
        let first = self.first.map(|at| (Vertex { at, role: arrives }, Some(self.centre)));
        let last = self.last.map(|at| (Vertex { at, ..corner }, None));
        let middle = (corner, last.map(|_| self.centre));
        first.into_iter().chain([middle]).chain(last)
    }

    /// The path: from the gate to the centre, inside the circle along its rim, and out along the other edge. Without a gate it is there and
    /// back.
    fn round(&self, corner: Point, moved: Vertex, tool: i64) -> Vec<(Vertex, Option<Point>)> {
        let stops = [self.first, Some(corner), self.last];
        let mut stops: Vec<Point> = stops.into_iter().flatten().map(|stop| towards(stop, self.centre, tool)).collect();
        // A tool as large as the relief goes to its centre and back.
        if !matches!(*stops, [from, to, ..] if Arc { from, to, centre: self.centre }.is_round()) {
            stops = alloc::vec![self.centre];
        }
        let outermost = |gate: Gate| if gate.arrives { stops.last() } else { stops.first() };
        let beyond = self.gate.and_then(|gate| Some(gate.straight_on(corner, self.centre, *outermost(gate)?, tool)));
        let (enter, leave) = match (self.gate, beyond) {
            (Some(gate), Some(beyond)) if gate.arrives => ([gate.at, self.centre], [beyond, moved.at]),
            (Some(gate), Some(beyond)) => ([moved.at, beyond], [self.centre, gate.at]),
            _ => ([moved.at, self.centre], [self.centre, moved.at]),
        };
        let last = stops.len() - 1;
        let rim = stops.into_iter().enumerate().map(|(index, stop)| (stop, (index < last).then_some(self.centre)));
        let mut path: Vec<(Point, Option<Point>)> = enter.map(|at| (at, None)).into_iter().chain(rim).chain(leave.map(|at| (at, None))).collect();
        // What stands twice in a row leaves with the later edge.
        path.reverse();
        path.dedup_by_key(|(at, _)| *at);
        path.reverse();
        let free = |(at, centre)| (Vertex { at, role: Role::Free }, centre);
        let mut path: Vec<_> = path.into_iter().map(free).collect();
        if let Some((last, _)) = path.last_mut() {
            last.role = moved.role;
        }
        path
    }
}

/// The cosine of a corner that is a quarter turn but for the rounding of its points.
const ROUNDED: f64 = 1e-5;

/// The direction from one point to another.
fn unit(from: Point, to: Point) -> (f64, f64) {
    let (x, y) = ((to.x.nm() - from.x.nm()) as f64, (to.y.nm() - from.y.nm()) as f64);
    let long = libm::hypot(x, y);
    (x / long, y / long)
}

/// The point so far from a corner along the edge from `a` to `b`; where it has to be rounded, to the side of the board.
fn on_edge(corner: Point, (ux, uy): (f64, f64), far: i64, a: Point, b: Point) -> Point {
    let along = |way: f64| libm::round(way * far as f64) as i64;
    let at = Point::raw(corner.x.nm() + along(ux), corner.y.nm() + along(uy));
    let left = ((a.y.nm() - b.y.nm()).signum(), (b.x.nm() - a.x.nm()).signum());
    if cross(a, b, at) < 0 { Point::raw(at.x.nm() + left.0, at.y.nm() + left.1) } else { at }
}

#[cfg(test)]
#[path = "relief_tests.rs"]
mod tests;

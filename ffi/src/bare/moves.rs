//! Points, vertices and moves.

use core::ffi::c_void;

use dryfit_core::bounds::Unit;
use dryfit_core::round::floor;
use dryfit_core::{LineKind, Move, Nm, Point, Role, Vertex};

use super::length::dryfit_nm;
use crate::given::{Given, Refused};

/// A point: x to the right, y up.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct dryfit_point {
    /// To the right.
    pub x: dryfit_nm,
    /// Up.
    pub y: dryfit_nm,
}

/// The edge touches a cut edge of another board.
pub const DRYFIT_ROLE_FLANK: u32 = 0;
/// The edge touches a face of another board.
pub const DRYFIT_ROLE_CHEEK: u32 = 1;
/// The end of a finger, flush with the other board's face.
pub const DRYFIT_ROLE_TIP: u32 = 2;
/// The edge touches nothing.
pub const DRYFIT_ROLE_FREE: u32 = 3;

/// A vertex of an outline, and the role of the edge that leaves it, one of `DRYFIT_ROLE_...`.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct dryfit_vertex {
    /// Where.
    pub at: dryfit_point,
    /// What the edge that leaves it touches.
    pub role: u32,
}

/// A straight move.
pub const DRYFIT_STRAIGHT: u32 = 0;
/// An arc about `centre`, clockwise.
pub const DRYFIT_CLOCKWISE: u32 = 1;
/// An arc about `centre`, counter-clockwise.
pub const DRYFIT_COUNTERCLOCKWISE: u32 = 2;

/// A move of the cutter, straight or along an arc of less than a full circle.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct dryfit_move {
    /// Where it begins.
    pub from: dryfit_point,
    /// Where it ends.
    pub to: dryfit_point,
    /// Of an arc: its centre, as far from both ends (to a micrometre). Else 0, 0.
    pub centre: dryfit_point,
    /// `DRYFIT_STRAIGHT`, `DRYFIT_CLOCKWISE` or `DRYFIT_COUNTERCLOCKWISE`.
    pub bend: u32,
    /// 1 where a blade is turned about its tip, which stays where it is; else 0.
    pub swivel: u32,
}

/// Takes a move. It returns 0 to go on; any other number stops the work, and is what the call returns then.
///
/// `move` may be used during the call only. The library holds nothing meanwhile: a callback may call any function, but not with the same `dryfit_file`
/// or changing arguments of the call it serves.
pub type dryfit_each_move = Option<unsafe extern "C" fn(user: *mut c_void, r#move: *const dryfit_move) -> i32>;

/// A mark: a name on a part, not to be cut.
pub const DRYFIT_LINE_MARK: u32 = 0;
/// An inner cut: a hole.
pub const DRYFIT_LINE_CUT_INNER: u32 = 1;
/// One cut for two parts.
pub const DRYFIT_LINE_CUT_SHARED: u32 = 2;
/// An outline.
pub const DRYFIT_LINE_CUT_OUTER: u32 = 3;
/// Waste.
pub const DRYFIT_LINE_TRIM: u32 = 4;

pub(crate) fn line_kind(kind: u32, given: &mut Given) -> LineKind {
    given.one_of(&LineKind::ALL, LineKind::CutOuter, kind, "line kind")
}

impl dryfit_point {
    /// The point of the core, which lies no farther than 10 m: that was checked where it came in.
    pub(crate) const fn core(&self) -> Point {
        Point::new(Nm::clamped(self.x), Nm::clamped(self.y))
    }

    pub(crate) const fn of(point: Point) -> dryfit_point {
        dryfit_point { x: point.x.nm(), y: point.y.nm() }
    }
}

impl dryfit_vertex {
    #[inline]
    pub(crate) fn of(vertex: Vertex) -> dryfit_vertex {
        dryfit_vertex { at: dryfit_point::of(vertex.at), role: role(vertex.role) }
    }
}

/// The numbers are those of the core.
pub(crate) const fn role(role: Role) -> u32 {
    role as u32
}

const _: () = assert!(
    role(Role::Flank) == DRYFIT_ROLE_FLANK
        && role(Role::Cheek) == DRYFIT_ROLE_CHEEK
        && role(Role::Tip) == DRYFIT_ROLE_TIP
        && role(Role::Free) == DRYFIT_ROLE_FREE
);

/// The vertices of an outline whose origin lies at a corner. Both are within 10 m: nothing overflows.
#[inline]
pub(crate) fn starting_at(vertices: impl Iterator<Item = Vertex> + Clone, corner: Point) -> impl Iterator<Item = Vertex> + Clone {
    vertices.map(move |Vertex { at, role }| Vertex { at: Point::new(at.x + corner.x, at.y + corner.y), role })
}

/// By how many steps of 2^7 nm radii may differ: 1 um, and the rounding.
const STEPS: u64 = 8;

impl dryfit_move {
    #[inline(never)]
    pub(crate) fn core(&self, given: &mut Given) -> Move {
        let bend = given.up_to(self.bend, DRYFIT_COUNTERCLOCKWISE, "bend");
        let centre = if bend == DRYFIT_STRAIGHT { None } else { Some(given.point(&self.centre)) };
        given.flag(self.swivel, "swivel");
        let way = Move { from: given.point(&self.from), to: given.point(&self.to), centre, clockwise: bend == DRYFIT_CLOCKWISE };
        if centre.is_some() {
            self.round(given);
        }
        way
    }

    /// Refuses an arc whose ends lie more than a micrometre or so nearer to its centre or farther from it: each format, and each machine, would make another
    /// line of it.
    #[inline]
    fn round(&self, given: &mut Given) {
        // In steps of 2^7 nm, so that no product overflows (numbers that are out of range were refused before): a difference of squares is one of the
        // radii, times their sum, which these numbers tell well enough.
        // SAFETY: three points of two numbers each, one after the other.
        let [from, to, centre] = unsafe { &*(&raw const *self).cast::<[[dryfit_nm; 2]; 3]>() };
        let (mut squares, mut sides) = (0_i64, 0_u32);
        for ((from, to), centre) in from.iter().zip(to).zip(centre) {
            let [from, to] = [from, to].map(|end| (end.wrapping_sub(*centre) >> 7) as i32);
            squares = squares.wrapping_add(i64::from(from.wrapping_sub(to)) * i64::from(from.wrapping_add(to)));
            sides = sides.wrapping_add(from.unsigned_abs()).wrapping_add(to.unsigned_abs());
        }
        // A radius is from 0.7 to 1 times as long as its two sides together.
        if squares.unsigned_abs() > STEPS * u64::from(sides) {
            let apart = floor(squares.wrapping_abs(), sides.into()).min(Nm::MAX.nm()) << 7;
            given.between(Unit::Length, 0, (STEPS as i64) << 7, apart, "radius difference");
        }
    }

    pub(crate) fn of(way: &Move, swivel: bool) -> dryfit_move {
        let bend = match (way.centre, way.clockwise) {
            (None, _) => DRYFIT_STRAIGHT,
            (Some(_), true) => DRYFIT_CLOCKWISE,
            (Some(_), false) => DRYFIT_COUNTERCLOCKWISE,
        };
        let centre = way.centre.map_or(dryfit_point::default(), dryfit_point::of);
        dryfit_move { from: dryfit_point::of(way.from), to: dryfit_point::of(way.to), centre, bend, swivel: u32::from(swivel) }
    }
}

/// A callback for moves, once it is known to be one.
pub(crate) struct Each {
    each: unsafe extern "C" fn(*mut c_void, *const dryfit_move) -> i32,
    user: *mut c_void,
}

impl Each {
    pub fn new(each: dryfit_each_move, user: *mut c_void, given: &mut Given) -> Result<Each, Refused> {
        Ok(Each { each: each.ok_or_else(|| given.null("each"))?, user })
    }

    /// Hands a move over.
    pub fn take(&self, way: &dryfit_move, given: &mut Given) -> Result<(), Refused> {
        // SAFETY: the caller of the library has promised that its callback may be called.
        match unsafe { (self.each)(self.user, way) } {
            0 => Ok(()),
            number => Err(given.stop(number)),
        }
    }

    /// Hands the edges between vertices over; of a closed outline also the one from the last to the first.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn edges(&self, vertices: &mut dyn Iterator<Item = Vertex>, closed: bool, given: &mut Given) -> Result<(), Refused> {
        let (mut way, mut first) = (dryfit_move::default(), None);
        for vertex in vertices {
            way.to = dryfit_point::of(vertex.at);
            if first.is_none() {
                first = Some(way.to);
            } else {
                self.take(&way, given)?;
            }
            way.from = way.to;
        }
        way.to = first.unwrap_or(way.to);
        if closed { self.take(&way, given) } else { Ok(()) }
    }
}

/// The edges between vertices; of a closed outline also the one from the last to the first.
pub(crate) fn edges<V: Iterator<Item = Vertex>>(vertices: V, closed: bool) -> Edges<V> {
    Edges { vertices, closed, first: None, last: None }
}

/// See [`edges`].
#[derive(Clone)]
pub(crate) struct Edges<V> {
    vertices: V,
    closed: bool,
    first: Option<Point>,
    last: Option<Point>,
}

impl<V: Iterator<Item = Vertex>> Iterator for Edges<V> {
    type Item = Move;

    fn next(&mut self) -> Option<Move> {
        let mut next = || self.vertices.next().map(|vertex| vertex.at);
        if self.first.is_none() {
            self.first = next();
            self.last = self.first;
        }
        let from = self.last?;
        self.last = next();
        let to = match self.last {
            Some(to) => to,
            None if self.closed => self.first?,
            None => return None,
        };
        Some(Move { from, to, centre: None, clockwise: false })
    }
}

//! One board as a full slab, and where it stands.

use alloc::string::String;
use alloc::vec::Vec;

use super::opening::Opening;
use super::plan::{At, Plan};
use crate::angle::Angle;
use crate::length::Nm;
use crate::point::{Axis, Point};
use crate::round::{down, up};

/// A board of an assembly: a slab with a name. Made by [`super::Assembly::add`].
///
/// ```
/// use dryfit_core::{Assembly, Axis, Nm};
/// let mm = |v| Nm::from_mm(v);
/// let mut one = Assembly::new();
/// one.add("shelf", Axis::Z, [mm(0.0)?, mm(0.0)?, mm(150.0)?], [mm(250.0)?, mm(200.0)?], mm(2.5)?)?;
/// let board = &one.boards()[0];
/// assert_eq!(board.hi(Axis::Z) - board.lo(Axis::Z), 2_500_000);
/// assert_eq!(board.thickness(), mm(2.5)?);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Board {
    name: String,
    normal: Axis,
    lo: [i64; 3],
    hi: [i64; 3],
    turn: Option<Turn>,
    /// The slab's own outline if it is no rectangle: convex, counter-clockwise, from its lowest corner.
    blank: Option<Vec<Point>>,
    openings: Vec<Opening>,
}

/// How a board is turned: about a line through its lowest corner, parallel to an axis in its plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) struct Turn {
    axis: Axis,
    angle: Angle,
    /// Cosine and sine as their bits, which can be compared.
    cos_sin: [u64; 2],
    /// How far that line lies beyond whole nanometres along the two other axes, in [`Turn::PART`]s.
    fraction: [i64; 2],
}

impl Turn {
    const PART: f64 = 1.0 / (1 << 20) as f64;

    fn new(axis: Axis, angle: Angle, fraction: [i64; 2]) -> Turn {
        let (cos, sin) = angle.cos_sin();
        Turn { axis, angle, cos_sin: [cos.to_bits(), sin.to_bits()], fraction }
    }

    pub fn angle(&self) -> Angle {
        self.angle
    }

    /// Cosine and sine in the plan, of which (x, z) is left-handed seen along y.
    pub fn cos_sin(&self) -> (f64, f64) {
        let [cos, sin] = self.cos_sin.map(f64::from_bits);
        (cos, if self.axis == Axis::Y { -sin } else { sin })
    }

    /// In nanometres.
    pub fn fraction(&self) -> [f64; 2] {
        self.fraction.map(|part| part as f64 * Turn::PART)
    }
}

impl Board {
    pub(super) fn new(name: String, normal: Axis, at: [Nm; 3], size: [Nm; 2], thickness: Nm) -> Board {
        let (u, v) = normal.plane();
        let [width, height] = size;
        let lo = at.map(Nm::nm);
        let mut hi = lo;
        for (end, axis) in hi.iter_mut().zip(Axis::ALL) {
            *end += if axis == u {
                width.nm()
            } else if axis == v {
                height.nm()
            } else {
                thickness.nm()
            };
        }
        Board { name, normal, lo, hi, turn: None, blank: None, openings: Vec::new() }
    }

    /// The same board turned about a line parallel to `axis`, which lies in its plane; its lowest corner comes to `place`.
    pub(super) fn turned(mut self, axis: Axis, angle: Angle, place: At) -> Board {
        let (a, b) = axis.plane();
        let mut fraction = [0; 2];
        for ((axis, at), part) in [(a, place.0), (b, place.1)].into_iter().zip(&mut fraction) {
            let whole = libm::floor(at);
            *part = libm::round((at - whole) / Turn::PART) as i64;
            let by = whole as i64 - self.lo(axis);
            for ends in [&mut self.lo, &mut self.hi] {
                if let Some(end) = ends.get_mut(axis.index()) {
                    *end += by;
                }
            }
        }
        self.turn = Some(Turn::new(axis, angle, fraction));
        self
    }

    /// The same board turned about a line through the middle of its slab. A turn from before counts no more.
    pub(super) fn about_its_middle(self, axis: Axis, angle: Angle) -> Board {
        let (a, b) = axis.plane();
        let half = [a, b].map(|axis| self.size(axis) as f64 / 2.0);
        let rotated = |turn: Turn| {
            let ((cos, sin), [da, db], [x, y]) = (turn.cos_sin(), half, turn.fraction());
            [x + da * cos - db * sin, y + da * sin + db * cos]
        };
        let [x, y] = self.turn.filter(|turn| turn.axis == axis).map_or(half, rotated);
        let [dx, dy] = rotated(Turn::new(axis, angle, [0; 2]));
        let place = (self.lo(a) as f64 + x - dx, self.lo(b) as f64 + y - dy);
        self.turned(axis, angle, place)
    }

    /// The same board with an outline of its own in place of the rectangle.
    pub(super) fn shaped(self, blank: Vec<Point>) -> Board {
        Board { blank: Some(blank), ..self }
    }

    pub(crate) fn turn(&self) -> Option<Turn> {
        self.turn
    }

    pub(crate) fn blank(&self) -> Option<&[Point]> {
        self.blank.as_deref()
    }

    /// The axis about which it is turned; of a board with an outline of its own, its normal.
    pub(crate) fn upright(&self) -> Option<Axis> {
        self.turn.map(|turn| turn.axis).or(self.blank.as_ref().map(|_| self.normal))
    }

    /// The corners of the full slab in its own plane, counter-clockwise from the lowest.
    pub(crate) fn corners(&self) -> Vec<Point> {
        let (u, v) = self.normal.plane();
        let (width, height) = (self.size(u), self.size(v));
        self.blank.clone().unwrap_or_else(|| [(0, 0), (width, 0), (width, height), (0, height)].map(|(x, y)| Point::raw(x, y)).to_vec())
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The axis across the sheet.
    pub const fn normal(&self) -> Axis {
        self.normal
    }

    /// How far it is turned, anticlockwise seen against the axis; nothing for most boards.
    pub fn turned_by(&self) -> Option<Angle> {
        self.turn.map(|turn| turn.angle)
    }

    /// Where the slab begins along an axis, in nanometres; before it is turned about its lowest corner.
    pub const fn lo(&self, axis: Axis) -> i64 {
        let [x, y, z] = self.lo;
        match axis {
            Axis::X => x,
            Axis::Y => y,
            Axis::Z => z,
        }
    }

    /// Where the slab ends along an axis, in nanometres; before it is turned.
    pub const fn hi(&self, axis: Axis) -> i64 {
        let [x, y, z] = self.hi;
        match axis {
            Axis::X => x,
            Axis::Y => y,
            Axis::Z => z,
        }
    }

    /// Its size along an axis, in nanometres.
    pub const fn size(&self, axis: Axis) -> i64 {
        self.hi(axis) - self.lo(axis)
    }

    /// From where to where the slab reaches along an axis as it stands, turned or not; rounded outwards.
    pub(crate) fn extent(&self, axis: Axis) -> (i64, i64) {
        match self.turn.filter(|turn| turn.axis != axis) {
            None => (self.lo(axis), self.hi(axis)),
            Some(turn) => {
                let plan = Plan::of(self, turn.axis);
                let first = turn.axis.plane().0 == axis;
                let places = plan.stretch(0.0, plan.length()).map(|(x, y)| if first { x } else { y });
                let [lo, hi] = [f64::min, f64::max].map(|fold| places.into_iter().reduce(fold).unwrap_or(0.0));
                (down(lo), up(hi))
            }
        }
    }

    /// Its thickness.
    pub const fn thickness(&self) -> Nm {
        Nm::raw(self.size(self.normal))
    }

    /// Whether the two slabs share volume.
    pub fn overlaps(&self, other: &Board) -> bool {
        if let Some(axis) = self.upright().or(other.upright()) {
            return super::turned::overlap(self, other, axis);
        }
        Axis::ALL.into_iter().all(|axis| self.lo(axis) < other.hi(axis) && other.lo(axis) < self.hi(axis))
    }

    /// The openings that it is meant to have.
    pub fn openings(&self) -> &[Opening] {
        &self.openings
    }

    pub(super) fn open(&mut self, opening: Opening) {
        self.openings.push(opening);
    }

    /// How panel coordinates stand in the assembly.
    pub fn frame(&self) -> Frame {
        let (u, v) = self.normal.plane();
        let mut origin = self.lo;
        // (x, z, y) is left-handed, so a board across y is seen from its front: w runs towards -y.
        let w = if self.normal == Axis::Y {
            let [_, y, _] = &mut origin;
            *y = self.hi(Axis::Y);
            -1
        } else {
            1
        };
        Frame { origin: origin.map(Nm::raw), axes: [(u, 1), (v, 1), (self.normal, w)], turn: self.turn, lowest: self.lo }
    }
}

/// Where a panel stands: (u, v, w) of the panel are right-handed axes of the assembly; the sheet fills 0 <= w <= thickness.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm};
/// let mm = |v| Nm::from_mm(v);
/// let open = BoxSpec::outside([mm(100.0)?, mm(80.0)?, mm(60.0)?], mm(3.0)?).assembly()?;
/// // The front stands at y = 0 and is seen from its front: w points at the viewer, towards -y.
/// assert_eq!(open.boards()[0].frame().matrix(), [
///     [1.0, 0.0, 0.0, 0.0],
///     [0.0, 0.0, -1.0, 3.0],
///     [0.0, 1.0, 0.0, 0.0],
///     [0.0, 0.0, 0.0, 1.0],
/// ]);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Frame {
    /// The panel's origin in the assembly, before the board is turned.
    pub origin: [Nm; 3],
    /// The assembly's axis and sign along u, v and w, before the board is turned.
    pub axes: [(Axis, i8); 3],
    turn: Option<Turn>,
    /// About which it is turned.
    lowest: [i64; 3],
}

impl Frame {
    /// The matrix that takes `(u, v, w, 1)` to assembly coordinates, in millimetres, row by row.
    pub fn matrix(&self) -> [[f64; 4]; 4] {
        let row = |axis: Axis, origin: Nm| {
            let [u, v, w] = self.axes.map(|(a, sign)| if a == axis { f64::from(sign) } else { 0.0 });
            [u, v, w, origin.mm()]
        };
        let [x, y, z] = self.origin;
        let last = [0.0, 0.0, 0.0, 1.0];
        let Some(turn) = self.turn else { return [row(Axis::X, x), row(Axis::Y, y), row(Axis::Z, z), last] };
        let (a, b) = turn.axis.plane();
        let (cos, sin) = turn.cos_sin();
        let from_lowest = |axis: Axis, origin: Nm| row(axis, origin - Nm::raw(self.lowest.get(axis.index()).copied().unwrap_or(0)));
        let [from_a, from_b] = [a, b].map(|axis| from_lowest(axis, [x, y, z].get(axis.index()).copied().unwrap_or_default()));
        let [da, db] = turn.fraction();
        let mut rows = [row(Axis::X, x), row(Axis::Y, y), row(Axis::Z, z), last];
        for (axis, fraction, own, other) in [(a, da, cos, -sin), (b, db, sin, cos)] {
            let lowest = self.lowest.get(axis.index()).copied().unwrap_or(0) as f64 + fraction;
            if let Some(row) = rows.get_mut(axis.index()) {
                for ((out, p), q) in row.iter_mut().zip(from_a).zip(from_b) {
                    *out = p * own + q * other;
                }
                let [.., origin] = row;
                *origin += lowest / 1e6;
            }
        }
        rows
    }
}

//! One board as a full slab, and where it stands.

use alloc::string::String;

use crate::length::Nm;
use crate::point::Axis;

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
        Board { name, normal, lo, hi }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The axis across the sheet.
    pub const fn normal(&self) -> Axis {
        self.normal
    }

    /// Where the slab begins along an axis, in nanometres.
    pub const fn lo(&self, axis: Axis) -> i64 {
        let [x, y, z] = self.lo;
        match axis {
            Axis::X => x,
            Axis::Y => y,
            Axis::Z => z,
        }
    }

    /// Where the slab ends along an axis, in nanometres.
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

    /// Its thickness.
    pub const fn thickness(&self) -> Nm {
        Nm::raw(self.size(self.normal))
    }

    /// Whether the two slabs share volume.
    pub fn overlaps(&self, other: &Board) -> bool {
        Axis::ALL.into_iter().all(|axis| self.lo(axis) < other.hi(axis) && other.lo(axis) < self.hi(axis))
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
        Frame { origin: origin.map(Nm::raw), axes: [(u, 1), (v, 1), (self.normal, w)] }
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
    /// The panel's origin in the assembly.
    pub origin: [Nm; 3],
    /// The assembly's axis and sign along u, v and w.
    pub axes: [(Axis, i8); 3],
}

impl Frame {
    /// The matrix that takes `(u, v, w, 1)` to assembly coordinates, in millimetres, row by row.
    pub fn matrix(&self) -> [[f64; 4]; 4] {
        let row = |axis: Axis, origin: Nm| {
            let [u, v, w] = self.axes.map(|(a, sign)| if a == axis { f64::from(sign) } else { 0.0 });
            [u, v, w, origin.mm()]
        };
        let [x, y, z] = self.origin;
        [row(Axis::X, x), row(Axis::Y, y), row(Axis::Z, z), [0.0, 0.0, 0.0, 1.0]]
    }
}

//! Points of a panel's plane and axes of the assembly.

use crate::length::Nm;

/// A point in a panel's plane: x right, y up.
///
/// ```
/// use dryfit_core::{Nm, Point};
/// let corner = Point::new(Nm::parse("3/32 in")?, Nm::ZERO);
/// assert_eq!(corner.x.mm(), 2.38125);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Point {
    /// To the right.
    pub x: Nm,
    /// Upwards.
    pub y: Nm,
}

impl Point {
    /// The origin.
    pub const ZERO: Point = Point { x: Nm::ZERO, y: Nm::ZERO };

    /// A point from two lengths.
    pub const fn new(x: Nm, y: Nm) -> Point {
        Point { x, y }
    }

    pub(crate) const fn raw(x: i64, y: i64) -> Point {
        Point { x: Nm::raw(x), y: Nm::raw(y) }
    }
}

/// An axis of the assembly: x to the right, y away from the viewer of the front, z upwards.
///
/// ```
/// use dryfit_core::Axis;
/// assert_eq!(Axis::Y.plane(), (Axis::X, Axis::Z));
/// assert_eq!(Axis::X.third(Axis::Z), Axis::Y);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Axis {
    /// To the right.
    X,
    /// Away from the viewer of the front.
    Y,
    /// Upwards.
    Z,
}

impl Axis {
    /// All three.
    pub const ALL: [Axis; 3] = [Axis::X, Axis::Y, Axis::Z];

    /// 0, 1 or 2.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// The two axes in the plane that has this normal, in x, y, z order.
    pub const fn plane(self) -> (Axis, Axis) {
        match self {
            Axis::X => (Axis::Y, Axis::Z),
            Axis::Y => (Axis::X, Axis::Z),
            Axis::Z => (Axis::X, Axis::Y),
        }
    }

    /// The axis that is neither this one nor `other`; this one if they are the same.
    pub const fn third(self, other: Axis) -> Axis {
        match (self, other) {
            (Axis::X, Axis::Y) | (Axis::Y, Axis::X) => Axis::Z,
            (Axis::X, Axis::Z) | (Axis::Z, Axis::X) => Axis::Y,
            (Axis::Y, Axis::Z) | (Axis::Z, Axis::Y) => Axis::X,
            _ => self,
        }
    }

    /// `"x"`, `"y"` or `"z"`.
    pub const fn name(self) -> &'static str {
        match self {
            Axis::X => "x",
            Axis::Y => "y",
            Axis::Z => "z",
        }
    }
}

//! What closes a box: nothing, a board joined to the walls, or a lid.

use super::shell::Shell;
use super::{Assembly, lift_off, sliding};
use crate::bounds::{LID_CLEARANCE, MM};
use crate::error::{Error, Failure};
use crate::length::Nm;

/// The top of a box.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, Top, order};
/// let mm = |v| Nm::from_mm(v);
/// let mut spec = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?);
/// spec.top = Top::lift_off();
/// let last = order(&spec.assembly()?.panels()?)?.pop().expect("five walls, the lid, two battens");
/// assert_eq!((last.name.as_str(), last.direction.to_string().as_str()), ("lid", "-z"));
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Top {
    /// None.
    Open,
    /// A board like the base, joined to all four walls.
    Closed,
    /// A lid that lies on the rim. Two battens, tabbed up through it, hang into the box and keep it in its place.
    ///
    /// ```text
    ///    ┌─────────┬─┬───────────────────────┬─┬─────────┐
    ///    │   lid   │ │      tabs through     │ │         │
    ///    ├───┬─────┤ ├───────────────────────┤ ├─────┬───┤
    ///    │   │  c  │ │                       │ │  c  │   │  c: the clearance, to all four walls
    ///    │   │     └─┘ batten                └─┘     │   │
    ///    │ left                                right │
    /// ```
    LiftOff {
        /// Between the battens and each wall, in 0 to 10 mm.
        clearance: Nm,
    },
    /// A lid that slides in grooves, out over the front. Each groove has three layers: a runner below the lid, a kicker above it, and
    /// between the two only the lid. Runners and kickers are tabbed through the side walls and the back. A pull is tabbed through the lid.
    ///
    /// ```text
    ///    │   │                              ┌────── pull, in the lid
    ///    │   ├────────┐  ┌──────────────────┴──────
    ///    │   │ kicker │c │
    ///    │   ├───┬────┴──┤ ├───────────────────────  c: the clearance, beside, above and behind the lid
    ///    │   │ c │       └─┘    lid
    ///    │   ├───┴────┬────────────────────────────
    ///    │   │ runner │
    ///    │ left ──────┘
    /// ```
    Sliding {
        /// Between the lid and the kickers, the side walls and the back, in 0 to 10 mm.
        clearance: Nm,
    },
}

impl Top {
    /// The clearance of a lid unless told otherwise: 0.2 mm. Common practice, no source.
    pub const CLEARANCE: Nm = Nm::raw(MM / 5);

    /// A lid that lifts off, with the usual clearance.
    pub const fn lift_off() -> Top {
        Top::LiftOff { clearance: Top::CLEARANCE }
    }

    /// A lid that slides, with the usual clearance.
    pub const fn sliding() -> Top {
        Top::Sliding { clearance: Top::CLEARANCE }
    }

    /// The clearance, 0 without a lid.
    pub(super) fn clearance(self) -> Result<i64, Error> {
        match self {
            Top::Open | Top::Closed => Ok(0),
            Top::LiftOff { clearance } | Top::Sliding { clearance } => LID_CLEARANCE.check(clearance.nm()),
        }
    }

    /// From the highest point of the inside to that of the outside.
    pub(super) const fn above(self, t: i64, c: i64) -> i64 {
        match self {
            Top::Open => 0,
            Top::Closed | Top::LiftOff { .. } => t,
            Top::Sliding { .. } => sliding::above(t, c),
        }
    }

    /// How far it hangs into the inside, with the clearance to what stands below.
    pub(super) const fn hang(self, t: i64, c: i64) -> i64 {
        match self {
            Top::Open | Top::Closed => 0,
            Top::LiftOff { .. } => lift_off::HANG * t + c,
            Top::Sliding { .. } => t,
        }
    }

    /// The least clear inside size along x and y.
    pub(super) const fn least_inside(self, t: i64, c: i64) -> [i64; 2] {
        match self {
            Top::Open | Top::Closed => [1, 1],
            Top::LiftOff { .. } => lift_off::least_inside(t, c),
            Top::Sliding { .. } => sliding::least_inside(t, c),
        }
    }

    /// Where left, right and back end, and where the front does.
    pub(super) const fn rims(self, z: i64, t: i64, c: i64) -> (i64, i64) {
        match self {
            Top::Open | Top::Closed => (z, z),
            Top::LiftOff { .. } => (z - t, z - t),
            Top::Sliding { .. } => (z, z - sliding::above(t, c)),
        }
    }

    /// Adds the boards.
    pub(super) fn add(self, assembly: &mut Assembly, shell: &Shell) -> Result<(), Failure> {
        let c = self.clearance()?;
        match self {
            Top::Open => Ok(()),
            Top::Closed => super::shell::slab(assembly, "top", crate::point::Axis::Z, [0, 0, shell.z - shell.t], [shell.x, shell.y, shell.z]),
            Top::LiftOff { .. } => lift_off::add(assembly, shell, c),
            Top::Sliding { .. } => sliding::add(assembly, shell, c),
        }
    }
}

//! Feet: four boards under the base that cross each other by halvings and are tabbed up through it.
//!
//! ```text
//!      foot-x1   foot-x2             seen from below; d = 2 boards
//!   ┌───┬────────────┬───┐
//!   │   ║            ║   │ d
//!   │ ══╬════════════╬══ │ foot-y2
//!   │ d ║            ║   │
//!   │   ║            ║   │
//!   │ ══╬════════════╬══ │ foot-y1
//!   │   ║            ║   │
//!   └───┴────────────┴───┘
//! ```

use super::Assembly;
use super::shell::{Shell, slab};
use crate::error::Failure;
use crate::point::Axis;

/// How many thicknesses a foot's ends keep from the outside.
const ENDS: i64 = 2;
/// How many thicknesses its middle keeps from the outside: past the ends of those that it crosses, and a board's thickness more.
const INSET: i64 = 5;

/// The least clear inside size along x and y: two feet and a tab between them.
pub(super) const fn least_inside(t: i64) -> i64 {
    (2 * INSET + 3) * t
}

pub(super) fn add(assembly: &mut Assembly, shell: &Shell) -> Result<(), Failure> {
    let &Shell { x, y, t, floor, .. } = shell;
    let (end, inset, top) = (ENDS * t, INSET * t, floor + t);
    for (name, at) in [("foot-x1", inset), ("foot-x2", x - inset - t)] {
        slab(assembly, name, Axis::X, [at, end, 0], [at + t, y - end, top])?;
    }
    for (name, at) in [("foot-y1", inset), ("foot-y2", y - inset - t)] {
        slab(assembly, name, Axis::Y, [end, at, 0], [x - end, at + t, top])?;
    }
    Ok(())
}

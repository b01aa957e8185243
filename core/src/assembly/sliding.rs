//! A lid that slides in grooves made of layers: runners below, kickers above, and a pull to move it by.
//!
//! ```text
//!   |    from the front    |
//!   |======          ======|     kickers
//!   | ---------##--------- |     lid with its pull, a clearance off walls and kickers
//!   |======          ======|     runners
//!   |                      |     walls; the front ends below the lid
//! ```

use super::Assembly;
use super::shell::{Shell, slab};
use crate::error::Failure;
use crate::point::Axis;

/// How many thicknesses runners and kickers reach into the box: what a tab through the back needs.
const REACH: i64 = 3;

/// From the lid's underside to the top of the walls: lid, clearance, kicker, and as much of the wall above it.
pub(super) const fn above(t: i64, c: i64) -> i64 {
    3 * t + c
}

/// Across: two grooves and a pull of one tab between them. Along: the lid, with the pull two boards behind its front, and two behind the pull.
pub(super) const fn least_inside(t: i64, c: i64) -> [i64; 2] {
    [(2 * REACH + 3) * t + 2 * c, 4 * t + c]
}

pub(super) fn add(assembly: &mut Assembly, shell: &Shell, c: i64) -> Result<(), Failure> {
    let &Shell { x, y, z, t, front, .. } = shell;
    let reach = (1 + REACH) * t;
    for (name, top) in [("runner", front), ("kicker", front + 2 * t + c)] {
        for (side, from, to) in [("left", 0, reach), ("right", x - reach, x)] {
            slab(assembly, &alloc::format!("{name}-{side}"), Axis::Z, [from, 0, top - t], [to, y, top])?;
        }
    }
    slab(assembly, "lid", Axis::Z, [t + c, 0, front], [x - t - c, y - t - c, front + t])?;
    slab(assembly, "pull", Axis::Y, [reach + c, 2 * t, front], [x - reach - c, 3 * t, z])
}

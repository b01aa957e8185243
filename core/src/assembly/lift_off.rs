//! A lid that lifts off: a board on the rim, and two battens below it.
//!
//! ```text
//!   ====#=======#====     lid; the battens' tabs stand in its slots
//!   |  |#       #|  |     battens, a clearance off the walls
//!   |  |#       #|  |
//!   |               |     walls
//! ```

use super::Assembly;
use super::shell::{Shell, slab};
use crate::error::Failure;
use crate::point::Axis;

/// How many thicknesses a batten hangs below the lid. Common practice, no source.
pub(super) const HANG: i64 = 2;

/// Two battens and a board between them; a batten's length holds a tab and two ends.
pub(super) const fn least_inside(t: i64, c: i64) -> [i64; 2] {
    [3 * t + 2 * c, 3 * t + 2 * c]
}

pub(super) fn add(assembly: &mut Assembly, shell: &Shell, c: i64) -> Result<(), Failure> {
    let &Shell { x, y, z, t, .. } = shell;
    let wall = t + c;
    slab(assembly, "lid", Axis::Z, [0, 0, z - t], [x, y, z])?;
    for (name, at) in [("batten-left", wall), ("batten-right", x - wall - t)] {
        slab(assembly, name, Axis::X, [at, wall, z - t - HANG * t], [at + t, y - wall, z])?;
    }
    Ok(())
}

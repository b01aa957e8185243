//! Shelves: captive boards across the whole box, tabbed through all four walls.
//!
//! ```text
//!   |               |
//!   #===============#     a shelf ends at the walls' outer faces; it comes out only after a wall
//!   |               |
//!   |_______________|     base
//! ```

use alloc::format;

use super::Assembly;
use super::shell::{Shell, slab};
use crate::error::{Code, Error, Failure};
use crate::length::Nm;
use crate::point::Axis;

/// The least clear inside height: each shelf, and a board's thickness below and above it, so that the walls hold between their slots.
pub(super) const fn least_inside(count: i64, t: i64) -> i64 {
    if count > 0 { (2 * count + 1) * t } else { 1 }
}

/// Adds `shelf-1`.. with their undersides so far above the base.
pub(super) fn add(assembly: &mut Assembly, shell: &Shell, heights: &[Nm]) -> Result<(), Failure> {
    let &Shell { x, y, t, floor, clear, .. } = shell;
    let inside = floor + t;
    let mut least = t;
    for (number, height) in (1..).zip(heights) {
        let height = height.nm();
        // The shelves above need their room too.
        let most = clear - inside - 2 * t * (heights.len() as i64 + 1 - number);
        if height < least || height > most {
            return Err(Failure::at(Error::length(Code::OutOfRange, "shelves", height, least, most), format!("shelf {number}")));
        }
        let at = inside + height;
        slab(assembly, &format!("shelf-{number}"), Axis::Z, [0, 0, at], [x, y, at + t])?;
        least = height + 2 * t;
    }
    Ok(())
}

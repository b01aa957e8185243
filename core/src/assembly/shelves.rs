//! Shelves: captive boards across the whole box, tabbed through all four walls.

use alloc::format;

use super::Assembly;
use super::shell::{Shell, slab};
use crate::bounds::SIZE;
use crate::error::{Code, Error, Failure};
use crate::length::Nm;
use crate::point::Axis;

/// Adds `shelf-1`.. with their undersides so far above the base.
///
/// Between two boards there is at least another's thickness, so that the walls hold between their slots.
pub(super) fn add(assembly: &mut Assembly, shell: &Shell, heights: &[Nm]) -> Result<(), Failure> {
    let &Shell { x, y, t, floor, front, clear, .. } = shell;
    let inside = floor + t;
    // Below the rim of every wall there is a board's thickness of it left.
    let most = clear.min(front - t) - inside - t;
    let mut least = t;
    for (number, height) in (1..).zip(heights) {
        let height = height.nm();
        if height < least || height > most {
            let place = format!("shelf {number}");
            if least > most {
                return Err(Failure::at(Error::length(Code::OutOfRange, "shelves", height, least, SIZE.most), format!("{place}, no room for it")));
            }
            return Err(Failure::at(Error::length(Code::OutOfRange, "shelves", height, least, most), place));
        }
        let at = inside + height;
        slab(assembly, &format!("shelf-{number}"), Axis::Z, [0, 0, at], [x, y, at + t])?;
        least = height + 2 * t;
    }
    Ok(())
}

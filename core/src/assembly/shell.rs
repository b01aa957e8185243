//! The measures that the parts of a box share, and boards by their two corners.

use super::Assembly;
use crate::error::Failure;
use crate::length::Nm;
use crate::point::Axis;

/// A box in nanometres: all its boards lie within 0 to `x`, `y` and `z`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Shell {
    pub x: i64,
    pub y: i64,
    pub z: i64,
    /// The board.
    pub t: i64,
    /// The underside of the base.
    pub floor: i64,
    /// Where left, right and back end.
    pub rim: i64,
    /// Where the front ends.
    pub front: i64,
    /// Above this, dividers and shelves would be in the way of what hangs into the box.
    pub clear: i64,
}

/// Adds a board from its lowest corner to its highest.
pub(super) fn slab(assembly: &mut Assembly, name: &str, normal: Axis, lo: [i64; 3], hi: [i64; 3]) -> Result<(), Failure> {
    let size = |axis: Axis| Nm::raw(hi.get(axis.index()).unwrap_or(&0) - lo.get(axis.index()).unwrap_or(&0));
    let (u, v) = normal.plane();
    assembly.add(name, normal, lo.map(Nm::raw), [size(u), size(v)], size(normal)).map(drop)
}

//! The dry fit: whether finished outlines share out the blocks, and in which order they go together.
//!
//! Nothing here knows a pattern. It reads the slabs (what was to be shared) and the outlines (what was made of it).

mod blocked;
mod body;
mod contact;
mod cubes;
mod order;
mod overlap;
mod plug;
mod proof;
mod report;
mod section;
mod slices;
mod solid;
mod splice;
mod strange;
mod swept;

pub use order::{Direction, Step, order};
pub use report::{Report, dry_fit, dry_fit_parts, dry_fit_shapes};

#[cfg(test)]
#[path = "check_tests.rs"]
mod tests;

//! From the lines of a sheet to everything that a machine does.

mod passes;

pub use passes::{Pass, PassOrder, PassSpec};

//! From nominal panels to the lines that a cutter follows.

mod cutter;
mod part;

pub use cutter::Cutter;
pub use part::{Part, Parts, Piece};

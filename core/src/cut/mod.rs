//! From nominal panels to the lines that a cutter follows.

mod cutter;
mod offset;
mod part;
mod relief;

pub use cutter::Cutter;
pub use part::{Part, Parts, Piece};
pub(crate) use relief::unrelieved;
pub use relief::{Reach, Relief};

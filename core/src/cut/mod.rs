//! From nominal panels to the lines that a cutter follows.

mod corner;
mod cutter;
mod offset;
mod part;
mod relief;

pub(crate) use corner::unrelieved;
pub use cutter::Cutter;
pub use part::{Part, Parts, Piece};
pub use relief::{Reach, Relief};

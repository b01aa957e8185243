//! From nominal panels to the lines that a cutter follows.

mod contour;
mod corner;
mod cutter;
mod motion;
mod moves;
mod offset;
mod pace;
mod part;
mod relief;
mod route;

pub use contour::{Contour, Entry};
pub(crate) use corner::unrelieved;
pub use cutter::Cutter;
pub use motion::{Machine, MachineSpec};
pub use moves::Move;
pub use pace::{Cost, Estimate, Pace, Tally, Work};
pub use part::{Part, Parts, Piece};
pub use relief::{Reach, Relief};
pub use route::{Cut, Route, RouteSpec, Start, Turning};

//! From nominal panels to the lines that a cutter follows, and on to what a machine does.

mod action;
#[cfg(feature = "alloc")]
mod bridge;
#[cfg(feature = "alloc")]
mod cells;
#[cfg(feature = "alloc")]
mod contour;
#[cfg(feature = "alloc")]
mod corner;
mod cutter;
#[cfg(feature = "alloc")]
mod figures;
mod flat;
mod gaps;
mod knife;
#[cfg(feature = "alloc")]
mod lead;
#[cfg(feature = "alloc")]
mod machine;
mod moves;
#[cfg(feature = "alloc")]
mod offset;
#[cfg(feature = "alloc")]
mod pace;
#[cfg(feature = "alloc")]
mod part;
#[cfg(feature = "alloc")]
mod plain_box;
#[cfg(feature = "alloc")]
mod plan;
#[cfg(feature = "alloc")]
mod relief;
#[cfg(feature = "alloc")]
mod route;
mod stray;

pub use action::Action;
#[cfg(feature = "alloc")]
pub use bridge::{BridgeSpec, Bridges, Many};
#[cfg(feature = "alloc")]
pub use contour::{Contour, Entry};
#[cfg(feature = "alloc")]
pub(crate) use corner::unrelieved;
pub use cutter::Cutter;
#[cfg(feature = "alloc")]
pub use figures::Figures;
pub use flat::flat;
pub use gaps::{Gaps, Making};
pub use knife::{AxisMove, Follow, Knife, KnifeSpec};
#[cfg(feature = "alloc")]
pub use machine::{Machine, MachineSpec};
pub use moves::Move;
#[cfg(feature = "alloc")]
pub use pace::{Cost, Estimate, Pace, Tally, Work};
#[cfg(feature = "alloc")]
pub use part::{Part, Parts, Piece};
#[cfg(feature = "alloc")]
pub use plan::{MotionSpec, Pass, PassOrder, PassSpec, Plan, Track};
#[cfg(feature = "alloc")]
pub use relief::{Reach, Relief};
#[cfg(feature = "alloc")]
pub use route::{Cut, Route, RouteSpec, Start, Turning};

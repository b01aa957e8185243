//! What needs no heap and no operating system.

mod drawing;
mod dxf;
mod edge;
mod file;
mod fingers;
mod flat_box;
mod gcode;
mod hpgl;
mod joint;
mod knife;
mod length;
mod message;
mod moves;
mod pattern;
mod svg;

pub use drawing::*;
pub use dxf::*;
pub use edge::*;
#[cfg(feature = "host")]
pub(crate) use file::Stopping;
pub use file::{dryfit_file, dryfit_file_error, dryfit_write};
pub use fingers::*;
pub use flat_box::*;
pub use gcode::*;
pub use hpgl::*;
pub use joint::*;
pub use knife::*;
pub use length::*;
pub use message::*;
pub use moves::*;
pub use pattern::*;
pub use svg::*;

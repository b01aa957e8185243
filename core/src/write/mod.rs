//! Files, byte by byte into a small sink: no heap, own printing of numbers.

mod cautions;
mod corner;
mod drawing;
mod dxf;
#[cfg(feature = "alloc")]
mod explode;
mod gcode;
mod hpgl;
#[cfg(feature = "alloc")]
mod label;
mod lines;
#[cfg(feature = "alloc")]
mod motion;
mod number;
#[cfg(feature = "alloc")]
mod oblique;
#[cfg(feature = "alloc")]
mod order;
mod path;
#[cfg(feature = "alloc")]
mod picture;
#[cfg(feature = "alloc")]
mod sheet;
#[cfg(feature = "alloc")]
mod shown;
mod sink;
#[cfg(feature = "alloc")]
mod slab;
mod svg;
mod text;

pub use corner::write_corner;
pub use drawing::PathData;
pub use dxf::Dxf;
#[cfg(feature = "alloc")]
pub use explode::explode;
pub use gcode::{Gcode, GcodeSpec};
pub use hpgl::Hpgl;
#[cfg(feature = "alloc")]
pub use motion::{gcode, hpgl, plan_svg, sheet_dxf, write_gcode};
pub(crate) use number::{integer, trimmed};
#[cfg(feature = "alloc")]
pub use picture::exploded;
#[cfg(feature = "alloc")]
pub use sheet::{sheet_svg, write_sheet};
#[cfg(feature = "alloc")]
pub use shown::{kerf_svg, panel_svg, sheet_picture};
pub use sink::{Fixed, Sink};
pub use svg::Svg;

#[cfg(test)]
#[path = "write_tests.rs"]
mod tests;

#[cfg(all(test, feature = "alloc"))]
#[path = "picture_tests.rs"]
mod picture_tests;

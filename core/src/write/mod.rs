//! Files, byte by byte into a small sink: no heap, own printing of numbers.

mod kind;
#[cfg(feature = "alloc")]
mod label;
mod number;
mod path;
#[cfg(feature = "alloc")]
mod sheet;
mod sink;
mod svg;
mod text;

pub use kind::LineKind;
#[cfg(feature = "alloc")]
pub use sheet::{panel_svg, sheet_svg, write_sheet};
pub use sink::{Fixed, Sink};
pub use svg::Svg;

#[cfg(test)]
#[path = "write_tests.rs"]
mod tests;

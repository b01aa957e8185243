//! Parts on sheets: the stock, where each part lies, and a simple layout in rows.

mod layout;
mod placement;
mod rows;
mod stock;

pub use layout::{Layout, Sheet};
pub use placement::Placement;
pub use stock::Stock;

pub(crate) use layout::named;

use crate::length::Nm;
use crate::shape::Shape;

/// What is laid out: a part's name, its cut path and its thickness.
pub(crate) type Named<'a> = (&'a str, &'a Shape, Nm);

#[cfg(test)]
#[path = "sheet_tests.rs"]
mod tests;

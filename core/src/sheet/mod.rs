//! Parts on sheets: the stock, where each part lies, and the search for a good layout.

mod at_once;
mod block;
mod item;
mod job;
mod lay_out;
mod layout;
mod lines;
mod nest;
mod offcut;
mod pack;
mod placement;
mod planned;
mod proof;
mod random;
mod score;
mod seams;
mod stock;
mod stretch;
mod trails;
mod watch;

pub use item::Item;
pub use lay_out::LayoutSpec;
pub use layout::{Layout, Sheet};
pub use offcut::Offcut;
pub use placement::Placement;
pub use proof::LayoutReport;
pub use stock::{Grain, Stock};

pub(crate) use layout::item;

/// Area of a rectangle.
pub(crate) fn area([width, height]: [i64; 2]) -> i128 {
    i128::from(width) * i128::from(height)
}

#[cfg(test)]
#[path = "sheet_tests.rs"]
mod tests;

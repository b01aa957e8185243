//! How values show themselves: so that they can be pasted back.

use dryfit_core::{Amount, Nm, Side};

/// Exact millimetres as a Python number.
pub(crate) fn mm(length: Nm) -> String {
    length.to_string().trim_end_matches(" mm").to_owned()
}

/// Exact millionths as a Python number.
pub(crate) fn millionths(value: i64) -> String {
    // Nanometres are millionths of what they show.
    Amount::Length(value).to_string().trim_end_matches(" mm").to_owned()
}

/// A length that may be absent.
pub(crate) fn maybe_mm(length: Option<Nm>) -> String {
    length.map_or_else(|| "None".to_owned(), mm)
}

/// A side, as Python takes it.
pub(crate) const fn side(side: Side) -> &'static str {
    match side {
        Side::A => "a",
        Side::B => "b",
    }
}

/// The words for the two sides.
pub(crate) const SIDES: [(&str, Side); 2] = [("a", Side::A), ("b", Side::B)];

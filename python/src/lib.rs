//! The extension module behind the Python package `dryfit`: doors, and no geometry.
//!
//! Each file is one class or one kind of door. Millimetres come in as numbers or as strings with a unit ([`door`]), results go out
//! as numpy arrays ([`array`]), and every refusal becomes a Python exception in one place ([`refusal`]).
#![forbid(unsafe_code)]
#![cfg_attr(test, allow(clippy::unwrap_used))]

mod array;
mod assembly;
mod boards;
mod box_options;
mod boxes;
mod boxes_of;
mod column;
mod cutter;
mod cutting;
mod door;
mod dovetail;
mod estimate;
mod family;
mod features;
mod fingers;
mod fit;
mod fraction;
mod gaps;
mod halves;
mod html;
mod joint;
mod lay_out;
mod layout;
mod layout_line;
mod layout_report;
mod motion;
mod offcut;
mod opening;
mod pace;
mod panel;
mod part;
mod parts;
mod picture;
mod placement;
mod plan;
mod prism;
mod progress;
mod recipe;
mod record;
mod rectangles;
mod refusal;
mod relief;
mod report;
mod route;
mod sheet;
mod show;
mod slab;
mod slope;
mod sources;
mod spliced;
mod step;
mod stock;
mod sweep;
mod table;
mod tabs;
mod tails;
mod tally;

use pyo3::prelude::*;

/// The compiled part of dryfit. Import `dryfit` instead.
// Free-threaded interpreters were not to be had, so nothing is promised there: they keep their lock.
#[pymodule(gil_used = true)]
mod _dryfit {
    use super::*;

    #[pymodule_export]
    #[allow(non_upper_case_globals)]
    const __version__: &str = env!("CARGO_PKG_VERSION");

    #[pymodule_export]
    use crate::gaps::{Gaps, gaps};
    #[pymodule_export]
    use assembly::Assembly;
    #[pymodule_export]
    use boxes::r#box;
    #[pymodule_export]
    use boxes_of::Boxes;
    #[pymodule_export]
    use cutter::Cutter;
    #[pymodule_export]
    use dovetail::{DovetailCorner, dovetail_corner};
    #[pymodule_export]
    use estimate::{Estimate, OutsideKnown};
    #[pymodule_export]
    use fingers::Fingers;
    #[pymodule_export]
    use fit::Fit;
    #[pymodule_export]
    use halves::Halves;
    #[pymodule_export]
    use layout::Layout;
    #[pymodule_export]
    use layout_line::LayoutLine;
    #[pymodule_export]
    use layout_report::LayoutReport;
    #[pymodule_export]
    use motion::Motion;
    #[pymodule_export]
    use offcut::Offcut;
    #[pymodule_export]
    use pace::Pace;
    #[pymodule_export]
    use panel::Panel;
    #[pymodule_export]
    use part::Part;
    #[pymodule_export]
    use parts::Parts;
    #[pymodule_export]
    use placement::Placement;
    #[pymodule_export]
    use plan::Plan;
    #[pymodule_export]
    use prism::prism;
    #[pymodule_export]
    use relief::Relief;
    #[pymodule_export]
    use report::Report;
    #[pymodule_export]
    use route::{Cut, Route};
    #[pymodule_export]
    use sheet::Sheet;
    #[pymodule_export]
    use spliced::{ring, splice};
    #[pymodule_export]
    use step::Step;
    #[pymodule_export]
    use stock::Stock;
    #[pymodule_export]
    use sweep::sweep_boxes;
    #[pymodule_export]
    use tabs::Tabs;
    #[pymodule_export]
    use tails::Tails;
    #[pymodule_export]
    use tally::Tally;

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        refusal::install(module)
    }
}

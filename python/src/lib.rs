//! The extension module behind the Python package `dryfit`: doors, and no geometry.
//!
//! Each file is one class or one kind of door. Millimetres come in as numbers or as strings with a unit ([`door`]), results go out
//! as numpy arrays ([`array`]), and every refusal becomes a Python exception in one place ([`refusal`]).
#![forbid(unsafe_code)]
#![cfg_attr(test, allow(clippy::unwrap_used))]

mod array;
mod assembly;
mod boxes;
mod door;
mod fit;
mod fingers;
mod halves;
mod panel;
mod refusal;
mod show;
mod stock;
mod tabs;

use pyo3::prelude::*;

/// The compiled part of dryfit. Import `dryfit` instead.
#[pymodule]
mod _dryfit {
    use super::*;

    #[pymodule_export]
    #[allow(non_upper_case_globals)]
    const __version__: &str = env!("CARGO_PKG_VERSION");

    #[pymodule_export]
    use assembly::Assembly;
    #[pymodule_export]
    use boxes::r#box;
    #[pymodule_export]
    use fingers::Fingers;
    #[pymodule_export]
    use fit::Fit;
    #[pymodule_export]
    use halves::Halves;
    #[pymodule_export]
    use panel::Panel;
    #[pymodule_export]
    use stock::Stock;
    #[pymodule_export]
    use tabs::Tabs;

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        refusal::install(module)
    }
}

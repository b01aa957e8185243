//! `Step`: one move of putting together.

use pyo3::prelude::*;

/// One straight move of putting together: which panel, and in which direction it is moved into place ("+x", "-z" and so on).
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> box(outside=(110, 85, 60), stock=stock).order()[-1]
/// <dryfit.Step: 'top' moves -z>
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Step {
    pub(crate) core: dryfit_core::Step,
}

#[pymethods]
impl Step {
    /// The panel's name.
    #[getter]
    fn panel(&self) -> &str {
        &self.core.name
    }

    /// "+x", "-x", "+y", "-y", "+z" or "-z".
    #[getter]
    fn direction(&self) -> String {
        self.core.direction.to_string()
    }

    fn __repr__(&self) -> String {
        format!("<dryfit.Step: '{}' moves {}>", self.core.name, self.core.direction)
    }
}

//! `Step`: one move of putting together.

use pyo3::prelude::*;

/// One straight move of putting together: which panel, and in which direction it is moved into place ("+x", "-z" and so on).
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> box(outside=(110, 85, 60), stock=stock).order()[-1]
/// <dryfit.Step: 'top' moves -z>
///
/// Boards that are joined to each other but to no other, as a lid and its battens, are put together by themselves: their moves come first,
/// with one of them, the largest where that can be, at rest; then that one moves, with the others ``along``.
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Step {
    pub(crate) core: dryfit_core::Step,
    /// Their names.
    pub(crate) along: Vec<String>,
}

#[pymethods]
impl Step {
    /// The panel's name.
    #[getter]
    fn panel(&self) -> &str {
        &self.core.name
    }

    /// "+x", "-x", "+y", "-y", "+z" or "-z"; where boards are turned perhaps along one of the panel's own axes, the columns of its
    /// ``frame``: "+u" to "-w".
    #[getter]
    fn direction(&self) -> String {
        self.core.direction.to_string()
    }

    /// The panels that were joined to it before, apart from the others, and move along.
    #[getter]
    fn along(&self) -> Vec<String> {
        self.along.clone()
    }

    fn __repr__(&self) -> String {
        let along: Vec<_> = self.along.iter().map(|name| format!("'{name}'")).collect();
        let with = if along.is_empty() { String::new() } else { format!(", with {}", along.join(", ")) };
        format!("<dryfit.Step: '{}' moves {}{with}>", self.core.name, self.core.direction)
    }
}

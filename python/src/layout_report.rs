//! `LayoutReport`: what the proof of a layout found.

use pyo3::prelude::*;

/// What the proof of a layout found. Made by ``Layout.check``.
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayoutReport {
    pub(crate) core: dryfit_core::LayoutReport,
}

#[pymethods]
impl LayoutReport {
    /// Whether the layout can be cut as it is.
    #[getter]
    fn ok(&self) -> bool {
        self.core.ok()
    }

    /// What is wrong, with parts and places; empty if all is well. At most 100, and a line that there are more.
    #[getter]
    fn problems(&self) -> Vec<&str> {
        self.core.problems.iter().map(String::as_str).collect()
    }

    /// The least distance in mm of the cut paths of two parts on one sheet that share no cut; None without such parts.
    #[getter]
    fn gap_min(&self) -> Option<f64> {
        self.core.gap_min.map(dryfit_core::Nm::mm)
    }

    /// The length in mm that one cut does for two parts.
    #[getter]
    fn shared_length(&self) -> f64 {
        self.core.shared_length as f64 / 1e6
    }

    fn __repr__(&self) -> String {
        let verdict = match self.core.problems.as_slice() {
            [] => "it can be cut".to_owned(),
            [only] => only.clone(),
            [first, rest @ ..] => format!("{first}, and {} more problems", rest.len()),
        };
        let gap = self.core.gap_min.map_or_else(String::new, |gap| format!("; least gap {gap}"));
        format!("<dryfit.LayoutReport: {verdict}{gap}>")
    }
}

//! `LayoutReport`: what the proof of a layout found.

use dryfit_core::Nm;
use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::html::html;
use crate::record::Again;
use crate::refusal::Refusal;

/// What the proof of a layout found. Made by ``Layout.check``. Lengths in mm.
///
/// >>> stock = Stock(thickness=1, sheet=(100, 70), gap=2)
/// >>> report = Parts.rectangles([(40, 40), (40, 40)]).lay_out(stock).check()
/// >>> report.ok, report.problems, report.gap_min, report.shared_length
/// (True, [], 2.0, 0.0)
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
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
        self.core.gap_min.map(Nm::mm)
    }

    /// The length in mm that one cut does for two parts.
    #[getter]
    fn shared_length(&self) -> f64 {
        self.core.shared_length as f64 / 1e6
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Vec<String>, Option<i64>, i64)> {
        let core = &slf.get().core;
        Ok((slf.get_type().getattr("_of")?, (core.problems.clone(), core.gap_min.map(Nm::nm), core.shared_length)))
    }

    /// Makes a pickled report again: lengths in nanometres.
    #[classmethod]
    fn _of(_class: &Bound<'_, PyType>, problems: Vec<String>, gap_min: Option<i64>, shared_length: i64) -> PyResult<LayoutReport> {
        let gap_min = gap_min.map(Nm::new).transpose().map_err(Refusal::from)?;
        Ok(LayoutReport { core: dryfit_core::LayoutReport { problems, gap_min, shared_length } })
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "layout_report")
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

//! `Estimate`: how long a job takes, and the warning where it is a guess.

use std::ffi::CString;
use std::hash::{Hash, Hasher};

use dryfit_core::{Code, Cost};
use pyo3::exceptions::PyUserWarning;
use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::html::html;
use crate::record::Again;
use crate::refusal::Refusal;

pyo3::create_exception!(
    dryfit,
    OutsideKnown,
    PyUserWarning,
    "A job has less or more of something than any of the known jobs that a pace was made of: its minutes are a guess."
);

/// How long a job takes, and how sure that is. Made by ``Layout.estimate``.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
/// >>> layout = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.blade(kerf=0)).lay_out(stock)
/// >>> estimate = layout.estimate(Pace(feed=20, acceleration=500))
/// >>> estimate, estimate.spread, estimate.outside
/// (<dryfit.Estimate: 2.8 minutes>, None, [])
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    pub(crate) core: dryfit_core::Estimate,
}

impl Hash for Estimate {
    fn hash<H: Hasher>(&self, state: &mut H) {
        // Zeros of both signs are equal.
        (self.core.minutes + 0.0).to_bits().hash(state);
        self.core.outside.hash(state);
    }
}

/// Warns where a job lies outside the known ones.
pub(crate) fn warn(py: Python<'_>, estimate: &dryfit_core::Estimate) -> PyResult<()> {
    if estimate.outside.is_empty() {
        return Ok(());
    }
    let names: Vec<&str> = estimate.outside.iter().map(|cost| cost.name()).collect();
    let text = format!("the job lies outside the known ones ({}): {:.1} minutes are a guess", names.join(", "), estimate.minutes);
    PyErr::warn(py, &py.get_type::<OutsideKnown>(), &CString::new(text)?, 1)
}

#[pymethods]
impl Estimate {
    /// The minutes of all sheets.
    #[getter]
    fn minutes(&self) -> f64 {
        self.core.minutes
    }

    /// Their standard error in minutes: what jobs vary by, and how sure the costs are so far away from the known jobs. None by a machine's numbers, and
    /// where the known jobs are no more than the costs.
    #[getter]
    fn spread(&self) -> Option<f64> {
        self.core.spread
    }

    /// What there is less or more of than in any known job, of "cut", "parts", "starts", "corners", "travel" and "sheets": there the minutes are a guess.
    #[getter]
    fn outside(&self) -> Vec<&'static str> {
        self.core.outside.iter().map(|cost: &Cost| cost.name()).collect()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (f64, Option<f64>, Vec<&'static str>)> {
        let this = slf.get();
        Ok((slf.get_type().getattr("_of")?, (this.core.minutes, this.core.spread, this.outside())))
    }

    /// Makes a pickled estimate again.
    #[classmethod]
    fn _of(_class: &Bound<'_, PyType>, minutes: f64, spread: Option<f64>, outside: Vec<String>) -> PyResult<Estimate> {
        let cost = |name: String| Cost::ALL.into_iter().find(|cost| cost.name() == name).ok_or(name);
        let outside = outside.into_iter().map(cost).collect::<Result<Vec<_>, _>>();
        let outside = outside.map_err(|name| Refusal::new(Code::OutOfRange, "outside", format!("\"{name}\" given, allowed names of costs")))?;
        Ok(Estimate { core: dryfit_core::Estimate { minutes, spread, outside } })
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "estimate")
    }

    fn __repr__(&self) -> String {
        let spread = self.core.spread.map_or_else(String::new, |spread| format!(" ± {spread:.1}"));
        let outside = if self.core.outside.is_empty() { String::new() } else { format!(", outside the known jobs: {}", self.outside().join(", ")) };
        format!("<dryfit.Estimate: {:.1}{spread} minutes{outside}>", self.core.minutes)
    }
}

//! `Fit`: allowances.

use dryfit_core::Nm;
use dryfit_core::bounds::ALLOWANCE;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::refusal::Refusal;
use crate::show::mm;

/// Allowances: the gap between two mates in mm, or strings with a unit; positive is clearance, negative interference (as in ISO 286).
///
/// ``flank`` lies between two cut edges, ``cheek`` between a cut edge and a board's face (a slot is thickness + cheek wide), and
/// ``tip`` is how far a finger's end stands proud (+) or back (-). Each from -10 to 10 mm.
///
/// Raises a ``DryfitError`` for values out of range.
///
/// >>> Fit(cheek="0.1 mm")
/// Fit(flank=0, cheek=0.1, tip=0)
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Fit {
    pub(crate) core: dryfit_core::Fit,
}

#[pymethods]
impl Fit {
    #[new]
    #[pyo3(signature = (*, flank = None, cheek = None, tip = None))]
    fn new(flank: Option<&Bound<'_, PyAny>>, cheek: Option<&Bound<'_, PyAny>>, tip: Option<&Bound<'_, PyAny>>) -> PyResult<Fit> {
        let read = |value: Option<&Bound<'_, PyAny>>, name| value.map_or(Ok(Nm::ZERO), |value| door::length(value, &ALLOWANCE, name));
        let core = dryfit_core::Fit::new(read(flank, "flank")?, read(cheek, "cheek")?, read(tip, "tip")?).map_err(Refusal::from)?;
        Ok(Fit { core })
    }

    /// Gap between two cut edges, in mm.
    #[getter]
    fn flank(&self) -> f64 {
        self.core.flank().mm()
    }

    /// Gap between a cut edge and a face, in mm.
    #[getter]
    fn cheek(&self) -> f64 {
        self.core.cheek().mm()
    }

    /// How far a finger's end stands proud, in mm.
    #[getter]
    fn tip(&self) -> f64 {
        self.core.tip().mm()
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("flank", self.flank())?;
        named.set_item("cheek", self.cheek())?;
        named.set_item("tip", self.tip())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        format!("Fit(flank={}, cheek={}, tip={})", mm(self.core.flank()), mm(self.core.cheek()), mm(self.core.tip()))
    }
}

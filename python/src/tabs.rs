//! `Tabs`: tabs of one board through slots of the other.

use dryfit_core::Nm;
use dryfit_core::bounds::{TAB_END, TAB_SPACING, TAB_WIDTH};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::show::{maybe_mm, mm};

/// Tabs through slots: as many as fit, each exactly ``width`` wide, at least ``spacing`` apart, in mm or strings with a unit.
///
/// The outermost stand ``end`` from the ends of the run, half the spacing if left out; what is left over widens the spacing evenly.
/// The tabs belong to the board whose edge meets the other's face, else to the board named first.
///
/// Raises a ``DryfitError`` for values out of range; that tabs do not fit the run shows when the panels are made.
///
/// >>> Tabs(width=20, spacing=40)
/// Tabs(width=20, spacing=40, end=None)
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tabs {
    width: Nm,
    spacing: Nm,
    end: Option<Nm>,
}

impl Tabs {
    pub(crate) fn core(&self) -> dryfit_core::Tabs {
        let tabs = dryfit_core::Tabs::new(self.width, self.spacing);
        self.end.map_or(tabs, |end| tabs.end(end))
    }
}

#[pymethods]
impl Tabs {
    #[new]
    #[pyo3(signature = (*, width, spacing, end = None))]
    fn new(width: &Bound<'_, PyAny>, spacing: &Bound<'_, PyAny>, end: Option<&Bound<'_, PyAny>>) -> PyResult<Tabs> {
        Ok(Tabs {
            width: door::length(width, &TAB_WIDTH, "width")?,
            spacing: door::length(spacing, &TAB_SPACING, "spacing")?,
            end: door::maybe_length(end, &TAB_END, "end")?,
        })
    }

    /// Width of every tab in mm.
    #[getter]
    fn width(&self) -> f64 {
        self.width.mm()
    }

    /// Least space between two tabs in mm.
    #[getter]
    fn spacing(&self) -> f64 {
        self.spacing.mm()
    }

    /// Distance of the outermost tabs from the ends in mm, or None for half the spacing.
    #[getter]
    fn end(&self) -> Option<f64> {
        self.end.map(Nm::mm)
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("width", self.width())?;
        named.set_item("spacing", self.spacing())?;
        named.set_item("end", self.end())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        format!("Tabs(width={}, spacing={}, end={})", mm(self.width), mm(self.spacing), maybe_mm(self.end))
    }
}

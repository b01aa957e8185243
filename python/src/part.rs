//! `Part`: a panel as the cutter has to cut it.

use dryfit_core::{Shape, panel_svg};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList};

use crate::array;

/// One part to be cut. Its outline is the line that the cutter's centre follows; lengths in mm.
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    pub(crate) name: String,
    core: dryfit_core::Part,
    finished: Shape,
}

impl Part {
    pub(crate) fn new(name: &str, core: &dryfit_core::Part) -> Part {
        Part { name: name.to_owned(), core: core.clone(), finished: core.finished().clone() }
    }
}

#[pymethods]
impl Part {
    /// The part's name within its job.
    #[getter]
    fn name(&self) -> &str {
        &self.name
    }

    /// Thickness of the board in mm.
    #[getter]
    fn thickness(&self) -> f64 {
        self.core.thickness().mm()
    }

    /// The cutter's path as read-only float64 arrays (n, 2) in mm: outer loops first and counter-clockwise, holes clockwise.
    #[getter]
    fn loops<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_mm(py, self.core.path())
    }

    /// The cutter's path as read-only int64 arrays in nanometres, exact.
    #[getter]
    fn loops_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_nm(py, self.core.path())
    }

    /// What comes off the cutter, half the kerf inside the path, as ``loops``.
    #[getter]
    fn finished_loops<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_mm(py, &self.finished)
    }

    /// What comes off the cutter, as ``loops_nm``.
    #[getter]
    fn finished_loops_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_nm(py, &self.finished)
    }

    /// Where the part will stand: a read-only float64 array (4, 4) that takes (u, v, w, 1) to assembly mm.
    #[getter]
    fn frame<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        array::frame(py, &self.core.board().frame())
    }

    /// Area of one face of what comes off the cutter, in square mm.
    #[getter]
    fn area(&self) -> f64 {
        self.finished.area_mm2()
    }

    /// The cutter's path as a GeoJSON-like mapping in mm.
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        array::geo_interface(py, self.core.path())
    }

    fn _repr_svg_(&self, py: Python<'_>) -> String {
        py.detach(|| panel_svg(&self.finished, &self.name))
    }

    fn __repr__(&self) -> String {
        let (lo, hi) = self.core.path().bounds();
        format!("<dryfit.Part '{}', {} x {}, {} thick>", self.name, hi.x - lo.x, hi.y - lo.y, self.core.thickness())
    }
}

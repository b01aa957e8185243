//! `Part`: a panel as the cutter has to cut it.

use std::hash::{Hash, Hasher};

use dryfit_core::bounds::{KERF, SIZE};
use dryfit_core::{Nm, kerf_svg, panel_svg};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList, PyType};

use crate::array;
use crate::door;
use crate::html::html;
use crate::parts::Parts;
use crate::record::Again;

/// One part to be cut. Its outline is the line that the cutter's centre follows; lengths in mm.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> part = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.beam(kerf=0.2))["front"]
/// >>> part
/// <dryfit.Part 'front', 110.2 mm x 60.2 mm, 2.5 mm thick>
/// >>> part.loops[0].min(axis=0).tolist(), part.finished_loops[0].min(axis=0).tolist()
/// ([-0.1, -0.1], [0.0, 0.0])
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Part {
    name: String,
    core: dryfit_core::Part,
    /// The job that it is of.
    parts: Parts,
}

impl Part {
    pub(crate) fn new(parts: &Parts, name: &str, core: &dryfit_core::Part) -> Part {
        Part { name: name.to_owned(), core: core.clone(), parts: parts.clone() }
    }
}

impl PartialEq for Part {
    fn eq(&self, other: &Part) -> bool {
        (&self.name, &self.core) == (&other.name, &other.core)
    }
}

impl Hash for Part {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (&self.name, &self.core).hash(state);
    }
}

#[pymethods]
impl Part {
    /// The part's name within its job.
    #[getter]
    fn name(&self) -> &str {
        &self.name
    }

    /// The name of the board in its assembly: the part's own without label and number; None for a plain part, which stands nowhere.
    #[getter]
    fn board(&self) -> Option<&str> {
        self.core.board().map(dryfit_core::Board::name)
    }

    /// Thickness of the board in mm; None for a plain part that any board will do for.
    #[getter]
    fn thickness(&self) -> Option<f64> {
        self.core.thickness().map(Nm::mm)
    }

    /// The cutter's path as read-only float64 arrays (n, 2) in mm: outer loops first and counter-clockwise, holes clockwise.
    /// In place of an arc stand points on it, so many that no chord is farther from it than 0.001 mm. Into a relieved corner the path goes
    /// and comes back the same way.
    #[getter]
    fn loops<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_mm(py, self.core.path())
    }

    /// The vertices of the path as read-only int64 arrays (n, 2) in nanometres, exact; which of the edges are arcs stands in ``arcs_nm``.
    #[getter]
    fn loops_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_nm(py, self.core.path())
    }

    /// The arcs of the path as read-only int64 arrays (k, 3), one for each loop: the number of the vertex in ``loops_nm`` that the arc leaves, and its
    /// centre in nanometres. Every arc runs clockwise and is at most half a circle.
    #[getter]
    fn arcs_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::arcs_nm(py, self.core.path())
    }

    /// What comes off the cutter, half the kerf inside the path, in mm, as ``loops``.
    #[getter]
    fn finished_loops<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_mm(py, self.core.finished())
    }

    /// What comes off the cutter, as ``loops_nm``.
    #[getter]
    fn finished_loops_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_nm(py, self.core.finished())
    }

    /// The arcs of what comes off the cutter as read-only int64 arrays (k, 3), one for each loop: the number of the vertex in ``finished_loops_nm`` that the arc leaves, and its
    /// centre in nanometres. Every arc runs clockwise and is at most half a circle.
    #[getter]
    fn finished_arcs_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::arcs_nm(py, self.core.finished())
    }

    /// Where the part will stand: a read-only float64 array (4, 4) that takes (u, v, w, 1) to assembly mm. None for a plain part, which stands nowhere.
    #[getter]
    fn frame<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.core.board().map(|board| array::frame(py, &board.frame())).transpose()
    }

    /// Area of one face of what comes off the cutter, in square mm.
    #[getter]
    fn area(&self) -> f64 {
        self.core.finished().area_mm2()
    }

    /// What comes off the cutter as a GeoJSON-like mapping in mm, as shapely and others read it; its area is ``area``. (The path is no polygon where it goes
    /// into a relieved corner and comes back the same way.)
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        array::geo_interface(py, self.core.finished())
    }

    /// A picture as SVG, in mm, of what a cut of the full width ``kerf`` leaves when its middle follows the part's path: the part, the cut, and in dashes the
    /// outline that was meant. ``side``: only the square of that side at the lower left corner, much enlarged.
    ///
    /// A cut that is wider or narrower than the one the part was made for shows beside the dashes.
    ///
    /// Raises ``OutOfRange``, ``NotALength``, ``WrongType``.
    ///
    /// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
    /// >>> part = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.beam(kerf=0.18))["front"]
    /// >>> 'stroke-width="0.3"' in part.picture(kerf=0.3, side=15)
    /// True
    #[pyo3(signature = (*, kerf, side = None))]
    fn picture(&self, py: Python<'_>, kerf: &Bound<'_, PyAny>, side: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let (kerf, side) = (door::length(kerf, &KERF, "kerf")?, door::maybe_length(side, &SIZE.named("side"), "side")?);
        Ok(py.detach(|| kerf_svg(self.core.path(), self.core.finished(), kerf, side, &self.name)))
    }

    fn _repr_svg_(&self, py: Python<'_>) -> String {
        py.detach(|| panel_svg(self.core.finished(), &self.name))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Parts, String)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().parts.clone(), slf.get().name.clone())))
    }

    /// A part of a pickled job.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, parts: &Bound<'py, PyAny>, name: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        parts.get_item(name)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "part")
    }

    fn __repr__(&self) -> String {
        let (lo, hi) = self.core.path().bounds();
        let thick = self.core.thickness().map_or_else(String::new, |thickness| format!(", {thickness} thick"));
        format!("<dryfit.Part '{}', {} x {}{thick}>", self.name, hi.x - lo.x, hi.y - lo.y)
    }
}

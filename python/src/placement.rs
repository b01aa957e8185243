//! `Placement`: where a part lies on its sheet.

use std::hash::{Hash, Hasher};

use dryfit_core::{Shape, panel_svg};
use pyo3::prelude::*;
use pyo3::types::{PyList, PyType};

use crate::array;
use crate::html::html;
use crate::record::Again;
use crate::sheet::Sheet;

/// Where one part lies on a sheet: mirrored if ``flipped``, then turned, then moved. Sheet coordinates in mm, x right, y up, from the lower left corner.
///
/// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(Stock(thickness=1, sheet=(100, 70), border=8)).sheets[0]
/// >>> placement = sheet.placements[0]
/// >>> placement.part, placement.x, placement.y, placement.quarter_turns, placement.flipped
/// ('1', 8.0, 8.0, 0, False)
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Placement {
    core: dryfit_core::Placement,
    name: String,
    placed: Shape,
    sheet: Sheet,
    index: usize,
}

impl Placement {
    /// The placement of this number on a sheet.
    pub(crate) fn new(sheet: &Sheet, index: usize, core: dryfit_core::Placement, name: &str, path: &Shape) -> Placement {
        Placement { core, name: name.to_owned(), placed: core.place(path), sheet: sheet.clone(), index }
    }

    /// The part of its job does not count, only its name and outline.
    fn value(&self) -> (&str, &Shape, u8, bool) {
        (&self.name, &self.placed, self.quarter_turns(), self.core.flipped)
    }
}

impl PartialEq for Placement {
    fn eq(&self, other: &Placement) -> bool {
        self.value() == other.value()
    }
}

impl Hash for Placement {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.value().hash(state);
    }
}

#[pymethods]
impl Placement {
    /// The part's name.
    #[getter]
    fn part(&self) -> &str {
        &self.name
    }

    /// Left end of the placed part's bounding box, in mm.
    #[getter]
    fn x(&self) -> f64 {
        self.core.at.x.mm()
    }

    /// Lower end of the placed part's bounding box, in mm.
    #[getter]
    fn y(&self) -> f64 {
        self.core.at.y.mm()
    }

    /// Quarter turns counter-clockwise, 0 to 3.
    #[getter]
    fn quarter_turns(&self) -> u8 {
        self.core.quarter_turns % 4
    }

    /// Whether the part lies mirrored.
    #[getter]
    fn flipped(&self) -> bool {
        self.core.flipped
    }

    /// The cutter's path on the sheet as read-only float64 arrays (n, 2) in mm: outer loops first and counter-clockwise, holes clockwise.
    #[getter]
    fn loops<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_mm(py, &self.placed)
    }

    /// The vertices as read-only int64 arrays (n, 2) in nanometres, exact; which of the edges are arcs stands in ``arcs_nm``.
    #[getter]
    fn loops_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_nm(py, &self.placed)
    }

    /// The arcs as read-only int64 arrays (k, 3), one for each loop: the number of the vertex in ``loops_nm`` that the arc leaves, and its
    /// centre in nanometres. Every arc runs clockwise and is at most half a circle.
    #[getter]
    fn arcs_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::arcs_nm(py, &self.placed)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Sheet, usize)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().sheet.clone(), slf.get().index)))
    }

    /// A placement of a pickled sheet.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, sheet: &Bound<'py, PyAny>, index: usize) -> PyResult<Bound<'py, PyAny>> {
        sheet.getattr("placements")?.get_item(index)
    }

    /// Area in square mm that the cutter's path goes around, holes left out.
    #[getter]
    fn area(&self) -> f64 {
        self.placed.area_mm2()
    }

    fn _repr_svg_(&self, py: Python<'_>) -> String {
        py.detach(|| panel_svg(&self.placed, &self.name))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "placement")
    }

    fn __repr__(&self) -> String {
        let turned = if self.quarter_turns() == 0 { String::new() } else { format!(", {} quarter turns", self.quarter_turns()) };
        format!(
            "<dryfit.Placement of '{}' at {}, {}{turned}{}>",
            self.name,
            self.core.at.x,
            self.core.at.y,
            if self.core.flipped { ", flipped" } else { "" }
        )
    }
}

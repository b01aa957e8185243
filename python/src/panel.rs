//! `Panel`: what is left of a board's slab.

use std::hash::{Hash, Hasher};
use std::sync::{Arc, LazyLock};

use dryfit_core::{Shape, panel_svg};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList, PyTuple, PyType};

use crate::array;
use crate::boards::Set;
use crate::door;
use crate::html::html;
use crate::recipe;
use crate::record::Again;

/// One flat piece of an assembly, nominal (before allowances and kerf). Lengths in mm.
///
/// Panel coordinates run from the slab's lowest corner, x right and y up, seen on the face that ``frame`` turns outwards.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> panel = box(outside=(110, 85, 60), stock=stock).panels["front"]
/// >>> panel.name, panel.thickness, panel.loops[0].shape[1]
/// ('front', 2.5, 2)
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Panel {
    all: Arc<Set>,
    index: usize,
}

impl PartialEq for Panel {
    fn eq(&self, other: &Panel) -> bool {
        self.core() == other.core()
    }
}

impl Hash for Panel {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.core().hash(state);
    }
}

impl Panel {
    /// The panel of a number; the number is known to exist.
    pub(crate) fn of(all: &Arc<Set>) -> impl Iterator<Item = Panel> {
        (0..all.panels.len()).map(|index| Panel { all: Arc::clone(all), index })
    }

    /// The board's name.
    pub(crate) fn label(&self) -> &str {
        self.core().map_or("", |panel| panel.name())
    }

    fn core(&self) -> Option<&dryfit_core::Panel> {
        self.all.panels.get(self.index)
    }

    fn shape(&self) -> &Shape {
        static NONE: LazyLock<Shape> = LazyLock::new(Shape::default);
        self.core().map_or(&NONE, dryfit_core::Panel::shape)
    }
}

#[pymethods]
impl Panel {
    /// The board's name.
    #[getter]
    fn name(&self) -> &str {
        self.label()
    }

    /// Thickness of the board in mm.
    #[getter]
    fn thickness(&self) -> f64 {
        self.core().map_or(0.0, |panel| panel.board().thickness().mm())
    }

    /// The loops as read-only float64 arrays (n, 2) in mm: outer loops first and counter-clockwise, holes clockwise, the first point not repeated.
    /// In place of an arc stand points on it, so many that no chord is farther from it than 0.001 mm.
    #[getter]
    fn loops<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_mm(py, self.shape())
    }

    /// The vertices of the same loops as read-only int64 arrays (n, 2) in nanometres, exact; which of the edges are arcs stands in ``arcs_nm``.
    #[getter]
    fn loops_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::loops_nm(py, self.shape())
    }

    /// The arcs as read-only int64 arrays (k, 3), one for each loop: the number of the vertex in ``loops_nm`` that the arc leaves, and its
    /// centre in nanometres. Every arc runs clockwise and is at most half a circle.
    #[getter]
    fn arcs_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyList>> {
        array::arcs_nm(py, self.shape())
    }

    /// Where the panel stands: a read-only float64 array (4, 4) that takes (u, v, w, 1) to assembly mm; the sheet fills 0 <= w <= thickness.
    #[getter]
    fn frame<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.core().map(|panel| array::frame(py, &panel.board().frame())).transpose()
    }

    /// Area of one face in square mm, arcs and all.
    #[getter]
    fn area(&self) -> f64 {
        self.shape().area_mm2()
    }

    /// The panel as a GeoJSON-like mapping in mm, as shapely and others read it.
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        array::geo_interface(py, self.shape())
    }

    fn _repr_svg_(&self, py: Python<'_>) -> String {
        py.detach(|| panel_svg(self.shape(), self.label()))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Bound<'py, PyTuple>, String)> {
        let this = slf.get();
        Ok((slf.get_type().getattr("_of")?, (this.all.recipe.to_python(slf.py())?, this.label().to_owned())))
    }

    /// A panel of a pickled assembly.
    #[classmethod]
    fn _of<'py>(class: &Bound<'py, PyType>, calls: &Bound<'py, PyTuple>, name: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        let name = door::text(name, "name")?;
        recipe::again(class.py(), calls)?.getattr("panels")?.get_item(name)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "panel")
    }

    fn __repr__(&self) -> String {
        let (lo, hi) = self.shape().bounds();
        format!(
            "<dryfit.Panel '{}', {} x {}, {} thick>",
            self.label(),
            hi.x - lo.x,
            hi.y - lo.y,
            self.core().map(|p| p.board().thickness()).unwrap_or_default()
        )
    }
}

//! `Relief`: room for square mates in inner corners.

use dryfit_core::Reach;
use dryfit_core::bounds::RELIEF;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::refusal::Refusal;
use crate::show::mm;

const SHAPES: [(&str, Reach); 3] = [("diagonal", Reach::Diagonal), ("flank", Reach::Flank), ("cheek", Reach::Cheek)];

/// Round holes at the inner corners that a mate must fill, for a tool that cannot cut a square corner.
///
/// ``radius`` is the circle's, in mm or a string with a unit, from 0.001 to 20 mm and at least the tool's; in
/// corners sharper than a right angle, as tails have, a little more, which the refusal states. ``shape`` says where it lies:
/// "diagonal" on the corner's bisector (dog-bone), "flank" along the finger's side or "cheek" along the shoulder (T-bone).
///
/// Raises ``OutOfRange``, ``WrongType``; what does not suit tool or parts shows in ``Assembly.cut``.
///
/// >>> stock = Stock(thickness=6, sheet=(600, 400))
/// >>> bit = Cutter.bit(diameter=3)
/// >>> parts = box(outside=(200, 150, 100), stock=stock).cut(cutter=bit, relief=Relief(radius=1.5))
/// >>> parts.dry_fit().ok
/// True
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Relief {
    pub(crate) core: dryfit_core::Relief,
}

#[pymethods]
impl Relief {
    #[new]
    #[pyo3(signature = (*, radius, shape = None))]
    fn new(radius: &Bound<'_, PyAny>, shape: Option<&Bound<'_, PyAny>>) -> PyResult<Relief> {
        let reach = shape.map_or(Ok(Reach::Diagonal), |shape| door::choice(shape, &SHAPES, "shape"))?;
        let core = dryfit_core::Relief::new(door::length(radius, &RELIEF.named("radius"), "radius")?, reach).map_err(Refusal::from)?;
        Ok(Relief { core })
    }

    /// Radius of the circle in mm.
    #[getter]
    fn radius(&self) -> f64 {
        self.core.radius().mm()
    }

    /// "diagonal", "flank" or "cheek".
    #[getter]
    fn shape(&self) -> &'static str {
        SHAPES.iter().find(|(_, reach)| *reach == self.core.reach()).map_or("", |(word, _)| word)
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("radius", self.radius())?;
        named.set_item("shape", self.shape())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        format!("Relief(radius={}, shape='{}')", mm(self.core.radius()), self.shape())
    }
}

//! What several flat pieces look like to packages for plane geometry.

use dryfit_core::Shape;
use pyo3::exceptions::PyAttributeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::array;
use crate::refusal::is_refusal;

/// One piece: its name, its thickness in mm if it has one, its outline.
pub(crate) type Piece<'a> = (&'a str, Option<f64>, &'a Shape);

/// A GeoJSON-like FeatureCollection in mm; every feature has `name`, `thickness` and `kind`.
pub(crate) fn collection<'py, 'a>(py: Python<'py>, kind: &str, pieces: impl Iterator<Item = Piece<'a>>) -> PyResult<Bound<'py, PyDict>> {
    let feature = |(name, thickness, shape): Piece<'a>| {
        let properties = PyDict::new(py);
        properties.set_item("name", name)?;
        properties.set_item("thickness", thickness)?;
        properties.set_item("kind", kind)?;
        let feature = PyDict::new(py);
        feature.set_item("type", "Feature")?;
        feature.set_item("properties", properties)?;
        feature.set_item("geometry", array::geo_interface(py, shape)?)?;
        Ok(feature)
    };
    let features = pieces.map(feature).collect::<PyResult<Vec<_>>>()?;
    let dict = PyDict::new(py);
    dict.set_item("type", "FeatureCollection")?;
    dict.set_item("features", PyTuple::new(py, features)?)?;
    Ok(dict)
}

/// What an attribute is that cannot be made yet: absent, for whoever only looks whether it is there. The refusal says why; other errors stay as they are.
pub(crate) fn absent(py: Python<'_>, error: PyErr) -> PyErr {
    if !is_refusal(py, &error) {
        return error;
    }
    let absent = PyAttributeError::new_err(format!("__geo_interface__: no panels yet: {}", error.value(py)));
    absent.set_cause(py, Some(error));
    absent
}

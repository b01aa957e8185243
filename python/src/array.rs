//! What goes out: read-only numpy arrays, made from bytes without `unsafe`.

use std::borrow::Cow;

use dryfit_core::{Frame, Nm, Point, Shape, Vertex};
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyBytes, PyDict, PyList, PyTuple};

static FROM_BUFFER: PyOnceLock<Py<PyAny>> = PyOnceLock::new();

fn array<'py>(py: Python<'py>, bytes: &[u8], dtype: &str, shape: (usize, usize)) -> PyResult<Bound<'py, PyAny>> {
    let from_buffer = FROM_BUFFER.get_or_try_init(py, || Ok::<_, PyErr>(py.import("numpy")?.getattr("frombuffer")?.unbind()))?;
    from_buffer.bind(py).call1((PyBytes::new(py, bytes), dtype))?.call_method1("reshape", shape)
}

fn line<'py, const N: usize>(
    py: Python<'py>,
    points: impl Iterator<Item = Point>,
    dtype: &str,
    bytes: impl Fn(i64) -> [u8; N],
) -> PyResult<Bound<'py, PyAny>> {
    let flat: Vec<u8> = points.flat_map(|at| [at.x, at.y]).flat_map(|nm| bytes(nm.nm())).collect();
    array(py, &flat, dtype, (flat.len() / (2 * N), 2))
}

fn per_loop<'py, const N: usize>(py: Python<'py>, shape: &Shape, dtype: &str, bytes: impl Fn(i64) -> [u8; N]) -> PyResult<Bound<'py, PyList>> {
    let arrays = shape.loops().map(|ring| line(py, ring.iter().map(|vertex| vertex.at), dtype, &bytes));
    PyList::new(py, arrays.collect::<PyResult<Vec<_>>>()?)
}

/// Points in place of an arc lie so near that no chord is farther from it.
pub(crate) const FLAT: Nm = match Nm::new(1000) {
    Ok(micrometre) => micrometre,
    Err(_) => Nm::ZERO,
};

/// The loops as float64 millimetres, with points in place of arcs.
pub(crate) fn loops_mm<'py>(py: Python<'py>, shape: &Shape) -> PyResult<Bound<'py, PyList>> {
    per_loop(py, &flat(shape), "f8", |nm| (nm as f64 / 1e6).to_ne_bytes())
}

/// Outlines without arcs stay as they are.
fn flat(shape: &Shape) -> Cow<'_, Shape> {
    if shape.is_bent() { Cow::Owned(shape.flattened(FLAT)) } else { Cow::Borrowed(shape) }
}

/// The arcs of each loop as int64 (k, 3): the number of the vertex where it starts, and its centre in nanometres.
pub(crate) fn arcs_nm<'py>(py: Python<'py>, shape: &Shape) -> PyResult<Bound<'py, PyList>> {
    let arrays = shape.rings().map(|ring| {
        let rows: Vec<_> = ring.arcs().map(|(index, arc)| [index as i64, arc.centre.x.nm(), arc.centre.y.nm()]).collect();
        let flat: Vec<u8> = rows.iter().flatten().flat_map(|number| number.to_ne_bytes()).collect();
        array(py, &flat, "i8", (rows.len(), 3))
    });
    PyList::new(py, arrays.collect::<PyResult<Vec<_>>>()?)
}

/// The loops' vertices as int64 nanometres.
pub(crate) fn loops_nm<'py>(py: Python<'py>, shape: &Shape) -> PyResult<Bound<'py, PyList>> {
    per_loop(py, shape, "i8", i64::to_ne_bytes)
}

/// An open line as float64 millimetres.
pub(crate) fn line_mm(py: Python<'_>, points: impl Iterator<Item = Point>) -> PyResult<Bound<'_, PyAny>> {
    line(py, points, "f8", |nm| (nm as f64 / 1e6).to_ne_bytes())
}

/// An open line as int64 nanometres.
pub(crate) fn line_nm(py: Python<'_>, points: impl Iterator<Item = Point>) -> PyResult<Bound<'_, PyAny>> {
    line(py, points, "i8", i64::to_ne_bytes)
}

/// The 4 x 4 matrix of a frame.
pub(crate) fn frame<'py>(py: Python<'py>, frame: &Frame) -> PyResult<Bound<'py, PyAny>> {
    let flat: Vec<u8> = frame.matrix().into_iter().flatten().flat_map(f64::to_ne_bytes).collect();
    array(py, &flat, "f8", (4, 4))
}

/// A ring as GeoJSON has it: the first point again at the end.
fn ring<'py>(py: Python<'py>, vertices: &[Vertex]) -> PyResult<Bound<'py, PyTuple>> {
    let points = vertices.iter().chain(vertices.first()).map(|vertex| (vertex.at.x.mm(), vertex.at.y.mm()));
    PyTuple::new(py, points.collect::<Vec<_>>())
}

/// A shape as a GeoJSON-like dict, in millimetres: a polygon, or a multipolygon if it comes in several pieces.
pub(crate) fn geo_interface<'py>(py: Python<'py>, shape: &Shape) -> PyResult<Bound<'py, PyDict>> {
    let polygon = |island: &Shape| PyTuple::new(py, island.loops().map(|vertices| ring(py, vertices)).collect::<PyResult<Vec<_>>>()?);
    let mut islands = flat(shape).islands().iter().map(polygon).collect::<PyResult<Vec<_>>>()?;
    let dict = PyDict::new(py);
    match islands.pop() {
        Some(only) if islands.is_empty() => {
            dict.set_item("type", "Polygon")?;
            dict.set_item("coordinates", only)?;
        }
        last => {
            islands.extend(last);
            dict.set_item("type", "MultiPolygon")?;
            dict.set_item("coordinates", PyTuple::new(py, islands)?)?;
        }
    }
    Ok(dict)
}

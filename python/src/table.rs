//! What comes out of a sweep: columns of eight bytes a value in one block that nobody can change.

use dryfit_core::Code;
use pyo3::PyClass;
use pyo3::exceptions::PyMemoryError;
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyTuple};

use crate::door;
use crate::refusal::Refusal;

/// What a table is pickled as.
pub(crate) type State<'py> = (Bound<'py, PyTuple>, Bound<'py, PyBytes>);

/// Bytes of a value.
const WIDE: usize = 8;

/// Columns of one shape, one behind the other in one block of bytes; arrays look into it without a copy.
#[derive(Debug)]
pub(crate) struct Table {
    block: Py<PyBytes>,
    pub(crate) shape: Vec<usize>,
}

/// The columns while they are written, row by row.
pub(crate) struct Writer<'a> {
    columns: Vec<std::slice::ChunksExactMut<'a, u8>>,
}

impl Writer<'_> {
    /// One row; a value for each column.
    pub(crate) fn row<const N: usize>(&mut self, values: [[u8; WIDE]; N]) {
        for (value, column) in values.iter().zip(&mut self.columns) {
            if let Some(into) = column.next() {
                into.copy_from_slice(value);
            }
        }
    }
}

/// Millimetres as they stand in a table.
pub(crate) fn mm(length: dryfit_core::Nm) -> [u8; WIDE] {
    length.mm().to_ne_bytes()
}

impl Table {
    /// A table of `width` columns and as many rows as the shape has, written by `fill`, which runs without Python.
    pub(crate) fn make<E: Into<PyErr> + Send>(
        py: Python<'_>,
        shape: Vec<usize>,
        width: usize,
        fill: impl FnOnce(Writer<'_>) -> Result<(), E> + Send,
    ) -> PyResult<Table> {
        let count = shape.iter().try_fold(1usize, |count, &size| count.checked_mul(size));
        let size = count.and_then(|count| count.checked_mul(WIDE));
        let whole = size.and_then(|size| size.checked_mul(width)).filter(|&whole| isize::try_from(whole).is_ok());
        let (Some(size), Some(whole)) = (size, whole) else {
            return Err(PyMemoryError::new_err("the arrays broadcast to more rows than memory has"));
        };
        let block = PyBytes::new_with(py, whole, |bytes| {
            let columns = bytes.chunks_exact_mut(size).map(|column| column.chunks_exact_mut(WIDE)).collect();
            py.detach(|| fill(Writer { columns })).map_err(Into::into)
        })?;
        Ok(Table { block: block.unbind(), shape })
    }

    /// A column as a read-only array of the table's shape.
    pub(crate) fn column<'py>(&self, py: Python<'py>, number: usize, dtype: &str) -> PyResult<Bound<'py, PyAny>> {
        let count: usize = self.shape.iter().product();
        let flat = py.import("numpy")?.getattr("frombuffer")?.call1((&self.block, dtype, count, number * count * WIDE))?;
        flat.call_method1("reshape", (PyTuple::new(py, &self.shape)?,))
    }

    /// The same shape and the same bytes.
    pub(crate) fn same(&self, py: Python<'_>, other: &Table) -> bool {
        self.shape == other.shape && self.block.as_bytes(py) == other.block.as_bytes(py)
    }

    /// One number for the bytes and the shape.
    pub(crate) fn hash(&self, py: Python<'_>) -> PyResult<isize> {
        PyTuple::new(py, [self.block.bind(py).as_any(), PyTuple::new(py, &self.shape)?.as_any()])?.hash()
    }

    /// What makes it again.
    pub(crate) fn state<'py>(&self, py: Python<'py>) -> PyResult<State<'py>> {
        Ok((PyTuple::new(py, &self.shape)?, self.block.bind(py).clone()))
    }

    /// A table of a [`Table::state`].
    pub(crate) fn again(shape: Vec<usize>, block: &Bound<'_, PyBytes>, width: usize) -> PyResult<Table> {
        let whole = shape.iter().chain([&width, &WIDE]).try_fold(1usize, |whole, &size| whole.checked_mul(size));
        if whole != Some(block.as_bytes().len()) {
            return Err(Refusal::new(Code::WrongType, "block", "bytes of another size given, allowed those of a pickled sweep").into());
        }
        Ok(Table { block: block.clone().unbind(), shape })
    }

    /// One table out of several, one behind the other along the first axis.
    pub(crate) fn join(py: Python<'_>, tables: &[&Table], width: usize) -> PyResult<Table> {
        let refuse =
            |given: &str| Refusal::new(Code::WrongType, "chunks", format!("{given}, allowed sweeps of arrays that differ in their first axis only"));
        let Some((first, rest)) = tables.split_first() else { return Err(refuse("none given").into()) };
        let inner = first.shape.get(1..).ok_or_else(|| refuse("a sweep of single values given"))?;
        if rest.iter().any(|table| table.shape.get(1..) != Some(inner)) {
            return Err(refuse("several shapes given").into());
        }
        let mut shape = first.shape.clone();
        if let Some(rows) = shape.first_mut() {
            *rows = tables.iter().filter_map(|table| table.shape.first()).sum();
        }
        let blocks: Vec<&[u8]> = tables.iter().map(|table| table.block.as_bytes(py)).collect();
        let column = |number: usize| blocks.iter().filter_map(move |block| block.chunks_exact((block.len() / width).max(1)).nth(number));
        let whole: Vec<u8> = (0..width).flat_map(column).flatten().copied().collect();
        Ok(Table { block: PyBytes::new(py, &whole).unbind(), shape })
    }
}

/// The chunks of a sweep, each of one class.
pub(crate) fn chunks<'py, T: PyClass>(chunks: &Bound<'py, PyAny>, kind: &str) -> PyResult<Vec<Bound<'py, T>>> {
    if door::is_single(chunks) {
        return Err(door::wrong(chunks, "chunks", &format!("a list of {kind}")).into());
    }
    let read = |(index, chunk): (usize, PyResult<Bound<'py, PyAny>>)| {
        let chunk = chunk?;
        let wrong = door::wrong(&chunk, &format!("chunks[{index}]"), kind);
        chunk.cast_into::<T>().map_err(|_| wrong.into())
    };
    chunks.try_iter()?.enumerate().map(read).collect()
}

//! `Boxes`: what thousands of boxes come to, in arrays.

use dryfit_core::Code;
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict, PyTuple};

use crate::html::html;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::table::{self, Table};

/// What many boxes come to: read-only arrays, a value for each box. Made by ``boxes``.
///
/// A box that cannot be made has the number of its refusal in ``code``, NaN in the float64 arrays and 0 in the int64 ones.
///
/// >>> boxes(stock=Stock(thickness=3, sheet=(500, 350)), outside=[(110, 85, 60), (110, 85, 5)])
/// <dryfit.Boxes of shape (2,), 1 refused>
#[pyclass(frozen, module = "dryfit")]
#[derive(Debug)]
pub struct Boxes {
    table: Table,
    /// Whether they were laid out, and whether their minutes were asked for.
    asked: [bool; 2],
}

/// The columns, and which of [`Boxes::asked`] each needs.
pub(crate) const COLUMNS: [(&str, &str, Option<usize>); 8] = [
    ("cut_length", "f8", None),
    ("area", "f8", None),
    ("gap_min", "f8", None),
    ("gap_max", "f8", None),
    ("minutes", "f8", Some(1)),
    ("parts", "i8", None),
    ("sheets", "i8", Some(0)),
    ("code", "i8", None),
];

impl Boxes {
    pub(crate) fn new(table: Table, asked: [bool; 2]) -> Boxes {
        Boxes { table, asked }
    }

    fn column<'py>(&self, py: Python<'py>, name: &str) -> PyResult<Option<Bound<'py, PyAny>>> {
        let Some((number, (_, dtype, needs))) = COLUMNS.iter().enumerate().find(|(_, (column, ..))| *column == name) else { return Ok(None) };
        match needs.map(|needs| self.asked.get(needs)) {
            Some(Some(false)) => Ok(None),
            _ => Ok(Some(self.table.column(py, number, dtype)?)),
        }
    }
}

#[pymethods]
impl Boxes {
    /// Length in mm of all lines that the cutter follows, an array of ``shape``.
    #[getter]
    fn cut_length<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "cut_length")
    }

    /// Area of the finished parts in square mm, an array of ``shape``.
    #[getter]
    fn area<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "area")
    }

    /// How many parts each box has, an array of ``shape``.
    #[getter]
    fn parts<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "parts")
    }

    /// How many sheets its parts take, an array of ``shape``; None without a layout.
    #[getter]
    fn sheets<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "sheets")
    }

    /// The least gap of its contacts in mm, an array of ``shape``; negative is interference.
    #[getter]
    fn gap_min<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "gap_min")
    }

    /// The greatest gap of its contacts in mm, an array of ``shape``.
    #[getter]
    fn gap_max<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "gap_max")
    }

    /// The minutes that its layout takes at the pace, an array of ``shape``; None without one.
    #[getter]
    fn minutes<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "minutes")
    }

    /// An array of ``shape``: 0, or the number of the ``DryfitError`` that ``box``, ``cut`` or ``lay_out`` would raise.
    #[getter]
    fn code<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyAny>>> {
        self.column(py, "code")
    }

    /// The shape of every array.
    #[getter]
    fn shape<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
        PyTuple::new(py, &self.table.shape)
    }

    /// All arrays by name, as ``pandas.DataFrame`` takes them where they have one axis.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(500, 350))
    /// >>> list(boxes(stock=stock, outside=[(110, 85, 60)]).columns())
    /// ['cut_length', 'area', 'gap_min', 'gap_max', 'parts', 'sheets', 'code']
    fn columns<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        for (name, ..) in COLUMNS {
            if let Some(column) = self.column(py, name)? {
                dict.set_item(name, column)?;
            }
        }
        Ok(dict)
    }

    /// One sweep out of several, ``chunks``, one behind the other along the first axis: the same bytes as if it had been done in one call.
    ///
    /// Raises ``WrongType`` where the other axes differ, or not all have a layout or minutes.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(500, 350))
    /// >>> halves = [boxes(stock=stock, outside=[(110, 85, side)]) for side in (60, 70)]
    /// >>> Boxes.join(halves) == boxes(stock=stock, outside=[(110, 85, 60), (110, 85, 70)])
    /// True
    #[staticmethod]
    #[pyo3(signature = (chunks, /))]
    fn join(chunks: &Bound<'_, PyAny>) -> PyResult<Boxes> {
        let given = table::chunks::<Boxes>(chunks, "Boxes")?;
        let tables: Vec<&Table> = given.iter().map(|chunk| &chunk.get().table).collect();
        let asked = given.first().map_or([false; 2], |chunk| chunk.get().asked);
        if given.iter().any(|chunk| chunk.get().asked != asked) {
            return Err(Refusal::new(Code::WrongType, "chunks", "sweeps with and without layouts or minutes given, allowed those of one kind").into());
        }
        Ok(Boxes { table: Table::join(chunks.py(), &tables, COLUMNS.len())?, asked })
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
        let py = other.py();
        let Ok(other) = other.cast::<Boxes>() else { return Ok(py.NotImplemented()) };
        let same = self.asked == other.get().asked && self.table.same(py, &other.get().table);
        Ok(same.into_pyobject(py)?.to_owned().into_any().unbind())
    }

    fn __hash__(&self, py: Python<'_>) -> PyResult<isize> {
        self.table.hash(py)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, Pickled<'py>> {
        let (shape, block) = slf.get().table.state(slf.py())?;
        Ok((slf.get_type().getattr("_of")?, (shape, block, slf.get().asked)))
    }

    /// Makes a pickled sweep again.
    #[staticmethod]
    #[pyo3(signature = (shape, block, asked, /))]
    fn _of(shape: Vec<usize>, block: &Bound<'_, PyBytes>, asked: [bool; 2]) -> PyResult<Boxes> {
        Ok(Boxes { table: Table::again(shape, block, COLUMNS.len())?, asked })
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "sweep")
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let code = self.column(py, "code")?.map(|code| py.import("numpy")?.call_method1("count_nonzero", (code,))?.extract::<usize>());
        Ok(format!("<dryfit.Boxes of shape {}, {} refused>", PyTuple::new(py, &self.table.shape)?.repr()?, code.transpose()?.unwrap_or(0)))
    }
}

type Pickled<'py> = (Bound<'py, PyTuple>, Bound<'py, PyBytes>, [bool; 2]);

//! `gaps`: how parts fit once board and cut are not what they were made for, for whole arrays at once.

use dryfit_core::bounds::{ALLOWANCE, KERF, THICKNESS};
use dryfit_core::{Code, Making, Nm};
use pyo3::prelude::*;
use pyo3::types::{PyBytes, PyDict, PyTuple};

use crate::column::{Column, Given, Rows};
use crate::door;
use crate::fit::Fit;
use crate::html::html;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::table::{self, State, Table, mm};

/// The gaps of many parts, in mm: read-only float64 arrays of the shape that the arguments broadcast to. Made by ``gaps``.
///
/// Positive is clearance, negative interference (as in ISO 286).
///
/// >>> gaps(thickness=3, real_thickness=[2.9, 3.1], kerf=0.2)
/// <dryfit.Gaps of shape (2,): gaps from -0.1 to 0.1 mm>
#[pyclass(frozen, module = "dryfit")]
#[derive(Debug)]
pub struct Gaps {
    table: Table,
}

const COLUMNS: [&str; 6] = ["flank", "shoulder", "cheek", "tip", "gap_min", "gap_max"];

impl Gaps {
    fn column<'py>(&self, py: Python<'py>, name: &str) -> PyResult<Bound<'py, PyAny>> {
        self.table.column(py, COLUMNS.iter().position(|column| *column == name).unwrap_or(0), "f8")
    }
}

#[pymethods]
impl Gaps {
    /// Between two cut edges, in mm, an array of ``shape``: ``fit.flank + real_kerf - kerf``.
    #[getter]
    fn flank<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.column(py, "flank")
    }

    /// Between the cut edge behind a finger or tab and the mate's face, in mm, an array of ``shape``: ``fit.cheek + (real_kerf - kerf) / 2``.
    #[getter]
    fn shoulder<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.column(py, "shoulder")
    }

    /// Between both sides of a slot and the board in it, together, in mm, an array of ``shape``: ``fit.cheek + real_kerf - kerf + thickness - real_thickness``.
    #[getter]
    fn cheek<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.column(py, "cheek")
    }

    /// How far a finger's end stands proud (+) or back (-), in mm, an array of ``shape``: ``fit.tip - (real_kerf - kerf) / 2 + thickness - real_thickness``, and further by
    /// ``shoulder`` once the boards are pushed home.
    #[getter]
    fn tip<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.column(py, "tip")
    }

    /// The least of flank, shoulder and cheek in mm, an array of ``shape``. Plain boxes have no slots: there it is the lesser of flank and shoulder.
    #[getter]
    fn gap_min<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.column(py, "gap_min")
    }

    /// The greatest of flank, shoulder and cheek in mm, an array of ``shape``.
    #[getter]
    fn gap_max<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.column(py, "gap_max")
    }

    /// The shape of every array.
    #[getter]
    fn shape<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
        PyTuple::new(py, &self.table.shape)
    }

    /// All arrays by name, as ``pandas.DataFrame`` takes them where they have one axis.
    ///
    /// >>> list(gaps(thickness=3, kerf=0.2).columns())
    /// ['flank', 'shoulder', 'cheek', 'tip', 'gap_min', 'gap_max']
    fn columns<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        for name in COLUMNS {
            dict.set_item(name, self.column(py, name)?)?;
        }
        Ok(dict)
    }

    /// One sweep out of several, ``chunks``, one behind the other along the first axis: the same bytes as if it had been done in one call.
    ///
    /// >>> halves = [gaps(thickness=3, kerf=[0.1]), gaps(thickness=3, kerf=[0.2])]
    /// >>> Gaps.join(halves) == gaps(thickness=3, kerf=[0.1, 0.2])
    /// True
    ///
    /// Raises ``WrongType`` where the other axes differ.
    #[staticmethod]
    #[pyo3(signature = (chunks, /))]
    fn join(chunks: &Bound<'_, PyAny>) -> PyResult<Gaps> {
        let given = table::chunks::<Gaps>(chunks, "Gaps")?;
        let tables: Vec<&Table> = given.iter().map(|chunk| &chunk.get().table).collect();
        Ok(Gaps { table: Table::join(chunks.py(), &tables, COLUMNS.len())? })
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
        let py = other.py();
        let Ok(other) = other.cast::<Gaps>() else { return Ok(py.NotImplemented()) };
        Ok(self.table.same(py, &other.get().table).into_pyobject(py)?.to_owned().into_any().unbind())
    }

    fn __hash__(&self, py: Python<'_>) -> PyResult<isize> {
        self.table.hash(py)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, State<'py>> {
        Ok((slf.get_type().getattr("_of")?, slf.get().table.state(slf.py())?))
    }

    /// Makes pickled gaps again.
    #[staticmethod]
    #[pyo3(signature = (shape, block, /))]
    fn _of(shape: Vec<usize>, block: &Bound<'_, PyBytes>) -> PyResult<Gaps> {
        Ok(Gaps { table: Table::again(shape, block, COLUMNS.len())? })
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "sweep")
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let least: f64 = self.column(py, "gap_min")?.call_method0("min")?.extract()?;
        let most: f64 = self.column(py, "gap_max")?.call_method0("max")?.extract()?;
        Ok(format!("<dryfit.Gaps of shape {}: gaps from {least} to {most} mm>", PyTuple::new(py, &self.table.shape)?.repr()?))
    }
}

/// How parts fit that were made for one board and cut, and are cut with another kerf from a board of another thickness.
///
/// ``thickness`` and ``kerf`` (0 if left out) are what the parts were made for, ``real_thickness`` and ``real_kerf`` what the board and the cut
/// turn out to be; left out, they are as meant. ``fit`` is the fit of the parts, exact if left out; ``flank``, ``cheek`` and ``tip`` may be given
/// in its place. Each is a number of mm, a string with a unit, or an array (any that numpy understands); arrays broadcast together as numpy has
/// it. Lists are arrays too, also of strings. Arrays are copied first: who changes one meanwhile changes nothing here.
///
/// Each edge stands ``d = floor(real_kerf / 2) - floor(kerf / 2)`` (in whole nanometres) further in than meant, hence
///
/// - ``flank``: fit.flank + 2 d,
/// - ``shoulder``: fit.cheek + d, for a board in a corner keeps the face at the mates' shoulders where it was meant to be,
/// - ``cheek``: fit.cheek + 2 d + thickness - real_thickness, over both sides of a slot,
/// - ``tip``: fit.tip - d + thickness - real_thickness.
///
/// This holds for boards at right angles, to the nanometre, and is what a dry fit finds on the finished outlines as long as gaps are less than
/// half a board. (The rule and its proof are the project's own: DEVELOPERS.md, "Gaps of another board and cut".)
///
/// Raises ``OutOfRange``, ``NotFinite``, ``NotALength`` with the place in the array (``kerf[2][5]``), ``WrongType`` for arrays of something else
/// or of shapes that do not go together.
///
/// >>> import numpy as np
/// >>> window = gaps(fit=Fit(cheek=0.1), thickness=3, kerf=0.18, real_thickness=np.array([2.9, 3.0, 3.1])[:, None], real_kerf=[0.16, 0.2])
/// >>> window.cheek
/// array([[ 0.18,  0.22],
///        [ 0.08,  0.12],
///        [-0.02,  0.02]])
/// >>> window.shape, window.flank[0].tolist()
/// ((3, 2), [-0.02, 0.02])
#[pyfunction]
#[pyo3(signature = (*, thickness, kerf = None, real_thickness = None, real_kerf = None, fit = None, flank = None, cheek = None, tip = None))]
#[allow(clippy::too_many_arguments, reason = "named in Python")]
pub(crate) fn gaps(
    py: Python<'_>,
    thickness: &Bound<'_, PyAny>,
    kerf: Option<&Bound<'_, PyAny>>,
    real_thickness: Option<&Bound<'_, PyAny>>,
    real_kerf: Option<&Bound<'_, PyAny>>,
    fit: Option<&Bound<'_, PyAny>>,
    flank: Option<&Bound<'_, PyAny>>,
    cheek: Option<&Bound<'_, PyAny>>,
    tip: Option<&Bound<'_, PyAny>>,
) -> PyResult<Gaps> {
    let thickness = Given::read(thickness, THICKNESS, "thickness")?;
    let kerf = Given::maybe(kerf, KERF, "kerf")?;
    let real_thickness = Given::maybe(real_thickness, THICKNESS, "real_thickness")?;
    let real_kerf = Given::maybe(real_kerf, KERF, "real_kerf")?;
    let [flank, cheek, tip] = allowances(fit, [flank, cheek, tip])?;
    let sweep = py.detach(|| -> Result<_, Refusal> {
        let (thickness, kerf) = (thickness.column()?, kerf.map_or_else(|| Ok(Column::one(Nm::ZERO)), Given::column)?);
        let (real_thickness, real_kerf) = (real_thickness.map(Given::column).transpose()?, real_kerf.map(Given::column).transpose()?);
        let [flank, cheek, tip] = [flank.column()?, cheek.column()?, tip.column()?];
        Sweep::of(thickness, kerf, real_thickness, real_kerf, [flank, cheek, tip])
    })?;
    let table = Table::make(py, sweep.rows.shape.clone(), COLUMNS.len(), |mut writer| sweep.run(|values| writer.row(values.map(mm))))?;
    Ok(Gaps { table })
}

/// The three allowances, of a fit or one by one.
fn allowances(fit: Option<&Bound<'_, PyAny>>, single: [Option<&Bound<'_, PyAny>>; 3]) -> PyResult<[Given; 3]> {
    let [flank, cheek, tip] = single;
    let names = ["flank", "cheek", "tip"];
    let Some(fit) = door::maybe_own::<Fit>(fit, "fit")? else {
        let read = |value, name| Ok::<_, PyErr>(Given::maybe(value, ALLOWANCE, name)?.unwrap_or_else(|| Given::one(Nm::ZERO, name)));
        let [a, b, c] = names;
        return Ok([read(flank, a)?, read(cheek, b)?, read(tip, c)?]);
    };
    if single.iter().flatten().any(|value| !value.is_none()) {
        return Err(Refusal::new(Code::UnknownKey, "fit, flank, cheek, tip", "given together, allowed fit or the others").into());
    }
    let fit = fit.get().core;
    let [a, b, c] = names;
    Ok([Given::one(fit.flank(), a), Given::one(fit.cheek(), b), Given::one(fit.tip(), c)])
}

/// All that a sweep is made of.
struct Sweep {
    meant: [Column; 2],
    real: [Option<Column>; 2],
    allowances: [Column; 3],
    rows: Rows<7>,
}

impl Sweep {
    fn of(
        thickness: Column,
        kerf: Column,
        real_thickness: Option<Column>,
        real_kerf: Option<Column>,
        allowances: [Column; 3],
    ) -> Result<Sweep, Refusal> {
        let [flank, cheek, tip] = &allowances;
        let (board, cut) = (real_thickness.as_ref().unwrap_or(&thickness), real_kerf.as_ref().unwrap_or(&kerf));
        let rows = Rows::of([&thickness, &kerf, board, cut, flank, cheek, tip].map(|column| (column, 0)))?;
        Ok(Sweep { meant: [thickness, kerf], real: [real_thickness, real_kerf], allowances, rows })
    }

    /// Hands over the six lengths of every row.
    fn run(&self, mut out: impl FnMut([Nm; 6])) -> Result<(), Refusal> {
        let Sweep { meant: [thickness, kerf], real: [real_thickness, real_kerf], allowances: [flank, cheek, tip], rows } = self;
        let (board, cut) = (real_thickness.as_ref().unwrap_or(thickness), real_kerf.as_ref().unwrap_or(kerf));
        for (first, step, count) in rows.runs() {
            let [a, b, c, d, e, f, g] = first;
            let allow = |row: usize| {
                let [.., u, v, w] = step;
                dryfit_core::Fit::new(flank.at(e + u * row), cheek.at(f + v * row), tip.at(g + w * row)).map_err(Refusal::from)
            };
            let [s, t, u, v, rest @ ..] = step;
            // Mostly the fit is the same for all.
            let (alike, usual) = (rest == [0; 3], allow(0)?);
            for row in 0..count {
                let fit = if alike { usual } else { allow(row)? };
                let meant = Making { thickness: thickness.at(a + s * row), kerf: kerf.at(b + t * row) };
                let real = Making { thickness: board.at(c + u * row), kerf: cut.at(d + v * row) };
                let gaps = dryfit_core::Gaps::of(fit, meant, real);
                out([gaps.flank, gaps.shoulder, gaps.cheek, gaps.tip, gaps.least(), gaps.most()]);
            }
        }
        Ok(())
    }
}

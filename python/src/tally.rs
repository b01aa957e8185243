//! `Tally`: what a job costs in.

use dryfit_core::bounds::{TALLY_COUNT, TALLY_LENGTH};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door::{self, Maybe};
use crate::html::html;
use crate::show::millionths;

/// What a job costs in: ``cut``, the length of all cuts in mm, ``parts``, ``starts``, how often the tool starts a cut (once a part unless told otherwise), ``corners``, ``travel``, the way with the
/// tool up in mm, and ``sheets``. ``Layout.tally`` has that of a layout; written down, it is all that ``Pace.from_known`` has to know of a job.
///
/// Raises ``OutOfRange``, ``NotFinite``, ``WrongType``. None stands for what is left out.
///
/// >>> Tally(cut=2527.5, parts=6, corners=312)
/// Tally(cut=2527.5, parts=6, starts=6, corners=312, travel=0, sheets=1)
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tally {
    pub(crate) core: dryfit_core::Tally,
}

#[pymethods]
impl Tally {
    #[new]
    #[pyo3(signature = (*, cut, parts, starts = None, corners = None, travel = None, sheets = None))]
    fn new(
        cut: &Bound<'_, PyAny>,
        parts: &Bound<'_, PyAny>,
        starts: Maybe<'_, '_>,
        corners: Maybe<'_, '_>,
        travel: Maybe<'_, '_>,
        sheets: Maybe<'_, '_>,
    ) -> PyResult<Tally> {
        let count =
            |value: Maybe<'_, '_>, name, usual| value.map_or(Ok(usual), |value| Ok::<_, PyErr>(door::count(value, &TALLY_COUNT, name)?.into()));
        let parts = count(Some(parts), "parts", 0)?;
        let core = dryfit_core::Tally {
            cut: door::amount(cut, &TALLY_LENGTH, "cut")?.1,
            parts,
            starts: count(starts, "starts", parts)?,
            corners: count(corners, "corners", 0)?,
            travel: travel.map_or(Ok::<_, PyErr>(0), |travel| Ok(door::amount(travel, &TALLY_LENGTH, "travel")?.1))?,
            sheets: count(sheets, "sheets", 1)?,
        };
        Ok(Tally { core })
    }

    /// The length of all cuts in mm.
    #[getter]
    fn cut(&self) -> f64 {
        self.core.cut as f64 / 1e6
    }

    /// How many parts there are.
    #[getter]
    fn parts(&self) -> i64 {
        self.core.parts
    }

    /// How often the tool starts a cut.
    #[getter]
    fn starts(&self) -> i64 {
        self.core.starts
    }

    /// How many corners it cuts.
    #[getter]
    fn corners(&self) -> i64 {
        self.core.corners
    }

    /// The way with the tool up, in mm.
    #[getter]
    fn travel(&self) -> f64 {
        self.core.travel as f64 / 1e6
    }

    /// How many sheets there are.
    #[getter]
    fn sheets(&self) -> i64 {
        self.core.sheets
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("cut", self.cut())?;
        named.set_item("parts", self.parts())?;
        named.set_item("starts", self.starts())?;
        named.set_item("corners", self.corners())?;
        named.set_item("travel", self.travel())?;
        named.set_item("sheets", self.sheets())?;
        Ok((PyTuple::empty(py), named))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "tally")
    }

    #[pyo3(name = "__repr__")]
    pub(crate) fn shown(&self) -> String {
        let core = self.core;
        let (cut, travel) = (millionths(core.cut), millionths(core.travel));
        format!("Tally(cut={cut}, parts={}, starts={}, corners={}, travel={travel}, sheets={})", core.parts, core.starts, core.corners, core.sheets)
    }
}

//! `Tails`: a dovetail splice of two boards of one plane.

use dryfit_core::bounds::{FINGER_COUNT, TAB_WIDTH};
use dryfit_core::{Half, Nm, Ratio};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::show::{maybe_mm, mm};
use crate::slope::slope;

pub(crate) const HALVES: [(&str, Half); 2] = [("pins", Half::Pins), ("tails", Half::Tails)];

/// A splice in the plane of the sheet: tails of one board between pins of the other, so that it holds against a pull without glue.
///
/// The two slabs overlap end to end and share that overlap. ``count`` whole tails belong to the board named first. ``slope`` says how
/// their flanks lean: 8 for 1 in 8, "5:24" or (5, 24) for rise to run. ``half`` is what stands at the ends of the run: half "pins", or
/// half "tails" beside the whole ones. ``pin_width`` is that of a pin at mid-depth, as wide as a tail if left out.
///
/// Handbooks allow slopes from 1:8 to 1:6, some to 5:24. It goes together across the sheet only. At a corner a straight-down cut cannot
/// make the pins: ``NotInOnePlane``; ``dovetail_corner`` draws those for cutting by hand.
///
/// Raises a ``DryfitError`` for values out of range; that tails do not fit the run shows when the panels are made.
///
/// >>> Tails(count=3, slope=8)
/// Tails(count=3, slope=(1, 8), half='pins', pin_width=None)
/// >>> Tails(count=1, slope="5:24", half="tails", pin_width="1/2 in").slope
/// (5, 24)
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tails {
    count: u32,
    slope: Ratio,
    half: Half,
    pin_width: Option<Nm>,
}

impl Tails {
    pub(crate) fn core(&self) -> dryfit_core::Tails {
        let tails = dryfit_core::Tails::new(self.count, self.slope).half(self.half);
        self.pin_width.map_or(tails, |width| tails.pin_width(width))
    }

    /// The tails of an argument.
    pub(crate) fn from_python(value: &Bound<'_, PyAny>, name: &str) -> PyResult<Tails> {
        Ok(*value.cast::<Tails>().map_err(|_| door::wrong(value, name, "Tails"))?.get())
    }
}

#[pymethods]
impl Tails {
    #[new]
    #[pyo3(signature = (*, count, slope, half = None, pin_width = None))]
    fn new(
        count: &Bound<'_, PyAny>,
        slope: &Bound<'_, PyAny>,
        half: Option<&Bound<'_, PyAny>>,
        pin_width: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Tails> {
        Ok(Tails {
            count: door::count(count, &FINGER_COUNT, "count")?,
            slope: self::slope(slope, "slope")?,
            half: half.map_or(Ok(Half::Pins), |half| door::choice(half, &HALVES, "half"))?,
            pin_width: door::maybe_length(pin_width, &TAB_WIDTH, "pin_width")?,
        })
    }

    /// Number of whole tails.
    #[getter]
    fn count(&self) -> u32 {
        self.count
    }

    /// How the flanks lean, as a pair (rise, run).
    #[getter]
    fn slope(&self) -> (u32, u32) {
        (self.slope.num(), self.slope.den())
    }

    /// What stands at the ends of the run: half "pins" or half "tails".
    #[getter]
    fn half(&self) -> &'static str {
        HALVES.iter().find(|(_, half)| *half == self.half).map_or("", |(word, _)| word)
    }

    /// Width of a pin at mid-depth in mm, or None for that of a tail.
    #[getter]
    fn pin_width(&self) -> Option<f64> {
        self.pin_width.map(Nm::mm)
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("count", self.count)?;
        named.set_item("slope", self.slope())?;
        named.set_item("half", self.half())?;
        named.set_item("pin_width", self.pin_width())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        let (rise, run) = self.slope();
        let width = self.pin_width.map_or_else(|| maybe_mm(None), |width| mm(width).to_string());
        format!("Tails(count={}, slope=({rise}, {run}), half='{}', pin_width={width})", self.count, self.half())
    }
}

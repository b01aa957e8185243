//! `Fingers`: a finger joint by width or by count.

use dryfit_core::bounds::{FINGER_COUNT, FINGER_WIDTH};
use dryfit_core::{Code, Nm, Parity, Side};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::refusal::Refusal;
use crate::show::{SIDES, maybe_mm, side};

/// A finger joint: the run of two boards cut into equal spans that go to side A and side B by turns.
///
/// Give ``width`` (about so wide: the number nearest to run / width is taken) or ``count`` (exactly so many, both sides together), not
/// both. ``parity`` is "odd" (both ends alike), "even" or "any" and matters for a width only; ``first`` says who owns the first span,
/// "a" (the board named first) or "b". No finger gets narrower than ``least``, the thickness of the thicker board if left out.
///
/// Raises a ``DryfitError`` for values out of range; that fingers do not fit the run shows when the panels are made.
///
/// >>> Fingers(width="1/2 in")
/// Fingers(width=12.7, parity='odd', first='a', least=None)
/// >>> Fingers(count=5, first="b")
/// Fingers(count=5, first='b', least=None)
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Fingers {
    width: Option<Nm>,
    count: Option<u32>,
    parity: Parity,
    first: Side,
    least: Option<Nm>,
}

const PARITIES: [(&str, Parity); 3] = [("odd", Parity::Odd), ("even", Parity::Even), ("any", Parity::Any)];

impl Fingers {
    pub(crate) fn core(&self) -> dryfit_core::Fingers {
        let fingers = match (self.width, self.count) {
            (_, Some(count)) => dryfit_core::Fingers::count(count),
            (Some(width), None) => dryfit_core::Fingers::width(width),
            (None, None) => dryfit_core::Fingers::default(),
        };
        let fingers = fingers.parity(self.parity).first(self.first);
        self.least.map_or(fingers, |least| fingers.least(least))
    }
}

#[pymethods]
impl Fingers {
    #[new]
    #[pyo3(signature = (*, width = None, count = None, parity = None, first = None, least = None))]
    fn new(
        width: Option<&Bound<'_, PyAny>>,
        count: Option<&Bound<'_, PyAny>>,
        parity: Option<&Bound<'_, PyAny>>,
        first: Option<&Bound<'_, PyAny>>,
        least: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Fingers> {
        if width.is_some() == count.is_some() {
            let code = if width.is_some() { Code::UnknownKey } else { Code::MissingKey };
            return Err(Refusal::new(code, "width, count", "give one of the two").into());
        }
        Ok(Fingers {
            width: door::maybe_length(width, &FINGER_WIDTH, "width")?,
            count: count.map(|count| door::count(count, &FINGER_COUNT, "count")).transpose()?,
            parity: parity.map_or(Ok(Parity::Odd), |parity| door::choice(parity, &PARITIES, "parity"))?,
            first: first.map_or(Ok(Side::A), |first| door::choice(first, &SIDES, "first"))?,
            least: door::maybe_length(least, &FINGER_WIDTH, "least")?,
        })
    }

    /// The wanted width in mm, or None where a count was given.
    #[getter]
    fn width(&self) -> Option<f64> {
        self.width.map(Nm::mm)
    }

    /// The number of spans of both sides, or None where a width was given.
    #[getter]
    fn count(&self) -> Option<u32> {
        self.count
    }

    /// "odd", "even" or "any".
    #[getter]
    fn parity(&self) -> &'static str {
        PARITIES.iter().find(|(_, parity)| *parity == self.parity).map_or("odd", |(word, _)| word)
    }

    /// "a" or "b".
    #[getter]
    fn first(&self) -> &'static str {
        side(self.first)
    }

    /// The least width in mm, or None for the thickness of the thicker board.
    #[getter]
    fn least(&self) -> Option<f64> {
        self.least.map(Nm::mm)
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        match self.count {
            Some(count) => named.set_item("count", count)?,
            None => named.set_item("width", self.width())?,
        }
        named.set_item("parity", self.parity())?;
        named.set_item("first", self.first())?;
        named.set_item("least", self.least())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        let size = match self.count {
            Some(count) => format!("count={count}"),
            None => format!("width={}, parity='{}'", maybe_mm(self.width), self.parity()),
        };
        format!("Fingers({size}, first='{}', least={})", side(self.first), maybe_mm(self.least))
    }
}

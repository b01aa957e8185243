//! `Halves`: two boards that cross, a part of the run to each.

use dryfit_core::{Code, Ratio, Side};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyString, PyTuple};

use crate::door;
use crate::fraction::terms;
use crate::refusal::Refusal;
use crate::show::{SIDES, side};

/// A halving: where two boards cross, each keeps a part of the run and gets a slot for the other's.
///
/// ``split`` is the share of the run before the cut: a number between 0 and 1, a ``Fraction``, a string such as "1/3" or a pair (1, 3).
/// A float stands for the nearest ratio with terms up to 1,000,000. ``first`` keeps the lower part: "a" (the board named first) or "b".
/// Of boards of two heights on one floor the lower one has to keep it, else no straight move puts them together (``Locked``).
///
/// Raises ``WrongType`` for what is no number, ratio or word, ``OutOfRange`` for a share of nothing or all.
///
/// >>> Halves(split="1/3")
/// Halves(split=(1, 3), first='a')
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Halves {
    split: Ratio,
    first: Side,
}

impl Halves {
    pub(crate) fn core(&self) -> dryfit_core::Halves {
        dryfit_core::Halves::split(self.split).first(self.first)
    }
}

const A_SHARE: &str = "more than 0 and less than 1, as 0.5, \"1/2\" or (1, 2)";

/// A share of a run as a ratio in lowest terms, by way of Python's fractions.
fn ratio(value: &Bound<'_, PyAny>) -> PyResult<Ratio> {
    let refuse = |code| PyErr::from(Refusal::new(code, "split", format!("{} given, allowed {A_SHARE}", door::shown(value))));
    let made = if value.is_instance_of::<PyString>() || door::is_single(value) {
        door::not_bool(value, "split", A_SHARE)?;
        terms(value, (value,))
    } else {
        let pair: [_; 2] = door::tuple(value, "split")?;
        terms(value, (&pair[0], &pair[1]))
    };
    let (num, den) = made?.map_err(refuse)?;
    if num == 0 || num >= den {
        return Err(refuse(Code::OutOfRange));
    }
    Ok(Ratio::new(num, den).map_err(|error| Refusal::named(error, "split", &door::shown(value)))?)
}

#[pymethods]
impl Halves {
    #[new]
    #[pyo3(signature = (*, split = None, first = None))]
    fn new(split: Option<&Bound<'_, PyAny>>, first: Option<&Bound<'_, PyAny>>) -> PyResult<Halves> {
        Ok(Halves { split: split.map_or(Ok(Ratio::HALF), ratio)?, first: first.map_or(Ok(Side::A), |first| door::choice(first, &SIDES, "first"))? })
    }

    /// The share of the run before the cut, as a pair (p, q).
    #[getter]
    fn split(&self) -> (u32, u32) {
        (self.split.num(), self.split.den())
    }

    /// Who keeps the lower part: "a" or "b".
    #[getter]
    fn first(&self) -> &'static str {
        side(self.first)
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("split", self.split())?;
        named.set_item("first", self.first())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        format!("Halves(split=({}, {}), first='{}')", self.split.num(), self.split.den(), side(self.first))
    }
}

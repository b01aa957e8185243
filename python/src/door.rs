//! What comes in: lengths, counts, words and tuples, each with the name of its parameter.

use dryfit_core::bounds::{BOARDS, Bound as Range, LENGTH, MM};
use dryfit_core::{Amount, Angle, Code, Nm};
use pyo3::PyClass;
use pyo3::exceptions::{PyOverflowError, PyTypeError, PyValueError};
use pyo3::intern;
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyFloat, PyFrozenSet, PyInt, PyIterator, PySet, PyString};

use crate::refusal::Refusal;

type Value<'a, 'py> = &'a Bound<'py, PyAny>;

/// A parameter that may be left out; `None` stands for that too.
pub(crate) type Maybe<'a, 'py> = Option<&'a Bound<'py, PyAny>>;

/// What was given, if anything was.
pub(crate) fn given<'a, 'py>(value: Maybe<'a, 'py>) -> Maybe<'a, 'py> {
    value.filter(|value| !value.is_none())
}

const LONGEST_SHOWN: usize = 60;

/// What was given, as Python shows it, on one line and not too long.
pub(crate) fn shown(value: Value<'_, '_>) -> String {
    let text = value.repr().map_or_else(|_| "?".to_owned(), |text| text.to_string_lossy().into_owned());
    let mut line: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).take(LONGEST_SHOWN + 1).collect();
    if line.chars().count() > LONGEST_SHOWN {
        line = line.chars().take(LONGEST_SHOWN - 3).chain("...".chars()).collect();
    }
    line
}

/// The refusal of a value of the wrong kind.
pub(crate) fn wrong(value: Value<'_, '_>, name: &str, wanted: &str) -> Refusal {
    Refusal::new(Code::WrongType, name, format!("{} given, allowed {wanted}", shown(value)))
}

fn is_bool(value: Value<'_, '_>) -> bool {
    // numpy's own kind of bool is no subclass of Python's.
    value.is_instance_of::<PyBool>() || value.get_type().name().is_ok_and(|name| name.to_string_lossy().starts_with("bool"))
}

/// A length: a number of millimetres or a string with a unit, within `range`.
pub(crate) fn length(value: Value<'_, '_>, range: &Range, name: &str) -> PyResult<Nm> {
    let refuse = |error: dryfit_core::Error| {
        let error = match (error.code, error.given()) {
            (Code::OutOfRange, Amount::Length(nm)) => range.error(nm),
            // The range belongs to every refusal of a length.
            _ => {
                let mut refused = range.error(0).giving(error.given());
                refused.code = error.code;
                refused
            }
        };
        Refusal::named(error, name, &shown(value))
    };
    let nm = if let Ok(mm) = value.cast_exact::<PyFloat>() {
        Nm::from_mm(mm.value())
    } else if let Ok(text) = value.cast::<PyString>() {
        Nm::parse(&text.to_string_lossy())
    } else if !value.is_exact_instance_of::<PyInt>() && (is_bool(value) || value.is_none()) {
        return Err(wrong(value, name, A_LENGTH).into());
    } else if let Some(whole) = whole(value)? {
        match whole.map(|mm| mm.saturating_mul(MM)) {
            Some(nm) => Nm::new(nm),
            None => Err(LENGTH.error(i64::MAX)),
        }
    } else {
        let mm = float(value, || wrong(value, name, A_LENGTH))?;
        Nm::from_mm(mm)
    };
    let nm = nm.map_err(refuse)?;
    range.check(nm.nm()).map_err(refuse)?;
    Ok(nm)
}

/// A float, or the refusal of what is none. What an object of the caller's raises by itself is passed on.
pub(crate) fn float(value: Value<'_, '_>, refuse: impl FnOnce() -> Refusal) -> PyResult<f64> {
    value.extract().map_err(|error: PyErr| other(error, value.py()).unwrap_or_else(|| refuse().into()))
}

/// An error that does not just say that a value is of the wrong kind.
pub(crate) fn other(error: PyErr, py: Python<'_>) -> Option<PyErr> {
    let kind = error.is_instance_of::<PyTypeError>(py) || error.is_instance_of::<PyValueError>(py) || error.is_instance_of::<PyOverflowError>(py);
    (!kind).then_some(error)
}

const A_LENGTH: &str = "a number of mm or a string such as \"3/32 in\"";

/// A length that may be left out.
pub(crate) fn maybe_length(value: Option<Value<'_, '_>>, range: &Range, name: &str) -> PyResult<Option<Nm>> {
    given(value).map(|value| length(value, range, name)).transpose()
}

/// Whether something is a number or a string, so not a list of lengths.
pub(crate) fn is_single(value: Value<'_, '_>) -> bool {
    value.is_instance_of::<PyString>() || value.is_none() || in_order(value).is_err()
}

/// The values of a list and the like. A set has no order, and takes equal values for one.
pub(crate) fn in_order<'py>(value: Value<'_, 'py>) -> PyResult<Bound<'py, PyIterator>> {
    if value.is_instance_of::<PySet>() || value.is_instance_of::<PyFrozenSet>() {
        return Err(PyTypeError::new_err("a set"));
    }
    value.try_iter()
}

/// A whole number, by way of `__index__`: `None` if it is no whole number, `Some(None)` if it is beyond 64 bits.
fn whole(value: Value<'_, '_>) -> PyResult<Option<Option<i64>>> {
    if !value.is_exact_instance_of::<PyInt>() && !value.hasattr(intern!(value.py(), "__index__"))? {
        return Ok(None);
    }
    Ok(match value.extract::<i64>() {
        Ok(whole) => Some(Some(whole)),
        Err(error) if error.is_instance_of::<PyOverflowError>(value.py()) => Some(None),
        Err(error) => match other(error, value.py()) {
            Some(own) => return Err(own),
            None => None,
        },
    })
}

/// A count within `range`.
pub(crate) fn count(value: Value<'_, '_>, range: &Range, name: &str) -> PyResult<u32> {
    let refuse = |given| Refusal::named(range.error(given), name, &shown(value));
    let whole = if is_bool(value) { None } else { whole(value)? };
    let count = whole.ok_or_else(|| wrong(value, name, "a whole number"))?;
    let count =
        count.ok_or_else(|| Refusal::new(Code::OutOfRange, name, format!("{} given, allowed {} to {}", shown(value), range.least, range.most)))?;
    range.check(count).map_err(|_| refuse(count))?;
    u32::try_from(count).map_err(|_| refuse(count).into())
}

/// A number in the unit that `range` shows, as it is and in whole millionths.
pub(crate) fn amount(value: Value<'_, '_>, range: &Range, name: &str) -> PyResult<(f64, i64)> {
    let refuse = || wrong(value, name, "a number");
    if is_bool(value) || value.is_instance_of::<PyString>() {
        return Err(refuse().into());
    }
    let number = float(value, refuse)?;
    let given = |error: dryfit_core::Error| error.giving(Amount::Unstated);
    let millionths = range.from_float(number).map_err(|error| Refusal::named(given(error), name, &shown(value)))?;
    Ok((number, millionths))
}

/// Exactly `N` values.
pub(crate) fn tuple<'py, const N: usize>(value: Value<'_, 'py>, name: &str) -> PyResult<[Bound<'py, PyAny>; N]> {
    let refuse = || wrong(value, name, &format!("{N} values in order"));
    if value.is_instance_of::<PyString>() {
        return Err(refuse().into());
    }
    let items: Vec<_> = in_order(value).map_err(|_| refuse())?.take(N + 1).collect::<PyResult<_>>()?;
    <[Bound<'py, PyAny>; N]>::try_from(items).map_err(|_| refuse().into())
}

/// `N` lengths, named `name[0]` and so on.
pub(crate) fn lengths<const N: usize>(value: Value<'_, '_>, range: &Range, name: &str) -> PyResult<[Nm; N]> {
    let items: [_; N] = tuple(value, name)?;
    let mut lengths = [Nm::ZERO; N];
    for ((index, item), into) in items.iter().enumerate().zip(&mut lengths) {
        *into = length(item, range, &format!("{name}[{index}]"))?;
    }
    Ok(lengths)
}

/// Any number of lengths up to that of the boards, named `name[0]` and so on.
pub(crate) fn list(value: Value<'_, '_>, range: &Range, name: &str) -> PyResult<Vec<Nm>> {
    if is_single(value) {
        return Err(wrong(value, name, "a list of lengths").into());
    }
    let items = value.try_iter()?.take(BOARDS.most as usize + 1).enumerate();
    items.map(|(index, item)| length(&item?, range, &format!("{name}[{index}]"))).collect()
}

/// One of a few words: what it means.
pub(crate) fn choice<T: Copy>(value: Value<'_, '_>, words: &[(&'static str, T)], name: &str) -> PyResult<T> {
    Ok(word(value, words, name)?.1)
}

/// One of a few words, and what it means.
pub(crate) fn word<T: Copy>(value: Value<'_, '_>, words: &[(&'static str, T)], name: &str) -> PyResult<(&'static str, T)> {
    let found = value.cast::<PyString>().ok().and_then(|given| {
        let given = given.to_string_lossy();
        words.iter().find(|(word, _)| *word == given).copied()
    });
    found.ok_or_else(|| {
        let allowed: Vec<_> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
        let code = if value.is_instance_of::<PyString>() { Code::OutOfRange } else { Code::WrongType };
        Refusal::new(code, name, format!("{} given, allowed {}", shown(value), allowed.join(", "))).into()
    })
}

/// A text.
pub(crate) fn text(value: Value<'_, '_>, name: &str) -> PyResult<String> {
    let text = value.cast::<PyString>().map_err(|_| wrong(value, name, "a string"))?;
    Ok(text.to_str().map_err(|_| wrong(value, name, "a string of valid characters"))?.to_owned())
}

/// True or false.
pub(crate) fn flag(value: Value<'_, '_>, name: &str) -> PyResult<bool> {
    if is_bool(value) {
        return value.is_truthy();
    }
    Err(wrong(value, name, "True or False").into())
}

/// Refuses True and False where a number is wanted.
pub(crate) fn not_bool(value: Value<'_, '_>, name: &str, wanted: &str) -> PyResult<()> {
    if is_bool(value) || value.is_none() { Err(wrong(value, name, wanted).into()) } else { Ok(()) }
}

/// A value of one of this package's own classes.
pub(crate) fn own<'a, 'py, T: PyClass>(value: Value<'a, 'py>, name: &str) -> PyResult<&'a Bound<'py, T>> {
    value.cast::<T>().map_err(|_| wrong(value, name, &format!("a {}", T::NAME)).into())
}

/// The same for a parameter that may be left out.
pub(crate) fn maybe_own<'a, 'py, T: PyClass>(value: Maybe<'a, 'py>, name: &str) -> PyResult<Option<&'a Bound<'py, T>>> {
    given(value).map(|value| own(value, name)).transpose()
}

/// An angle in degrees.
pub(crate) fn angle(value: Value<'_, '_>, name: &str) -> PyResult<Angle> {
    let refuse = || wrong(value, name, "a number of degrees");
    if is_bool(value) || value.is_instance_of::<PyString>() {
        return Err(refuse().into());
    }
    let degrees = float(value, refuse)?;
    Angle::degrees(degrees).map_err(|error| Refusal::named(error, name, &shown(value)).into())
}

//! The one place where a refusal becomes a Python exception.
//!
//! The classes are made from the core's table: `DryfitError`, and below it one class a code, named as the code is.

use dryfit_core::{Amount, Code, Error, Failure};
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::sync::PyOnceLock;
use pyo3::types::{PyDict, PyType};
use std::ffi::CString;

struct Classes {
    base: Py<PyType>,
    /// In the order of [`Code::ALL`].
    of_code: Vec<Py<PyType>>,
}

static CLASSES: PyOnceLock<Classes> = PyOnceLock::new();

const BASE_DOC: &str = "A refusal: what was asked cannot be done, or not with these values.\n\n\
    Every subclass has its own number in ``code``, the same as the status of the C library. ``parameter`` names what was\n\
    refused, ``place`` says where (boards, panel and point) or is empty.";

fn class(py: Python<'_>, name: &str, doc: &str, base: &Bound<'_, PyType>, code: i32) -> PyResult<Py<PyType>> {
    let dict = PyDict::new(py);
    dict.set_item("code", code)?;
    dict.set_item("parameter", "")?;
    dict.set_item("place", "")?;
    let (name, doc) = (CString::new(format!("dryfit.{name}"))?, CString::new(doc)?);
    // `new_type` (pyo3 0.30) drops what it is given before CPython reads it, so another reference has to outlive the call.
    let made = PyErr::new_type(py, &name, Some(&doc), Some(base), Some(dict.clone().into_any().unbind()));
    drop(dict);
    made
}

fn classes(py: Python<'_>) -> PyResult<&Classes> {
    CLASSES.get_or_try_init(py, || {
        let base = class(py, "DryfitError", BASE_DOC, &py.get_type::<PyValueError>(), 0)?;
        let doc = |code: &Code| {
            let text = code.text();
            let mut letters = text.chars();
            let first = letters.next().map(|c| c.to_uppercase().collect::<String>()).unwrap_or_default();
            format!("{first}{}. Code {}.", letters.as_str(), code.number())
        };
        let of_code =
            Code::ALL.iter().map(|code| class(py, &format!("{code:?}"), &doc(code), base.bind(py), code.number())).collect::<PyResult<_>>()?;
        Ok(Classes { base, of_code })
    })
}

/// Adds the exception classes to the module.
pub(crate) fn install(module: &Bound<'_, PyModule>) -> PyResult<()> {
    let classes = classes(module.py())?;
    for class in std::iter::once(&classes.base).chain(&classes.of_code) {
        let class = class.bind(module.py());
        module.add(class.name()?.to_str()?, class)?;
    }
    Ok(())
}

/// Whether an error is a refusal, and no other trouble.
pub(crate) fn is_refusal(py: Python<'_>, error: &PyErr) -> bool {
    classes(py).is_ok_and(|classes| error.is_instance(py, classes.base.bind(py)))
}

/// A refusal on its way to Python: `place: parameter` and the rest of the sentence.
#[derive(Clone, Debug)]
pub(crate) struct Refusal {
    code: Code,
    place: String,
    parameter: String,
    rest: String,
}

impl Refusal {
    /// The parameter is refused because of `rest`, a clause such as `a string given, allowed "x", "y" or "z"`.
    pub(crate) fn new(code: Code, parameter: &str, rest: impl AsRef<str>) -> Refusal {
        Refusal { code, place: String::new(), parameter: parameter.to_owned(), rest: format!(": {}", rest.as_ref()) }
    }

    /// The core's error about the parameter that Python calls `name`; `given` is shown where the core has no number to show.
    pub(crate) fn named(error: Error, name: &str, given: &str) -> Refusal {
        let mut refusal = Refusal::from(error);
        name.clone_into(&mut refusal.parameter);
        let (huge, unstated) = (matches!(error.given(), Amount::Length(i64::MIN | i64::MAX)), error.given() == Amount::Unstated);
        if huge || unstated {
            let rest = match (huge, refusal.rest.split_once(" given")) {
                (true, Some((_, after))) => after.to_owned(),
                _ => refusal.rest,
            };
            refusal.rest = format!(": {given} given{rest}");
        }
        refusal
    }
}

/// Parameters of the core that have another name in Python.
const NAMES: [(&str, &str); 23] = [
    ("outside x", "outside[0]"),
    ("outside y", "outside[1]"),
    ("outside z", "outside[2]"),
    ("inside x", "inside[0]"),
    ("inside y", "inside[1]"),
    ("inside z", "inside[2]"),
    ("dividers in base", "dividers_in_base"),
    ("sheet width", "sheet[0]"),
    ("sheet height", "sheet[1]"),
    ("pin width", "pin_width"),
    ("longest piece", "sheet"),
    ("key length", "length"),
    ("key width", "width"),
    ("key at", "at"),
    ("tail count", "count"),
    ("socket width", "socket"),
    ("pin board", "pin_board"),
    ("tail board", "tail_board"),
    ("swivel above", "swivel_above"),
    ("turn depth", "turn_depth"),
    ("light power", "light_power"),
    ("bridge width", "bridge_width"),
    ("bridge spacing", "bridge_spacing"),
];

impl From<Error> for Refusal {
    fn from(error: Error) -> Refusal {
        let text = error.to_string();
        let rest = text.strip_prefix(error.parameter).unwrap_or(&text).to_owned();
        let name = NAMES.iter().find(|(core, _)| *core == error.parameter).map_or(error.parameter, |(_, python)| python);
        Refusal { code: error.code, place: String::new(), parameter: name.to_owned(), rest }
    }
}

impl From<Failure> for Refusal {
    fn from(failure: Failure) -> Refusal {
        Refusal { place: failure.place, ..Refusal::from(failure.error) }
    }
}

/// Names are the caller's: they may be long, and have line ends.
const LONGEST_PLACE: usize = 200;

fn shortened(place: &str) -> String {
    match place.char_indices().nth(LONGEST_PLACE) {
        Some((end, _)) => format!("{}...", place.get(..end).unwrap_or_default()),
        None => place.to_owned(),
    }
}

fn one_line(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

impl From<Refusal> for PyErr {
    fn from(refusal: Refusal) -> PyErr {
        Python::attach(|py| {
            let colon = if refusal.place.is_empty() { "" } else { ": " };
            let message = one_line(&format!("{}{colon}{}{}", shortened(&refusal.place), refusal.parameter, refusal.rest));
            let made = classes(py).and_then(|classes| {
                let index = Code::ALL.iter().position(|code| *code == refusal.code);
                let class = index.and_then(|i| classes.of_code.get(i)).unwrap_or(&classes.base);
                let value = class.bind(py).call1((message,))?;
                value.setattr("parameter", &refusal.parameter)?;
                value.setattr("place", &refusal.place)?;
                Ok(value)
            });
            made.map_or_else(|error| error, PyErr::from_value)
        })
    }
}

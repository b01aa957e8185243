//! What a call was given, in plain exact values: what pickles and copies are made again from.

use dryfit_core::{Nm, Ratio};
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::cutter::Cutter;
use crate::fit::Fit;
use crate::joint::Spec;
use crate::relief::Relief;
use crate::show;
use crate::stock::Stock;

/// What pickle and copies ask for: what to call, and with what.
pub(crate) type Again<'py, T> = PyResult<(Bound<'py, PyAny>, T)>;

/// One value, as Python takes it again.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Given {
    /// Millimetres.
    Length(Nm),
    Lengths(Vec<Nm>),
    Count(u32),
    Counts(Vec<u32>),
    /// Whole millionths of a number.
    Millionths(i64),
    Degrees(f64),
    /// One of a parameter's words.
    Word(&'static str),
    Text(String),
    Texts(Vec<String>),
    Flag(bool),
    Ratio(Ratio),
    Stock(Stock),
    Cutter(Cutter),
    Fit(Fit),
    Relief(Relief),
    Joint(Spec),
}

impl Given {
    fn to_python<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        match self {
            Given::Length(length) => length.mm().into_bound_py_any(py),
            Given::Lengths(lengths) => Ok(PyTuple::new(py, lengths.iter().map(|length| length.mm()))?.into_any()),
            Given::Count(count) => count.into_bound_py_any(py),
            Given::Counts(counts) => Ok(PyTuple::new(py, counts)?.into_any()),
            Given::Millionths(number) => (*number as f64 / 1e6).into_bound_py_any(py),
            Given::Degrees(degrees) => degrees.into_bound_py_any(py),
            Given::Word(word) => word.into_bound_py_any(py),
            Given::Text(text) => text.into_bound_py_any(py),
            Given::Texts(texts) => Ok(PyTuple::new(py, texts)?.into_any()),
            Given::Flag(flag) => flag.into_bound_py_any(py),
            Given::Ratio(ratio) => (ratio.num(), ratio.den()).into_bound_py_any(py),
            Given::Stock(stock) => stock.into_bound_py_any(py),
            Given::Cutter(cutter) => cutter.into_bound_py_any(py),
            Given::Fit(fit) => fit.into_bound_py_any(py),
            Given::Relief(relief) => relief.into_bound_py_any(py),
            Given::Joint(spec) => match spec {
                Spec::Fingers(spec) => spec.into_bound_py_any(py),
                Spec::Tabs(spec) => spec.into_bound_py_any(py),
                Spec::Halves(spec) => spec.into_bound_py_any(py),
                Spec::Tails(spec) => spec.into_bound_py_any(py),
            },
        }
    }

    /// As Python shows it, exact.
    fn shown(&self, py: Python<'_>) -> PyResult<String> {
        match self {
            Given::Length(length) => Ok(show::mm(*length)),
            Given::Millionths(number) => Ok(show::millionths(*number)),
            _ => Ok(self.to_python(py)?.repr()?.to_string()),
        }
    }
}

/// Values by the names of their parameters; what was left out is left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Named(Vec<(&'static str, Given)>);

impl Named {
    pub(crate) fn with(mut self, name: &'static str, given: Given) -> Named {
        self.0.push((name, given));
        self
    }

    pub(crate) fn may(self, name: &'static str, given: Option<Given>) -> Named {
        match given {
            Some(given) => self.with(name, given),
            None => self,
        }
    }

    pub(crate) fn has(&self, name: &str) -> bool {
        self.0.iter().any(|(known, _)| *known == name)
    }

    pub(crate) fn to_python<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let dict = PyDict::new(py);
        for (name, given) in &self.0 {
            dict.set_item(name, given.to_python(py)?)?;
        }
        Ok(dict)
    }

    /// ``name=value, ...``
    pub(crate) fn shown(&self, py: Python<'_>) -> PyResult<String> {
        let each = self.0.iter().map(|(name, given)| Ok(format!("{name}={}", given.shown(py)?)));
        Ok(each.collect::<PyResult<Vec<_>>>()?.join(", "))
    }
}

/// A call by its name: what has no names of its own, then the rest.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Call {
    pub(crate) name: &'static str,
    pub(crate) plain: Vec<Given>,
    pub(crate) named: Named,
}

impl Call {
    pub(crate) fn to_python<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        let plain = self.plain.iter().map(|given| given.to_python(py)).collect::<PyResult<Vec<_>>>()?;
        (self.name, PyTuple::new(py, plain)?, self.named.to_python(py)?).into_bound_py_any(py)
    }
}

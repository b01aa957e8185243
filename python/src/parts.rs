//! `Parts`: the parts of one or several pieces.

use std::collections::HashSet;

use dryfit_core::{Code, Item};
use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use pyo3::types::{PyIterator, PyList};

use crate::door;
use crate::layout::Layout;
use crate::part::Part;
use crate::refusal::Refusal;
use crate::report::Report;

/// A job: parts by name, in order, to be cut with one or several sheets. Made by ``Assembly.cut``; ``+`` joins two jobs.
///
/// It reads like a dict from names to ``Part``. Of equal names the later gets a number: front, then front-2.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> piece = box(outside=(110, 85, 60), stock=stock)
/// >>> parts = piece.cut(cutter=Cutter.beam(kerf=0.18), fit=Fit(cheek=0.1))
/// >>> list(parts)
/// ['front', 'back', 'left', 'right', 'base', 'top']
/// >>> parts.dry_fit().ok
/// True
/// >>> list(parts + parts)[-1]
/// 'top-2'
#[pyclass(frozen, eq, mapping, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parts {
    core: dryfit_core::Parts,
    /// One for each part, all different.
    names: Vec<String>,
}

impl Parts {
    /// All parts of a piece; `label` goes before their names.
    pub(crate) fn of(core: dryfit_core::Parts, label: Option<&str>) -> Parts {
        let name = |part: &dryfit_core::Part| label.map_or_else(|| part.name().to_owned(), |label| format!("{label} {}", part.name()));
        let names = core.iter().map(name).collect();
        Parts { core, names }
    }

    /// Names and parts, in order.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (&str, &dryfit_core::Part)> {
        self.names.iter().map(String::as_str).zip(self.core.iter())
    }

    /// What is laid out.
    pub(crate) fn wanted(&self) -> Vec<Item<'_>> {
        let items = Item::of(&self.core).into_iter();
        items.zip(&self.names).map(|(item, name)| Item { name, ..item }).collect()
    }
}

#[pymethods]
impl Parts {
    fn __len__(&self) -> usize {
        self.names.len()
    }

    fn __contains__(&self, name: &Bound<'_, PyAny>) -> bool {
        name.extract::<String>().is_ok_and(|name| self.names.contains(&name))
    }

    fn __getitem__(&self, name: &Bound<'_, PyAny>) -> PyResult<Part> {
        let wanted: String = name.extract().map_err(|_| PyKeyError::new_err(name.clone().unbind()))?;
        let found = self.iter().find(|(name, _)| *name == wanted);
        found.map(|(name, part)| Part::new(name, part)).ok_or_else(|| PyKeyError::new_err(wanted))
    }

    fn __iter__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyIterator>> {
        PyList::new(py, &self.names)?.try_iter()
    }

    /// The names, in order.
    fn keys(&self) -> Vec<&str> {
        self.names.iter().map(String::as_str).collect()
    }

    /// The parts, in order.
    fn values(&self) -> Vec<Part> {
        self.iter().map(|(name, part)| Part::new(name, part)).collect()
    }

    /// Pairs of name and part, in order.
    fn items(&self) -> Vec<(&str, Part)> {
        self.iter().map(|(name, part)| (name, Part::new(name, part))).collect()
    }

    /// The part of a name, or ``default``.
    #[pyo3(signature = (name, default = None, /))]
    fn get<'py>(&self, py: Python<'py>, name: &Bound<'py, PyAny>, default: Option<Bound<'py, PyAny>>) -> PyResult<Option<Bound<'py, PyAny>>> {
        match self.__getitem__(name) {
            Ok(part) => Ok(Some(Py::new(py, part)?.into_bound(py).into_any())),
            Err(_) => Ok(default),
        }
    }

    fn __add__(&self, other: &Bound<'_, PyAny>) -> PyResult<Py<PyAny>> {
        let Ok(other) = other.cast::<Parts>() else { return Ok(other.py().NotImplemented()) };
        let py = other.py();
        let other = other.get();
        let mut names = self.names.clone();
        let mut taken: HashSet<String> = names.iter().cloned().collect();
        for name in &other.names {
            let numbered = std::iter::once(name.clone()).chain((2_u32..).map(|n| format!("{name}-{n}")));
            let free = numbered.into_iter().find(|name| !taken.contains(name)).unwrap_or_default();
            taken.insert(free.clone());
            names.push(free);
        }
        let core = self.core.clone().join(other.core.clone());
        Ok(Py::new(py, Parts { core, names })?.into_any())
    }

    /// The dry fit of what comes off the cutter, piece by piece: the kerf is taken off, and gaps may be what the fit asked for.
    fn dry_fit(&self, py: Python<'_>) -> Report {
        Report { core: py.detach(|| dryfit_core::dry_fit_parts(&self.core)) }
    }

    /// Lays the parts out in rows, on as many sheets of ``stock`` as they need; a list of ``Stock`` where thicknesses differ.
    ///
    /// Each part goes on the first stock of exactly its thickness. ``share_cuts`` is for a later version.
    ///
    /// Raises ``LargerThanSheet``, ``WrongThickness`` (no stock of the part's thickness), ``NotAvailable``.
    #[pyo3(signature = (stock, /, *, share_cuts = None))]
    fn lay_out(&self, py: Python<'_>, stock: &Bound<'_, PyAny>, share_cuts: Option<&Bound<'_, PyAny>>) -> PyResult<Layout> {
        if share_cuts.map_or(Ok(false), |flag| door::flag(flag, "share_cuts"))? {
            return Err(Refusal::new(
                Code::NotAvailable,
                "share_cuts",
                "True given, allowed False: one cut for two parts comes with a later version",
            )
            .into());
        }
        Layout::rows(py, self, stock)
    }

    fn __repr__(&self) -> String {
        let shown: Vec<_> = self.names.iter().take(8).map(String::as_str).collect();
        let more = if self.names.len() > shown.len() { ", ..." } else { "" };
        format!("<dryfit.Parts, {}: {}{more}>", self.names.len(), shown.join(", "))
    }
}

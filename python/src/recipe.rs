//! How an assembly came to be: what pickle makes it again from.

use std::sync::Arc;

use dryfit_core::Code;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::assembly::Assembly;
use crate::record::Call;
use crate::refusal::Refusal;

/// The calls that made an assembly, in order: the first made it, the others changed it.
#[derive(Clone, Debug)]
pub(crate) struct Recipe(Arc<Vec<Call>>);

impl Recipe {
    /// What one call made.
    pub(crate) fn of(call: Call) -> Recipe {
        Recipe(Arc::new(vec![call]))
    }

    /// A later joint of the same two boards replaces the earlier, here too: recipes do not grow with what is tried.
    pub(crate) fn push(&mut self, call: Call) {
        let calls = Arc::make_mut(&mut self.0);
        if let ("joint", [a, b, _]) = (call.name, call.plain.as_slice()) {
            let same = |other: &Call| {
                let pair = other.plain.get(..2);
                other.name == "joint" && (pair == Some(&[a.clone(), b.clone()]) || pair == Some(&[b.clone(), a.clone()]))
            };
            calls.retain(|other| !same(other));
        }
        calls.push(call);
    }

    pub(crate) fn is(&self, other: &Recipe) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }

    pub(crate) fn to_python<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyTuple>> {
        PyTuple::new(py, self.0.iter().map(|call| call.to_python(py)).collect::<PyResult<Vec<_>>>()?)
    }
}

/// What makes an assembly, and what changes it: all that a recipe may call.
const MAKERS: [&str; 5] = ["Assembly", "box", "prism", "ring", "splice"];
const CHANGES: [&str; 6] = ["add", "lap", "joint", "key", "hole", "bolt"];

/// The assembly of a recipe, which pickle brought.
pub(crate) fn again<'py>(py: Python<'py>, calls: &Bound<'py, PyTuple>) -> PyResult<Bound<'py, Assembly>> {
    let module = py.import("dryfit._dryfit")?;
    let mut made: Option<Bound<'py, PyAny>> = None;
    for call in calls {
        let (name, plain, named): (String, Bound<'py, PyTuple>, Bound<'py, PyDict>) = call.extract()?;
        let (owner, known): (&Bound<'py, PyAny>, &[&str]) = match &made {
            Some(made) => (made, &CHANGES),
            None => (module.as_any(), &MAKERS),
        };
        if !known.contains(&name.as_str()) {
            return Err(Refusal::new(Code::WrongType, "calls", format!("\"{name}\" given, allowed {}", known.join(", "))).into());
        }
        let done = owner.call_method(name, plain, Some(&named))?;
        made.get_or_insert(done);
    }
    let made = made.ok_or_else(|| Refusal::new(Code::MissingKey, "calls", "none given, allowed one at least"))?;
    Ok(made.cast_into::<Assembly>()?)
}

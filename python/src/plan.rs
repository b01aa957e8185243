//! `Plan`: what a machine does to cut one sheet.

use std::hash::{Hash, Hasher};

use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::html::html;
use crate::motion::Motion;
use crate::record::Again;
use crate::sheet::Sheet;

/// What a machine does to cut one sheet, in numbers. Made by ``Sheet.plan``; the files say it in full.
///
/// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5, gap=2)
/// >>> parts = box(outside=(90, 80, 70), stock=stock, top="open").cut(cutter=Cutter.beam(kerf=0.2))
/// >>> parts.lay_out(stock).sheets[0].plan(Motion(passes=2, power=800))
/// <dryfit.Plan: passes: 2, bridges: 5>
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Plan {
    pub(crate) core: dryfit_core::Plan,
    /// The names of the parts that should have bridges and have none.
    pub(crate) bare: Vec<String>,
    /// What it was made for.
    pub(crate) sheet: Sheet,
    pub(crate) motion: Option<Motion>,
}

impl PartialEq for Plan {
    fn eq(&self, other: &Plan) -> bool {
        (&self.core, &self.bare) == (&other.core, &other.bare)
    }
}

impl Hash for Plan {
    fn hash<H: Hasher>(&self, state: &mut H) {
        (self.core.length(), self.core.bridges(), self.core.passes().len(), &self.bare).hash(state);
    }
}

#[pymethods]
impl Plan {
    /// Every pass: how deep it goes in mm (0 for a beam) and the power of a beam.
    #[getter]
    fn passes(&self) -> Vec<(f64, f64)> {
        self.core.passes().iter().map(|pass| (pass.depth.mm(), pass.power as f64 / 1e6)).collect()
    }

    /// How many bridges hold the parts.
    #[getter]
    fn bridges(&self) -> usize {
        self.core.bridges()
    }

    /// The names of the parts that should be held by bridges and have no place for one: no straight free edge that is long enough.
    #[getter]
    fn bare(&self) -> Vec<String> {
        self.bare.clone()
    }

    /// How many cuts of a beam or bit begin on the line itself, since there is no room in the waste for a way in.
    #[getter]
    fn unled(&self) -> usize {
        self.core.unled()
    }

    /// How far a blade's tip strays from the line at most, in mm; 0 for other tools. Small turns are taken without turning the blade about its tip. What ``flat`` costs is not
    /// counted: up to four times as much as was given.
    #[getter]
    fn deviation(&self) -> f64 {
        self.core.deviation().mm()
    }

    /// The way with the tool down in mm, all passes together.
    #[getter]
    fn length(&self) -> f64 {
        self.core.length() as f64 / 1e6
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Sheet, Option<Motion>)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().sheet.clone(), slf.get().motion.clone())))
    }

    /// Makes the plan of a pickled sheet again.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, sheet: &Bound<'py, PyAny>, motion: &Bound<'py, PyAny>) -> PyResult<Bound<'py, PyAny>> {
        sheet.call_method1("plan", (motion,))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "plan")
    }

    fn __repr__(&self) -> String {
        format!("<dryfit.Plan: passes: {}, bridges: {}>", self.core.passes().len(), self.core.bridges())
    }
}

//! `Cutter`: what cuts, and how wide.

use dryfit_core::bounds::{DIAMETER, KERF, TRAIL};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};

use crate::door;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::show::mm;

/// A cutting tool, made by ``Cutter.blade``, ``Cutter.beam`` or ``Cutter.bit``. Kerf is always the full width of the cut, in mm.
///
/// Blades, beams and bits injure; beams also give fumes and start fires. The rules of the machine's maker and of the place come first.
///
/// >>> Cutter.blade(kerf=0.0, trail="0.25 mm")
/// Cutter.blade(kerf=0, trail=0.25)
/// >>> Cutter.bit(diameter=3).kerf
/// 3.0
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Cutter {
    pub(crate) core: dryfit_core::Cutter,
}

#[pymethods]
impl Cutter {
    /// A trailing blade: its kerf and how far the tip lags behind the axis; each from 0 (a thin blade, an upright one) to 20 mm.
    /// ``kerf`` and ``trail`` are in mm or strings with a unit. Paths and sheets show where the tip cuts; with a ``Motion`` the files lead the
    /// axis, so that the tip gets there.
    ///
    /// Raises a ``DryfitError`` for values out of range.
    ///
    /// >>> Cutter.blade(trail="0.25 mm")
    /// Cutter.blade(kerf=0, trail=0.25)
    #[staticmethod]
    #[pyo3(signature = (*, kerf = None, trail = None))]
    fn blade(kerf: Option<&Bound<'_, PyAny>>, trail: Option<&Bound<'_, PyAny>>) -> PyResult<Cutter> {
        let read = |value: Option<&Bound<'_, PyAny>>, range, name| Ok::<_, PyErr>(door::maybe_length(value, range, name)?.unwrap_or_default());
        let (kerf, trail) = (read(kerf, &KERF, "kerf")?, read(trail, &TRAIL, "trail")?);
        Ok(Cutter { core: dryfit_core::Cutter::blade(kerf, trail).map_err(Refusal::from)? })
    }

    /// A beam: ``kerf`` is the full width of its cut, from 0 to 20 mm or a string with a unit. (Its corners are taken to be round by half the kerf.)
    ///
    /// Raises a ``DryfitError`` for a value out of range.
    ///
    /// >>> Cutter.beam(kerf=0.18).corner_radius
    /// 0.09
    #[staticmethod]
    #[pyo3(signature = (*, kerf))]
    fn beam(kerf: &Bound<'_, PyAny>) -> PyResult<Cutter> {
        Ok(Cutter { core: dryfit_core::Cutter::beam(door::length(kerf, &KERF, "kerf")?).map_err(Refusal::from)? })
    }

    /// A round bit: its ``diameter`` is the full width of the cut, from 0.001 to 20 mm or a string with a unit. It leaves a fillet in every inner
    /// corner, which ``Relief`` makes room for.
    ///
    /// Raises a ``DryfitError`` for a value out of range.
    ///
    /// >>> Cutter.bit(diameter="1/8 in")
    /// Cutter.bit(diameter=3.175)
    #[staticmethod]
    #[pyo3(signature = (*, diameter))]
    fn bit(diameter: &Bound<'_, PyAny>) -> PyResult<Cutter> {
        Ok(Cutter { core: dryfit_core::Cutter::bit(door::length(diameter, &DIAMETER, "diameter")?).map_err(Refusal::from)? })
    }

    /// "blade", "beam" or "bit".
    #[getter]
    fn kind(&self) -> &'static str {
        match self.core {
            dryfit_core::Cutter::Blade { .. } => "blade",
            dryfit_core::Cutter::Beam { .. } => "beam",
            dryfit_core::Cutter::Bit { .. } => "bit",
        }
    }

    /// Full width of the cut in mm.
    #[getter]
    fn kerf(&self) -> f64 {
        self.core.kerf().mm()
    }

    /// How far a blade's tip lags behind its axis in mm; None for other tools.
    #[getter]
    fn trail(&self) -> Option<f64> {
        match self.core {
            dryfit_core::Cutter::Blade { trail, .. } => Some(trail.mm()),
            _ => None,
        }
    }

    /// Radius in mm of the fillet that the tool leaves in inner corners; 0 for a blade.
    #[getter]
    fn corner_radius(&self) -> f64 {
        self.core.corner_radius().mm()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (&'static str, Bound<'py, PyDict>)> {
        let this = slf.get();
        let named = PyDict::new(slf.py());
        named.set_item(if this.kind() == "bit" { "diameter" } else { "kerf" }, this.kerf())?;
        if let Some(trail) = this.trail() {
            named.set_item("trail", trail)?;
        }
        Ok((slf.get_type().getattr("_of")?, (this.kind(), named)))
    }

    /// Makes a pickled cutter again.
    #[classmethod]
    fn _of<'py>(class: &Bound<'py, PyType>, kind: &Bound<'py, PyAny>, named: &Bound<'py, PyDict>) -> PyResult<Bound<'py, PyAny>> {
        let kinds = [("blade", "blade"), ("beam", "beam"), ("bit", "bit")];
        class.call_method(door::choice(kind, &kinds, "kind")?, (), Some(named))
    }

    fn __repr__(&self) -> String {
        match self.core {
            dryfit_core::Cutter::Blade { kerf, trail } => format!("Cutter.blade(kerf={}, trail={})", mm(kerf), mm(trail)),
            dryfit_core::Cutter::Beam { kerf } => format!("Cutter.beam(kerf={})", mm(kerf)),
            dryfit_core::Cutter::Bit { diameter } => format!("Cutter.bit(diameter={})", mm(diameter)),
        }
    }
}

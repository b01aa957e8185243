//! `Report`: what a dry fit found.

use std::hash::{Hash, Hasher};

use dryfit_core::Nm;
use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::html::html;
use crate::record::Again;
use crate::refusal::Refusal;

/// What a dry fit found, of nominal panels or of what comes off the cutter. Lengths in mm, volumes in cubic mm.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> report = box(outside=(110, 85, 60), stock=stock).dry_fit()
/// >>> report.ok, report.problems, report.overlap_max, report.void_volume
/// (True, [], 0.0, 0.0)
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Report {
    pub(crate) core: dryfit_core::Report,
}

/// Lengths in nanometres, volumes in cubic ones, loose pieces, problems.
type Value<Problems> = ([i64; 5], [i128; 2], usize, Problems);

impl Report {
    /// All that it says.
    fn value(&self) -> Value<&[String]> {
        let core = &self.core;
        let nm = [core.overlap_max, core.gap_min, core.gap_max, core.thinnest_neck, core.corner_fillet].map(Nm::nm);
        (nm, [core.overlap_volume, core.void_volume], core.loose_pieces, &core.problems)
    }
}

impl PartialEq for Report {
    fn eq(&self, other: &Report) -> bool {
        self.value() == other.value()
    }
}

impl Hash for Report {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.value().hash(state);
    }
}

/// Cubic nanometres in a cubic millimetre.
const CUBIC_MM: f64 = 1e18;

#[pymethods]
impl Report {
    /// Whether the pieces fit.
    #[getter]
    fn ok(&self) -> bool {
        self.core.ok()
    }

    /// What is wrong, with boards and places; empty if all is well.
    #[getter]
    fn problems(&self) -> Vec<&str> {
        self.core.problems.iter().map(String::as_str).collect()
    }

    /// How deep a board reaches into another at most, in mm; 0 if none does.
    #[getter]
    fn overlap_max(&self) -> f64 {
        self.core.overlap_max.mm()
    }

    /// Volume that two boards claim, in cubic mm.
    #[getter]
    fn overlap_volume(&self) -> f64 {
        self.core.overlap_volume as f64 / CUBIC_MM
    }

    /// Smallest gap of all contacts in mm; negative is interference.
    #[getter]
    fn gap_min(&self) -> f64 {
        self.core.gap_min.mm()
    }

    /// Largest gap of all contacts in mm.
    #[getter]
    fn gap_max(&self) -> f64 {
        self.core.gap_max.mm()
    }

    /// Volume of the slabs that no board fills, in cubic mm.
    #[getter]
    fn void_volume(&self) -> f64 {
        self.core.void_volume as f64 / CUBIC_MM
    }

    /// How many pieces fall off their panels.
    #[getter]
    fn loose_pieces(&self) -> usize {
        self.core.loose_pieces
    }

    /// Width of the thinnest solid of any panel, in mm.
    #[getter]
    fn thinnest_neck(&self) -> f64 {
        self.core.thinnest_neck.mm()
    }

    /// Radius in mm that a round cutter leaves in inner corners; 0 for a blade.
    #[getter]
    fn corner_fillet(&self) -> f64 {
        self.core.corner_fillet.mm()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, Value<Vec<String>>> {
        let (nm, volumes, loose_pieces, problems) = slf.get().value();
        Ok((slf.get_type().getattr("_of")?, (nm, volumes, loose_pieces, problems.to_vec())))
    }

    /// Makes a pickled report again: lengths in nanometres, volumes in cubic ones.
    #[classmethod]
    fn _of(_class: &Bound<'_, PyType>, nm: [i64; 5], volumes: [i128; 2], loose_pieces: usize, problems: Vec<String>) -> PyResult<Report> {
        let length = |number: i64| Nm::new(number).map_err(Refusal::from);
        let ([overlap_max, gap_min, gap_max, thinnest_neck, corner_fillet], [overlap_volume, void_volume]) = (nm, volumes);
        let mut core = dryfit_core::Report::default();
        (core.overlap_max, core.gap_min, core.gap_max) = (length(overlap_max)?, length(gap_min)?, length(gap_max)?);
        (core.thinnest_neck, core.corner_fillet) = (length(thinnest_neck)?, length(corner_fillet)?);
        (core.overlap_volume, core.void_volume, core.loose_pieces, core.problems) = (overlap_volume, void_volume, loose_pieces, problems);
        Ok(Report { core })
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "report")
    }

    fn __repr__(&self) -> String {
        let core = &self.core;
        let verdict = match core.problems.as_slice() {
            [] => "it fits".to_owned(),
            [only] => only.clone(),
            [first, rest @ ..] => format!("{first}, and {} more problems", rest.len()),
        };
        format!(
            "<dryfit.Report: {verdict}; overlap {}, gaps {} to {}, void {} mm3, {} loose pieces, thinnest neck {}>",
            core.overlap_max,
            core.gap_min,
            core.gap_max,
            self.void_volume(),
            core.loose_pieces,
            core.thinnest_neck
        )
    }
}

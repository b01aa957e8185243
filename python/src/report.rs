//! `Report`: what a dry fit found.

use pyo3::prelude::*;

/// What a dry fit found, of nominal panels or of what comes off the cutter. Lengths in mm, volumes in cubic mm.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> report = box(outside=(110, 85, 60), stock=stock).dry_fit()
/// >>> report.ok, report.problems, report.overlap_max, report.void_volume
/// (True, [], 0.0, 0.0)
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    pub(crate) core: dryfit_core::Report,
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

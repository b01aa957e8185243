//! `Layout` and `Sheet`: parts on sheets, and the files of the sheets.

use std::sync::Arc;

use dryfit_core::{Code, Item, sheet_svg};
use pyo3::prelude::*;

use crate::door;
use crate::parts::Parts;
use crate::placement::Placement;
use crate::refusal::Refusal;
use crate::stock::Stock;

/// Parts on as many sheets as they need. Made by ``Parts.lay_out``.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
/// >>> parts = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.blade(kerf=0, trail=0.25))
/// >>> layout = parts.lay_out(stock)
/// >>> layout
/// <dryfit.Layout, sheets: 1, parts: 6>
/// >>> sorted(placement.part for placement in layout.sheets[0].placements)
/// ['back', 'base', 'front', 'left', 'right', 'top']
/// >>> layout.sheets[0].svg().startswith("<svg")
/// True
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    job: Arc<Job>,
}

/// One sheet of a layout.
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    job: Arc<Job>,
    index: usize,
}

/// What was laid out, and how.
#[derive(Debug, PartialEq)]
struct Job {
    parts: Parts,
    layout: dryfit_core::Layout,
}

impl Job {
    fn items(&self) -> Vec<Item<'_>> {
        self.parts.wanted()
    }
}

impl Layout {
    pub(crate) fn new(parts: &Parts, layout: dryfit_core::Layout) -> Layout {
        Layout { job: Arc::new(Job { parts: parts.clone(), layout }) }
    }
}

impl Sheet {
    /// The sheet; its number is known to exist.
    fn core(&self) -> PyResult<&dryfit_core::Sheet> {
        self.job.layout.sheets.get(self.index).ok_or_else(|| Refusal::new(Code::OutOfRange, "sheet", "no such sheet").into())
    }
}

#[pymethods]
impl Layout {
    /// The sheets, those of one thickness together.
    #[getter]
    fn sheets(&self) -> Vec<Sheet> {
        (0..self.job.layout.sheets.len()).map(|index| Sheet { job: Arc::clone(&self.job), index }).collect()
    }

    /// The names of the parts for which no sheet was left.
    #[getter]
    fn unplaced(&self) -> Vec<&str> {
        let names: Vec<&str> = self.job.parts.iter().map(|(name, _)| name).collect();
        self.job.layout.unplaced.iter().filter_map(|&part| names.get(part).copied()).collect()
    }

    /// How much of the last sheet's height is used, in mm: up to the top of the highest part and the border above it; 0 without sheets.
    #[getter]
    fn used_height(&self) -> PyResult<f64> {
        self.sheets().last().map_or(Ok(0.0), Sheet::used_height)
    }

    /// Length of all cuts in mm.
    #[getter]
    fn cut_length(&self) -> PyResult<f64> {
        let nm = self.job.layout.cut_length(&self.job.items()).map_err(Refusal::from)?;
        Ok(nm as f64 / 1e6)
    }

    fn _repr_html_(&self, py: Python<'_>) -> PyResult<String> {
        let pictures = self.sheets().into_iter().map(|sheet| Ok(format!("<p>{}</p>\n", sheet._repr_svg_(py)?)));
        pictures.collect()
    }

    /// The first sheet, for places that show one picture.
    fn _repr_svg_(&self, py: Python<'_>) -> PyResult<Option<String>> {
        self.sheets().first().map(|sheet| sheet._repr_svg_(py)).transpose()
    }

    fn __repr__(&self) -> String {
        format!("<dryfit.Layout, sheets: {}, parts: {}>", self.job.layout.sheets.len(), self.job.parts.iter().count())
    }
}

#[pymethods]
impl Sheet {
    /// What the sheet is cut from.
    #[getter]
    fn stock(&self) -> PyResult<Stock> {
        Ok(Stock { core: self.core()?.stock })
    }

    /// Where the parts lie.
    #[getter]
    fn placements(&self) -> PyResult<Vec<Placement>> {
        let parts = self.job.items();
        let placed = self.core()?.placements.iter().filter_map(|&core| {
            let item = parts.get(core.part)?;
            Some(Placement::new(core, item.name, item.path))
        });
        Ok(placed.collect())
    }

    /// Length of all cuts on this sheet in mm.
    #[getter]
    fn cut_length(&self) -> PyResult<f64> {
        let nm = self.core()?.cut_length(&self.job.items()).map_err(Refusal::from)?;
        Ok(nm as f64 / 1e6)
    }

    /// How much of the sheet's height is used, in mm: up to the top of the highest part and the border above it.
    #[getter]
    fn used_height(&self) -> PyResult<f64> {
        Ok(self.core()?.used_height(&self.job.items()).map_err(Refusal::from)?.mm())
    }

    /// The sheet as an SVG file in mm, one group per kind of line: ``border``, ``mark`` (names, not to be cut), ``cut-inner``, ``cut-outer``.
    #[pyo3(signature = (*, title = None))]
    fn svg(&self, py: Python<'_>, title: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let title = match title.filter(|title| !title.is_none()) {
            Some(title) => door::text(title, "title")?,
            None => format!("Sheet {} of {}", self.index + 1, self.job.layout.sheets.len()),
        };
        let sheet = self.core()?;
        Ok(py.detach(|| sheet_svg(sheet, &self.job.items(), &title)).map_err(Refusal::from)?)
    }

    fn _repr_svg_(&self, py: Python<'_>) -> PyResult<String> {
        self.svg(py, None)
    }

    fn __repr__(&self) -> PyResult<String> {
        let core = self.core()?;
        let (stock, count) = (core.stock, core.placements.len());
        Ok(format!(
            "<dryfit.Sheet {} of {}: {} x {} x {}, parts: {count}>",
            self.index + 1,
            self.job.layout.sheets.len(),
            stock.width(),
            stock.height(),
            stock.thickness()
        ))
    }
}

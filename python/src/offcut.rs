//! `Offcut`: what is left of a sheet.

use dryfit_core::{Nm, Point};
use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::html::html;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::show::mm;
use crate::stock::Stock;

/// A rectangle of a sheet that no cut comes near. Made by ``Sheet.offcuts``. Sheet coordinates in mm, x right, y up, from the lower left corner.
///
/// >>> sheet = Parts.rectangles([(200, 330)]).lay_out(Stock(thickness=2.5, sheet=(500, 350), border=8), turns=False).sheets[0]
/// >>> sheet.offcuts
/// [<dryfit.Offcut 291 mm x 350 mm at 209, 0>]
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Offcut {
    pub(crate) core: dryfit_core::Offcut,
    /// What it comes from.
    pub(crate) sheet: dryfit_core::Stock,
}

#[pymethods]
impl Offcut {
    /// Its left end in mm.
    #[getter]
    fn x(&self) -> f64 {
        self.core.at.x.mm()
    }

    /// Its lower end in mm.
    #[getter]
    fn y(&self) -> f64 {
        self.core.at.y.mm()
    }

    /// Its width in mm.
    #[getter]
    fn width(&self) -> f64 {
        self.core.size[0].mm()
    }

    /// Its height in mm.
    #[getter]
    fn height(&self) -> f64 {
        self.core.size[1].mm()
    }

    /// One sheet of its size, of the thickness, border, gap and grain of the sheet that it comes from.
    #[getter]
    fn stock(&self) -> PyResult<Stock> {
        Ok(Stock { core: self.core.stock(&self.sheet).map_err(Refusal::from)? })
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, ([i64; 4], Stock)> {
        let Offcut { core, sheet } = *slf.get();
        let nm = [core.at.x, core.at.y, core.size[0], core.size[1]].map(Nm::nm);
        Ok((slf.get_type().getattr("_of")?, (nm, Stock { core: sheet })))
    }

    /// Makes a pickled offcut again: place and size in nanometres, and the sheet's stock.
    #[classmethod]
    fn _of(_class: &Bound<'_, PyType>, nm: [i64; 4], sheet: Stock) -> PyResult<Offcut> {
        let length = |number: i64| Nm::new(number).map_err(Refusal::from);
        let [x, y, width, height] = nm;
        let (x, y, width, height) = (length(x)?, length(y)?, length(width)?, length(height)?);
        Ok(Offcut { core: dryfit_core::Offcut { at: Point::new(x, y), size: [width, height] }, sheet: sheet.core })
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "offcut")
    }

    fn __repr__(&self) -> String {
        let [x, y, width, height] = [self.core.at.x, self.core.at.y, self.core.size[0], self.core.size[1]].map(mm);
        format!("<dryfit.Offcut {width} mm x {height} mm at {x}, {y}>")
    }
}

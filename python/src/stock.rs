//! `Stock`: the sheets that parts are cut from.

use dryfit_core::bounds::{BORDER, GAP, READINGS, SHEET, SHEETS, THICKNESS};
use dryfit_core::{Code, Grain, Nm};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::refusal::Refusal;
use crate::show::mm;

/// A kind of board: its thickness and its sheets. Lengths in mm, or strings with a unit.
///
/// ``thickness`` is a length, or a list of caliper readings: their mean counts, rounded to the nanometre (0.01 to 200 mm).
/// ``sheet`` is (width, height), ``border`` the rim of every sheet that is not cut, ``gap`` the least space between two parts.
/// ``count`` says how many sheets are at hand (1 to 1000000; None: as many as needed), ``grain`` whether their grain runs along "x" or "y":
/// parts are then turned only so that theirs does too (see ``Parts.lay_out``).
///
/// Raises a ``DryfitError`` that names the parameter, what was given and the allowed range.
///
/// >>> stock = Stock(thickness=[2.46, 2.53, 2.49, 2.55], sheet=(500, "13 3/4 in"), border=8)
/// >>> stock.thickness
/// 2.5075
/// >>> stock
/// Stock(thickness=2.5075, sheet=(500, 349.25), border=8, gap=1)
/// >>> Stock(thickness=4, sheet=(600, 300), count=2, grain="x")
/// Stock(thickness=4, sheet=(600, 300), border=0, gap=1, count=2, grain='x')
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stock {
    pub(crate) core: dryfit_core::Stock,
}

/// One more shows that there are too many.
const MOST_READINGS: usize = READINGS.most as usize;

/// A length, or the mean of several readings.
fn thickness(value: &Bound<'_, PyAny>) -> PyResult<Nm> {
    if door::is_single(value) {
        return door::length(value, &THICKNESS, "thickness");
    }
    let mut readings = Vec::new();
    for (index, reading) in value.try_iter()?.take(MOST_READINGS + 1).enumerate() {
        readings.push(door::length(&reading?, &THICKNESS, &format!("thickness[{index}]"))?);
    }
    READINGS.check(readings.len() as i64).map_err(|_| {
        let given = if readings.is_empty() { "no reading".to_owned() } else { format!("more than {MOST_READINGS} readings") };
        Refusal::new(Code::OutOfRange, "thickness", format!("{given} given, allowed {} to {}", READINGS.least, READINGS.most))
    })?;
    Ok(dryfit_core::Stock::mean_thickness(&readings).map_err(Refusal::from)?)
}

impl Stock {
    /// A stock, and no other kind of value.
    pub(crate) fn from_python(value: &Bound<'_, PyAny>, name: &str) -> PyResult<Stock> {
        Ok(*door::own::<Stock>(value, name)?.get())
    }
}

#[pymethods]
impl Stock {
    #[new]
    #[pyo3(signature = (*, thickness, sheet, border = None, gap = None, count = None, grain = None))]
    fn new(
        thickness: &Bound<'_, PyAny>,
        sheet: &Bound<'_, PyAny>,
        border: Option<&Bound<'_, PyAny>>,
        gap: Option<&Bound<'_, PyAny>>,
        count: Option<&Bound<'_, PyAny>>,
        grain: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Stock> {
        let or = |value: Option<&Bound<'_, PyAny>>, range, name, default| value.map_or(Ok(default), |value| door::length(value, range, name));
        let thickness = self::thickness(thickness)?;
        let sheet = door::lengths(sheet, &SHEET, "sheet")?;
        let (border, gap) = (or(border, &BORDER, "border", Nm::ZERO)?, or(gap, &GAP, "gap", ONE_MM)?);
        let mut core = dryfit_core::Stock::new(thickness, sheet, border, gap).map_err(Refusal::from)?;
        if let Some(count) = door::given(count) {
            core = core.sheets(door::count(count, &SHEETS, "count")?).map_err(Refusal::from)?;
        }
        if let Some(grain) = door::given(grain) {
            core = core.grained(door::choice(grain, &GRAINS, "grain")?);
        }
        Ok(Stock { core })
    }

    /// Thickness of the board in mm.
    #[getter]
    fn thickness(&self) -> f64 {
        self.core.thickness().mm()
    }

    /// Width and height of a sheet in mm.
    #[getter]
    fn sheet(&self) -> (f64, f64) {
        (self.core.width().mm(), self.core.height().mm())
    }

    /// The rim that is not cut, in mm.
    #[getter]
    fn border(&self) -> f64 {
        self.core.border().mm()
    }

    /// Least space between two parts, in mm.
    #[getter]
    fn gap(&self) -> f64 {
        self.core.gap().mm()
    }

    /// How many sheets are at hand; None: as many as needed.
    #[getter]
    fn count(&self) -> Option<u32> {
        self.core.count()
    }

    /// The axis along which the grain runs, "x" or "y"; None if there is none.
    #[getter]
    fn grain(&self) -> Option<&'static str> {
        GRAINS.iter().find(|(_, grain)| *grain == self.core.grain()).map(|(word, _)| *word)
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("thickness", self.thickness())?;
        named.set_item("sheet", self.sheet())?;
        named.set_item("border", self.border())?;
        named.set_item("gap", self.gap())?;
        named.set_item("count", self.count())?;
        named.set_item("grain", self.grain())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        let Stock { core } = self;
        let [thickness, width, height, border, gap] = [core.thickness(), core.width(), core.height(), core.border(), core.gap()].map(mm);
        let count = self.count().map_or_else(String::new, |count| format!(", count={count}"));
        let grain = self.grain().map_or_else(String::new, |grain| format!(", grain='{grain}'"));
        format!("Stock(thickness={thickness}, sheet=({width}, {height}), border={border}, gap={gap}{count}{grain})")
    }
}

/// The words for a sheet's grain.
const GRAINS: [(&str, Grain); 2] = [("x", Grain::X), ("y", Grain::Y)];

const ONE_MM: Nm = match Nm::new(dryfit_core::bounds::MM) {
    Ok(length) => length,
    Err(_) => Nm::ZERO,
};

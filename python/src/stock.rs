//! `Stock`: the sheets that parts are cut from.

use dryfit_core::bounds::{BORDER, GAP, READINGS, SHEET, THICKNESS};
use dryfit_core::{Nm, round};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::door;
use crate::show::mm;

/// A kind of board: its thickness and its sheets. Lengths in mm, or strings with a unit.
///
/// ``thickness`` is a length, or a list of caliper readings: their mean counts, rounded to the nanometre (0.01 to 200 mm).
/// ``sheet`` is (width, height), ``border`` the rim of every sheet that is not cut, ``gap`` the least space between two parts.
///
/// Raises a ``DryfitError`` that names the parameter, what was given and the allowed range.
///
/// >>> stock = Stock(thickness=[2.46, 2.53, 2.49, 2.55], sheet=(500, "13 3/4 in"), border=8)
/// >>> stock.thickness
/// 2.5075
/// >>> stock
/// Stock(thickness=2.5075, sheet=(500, 349.25), border=8, gap=1)
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stock {
    pub(crate) thickness: Nm,
    pub(crate) sheet: [Nm; 2],
    pub(crate) border: Nm,
    pub(crate) gap: Nm,
}

/// A length, or the mean of several readings.
fn thickness(value: &Bound<'_, PyAny>) -> PyResult<Nm> {
    if door::is_single(value) {
        return door::length(value, &THICKNESS, "thickness");
    }
    let (mut sum, mut count) = (0, 0);
    for reading in value.try_iter()? {
        sum += i128::from(door::length(&reading?, &THICKNESS, &format!("thickness[{count}]"))?.nm());
        count += 1;
        if count > READINGS.most {
            break;
        }
    }
    READINGS.check(count).map_err(crate::refusal::Refusal::from)?;
    Ok(Nm::new(round::nearest(sum, i128::from(count))).map_err(crate::refusal::Refusal::from)?)
}

impl Stock {
    /// A stock, and no other kind of value.
    pub(crate) fn from_python(value: &Bound<'_, PyAny>, name: &str) -> PyResult<Stock> {
        let stock = value.cast::<Stock>().map_err(|_| door::wrong(value, name, "a Stock"))?;
        Ok(*stock.get())
    }
}

#[pymethods]
impl Stock {
    #[new]
    #[pyo3(signature = (*, thickness, sheet, border = None, gap = None))]
    fn new(
        thickness: &Bound<'_, PyAny>,
        sheet: &Bound<'_, PyAny>,
        border: Option<&Bound<'_, PyAny>>,
        gap: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Stock> {
        let or = |value: Option<&Bound<'_, PyAny>>, range, name, default| value.map_or(Ok(default), |value| door::length(value, range, name));
        Ok(Stock {
            thickness: self::thickness(thickness)?,
            sheet: door::lengths(sheet, &SHEET, "sheet")?,
            border: or(border, &BORDER, "border", Nm::ZERO)?,
            gap: or(gap, &GAP, "gap", ONE_MM)?,
        })
    }

    /// Thickness of the board in mm.
    #[getter]
    fn thickness(&self) -> f64 {
        self.thickness.mm()
    }

    /// Width and height of a sheet in mm.
    #[getter]
    fn sheet(&self) -> (f64, f64) {
        let [width, height] = self.sheet;
        (width.mm(), height.mm())
    }

    /// The rim that is not cut, in mm.
    #[getter]
    fn border(&self) -> f64 {
        self.border.mm()
    }

    /// Least space between two parts, in mm.
    #[getter]
    fn gap(&self) -> f64 {
        self.gap.mm()
    }

    fn __getnewargs_ex__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyTuple>, Bound<'py, PyDict>)> {
        let named = PyDict::new(py);
        named.set_item("thickness", self.thickness())?;
        named.set_item("sheet", self.sheet())?;
        named.set_item("border", self.border())?;
        named.set_item("gap", self.gap())?;
        Ok((PyTuple::empty(py), named))
    }

    fn __repr__(&self) -> String {
        let [width, height] = self.sheet;
        format!("Stock(thickness={}, sheet=({}, {}), border={}, gap={})", mm(self.thickness), mm(width), mm(height), mm(self.border), mm(self.gap))
    }
}

const ONE_MM: Nm = match Nm::new(dryfit_core::bounds::MM) {
    Ok(length) => length,
    Err(_) => Nm::ZERO,
};

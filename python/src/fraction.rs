//! Ratios by way of Python's fractions.

use dryfit_core::Code;
use dryfit_core::bounds::RATIO_TERM;
use pyo3::call::PyCallArgs;
use pyo3::prelude::*;
use pyo3::types::PyFloat;

/// Both terms, in lowest terms, of what Python's ``Fraction`` makes of its arguments; or why there are none. A float `value` stands for the
/// nearest ratio with terms as large as they may be.
pub(crate) fn terms<'py>(value: &Bound<'py, PyAny>, given: impl PyCallArgs<'py>) -> PyResult<Result<(u32, u32), Code>> {
    let Ok(mut made) = value.py().import("fractions")?.getattr("Fraction")?.call1(given) else { return Ok(Err(Code::WrongType)) };
    if value.is_instance_of::<PyFloat>() {
        made = made.call_method1("limit_denominator", (RATIO_TERM.most,))?;
    }
    let term = |of: &str| made.getattr(of)?.extract::<u32>();
    Ok(term("numerator").and_then(|numerator| Ok((numerator, term("denominator")?))).map_err(|_| Code::OutOfRange))
}

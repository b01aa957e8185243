//! Slopes: exact ratios of rise to run.

use dryfit_core::{Code, Ratio};
use pyo3::prelude::*;
use pyo3::types::PyString;

use crate::door;
use crate::fraction::terms;
use crate::refusal::Refusal;

const A_SLOPE: &str = "n for 1:n, at least 1, or a ratio of rise to run such as \"5:24\" or (5, 24)";

/// A slope: a number `n` for 1 in n, a string `"5:24"` or a pair `(5, 24)`, in lowest terms.
pub(crate) fn slope(value: &Bound<'_, PyAny>, name: &str) -> PyResult<Ratio> {
    let refuse = |code| PyErr::from(Refusal::new(code, name, format!("{} given, allowed {A_SLOPE}", door::shown(value))));
    let nothing = |rise: bool| if rise { Err(refuse(Code::OutOfRange)) } else { Ok(()) };
    let run_over_rise = if let Ok(text) = value.cast::<PyString>() {
        let text = text.to_string_lossy();
        let (rise, run) = text.split_once(':').ok_or_else(|| refuse(Code::WrongType))?;
        let whole = |term: &str| term.trim().parse::<u64>().map_err(|_| refuse(Code::WrongType));
        nothing(whole(rise)? == 0)?;
        terms(value, (whole(run)?, whole(rise)?))
    } else if door::is_single(value) {
        door::not_bool(value, name, A_SLOPE)?;
        terms(value, (value,))
    } else {
        let pair: [_; 2] = door::tuple(value, name)?;
        for term in &pair {
            door::not_bool(term, name, A_SLOPE)?;
        }
        nothing(pair[0].eq(0).unwrap_or(false))?;
        terms(value, (&pair[1], &pair[0]))
    };
    let (run, rise) = run_over_rise?.map_err(refuse)?;
    if run < rise {
        return Err(refuse(Code::OutOfRange));
    }
    Ok(Ratio::new(rise, run).map_err(|error| Refusal::named(error, name, &door::shown(value)))?)
}

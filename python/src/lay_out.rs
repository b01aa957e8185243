//! What `Parts.lay_out` is asked: the stocks, how parts may lie, and how long to search.

use std::time::Duration;

use dryfit_core::bounds::SEED;
use dryfit_core::{Code, Grain, LayoutSpec, Stock as CoreStock};
use pyo3::prelude::*;
use pyo3::types::{PyBool, PyString};

use crate::door::{self, Maybe};
use crate::parts::Parts;
use crate::refusal::Refusal;
use crate::stock::Stock;

/// The longest search, in seconds: a day.
const LONGEST: f64 = 86_400.0;

/// The words for how the grain runs on a part as it is drawn.
const GRAINS: [(&str, Grain); 3] = [("x", Grain::X), ("y", Grain::Y), ("any", Grain::Any)];

/// So many stocks at most: who gives an endless iterator is told.
const MOST_STOCKS: usize = 10_000;

/// One stock or several.
pub(crate) fn stocks(stock: &Bound<'_, PyAny>) -> PyResult<Vec<CoreStock>> {
    if stock.is_instance_of::<Stock>() {
        return Ok(vec![Stock::from_python(stock, "stock")?.core]);
    }
    let items = door::in_order(stock).map_err(|_| door::wrong(stock, "stock", "a Stock or a list of Stock"))?;
    let read = |(index, item): (usize, PyResult<Bound<'_, PyAny>>)| Ok(Stock::from_python(&item?, &format!("stock[{index}]"))?.core);
    let stocks = items.take(MOST_STOCKS + 1).enumerate().map(read).collect::<PyResult<Vec<_>>>()?;
    if stocks.len() > MOST_STOCKS {
        return Err(Refusal::new(Code::OutOfRange, "stock", format!("more than {MOST_STOCKS} given, allowed 1 to {MOST_STOCKS}")).into());
    }
    if stocks.is_empty() {
        return Err(Refusal::new(Code::MissingKey, "stock", "an empty list given, allowed one Stock or more").into());
    }
    Ok(stocks)
}

/// How parts may lie, where the search starts, and whether a clock ends it.
pub(crate) fn spec(
    share_cuts: Maybe<'_, '_>,
    turns: Maybe<'_, '_>,
    flips: Maybe<'_, '_>,
    together: Maybe<'_, '_>,
    seed: Maybe<'_, '_>,
) -> PyResult<LayoutSpec> {
    let usual = LayoutSpec::default();
    let flag = |value: Maybe<'_, '_>, name, usual| value.map_or(Ok(usual), |value| door::flag(value, name));
    Ok(LayoutSpec {
        share_cuts: flag(share_cuts, "share_cuts", usual.share_cuts)?,
        turns: flag(turns, "turns", usual.turns)?,
        flips: flag(flips, "flips", usual.flips)?,
        together: flag(together, "together", usual.together)?,
        seed: seed.map_or(Ok(0), |seed| door::count(seed, &SEED, "seed"))?.into(),
        ..usual
    })
}

/// The grain of each part: one word for all, or a word for each of some names.
pub(crate) fn grains(parts: &Parts, grain: Maybe<'_, '_>) -> PyResult<Vec<Grain>> {
    let names: Vec<&str> = parts.iter().map(|(name, _)| name).collect();
    let Some(grain) = door::given(grain) else { return Ok(vec![Grain::X; names.len()]) };
    if grain.is_instance_of::<PyString>() {
        return Ok(vec![door::choice(grain, &GRAINS, "grain")?; names.len()]);
    }
    let words = "\"x\", \"y\", \"any\" or a dict from names of parts to them";
    let refuse = |error| door::other(error, grain.py()).unwrap_or_else(|| door::wrong(grain, "grain", words).into());
    if !grain.hasattr("items")? {
        return Err(door::wrong(grain, "grain", words).into());
    }
    let pairs = grain.call_method0("items").and_then(|items| items.try_iter()).map_err(refuse)?;
    let mut grains = vec![Grain::X; names.len()];
    for pair in pairs {
        let (name, word): (Bound<'_, PyAny>, Bound<'_, PyAny>) = pair?.extract().map_err(refuse)?;
        let text = door::text(&name, "grain")?;
        let place = names.iter().position(|known| **known == *text);
        let into = place
            .and_then(|place| grains.get_mut(place))
            .ok_or_else(|| Refusal::new(Code::UnknownKey, "grain", format!("{} given, allowed names of parts", door::shown(&name))))?;
        *into = door::choice(&word, &GRAINS, &format!("grain[{}]", door::shown(&name)))?;
    }
    Ok(grains)
}

/// The word for a grain.
pub(crate) fn word(grain: Grain) -> &'static str {
    GRAINS.iter().find(|(_, known)| *known == grain).map_or("any", |(word, _)| word)
}

/// A word for each part.
pub(crate) fn each(parts: &Parts, grains: &[Bound<'_, PyAny>]) -> PyResult<Vec<Grain>> {
    if grains.len() != parts.count() {
        return Err(Refusal::new(Code::OutOfRange, "grains", format!("{} given, allowed {}, one for each part", grains.len(), parts.count())).into());
    }
    grains.iter().map(|grain| door::choice(grain, &GRAINS, "grains")).collect()
}

/// How long to search at most.
pub(crate) fn seconds(value: Maybe<'_, '_>) -> PyResult<Option<Duration>> {
    let Some(value) = door::given(value) else { return Ok(None) };
    let wrong = || door::wrong(value, "seconds", "a number of seconds");
    if value.is_instance_of::<PyBool>() || value.is_instance_of::<PyString>() {
        return Err(wrong().into());
    }
    let seconds = door::float(value, wrong)?;
    if seconds > 0.0 && seconds <= LONGEST {
        return Ok(Some(Duration::from_secs_f64(seconds)));
    }
    let code = if seconds.is_finite() { Code::OutOfRange } else { Code::NotFinite };
    Err(Refusal::new(code, "seconds", format!("{} given, allowed more than 0 to {LONGEST}", door::shown(value))).into())
}

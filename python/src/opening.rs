//! Openings and bolts: what `Assembly.hole` and `Assembly.bolt` are told.

use dryfit_core::bounds::{HOLES, LENGTH, SIZE};
use dryfit_core::{Bolt, Clearance, Code, Nm, Opening, Point, Thread};
use pyo3::prelude::*;

use crate::door;
use crate::refusal::Refusal;

type Value<'a, 'py> = Option<&'a Bound<'py, PyAny>>;

fn given<'a, 'py>(value: Value<'a, 'py>) -> Value<'a, 'py> {
    value.filter(|value| !value.is_none())
}

/// One hole or a pattern of them.
pub(crate) fn openings(
    at: &Bound<'_, PyAny>,
    diameter: Value<'_, '_>,
    size: Value<'_, '_>,
    ends: Value<'_, '_>,
    count: Value<'_, '_>,
    spacing: Value<'_, '_>,
) -> PyResult<Vec<Opening>> {
    let [x, y] = door::lengths(at, &LENGTH, "at")?;
    let centre = Point::new(x, y);
    let round = given(ends).map_or(Ok(true), |ends| door::choice(ends, &[("round", true), ("square", false)], "ends"))?;
    let opening = match (given(diameter), given(size)) {
        (Some(diameter), None) if given(ends).is_none() => Opening::round(centre, door::length(diameter, &SIZE.named("diameter"), "diameter")?),
        (None, Some(size)) => {
            let size = door::lengths(size, &SIZE, "size")?;
            if round { Opening::stadium(centre, size) } else { Opening::rectangle(centre, size) }
        }
        _ => return Err(Refusal::new(Code::MissingKey, "diameter, size", "one of the two must be given, and ends only with size").into()),
    };
    let opening = opening.map_err(Refusal::from)?;
    let Some(count) = given(count) else { return Ok(vec![opening]) };
    let [columns, rows]: [_; 2] = door::tuple(count, "count")?;
    let count = [door::count(&columns, &HOLES, "count[0]")?, door::count(&rows, &HOLES, "count[1]")?];
    let spacing =
        given(spacing).ok_or_else(|| Refusal::new(Code::MissingKey, "spacing", "missing, wanted with count: from centre to centre (x, y)"))?;
    Ok(opening.grid(count, door::lengths(spacing, &LENGTH, "spacing")?).map_err(Refusal::from)?)
}

const CLEARANCES: [(&str, Clearance); 3] = [("fine", Clearance::Fine), ("medium", Clearance::Medium), ("coarse", Clearance::Coarse)];

/// A bolt.
pub(crate) fn bolt(thread: &Bound<'_, PyAny>, length: &Bound<'_, PyAny>, clearance: Value<'_, '_>, gap: Value<'_, '_>) -> PyResult<Bolt> {
    let threads = Thread::ALL.map(|thread| (thread.name(), thread));
    let thread = door::choice(thread, &threads, "thread")?;
    let mut bolt = Bolt::new(thread, door::length(length, &SIZE.named("length"), "length")?).map_err(Refusal::from)?;
    if let Some(clearance) = given(clearance) {
        bolt = bolt.clearance(door::choice(clearance, &CLEARANCES, "clearance")?);
    }
    if let Some(gap) = given(gap) {
        let gap: Nm = door::length(gap, &dryfit_core::bounds::NUT_GAP, "gap")?;
        bolt = bolt.gap(gap).map_err(Refusal::from)?;
    }
    Ok(bolt)
}

//! Openings and bolts: what `Assembly.hole` and `Assembly.bolt` are told.

use dryfit_core::bounds::{HOLES, LENGTH, SIZE};
use dryfit_core::{Bolt, Clearance, Code, Nm, Opening, Point, Thread};
use pyo3::prelude::*;

use crate::door::{self, Maybe};
use crate::record::{Given, Named};
use crate::refusal::Refusal;

/// One hole or a pattern of them, and what was said.
#[allow(clippy::too_many_arguments, reason = "named in Python")]
pub(crate) fn openings(
    py: Python<'_>,
    at: &Bound<'_, PyAny>,
    diameter: Maybe<'_, '_>,
    size: Maybe<'_, '_>,
    ends: Maybe<'_, '_>,
    count: Maybe<'_, '_>,
    spacing: Maybe<'_, '_>,
) -> PyResult<(Vec<Opening>, Named)> {
    let [x, y] = door::lengths(at, &LENGTH, "at")?;
    let centre = Point::new(x, y);
    let mut named = Named::default().with("at", Given::Lengths(vec![x, y]));
    let ends = door::given(ends).map(|ends| door::word(ends, &[("round", true), ("square", false)], "ends")).transpose()?;
    let opening = match (door::given(diameter), door::given(size)) {
        (Some(diameter), None) if ends.is_none() => {
            let diameter = door::length(diameter, &SIZE.named("diameter"), "diameter")?;
            named = named.with("diameter", Given::Length(diameter));
            Opening::round(centre, diameter)
        }
        (None, Some(size)) => {
            let size = door::lengths(size, &SIZE, "size")?;
            named = named.with("size", Given::Lengths(size.to_vec())).may("ends", ends.map(|(word, _)| Given::Word(word)));
            if ends.is_none_or(|(_, round)| round) { Opening::stadium(centre, size) } else { Opening::rectangle(centre, size) }
        }
        _ => return Err(Refusal::new(Code::MissingKey, "diameter, size", "one of the two must be given, and ends only with size").into()),
    };
    let opening = opening.map_err(Refusal::from)?;
    let Some(count) = door::given(count) else { return Ok((vec![opening], named)) };
    let [columns, rows]: [_; 2] = door::tuple(count, "count")?;
    let count = [door::count(&columns, &HOLES, "count[0]")?, door::count(&rows, &HOLES, "count[1]")?];
    let spacing =
        door::given(spacing).ok_or_else(|| Refusal::new(Code::MissingKey, "spacing", "missing, wanted with count: from centre to centre (x, y)"))?;
    let spacing = door::lengths(spacing, &LENGTH, "spacing")?;
    let all = py.detach(|| opening.grid(count, spacing)).map_err(Refusal::from)?;
    Ok((all, named.with("count", Given::Counts(count.to_vec())).with("spacing", Given::Lengths(spacing.to_vec()))))
}

const CLEARANCES: [(&str, Clearance); 3] = [("fine", Clearance::Fine), ("medium", Clearance::Medium), ("coarse", Clearance::Coarse)];

/// A bolt, and what was said.
pub(crate) fn bolt(thread: &Bound<'_, PyAny>, length: &Bound<'_, PyAny>, clearance: Maybe<'_, '_>, gap: Maybe<'_, '_>) -> PyResult<(Bolt, Named)> {
    let threads = Thread::ALL.map(|thread| (thread.name(), thread));
    let (word, thread) = door::word(thread, &threads, "thread")?;
    let length = door::length(length, &SIZE.named("length"), "length")?;
    let mut bolt = Bolt::new(thread, length).map_err(Refusal::from)?;
    let mut named = Named::default().with("thread", Given::Word(word)).with("length", Given::Length(length));
    if let Some(clearance) = door::given(clearance) {
        let (word, clearance) = door::word(clearance, &CLEARANCES, "clearance")?;
        bolt = bolt.clearance(clearance);
        named = named.with("clearance", Given::Word(word));
    }
    if let Some(gap) = door::given(gap) {
        let gap: Nm = door::length(gap, &dryfit_core::bounds::NUT_GAP, "gap")?;
        bolt = bolt.gap(gap).map_err(Refusal::from)?;
        named = named.with("gap", Given::Length(gap));
    }
    Ok((bolt, named))
}

//! What `Parts.rectangles` is told: sizes, and names for them.

use std::collections::HashSet;

use dryfit_core::bounds::SIZE;
use dryfit_core::{Code, Nm, Point, Shape};
use pyo3::prelude::*;

use crate::door;
use crate::refusal::Refusal;

/// So many rectangles at most: who gives an endless iterator is told.
const MOST: usize = 100_000;

/// The width and height of each.
pub(crate) fn sizes(sizes: &Bound<'_, PyAny>) -> PyResult<Vec<[Nm; 2]>> {
    if door::is_single(sizes) {
        return Err(door::wrong(sizes, "sizes", "a list of (width, height)").into());
    }
    let read = |(index, size): (usize, PyResult<Bound<'_, PyAny>>)| door::lengths(&size?, &SIZE, &format!("sizes[{index}]"));
    let sizes: Vec<[Nm; 2]> = sizes.try_iter()?.take(MOST + 1).enumerate().map(read).collect::<PyResult<_>>()?;
    if sizes.len() > MOST {
        return Err(Refusal::new(Code::OutOfRange, "sizes", format!("more than {MOST} given, allowed 0 to {MOST}")).into());
    }
    Ok(sizes)
}

/// One of them, from its own lower left corner.
pub(crate) fn shape([width, height]: [Nm; 2]) -> Shape {
    let at = Point::new;
    Shape::from_loops([[at(Nm::ZERO, Nm::ZERO), at(width, Nm::ZERO), at(width, height), at(Nm::ZERO, height)]])
}

/// As many names as there are parts, all different and none empty.
pub(crate) fn names(names: &Bound<'_, PyAny>, count: usize) -> PyResult<Vec<String>> {
    if door::is_single(names) {
        return Err(door::wrong(names, "names", "a list of names").into());
    }
    let mut taken = HashSet::new();
    let read = |(index, name): (usize, PyResult<Bound<'_, PyAny>>)| {
        let place = format!("names[{index}]");
        let name = door::text(&name?, &place)?;
        if name.is_empty() {
            return Err(Refusal::new(Code::NameEmpty, &place, "an empty string given, allowed a name").into());
        }
        if !taken.insert(name.clone()) {
            return Err(Refusal::new(Code::NameTaken, &place, format!("\"{name}\" given, allowed a name that no other has")).into());
        }
        Ok(name)
    };
    let names: Vec<String> = names.try_iter()?.take(count + 1).enumerate().map(read).collect::<PyResult<_>>()?;
    if names.len() != count {
        let given = if names.len() > count { format!("more than {count}") } else { names.len().to_string() };
        return Err(Refusal::new(Code::OutOfRange, "names", format!("{given} given, allowed {count}, one for each size")).into());
    }
    Ok(names)
}

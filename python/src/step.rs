//! `Step`: one move of putting together.

use dryfit_core::{Axis, Code, Direction};
use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::record::Again;
use crate::refusal::Refusal;

/// One straight move of putting together: which panel, and in which direction it is moved into place ("+x", "-z" and so on).
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350))
/// >>> box(outside=(110, 85, 60), stock=stock).order()[-1]
/// <dryfit.Step: 'top' moves -z>
///
/// Boards that are joined to each other but to no other, as a lid and its battens, are put together by themselves: their moves come first,
/// with one of them, the largest where that can be, at rest; then that one moves, with the others ``along``.
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Step {
    pub(crate) core: dryfit_core::Step,
    /// Their names.
    pub(crate) along: Vec<String>,
}

/// Name, direction, and names of those that come along; then the numbers of the boards.
type Fields = (String, String, Vec<String>, usize, Vec<usize>);

/// All twelve.
const DIRECTIONS: [Direction; 12] = {
    const fn both(axis: Axis, own: bool) -> [Direction; 2] {
        [Direction { axis, upwards: true, own }, Direction { axis, upwards: false, own }]
    }
    let ([a, b], [c, d], [e, f]) = (both(Axis::X, false), both(Axis::Y, false), both(Axis::Z, false));
    let ([g, h], [i, j], [k, l]) = (both(Axis::X, true), both(Axis::Y, true), both(Axis::Z, true));
    [a, b, c, d, e, f, g, h, i, j, k, l]
};

#[pymethods]
impl Step {
    /// The panel's name.
    #[getter]
    fn panel(&self) -> &str {
        &self.core.name
    }

    /// "+x", "-x", "+y", "-y", "+z" or "-z"; where boards are turned perhaps along one of the panel's own axes, the columns of its
    /// ``frame``: "+u" to "-w".
    #[getter]
    fn direction(&self) -> String {
        self.core.direction.to_string()
    }

    /// The panels that were joined to it before, apart from the others, and move along.
    #[getter]
    fn along(&self) -> Vec<String> {
        self.along.clone()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, Fields> {
        let Step { core, along } = slf.get();
        Ok((slf.get_type().getattr("_of")?, (core.name.clone(), core.direction.to_string(), along.clone(), core.board, core.along.clone())))
    }

    /// Makes a pickled step again.
    #[classmethod]
    fn _of(_class: &Bound<'_, PyType>, name: String, direction: &str, along: Vec<String>, board: usize, others: Vec<usize>) -> PyResult<Step> {
        let found = DIRECTIONS.into_iter().find(|known| known.to_string() == direction);
        let direction =
            found.ok_or_else(|| Refusal::new(Code::OutOfRange, "direction", format!("\"{direction}\" given, allowed \"+x\" to \"-w\"")))?;
        Ok(Step { core: dryfit_core::Step { board, name, direction, along: others }, along })
    }

    fn __repr__(&self) -> String {
        let along: Vec<_> = self.along.iter().map(|name| format!("'{name}'")).collect();
        let with = if along.is_empty() { String::new() } else { format!(", with {}", along.join(", ")) };
        format!("<dryfit.Step: '{}' moves {}{with}>", self.core.name, self.core.direction)
    }
}

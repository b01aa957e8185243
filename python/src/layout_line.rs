//! `LayoutLine`: one line of a corner that is set out for hand tools.

use std::hash::{Hash, Hasher};

use dryfit_core::{LineKind, Point};
use pyo3::prelude::*;
use pyo3::types::PyType;

use crate::dovetail::DovetailCorner;
use crate::record::Again;
use crate::show::mm;

/// Two numbers of mm.
pub(crate) type Pair = (f64, f64);

const fn pair(point: Point) -> (i64, i64) {
    (point.x.nm(), point.y.nm())
}

fn pair_mm(point: Point) -> Pair {
    (point.x.mm(), point.y.mm())
}

/// One line of a ``DovetailCorner``. ``start`` and ``end`` are (x, y) in mm on its surface.
///
/// On all surfaces x goes along the boards' width, from one edge of the corner. On a face y goes from the end into the board, on end grain
/// from the inner face to the outer.
///
/// >>> dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=8).lines[1]
/// <dryfit.LayoutLine: flank on the tail board, outer face, (4, 12) to (2.5, 0), cut-outer>
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct LayoutLine {
    core: dryfit_core::LayoutLine,
    corner: DovetailCorner,
    index: usize,
}

impl LayoutLine {
    /// The line of a corner that has this number.
    pub(crate) fn new(core: dryfit_core::LayoutLine, corner: DovetailCorner, index: usize) -> LayoutLine {
        LayoutLine { core, corner, index }
    }
}

impl PartialEq for LayoutLine {
    fn eq(&self, other: &LayoutLine) -> bool {
        self.core == other.core
    }
}

impl Hash for LayoutLine {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.core.hash(state);
    }
}

#[pymethods]
impl LayoutLine {
    /// Where it lies: "tail board, outer face" ("... end grain", "... inner face") or "pin board, outer face" and so on.
    #[getter]
    fn surface(&self) -> &'static str {
        self.core.surface.name()
    }

    /// What it is: a "baseline", the "flank" of a tail and pin, or the "lap" of a lapped corner.
    #[getter]
    fn stroke(&self) -> &'static str {
        self.core.stroke.name()
    }

    /// "cut-outer" if a machine that cuts straight down may follow it (flanks on the tail board's faces), else "mark".
    #[getter]
    fn kind(&self) -> &'static str {
        if self.core.may_cut() { LineKind::CutOuter.id() } else { LineKind::Mark.id() }
    }

    /// Its first point (x, y) in mm: on the baseline or the inner face, or at x = 0.
    #[getter]
    fn start(&self) -> Pair {
        pair_mm(self.core.from)
    }

    /// Its other point (x, y) in mm.
    #[getter]
    fn end(&self) -> Pair {
        pair_mm(self.core.to)
    }

    /// Both points ((x, y), (x, y)) as whole nanometres.
    #[getter]
    fn points_nm(&self) -> ((i64, i64), (i64, i64)) {
        (pair(self.core.from), pair(self.core.to))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (DovetailCorner, usize)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().corner.clone(), slf.get().index)))
    }

    /// A line of a pickled corner.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, corner: &Bound<'py, PyAny>, index: usize) -> PyResult<Bound<'py, PyAny>> {
        corner.getattr("lines")?.get_item(index)
    }

    fn __repr__(&self) -> String {
        let [a, b, c, d] = [self.core.from.x, self.core.from.y, self.core.to.x, self.core.to.y].map(mm);
        format!("<dryfit.LayoutLine: {} on the {}, ({a}, {b}) to ({c}, {d}), {}>", self.stroke(), self.surface(), self.kind())
    }
}

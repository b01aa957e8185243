//! `Route` and `Cut`: the order in which a sheet is cut.

use std::sync::Arc;

use dryfit_core::{Contour, LineKind, Nm, Point, RouteSpec, Start, Turning};
use pyo3::prelude::*;

use crate::array;
use crate::door;

type Given<'a, 'py> = Option<&'a Bound<'py, PyAny>>;

/// The order in which a sheet is cut. Made by ``Sheet.route``.
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq)]
pub struct Route {
    lines: Arc<Vec<(Contour, Option<String>)>>,
    core: dryfit_core::Route,
}

/// One line of a route, as the cutter follows it without a break.
#[pyclass(frozen, eq, module = "dryfit")]
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    lines: Arc<Vec<(Contour, Option<String>)>>,
    core: dryfit_core::Cut,
}

pub(crate) const STARTS: [(&str, Start); 2] = [("corner", Start::Corner), ("middle", Start::Middle)];
pub(crate) const TURNINGS: [(&str, Turning); 3] =
    [("stored", Turning::Stored), ("counter-clockwise", Turning::CounterClockwise), ("clockwise", Turning::Clockwise)];

/// What a route is asked.
pub(crate) fn spec(start: Given<'_, '_>, outer: Given<'_, '_>, inner: Given<'_, '_>, home: Given<'_, '_>) -> PyResult<RouteSpec> {
    Ok(RouteSpec {
        start: start.map_or(Ok(Start::Corner), |start| door::choice(start, &STARTS, "start"))?,
        outer: outer.map_or(Ok(Turning::Stored), |outer| door::choice(outer, &TURNINGS, "outer"))?,
        inner: inner.map_or(Ok(Turning::Stored), |inner| door::choice(inner, &TURNINGS, "inner"))?,
        home: home.map_or(Ok(false), |home| door::flag(home, "home"))?,
        ..RouteSpec::default()
    })
}

impl Route {
    /// The route through lines, each with the name of its part.
    pub(crate) fn new(lines: Vec<(Contour, Option<String>)>, core: dryfit_core::Route) -> Route {
        Route { lines: Arc::new(lines), core }
    }
}

#[pymethods]
impl Route {
    /// The cuts in their order.
    #[getter]
    fn cuts(&self) -> Vec<Cut> {
        self.core.cuts().iter().map(|&core| Cut { lines: Arc::clone(&self.lines), core }).collect()
    }

    /// The way with the tool up, in mm: from the sheet's lower left corner through all cuts.
    #[getter]
    fn travel(&self) -> f64 {
        self.core.travel() as f64 / 1e6
    }

    fn __repr__(&self) -> String {
        format!("<dryfit.Route, cuts: {}, travel: {:.1} mm>", self.core.cuts().len(), self.travel())
    }
}

impl Cut {
    fn line(&self) -> Option<&(Contour, Option<String>)> {
        self.lines.get(self.core.contour)
    }

    /// The points of the walk, with so many in place of an arc that no chord is farther from it than `flat`; none without.
    fn points(&self, flat: Option<Nm>) -> Vec<Point> {
        let Some((line, _)) = self.line() else { return Vec::new() };
        let mut points: Vec<Point> = Vec::new();
        for edge in line.walk(self.core.entry, self.core.reversed) {
            if points.is_empty() {
                points.push(edge.from);
            }
            if let Some((arc, flat)) = edge.arc().zip(flat) {
                let mut between: Vec<Point> = arc.points(flat).collect();
                if !edge.clockwise {
                    between.reverse();
                }
                points.extend(between);
            }
            points.push(edge.to);
        }
        points
    }
}

#[pymethods]
impl Cut {
    /// The name of the part that it belongs to; None where it is no single one's.
    #[getter]
    fn part(&self) -> Option<&str> {
        self.line()?.1.as_deref()
    }

    /// "cut-inner", "cut-shared", "cut-outer", "mark" or "trim".
    #[getter]
    fn kind(&self) -> &'static str {
        self.line().map_or(LineKind::CutOuter, |(line, _)| line.kind).id()
    }

    /// Whether it ends where it began.
    #[getter]
    fn closed(&self) -> bool {
        self.line().is_some_and(|(line, _)| line.closed)
    }

    /// Its length in mm.
    #[getter]
    fn length(&self) -> f64 {
        self.line().map_or(0, |(line, _)| line.length()) as f64 / 1e6
    }

    /// The way as a read-only float64 array (n, 2) in mm, from its first point to its last, with points in place of arcs.
    #[getter(points)]
    fn points_mm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        array::line_mm(py, self.points(Some(array::FLAT)).into_iter())
    }

    /// Its corners and the ends of its arcs as a read-only int64 array (n, 2) in nanometres, exact.
    #[getter]
    fn points_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        array::line_nm(py, self.points(None).into_iter())
    }

    fn __repr__(&self) -> String {
        let part = self.part().map_or_else(String::new, |part| format!(" of '{part}'"));
        format!("<dryfit.Cut: {}{part}, {:.1} mm>", self.kind(), self.length())
    }
}

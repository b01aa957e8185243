//! `Route` and `Cut`: the order in which a sheet is cut.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

use dryfit_core::{Contour, LineKind, Nm, Point, RouteSpec, Start, Turning};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};

use crate::array;
use crate::door::{self, Maybe};
use crate::html::html;
use crate::record::{Again, Given, Named};
use crate::sheet::Sheet;

/// The order in which a sheet is cut. Made by ``Sheet.route``.
///
/// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(Stock(thickness=1, sheet=(100, 70), border=5)).sheets[0]
/// >>> route = sheet.route()
/// >>> len(route.cuts), round(route.travel, 3)
/// (1, 7.071)
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Route {
    made: Arc<Made>,
}

#[derive(Debug)]
struct Made {
    /// Each with the name of its part.
    lines: Vec<(Contour, Option<String>)>,
    core: dryfit_core::Route,
    sheet: Sheet,
    /// What was asked.
    named: Named,
}

impl PartialEq for Route {
    fn eq(&self, other: &Route) -> bool {
        (&self.made.lines, &self.made.core) == (&other.made.lines, &other.made.core)
    }
}

impl Hash for Route {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.made.core.hash(state);
    }
}

/// One line of a route, as the cutter follows it without a break. Lengths in mm.
///
/// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(Stock(thickness=1, sheet=(100, 70), border=5)).sheets[0]
/// >>> route = sheet.route()
/// >>> cut = route.cuts[0]
/// >>> cut, cut.part, cut.closed, cut.points[0].tolist()
/// (<dryfit.Cut: cut-outer of '1', 200.0 mm>, '1', True, [5.0, 5.0])
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Cut {
    route: Route,
    index: usize,
    core: dryfit_core::Cut,
}

impl Cut {
    fn line(&self) -> Option<&(Contour, Option<String>)> {
        self.route.made.lines.get(self.core.contour)
    }

    /// The line and the way along it; not its number.
    fn value(&self) -> (Option<&(Contour, Option<String>)>, dryfit_core::Entry, bool) {
        (self.line(), self.core.entry, self.core.reversed)
    }
}

impl PartialEq for Cut {
    fn eq(&self, other: &Cut) -> bool {
        self.value() == other.value()
    }
}

impl Hash for Cut {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.value().hash(state);
    }
}

pub(crate) const STARTS: [(&str, Start); 2] = [("corner", Start::Corner), ("middle", Start::Middle)];
pub(crate) const TURNINGS: [(&str, Turning); 3] =
    [("stored", Turning::Stored), ("counter-clockwise", Turning::CounterClockwise), ("clockwise", Turning::Clockwise)];

/// What a route is asked, and what was said.
pub(crate) fn spec(start: Maybe<'_, '_>, outer: Maybe<'_, '_>, inner: Maybe<'_, '_>, home: Maybe<'_, '_>) -> PyResult<(RouteSpec, Named)> {
    let start = door::given(start).map(|start| door::word(start, &STARTS, "start")).transpose()?;
    let outer = door::given(outer).map(|outer| door::word(outer, &TURNINGS, "outer")).transpose()?;
    let inner = door::given(inner).map(|inner| door::word(inner, &TURNINGS, "inner")).transpose()?;
    let home = door::given(home).map(|home| door::flag(home, "home")).transpose()?;
    let named = Named::default().may("start", start.map(|(word, _)| Given::Word(word))).may("outer", outer.map(|(word, _)| Given::Word(word)));
    let named = named.may("inner", inner.map(|(word, _)| Given::Word(word))).may("home", home.map(Given::Flag));
    let spec = RouteSpec {
        start: start.map_or(Start::Corner, |(_, start)| start),
        outer: outer.map_or(Turning::Stored, |(_, outer)| outer),
        inner: inner.map_or(Turning::Stored, |(_, inner)| inner),
        home: home.unwrap_or(false),
        ..RouteSpec::default()
    };
    Ok((spec, named))
}

impl Route {
    /// The route through a sheet's lines, each with the name of its part.
    pub(crate) fn new(lines: Vec<(Contour, Option<String>)>, core: dryfit_core::Route, sheet: Sheet, named: Named) -> Route {
        Route { made: Arc::new(Made { lines, core, sheet, named }) }
    }
}

#[pymethods]
impl Route {
    /// The cuts in their order.
    #[getter]
    fn cuts(&self) -> Vec<Cut> {
        self.made.core.cuts().iter().enumerate().map(|(index, &core)| Cut { route: self.clone(), index, core }).collect()
    }

    /// The way with the tool up, in mm: from the sheet's lower left corner through all cuts.
    #[getter]
    fn travel(&self) -> f64 {
        self.made.core.travel() as f64 / 1e6
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Sheet, Bound<'py, PyDict>)> {
        let made = &slf.get().made;
        Ok((slf.get_type().getattr("_of")?, (made.sheet.clone(), made.named.to_python(slf.py())?)))
    }

    /// Makes the route of a pickled sheet again.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, sheet: &Bound<'py, PyAny>, named: &Bound<'py, PyDict>) -> PyResult<Bound<'py, PyAny>> {
        sheet.call_method("route", (), Some(named))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "route")
    }

    fn __repr__(&self) -> String {
        format!("<dryfit.Route, cuts: {}, travel: {:.1} mm>", self.made.core.cuts().len(), self.travel())
    }
}

impl Cut {
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

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Route, usize)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().route.clone(), slf.get().index)))
    }

    /// A cut of a pickled route.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, route: &Bound<'py, PyAny>, index: usize) -> PyResult<Bound<'py, PyAny>> {
        route.getattr("cuts")?.get_item(index)
    }

    fn __repr__(&self) -> String {
        let part = self.part().map_or_else(String::new, |part| format!(" of '{part}'"));
        format!("<dryfit.Cut: {}{part}, {:.1} mm>", self.kind(), self.length())
    }
}

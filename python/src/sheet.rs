//! `Sheet`: one sheet of a layout, and its files.

use std::sync::Arc;

use dryfit_core::{Code, Contour, Nm, RouteSpec, gcode, hpgl, plan_svg, sheet_dxf, sheet_picture, sheet_svg};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};

use crate::door::{self, Maybe};
use crate::features;
use crate::html::html;
use crate::layout::{Job, Layout};
use crate::motion::Motion;
use crate::offcut::Offcut;
use crate::placement::Placement;
use crate::plan::Plan;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::route::{self, Route};
use crate::stock::Stock;

/// One sheet of a layout. Sheet coordinates in mm, x right, y up, from the lower left corner.
///
/// >>> layout = Parts.rectangles([(60, 40)] * 3).lay_out(Stock(thickness=1, sheet=(100, 70), border=5))
/// >>> [(sheet, sheet.cut_length) for sheet in layout.sheets][-1]
/// (<dryfit.Sheet 2 of 2: 100 mm x 70 mm x 1 mm, parts: 1>, 200.0)
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Hash)]
pub struct Sheet {
    pub(crate) job: Arc<Job>,
    pub(crate) index: usize,
}

/// The releases of DXF, as they are usually called.
const RELEASES: [(&str, &str); 4] = [("R12", "R12"), ("R2000", "R2000"), ("R2010", "R2010"), ("R2018", "R2018")];

impl Sheet {
    /// The sheet; its number is known to exist.
    fn core(&self) -> PyResult<&dryfit_core::Sheet> {
        self.job.layout.sheets.get(self.index).ok_or_else(|| Refusal::new(Code::OutOfRange, "sheet", "no such sheet").into())
    }

    /// The tool: the one that is asked for, or that all parts were made for.
    fn cutter(&self, motion: Option<&Motion>) -> PyResult<dryfit_core::Cutter> {
        if let Some(cutter) = motion.and_then(|motion| motion.cutter) {
            return Ok(cutter);
        }
        let mut cutters = self.job.parts.cutters();
        let first = cutters.next();
        if cutters.any(|other| Some(other) != first) {
            return Err(Refusal::new(Code::MissingKey, "cutter", "missing in the motion, allowed a Cutter: the parts were made for several").into());
        }
        // Plain parts are as a blade without kerf and trail cuts them.
        Ok(first.unwrap_or(dryfit_core::Cutter::Blade { kerf: Nm::ZERO, trail: Nm::ZERO }))
    }

    /// What the machine does.
    fn planned(&self, py: Python<'_>, motion: Maybe<'_, '_>) -> PyResult<dryfit_core::Plan> {
        let motion = door::maybe_own::<Motion>(motion, "motion")?.map(Bound::get);
        let (cutter, spec) = (self.cutter(motion)?, motion.map(|motion| motion.core).unwrap_or_default());
        let sheet = self.core()?;
        Ok(py.detach(|| sheet.plan(&self.job.items(), cutter, &spec)).map_err(Refusal::from)?)
    }

    fn title(&self, title: Maybe<'_, '_>) -> PyResult<String> {
        match door::given(title) {
            Some(title) => door::text(title, "title"),
            None => Ok(format!("Sheet {} of {}", self.index + 1, self.job.layout.sheets.len())),
        }
    }
}

#[pymethods]
impl Sheet {
    /// What the sheet is cut from.
    #[getter]
    fn stock(&self) -> PyResult<Stock> {
        Ok(Stock { core: self.core()?.stock })
    }

    /// Where the parts lie.
    #[getter]
    fn placements(&self) -> PyResult<Vec<Placement>> {
        let parts = self.job.items();
        let placed = self.core()?.placements.iter().enumerate().filter_map(|(index, &core)| {
            let item = parts.get(core.part)?;
            Some(Placement::new(self, index, core, item.name, item.path))
        });
        Ok(placed.collect())
    }

    /// Length of all cuts on this sheet in mm.
    #[getter]
    fn cut_length(&self, py: Python<'_>) -> PyResult<f64> {
        let sheet = self.core()?;
        let nm = py.detach(|| sheet.cut_length(&self.job.items())).map_err(Refusal::from)?;
        Ok(nm as f64 / 1e6)
    }

    /// Length in mm that one cut does for two parts of this sheet.
    #[getter]
    fn shared_length(&self, py: Python<'_>) -> PyResult<f64> {
        let sheet = self.core()?;
        let nm = py.detach(|| sheet.shared_length(&self.job.items())).map_err(Refusal::from)?;
        Ok(nm as f64 / 1e6)
    }

    /// How much of the sheet's height is used, in mm: up to the top of the highest part and the border above it.
    #[getter]
    pub(crate) fn used_height(&self, py: Python<'_>) -> PyResult<f64> {
        let sheet = self.core()?;
        Ok(py.detach(|| sheet.used_height(&self.job.items())).map_err(Refusal::from)?.mm())
    }

    /// What is left of the sheet: the largest empty rectangle, then the largest of what is left then, and so on; they do not overlap.
    ///
    /// Parts count by the rectangles around them. An offcut stays the gap, and at least half the kerf, away from these, and reaches to the sheet's
    /// edge where no part is in the way. Inside a border of its own it measures 20 mm at least along both axes; at most 100 are told.
    #[getter]
    fn offcuts(&self, py: Python<'_>) -> PyResult<Vec<Offcut>> {
        let sheet = self.core()?;
        let offcuts = py.detach(|| sheet.offcuts(&self.job.items())).map_err(Refusal::from)?;
        Ok(offcuts.into_iter().map(|core| Offcut { core, sheet: sheet.stock }).collect())
    }

    /// The order in which the sheet is cut: what lies inside first, parts come free last, the way in between is short; from the lower left corner.
    ///
    /// Closed lines begin at a corner, or with the ``start`` "middle" in the middle of their longest edge that is no flank. ``outer`` and ``inner`` say which way
    /// round outlines and holes are cut: "counter-clockwise", "clockwise", or as they are "stored", outlines counter-clockwise and holes clockwise. With
    /// ``home`` the tool returns to the corner.
    ///
    /// Raises ``OutOfRange`` or ``WrongType`` for what is none of these words.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5)
    /// >>> plate = box(outside=(90, 80, 70), stock=stock).cut(cutter=Cutter.beam(kerf=0.2))
    /// >>> route = plate.lay_out(stock).sheets[0].route(start="middle")
    /// >>> route.cuts[0].kind, route.cuts[0].points.shape[1]
    /// ('cut-outer', 2)
    #[pyo3(signature = (*, start = None, outer = None, inner = None, home = None))]
    fn route(
        &self,
        py: Python<'_>,
        start: Option<&Bound<'_, PyAny>>,
        outer: Option<&Bound<'_, PyAny>>,
        inner: Option<&Bound<'_, PyAny>>,
        home: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<Route> {
        let (spec, named) = route::spec(start, outer, inner, home)?;
        let (sheet, items) = (self.core()?, self.job.items());
        let made = py.detach(|| {
            let lines = sheet.lines(&items)?;
            let core = dryfit_core::Route::new(&lines, &spec);
            let name = |line: &Contour| Some(items.get(line.part?)?.name.to_owned());
            let lines = lines.into_iter().map(|line| (line.clone(), name(&line))).collect();
            Ok::<_, dryfit_core::Error>(Route::new(lines, core, self.clone(), named))
        });
        Ok(made.map_err(Refusal::from)?)
    }

    /// The way with the tool up on this sheet, in mm.
    #[getter]
    fn travel_length(&self, py: Python<'_>) -> PyResult<f64> {
        let sheet = self.core()?;
        let travel =
            py.detach(|| Ok::<_, dryfit_core::Error>(dryfit_core::Route::new(&sheet.lines(&self.job.items())?, &RouteSpec::default()).travel()));
        Ok(travel.map_err(Refusal::from)? as f64 / 1e6)
    }

    /// What a machine does to cut this sheet, as ``motion`` asks.
    ///
    /// Raises ``OutOfRange`` where a setting does not suit the board, ``NotOfThisTool`` for one that the tool has not, ``MissingKey`` where the parts were made for
    /// several tools and ``motion`` names none.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5)
    /// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0]
    /// >>> plan = sheet.plan(Motion(cutter=Cutter.bit(diameter=3), step=1.2))
    /// >>> [round(depth, 3) for depth, _ in plan.passes], plan.bridges
    /// ([1.0, 2.0, 3.0], 2)
    #[pyo3(signature = (motion = None))]
    fn plan(&self, py: Python<'_>, motion: Option<&Bound<'_, PyAny>>) -> PyResult<Plan> {
        let core = self.planned(py, motion)?;
        let items = self.job.items();
        let bare = core.bare().iter().filter_map(|&part| Some(items.get(part)?.name.to_owned())).collect();
        let motion = motion.and_then(|motion| motion.cast::<Motion>().ok()).map(|motion| motion.get().clone());
        Ok(Plan { core, bare, sheet: self.clone(), motion })
    }

    /// The sheet as an SVG file in mm, one group per kind of line: ``border``, ``mark`` (names, not to be cut), ``cut-inner``, ``cut-shared`` (the edge of two
    /// parts, cut once), ``cut-outer``. With a ``motion`` the lines are those of the tool's axis, with bridges and ways in. ``title`` heads the file.
    ///
    /// Raises ``WrongType``, and with a motion what ``plan`` raises.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5)
    /// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0]
    /// >>> 'width="300mm" height="200mm"' in sheet.svg(title="Cards")
    /// True
    #[pyo3(signature = (motion = None, *, title = None))]
    fn svg(&self, py: Python<'_>, motion: Option<&Bound<'_, PyAny>>, title: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let (title, sheet, items) = (self.title(title)?, self.core()?, self.job.items());
        let made = match door::given(motion) {
            Some(_) => {
                let plan = self.planned(py, motion)?;
                py.detach(|| plan_svg(sheet, &items, &plan, &title))
            }
            None => py.detach(|| sheet_svg(sheet, &items, &title)),
        };
        Ok(made.map_err(Refusal::from)?)
    }

    /// The sheet as a DXF file in mm, a layer per kind of line, arcs as bulges, names on the layer ``mark``. With a ``motion`` the lines are those of the tool's
    /// axis, in the order of the cut. ``title`` heads the file. ``version`` is "R12" (if left out), "R2000", "R2010" or "R2018": release 12 has no word for the
    /// unit; later ones have, and are written by ezdxf, which has to be installed for them.
    ///
    /// Raises ``WrongType``, ``OutOfRange``, ``NotAvailable`` without ezdxf, and with a motion what ``plan`` raises.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5)
    /// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0]
    /// >>> sheet.dxf().count("VERTEX")
    /// 4
    #[pyo3(signature = (motion = None, *, title = None, version = None))]
    fn dxf(
        &self,
        py: Python<'_>,
        motion: Option<&Bound<'_, PyAny>>,
        title: Option<&Bound<'_, PyAny>>,
        version: Option<&Bound<'_, PyAny>>,
    ) -> PyResult<String> {
        let (title, sheet, items) = (self.title(title)?, self.core()?, self.job.items());
        let version = door::given(version).map_or(Ok("R12"), |version| door::choice(version, &RELEASES, "version"))?;
        let plan = door::given(motion).map(|_| self.planned(py, motion)).transpose()?;
        let text = py.detach(|| sheet_dxf(sheet, &items, plan.as_ref(), &title)).map_err(Refusal::from)?;
        // Text in Python has plain line ends; what is opened as text makes a carriage return of its own, or keeps ours as a part of the word.
        let text = text.replace("\r\n", "\n");
        if version == "R12" {
            return Ok(text);
        }
        py.import("dryfit._dxf")?.getattr("newer")?.call1((text, version))?.extract()
    }

    /// The sheet as G-code, in the words of RS-274/NGC: mm, arcs by their centres, ``G0`` with the tool up or off, ``G1``, ``G2`` and ``G3`` for cuts. The origin is
    /// the sheet's lower left corner, z is 0 on the board's face. A beam's power is 0 unless told otherwise, so that the file runs dry. ``motion`` says how, ``title``
    /// heads the file.
    ///
    /// Raises ``WrongType``, ``OutOfRange`` for depths and powers beyond those of the format, and what ``plan`` raises.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5)
    /// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0]
    /// >>> sheet.gcode(Motion(cutter=Cutter.beam(kerf=0.2), power=500)).splitlines()[-3:]
    /// ['M5', 'G0 X0 Y0', 'M2']
    #[pyo3(signature = (motion = None, *, title = None))]
    fn gcode(&self, py: Python<'_>, motion: Option<&Bound<'_, PyAny>>, title: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let title = self.title(title)?;
        let plan = self.planned(py, motion)?;
        Ok(py.detach(|| gcode(&plan, &title)).map_err(Refusal::from)?)
    }

    /// The sheet as HP-GL for cutters that are driven like plotters: 40 units a mm, arcs as chords, a pen per kind of line: 1 ``mark``, 2 ``cut-inner``, 3
    /// ``cut-shared``, 4 ``cut-outer``, 5 ``trim``. Speed, depth, force and power are set at the machine: the format has no words for them. ``motion`` says how.
    ///
    /// >>> stock = Stock(thickness=3, sheet=(300, 200), border=5)
    /// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(stock).sheets[0]
    /// >>> sheet.hpgl(Motion(cutter=Cutter.blade(trail=0.25))).count("PD") > 0
    /// True
    ///
    /// Raises ``NotInFormat`` for a motion that cannot do without what the format cannot say: a pause, a light pass, a ``turn_depth``, a beam's power, several
    /// passes of a bit.
    #[pyo3(signature = (motion = None))]
    fn hpgl(&self, py: Python<'_>, motion: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let plan = self.planned(py, motion)?;
        Ok(py.detach(|| hpgl(&plan)).map_err(Refusal::from)?)
    }

    /// What comes off the cutter, where it lies on the sheet, as a GeoJSON-like FeatureCollection in mm, as geopandas and others read it: a polygon each in sheet
    /// coordinates, with ``name``, ``thickness`` (the sheet's) and ``kind`` ("part"), and no coordinate reference system.
    ///
    /// >>> sheet = Parts.rectangles([(60, 40)]).lay_out(Stock(thickness=3, sheet=(300, 200), border=5)).sheets[0]
    /// >>> sheet.__geo_interface__["features"][0]["geometry"]["coordinates"][0][0]
    /// (5.0, 5.0)
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (sheet, items) = (self.core()?, self.job.items());
        let finished: Vec<_> = self.job.parts.iter().map(|(_, part)| part.finished()).collect();
        let place = |placement: &dryfit_core::Placement| {
            let (item, finished) = items.get(placement.part).zip(finished.get(placement.part))?;
            Some((item.name, placement.place_along(item.path, finished)))
        };
        let placed: Vec<_> = sheet.placements.iter().filter_map(place).collect();
        let thickness = Some(sheet.stock.thickness().mm());
        features::collection(py, "part", placed.iter().map(|(name, shape)| (*name, thickness, shape)))
    }

    pub(crate) fn _repr_svg_(&self, py: Python<'_>) -> PyResult<String> {
        let (title, sheet, items) = (self.title(None)?, self.core()?, self.job.items());
        Ok(py.detach(|| sheet_picture(sheet, &items, &title)).map_err(Refusal::from)?)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Layout, usize)> {
        Ok((slf.get_type().getattr("_of")?, (Layout { job: Arc::clone(&slf.get().job) }, slf.get().index)))
    }

    /// A sheet of a pickled layout.
    #[classmethod]
    fn _of<'py>(_class: &Bound<'py, PyType>, layout: &Bound<'py, PyAny>, index: usize) -> PyResult<Bound<'py, PyAny>> {
        layout.getattr("sheets")?.get_item(index)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "sheet")
    }

    fn __repr__(&self) -> PyResult<String> {
        let core = self.core()?;
        let (stock, count) = (core.stock, core.placements.len());
        Ok(format!(
            "<dryfit.Sheet {} of {}: {} x {} x {}, parts: {count}>",
            self.index + 1,
            self.job.layout.sheets.len(),
            stock.width(),
            stock.height(),
            stock.thickness()
        ))
    }
}

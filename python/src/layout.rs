//! `Layout`: parts on sheets.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

use dryfit_core::bounds::LENGTH;
use dryfit_core::{Contour, Grain, Item, Nm, Placement, Point, RouteSpec, Work};
use pyo3::prelude::*;
use pyo3::types::{PyTuple, PyType};

use crate::door;
use crate::estimate::{Estimate, warn};
use crate::html::html;
use crate::lay_out;
use crate::layout_report::LayoutReport;
use crate::pace::{self, Pace};
use crate::parts::Parts;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::sheet::Sheet;
use crate::stock::Stock;
use crate::tally::Tally;

/// Parts on as many sheets as they need. Made by ``Parts.lay_out``.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
/// >>> parts = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.blade(kerf=0, trail=0.25))
/// >>> layout = parts.lay_out(stock)
/// >>> layout
/// <dryfit.Layout, sheets: 1, parts: 6>
/// >>> sorted(placement.part for placement in layout.sheets[0].placements)
/// ['back', 'base', 'front', 'left', 'right', 'top']
/// >>> layout.sheets[0].svg().startswith("<svg")
/// True
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug, PartialEq, Hash)]
pub struct Layout {
    pub(crate) job: Arc<Job>,
}

/// What was laid out, and how.
#[derive(Debug, PartialEq)]
pub(crate) struct Job {
    pub(crate) parts: Parts,
    /// How the grain runs on each part.
    grains: Vec<Grain>,
    /// The sheets that there were.
    stocks: Vec<dryfit_core::Stock>,
    pub(crate) layout: dryfit_core::Layout,
}

impl Hash for Job {
    fn hash<H: Hasher>(&self, state: &mut H) {
        // The outlines of the parts would take long and tell little more.
        self.layout.hash(state);
    }
}

impl Job {
    pub(crate) fn items(&self) -> Vec<Item<'_>> {
        self.parts.wanted().into_iter().zip(&self.grains).map(|(item, &grain)| Item { grain, ..item }).collect()
    }
}

impl Layout {
    pub(crate) fn new(parts: &Parts, grains: Vec<Grain>, stocks: Vec<dryfit_core::Stock>, layout: dryfit_core::Layout) -> Layout {
        Layout { job: Arc::new(Job { parts: parts.clone(), grains, stocks, layout }) }
    }
}

/// Where a part lies, for pickle: its number, x and y in mm, quarter turns, and whether it is mirrored.
type Lies = (usize, f64, f64, u8, bool);

/// The lines of a sheet, the route through them, and how many parts come off it.
type Routed = (Vec<Contour>, dryfit_core::Route, usize);

fn works(sheets: &[Routed]) -> Vec<Work<'_>> {
    sheets.iter().map(|(lines, route, parts)| Work { lines, route, parts: *parts }).collect()
}

/// The lines of every sheet and the route through them.
fn routed(layout: &dryfit_core::Layout, items: &[Item<'_>]) -> Result<Vec<Routed>, dryfit_core::Error> {
    let routed = |sheet: &dryfit_core::Sheet| {
        let lines = sheet.lines(items)?;
        let route = dryfit_core::Route::new(&lines, &RouteSpec::default());
        Ok((lines, route, sheet.placements.len()))
    };
    layout.sheets.iter().map(routed).collect()
}

/// How long a layout takes at a pace.
pub(crate) fn estimate(
    layout: &dryfit_core::Layout,
    items: &[Item<'_>],
    pace: &dryfit_core::Pace,
    passes: i64,
) -> Result<dryfit_core::Estimate, dryfit_core::Error> {
    pace.estimate(&works(&routed(layout, items)?), passes)
}

impl Layout {
    /// What all sheets cost in.
    pub(crate) fn core_tally(&self, py: Python<'_>, passes: i64) -> PyResult<dryfit_core::Tally> {
        let tally = py.detach(|| {
            let sheets = routed(&self.job.layout, &self.job.items())?;
            works(&sheets).into_iter().map(|work| dryfit_core::Tally::of(&work, passes)).sum::<Result<dryfit_core::Tally, _>>()
        });
        Ok(tally.map_err(Refusal::from)?)
    }
}

#[pymethods]
impl Layout {
    /// The sheets, those of one thickness together.
    #[getter]
    fn sheets(&self) -> Vec<Sheet> {
        (0..self.job.layout.sheets.len()).map(|index| Sheet { job: Arc::clone(&self.job), index }).collect()
    }

    /// The names of the parts for which no sheet was left.
    #[getter]
    fn unplaced(&self) -> Vec<&str> {
        let names: Vec<&str> = self.job.parts.iter().map(|(name, _)| name).collect();
        self.job.layout.unplaced.iter().filter_map(|&part| names.get(part).copied()).collect()
    }

    /// How much of the last sheet's height is used, in mm: up to the top of the highest part and the border above it; 0 without sheets.
    #[getter]
    fn used_height(&self, py: Python<'_>) -> PyResult<f64> {
        self.sheets().last().map_or(Ok(0.0), |sheet| sheet.used_height(py))
    }

    /// Length of all cuts in mm.
    #[getter]
    fn cut_length(&self, py: Python<'_>) -> PyResult<f64> {
        let nm = py.detach(|| self.job.layout.cut_length(&self.job.items())).map_err(Refusal::from)?;
        Ok(nm as f64 / 1e6)
    }

    /// What is left of the sheets, as stock for the next job, the largest first; see ``Sheet.offcuts``.
    ///
    /// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8, gap=1)
    /// >>> first = Parts.rectangles([(200, 330)]).lay_out(stock, turns=False)
    /// >>> first.offcuts
    /// [Stock(thickness=2.5, sheet=(291, 350), border=8, gap=1, count=1)]
    /// >>> Parts.rectangles([(270, 330)]).lay_out([*first.offcuts, stock]).sheets[0].stock.sheet
    /// (291.0, 350.0)
    #[getter]
    fn offcuts(&self, py: Python<'_>) -> PyResult<Vec<Stock>> {
        let stocks = py.detach(|| self.job.layout.offcuts(&self.job.items())).map_err(Refusal::from)?;
        Ok(stocks.into_iter().map(|core| Stock { core }).collect())
    }

    /// Proves the layout from where the cutter's paths lie, exactly and without what the search knows: every part is laid out once or listed as
    /// unplaced; none overlaps another; all keep half their kerf off the border, the gap from each other, to their thickness and along the grain;
    /// there are as many sheets as are used. Parts whose edges share a cut keep the gap only where parallel edges face each other across waste.
    ///
    /// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8, gap=1)
    /// >>> parts = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.blade(kerf=0, trail=0.25))
    /// >>> parts.lay_out(stock).check()
    /// <dryfit.LayoutReport: it can be cut; least gap 1 mm>
    fn check(&self, py: Python<'_>) -> LayoutReport {
        LayoutReport { core: py.detach(|| self.job.layout.check(&self.job.items(), &self.job.stocks)) }
    }

    /// What all sheets cost in, each line cut ``passes`` times (1 to 1000).
    ///
    /// Raises ``OutOfRange``, ``WrongType``.
    ///
    /// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
    /// >>> layout = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.blade(kerf=0)).lay_out(stock)
    /// >>> layout.tally().parts, round(layout.tally(passes=2).cut / layout.cut_length, 9)
    /// (6, 2.0)
    #[pyo3(signature = (*, passes = None))]
    fn tally(&self, py: Python<'_>, passes: Option<&Bound<'_, PyAny>>) -> PyResult<Tally> {
        Ok(Tally { core: self.core_tally(py, pace::passes(passes, "passes")?)? })
    }

    /// The way with the tool up on all sheets, in mm.
    #[getter]
    fn travel_length(&self, py: Python<'_>) -> PyResult<f64> {
        Ok(self.core_tally(py, 1)?.travel as f64 / 1e6)
    }

    /// How long the job takes at a ``pace``, and how sure that is; each line is cut ``passes`` times (1 to 1000).
    ///
    /// Raises ``OutOfRange``, ``WrongType``.
    ///
    /// >>> stock = Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)
    /// >>> cube = lambda side: box(outside=(side, side, side), stock=stock).cut(cutter=Cutter.blade(kerf=0)).lay_out(stock)
    /// >>> pace = Pace.from_known([(cube(80), 92), (cube(100), 96), (cube(120), 102)])
    /// >>> cube(90).estimate(pace)
    /// <dryfit.Estimate: 94.5 ± 0.6 minutes>
    /// >>> cube(130).estimate(pace).outside
    /// ['cut', 'corners']
    #[pyo3(signature = (pace, *, passes = None))]
    fn estimate(&self, py: Python<'_>, pace: &Bound<'_, PyAny>, passes: Option<&Bound<'_, PyAny>>) -> PyResult<Estimate> {
        let (pace, passes) = (&door::own::<Pace>(pace, "pace")?.get().core, pace::passes(passes, "passes")?);
        let core = py.detach(|| self::estimate(&self.job.layout, &self.job.items(), pace, passes)).map_err(Refusal::from)?;
        Ok(Estimate { core })
    }

    /// The minutes that the job takes at a ``pace``; each line is cut ``passes`` times (1 to 1000). Warns with ``OutsideKnown`` where the job has less or
    /// more of something than any of the known jobs.
    ///
    /// Raises ``OutOfRange``, ``WrongType``.
    ///
    /// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
    /// >>> layout = box(outside=(110, 85, 60), stock=stock).cut(cutter=Cutter.blade(kerf=0)).lay_out(stock)
    /// >>> round(layout.minutes(Pace(feed=20, acceleration=500)), 1)
    /// 2.8
    #[pyo3(signature = (pace, *, passes = None))]
    fn minutes(&self, py: Python<'_>, pace: &Bound<'_, PyAny>, passes: Option<&Bound<'_, PyAny>>) -> PyResult<f64> {
        let made = self.estimate(py, pace, passes)?;
        warn(py, &made.core)?;
        Ok(made.core.minutes)
    }

    /// Length in mm that one cut does for two parts; not counted twice in ``cut_length``.
    #[getter]
    fn shared_length(&self, py: Python<'_>) -> PyResult<f64> {
        let nm = py.detach(|| self.job.layout.shared_length(&self.job.items())).map_err(Refusal::from)?;
        Ok(nm as f64 / 1e6)
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "layout")
    }

    /// The first sheet, for places that show one picture.
    fn _repr_svg_(&self, py: Python<'_>) -> PyResult<Option<String>> {
        self.sheets().first().map(|sheet| sheet._repr_svg_(py)).transpose()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, Bound<'py, PyTuple>> {
        let (job, py) = (&slf.get().job, slf.py());
        let grains: Vec<&str> = job.grains.iter().map(|&grain| lay_out::word(grain)).collect();
        let stocks: Vec<Stock> = job.stocks.iter().map(|&core| Stock { core }).collect();
        let sheet = |sheet: &dryfit_core::Sheet| {
            let lies = |p: &Placement| (p.part, p.at.x.mm(), p.at.y.mm(), p.quarter_turns, p.flipped);
            let placements: Vec<Lies> = sheet.placements.iter().map(lies).collect();
            (Stock { core: sheet.stock }, sheet.share_cuts, placements)
        };
        let sheets: Vec<_> = job.layout.sheets.iter().map(sheet).collect();
        let state = (job.parts.clone(), grains, stocks, sheets, job.layout.unplaced.clone());
        Ok((slf.get_type().getattr("_of")?, state.into_pyobject(py)?))
    }

    /// Makes a pickled layout again, without a search.
    #[classmethod]
    fn _of(
        _class: &Bound<'_, PyType>,
        parts: &Bound<'_, PyAny>,
        grains: Vec<Bound<'_, PyAny>>,
        stocks: &Bound<'_, PyAny>,
        sheets: Vec<(Stock, bool, Vec<Lies>)>,
        unplaced: Vec<usize>,
    ) -> PyResult<Layout> {
        let parts = parts.cast::<Parts>().map_err(|_| door::wrong(parts, "parts", "Parts"))?.get();
        let known = |part: usize| {
            let refuse = || Refusal::new(dryfit_core::Code::OutOfRange, "part", format!("{part} given, allowed less than {}", parts.count()));
            if part < parts.count() { Ok(part) } else { Err(refuse()) }
        };
        let place = |(part, x, y, turns, flipped): Lies| {
            let length = |mm: f64| Nm::from_mm(mm).and_then(|nm| LENGTH.check(nm.nm()).and(Ok(nm))).map_err(Refusal::from);
            Ok::<_, Refusal>(Placement { part: known(part)?, at: Point::new(length(x)?, length(y)?), quarter_turns: turns % 4, flipped })
        };
        let sheet = |(stock, share_cuts, placements): (Stock, bool, Vec<Lies>)| {
            let placements = placements.into_iter().map(place).collect::<Result<_, _>>()?;
            Ok::<_, Refusal>(dryfit_core::Sheet { stock: stock.core, placements, share_cuts })
        };
        let sheets = sheets.into_iter().map(sheet).collect::<Result<_, _>>()?;
        let unplaced = unplaced.into_iter().map(known).collect::<Result<_, _>>()?;
        let grains = lay_out::each(parts, &grains)?;
        Ok(Layout::new(parts, grains, lay_out::stocks(stocks)?, dryfit_core::Layout { sheets, unplaced }))
    }

    fn __repr__(&self) -> String {
        format!("<dryfit.Layout, sheets: {}, parts: {}>", self.job.layout.sheets.len(), self.job.parts.iter().count())
    }
}

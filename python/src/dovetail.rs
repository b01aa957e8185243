//! `dovetail_corner`: a corner set out for hand tools.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

use dryfit_core::bounds::{FINGER_COUNT, FINGER_WIDTH, GAUGE, LAP, SIZE, THICKNESS};
use dryfit_core::{Code, DovetailLayout, Fit, Nm, Point, write_corner};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};

use crate::array;
use crate::door;
use crate::html::html;
use crate::layout_line::{LayoutLine, Pair};
use crate::record::{Again, Given, Named};
use crate::refusal::Refusal;
use crate::show::mm;
use crate::slope::slope;
use crate::stock::Stock;

/// A dovetailed corner of two boards, set out for saw and chisel.
///
/// ``width`` is that of both boards, ``tail_board`` and ``pin_board`` are their thicknesses, all in mm or strings with a unit; a ``Stock`` may stand for a thickness. ``count`` tails have
/// flanks that lean by ``slope``: 8 for 1 in 8, "1:8", or "5:24" and (5, 24) for rise to run. ``socket`` is the greatest width of a socket,
/// which it has at the baseline; left out, tails and sockets are of one width there, the strongest arrangement. Half a socket is left at
/// either edge.
///
/// ``kind`` is "through" or "lapped" (half-blind); then ``lap`` of the pin board's thickness hides the tails, 1/4 in if left out.
/// ``gauge`` sets the baselines deeper, up to 1/32 in, for ends that stand proud and are planed off.
///
/// A machine that cuts straight down can make the tail board, never the pin board, whose pins lean on its end grain: all lines there are
/// marks for cutting by hand. Chisels and saws are sharp: clamp the work and keep both hands behind the edge.
///
/// Raises a ``DryfitError``: ``SocketCloses`` where the slope makes the tails meet, or sockets leave no tail; values out of range.
///
/// >>> corner = dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope="1:8", socket=8)
/// >>> corner
/// <dryfit.DovetailCorner: through, 120 wide, 5 tails at 1:8, 12 into the pin board, pins 12>
/// >>> corner.widths["tail"], corner.widths["half_socket"], corner.warnings
/// ((16.0, 19.0), (4.0, 2.5), [])
#[pyfunction]
#[pyo3(signature = (*, width, tail_board, pin_board, count, slope, socket = None, kind = None, lap = None, gauge = None))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn dovetail_corner(
    width: &Bound<'_, PyAny>,
    tail_board: &Bound<'_, PyAny>,
    pin_board: &Bound<'_, PyAny>,
    count: &Bound<'_, PyAny>,
    slope: &Bound<'_, PyAny>,
    socket: Option<&Bound<'_, PyAny>>,
    kind: Option<&Bound<'_, PyAny>>,
    lap: Option<&Bound<'_, PyAny>>,
    gauge: Option<&Bound<'_, PyAny>>,
) -> PyResult<DovetailCorner> {
    let width = door::length(width, &SIZE, "width")?;
    let boards = [thickness(tail_board, "tail_board")?, thickness(pin_board, "pin_board")?];
    let count = door::count(count, &FINGER_COUNT, "count")?;
    let slope = self::slope(slope, "slope")?;
    let mut corner = dryfit_core::DovetailCorner::new(width, boards[0], boards[1], count, slope);
    let named = Named::default().with("width", Given::Length(width)).with("tail_board", Given::Length(boards[0]));
    let mut named = named.with("pin_board", Given::Length(boards[1])).with("count", Given::Count(count)).with("slope", Given::Ratio(slope));
    if let Some(socket) = door::maybe_length(socket, &FINGER_WIDTH, "socket")? {
        corner = corner.socket(socket);
        named = named.with("socket", Given::Length(socket));
    }
    let kind = door::given(kind).map(|kind| door::word(kind, &[("through", false), ("lapped", true)], "kind")).transpose()?;
    let lapped = kind.is_some_and(|(_, lapped)| lapped);
    let lap = door::maybe_length(lap, &LAP, "lap")?;
    named = named.may("kind", kind.map(|(word, _)| Given::Word(word))).may("lap", lap.map(Given::Length));
    match lap {
        Some(_) if !lapped => return Err(Refusal::new(Code::UnknownKey, "lap", "only a corner of kind=\"lapped\" has one").into()),
        lap if lapped => corner = corner.lapped(lap.unwrap_or(dryfit_core::DovetailCorner::FRONT_LAP)),
        _ => {}
    }
    if let Some(gauge) = door::maybe_length(gauge, &GAUGE, "gauge")? {
        corner = corner.gauge(gauge);
        named = named.with("gauge", Given::Length(gauge));
    }
    Ok(DovetailCorner { core: corner.layout().map_err(Refusal::from)?, given: Arc::new(named) })
}

/// A thickness, of a stock or as a length.
fn thickness(value: &Bound<'_, PyAny>, name: &str) -> PyResult<Nm> {
    match value.cast::<Stock>() {
        Ok(stock) => Ok(stock.get().core.thickness()),
        Err(_) => door::length(value, &THICKNESS, name),
    }
}

/// A dovetailed corner set out by ``dovetail_corner``: its lines on every surface of both boards. Lengths in mm.
///
/// >>> corner = dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=8)
/// >>> corner.kind, corner.tail_length, len(corner.lines), corner.tail_outline.shape
/// ('through', 12.0, 64, (22, 2))
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct DovetailCorner {
    core: DovetailLayout,
    /// What `dovetail_corner` was given.
    given: Arc<Named>,
}

impl PartialEq for DovetailCorner {
    fn eq(&self, other: &DovetailCorner) -> bool {
        self.core == other.core
    }
}

impl Hash for DovetailCorner {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.core.hash(state);
    }
}

#[pymethods]
impl DovetailCorner {
    /// Width of both boards in mm.
    #[getter]
    fn width(&self) -> f64 {
        self.core.width().mm()
    }

    /// Number of tails.
    #[getter]
    fn count(&self) -> u32 {
        self.core.count()
    }

    /// How the flanks lean, as a pair (rise, run).
    #[getter]
    fn slope(&self) -> (u32, u32) {
        let slope = self.core.pattern().slope();
        (slope.num(), slope.den())
    }

    /// "through" or "lapped".
    #[getter]
    fn kind(&self) -> &'static str {
        if self.core.lap().is_some() { "lapped" } else { "through" }
    }

    /// What stays of the pin board in front of the tails, in mm; 0 for a through dovetail.
    #[getter]
    fn lap(&self) -> f64 {
        self.core.lap().map_or(0.0, Nm::mm)
    }

    /// How far the tail board's baseline lies from its end, in mm: set the gauge to it.
    #[getter]
    fn tail_length(&self) -> f64 {
        self.core.tail_length().mm()
    }

    /// How far the pin board's baseline lies from its end, in mm.
    #[getter]
    fn pin_length(&self) -> f64 {
        self.core.pin_length().mm()
    }

    /// Widths in mm at the baseline and at the end of the tails: of a "tail", of a "socket" (which a pin fills) and of the "half_socket" at an edge.
    #[getter]
    fn widths(&self) -> std::collections::BTreeMap<&'static str, Pair> {
        let widths = self.core.widths();
        [("tail", widths.tail), ("socket", widths.socket), ("half_socket", widths.half_socket)]
            .map(|(name, [base, end])| (name, (base.mm(), end.mm())))
            .into()
    }

    /// All lines, surface by surface.
    #[getter]
    fn lines(&self) -> Vec<LayoutLine> {
        self.core.lines().enumerate().map(|(index, core)| LayoutLine::new(core, self.clone(), index)).collect()
    }

    /// The end of the tail board, which any machine may cut: a read-only float64 array (n, 2) in mm, an open line from edge to edge along +x.
    /// The end lies at y = 0, the board at +y; close it with the rest of the board.
    #[getter]
    fn tail_outline<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        array::line_mm(py, self.outline()?)
    }

    /// The same as a read-only int64 array (n, 2) in nanometres, exact.
    #[getter]
    fn tail_outline_nm<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        array::line_nm(py, self.outline()?)
    }

    /// What lies outside the ranges that the handbooks advise: parameter, value, range and book. Texts disagree, so it is set out all the same.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.core.warnings().map(|warning| warning.to_string()).collect()
    }

    /// The layout sheet as SVG, at true scale in mm: the end of either board unfolded, to be laid over it.
    ///
    /// Group "mark" holds all lines to work to, "cut-outer" the tail board's outline. ``title`` heads the sheet.
    ///
    /// Raises ``WrongType`` for a title that is no string.
    ///
    /// >>> corner = dovetail_corner(width=120, tail_board=12, pin_board=12, count=5, slope=8, socket=8)
    /// >>> corner.svg(title="Tea chest").count("Tea chest") > 0
    /// True
    #[pyo3(signature = (*, title = None))]
    fn svg(&self, py: Python<'_>, title: Option<&Bound<'_, PyAny>>) -> PyResult<String> {
        let title = door::given(title).map_or(Ok("Dovetailed corner".to_owned()), |title| door::text(title, "title"))?;
        let bytes = py.detach(|| write_corner(Vec::new(), &self.core, &title)).map_err(Refusal::from)?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }

    fn _repr_svg_(&self, py: Python<'_>) -> PyResult<String> {
        self.svg(py, None)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Bound<'py, PyDict>,)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().given.to_python(slf.py())?,)))
    }

    /// Makes a pickled corner again.
    #[classmethod]
    fn _of<'py>(class: &Bound<'py, PyType>, given: &Bound<'py, PyDict>) -> PyResult<Bound<'py, PyAny>> {
        class.py().import("dryfit._dryfit")?.call_method("dovetail_corner", (), Some(given))
    }

    fn _repr_html_(slf: &Bound<'_, Self>) -> PyResult<String> {
        html(slf, "corner")
    }

    fn __repr__(&self) -> String {
        let (core, (rise, run)) = (&self.core, self.slope());
        let [width, tails, pins] = [core.width(), core.tail_length(), core.pin_length()].map(mm);
        format!(
            "<dryfit.DovetailCorner: {}, {width} wide, {} tails at {rise}:{run}, {tails} into the pin board, pins {pins}>",
            self.kind(),
            core.count()
        )
    }
}

impl DovetailCorner {
    fn outline(&self) -> Result<impl Iterator<Item = Point>, Refusal> {
        Ok(self.core.tail_profile(Fit::EXACT, Nm::ZERO)?.vertices().map(|vertex| vertex.at))
    }
}

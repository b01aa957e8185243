//! `Motion`: how sheets are cut.

use dryfit_core::bounds::{
    BED, BRIDGE_WIDTH, BRIDGES, Bound as Range, DEPTH, FEED, FLAT, HEIGHT, LEAD, OVERCUT, PASSES, PLUNGE, POWER, RAMP, SPACING, SPEED, SWIVEL_ABOVE,
};
use dryfit_core::{Code, Many, MotionSpec, PassOrder};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;

use crate::cutter::Cutter;
use crate::door;
use crate::refusal::Refusal;
use crate::route::{STARTS, TURNINGS};

const ORDERS: [(&str, PassOrder); 2] = [("line", PassOrder::Line), ("sheet", PassOrder::Sheet)];

/// How sheets are cut: speeds, passes, and the ways of each kind of tool. Lengths are in mm (or strings with a unit), speeds in mm/s. What is left out is as
/// usual for the tool; what belongs to another kind of tool is refused when a sheet is written.
///
/// Blades, beams and bits do harm. The files say the usual cautions; the instructions of the machine's maker and local rules come first.
///
/// All tools: ``feed`` along a cut (10) and ``plunge`` downwards (2); ``height`` of the tool above the board when it is up (2); ``passes`` (1) or ``step``, how
/// much deeper a pass may go; ``depth`` of the last one (the board's thickness, up to 5 mm more); a first ``light`` pass of a depth; ``by`` "line" or "sheet":
/// what comes first, the other passes or the other lines; ``pause`` to let the machine wait between passes over the sheet, to look at tape and board;
/// ``bridges`` that hold each part (a beam's one, a bit's two, a blade's none) or ``bridge_spacing`` between them along the outline, and ``bridge_width``;
/// ``bed``, the distance of the bed's supports: parts that rest on them whatever their place need no bridge; ``flat`` for chords in place of arcs, no
/// farther from them than this (a blade's tip strays by up to four times as much); ``start``, ``outer`` and ``inner`` as in ``Sheet.route``; ``cutter``, if it is not the one that the parts were made for.
///
/// Blade: ``swivel_above`` a turn of so many degrees it is turned about its tip; ``overcut`` beyond the point where a closed line began; ``turn_depth``, how
/// deep it stays in the board meanwhile. Beam: ``power`` in the machine's own unit (0, so that the file runs dry), ``light_power`` of a first light pass,
/// ``dynamic`` if the machine may lower the power where it goes slower. Bit: ``speed`` in turns a minute (10,000), ``ramp``, the way along which it sinks to
/// the depth of a pass (ten times what it sinks; 0 to plunge). Beam and bit: ``lead``, the length of the way in from the waste (0 for none).
///
/// >>> Motion(feed=20, passes=2, light="0.2 mm")
/// Motion(feed=20, passes=2, light='0.2 mm')
/// >>> Motion(feed=0)
/// Traceback (most recent call last):
///     ...
/// dryfit.OutOfRange: feed: 0 given, allowed 0.001 mm/s to 10000 mm/s
#[pyclass(frozen, module = "dryfit")]
#[derive(Debug)]
pub struct Motion {
    pub(crate) core: MotionSpec,
    pub(crate) cutter: Option<dryfit_core::Cutter>,
    /// What was given, for showing and pickling.
    given: Py<PyDict>,
}

type Value<'a, 'py> = &'a Bound<'py, PyAny>;

/// Reads one setting; false if there is none of this name.
fn read(core: &mut MotionSpec, name: &str, value: Value<'_, '_>) -> PyResult<bool> {
    let length = |range: &Range| door::length(value, range, name).map(Some);
    let amount = |range: &Range| Ok::<_, PyErr>(door::amount(value, range, name)?.1);
    let count = |range: &Range| Ok::<_, PyErr>(Some(i64::from(door::count(value, range, name)?)));
    let passes = &mut core.passes;
    match name {
        "feed" => core.feed = amount(&FEED)?,
        "plunge" => core.plunge = amount(&PLUNGE)?,
        "height" => core.height = door::length(value, &HEIGHT, name)?,
        "passes" => passes.count = count(&PASSES)?,
        "step" => passes.step = length(&DEPTH)?,
        "depth" => passes.depth = length(&DEPTH)?,
        "light" => passes.light = length(&DEPTH)?,
        "power" => passes.power = Some(amount(&POWER)?),
        "light_power" => passes.light_power = Some(amount(&POWER)?),
        "by" => passes.order = Some(door::choice(value, &ORDERS, name)?),
        "pause" => passes.pause = door::flag(value, name)?,
        "dynamic" => core.dynamic = Some(door::flag(value, name)?),
        "speed" => core.speed = count(&SPEED)?,
        "ramp" => core.ramp = length(&RAMP)?,
        "swivel_above" => core.swivel_above = Some(amount(&SWIVEL_ABOVE)?),
        "overcut" => core.overcut = length(&OVERCUT)?,
        "turn_depth" => core.turn_depth = length(&DEPTH)?,
        "bridges" => core.bridges = count(&BRIDGES)?.map(Many::Count),
        "bridge_spacing" => core.bridges = length(&SPACING)?.map(Many::Spacing),
        "bridge_width" => core.bridge_width = length(&BRIDGE_WIDTH)?,
        "bed" => core.bed = length(&BED)?,
        "lead" => core.lead = length(&LEAD)?,
        "flat" => core.flat = length(&FLAT)?,
        "start" => core.route.start = door::choice(value, &STARTS, name)?,
        "outer" => core.route.outer = door::choice(value, &TURNINGS, name)?,
        "inner" => core.route.inner = door::choice(value, &TURNINGS, name)?,
        _ => return Ok(false),
    }
    Ok(true)
}

#[pymethods]
impl Motion {
    #[new]
    #[pyo3(
        signature = (**settings),
        text_signature = "(*, cutter=None, feed=None, plunge=None, height=None, passes=None, step=None, depth=None, light=None, by=None, pause=None, power=None, light_power=None, dynamic=None, speed=None, ramp=None, swivel_above=None, overcut=None, turn_depth=None, bridges=None, bridge_spacing=None, bridge_width=None, bed=None, lead=None, flat=None, start=None, outer=None, inner=None)"
    )]
    fn new(py: Python<'_>, settings: Option<&Bound<'_, PyDict>>) -> PyResult<Motion> {
        let (mut core, mut cutter) = (MotionSpec::default(), None);
        let given = PyDict::new(py);
        for (key, value) in settings.into_iter().flatten() {
            if value.is_none() {
                continue;
            }
            let name: String = key.extract()?;
            if name == "cutter" {
                cutter = Some(value.cast::<Cutter>().map_err(|_| door::wrong(&value, "cutter", "a Cutter"))?.get().core);
            } else if !read(&mut core, &name, &value)? {
                return Err(PyTypeError::new_err(format!("Motion.__new__() got an unexpected keyword argument '{name}'")));
            }
            given.set_item(key, value)?;
        }
        if given.contains("bridges")? && given.contains("bridge_spacing")? {
            return Err(Refusal::new(Code::WrongType, "bridge_spacing", "given beside bridges, allowed one of both").into());
        }
        Ok(Motion { core, cutter, given: given.unbind() })
    }

    fn __eq__(&self, other: &Bound<'_, PyAny>) -> bool {
        other.cast::<Motion>().is_ok_and(|other| (self.core, self.cutter) == (other.get().core, other.get().cutter))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (Bound<'py, PyDict>,))> {
        Ok((py.import("dryfit._dryfit")?.getattr("_motion")?, (self.given.bind(py).clone(),)))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let shown = self.given.bind(py).iter().map(|(key, value)| Ok(format!("{key}={}", value.repr()?)));
        Ok(format!("Motion({})", shown.collect::<PyResult<Vec<_>>>()?.join(", ")))
    }
}

/// Makes pickled settings again.
#[pyfunction]
#[pyo3(signature = (given, /))]
pub(crate) fn _motion<'py>(py: Python<'py>, given: &Bound<'py, PyDict>) -> PyResult<Bound<'py, PyAny>> {
    py.get_type::<Motion>().call((), Some(given))
}

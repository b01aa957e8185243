//! `Motion`: how sheets are cut.

use std::hash::{Hash, Hasher};

use dryfit_core::bounds::{
    BED, BRIDGE_WIDTH, BRIDGES, Bound as Range, DEPTH, FEED, FLAT, HEIGHT, LEAD, OVERCUT, PASSES, PLUNGE, POWER, RAMP, SPACING, SPEED, SWIVEL_ABOVE,
};
use dryfit_core::{Code, Many, MotionSpec, Nm, PassOrder};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};

use crate::cutter::Cutter;
use crate::door;
use crate::record::{Again, Given, Named};
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
/// Raises a ``DryfitError`` for values out of range, ``TypeError`` for a name that is none of these.
///
/// >>> Motion(feed=20, passes=2, light="0.2 mm")
/// Motion(feed=20, passes=2, light=0.2)
/// >>> Motion(feed=0)
/// Traceback (most recent call last):
///     ...
/// dryfit.OutOfRange: feed: 0 given, allowed 0.001 mm/s to 10000 mm/s
#[pyclass(frozen, eq, hash, module = "dryfit")]
#[derive(Clone, Debug)]
pub struct Motion {
    pub(crate) core: MotionSpec,
    pub(crate) cutter: Option<dryfit_core::Cutter>,
    /// What was given, for showing and pickling.
    given: Named,
}

impl Motion {
    fn value(&self) -> (&MotionSpec, Option<dryfit_core::Cutter>) {
        (&self.core, self.cutter)
    }
}

impl PartialEq for Motion {
    fn eq(&self, other: &Motion) -> bool {
        self.value() == other.value()
    }
}

impl Hash for Motion {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.value().hash(state);
    }
}

type Value<'a, 'py> = &'a Bound<'py, PyAny>;

/// Reads one setting: what was given, exact; none if there is none of this name.
fn read(core: &mut MotionSpec, name: &str, value: Value<'_, '_>) -> PyResult<Option<Given>> {
    // Each of them is read, written where it belongs, and told.
    let length = |range: &Range, into: &mut Option<Nm>| {
        let length = door::length(value, range, name)?;
        *into = Some(length);
        Ok::<_, PyErr>(Given::Length(length))
    };
    let amount = |range: &Range| Ok::<_, PyErr>(door::amount(value, range, name)?.1);
    let count = |range: &Range, into: &mut Option<i64>| {
        let count = door::count(value, range, name)?;
        *into = Some(i64::from(count));
        Ok::<_, PyErr>(Given::Count(count))
    };
    let flag = || door::flag(value, name);
    let passes = &mut core.passes;
    Ok(Some(match name {
        "feed" => number(&mut core.feed, amount(&FEED)?),
        "plunge" => number(&mut core.plunge, amount(&PLUNGE)?),
        "height" => {
            core.height = door::length(value, &HEIGHT, name)?;
            Given::Length(core.height)
        }
        "passes" => count(&PASSES, &mut passes.count)?,
        "step" => length(&DEPTH, &mut passes.step)?,
        "depth" => length(&DEPTH, &mut passes.depth)?,
        "light" => length(&DEPTH, &mut passes.light)?,
        "power" => number(passes.power.insert(0), amount(&POWER)?),
        "light_power" => number(passes.light_power.insert(0), amount(&POWER)?),
        "by" => word(passes.order.insert(PassOrder::Line), door::word(value, &ORDERS, name)?),
        "pause" => truth(&mut passes.pause, flag()?),
        "dynamic" => truth(core.dynamic.insert(false), flag()?),
        "speed" => count(&SPEED, &mut core.speed)?,
        "ramp" => length(&RAMP, &mut core.ramp)?,
        "swivel_above" => number(core.swivel_above.insert(0), amount(&SWIVEL_ABOVE)?),
        "overcut" => length(&OVERCUT, &mut core.overcut)?,
        "turn_depth" => length(&DEPTH, &mut core.turn_depth)?,
        "bridges" => {
            let mut bridges = None;
            let given = count(&BRIDGES, &mut bridges)?;
            core.bridges = bridges.map(Many::Count);
            given
        }
        "bridge_spacing" => {
            let mut spacing = None;
            let given = length(&SPACING, &mut spacing)?;
            core.bridges = spacing.map(Many::Spacing);
            given
        }
        "bridge_width" => length(&BRIDGE_WIDTH, &mut core.bridge_width)?,
        "bed" => length(&BED, &mut core.bed)?,
        "lead" => length(&LEAD, &mut core.lead)?,
        "flat" => length(&FLAT, &mut core.flat)?,
        "start" => word(&mut core.route.start, door::word(value, &STARTS, name)?),
        "outer" => word(&mut core.route.outer, door::word(value, &TURNINGS, name)?),
        "inner" => word(&mut core.route.inner, door::word(value, &TURNINGS, name)?),
        _ => return Ok(None),
    }))
}

fn number(into: &mut i64, millionths: i64) -> Given {
    *into = millionths;
    Given::Millionths(millionths)
}

fn word<T>(into: &mut T, (word, meaning): (&'static str, T)) -> Given {
    *into = meaning;
    Given::Word(word)
}

fn truth(into: &mut bool, flag: bool) -> Given {
    *into = flag;
    Given::Flag(flag)
}

/// The settings by their names, as Python has them.
const SETTINGS: [&str; 27] = [
    "cutter",
    "feed",
    "plunge",
    "height",
    "passes",
    "step",
    "depth",
    "light",
    "by",
    "pause",
    "power",
    "light_power",
    "dynamic",
    "speed",
    "ramp",
    "swivel_above",
    "overcut",
    "turn_depth",
    "bridges",
    "bridge_spacing",
    "bridge_width",
    "bed",
    "lead",
    "flat",
    "start",
    "outer",
    "inner",
];

#[pymethods]
impl Motion {
    #[new]
    #[pyo3(
        signature = (**settings),
        text_signature = "(*, cutter=None, feed=None, plunge=None, height=None, passes=None, step=None, depth=None, light=None, by=None, pause=None, power=None, light_power=None, dynamic=None, speed=None, ramp=None, swivel_above=None, overcut=None, turn_depth=None, bridges=None, bridge_spacing=None, bridge_width=None, bed=None, lead=None, flat=None, start=None, outer=None, inner=None)"
    )]
    fn new(settings: Option<&Bound<'_, PyDict>>) -> PyResult<Motion> {
        let (mut core, mut cutter, mut given) = (MotionSpec::default(), None, Named::default());
        for (key, value) in settings.into_iter().flatten() {
            let name: String = key.extract()?;
            let Some(name) = SETTINGS.into_iter().find(|known| *known == name) else {
                return Err(PyTypeError::new_err(format!("Motion.__new__() got an unexpected keyword argument '{name}'")));
            };
            if value.is_none() {
                continue;
            }
            let read = if name == "cutter" {
                let tool = *door::own::<Cutter>(&value, "cutter")?.get();
                cutter = Some(tool.core);
                Some(Given::Cutter(tool))
            } else {
                read(&mut core, name, &value)?
            };
            given = given.may(name, read);
        }
        if given.has("bridges") && given.has("bridge_spacing") {
            return Err(Refusal::new(Code::WrongType, "bridge_spacing", "given beside bridges, allowed one of both").into());
        }
        Ok(Motion { core, cutter, given })
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, (Bound<'py, PyDict>,)> {
        Ok((slf.get_type().getattr("_of")?, (slf.get().given.to_python(slf.py())?,)))
    }

    /// Makes pickled settings again.
    #[classmethod]
    fn _of<'py>(class: &Bound<'py, PyType>, given: &Bound<'py, PyDict>) -> PyResult<Bound<'py, PyAny>> {
        class.call((), Some(given))
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        Ok(format!("Motion({})", self.given.shown(py)?))
    }
}

//! `Pace`: how long jobs take, by a machine's numbers or by known jobs.

use std::hash::{Hash, Hasher};

use dryfit_core::bounds::{ACCELERATION, DEVIATION, FEED, KNOWN, KNOWN_MINUTES, LIFT, PASSES, SWIVEL, TRAVEL_SPEED};
use dryfit_core::{Machine, MachineSpec, Nm};
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple, PyType};

use crate::door::{self, Maybe};
use crate::layout::Layout;
use crate::record::Again;
use crate::refusal::Refusal;
use crate::show::millionths;
use crate::tally::Tally;

/// How long jobs take. ``Pace(feed=..., acceleration=...)`` where the machine's numbers are known, ``Pace.from_known`` where only earlier jobs are.
///
/// ``feed`` is the speed of a cut in mm/s (0.001 to 10000), ``acceleration`` how fast speeds change in mm/s² (0.001 to 1000000), ``travel_speed``
/// the speed with the tool up (as the feed unless told otherwise), ``deviation`` how far corners may be rounded off in mm (0 to 10; 0 stops at each),
/// ``lift`` the seconds for lifting and lowering the tool at each cut, ``swivel`` those that a blade takes to be turned at a corner (each 0 to 600).
///
/// A machine is taken to speed up and slow down evenly and to stop where a corner is too sharp for its ``deviation`` (plain kinematics, no source).
///
/// Raises ``OutOfRange``, ``NotFinite``, ``WrongType``, each with the name of the number.
///
/// >>> pace = Pace(feed=20, acceleration=500, lift=0.4)
/// >>> pace
/// Pace(feed=20, acceleration=500, travel_speed=20, deviation=0, lift=0.4, swivel=0)
/// >>> stock = Stock(thickness=2, sheet=("11 in", "11 in"), border=6.5)
/// >>> cube = lambda side: box(outside=(side, side, side), stock=stock).cut(cutter=Cutter.blade(kerf=0)).lay_out(stock)
/// >>> round(cube(80).minutes(pace), 2)
/// 2.66
/// >>> pace = Pace.from_known([(cube(80), 92), (cube(120), 102)])
/// >>> round(cube(100).minutes(pace), 1)
/// 96.6
#[pyclass(frozen, eq, hash, from_py_object, module = "dryfit")]
#[derive(Clone, Debug, PartialEq)]
pub struct Pace {
    pub(crate) core: dryfit_core::Pace,
}

impl Hash for Pace {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.core.machine().map(|machine| machine.spec()).hash(state);
        // Minutes are above zero.
        self.core.known().iter().for_each(|(tally, minutes)| (tally, minutes.to_bits()).hash(state));
    }
}

/// How often each line is cut.
pub(crate) fn passes(value: Maybe<'_, '_>, name: &str) -> PyResult<i64> {
    value.map_or(Ok(1), |value| Ok(door::count(value, &PASSES, name)?.into()))
}

/// A job of the known ones: a layout or its tally, the minutes, and the passes.
fn job(entry: &Bound<'_, PyAny>, name: &str) -> PyResult<(dryfit_core::Tally, f64)> {
    let refuse = || door::wrong(entry, name, "(Layout or Tally, minutes) or (Layout, minutes, passes)");
    let entry = entry.cast::<PyTuple>().map_err(|_| refuse())?;
    let items: Vec<Bound<'_, PyAny>> = entry.iter().collect();
    let [job, minutes, rest @ ..] = items.as_slice() else { return Err(refuse().into()) };
    let tally = match (job.cast::<Layout>(), job.cast::<Tally>(), rest) {
        (Ok(layout), _, []) => layout.get().core_tally(entry.py(), 1)?,
        (Ok(layout), _, [passes]) => layout.get().core_tally(entry.py(), self::passes(Some(passes), &format!("{name}[2]"))?)?,
        (_, Ok(tally), []) => tally.get().core,
        _ => return Err(refuse().into()),
    };
    let (minutes, _) = door::amount(minutes, &KNOWN_MINUTES, &format!("{name}[1]"))?;
    Ok((tally, minutes))
}

#[pymethods]
impl Pace {
    #[new]
    #[pyo3(signature = (*, feed, acceleration, travel_speed = None, deviation = None, lift = None, swivel = None))]
    fn new(
        feed: &Bound<'_, PyAny>,
        acceleration: &Bound<'_, PyAny>,
        travel_speed: Maybe<'_, '_>,
        deviation: Maybe<'_, '_>,
        lift: Maybe<'_, '_>,
        swivel: Maybe<'_, '_>,
    ) -> PyResult<Pace> {
        let (_, feed) = door::amount(feed, &FEED, "feed")?;
        let or = |value: Maybe<'_, '_>, range, name, usual| match door::given(value) {
            Some(value) => Ok::<_, PyErr>(door::amount(value, range, name)?.1),
            None => Ok(usual),
        };
        let spec = MachineSpec {
            feed,
            travel: or(travel_speed, &TRAVEL_SPEED, "travel_speed", feed)?,
            acceleration: door::amount(acceleration, &ACCELERATION, "acceleration")?.1,
            deviation: door::maybe_length(deviation, &DEVIATION, "deviation")?.unwrap_or(Nm::ZERO),
            lift: or(lift, &LIFT, "lift", 0)?,
            swivel: or(swivel, &SWIVEL, "swivel", 0)?,
        };
        Ok(Pace { core: Machine::new(spec).map_err(Refusal::from)?.into() })
    }

    /// The pace of earlier jobs: ``known`` is a list of ``(layout, minutes)``, or ``(layout, minutes, passes)`` where lines were cut more than once; a ``Tally`` may
    /// stand for a layout. Least squares with no cost below zero. Few jobs cannot tell many costs apart, so the simplest explanation is taken: the cut
    /// length first, then parts, starts, corners, travel and sheets, each only if it really tells more, and never more costs than jobs.
    ///
    /// Raises ``OutOfRange`` for fewer than two jobs and for minutes that are not above zero, ``NotFinite``, ``WrongType``, and ``KnownAlike`` where all
    /// jobs are of one size.
    ///
    /// >>> job = lambda cut: Tally(cut=cut, parts=6, corners=300)
    /// >>> pace = Pace.from_known([(job(2500), 92), (job(3125), 97.1), (job(3750), 102)])
    /// >>> {name: round(cost, 2) for name, cost in pace.costs.items()}
    /// {'cut': 8.0, 'parts': 12.01, 'starts': 0.0, 'corners': 0.0, 'travel': 0.0, 'sheets': 0.0}
    /// >>> [round(residual, 3) for residual in pace.residuals], round(pace.spread, 3)
    /// ([-0.033, 0.067, -0.033], 0.082)
    #[classmethod]
    #[pyo3(signature = (known, /))]
    fn from_known(class: &Bound<'_, PyType>, known: &Bound<'_, PyAny>) -> PyResult<Pace> {
        let items = known.try_iter().map_err(|_| door::wrong(known, "known", "a list of (Layout, minutes)"))?;
        let jobs = items.take(KNOWN.most as usize + 1).enumerate().map(|(index, entry)| job(&entry?, &format!("known[{index}]")));
        let jobs = jobs.collect::<PyResult<Vec<_>>>()?;
        Ok(Pace { core: class.py().detach(|| dryfit_core::Pace::from_known(&jobs)).map_err(Refusal::from)? })
    }

    /// Speed of a cut in mm/s; this and the other numbers of the machine are None where the pace is by known jobs.
    #[getter]
    fn feed(&self) -> Option<f64> {
        self.number(|spec| spec.feed)
    }

    /// How fast speeds change, in mm/s².
    #[getter]
    fn acceleration(&self) -> Option<f64> {
        self.number(|spec| spec.acceleration)
    }

    /// Speed with the tool up, in mm/s.
    #[getter]
    fn travel_speed(&self) -> Option<f64> {
        self.number(|spec| spec.travel)
    }

    /// How far corners may be rounded off, in mm.
    #[getter]
    fn deviation(&self) -> Option<f64> {
        self.number(|spec| spec.deviation.nm())
    }

    /// The seconds for lifting and lowering the tool.
    #[getter]
    fn lift(&self) -> Option<f64> {
        self.number(|spec| spec.lift)
    }

    /// The seconds that a blade takes to be turned at a corner.
    #[getter]
    fn swivel(&self) -> Option<f64> {
        self.number(|spec| spec.swivel)
    }

    /// The known jobs as (tally, minutes); none by a machine's numbers.
    #[getter]
    fn known(&self) -> Vec<(Tally, f64)> {
        self.core.known().iter().map(|&(core, minutes)| (Tally { core }, minutes)).collect()
    }

    /// The minutes that each thing costs: a metre of "cut" and "travel", one of "parts", "starts", "corners" and "sheets". None by a machine's numbers.
    #[getter]
    fn costs<'py>(&self, py: Python<'py>) -> PyResult<Option<Bound<'py, PyDict>>> {
        let Some(costs) = self.core.costs() else { return Ok(None) };
        let dict = PyDict::new(py);
        costs.into_iter().try_for_each(|(cost, minutes)| dict.set_item(cost.name(), minutes))?;
        Ok(Some(dict))
    }

    /// By how many minutes each known job took longer than the pace says.
    #[getter]
    fn residuals(&self) -> Vec<f64> {
        self.core.residuals().to_vec()
    }

    /// The standard error of a job's minutes; None where there are as many costs as jobs, and by a machine's numbers.
    #[getter]
    fn spread(&self) -> Option<f64> {
        self.core.spread()
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> Again<'py, Bound<'py, PyTuple>> {
        let (this, py) = (slf.get(), slf.py());
        if this.core.machine().is_none() {
            return Ok((slf.get_type().getattr("from_known")?, PyTuple::new(py, [this.known()])?));
        }
        let named = PyDict::new(py);
        named.set_item("feed", this.feed())?;
        named.set_item("acceleration", this.acceleration())?;
        named.set_item("travel_speed", this.travel_speed())?;
        named.set_item("deviation", this.deviation())?;
        named.set_item("lift", this.lift())?;
        named.set_item("swivel", this.swivel())?;
        // The way pickle makes anything again whose arguments have names.
        Ok((py.import("copyreg")?.getattr("__newobj_ex__")?, (slf.get_type(), PyTuple::empty(py), named).into_pyobject(py)?))
    }

    fn __repr__(&self) -> String {
        let Some(spec) = self.core.machine().map(|machine| machine.spec()) else {
            let jobs: Vec<String> =
                self.core.known().iter().map(|(core, minutes)| format!("({}, {minutes:?})", Tally { core: *core }.shown())).collect();
            return format!("Pace.from_known([{}])", jobs.join(", "));
        };
        let [feed, acceleration, travel, deviation, lift, swivel] =
            [spec.feed, spec.acceleration, spec.travel, spec.deviation.nm(), spec.lift, spec.swivel].map(millionths);
        format!("Pace(feed={feed}, acceleration={acceleration}, travel_speed={travel}, deviation={deviation}, lift={lift}, swivel={swivel})")
    }
}

impl Pace {
    fn number(&self, of: impl Fn(&MachineSpec) -> i64) -> Option<f64> {
        self.core.machine().map(|machine| of(&machine.spec()) as f64 / 1e6)
    }
}

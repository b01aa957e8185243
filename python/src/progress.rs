//! How long calls tell Python how far they are, and learn that they should stop.

use std::time::{Duration, Instant};

use pyo3::prelude::*;
use pyo3::types::PyBool;

use crate::door;

/// How often Python hears of a call, and may stop it.
const BEAT: Duration = Duration::from_millis(50);

/// What takes longer than this shows a bar.
const PATIENCE: Duration = Duration::from_secs(1);

/// Who is told.
enum Told {
    Nobody,
    /// Whoever looks at the terminal or the notebook, once it takes long, or from the start where it was asked for.
    Watcher {
        what: &'static str,
        asked: bool,
        bar: Option<Py<PyAny>>,
    },
    Function(Py<PyAny>),
}

/// What a running call tells Python: it stops on time, when asked to, and on an interrupt.
pub(crate) struct Listener {
    began: Instant,
    heard: Instant,
    limit: Option<Duration>,
    told: Told,
    stopped: bool,
    raised: Option<PyErr>,
}

impl Listener {
    /// `progress` is as Python has it: None, True, False or a function. `what` is done stands before the bar.
    pub(crate) fn new(limit: Option<Duration>, progress: Option<&Bound<'_, PyAny>>, what: &'static str) -> PyResult<Listener> {
        let watcher = |asked| Told::Watcher { what, asked, bar: None };
        let told = match door::given(progress) {
            None => watcher(false),
            Some(progress) if progress.is_instance_of::<PyBool>() => {
                if progress.is_truthy()? {
                    watcher(true)
                } else {
                    Told::Nobody
                }
            }
            Some(progress) if progress.is_callable() => Told::Function(progress.clone().unbind()),
            Some(progress) => return Err(door::wrong(progress, "progress", "None, True, False or a function of one number").into()),
        };
        let now = Instant::now();
        Ok(Listener { began: now, heard: now, limit, told, stopped: false, raised: None })
    }

    /// Whether to go on, with what is done of the whole; with a limit, with the share of the time that may be spent now.
    pub(crate) fn hear(&mut self, done: f64) -> bool {
        let now = Instant::now();
        let spent = self.limit.map(|limit| (now - self.began).as_secs_f64() / limit.as_secs_f64());
        if !self.stopped && now - self.heard >= BEAT {
            self.heard = now;
            let done = spent.unwrap_or(done).clamp(0.0, 1.0);
            match Python::attach(|py| self.ask(py, done, now)) {
                Ok(go_on) => self.stopped = !go_on,
                Err(error) => (self.stopped, self.raised) = (true, Some(error)),
            }
        }
        !self.stopped && spent.is_none_or(|spent| spent < done)
    }

    /// Whether whoever listens said that it is enough, or raised something.
    pub(crate) fn stopped(&self) -> bool {
        self.stopped
    }

    fn ask(&mut self, py: Python<'_>, done: f64, now: Instant) -> PyResult<bool> {
        py.check_signals()?;
        match &mut self.told {
            Told::Nobody => {}
            Told::Function(function) => {
                let answer = function.bind(py).call1((done,))?;
                return Ok(answer.is_none() || answer.is_truthy()?);
            }
            Told::Watcher { what, asked, bar } => {
                if bar.is_none() && (*asked || now - self.began >= PATIENCE) {
                    let made = py.import("dryfit._progress")?.getattr("bar")?.call1((*what, *asked))?;
                    *bar = Some(made.unbind());
                }
                if let Some(bar) = bar {
                    bar.bind(py).call1((done,))?;
                }
            }
        }
        Ok(true)
    }

    /// The end of the call: the bar goes, and what Python raised is raised.
    pub(crate) fn end(self, py: Python<'_>) -> PyResult<()> {
        let whole = !self.stopped;
        if let Told::Watcher { bar: Some(bar), .. } = self.told {
            bar.bind(py).call_method1("close", (whole,))?;
        }
        self.raised.map_or(Ok(()), Err)
    }
}

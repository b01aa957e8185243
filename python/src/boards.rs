//! Boards and joints behind a lock, and the panels made of them once.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyMappingProxy};

use crate::panel::Panel;
use crate::refusal::Refusal;

/// What an assembly consists of.
#[derive(Debug)]
pub(crate) struct Boards {
    state: Mutex<State>,
}

#[derive(Debug)]
struct State {
    core: dryfit_core::Assembly,
    /// Rises with every change, so that a result of an older state is not kept.
    age: u64,
    panels: Option<Made>,
}

/// The panels of a state, and the mapping that Python sees.
#[derive(Debug)]
pub(crate) struct Made {
    pub(crate) panels: Arc<Vec<dryfit_core::Panel>>,
    pub(crate) mapping: Py<PyMappingProxy>,
}

impl Made {
    fn clone_ref(&self, py: Python<'_>) -> Made {
        Made { panels: Arc::clone(&self.panels), mapping: self.mapping.clone_ref(py) }
    }
}

impl Boards {
    pub(crate) fn of(core: dryfit_core::Assembly) -> Boards {
        Boards { state: Mutex::new(State { core, age: 0, panels: None }) }
    }

    /// Locked only for moments in which no Python code can run.
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Changes the boards or joints; the panels are to be made anew.
    pub(crate) fn change(&self, change: impl FnOnce(&mut dryfit_core::Assembly) -> Result<(), dryfit_core::Failure>) -> PyResult<()> {
        let old = {
            let mut state = self.state();
            change(&mut state.core).map_err(Refusal::from)?;
            state.age += 1;
            state.panels.take()
        };
        drop(old);
        Ok(())
    }

    /// The panels, made once.
    pub(crate) fn made(&self, py: Python<'_>) -> PyResult<Made> {
        let (core, age) = {
            let state = self.state();
            if let Some(made) = &state.panels {
                return Ok(made.clone_ref(py));
            }
            (state.core.clone(), state.age)
        };
        let panels = Arc::new(py.detach(|| core.panels()).map_err(Refusal::from)?);
        let dict = PyDict::new(py);
        for panel in Panel::of(&panels) {
            let name = panel.label().to_owned();
            dict.set_item(name, Py::new(py, panel)?)?;
        }
        let made = Made { panels, mapping: PyMappingProxy::new(py, dict.as_mapping()).unbind() };
        let mut state = self.state();
        if state.age == age {
            state.panels = Some(made.clone_ref(py));
        }
        Ok(made)
    }

    /// The names of the first boards, and how many there are.
    pub(crate) fn names(&self, most: usize) -> (Vec<String>, usize) {
        let state = self.state();
        let boards = state.core.boards();
        (boards.iter().take(most).map(|board| board.name().to_owned()).collect(), boards.len())
    }
}

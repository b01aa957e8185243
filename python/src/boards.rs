//! Boards and joints behind a lock, and the panels made of them once.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyMappingProxy};

use crate::panel::Panel;
use crate::recipe::Recipe;
use crate::record::Call;
use crate::refusal::Refusal;

/// What an assembly consists of.
#[derive(Debug)]
pub(crate) struct Boards {
    state: Mutex<State>,
}

#[derive(Debug)]
struct State {
    core: Arc<dryfit_core::Assembly>,
    recipe: Recipe,
    /// Rises with every change, so that a result of an older state is not kept.
    age: u64,
    panels: Option<Made>,
}

/// The panels of one state, and how it came to be.
#[derive(Debug)]
pub(crate) struct Set {
    pub(crate) panels: Vec<dryfit_core::Panel>,
    pub(crate) recipe: Recipe,
}

/// The panels of a state, and the mapping that Python sees.
#[derive(Debug)]
pub(crate) struct Made {
    pub(crate) set: Arc<Set>,
    pub(crate) mapping: Py<PyMappingProxy>,
}

impl Made {
    fn clone_ref(&self, py: Python<'_>) -> Made {
        Made { set: Arc::clone(&self.set), mapping: self.mapping.clone_ref(py) }
    }
}

impl Boards {
    /// What a call made.
    pub(crate) fn of(core: dryfit_core::Assembly, call: Call) -> Boards {
        Boards { state: Mutex::new(State { core: Arc::new(core), recipe: Recipe::of(call), age: 0, panels: None }) }
    }

    /// Locked only for moments in which no Python code can run.
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Changes the boards or joints, as a call asks; the panels are to be made anew.
    pub(crate) fn change(
        &self,
        py: Python<'_>,
        call: Call,
        change: impl FnOnce(&mut dryfit_core::Assembly) -> Result<(), dryfit_core::Failure> + Send,
    ) -> PyResult<()> {
        let old = py.detach(|| {
            let mut state = self.state();
            change(Arc::make_mut(&mut state.core)).map_err(Refusal::from)?;
            state.recipe.push(call);
            state.age += 1;
            Ok::<_, Refusal>(state.panels.take())
        });
        drop(old?);
        Ok(())
    }

    /// The boards and joints of now, and how they came to be.
    pub(crate) fn now(&self) -> (Arc<dryfit_core::Assembly>, Recipe) {
        let state = self.state();
        (Arc::clone(&state.core), state.recipe.clone())
    }

    /// The same again, to be changed by itself.
    pub(crate) fn copy(&self) -> Boards {
        let (core, recipe) = self.now();
        Boards { state: Mutex::new(State { core, recipe, age: 0, panels: None }) }
    }

    /// The panels, made once.
    pub(crate) fn made(&self, py: Python<'_>) -> PyResult<Made> {
        let (core, recipe, age) = {
            let state = self.state();
            if let Some(made) = &state.panels {
                return Ok(made.clone_ref(py));
            }
            (Arc::clone(&state.core), state.recipe.clone(), state.age)
        };
        let panels = py.detach(|| core.panels()).map_err(Refusal::from)?;
        let set = Arc::new(Set { panels, recipe });
        let dict = PyDict::new(py);
        for panel in Panel::of(&set) {
            let name = panel.label().to_owned();
            dict.set_item(name, Py::new(py, panel)?)?;
        }
        let made = Made { set, mapping: PyMappingProxy::new(py, dict.as_mapping()).unbind() };
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

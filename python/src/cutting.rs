//! What `Assembly.cut` is told: the tool, the fit, what must be left, and the relief.

use dryfit_core::bounds::WEB;
use dryfit_core::{Failure, Nm, Panel, Parts};
use pyo3::prelude::*;

use crate::cutter::Cutter;
use crate::door::{self, Maybe};
use crate::fit::Fit;
use crate::record::{Given, Named};
use crate::relief::Relief;

/// How panels are cut; what was left out is none.
pub(crate) struct Cutting {
    cutter: Cutter,
    fit: Option<Fit>,
    web: Option<Nm>,
    relief: Option<Relief>,
}

impl Cutting {
    pub(crate) fn read(cutter: &Bound<'_, PyAny>, fit: Maybe<'_, '_>, web: Maybe<'_, '_>, relief: Maybe<'_, '_>) -> PyResult<Cutting> {
        Ok(Cutting {
            cutter: *door::own::<Cutter>(cutter, "cutter")?.get(),
            fit: door::maybe_own::<Fit>(fit, "fit")?.map(|fit| *fit.get()),
            web: door::maybe_length(web, &WEB, "web")?,
            relief: door::maybe_own::<Relief>(relief, "relief")?.map(|relief| *relief.get()),
        })
    }

    /// The same by the names of the parameters.
    pub(crate) fn named(&self) -> Named {
        let named = Named::default().with("cutter", Given::Cutter(self.cutter)).may("fit", self.fit.map(Given::Fit));
        named.may("web", self.web.map(Given::Length)).may("relief", self.relief.map(Given::Relief))
    }

    /// The parts.
    pub(crate) fn cut(&self, panels: &[Panel]) -> Result<Parts, Failure> {
        let parts = Parts::cut(panels, self.cutter.core, self.fit.unwrap_or_default().core, self.web.unwrap_or(Nm::ZERO))?;
        match self.relief {
            Some(relief) => parts.relieve(relief.core),
            None => Ok(parts),
        }
    }
}

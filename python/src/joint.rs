//! A joint of any kind, as it comes in.

use dryfit_core::Joint;
use pyo3::prelude::*;

use crate::door;
use crate::fingers::Fingers;
use crate::halves::Halves;
use crate::tabs::Tabs;
use crate::tails::Tails;

/// A joint of any kind.
pub(crate) fn joint(spec: &Bound<'_, PyAny>) -> PyResult<Joint> {
    if let Ok(fingers) = spec.cast::<Fingers>() {
        Ok(fingers.get().core().into())
    } else if let Ok(tabs) = spec.cast::<Tabs>() {
        Ok(tabs.get().core().into())
    } else if let Ok(halves) = spec.cast::<Halves>() {
        Ok(halves.get().core().into())
    } else if let Ok(tails) = spec.cast::<Tails>() {
        Ok(tails.get().core().into())
    } else {
        Err(door::wrong(spec, "spec", "Fingers, Tabs, Halves or Tails").into())
    }
}

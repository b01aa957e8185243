//! A joint of any kind, as it comes in.

use dryfit_core::Joint;
use pyo3::prelude::*;

use crate::door;
use crate::fingers::Fingers;
use crate::halves::Halves;
use crate::tabs::Tabs;
use crate::tails::Tails;

/// A joint of any kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Spec {
    Fingers(Fingers),
    Tabs(Tabs),
    Halves(Halves),
    Tails(Tails),
}

impl Spec {
    pub(crate) fn from_python(spec: &Bound<'_, PyAny>) -> PyResult<Spec> {
        if let Ok(fingers) = spec.cast::<Fingers>() {
            Ok(Spec::Fingers(*fingers.get()))
        } else if let Ok(tabs) = spec.cast::<Tabs>() {
            Ok(Spec::Tabs(*tabs.get()))
        } else if let Ok(halves) = spec.cast::<Halves>() {
            Ok(Spec::Halves(*halves.get()))
        } else if let Ok(tails) = spec.cast::<Tails>() {
            Ok(Spec::Tails(*tails.get()))
        } else {
            Err(door::wrong(spec, "spec", "Fingers, Tabs, Halves or Tails").into())
        }
    }

    pub(crate) fn core(&self) -> Joint {
        match self {
            Spec::Fingers(fingers) => fingers.core().into(),
            Spec::Tabs(tabs) => tabs.core().into(),
            Spec::Halves(halves) => halves.core().into(),
            Spec::Tails(tails) => tails.core().into(),
        }
    }
}

//! What `box` and `boxes` are asked for: a size, inside or outside, and the options.

use dryfit_core::bounds::{DIVIDERS, FEET, FINGER_WIDTH, LID_CLEARANCE, SIZE};
use dryfit_core::{BoxSpec, Code, Fingers, Nm, Top};
use pyo3::prelude::*;

use crate::door::{self, Maybe};
use crate::record::{Given, Named};
use crate::refusal::Refusal;

/// The words for what closes a box.
const TOPS: [(&str, Top); 4] = [("closed", Top::Closed), ("open", Top::Open), ("lift-off", Top::lift_off()), ("sliding", Top::sliding())];

/// A size and its name, and how a box begins that has it.
pub(crate) type Sized<'a, 'py> = (&'a Bound<'py, PyAny>, &'static str, fn([Nm; 3], Nm) -> BoxSpec);

/// Which of the two sizes was given.
pub(crate) fn size<'a, 'py>(outside: Maybe<'a, 'py>, inside: Maybe<'a, 'py>) -> PyResult<Sized<'a, 'py>> {
    let code = match (door::given(outside), door::given(inside)) {
        (Some(size), None) => return Ok((size, "outside", BoxSpec::outside)),
        (None, Some(size)) => return Ok((size, "inside", BoxSpec::inside)),
        (Some(_), Some(_)) => Code::UnknownKey,
        (None, None) => Code::MissingKey,
    };
    Err(Refusal::new(code, "outside, inside", "give one of the two").into())
}

/// All else about a box, as it came in.
pub(crate) struct Options<'a, 'py> {
    pub(crate) top: Maybe<'a, 'py>,
    pub(crate) finger_width: Maybe<'a, 'py>,
    pub(crate) dividers: Maybe<'a, 'py>,
    pub(crate) dividers_in_base: Maybe<'a, 'py>,
    pub(crate) lid_clearance: Maybe<'a, 'py>,
    pub(crate) shelves: Maybe<'a, 'py>,
    pub(crate) feet: Maybe<'a, 'py>,
}

impl Options<'_, '_> {
    /// Sets what was given, and says it again by the names of the parameters.
    pub(crate) fn read(self, spec: &mut BoxSpec) -> PyResult<Named> {
        let mut named = Named::default();
        if let Some(top) = door::given(self.top) {
            let (word, top) = door::word(top, &TOPS, "top")?;
            spec.top = top;
            named = named.with("top", Given::Word(word));
        }
        if let Some(wanted) = door::maybe_length(self.lid_clearance, &LID_CLEARANCE, "lid_clearance")? {
            match &mut spec.top {
                Top::LiftOff { clearance } | Top::Sliding { clearance } => *clearance = wanted,
                Top::Open | Top::Closed => {
                    let said = "given without a lid, allowed with top=\"lift-off\" or top=\"sliding\"";
                    return Err(Refusal::new(Code::UnknownKey, "lid_clearance", said).into());
                }
            }
            named = named.with("lid_clearance", Given::Length(wanted));
        }
        if let Some(width) = door::maybe_length(self.finger_width, &FINGER_WIDTH, "finger_width")? {
            spec.fingers = Some(Fingers::width(width));
            named = named.with("finger_width", Given::Length(width));
        }
        if let Some(dividers) = door::given(self.dividers) {
            let [x, y]: [_; 2] = door::tuple(dividers, "dividers")?;
            spec.dividers = [door::count(&x, &DIVIDERS, "dividers[0]")?, door::count(&y, &DIVIDERS, "dividers[1]")?];
            named = named.with("dividers", Given::Counts(spec.dividers.to_vec()));
        }
        if let Some(flag) = door::given(self.dividers_in_base) {
            spec.into_base = door::flag(flag, "dividers_in_base")?;
            named = named.with("dividers_in_base", Given::Flag(spec.into_base));
        }
        if let Some(shelves) = door::given(self.shelves) {
            spec.shelves = door::list(shelves, &SIZE, "shelves")?;
            named = named.with("shelves", Given::Lengths(spec.shelves.clone()));
        }
        spec.feet = door::maybe_length(self.feet, &FEET, "feet")?;
        Ok(named.may("feet", spec.feet.map(Given::Length)))
    }
}

//! `box`: closed and open boxes and boxes with lids; dividers, shelves and feet.

use dryfit_core::bounds::{DIVIDERS, FEET, FINGER_WIDTH, LID_CLEARANCE, SIZE};
use dryfit_core::{BoxSpec, Code, Top};
use pyo3::prelude::*;

use crate::assembly::Assembly;
use crate::door;
use crate::record::{Given, Named};
use crate::refusal::Refusal;
use crate::stock::Stock;

fn given(value: &&Bound<'_, PyAny>) -> bool {
    !value.is_none()
}

/// The words for what closes a box.
pub(crate) const TOPS: [(&str, Top); 4] = [("closed", Top::Closed), ("open", Top::Open), ("lift-off", Top::lift_off()), ("sliding", Top::sliding())];

/// A box of one board, ``stock``, as an assembly of the panels front, back, left, right, base and top or lid, then dividers, shelves and feet.
///
/// Give ``outside`` or ``inside``, the sizes along x (front), y (depth) and z (height), in mm or strings with a unit. The outside
/// includes lid and feet. ``finger_width`` is about how wide fingers get, three boards if left out. ``dividers`` is (across x, across y): so many
/// dividers split the width and the depth into equal spaces. They are tabbed into the walls, halved where they cross, and with
/// ``dividers_in_base`` tabbed into the base too.
///
/// ``top`` is one of
///
/// - "closed" (if left out): a panel joined to all walls;
/// - "open";
/// - "lift-off": a panel ``lid`` that lies on the rim, kept in its place by two battens that are tabbed up through it;
/// - "sliding": a panel ``lid`` that slides in over the front, between runners below and kickers above it, with a pull to move it by.
///
/// ``lid_clearance`` is the gap between the walls and what moves between them, 0.2 mm if left out. Nominal panels have it too; what
/// ``Fit`` adds comes on top at the joints only. Lid and battens, and lid and pull, hold each other as any tabs do.
///
/// ``shelves`` are captive: tabbed through all four walls, so none comes out before a wall does. Give how far the underside of each stands
/// above the base, from the lowest up. ``feet`` is the height of four boards under the base, halved where they cross and tabbed up through
/// it.
///
/// Raises a ``DryfitError``: a size or count out of range, walls thicker than the box, dividers without space, shelves too near to each
/// other, base or top; ``NotAvailable`` for shelves or feet with dividers in their way.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
/// >>> list(box(outside=(230, 160, 48), stock=stock, top="open", dividers=(2, 1)).panels)
/// ['front', 'back', 'left', 'right', 'base', 'divider-x1', 'divider-x2', 'divider-y1']
/// >>> chest = box(inside=(150, 90, 70), stock=stock, top="lift-off", lid_clearance=0.3, shelves=[30], feet=12)
/// >>> chest.order()[-1]
/// <dryfit.Step: 'lid' moves -z, with 'batten-left', 'batten-right'>
#[pyfunction]
#[pyo3(signature = (*, stock, outside = None, inside = None, top = None, finger_width = None, dividers = None, dividers_in_base = None, lid_clearance = None, shelves = None, feet = None))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn r#box(
    py: Python<'_>,
    stock: &Bound<'_, PyAny>,
    outside: Option<&Bound<'_, PyAny>>,
    inside: Option<&Bound<'_, PyAny>>,
    top: Option<&Bound<'_, PyAny>>,
    finger_width: Option<&Bound<'_, PyAny>>,
    dividers: Option<&Bound<'_, PyAny>>,
    dividers_in_base: Option<&Bound<'_, PyAny>>,
    lid_clearance: Option<&Bound<'_, PyAny>>,
    shelves: Option<&Bound<'_, PyAny>>,
    feet: Option<&Bound<'_, PyAny>>,
) -> PyResult<Assembly> {
    let stock = Stock::from_python(stock, "stock")?;
    let mut named = Named::default();
    let mut spec = match (outside.filter(given), inside.filter(given)) {
        (Some(outside), None) => {
            let size = door::lengths(outside, &SIZE, "outside")?;
            named = named.with("outside", Given::Lengths(size.to_vec()));
            BoxSpec::outside(size, stock.core.thickness())
        }
        (None, Some(inside)) => {
            let size = door::lengths(inside, &SIZE, "inside")?;
            named = named.with("inside", Given::Lengths(size.to_vec()));
            BoxSpec::inside(size, stock.core.thickness())
        }
        (Some(_), Some(_)) => return Err(Refusal::new(Code::UnknownKey, "outside, inside", "give one of the two").into()),
        (None, None) => return Err(Refusal::new(Code::MissingKey, "outside, inside", "give one of the two").into()),
    };
    if let Some(top) = top.filter(given) {
        let (word, top) = door::word(top, &TOPS, "top")?;
        spec.top = top;
        named = named.with("top", Given::Word(word));
    }
    if let Some(wanted) = door::maybe_length(lid_clearance, &LID_CLEARANCE, "lid_clearance")? {
        named = named.with("lid_clearance", Given::Length(wanted));
        match &mut spec.top {
            Top::LiftOff { clearance } | Top::Sliding { clearance } => *clearance = wanted,
            Top::Open | Top::Closed => {
                let said = "given without a lid, allowed with top=\"lift-off\" or top=\"sliding\"";
                return Err(Refusal::new(Code::UnknownKey, "lid_clearance", said).into());
            }
        }
    }
    if let Some(width) = door::maybe_length(finger_width, &FINGER_WIDTH, "finger_width")? {
        spec.fingers = Some(dryfit_core::Fingers::width(width));
        named = named.with("finger_width", Given::Length(width));
    }
    if let Some(dividers) = dividers.filter(given) {
        let [x, y]: [_; 2] = door::tuple(dividers, "dividers")?;
        spec.dividers = [door::count(&x, &DIVIDERS, "dividers[0]")?, door::count(&y, &DIVIDERS, "dividers[1]")?];
        named = named.with("dividers", Given::Counts(spec.dividers.to_vec()));
    }
    if let Some(flag) = dividers_in_base.filter(given) {
        spec.into_base = door::flag(flag, "dividers_in_base")?;
        named = named.with("dividers_in_base", Given::Flag(spec.into_base));
    }
    if let Some(shelves) = shelves.filter(given) {
        spec.shelves = door::list(shelves, &SIZE, "shelves")?;
        named = named.with("shelves", Given::Lengths(spec.shelves.clone()));
    }
    spec.feet = door::maybe_length(feet, &FEET, "feet")?;
    named = named.may("feet", spec.feet.map(Given::Length));
    let core = py.detach(|| spec.assembly()).map_err(Refusal::from)?;
    Ok(Assembly::of(core, stock, "box", named))
}

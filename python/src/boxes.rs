//! `box`: closed and open boxes, with or without dividers.

use dryfit_core::bounds::{DIVIDERS, FINGER_WIDTH, SIZE};
use dryfit_core::{BoxSpec, Code, Top};
use pyo3::prelude::*;

use crate::assembly::Assembly;
use crate::door;
use crate::refusal::Refusal;
use crate::stock::Stock;

/// A box of one board, as an assembly of the panels front, back, left, right, base and (if closed) top, then the dividers.
///
/// Give ``outside`` or ``inside``, the sizes along x (front), y (depth) and z (height), in mm or strings with a unit. ``top`` is "closed"
/// or "open". ``finger_width`` is about how wide fingers get, three boards if left out. ``dividers`` is (across x, across y): so many
/// dividers split the width and the depth into equal spaces. They are tabbed into the walls, halved where they cross, and with
/// ``dividers_in_base`` tabbed into the base too.
///
/// Raises a ``DryfitError``: a size or count out of range, walls thicker than the box, dividers without space.
///
/// >>> stock = Stock(thickness=2.5, sheet=(500, 350), border=8)
/// >>> list(box(outside=(230, 160, 48), stock=stock, top="open", dividers=(2, 1)).panels)
/// ['front', 'back', 'left', 'right', 'base', 'divider-x1', 'divider-x2', 'divider-y1']
#[pyfunction]
#[pyo3(signature = (*, stock, outside = None, inside = None, top = None, finger_width = None, dividers = None, dividers_in_base = None))]
pub(crate) fn r#box(
    stock: &Bound<'_, PyAny>,
    outside: Option<&Bound<'_, PyAny>>,
    inside: Option<&Bound<'_, PyAny>>,
    top: Option<&Bound<'_, PyAny>>,
    finger_width: Option<&Bound<'_, PyAny>>,
    dividers: Option<&Bound<'_, PyAny>>,
    dividers_in_base: Option<&Bound<'_, PyAny>>,
) -> PyResult<Assembly> {
    let stock = Stock::from_python(stock, "stock")?;
    let mut spec = match (outside, inside) {
        (Some(outside), None) => BoxSpec::outside(door::lengths(outside, &SIZE, "outside")?, stock.core.thickness()),
        (None, Some(inside)) => BoxSpec::inside(door::lengths(inside, &SIZE, "inside")?, stock.core.thickness()),
        (Some(_), Some(_)) => return Err(Refusal::new(Code::UnknownKey, "outside, inside", "give one of the two").into()),
        (None, None) => return Err(Refusal::new(Code::MissingKey, "outside, inside", "give one of the two").into()),
    };
    if let Some(top) = top {
        spec.top = door::choice(top, &[("closed", Top::Closed), ("open", Top::Open)], "top")?;
    }
    if let Some(width) = door::maybe_length(finger_width, &FINGER_WIDTH, "finger_width")? {
        spec.fingers = Some(dryfit_core::Fingers::width(width));
    }
    if let Some(dividers) = dividers {
        let [x, y]: [_; 2] = door::tuple(dividers, "dividers")?;
        spec.dividers = [door::count(&x, &DIVIDERS, "dividers[0]")?, door::count(&y, &DIVIDERS, "dividers[1]")?];
    }
    if let Some(flag) = dividers_in_base {
        spec.into_base = door::flag(flag, "dividers_in_base")?;
    }
    let core = spec.assembly().map_err(Refusal::from)?;
    Ok(Assembly::of(core, stock))
}

//! `prism`: boxes with three to twelve equal sides.

use dryfit_core::bounds::{FINGER_WIDTH, SIDES, SIZE};
use dryfit_core::{Code, Fingers, PrismSpec};
use pyo3::prelude::*;

use crate::assembly::Assembly;
use crate::door;
use crate::record::{Given, Named};
use crate::refusal::Refusal;
use crate::stock::Stock;

const TOPS: [(&str, bool); 2] = [("closed", true), ("open", false)];

/// A box of ``stock`` with as many equal ``sides`` as said, three to twelve, as an assembly of "side-1" (the front), "side-2" and so on anticlockwise, "base" and "top".
///
/// Give one of ``outside``, the length of a side on the outside; ``across_flats``, how far apart opposite sides lie on the outside (for an
/// even number of sides); or ``across_corners``, the diameter of the circle through the outer corners. ``height`` is that of the whole, all
/// in mm or strings with a unit. ``top`` is "open" (if left out) or "closed"; ``finger_width`` is about how wide fingers get, three boards
/// if left out.
///
/// All sides are alike, and the base has fingers along every side. At corners that are not square a straight-down cut cannot fill the
/// joint: the fingers reach the outer corner line (or stay inside the next side's face at sharp corners), and a wedge stays open beside
/// each. ``dry_fit().void_volume`` states it.
///
/// Raises a ``DryfitError``: sides, a size or a finger out of range, a side too short for its shoulders.
///
/// >>> pot = prism(sides=6, outside=60, height=50, stock=Stock(thickness=3, sheet=(500, 350)))
/// >>> list(pot.panels)
/// ['side-1', 'side-2', 'side-3', 'side-4', 'side-5', 'side-6', 'base']
/// >>> report = pot.dry_fit()
/// >>> report.ok, report.void_volume > 0
/// (True, True)
#[pyfunction]
#[pyo3(signature = (*, sides, height, stock, outside = None, across_flats = None, across_corners = None, top = None, finger_width = None))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn prism(
    py: Python<'_>,
    sides: &Bound<'_, PyAny>,
    height: &Bound<'_, PyAny>,
    stock: &Bound<'_, PyAny>,
    outside: Option<&Bound<'_, PyAny>>,
    across_flats: Option<&Bound<'_, PyAny>>,
    across_corners: Option<&Bound<'_, PyAny>>,
    top: Option<&Bound<'_, PyAny>>,
    finger_width: Option<&Bound<'_, PyAny>>,
) -> PyResult<Assembly> {
    let stock = Stock::from_python(stock, "stock")?;
    let sides = door::count(sides, &SIDES, "sides")?;
    let height = door::length(height, &SIZE, "height")?;
    let size = |value, name| door::maybe_length(value, &SIZE, name);
    let (outside, flats, corners) = (size(outside, "outside")?, size(across_flats, "across_flats")?, size(across_corners, "across_corners")?);
    let mut named = Named::default().with("sides", Given::Count(sides)).with("height", Given::Length(height));
    named = named.may("outside", outside.map(Given::Length)).may("across_flats", flats.map(Given::Length));
    named = named.may("across_corners", corners.map(Given::Length));
    let side = match (outside, flats, corners) {
        (Some(side), None, None) => Ok(side),
        (None, Some(across), None) => PrismSpec::side_across_flats(sides, across),
        (None, None, Some(across)) => PrismSpec::side_across_corners(sides, across),
        (None, None, None) => return Err(Refusal::new(Code::MissingKey, KEYS, "give one of the three").into()),
        _ => return Err(Refusal::new(Code::UnknownKey, KEYS, "give one of the three").into()),
    };
    let mut spec = PrismSpec::new(sides, side.map_err(Refusal::from)?, height, stock.core.thickness());
    if let Some(top) = door::given(top) {
        let (word, closed) = door::word(top, &TOPS, "top")?;
        spec.closed = closed;
        named = named.with("top", Given::Word(word));
    }
    if let Some(width) = door::maybe_length(finger_width, &FINGER_WIDTH, "finger_width")? {
        spec.fingers = Some(Fingers::width(width));
        named = named.with("finger_width", Given::Length(width));
    }
    let core = py.detach(|| spec.assembly()).map_err(Refusal::from)?;
    Ok(Assembly::of(core, stock, "prism", named))
}

const KEYS: &str = "outside, across_flats, across_corners";

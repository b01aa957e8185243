//! `box`: closed and open boxes and boxes with lids; dividers, shelves and feet.

use dryfit_core::bounds::SIZE;
use pyo3::prelude::*;

use crate::assembly::Assembly;
use crate::box_options::{self, Options};
use crate::door::{self, Maybe};
use crate::record::Given;
use crate::refusal::Refusal;
use crate::stock::Stock;

/// A box of one board, ``stock``, as an assembly of the panels front, back, left, right, base and top or lid, then dividers, shelves and feet.
///
/// Give ``outside`` or ``inside``, the sizes along x (front), y (depth) and z (height), in mm or strings with a unit. The outside
/// includes lid and feet. ``finger_width`` is about how wide fingers get, three boards if left out. An edge that is no longer than two of
/// them between the walls is one finger: plain, and held by glue alone; ask for narrower ones there. ``dividers`` is (across x, across y):
/// so many dividers split the width and the depth into equal spaces. They are tabbed into the walls, halved where they cross, and with
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
#[allow(clippy::too_many_arguments, reason = "named in Python")]
pub(crate) fn r#box(
    py: Python<'_>,
    stock: &Bound<'_, PyAny>,
    outside: Maybe<'_, '_>,
    inside: Maybe<'_, '_>,
    top: Maybe<'_, '_>,
    finger_width: Maybe<'_, '_>,
    dividers: Maybe<'_, '_>,
    dividers_in_base: Maybe<'_, '_>,
    lid_clearance: Maybe<'_, '_>,
    shelves: Maybe<'_, '_>,
    feet: Maybe<'_, '_>,
) -> PyResult<Assembly> {
    let stock = Stock::from_python(stock, "stock")?;
    let (given, name, begin) = box_options::size(outside, inside)?;
    let size = door::lengths(given, &SIZE, name)?;
    let mut spec = begin(size, stock.core.thickness());
    let options = Options { top, finger_width, dividers, dividers_in_base, lid_clearance, shelves, feet };
    let named = options.read(&mut spec)?.with(name, Given::Lengths(size.to_vec()));
    let core = py.detach(|| spec.assembly()).map_err(Refusal::from)?;
    Ok(Assembly::of(core, stock, "box", named))
}

//! `splice` and `ring`: boards of one plane joined by tails.

use dryfit_core::bounds::{DEPTH, PIECES, SIZE};
use dryfit_core::{Nm, RingSpec, SpliceSpec};
use pyo3::prelude::*;

use crate::assembly::Assembly;
use crate::door;
use crate::joint::Spec;
use crate::record::{Given, Named};
use crate::refusal::Refusal;
use crate::stock::Stock;
use crate::tails::Tails;

/// A long board out of pieces of ``stock``, all of one length, spliced end to end: an assembly of "piece-1", "piece-2" and so on.
///
/// ``length`` and ``width`` are those of the whole board, in mm or strings with a unit; ``joint`` is ``Tails``. ``pieces`` is how many;
/// left out it is the least number, two or more, that fits the longer side of the stock's sheet inside its border. ``depth`` is how deep
/// the pieces reach into each other; left out the tails are as long as they are wide, and at least as long as the board is thick.
///
/// Raises a ``DryfitError``: a size or depth out of range, tails that do not fit.
///
/// >>> stock = Stock(thickness=3, sheet=(500, 350), border=8)
/// >>> board = splice(length=1200, width=90, stock=stock, joint=Tails(count=2, slope=8))
/// >>> list(board.panels), board.dry_fit().ok
/// (['piece-1', 'piece-2', 'piece-3'], True)
#[pyfunction]
#[pyo3(signature = (*, length, width, stock, joint, pieces = None, depth = None))]
pub(crate) fn splice(
    py: Python<'_>,
    length: &Bound<'_, PyAny>,
    width: &Bound<'_, PyAny>,
    stock: &Bound<'_, PyAny>,
    joint: &Bound<'_, PyAny>,
    pieces: Option<&Bound<'_, PyAny>>,
    depth: Option<&Bound<'_, PyAny>>,
) -> PyResult<Assembly> {
    let size = [door::length(length, &SIZE, "length")?, door::length(width, &SIZE, "width")?];
    let (stock, tails) = (Stock::from_python(stock, "stock")?, Tails::from_python(joint, "joint")?);
    let mut spec = SpliceSpec::new(size, stock.core.thickness(), tails.core());
    let pieces = door::given(pieces).map(|pieces| door::count(pieces, &PIECES, "pieces")).transpose()?;
    spec = match pieces {
        Some(pieces) => spec.pieces(pieces),
        None => spec.longest(longest(&stock)),
    };
    let depth = door::maybe_length(depth, &DEPTH, "depth")?;
    spec = depth.map_or(spec, |depth| spec.depth(depth));
    let named = Named::default().with("length", Given::Length(size[0])).with("width", Given::Length(size[1]));
    let named = named.with("joint", Given::Joint(Spec::Tails(tails))).may("pieces", pieces.map(Given::Count)).may("depth", depth.map(Given::Length));
    Ok(Assembly::of(py.detach(|| spec.assembly()).map_err(Refusal::from)?, stock, "splice", named))
}

/// The longer side of a sheet inside its border.
fn longest(stock: &Stock) -> Nm {
    let [width, height] = stock.core.inside();
    width.max(height)
}

/// A rectangular ring of ``stock`` out of two stiles, "left" and "right", and two rails, "bottom" and "top", let into them with tails.
///
/// ``outside`` is its size along x and y, ``width`` that of rails and stiles, in mm or strings with a unit; ``joint`` is ``Tails``, which
/// belong to the rails. ``depth`` is how deep they reach into the stiles, half the width if left out.
///
/// Raises a ``DryfitError``: a size or depth out of range, tails that do not fit.
///
/// >>> frame = ring(outside=(400, 300), width=40, stock=Stock(thickness=3, sheet=(500, 350)), joint=Tails(count=1, slope=6))
/// >>> list(frame.panels), frame.dry_fit().ok
/// (['left', 'right', 'bottom', 'top'], True)
#[pyfunction]
#[pyo3(signature = (*, outside, width, stock, joint, depth = None))]
pub(crate) fn ring(
    py: Python<'_>,
    outside: &Bound<'_, PyAny>,
    width: &Bound<'_, PyAny>,
    stock: &Bound<'_, PyAny>,
    joint: &Bound<'_, PyAny>,
    depth: Option<&Bound<'_, PyAny>>,
) -> PyResult<Assembly> {
    let (outside, width) = (door::lengths(outside, &SIZE, "outside")?, door::length(width, &SIZE, "width")?);
    let (stock, tails) = (Stock::from_python(stock, "stock")?, Tails::from_python(joint, "joint")?);
    let (spec, depth) = (RingSpec::new(outside, width, stock.core.thickness(), tails.core()), door::maybe_length(depth, &DEPTH, "depth")?);
    let spec = depth.map_or(spec, |depth| spec.depth(depth));
    let named = Named::default().with("outside", Given::Lengths(outside.to_vec())).with("width", Given::Length(width));
    let named = named.with("joint", Given::Joint(Spec::Tails(tails))).may("depth", depth.map(Given::Length));
    Ok(Assembly::of(py.detach(|| spec.assembly()).map_err(Refusal::from)?, stock, "ring", named))
}

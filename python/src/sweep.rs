//! `boxes`: what thousands of boxes come to, in arrays.

use std::ffi::CString;

use dryfit_core::bounds::{KERF, SIZE, THICKNESS};
use dryfit_core::{Code, Nm};
use pyo3::exceptions::PyKeyboardInterrupt;
use pyo3::prelude::*;

use crate::box_options::{self, Options};
use crate::boxes_of::{Boxes, COLUMNS};
use crate::column::{Column, Given};
use crate::cutter::Cutter;
use crate::door::{self, Maybe};
use crate::estimate::OutsideKnown;
use crate::family::{Family, Row};
use crate::fit::Fit;
use crate::pace::Pace;
use crate::progress::Listener;
use crate::refusal::Refusal;
use crate::stock::Stock;
use crate::table::Table;

/// What many boxes come to: one row a box, each as ``box(...).cut(...).lay_out(...)`` would make it.
///
/// ``outside`` or ``inside`` are the sizes, an array of shape (..., 3); ``thickness`` is that of the boards (that of ``stock`` if left out) and
/// ``kerf`` the full width of the cut (0, or that of a ``cutter``), each a number of mm, a string with a unit, or an array. What comes before
/// the 3 of the sizes broadcasts together with the other arrays as numpy has it; that is the shape of the result. Arrays are copied first.
///
/// ``fit``, ``top``, ``finger_width``, ``dividers``, ``dividers_in_base``, ``lid_clearance``, ``shelves`` and ``feet`` are as for ``box`` and
/// ``Assembly.cut``, the same for all.
/// ``real_thickness`` and ``real_kerf`` say what board and cut turn out to be: they change ``gap_min`` and ``gap_max`` alone, as ``gaps`` has it,
/// over those kinds of contact that the box has.
///
/// The parts of each box are laid out on sheets of ``stock`` by themselves, unless ``lay_out`` is False: then ``sheets`` is None, and plain boxes
/// take some microseconds each. With a ``pace`` each layout has its ``minutes``; where any lies outside the known jobs, ``OutsideKnown``
/// warns. ``progress`` is as for ``Parts.lay_out``; where a function returns False, the sweep ends with ``KeyboardInterrupt``, as by Ctrl-C.
///
/// What is wrong with one box is the ``code`` of its row (``NoSheetLeft`` where the stock's ``count`` of sheets is too small).
///
/// Raises, for what is wrong with an argument, ``OutOfRange``, ``NotFinite`` or ``NotALength`` with the place in the array (``outside[17][2]``),
/// ``WrongType``, ``MissingKey`` or ``UnknownKey``.
///
/// >>> stock = Stock(thickness=3, sheet=(500, 350), border=8)
/// >>> family = boxes(stock=stock, outside=[(110, 85, 60), (400, 300, 200), (110, 85, 4)], kerf=0.2)
/// >>> family.sheets.tolist(), family.code.tolist()
/// ([1, 5, 0], [0, 0, 307])
/// >>> DryfitError.__subclasses__()[[error.code for error in DryfitError.__subclasses__()].index(307)].__name__
/// 'ThickerThanBox'
/// >>> import numpy as np
/// >>> spread = boxes(stock=stock, outside=(110, 85, 60), kerf=0.2, real_kerf=np.linspace(0.15, 0.25, 3), lay_out=False)
/// >>> spread.gap_min.tolist(), spread.gap_max.tolist(), spread.sheets is None
/// ([-0.05, 0.0, 0.025], [-0.025, 0.0, 0.05], True)
#[pyfunction]
#[pyo3(
    name = "boxes",
    signature = (*, stock, outside = None, inside = None, thickness = None, kerf = None, cutter = None, fit = None, real_thickness = None, real_kerf = None,
        top = None, finger_width = None, dividers = None, dividers_in_base = None, lid_clearance = None, shelves = None, feet = None,
        lay_out = None, pace = None, progress = None)
)]
#[allow(clippy::too_many_arguments, reason = "named in Python")]
pub(crate) fn sweep_boxes(
    py: Python<'_>,
    stock: &Bound<'_, PyAny>,
    outside: Maybe<'_, '_>,
    inside: Maybe<'_, '_>,
    thickness: Maybe<'_, '_>,
    kerf: Maybe<'_, '_>,
    cutter: Maybe<'_, '_>,
    fit: Maybe<'_, '_>,
    real_thickness: Maybe<'_, '_>,
    real_kerf: Maybe<'_, '_>,
    top: Maybe<'_, '_>,
    finger_width: Maybe<'_, '_>,
    dividers: Maybe<'_, '_>,
    dividers_in_base: Maybe<'_, '_>,
    lid_clearance: Maybe<'_, '_>,
    shelves: Maybe<'_, '_>,
    feet: Maybe<'_, '_>,
    lay_out: Maybe<'_, '_>,
    pace: Maybe<'_, '_>,
    progress: Maybe<'_, '_>,
) -> PyResult<Boxes> {
    let stock = Stock::from_python(stock, "stock")?.core;
    let (given, name, begin) = box_options::size(outside, inside)?;
    let size = Given::read(given, SIZE, name)?.of_three()?;
    let (thickness, real_thickness) = (Given::maybe(thickness, THICKNESS, "thickness")?, Given::maybe(real_thickness, THICKNESS, "real_thickness")?);
    let (kerf, real_kerf) = (Given::maybe(kerf, KERF, "kerf")?, Given::maybe(real_kerf, KERF, "real_kerf")?);
    let kerf = match (kerf, door::maybe_own::<Cutter>(cutter, "cutter")?) {
        (Some(_), Some(_)) => return Err(Refusal::new(Code::UnknownKey, "kerf, cutter", "give one of the two").into()),
        (kerf, None) => kerf.unwrap_or_else(|| Given::one(Nm::ZERO, "kerf")),
        (None, Some(cutter)) => Given::one(cutter.get().core.kerf(), "cutter"),
    };
    let fit = door::maybe_own::<Fit>(fit, "fit")?.map_or(dryfit_core::Fit::EXACT, |fit| fit.get().core);
    let mut like = begin([stock.thickness(); 3], stock.thickness());
    Options { top, finger_width, dividers, dividers_in_base, lid_clearance, shelves, feet }.read(&mut like)?;
    let lay_out = door::given(lay_out).map_or(Ok(true), |flag| door::flag(flag, "lay_out"))?;
    let pace = door::maybe_own::<Pace>(pace, "pace")?;
    if pace.is_some() && !lay_out {
        return Err(Refusal::new(Code::UnknownKey, "pace", "given with lay_out=False, allowed with a layout").into());
    }
    let pace = pace.map(|pace| pace.get().core.clone());
    let asked = [lay_out, pace.is_some()];
    let mut listener = Listener::new(None, progress, "boxes")?;
    let (family, rows) = py.detach(|| -> Result<_, Refusal> {
        let thickness = thickness.map_or_else(|| Ok(Column::one(stock.thickness())), Given::column)?;
        let (size, kerf) = (size.column()?, kerf.column()?);
        let real_thickness = real_thickness.map_or_else(|| Ok(thickness.clone()), Given::column)?;
        let real_kerf = real_kerf.map_or_else(|| Ok(kerf.clone()), Given::column)?;
        let family = Family { like, fit, stock, lay_out, pace, size, thickness, kerf, real_thickness, real_kerf };
        let rows = family.rows()?;
        Ok((family, rows))
    })?;
    let mut guesses = 0;
    let made = Table::make(py, rows.shape.clone(), COLUMNS.len(), |mut writer| {
        family.run(&rows, &mut listener, |row| {
            guesses += usize::from(row.as_ref().is_ok_and(|row| row.guessed));
            writer.row(Row::values(&row));
        });
        Ok::<(), PyErr>(())
    });
    let stopped = listener.stopped();
    listener.end(py)?;
    if stopped {
        return Err(PyKeyboardInterrupt::new_err("the sweep was stopped"));
    }
    if guesses > 0 {
        let text = format!("{guesses} of the boxes lie outside the known jobs: their minutes are a guess");
        PyErr::warn(py, &py.get_type::<OutsideKnown>(), &CString::new(text)?, 1)?;
    }
    Ok(Boxes::new(made?, asked))
}

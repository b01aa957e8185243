//! Parts on sheets, and the files of a sheet.

use core::ffi::{c_char, c_void};

use alloc::vec::Vec;

use dryfit_core::{
    Code, Cutter, Error, Item, Layout, LayoutSpec, Parts, Piece, Plan, Sheet, Stock, hpgl, plan_svg, sheet_dxf, write_gcode, write_sheet,
};

use super::files::written;
use super::handle::{Kind, free, give, read};
use super::motion::dryfit_motion;
use super::parts::{dryfit_cutter, dryfit_parts};
use super::report::dryfit_report;
use super::stock::{DRYFIT_GRAIN_ANY, dryfit_stock, grain};
use crate::answer::{answer, dryfit_error};
use crate::bare::{Stopping, dryfit_nm, dryfit_point, dryfit_write};
use crate::buffer::{Buffer, Out};
use crate::given::{Given, List, at, beyond, text};
use crate::status::dryfit_status;

/// Parts on as many sheets as they need. It never changes: any number of threads may read it.
pub struct dryfit_layout {
    _kept: [u8; 0],
}

/// What is kept of a layout: the parts come along, so that it needs nobody else.
pub(crate) struct Laid {
    parts: Parts,
    spec: dryfit_layout_spec,
    stocks: Vec<Stock>,
    layout: Layout,
}

impl Kind for dryfit_layout {
    type Kept = Laid;
    const TAG: u64 = u64::from_le_bytes(*b"dflayou1");
}

/// How parts are laid out; all zeros is usual.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_layout_spec {
    /// Where the search starts: the same seed gives the same layout.
    pub seed: u64,
    /// 1 if parts may interlock so that one cut is the edge of two.
    pub share_cuts: u32,
    /// 1 if parts lie as they are drawn; 0 if they may be turned by quarters, as the grain allows.
    pub unturned: u32,
    /// 1 if parts may lie mirrored.
    pub flips: u32,
    /// 1 if the parts of a piece keep to as few sheets as they can.
    pub together: u32,
    /// How the grain runs on the parts as they are drawn: 0 or `DRYFIT_GRAIN_X` along x, else one of `DRYFIT_GRAIN_...`; `DRYFIT_GRAIN_Y` along y. It counts on stock that
    /// has a grain.
    pub grain: u32,
}

/// Is told now and then what is done, 0 to 1. It returns 0 to go on; any other number ends the search, and the best so far is the layout.
pub type dryfit_progress = Option<unsafe extern "C" fn(user: *mut c_void, done: f64) -> i32>;

/// The numbers of a sheet.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_sheet {
    /// What it is cut from.
    pub stock: dryfit_stock,
    /// How many parts lie on it.
    pub placements: usize,
    /// The length of all cuts, what two parts share once.
    pub cut_length: dryfit_nm,
    /// The length that one cut does for two parts.
    pub shared_length: dryfit_nm,
}

/// Where a part lies.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct dryfit_placement {
    /// The number of the part.
    pub part: usize,
    /// Where the lower left corner of the rectangle around it lies on the sheet.
    pub at: dryfit_point,
    /// By how many quarters it is turned counter-clockwise, after it was mirrored: 0 to 3.
    pub quarter_turns: u32,
    /// 1 if it is mirrored.
    pub flipped: u32,
}

impl Laid {
    fn items(&self) -> Result<Vec<Item<'_>>, Error> {
        items(&self.parts, &self.spec)
    }

    fn sheet(&self, number: usize) -> Result<&Sheet, Error> {
        self.layout.sheets.get(number).ok_or_else(|| beyond(self.layout.sheets.len(), number, "sheet"))
    }

    fn plan(&self, number: usize, motion: &dryfit_motion) -> Result<Plan, Error> {
        self.sheet(number)?.plan(&self.items()?, self.cutter(&motion.cutter)?, &motion.core()?)
    }

    /// The tool that is asked for, or that of the parts.
    fn cutter(&self, asked: &dryfit_cutter) -> Result<Cutter, Error> {
        if !asked.is_unstated() {
            return asked.core();
        }
        let mut cutters = self.parts.pieces().iter().map(Piece::cutter);
        let first = cutters.next();
        let one = first.filter(|first| cutters.all(|other| other == *first));
        one.ok_or(Error::bare(Code::MissingKey, "cutter"))
    }
}

fn items<'a>(parts: &'a Parts, spec: &dryfit_layout_spec) -> Result<Vec<Item<'a>>, Error> {
    let grain = Given::all(|given| grain(spec.grain, given))?;
    Ok(Item::of(parts).into_iter().map(|item| if spec.grain == DRYFIT_GRAIN_ANY { item } else { Item { grain, ..item } }).collect())
}

impl dryfit_layout_spec {
    fn core(&self) -> Result<LayoutSpec, Error> {
        Given::all(|given| LayoutSpec {
            share_cuts: given.flag(self.share_cuts, "share cuts"),
            turns: !given.flag(self.unturned, "unturned"),
            flips: given.flag(self.flips, "flips"),
            together: given.flag(self.together, "together"),
            seed: self.seed,
            timed: false,
        })
    }
}

/// Lays parts out on as many sheets as they need. Each goes on sheets of exactly its thickness; stocks are used in the order given.
///
/// `spec` NULL is usual, `progress` may be NULL. Parts for which no sheet was left are told by `dryfit_layout_unplaced`. Errors: 102, 601, 602, 603, 810, 812.
///
/// Ownership: the caller frees `*out` by `dryfit_layout_free`; the parts are not needed any more. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_new(
    parts: *const dryfit_parts,
    stocks: *const dryfit_stock,
    count: usize,
    spec: *const dryfit_layout_spec,
    progress: dryfit_progress,
    user: *mut c_void,
    out: *mut *mut dryfit_layout,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, parts) = (Out::new(out, "out")?, read(parts, "parts")?.clone());
            let stocks = List::new(stocks, count, "stocks")?.map(|stock| stock.core()).collect::<Result<Vec<Stock>, Error>>()?;
            let spec = spec.as_ref().copied().unwrap_or_default();
            let told = &mut |done| progress.is_none_or(|progress| progress(user, done) == 0);
            let layout = spec.core()?.lay_out(&items(&parts, &spec)?, &stocks, told)?;
            out.put(give(Laid { parts, spec, stocks, layout }));
            Ok(())
        })
    }
}

/// Frees a layout and sets `*layout` to NULL. NULL, and a pointer to NULL, are as good.
///
/// Errors: 812.
///
/// Ownership: ends. Threads: nobody uses it any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_free(layout: *mut *mut dryfit_layout) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { answer(core::ptr::null_mut(), || Ok(free(layout, "layout")?)) }
}

/// How many sheets there are.
///
/// Errors: 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_sheets(layout: *const dryfit_layout, out: *mut usize, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let out = Out::new(out, "out")?;
            out.put(read(layout, "layout")?.layout.sheets.len());
            Ok(())
        })
    }
}

/// The numbers of a sheet; they are numbered from 0.
///
/// Errors: 102 for the sheet, 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_sheet(
    layout: *const dryfit_layout,
    number: usize,
    out: *mut dryfit_sheet,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, laid) = (Out::new(out, "out")?, read(layout, "layout")?);
            let (sheet, items) = (laid.sheet(number)?, laid.items()?);
            out.put(dryfit_sheet {
                stock: dryfit_stock::of(&sheet.stock),
                placements: sheet.placements.len(),
                cut_length: sheet.cut_length(&items)?,
                shared_length: sheet.shared_length(&items)?,
            });
            Ok(())
        })
    }
}

/// Where the parts of a sheet lie.
///
/// Errors: 102 for the sheet, 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_placements(
    layout: *const dryfit_layout,
    number: usize,
    out: *mut dryfit_placement,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let placements = &read(layout, "layout")?.sheet(number)?.placements;
            let rows = placements.iter().map(|lies| dryfit_placement {
                part: lies.part,
                at: dryfit_point::of(lies.at),
                quarter_turns: u32::from(lies.quarter_turns),
                flipped: u32::from(lies.flipped),
            });
            Ok(buffer.fill(placements.len(), rows)?)
        })
    }
}

/// The numbers of the parts for which no sheet was left.
///
/// Errors: 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_unplaced(
    layout: *const dryfit_layout,
    out: *mut usize,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let unplaced = &read(layout, "layout")?.layout.unplaced;
            Ok(buffer.fill(unplaced.len(), unplaced.iter().copied())?)
        })
    }
}

/// What is left of the sheets, as stock for the next job.
///
/// Errors: 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_offcuts(
    layout: *const dryfit_layout,
    out: *mut dryfit_stock,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let laid = read(layout, "layout")?;
            let offcuts = laid.layout.offcuts(&laid.items()?)?;
            Ok(buffer.fill(offcuts.len(), offcuts.iter().map(dryfit_stock::of))?)
        })
    }
}

/// Proves a layout: overlaps, borders, gaps, grain, thickness, counts, every part once.
///
/// Errors: 810, 812. What is wrong with the layout is no error but what the report says.
///
/// Ownership: the caller frees `*out` by `dryfit_report_free`. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_check(layout: *const dryfit_layout, out: *mut *mut dryfit_report, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, laid) = (Out::new(out, "out")?, read(layout, "layout")?);
            out.put(give(laid.layout.check(&laid.items()?, &laid.stocks).into()));
            Ok(())
        })
    }
}

/// The SVG of a sheet, one unit being 1 mm: the lines as they are cut, or with `motion` as a tool's axis goes along them. With the cautions.
///
/// Errors: 102, 407 to 409, 803, 806, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_svg(
    layout: *const dryfit_layout,
    number: usize,
    motion: *const dryfit_motion,
    title: *const c_char,
    size: usize,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (laid, title) = (read(layout, "layout")?, text(title, size, "title")?);
            let (sheet, items) = (laid.sheet(number)?, laid.items()?);
            let Some(motion) = motion.as_ref() else {
                return Ok(write_sheet(Stopping::new(write, user)?, sheet, &items, title).map(|_| ())?);
            };
            let plan = laid.plan(number, motion)?;
            written(write, user, || Ok(plan_svg(sheet, &items, &plan, title)?))
        })
    }
}

/// The DXF of a sheet, release 12, one unit being 1 mm: the lines as they are cut, or with `motion` as a tool's axis goes along them. With the cautions.
///
/// Errors: as `dryfit_layout_svg`.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_dxf(
    layout: *const dryfit_layout,
    number: usize,
    motion: *const dryfit_motion,
    title: *const c_char,
    size: usize,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (laid, title) = (read(layout, "layout")?, text(title, size, "title")?);
            let plan = match motion.as_ref() {
                Some(motion) => Some(laid.plan(number, motion)?),
                None => None,
            };
            written(write, user, || Ok(sheet_dxf(laid.sheet(number)?, &laid.items()?, plan.as_ref(), title)?))
        })
    }
}

/// The G-code of a sheet. With the cautions.
///
/// Errors: 102, 407 to 409, 803, 806, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_gcode(
    layout: *const dryfit_layout,
    number: usize,
    motion: *const dryfit_motion,
    title: *const c_char,
    size: usize,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (laid, title) = (read(layout, "layout")?, text(title, size, "title")?);
            let plan = laid.plan(number, at(motion, "motion")?)?;
            Ok(write_gcode(Stopping::new(write, user)?, &plan, title).map(|_| ())?)
        })
    }
}

/// The HP-GL of a sheet. With the cautions. What the format has no word for and the job cannot do without is refused.
///
/// Errors: 102, 407 to 409, 703, 803, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_layout_hpgl(
    layout: *const dryfit_layout,
    number: usize,
    motion: *const dryfit_motion,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let laid = read(layout, "layout")?;
            let plan = laid.plan(number, at(motion, "motion")?)?;
            written(write, user, || Ok(hpgl(&plan)?))
        })
    }
}

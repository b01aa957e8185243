//! Boards, and what becomes of them.

use core::ffi::{c_char, c_void};

use dryfit_core::bounds::{TURN, Unit};
use dryfit_core::{Angle, Assembly, Axis, Board, Error, Failure, Opening, Shape, dry_fit, explode, exploded, order};

use super::files::written;
use super::handle::{Kind, change, free, give, read};
use super::report::dryfit_report;
use crate::answer::{answer, dryfit_error};
use crate::bare::{DRYFIT_DEGREE, dryfit_joint, dryfit_nm, dryfit_point, dryfit_write};
use crate::buffer::{Buffer, Out};
use crate::given::{Given, at, beyond, text};
use crate::status::dryfit_status;

/// Boards and their joints, in the making. To read it, any number of threads may use one at a time; to change or free it, one thread.
pub struct dryfit_assembly {
    _kept: [u8; 0],
}

impl Kind for dryfit_assembly {
    type Kept = Assembly;
    const TAG: u64 = u64::from_le_bytes(*b"dfassem1");
}

/// The x axis.
pub const DRYFIT_AXIS_X: u32 = 0;
/// The y axis.
pub const DRYFIT_AXIS_Y: u32 = 1;
/// The z axis.
pub const DRYFIT_AXIS_Z: u32 = 2;

/// A board: the full slab that it would be if it won every argument.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_board {
    /// The axis square to its faces, one of `DRYFIT_AXIS_...`.
    pub normal: u32,
    /// 1 if it is turned about `turn_axis`, 0 if it stands square.
    pub turned: u32,
    /// Its lowest corner along x, y and z, before it is turned.
    pub at: [dryfit_nm; 3],
    /// Its sizes along the two other axes, in x, y, z order.
    pub size: [dryfit_nm; 2],
    /// Its thickness.
    pub thickness: dryfit_nm,
    /// Turned: the angle, counter-clockwise about the line through the middle of the slab; millionths of a degree, -360 to 360 degrees.
    pub turn: i64,
    /// Turned: the axis along which that line runs.
    pub turn_axis: u32,
}

/// A round hole: `width` is its diameter.
pub const DRYFIT_OPENING_ROUND: u32 = 0;
/// A slot with round ends.
pub const DRYFIT_OPENING_STADIUM: u32 = 1;
/// A rectangle.
pub const DRYFIT_OPENING_RECTANGLE: u32 = 2;

/// A hole in a board.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_opening {
    /// Its middle, from the slab's lowest corner.
    pub centre: dryfit_point,
    /// Its size along the panel's first axis, or its diameter.
    pub width: dryfit_nm,
    /// Its size along the panel's second axis; 0 of a round one.
    pub height: dryfit_nm,
    /// One of `DRYFIT_OPENING_...`.
    pub kind: u32,
}

/// One board's move when a piece is put together.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct dryfit_step {
    /// The number of the board, in the order of adding.
    pub board: usize,
    /// The number of the move; boards of one move go together.
    pub step: usize,
    /// One of `DRYFIT_AXIS_...`: the assembly's axis, or with `own` the panel's own (u, v and w).
    pub axis: u32,
    /// 1 towards higher coordinates, 0 towards lower ones.
    pub upwards: u32,
    /// 1 where the axis is the panel's own.
    pub own: u32,
}

impl dryfit_board {
    /// A board that stands square has no use for a turn.
    fn square(&self, given: &mut Given) {
        given.unused(true, Unit::Count, i64::from(self.turn_axis), "turn axis");
        given.unused(true, Unit::Angle, self.turn, "turn");
    }

    /// The angle: a millionth of a degree is a whole number of the core's steps.
    fn angle(&self, given: &mut Given) -> Angle {
        let degrees = given.within(&TURN, self.turn) as f64 / DRYFIT_DEGREE as f64;
        given.or(Angle::degrees(degrees), Angle::part(0, 1))
    }

    fn add(&self, name: &str, boards: &mut Assembly) -> Result<usize, Failure> {
        let (normal, corner, size, thickness, turn) = Given::all(|given| {
            let [x, y, z] = self.at;
            let corner = [given.length(x, "at x"), given.length(y, "at y"), given.length(z, "at z")];
            let [width, height] = self.size;
            let size = [given.length(width, "size"), given.length(height, "size")];
            let turned = given.flag(self.turned, "turned");
            if !turned {
                self.square(given);
            }
            let turn = turned.then(|| (axis(self.turn_axis, "turn axis", given), self.angle(given)));
            (axis(self.normal, "normal", given), corner, size, given.length(self.thickness, "thickness"), turn)
        })?;
        match turn {
            Some(turn) => boards.add_turned(name, normal, corner, size, thickness, turn),
            None => boards.add(name, normal, corner, size, thickness),
        }
    }
}

fn axis(number: u32, name: &'static str, given: &mut Given) -> Axis {
    given.one_of(&Axis::ALL, Axis::X, number, name)
}

impl dryfit_opening {
    fn core(&self) -> Result<Opening, Error> {
        let (centre, width, height, kind) = Given::all(|given| {
            let kind = given.up_to(self.kind, DRYFIT_OPENING_RECTANGLE, "opening");
            if kind == DRYFIT_OPENING_ROUND {
                given.unused(true, Unit::Length, self.height, "height");
            }
            (given.point(&self.centre), given.length(self.width, "width"), given.length(self.height, "height"), kind)
        })?;
        match kind {
            DRYFIT_OPENING_ROUND => Opening::round(centre, width),
            DRYFIT_OPENING_STADIUM => Opening::stadium(centre, [width, height]),
            _ => Opening::rectangle(centre, [width, height]),
        }
    }
}

/// An assembly without boards.
///
/// Errors: 810.
///
/// Ownership: the caller frees `*out` by `dryfit_assembly_free`. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_new(out: *mut *mut dryfit_assembly, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            Out::new(out, "out")?.put(give(Assembly::new()));
            Ok(())
        })
    }
}

/// Frees an assembly and sets `*assembly` to NULL. NULL, and a pointer to NULL, are as good: to free one twice by the same variable does nothing.
///
/// Errors: 812.
///
/// Ownership: ends. Threads: nobody uses it any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_free(assembly: *mut *mut dryfit_assembly) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { answer(core::ptr::null_mut(), || Ok(free(assembly, "assembly")?)) }
}

/// Adds a board. Boards that overlap are joined: edge on edge by fingers, edge in face by tabs, crossing by halves, end to end in one plane by tails.
///
/// Errors: 102, 103, 301, 303, 309, 331, 806, 810, 812; a refusal leaves the assembly as it was.
///
/// Ownership: nothing is kept. Threads: this one alone.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_add(
    assembly: *mut dryfit_assembly,
    name: *const c_char,
    size: usize,
    board: *const dryfit_board,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let boards = change(assembly, "assembly")?;
            at(board, "board")?.add(text(name, size, "name")?, boards)?;
            Ok(())
        })
    }
}

/// Joins two boards otherwise than by default; the first one is side A.
///
/// Errors: 102, 302, 305, 806, 810, 812; those of the joint itself come when the boards are cut.
///
/// Ownership: nothing is kept. Threads: this one alone.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_joint(
    assembly: *mut dryfit_assembly,
    first: *const c_char,
    first_size: usize,
    second: *const c_char,
    second_size: usize,
    joint: *const dryfit_joint,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let boards = change(assembly, "assembly")?;
            let [first, second] = [text(first, first_size, "first")?, text(second, second_size, "second")?];
            Ok(boards.joint(first, second, {
                let joint = at(joint, "joint")?;
                Given::all(|given| joint.core(given))?
            })?)
        })
    }
}

/// Makes a hole in a board.
///
/// Errors: 102, 302, 806, 810, 812; 336 where it lies on no solid comes when the boards are cut.
///
/// Ownership: nothing is kept. Threads: this one alone.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_open(
    assembly: *mut dryfit_assembly,
    board: *const c_char,
    size: usize,
    opening: *const dryfit_opening,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let boards = change(assembly, "assembly")?;
            Ok(boards.open(text(board, size, "board")?, at(opening, "opening")?.core()?)?)
        })
    }
}

/// How many boards there are.
///
/// Errors: 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_count(assembly: *const dryfit_assembly, out: *mut usize, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let out = Out::new(out, "out")?;
            out.put(read(assembly, "assembly")?.boards().len());
            Ok(())
        })
    }
}

/// The name of a board; they are numbered from 0 in the order of adding. UTF-8, ended by a zero, which `needed` counts.
///
/// Errors: 102 for the number, 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_name(
    assembly: *const dryfit_assembly,
    number: usize,
    out: *mut c_char,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let boards = read(assembly, "assembly")?.boards();
            let board = boards.get(number).ok_or_else(|| beyond(boards.len(), number, "board"))?;
            Ok(buffer.text(|sink| sink.put(board.name().as_bytes()))?)
        })
    }
}

/// Puts the nominal panels together without glue and says whether the blocks are shared out exactly.
///
/// Errors: 102 for what was asked of a joint, 201 to 205, 303 to 306, 308, 310, 332 to 336, 810, 812. That the panels do not fit is no error but what the report says.
///
/// Ownership: the caller frees `*out` by `dryfit_report_free`. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_dry_fit(
    assembly: *const dryfit_assembly,
    out: *mut *mut dryfit_report,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, panels) = (Out::new(out, "out")?, read(assembly, "assembly")?.panels()?);
            out.put(give(dry_fit(&panels).into()));
            Ok(())
        })
    }
}

/// The moves that put the boards together, in order.
///
/// Errors: as `dryfit_assembly_dry_fit`; 501 with the boards that hold each other; 811.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_order(
    assembly: *const dryfit_assembly,
    out: *mut dryfit_step,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let steps = order(&read(assembly, "assembly")?.panels()?)?;
            let count = steps.iter().map(|step| 1 + step.along.len()).sum();
            let rows = steps.iter().enumerate().flat_map(|(number, step)| {
                let way = step.direction;
                core::iter::once(step.board).chain(step.along.iter().copied()).map(move |board| dryfit_step {
                    board,
                    step: number,
                    axis: way.axis.index() as u32,
                    upwards: u32::from(way.upwards),
                    own: u32::from(way.own),
                })
            });
            Ok(buffer.fill(count, rows)?)
        })
    }
}

/// An exploded picture as SVG: boards pulled apart against the order of putting together, by `gap` at least.
///
/// Errors: as `dryfit_assembly_order`, 102; what `write` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_assembly_exploded(
    assembly: *const dryfit_assembly,
    gap: dryfit_nm,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            written(write, user, || {
                let panels = read(assembly, "assembly")?.panels()?;
                let gap = Given::all(|given| given.length(gap, "gap"))?;
                let boards: alloc::vec::Vec<Board> = panels.iter().map(|panel| panel.board().clone()).collect();
                let offsets = explode(&order(&panels)?, &boards, gap);
                let shapes: alloc::vec::Vec<(&Board, &Shape)> = panels.iter().map(|panel| (panel.board(), panel.shape())).collect();
                Ok(exploded(&shapes, &offsets))
            })
        })
    }
}

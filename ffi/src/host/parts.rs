//! Parts: what comes off the cutter.

use core::ffi::{c_char, c_void};

use dryfit_core::{Cutter, Error, Fit, Move, Nm, Part, Parts, Reach, Relief, Ring, Shape, dry_fit_parts, panel_svg};

use super::assembly::dryfit_assembly;
use super::files::written;
use super::handle::{Kind, free, give, read};
use super::report::dryfit_report;
use crate::answer::{answer, dryfit_error};
use crate::bare::{DRYFIT_TOOL_BEAM, DRYFIT_TOOL_BIT, DRYFIT_TOOL_BLADE, dryfit_fit, dryfit_move, dryfit_nm, dryfit_vertex, dryfit_write};
use crate::buffer::{Buffer, Out};
use crate::given::{Given, at, beyond, text};
use crate::status::dryfit_status;

/// The parts of one or several pieces. They never change: any number of threads may read them.
pub struct dryfit_parts {
    _kept: [u8; 0],
}

impl Kind for dryfit_parts {
    type Kept = Parts;
    const TAG: u64 = u64::from_le_bytes(*b"dfparts1");
}

/// A dog-bone: a round relief along the diagonal of the corner.
pub const DRYFIT_REACH_DIAGONAL: u32 = 0;
/// A relief into the flank.
pub const DRYFIT_REACH_FLANK: u32 = 1;
/// A relief into the cheek.
pub const DRYFIT_REACH_CHEEK: u32 = 2;

/// What cuts.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_cutter {
    /// The full width of the cut: 0 to 20 mm; of a bit its diameter.
    pub width: dryfit_nm,
    /// Blade: how far its tip lags behind its axis, 0 to 20 mm.
    pub trail: dryfit_nm,
    /// One of `DRYFIT_TOOL_...`.
    pub tool: u32,
}

/// How boards are cut. All zeros, it is a blade without width and an exact fit: the parts are the nominal panels.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_cut {
    /// The tool.
    pub cutter: dryfit_cutter,
    /// Allowances.
    pub fit: dryfit_fit,
    /// The least solid width that must be left; 0 for any.
    pub web: dryfit_nm,
    /// The radius of the relief of inner corners that a mate must fill; 0 for none.
    pub relief: dryfit_nm,
    /// One of `DRYFIT_REACH_...`.
    pub reach: u32,
}

/// What is asked of a part: the line that the cutter's centre follows.
pub const DRYFIT_OUTLINE_PATH: u32 = 0;
/// What is asked of a part: the outline that is left of the board, half the width of the cut inside the path.
pub const DRYFIT_OUTLINE_FINISHED: u32 = 1;

/// The numbers of a part.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_part {
    /// Of its board; 0 for any.
    pub thickness: dryfit_nm,
    /// The length of its path, holes and all.
    pub cut_length: dryfit_nm,
    /// The area of what is left, in square millimetres.
    pub area: f64,
    /// From (u, v, w, 1) in millimetres, u and v in the part's plane and w across it, to the assembly: row by row. Zeros for a part of no assembly.
    pub frame: [[f64; 4]; 4],
    /// How many loops the path has: the outline, and a hole each.
    pub loops: usize,
    /// How many the finished outline has.
    pub finished_loops: usize,
}

impl dryfit_cutter {
    /// Whether nothing is said of it.
    pub(super) fn is_unstated(&self) -> bool {
        (self.width, self.trail, self.tool) == (0, 0, DRYFIT_TOOL_BLADE)
    }

    pub(super) fn core(&self) -> Result<Cutter, Error> {
        let (tool, width, trail) = Given::all(|given| {
            let tool = given.up_to(self.tool, DRYFIT_TOOL_BIT, "tool");
            given.none_of(tool != DRYFIT_TOOL_BLADE, self.trail, "trail");
            (tool, given.length(self.width, "kerf"), given.length(self.trail, "trail"))
        })?;
        match tool {
            DRYFIT_TOOL_BLADE => Cutter::blade(width, trail),
            DRYFIT_TOOL_BEAM => Cutter::beam(width),
            _ => Cutter::bit(width),
        }
    }
}

impl dryfit_cut {
    /// The tool, the fit, the least web and the relief.
    fn core(&self) -> Result<(Cutter, Fit, Nm, Option<Relief>), Error> {
        let (fit, web, radius, reach) = Given::all(|given| {
            let reach = given.one_of(&[Reach::Diagonal, Reach::Flank, Reach::Cheek], Reach::Diagonal, self.reach, "reach");
            self.fit.check(given);
            (self.fit.core(), given.length(self.web, "web"), given.usual(self.relief, "relief radius"), reach)
        })?;
        Ok((self.cutter.core()?, fit, web, radius.map(|radius| Relief::new(radius, reach)).transpose()?))
    }
}

/// The outline of a part that is asked for.
fn outline(part: &Part, which: u32) -> Result<&Shape, Error> {
    let finished = Given::all(|given| given.up_to(which, DRYFIT_OUTLINE_FINISHED, "outline"))? == DRYFIT_OUTLINE_FINISHED;
    Ok(if finished { part.finished() } else { part.path() })
}

fn part(parts: &Parts, number: usize) -> Result<&Part, Error> {
    parts.iter().nth(number).ok_or_else(|| beyond(parts.iter().count(), number, "part"))
}

fn ring<'a>(parts: &'a Parts, number: usize, which: u32, ring: usize) -> Result<Ring<'a>, Error> {
    let shape = outline(part(parts, number)?, which)?;
    shape.rings().nth(ring).ok_or_else(|| beyond(shape.rings().len(), ring, "loop"))
}

/// The moves around a loop, one a vertex. Arcs of parts bulge into the solid, which lies on the left: they run clockwise.
fn around(ring: Ring<'_>) -> impl Iterator<Item = Move> {
    let ends = ring.vertices().iter().map(|vertex| vertex.at).cycle().skip(1);
    ring.bent().zip(ends).map(|((vertex, centre), to)| Move { from: vertex.at, to, centre, clockwise: centre.is_some() })
}

/// Cuts the boards of an assembly: allowances by role, then half the width of the cut all around, then the relief.
///
/// Errors: as `dryfit_assembly_dry_fit`, 102, 401 to 405, 810, 812.
///
/// Ownership: the caller frees `*out` by `dryfit_parts_free`; the assembly is not needed any more. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_cut(
    assembly: *const dryfit_assembly,
    cut: *const dryfit_cut,
    out: *mut *mut dryfit_parts,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, boards, cut) = (Out::new(out, "out")?, read(assembly, "assembly")?, at(cut, "cut")?);
            let (cutter, fit, web, relief) = cut.core()?;
            let parts = Parts::cut(&boards.panels()?, cutter, fit, web)?;
            out.put(give(match relief {
                Some(relief) => parts.relieve(relief)?,
                None => parts,
            }));
            Ok(())
        })
    }
}

/// Frees parts and sets `*parts` to NULL. NULL, and a pointer to NULL, are as good.
///
/// Errors: 812.
///
/// Ownership: ends. Threads: nobody uses them any more.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_free(parts: *mut *mut dryfit_parts) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { answer(core::ptr::null_mut(), || Ok(free(parts, "parts")?)) }
}

/// One job from two: first the parts of `first`, then those of `second`; of equal names the later ones get a number.
///
/// Errors: 810, 812.
///
/// Ownership: the caller frees `*out` by `dryfit_parts_free`; neither of the two is changed. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_join(
    first: *const dryfit_parts,
    second: *const dryfit_parts,
    out: *mut *mut dryfit_parts,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, first, second) = (Out::new(out, "out")?, read(first, "first")?, read(second, "second")?);
            out.put(give(first.clone().join(second.clone())));
            Ok(())
        })
    }
}

/// How many parts there are.
///
/// Errors: 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_count(parts: *const dryfit_parts, out: *mut usize, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let out = Out::new(out, "out")?;
            out.put(read(parts, "parts")?.iter().count());
            Ok(())
        })
    }
}

/// The number of the part of a name.
///
/// Errors: 302, 806, 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_find(
    parts: *const dryfit_parts,
    name: *const c_char,
    size: usize,
    out: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, parts, name) = (Out::new(out, "out")?, read(parts, "parts")?, text(name, size, "name")?);
            let found = parts.iter().position(|part| part.name() == name);
            out.put(found.ok_or_else(|| Error::bare(dryfit_core::Code::NoSuchBoard, "name"))?);
            Ok(())
        })
    }
}

/// The name of a part; they are numbered from 0. UTF-8, ended by a zero, which `needed` counts.
///
/// Errors: 102 for the number, 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_name(
    parts: *const dryfit_parts,
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
            let name = part(read(parts, "parts")?, number)?.name();
            Ok(buffer.text(|sink| sink.put(name.as_bytes()))?)
        })
    }
}

/// The numbers of a part.
///
/// Errors: 102 for the number, 810, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_part(
    parts: *const dryfit_parts,
    number: usize,
    out: *mut dryfit_part,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let out = Out::new(out, "out")?;
            let part = part(read(parts, "parts")?, number)?;
            out.put(dryfit_part {
                thickness: part.thickness().map_or(0, Nm::nm),
                cut_length: part.path().length(),
                area: part.finished().area_mm2(),
                frame: part.board().map_or([[0.0; 4]; 4], |board| board.frame().matrix()),
                loops: part.path().rings().len(),
                finished_loops: part.finished().rings().len(),
            });
            Ok(())
        })
    }
}

/// The vertices of a loop of a part's path or finished outline: loop 0 is the outer one, counter-clockwise; holes run clockwise. Edges that are arcs are told by
/// `dryfit_parts_moves` only.
///
/// Errors: 102 for the part, the outline and the loop, 810, 811, 812.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_vertices(
    parts: *const dryfit_parts,
    number: usize,
    outline: u32,
    r#loop: usize,
    out: *mut dryfit_vertex,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let vertices = ring(read(parts, "parts")?, number, outline, r#loop)?.vertices();
            Ok(buffer.fill(vertices.len(), vertices.iter().copied().map(dryfit_vertex::of))?)
        })
    }
}

/// The moves around a loop of a part's path or finished outline, one for each vertex; what `dryfit_parts_vertices` tells, and arcs.
///
/// Errors: as `dryfit_parts_vertices`.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_moves(
    parts: *const dryfit_parts,
    number: usize,
    outline: u32,
    r#loop: usize,
    out: *mut dryfit_move,
    cap: usize,
    needed: *mut usize,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let buffer = Buffer::new(out, cap, needed)?;
            let ring = ring(read(parts, "parts")?, number, outline, r#loop)?;
            Ok(buffer.fill(ring.vertices().len(), around(ring).map(|way| dryfit_move::of(&way, false)))?)
        })
    }
}

/// A picture of a part's path or finished outline as SVG, one unit being 1 mm.
///
/// Errors: 102 for the part and the outline, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_svg(
    parts: *const dryfit_parts,
    number: usize,
    outline: u32,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            written(write, user, || {
                let part = part(read(parts, "parts")?, number)?;
                Ok(panel_svg(self::outline(part, outline)?, part.name()))
            })
        })
    }
}

/// Puts the parts together without glue, piece by piece: the cut is taken off, and gaps may be what the fit asked for.
///
/// Errors: 810, 812. That the parts do not fit is no error but what the report says.
///
/// Ownership: the caller frees `*out` by `dryfit_report_free`. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_parts_dry_fit(parts: *const dryfit_parts, out: *mut *mut dryfit_report, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, parts) = (Out::new(out, "out")?, read(parts, "parts")?);
            out.put(give(dry_fit_parts(parts).into()));
            Ok(())
        })
    }
}

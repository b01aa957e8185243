//! G-code.

use core::ffi::{c_char, c_void};

use dryfit_core::bounds::{DEPTH, DOWN, POWER};
use dryfit_core::{Action, Code, Cutter, Error, Gcode, GcodeSpec, Nm};

use super::file::{Format, Writer, begin, dryfit_file, dryfit_write, open, take};
use super::length::{DRYFIT_MM, dryfit_nm};
use super::moves::dryfit_move;
use super::tool::{Depth, Tool};
use crate::answer::{answer, dryfit_error};
use crate::given::{at, flag, one_of, text};
use crate::status::dryfit_status;

/// A blade: it goes down into the board.
pub const DRYFIT_TOOL_BLADE: u32 = 0;
/// A beam: it is turned on and off.
pub const DRYFIT_TOOL_BEAM: u32 = 1;
/// A rotating bit: it goes down into the board.
pub const DRYFIT_TOOL_BIT: u32 = 2;

/// What a G-code file needs to know of machine and tool. 0 is the usual value where one is stated; what a tool has no use for must be 0.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_machine {
    /// One of `DRYFIT_TOOL_...`.
    pub tool: u32,
    /// Beam: 1 if the machine may lower the power where it goes slower.
    pub dynamic: u32,
    /// Speed along a cut in nanometres a second: 0.001 to 10,000 mm/s; usually 10 mm/s.
    pub feed: i64,
    /// Blade and bit: speed downwards; usually 2 mm/s.
    pub plunge: i64,
    /// Blade and bit: how high the tool stands above the board when it is up: 0.1 to 200 mm; usually 2 mm.
    pub height: dryfit_nm,
    /// Blade and bit: how deep it cuts, 0.01 to 200 mm.
    pub depth: dryfit_nm,
    /// Blade: how deep it stays while it is turned about its tip; usually as deep as it cuts.
    pub turn_depth: dryfit_nm,
    /// Beam: its power in millionths of the machine's own unit, 0 to 1,000,000 of them. 0 runs dry.
    pub power: i64,
    /// Bit: turns a minute; usually 10,000.
    pub speed: i64,
}

/// A file and the tool in it.
pub(crate) struct Job {
    file: Gcode<Writer>,
    tool: Tool,
    deep: Deep,
}

/// How deep a tool may go.
#[derive(Clone, Copy)]
struct Deep {
    beam: bool,
    turn: Option<Nm>,
}

impl Format for Job {
    const TAG: u64 = u64::from_le_bytes(*b"dfgcode1");
}

impl Deep {
    /// This depth or power, if the tool has such.
    fn of(self, depth: dryfit_nm, power: i64) -> Result<Depth, Error> {
        none_of(self.beam, depth, "depth")?;
        none_of(!self.beam, power, "power")?;
        POWER.check(power)?;
        let cut = Nm::new(if self.beam { 0 } else { DEPTH.check(depth)? })?;
        Ok(Depth { cut, turn: self.turn.map_or(cut, |turn| turn.min(cut)), power })
    }
}

impl Job {
    fn act(&mut self, work: impl FnOnce(&mut Tool, &mut dyn FnMut(&Action) -> Result<(), Error>) -> Result<(), Error>) -> Result<(), Error> {
        let Job { file, tool, .. } = self;
        work(tool, &mut |action| file.act(action))
    }
}

/// Refuses what a tool has no use for.
fn none_of(useless: bool, given: i64, name: &'static str) -> Result<(), Error> {
    if useless && given != 0 { Err(Error::bare(Code::NotOfThisTool, name)) } else { Ok(()) }
}

impl dryfit_machine {
    fn spec(&self) -> Result<GcodeSpec, Error> {
        let zero = Nm::new(0)?;
        let cutter =
            one_of(&[Cutter::Blade { kerf: zero, trail: zero }, Cutter::Beam { kerf: zero }, Cutter::Bit { diameter: zero }], self.tool, "tool")?;
        let (beam, bit) = (self.tool == DRYFIT_TOOL_BEAM, self.tool == DRYFIT_TOOL_BIT);
        none_of(beam, self.plunge, "plunge")?;
        none_of(beam, self.height, "height")?;
        none_of(beam || bit, self.turn_depth, "turn depth")?;
        none_of(!beam, i64::from(self.dynamic), "dynamic")?;
        none_of(!bit, self.speed, "speed")?;
        let or = |given: i64, usual: i64| if given == 0 { usual } else { given };
        Ok(GcodeSpec {
            cutter,
            feed: or(self.feed, 10 * DRYFIT_MM),
            plunge: or(self.plunge, 2 * DRYFIT_MM),
            height: Nm::new(or(self.height, 2 * DRYFIT_MM))?,
            dynamic: flag(self.dynamic, "dynamic")?,
            speed: or(self.speed, 10_000),
        })
    }

    fn turn(&self) -> Result<Option<Nm>, Error> {
        if self.turn_depth == 0 {
            return Ok(None);
        }
        let turn = DOWN.named("turn depth").most(self.depth).check(self.turn_depth)?;
        Nm::new(turn).map(Some)
    }
}

/// Begins a G-code file: its title, the cautions, and everything safe. The units are mm, the origin is the sheet's lower left corner, z is 0 on the board's
/// face. Each line reaches `write` whole.
///
/// Errors: 102, 407, 806, 810; what `write` returns.
///
/// Ownership: nothing is kept but `write` and `user`, which must last until the file is ended. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_begin(
    file: *mut dryfit_file,
    machine: *const dryfit_machine,
    title: *const c_char,
    size: usize,
    write: dryfit_write,
    user: *mut c_void,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            Ok(begin(file, || {
                let (writer, machine) = (Writer::new(write, user)?, at(machine, "machine")?);
                let (spec, title) = (machine.spec()?, text(title, size, "title")?);
                // What is refused is refused before anything is written.
                let deep = Deep { beam: machine.tool == DRYFIT_TOOL_BEAM, turn: machine.turn()? };
                let tool = Tool::new(deep.of(machine.depth, machine.power)?);
                Ok(Job { file: Gcode::begin(writer, &spec, title)?, tool, deep })
            })?)
        })
    }
}

/// Cuts along a move; a callback for the functions that hand moves over, `user` being the file. Where a move does not begin where the last one ended, the tool is
/// lifted, brought there and lowered.
///
/// Errors: 102, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_cut(file: *mut c_void, r#move: *const dryfit_move) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(core::ptr::null_mut(), || {
            let way = at(r#move, "move")?;
            let (swivel, way) = (flag(way.swivel, "swivel")?, way.core()?);
            Ok(open::<Job>(file)?.act(|tool, act| tool.cut(&way, swivel, act))?)
        })
    }
}

/// Lifts the tool if it is down, or turns the beam off.
///
/// Errors: 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_lift(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { answer(error, || Ok(open::<Job>(file.cast())?.act(Tool::lift)?)) }
}

/// Lifts the tool; what is cut after it is cut at this depth (blade, bit) or with this power (beam; the other is 0): the next pass.
///
/// Errors: 102, 407, 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_depth(file: *mut dryfit_file, depth: dryfit_nm, power: i64, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let mut job = open::<Job>(file.cast())?;
            let depth = job.deep.of(depth, power)?;
            job.act(Tool::lift)?;
            job.tool.depth = depth;
            Ok(())
        })
    }
}

/// Lifts the tool and lets the machine wait for its operator.
///
/// Errors: 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_pause(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let mut job = open::<Job>(file.cast())?;
            job.act(Tool::lift)?;
            Ok(job.file.act(&Action::Pause)?)
        })
    }
}

/// Ends the file: the tool up or off, and over the origin.
///
/// Errors: 810, 812; what `write` returns.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_end(file: *mut dryfit_file, error: *mut dryfit_error) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe { answer(error, || Ok(take::<Job>(file)?.file.end().map(drop)?)) }
}

//! G-code.

use core::ffi::{c_char, c_void};
use core::mem::MaybeUninit;

use dryfit_core::bounds::{DEPTH, DOWN, POWER};
use dryfit_core::{Action, Cutter, Gcode, GcodeSpec, Nm};

use super::file::{Format, Writer, begin_with, clear, cut, dryfit_file, dryfit_write, end, go_on};
use super::length::{DRYFIT_MM, dryfit_nm};
use super::moves::dryfit_move;
use crate::answer::{call, dryfit_error};
use crate::given::Given;
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
    /// Blade and bit: how deep it cuts: above 0, to 200 mm.
    pub depth: dryfit_nm,
    /// Blade: how deep it stays while it is turned about its tip; usually as deep as it cuts.
    pub turn_depth: dryfit_nm,
    /// Beam: its power in millionths of the machine's own unit, 0 to 1,000,000 of them. 0 runs dry.
    pub power: i64,
    /// Bit: turns a minute; usually 10,000.
    pub speed: i64,
}

/// A file and how the tool in it cuts.
pub(crate) struct Job {
    file: Gcode<Writer>,
    depth: Depth,
    deep: Deep,
}

/// How a tool cuts.
#[derive(Clone, Copy)]
struct Depth {
    /// How deep it cuts.
    cut: Nm,
    /// How deep it stays while a blade is turned.
    turn: Nm,
    /// A beam's power.
    power: i64,
}

/// How deep a tool may go.
#[derive(Clone, Copy)]
struct Deep {
    beam: bool,
    /// The deepest that a blade stays while it is turned.
    turn: Nm,
}

impl Format for Job {
    const TAG: u64 = u64::from_le_bytes(*b"dfgcode1");

    fn writer(&self) -> &Writer {
        self.file.sink()
    }
}

impl Deep {
    /// Refuses a depth or power that the tool does not have.
    #[inline(never)]
    fn check(self, depth: dryfit_nm, power: i64, given: &mut Given) {
        given.none_of(self.beam, depth, "depth");
        given.none_of(!self.beam, power, "power");
        given.within(&POWER, power);
        if !self.beam {
            given.within(&DEPTH, depth);
        }
    }

    /// This depth or power.
    fn of(self, depth: dryfit_nm, power: i64) -> Depth {
        let cut = Nm::clamped(depth);
        Depth { cut, turn: self.turn.min(cut), power }
    }
}

/// What is given, or the usual where that is 0.
const fn or(given: i64, usual: i64) -> i64 {
    if given == 0 { usual } else { given }
}

impl dryfit_machine {
    #[inline(never)]
    fn check(&self, given: &mut Given) {
        let tool = given.up_to(self.tool, DRYFIT_TOOL_BIT, "tool");
        let (beam, bit) = (tool == DRYFIT_TOOL_BEAM, tool == DRYFIT_TOOL_BIT);
        given.none_of(beam, self.plunge, "plunge");
        given.none_of(beam, self.height, "height");
        given.none_of(beam || bit, self.turn_depth, "turn depth");
        given.none_of(!beam, i64::from(self.dynamic), "dynamic");
        given.none_of(!bit, self.speed, "speed");
        given.lengths(&["height", "turn depth"], &[self.height, self.turn_depth]);
        given.flag(self.dynamic, "dynamic");
        if self.turn_depth != 0 {
            given.between(DOWN.unit, DOWN.least, self.depth, self.turn_depth, "turn depth");
        }
        self.deep().check(self.depth, self.power, given);
    }

    fn deep(&self) -> Deep {
        Deep { beam: self.tool == DRYFIT_TOOL_BEAM, turn: if self.turn_depth == 0 { Nm::MAX } else { Nm::clamped(self.turn_depth) } }
    }

    /// The file, made where it stands.
    #[inline(never)]
    fn begin(&self, writer: Writer, job: &mut MaybeUninit<Job>) {
        let cutter = match self.tool {
            DRYFIT_TOOL_BLADE => Cutter::Blade { kerf: Nm::ZERO, trail: Nm::ZERO },
            DRYFIT_TOOL_BEAM => Cutter::Beam { kerf: Nm::ZERO },
            _ => Cutter::Bit { diameter: Nm::ZERO },
        };
        let spec = GcodeSpec {
            cutter,
            feed: or(self.feed, 10 * DRYFIT_MM),
            plunge: or(self.plunge, 2 * DRYFIT_MM),
            height: Nm::clamped(or(self.height, 2 * DRYFIT_MM)),
            dynamic: self.dynamic != 0,
            speed: or(self.speed, 10_000),
        };
        let deep = self.deep();
        job.write(Job { file: Gcode::blank(writer, &spec), depth: deep.of(self.depth, self.power), deep });
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
        call(error, |given| {
            clear::<Job>(file, given)?;
            let (writer, machine) = (Writer::new(write, user, given)?, given.at(machine, "machine")?);
            // What is refused is refused before anything is written.
            let title = given.text(title, size, "title")?;
            machine.check(given);
            given.done()?;
            begin_with(file, given, |job| machine.begin(writer, job), |job: &mut Job| job.file.head(title))
        })
    }
}

/// Cuts along a move; a callback for the functions that hand moves over, `user` being the file. Where a move does not begin where the last one ended, the tool is
/// lifted, brought there and lowered.
///
/// Errors: 102, 810, 812; what `write` returns. `dryfit_file_error` tells more of them.
///
/// Ownership: nothing is kept. Threads: one file by one thread at a time.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_gcode_cut(file: *mut c_void, r#move: *const dryfit_move) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        cut::<Job>(file, r#move, |Job { file, depth, .. }, way, swivel| file.along(way, if swivel { depth.turn } else { depth.cut }, depth.power))
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
    unsafe { call(error, |given| go_on::<Job>(file.cast(), given, |job| job.file.act(&Action::Lift))) }
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
        call(error, |given| {
            let mut deep = None;
            go_on::<Job>(file.cast(), given, |job| {
                deep = Some(job.deep);
                Ok(())
            })?;
            let depth = deep.map(|deep| {
                deep.check(depth, power, given);
                deep.of(depth, power)
            });
            given.done()?;
            go_on::<Job>(file.cast(), given, |job| {
                job.depth = depth.unwrap_or(job.depth);
                job.file.act(&Action::Lift)
            })
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
        call(error, |given| {
            go_on::<Job>(file.cast(), given, |job| {
                job.file.act(&Action::Lift)?;
                job.file.act(&Action::Pause)
            })
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
    unsafe { call(error, |given| end::<Job>(file, given, |job| job.file.tail())) }
}

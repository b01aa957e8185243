//! Statuses: the numbers of the one error table, with a name for each in C. A test holds them equal to the core's table.

use core::ffi::{CStr, c_char};

use dryfit_core::Code;

/// 0 where all went well, else a number of the error table; or what a callback returned that stopped the work.
pub type dryfit_status = i32;

/// All went well.
pub const DRYFIT_OK: dryfit_status = 0;
/// A length is a number and a unit, such as 80, "2.5 mm" or "3/32 in".
pub const DRYFIT_NOT_A_LENGTH: dryfit_status = 101;
/// The value lies outside the allowed range.
pub const DRYFIT_OUT_OF_RANGE: dryfit_status = 102;
/// NaN and infinity are no amounts.
pub const DRYFIT_NOT_FINITE: dryfit_status = 103;
/// More fingers than the run holds at the least width.
pub const DRYFIT_FINGERS_DO_NOT_FIT: dryfit_status = 201;
/// One tab and its two end distances are longer than the run.
pub const DRYFIT_TABS_DO_NOT_FIT: dryfit_status = 202;
/// A halving leaves both boards a part of the run.
pub const DRYFIT_SPLIT_OUTSIDE_RUN: dryfit_status = 203;
/// The run is shorter than the smallest number of fingers at the least width.
pub const DRYFIT_RUN_TOO_SHORT: dryfit_status = 204;
/// Tails join boards of one plane end to end; at a corner a straight-down cut cannot make the pins.
pub const DRYFIT_NOT_IN_ONE_PLANE: dryfit_status = 205;
/// Neighbouring tails meet at their ends, or neighbouring sockets at the baseline.
pub const DRYFIT_SOCKET_CLOSES: dryfit_status = 221;
/// Two boards of one assembly cannot have one name.
pub const DRYFIT_NAME_TAKEN: dryfit_status = 301;
/// The assembly has no board of this name.
pub const DRYFIT_NO_SUCH_BOARD: dryfit_status = 302;
/// Two boards in one plane overlap other than end to end.
pub const DRYFIT_SAME_PLACE: dryfit_status = 303;
/// A board ends inside the other's thickness; a straight-down cut cannot stop half way.
pub const DRYFIT_BLIND: dryfit_status = 304;
/// The two slabs do not overlap; extend one into the other.
pub const DRYFIT_DO_NOT_MEET: dryfit_status = 305;
/// The slab overlaps no other; extend it into its neighbours.
pub const DRYFIT_MEETS_NOTHING: dryfit_status = 306;
/// Two walls and the space between them do not fit the size.
pub const DRYFIT_THICKER_THAN_BOX: dryfit_status = 307;
/// The assembly is empty.
pub const DRYFIT_NO_BOARDS: dryfit_status = 308;
/// A board needs a name.
pub const DRYFIT_NAME_EMPTY: dryfit_status = 309;
/// A third board may cross a splice only across its run and over its whole depth, and no fourth at the same place.
pub const DRYFIT_CROWDED: dryfit_status = 310;
/// A key is let into two boards of one plane that touch along a seam.
pub const DRYFIT_NO_SEAM: dryfit_status = 311;
/// Boards of one assembly are turned about one axis, which lies in their plane.
pub const DRYFIT_TWO_AXES: dryfit_status = 331;
/// A board that lies across turned boards takes them in closed slots or along its edges, corners and all.
pub const DRYFIT_SLANTED_CUT: dryfit_status = 332;
/// Boards that cross at one line share one stretch of it.
pub const DRYFIT_UNEVEN_LAP: dryfit_status = 333;
/// Two boards take the same place of a third; name those that cross at one line in a lap.
pub const DRYFIT_NOT_LAPPED: dryfit_status = 334;
/// Only an even number of sides has opposite ones.
pub const DRYFIT_ODD_SIDES: dryfit_status = 335;
/// An opening lies on its board's own solid, apart from edges and other openings.
pub const DRYFIT_OPENING_MISPLACED: dryfit_status = 336;
/// The nut's pocket leaves too little of its board.
pub const DRYFIT_NUT_TOO_WIDE: dryfit_status = 337;
/// The screw ends before its nut, or deeper than its board.
pub const DRYFIT_SCREW_DOES_NOT_HOLD: dryfit_status = 338;
/// Allowances and kerf leave this edge no length.
pub const DRYFIT_SLOT_CLOSES: dryfit_status = 401;
/// Allowances and kerf push this edge through another.
pub const DRYFIT_CROSSES_NEIGHBOUR: dryfit_status = 402;
/// Less solid board is left than the stated web.
pub const DRYFIT_WEB_TOO_THIN: dryfit_status = 403;
/// Two reliefs meet, or one is longer than its edge.
pub const DRYFIT_RELIEF_TOO_LARGE: dryfit_status = 404;
/// The relief of a corner runs into another edge.
pub const DRYFIT_RELIEF_BREAKS_THROUGH: dryfit_status = 405;
/// Jobs of one size do not tell what length, parts and corners cost; at least one other size is needed.
pub const DRYFIT_KNOWN_ALIKE: dryfit_status = 406;
/// The tool of this job has no such setting.
pub const DRYFIT_NOT_OF_THIS_TOOL: dryfit_status = 407;
/// Either the number of passes or the depth of one is given, not both.
pub const DRYFIT_STEP_AND_COUNT: dryfit_status = 408;
/// The machine can wait between passes over the whole sheet, not within a line.
pub const DRYFIT_PAUSE_IN_LINE: dryfit_status = 409;
/// No straight move puts these boards together; of two that are halved, the lower one has to keep the lower part.
pub const DRYFIT_LOCKED: dryfit_status = 501;
/// The part does not fit the sheet inside its border.
pub const DRYFIT_LARGER_THAN_SHEET: dryfit_status = 601;
/// The border leaves nothing of the sheet.
pub const DRYFIT_BORDER_TOO_WIDE: dryfit_status = 602;
/// No sheet of the part's thickness was given.
pub const DRYFIT_WRONG_THICKNESS: dryfit_status = 603;
/// There are too few sheets for all parts.
pub const DRYFIT_NO_SHEET_LEFT: dryfit_status = 604;
/// The byte sink took no more.
pub const DRYFIT_SINK_FULL: dryfit_status = 701;
/// A tool goes down where it stands before it cuts, and up before it travels.
pub const DRYFIT_OUT_OF_ORDER: dryfit_status = 702;
/// This kind of file has no word for it.
pub const DRYFIT_NOT_IN_FORMAT: dryfit_status = 703;
/// The key is not known here.
pub const DRYFIT_UNKNOWN_KEY: dryfit_status = 801;
/// The value is of the wrong kind.
pub const DRYFIT_WRONG_TYPE: dryfit_status = 802;
/// A key is missing.
pub const DRYFIT_MISSING_KEY: dryfit_status = 803;
/// The file cannot be read.
pub const DRYFIT_NOT_READABLE: dryfit_status = 804;
/// The file is larger than a job can be.
pub const DRYFIT_TOO_LARGE: dryfit_status = 805;
/// The file is not UTF-8 text.
pub const DRYFIT_NOT_TEXT: dryfit_status = 806;
/// The file is not TOML.
pub const DRYFIT_BAD_SYNTAX: dryfit_status = 807;
/// The folder cannot be written.
pub const DRYFIT_NOT_WRITABLE: dryfit_status = 808;
/// This version cannot do that yet.
pub const DRYFIT_NOT_AVAILABLE: dryfit_status = 809;
/// A pointer that must lead to something is NULL.
pub const DRYFIT_NULL_POINTER: dryfit_status = 810;
/// The result has more entries than the buffer has room for.
pub const DRYFIT_BUFFER_TOO_SMALL: dryfit_status = 811;
/// The handle is of another kind, was freed, or was never made.
pub const DRYFIT_WRONG_HANDLE: dryfit_status = 812;
/// The library has a fault; the result is lost, the process goes on.
pub const DRYFIT_PANICKED: dryfit_status = 813;

/// The name of a status in words, e.g. `fingers do not fit`; `ok` for 0, NULL for a number that is no status.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_status_name(status: dryfit_status) -> *const c_char {
    words(status, c"ok", Code::c_name)
}

/// One sentence on a status; NULL for a number that is no status.
///
/// Ownership: static, never freed. Threads: any.
#[unsafe(no_mangle)]
pub extern "C" fn dryfit_status_text(status: dryfit_status) -> *const c_char {
    words(status, c"all went well", Code::c_text)
}

fn words(status: dryfit_status, ok: &'static CStr, of: fn(Code) -> &'static CStr) -> *const c_char {
    match (status, Code::from_number(status)) {
        (DRYFIT_OK, _) => ok.as_ptr(),
        (_, Some(code)) => of(code).as_ptr(),
        (_, None) => core::ptr::null(),
    }
}

#[cfg(test)]
#[path = "status_tests.rs"]
mod tests;

//! One numbered error table for Rust, C and Python.
//!
//! An [`Error`] is small and `Copy`: a [`Code`], the parameter, what was given and the allowed range.
//! With `alloc`, a [`Failure`] adds where it happened: the boards and the place.

use core::ffi::CStr;
use core::fmt;

use crate::bounds::Unit;
use crate::message;
use crate::write::Sink;

/// Text with a zero byte at its end, as C sees it.
const fn c_text(text: &'static str) -> &'static CStr {
    match CStr::from_bytes_with_nul(text.as_bytes()) {
        Ok(text) => text,
        Err(_) => c"",
    }
}

/// A line of the table.
struct Entry {
    code: Code,
    name: &'static CStr,
    text: &'static CStr,
}

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $number:literal, $c_name:literal, $text:literal;)*) => {
        /// What went wrong. The number is the C status and Python's `.code`; a number is never used again for something else.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        #[repr(u16)]
        pub enum Code { $($(#[$doc])* #[doc = $text] $name = $number,)* }

        impl Code {
            /// Every code, in the order of the numbers.
            pub const ALL: &'static [Code] = &[$(Code::$name,)*];

            /// The number shared by all languages.
            pub const fn number(self) -> i32 { self as i32 }

            /// The name in words, e.g. `"fingers do not fit"`.
            pub const fn name(self) -> &'static str { match self { $(Code::$name => $c_name,)* } }

            /// One sentence on what it means.
            pub const fn text(self) -> &'static str { match self { $(Code::$name => $text,)* } }

            /// The name for C: with a zero byte at its end.
            pub fn c_name(self) -> &'static CStr {
                self.entry().name
            }

            /// The sentence for C.
            pub fn c_text(self) -> &'static CStr {
                self.entry().text
            }

            /// The code of a number.
            pub fn from_number(number: i32) -> Option<Code> {
                ENTRIES.iter().map(|entry| entry.code).find(|code| code.number() == number)
            }

            fn entry(self) -> &'static Entry {
                ENTRIES.iter().find(|entry| entry.code == self).unwrap_or(&ENTRIES[0])
            }
        }

        /// The words, in a table: a chip keeps them once, and no code to choose among them.
        static ENTRIES: [Entry; Code::ALL.len()] =
            [$(Entry { code: Code::$name, name: c_text(concat!($c_name, "\0")), text: c_text(concat!($text, "\0")) },)*];
    };
}

codes! {
    // 100: numbers
    NotALength = 101, "not a length", "a length is a number and a unit, such as 80, \"2.5 mm\" or \"3/32 in\"";
    OutOfRange = 102, "out of range", "the value lies outside the allowed range";
    NotFinite = 103, "not finite", "NaN and infinity are no amounts";
    // 200: joints
    FingersDoNotFit = 201, "fingers do not fit", "more fingers than the run holds at the least width";
    TabsDoNotFit = 202, "tabs do not fit", "one tab and its two end distances are longer than the run";
    SplitOutsideRun = 203, "split outside run", "a halving leaves both boards a part of the run";
    RunTooShort = 204, "run too short", "the run is shorter than the smallest number of fingers at the least width";
    NotInOnePlane = 205, "not in one plane", "tails join boards of one plane end to end; at a corner a straight-down cut cannot make the pins";
    SocketCloses = 221, "socket closes", "neighbouring tails meet at their ends, or neighbouring sockets at the baseline";
    // 300: assembly
    NameTaken = 301, "name taken", "two boards of one assembly cannot have one name";
    NoSuchBoard = 302, "no such board", "the assembly has no board of this name";
    SamePlace = 303, "same place", "two boards in one plane overlap other than end to end";
    Blind = 304, "blind joint", "a board ends inside the other's thickness; a straight-down cut cannot stop half way";
    DoNotMeet = 305, "boards do not meet", "the two slabs do not overlap; extend one into the other";
    MeetsNothing = 306, "board meets nothing", "the slab overlaps no other; extend it into its neighbours";
    ThickerThanBox = 307, "thicker than the box", "two walls and the space between them do not fit the size";
    NoBoards = 308, "no boards", "the assembly is empty";
    NameEmpty = 309, "name empty", "a board needs a name";
    Crowded = 310, "splice crowded", "a third board may cross a splice only across its run and over its whole depth, and no fourth at the same place";
    NoSeam = 311, "no seam", "a key is let into two boards of one plane that touch along a seam";
    TwoAxes = 331, "turned about two axes", "boards of one assembly are turned about one axis, which lies in their plane";
    SlantedCut = 332, "slanted cut", "a board that lies across turned boards takes them in closed slots or along its edges, corners and all";
    UnevenLap = 333, "uneven lap", "boards that cross at one line share one stretch of it";
    NotLapped = 334, "not lapped", "two boards take the same place of a third; name those that cross at one line in a lap";
    OddSides = 335, "odd sides", "only an even number of sides has opposite ones";
    OpeningMisplaced = 336, "opening misplaced", "an opening lies on its board's own solid, apart from edges and other openings";
    NutTooWide = 337, "nut too wide", "the nut's pocket leaves too little of its board";
    ScrewDoesNotHold = 338, "screw does not hold", "the screw ends before its nut, or deeper than its board";
    // 400: cut
    SlotCloses = 401, "slot closes", "allowances and kerf leave this edge no length";
    CrossesNeighbour = 402, "crosses neighbour", "allowances and kerf push this edge through another";
    WebTooThin = 403, "web too thin", "less solid board is left than the stated web";
    ReliefTooLarge = 404, "relief too large", "two reliefs meet, or one is longer than its edge";
    ReliefBreaksThrough = 405, "relief breaks through", "the relief of a corner runs into another edge";
    KnownAlike = 406, "known jobs alike", "jobs of one size do not tell what length, parts and corners cost; at least one other size is needed";
    NotOfThisTool = 407, "not of this tool", "the tool of this job has no such setting";
    StepAndCount = 408, "step and count", "either the number of passes or the depth of one is given, not both";
    PauseInLine = 409, "pause in line", "the machine can wait between passes over the whole sheet, not within a line";
    // 500: check
    Locked = 501, "boards locked", "no straight move puts these boards together; of two that are halved, the lower one has to keep the lower part";
    // 600: sheet
    LargerThanSheet = 601, "part larger than sheet", "the part does not fit the sheet inside its border";
    BorderTooWide = 602, "border too wide", "the border leaves nothing of the sheet";
    WrongThickness = 603, "wrong thickness", "no sheet of the part's thickness was given";
    NoSheetLeft = 604, "no sheet left", "there are too few sheets for all parts";
    // 700: write
    SinkFull = 701, "sink full", "the byte sink took no more";
    OutOfOrder = 702, "out of order", "a tool goes down where it stands before it cuts, and up before it travels";
    NotInFormat = 703, "not in this format", "this kind of file has no word for it";
    // 800: doors
    UnknownKey = 801, "unknown key", "the key is not known here";
    WrongType = 802, "wrong type", "the value is of the wrong kind";
    MissingKey = 803, "missing key", "a key is missing";
    NotReadable = 804, "not readable", "the file cannot be read";
    TooLarge = 805, "file too large", "the file is larger than a job can be";
    NotText = 806, "not text", "the file is not UTF-8 text";
    BadSyntax = 807, "bad syntax", "the file is not TOML";
    NotWritable = 808, "not writable", "the folder cannot be written";
    NotAvailable = 809, "not available", "this version cannot do that yet";
    NullPointer = 810, "null pointer", "a pointer that must lead to something is NULL";
    BufferTooSmall = 811, "buffer too small", "the result has more entries than the buffer has room for";
    WrongHandle = 812, "wrong handle", "the handle is of another kind, was freed, or was never made";
    Panicked = 813, "panicked", "the library has a fault; the result is lost, the process goes on";
}

/// A given or allowed value with its unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Amount {
    /// Nothing to show.
    Unstated,
    /// Nanometres.
    Length(i64),
    /// A count.
    Count(i64),
    /// Millionths of a degree.
    Angle(i64),
    /// Nanometres a second.
    Speed(i64),
    /// Nanometres a second squared.
    Acceleration(i64),
    /// Millionths of a second.
    Seconds(i64),
    /// Millionths of a minute.
    Minutes(i64),
    /// Millionths of what has no unit.
    Number(i64),
}

impl Amount {
    /// So many of a unit; nothing to show where there is none.
    pub const fn of(unit: Option<Unit>, n: i64) -> Amount {
        match unit {
            Some(unit) => unit.amount(n),
            None => Amount::Unstated,
        }
    }

    /// The unit, and how many of it.
    pub const fn parts(self) -> (Option<Unit>, i64) {
        match self {
            Amount::Unstated => (None, 0),
            Amount::Length(n) => (Some(Unit::Length), n),
            Amount::Count(n) => (Some(Unit::Count), n),
            Amount::Angle(n) => (Some(Unit::Angle), n),
            Amount::Speed(n) => (Some(Unit::Speed), n),
            Amount::Acceleration(n) => (Some(Unit::Acceleration), n),
            Amount::Seconds(n) => (Some(Unit::Seconds), n),
            Amount::Minutes(n) => (Some(Unit::Minutes), n),
            Amount::Number(n) => (Some(Unit::Number), n),
        }
    }
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        message::amount(&mut Formatted(f), *self).map_err(|_| fmt::Error)
    }
}

/// A refusal: which parameter, what was given, what is allowed.
///
/// Every way out of a function has room for one, so the units stand beside the numbers and are not repeated in each.
///
/// ```
/// use dryfit_core::{Code, Fingers, Nm};
/// let run = Nm::parse("10 mm")?;
/// let error = Fingers::count(9).pattern(run, Nm::parse("2 mm")?).unwrap_err();
/// assert_eq!(error.code, Code::FingersDoNotFit);
/// assert_eq!(error.to_string(), "finger count: 9 given, allowed 1 to 5");
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Error {
    /// The code, shared by all languages.
    pub code: Code,
    /// The parameter's name.
    pub parameter: &'static str,
    /// The units of what was given and of the range.
    units: [Option<Unit>; 2],
    /// What was given, the smallest and the largest allowed value.
    numbers: [i64; 3],
}

impl Error {
    /// An error that has no range, e.g. about text.
    #[cold]
    #[inline(never)]
    pub const fn bare(code: Code, parameter: &'static str) -> Error {
        Error { code, parameter, units: [None; 2], numbers: [0; 3] }
    }

    /// An error with a range.
    #[cold]
    #[inline(never)]
    pub const fn new(code: Code, parameter: &'static str, unit: Unit, given: i64, least: i64, most: i64) -> Error {
        Error { code, parameter, units: [Some(unit); 2], numbers: [given, least, most] }
    }

    /// An error about a count.
    pub const fn count(code: Code, parameter: &'static str, given: i64, least: i64, most: i64) -> Error {
        Error::new(code, parameter, Unit::Count, given, least, most)
    }

    /// An error about a length in nanometres.
    pub const fn length(code: Code, parameter: &'static str, given: i64, least: i64, most: i64) -> Error {
        Error::new(code, parameter, Unit::Length, given, least, most)
    }

    /// The same about something else that was given.
    #[must_use]
    pub const fn giving(mut self, given: Amount) -> Error {
        let [_, range] = self.units;
        let [_, least, most] = self.numbers;
        let (unit, given) = given.parts();
        (self.units, self.numbers) = ([unit, range], [given, least, most]);
        self
    }

    /// What was given.
    pub const fn given(&self) -> Amount {
        let ([unit, _], [given, ..]) = (self.units, self.numbers);
        Amount::of(unit, given)
    }

    /// Smallest allowed value.
    pub const fn least(&self) -> Amount {
        let ([_, unit], [_, least, _]) = (self.units, self.numbers);
        Amount::of(unit, least)
    }

    /// Largest allowed value.
    pub const fn most(&self) -> Amount {
        let ([_, unit], [.., most]) = (self.units, self.numbers);
        Amount::of(unit, most)
    }

    /// The units of what was given and of the range; what was given, the smallest and the largest allowed value.
    pub const fn numbers(&self) -> ([Option<Unit>; 2], [i64; 3]) {
        (self.units, self.numbers)
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        message::refusal(&mut Formatted(f), self.code, self.parameter, [self.given(), self.least(), self.most()]).map_err(|_| fmt::Error)
    }
}

/// Lets the writers of messages, who know nothing of the language's own formatting, write where it is used.
struct Formatted<'a, 'b>(&'a mut fmt::Formatter<'b>);

impl Sink for Formatted<'_, '_> {
    fn put(&mut self, bytes: &[u8]) -> Result<(), Error> {
        let text = core::str::from_utf8(bytes).unwrap_or("?");
        self.0.write_str(text).map_err(|_| Error::bare(Code::SinkFull, "message"))
    }
}

impl core::error::Error for Error {}

/// An [`Error`] and where it happened: the boards, panel or key, and the place.
#[cfg(feature = "alloc")]
#[derive(Clone, Debug, PartialEq, Eq, Hash, thiserror::Error)]
#[error("{place}{}{error}", if place.is_empty() { "" } else { ": " })]
pub struct Failure {
    /// What went wrong.
    pub error: Error,
    /// Where, in words, e.g. `panel "front" near (12.5, 0) mm`.
    pub place: alloc::string::String,
}

#[cfg(feature = "alloc")]
impl Failure {
    #[cold]
    pub(crate) fn at(error: Error, place: alloc::string::String) -> Failure {
        Failure { error, place }
    }
}

#[cfg(feature = "alloc")]
impl From<Error> for Failure {
    fn from(error: Error) -> Failure {
        Failure { error, place: alloc::string::String::new() }
    }
}

#[cfg(test)]
#[path = "error_tests.rs"]
mod tests;

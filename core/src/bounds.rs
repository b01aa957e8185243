//! The one table of ranges: what a number is called, its unit, its least and its most.
//!
//! Every door (Rust, C, Python, shell) checks against these, so a message about a range
//! says the same everywhere.

use crate::error::{Amount, Code, Error};
use crate::length::Nm;

/// A value that lies in its range; else its error is what the function returns. The error is made where the caller wants it: a good value costs no room for one.
macro_rules! within {
    ($bound:expr, $value:expr) => {{
        let value = $value;
        if $bound.beyond(value).is_some() {
            return Err($bound.error(value));
        }
        value
    }};
}
pub(crate) use within;

/// What a bounded number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[repr(u8)]
pub enum Unit {
    /// Nanometres, shown as millimetres.
    Length = 1,
    /// A plain count.
    Count,
    /// Millionths of a degree.
    Angle,
    /// Nanometres a second, shown as millimetres a second.
    Speed,
    /// Nanometres a second squared, shown as millimetres.
    Acceleration,
    /// Millionths of a second.
    Seconds,
    /// Millionths of a minute.
    Minutes,
    /// Millionths of a number without a unit of ours.
    Number,
}

impl Unit {
    pub(crate) const fn amount(self, value: i64) -> Amount {
        match self {
            Unit::Length => Amount::Length(value),
            Unit::Count => Amount::Count(value),
            Unit::Angle => Amount::Angle(value),
            Unit::Speed => Amount::Speed(value),
            Unit::Acceleration => Amount::Acceleration(value),
            Unit::Seconds => Amount::Seconds(value),
            Unit::Minutes => Amount::Minutes(value),
            Unit::Number => Amount::Number(value),
        }
    }
}

/// A named range, both ends included.
///
/// ```
/// use dryfit_core::bounds::THICKNESS;
/// assert!(THICKNESS.check(2_500_000).is_ok());
/// let error = THICKNESS.check(0).unwrap_err();
/// assert_eq!(error.to_string(), "thickness: 0 mm given, allowed 0.01 mm to 200 mm");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Bound {
    /// The parameter's name, as the messages show it.
    pub name: &'static str,
    /// What it counts.
    pub unit: Unit,
    /// Smallest allowed value.
    pub least: i64,
    /// Largest allowed value.
    pub most: i64,
}

impl Bound {
    const fn length(name: &'static str, least: i64, most: i64) -> Bound {
        Bound { name, unit: Unit::Length, least, most }
    }

    const fn count(name: &'static str, least: i64, most: i64) -> Bound {
        Bound { name, unit: Unit::Count, least, most }
    }

    const fn angle(name: &'static str, least: i64, most: i64) -> Bound {
        Bound { name, unit: Unit::Angle, least: least * 1_000_000, most: most * 1_000_000 }
    }

    /// A range of something that is kept in millionths, from whole ones.
    const fn millionths(name: &'static str, unit: Unit, least: i64, most: i64) -> Bound {
        Bound { name, unit, least, most: most * 1_000_000 }
    }

    /// The door for floats: a value in the unit that is shown (millimetres, degrees, seconds and so on), as whole millionths of it.
    ///
    /// # Errors
    /// [`Code::NotFinite`] and [`Code::OutOfRange`] with the name, the value and the range.
    ///
    /// ```
    /// use dryfit_core::bounds::FEED;
    /// assert_eq!(FEED.from_float(12.5)?, 12_500_000);
    /// assert_eq!(FEED.from_float(0.0).unwrap_err().to_string(), "feed: 0 mm/s given, allowed 0.001 mm/s to 10000 mm/s");
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn from_float(&self, value: f64) -> Result<i64, Error> {
        if !value.is_finite() {
            let mut refused = self.error(0).giving(Amount::Unstated);
            refused.code = Code::NotFinite;
            return Err(refused);
        }
        // A float cast saturates, so an enormous value stays out of range; nothing below zero becomes zero.
        let rounded = libm::round(value * 1e6) as i64;
        self.check(if rounded == 0 && value < 0.0 { -1 } else { rounded })
    }

    /// The length of so many millimetres if it is one and lies in the range: what [`crate::Nm::from_mm`] and [`Bound::check`] say, for whole arrays.
    ///
    /// ```
    /// use dryfit_core::{Nm, bounds::KERF};
    /// assert_eq!(KERF.length_of(0.18), Some(Nm::parse("0.18 mm")?));
    /// assert_eq!([f64::NAN, -0.1, 1e300].map(|mm| KERF.length_of(mm)), [None; 3]);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    #[inline]
    pub fn length_of(&self, mm: f64) -> Option<Nm> {
        let nm = crate::round::whole(mm * MM as f64);
        (mm.is_finite() && self.least <= nm && nm <= self.most).then_some(Nm::raw(nm))
    }

    /// This range if `value` lies outside.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) const fn beyond(&self, value: i64) -> Option<&Bound> {
        if self.least <= value && value <= self.most { None } else { Some(self) }
    }

    /// Returns `value` if it lies in the range.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] with the name, the value and the range.
    pub const fn check(&self, value: i64) -> Result<i64, Error> {
        Ok(within!(self, value))
    }

    /// The same range under another parameter's name.
    #[must_use]
    pub const fn named(self, name: &'static str) -> Bound {
        Bound { name, unit: self.unit, least: self.least, most: self.most }
    }

    /// The same range with another upper end.
    #[must_use]
    pub const fn most(self, most: i64) -> Bound {
        Bound { name: self.name, unit: self.unit, least: self.least, most }
    }

    /// The length of this range that is nearest to `value`.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) const fn nearest(&self, value: i64) -> Nm {
        Nm::raw(if value < self.least {
            self.least
        } else if value > self.most {
            self.most
        } else {
            value
        })
    }

    /// The out-of-range error for `value`.
    #[cold]
    #[inline(never)]
    pub const fn error(&self, value: i64) -> Error {
        Error::new(Code::OutOfRange, self.name, self.unit, value, self.least, self.most)
    }
}

/// One millimetre in nanometres.
pub const MM: i64 = 1_000_000;
/// Ten metres: the limit of every coordinate.
pub const REACH: i64 = 10_000 * MM;

/// Any coordinate.
pub const LENGTH: Bound = Bound::length("length", -REACH, REACH);
/// A size of a board or box.
pub const SIZE: Bound = Bound::length("size", MM / 1000, REACH);
/// A run along which two boards meet.
pub const RUN: Bound = Bound::length("run", 1, REACH);
/// Board thickness.
pub const THICKNESS: Bound = Bound::length("thickness", MM / 100, 200 * MM);
/// Depth of a profile: the mate's thickness.
pub const DEPTH: Bound = Bound::length("depth", 1, 200 * MM);
/// Full width of the cut.
pub const KERF: Bound = Bound::length("kerf", 0, 20 * MM);
/// How far a trailing blade's tip lags behind its axis.
pub const TRAIL: Bound = Bound::length("trail", 0, 20 * MM);
/// Corners that turn by more than this are taken by turning the blade.
pub const SWIVEL_ABOVE: Bound = Bound::angle("swivel above", 0, 90);
/// How far a blade goes on beyond the point where a closed line began.
pub const OVERCUT: Bound = Bound::length("overcut", 0, 20 * MM);
/// Diameter of a bit.
pub const DIAMETER: Bound = Bound::length("diameter", MM / 1000, 20 * MM);
/// Radius of a corner's relief.
pub const RELIEF: Bound = Bound::length("relief radius", MM / 1000, 20 * MM);
/// An allowance: positive is a gap, negative an interference.
pub const ALLOWANCE: Bound = Bound::length("allowance", -10 * MM, 10 * MM);
/// Width of one finger.
pub const FINGER_WIDTH: Bound = Bound::length("finger width", 1, REACH);
/// Number of fingers of a run.
pub const FINGER_COUNT: Bound = Bound::count("finger count", 1, 100_000);
/// Width of one tab.
pub const TAB_WIDTH: Bound = Bound::length("tab width", 1, REACH);
/// Least space between tabs.
pub const TAB_SPACING: Bound = Bound::length("tab spacing", 1, REACH);
/// Distance of the outermost tabs from the ends of the run.
pub const TAB_END: Bound = Bound::length("tab end distance", 1, REACH);
/// Front lap of a lapped dovetail; the pin board's thickness is the real limit.
pub const LAP: Bound = Bound::length("lap", 1, 200 * MM);
/// How much deeper than the mate's thickness a dovetail's baseline may lie: up to 1/32 in (Noyes, *Handwork in Wood*, No. 48).
pub const GAUGE: Bound = Bound::length("gauge allowance", 0, 793_750);
/// Least solid width that may be left between two cuts.
pub const WEB: Bound = Bound::length("web", 0, REACH);
/// Border of a sheet that is not cut (the tape's width).
pub const BORDER: Bound = Bound::length("border", 0, REACH);
/// Gap between two parts on a sheet.
pub const GAP: Bound = Bound::length("gap", 0, REACH);
/// Dividers across one direction of a box.
pub const DIVIDERS: Bound = Bound::count("dividers", 0, 200);
/// Pieces of a spliced board.
pub const PIECES: Bound = Bound::count("pieces", 2, 100);
/// Clearance of a lid, to each side.
pub const LID_CLEARANCE: Bound = Bound::length("lid clearance", 0, 10 * MM);
/// Height of the feet under a box; a board's thickness at least.
pub const FEET: Bound = Bound::length("feet", MM / 10, 1_000 * MM);
/// How far a board is turned.
pub const TURN: Bound = Bound::angle("turn", -360, 360);
/// The angle between two boards that meet: at 15 degrees a slot is nearly eight boards wide, and soon no board is left between two.
pub const CROSSING: Bound = Bound::angle("angle between boards", 15, 90);
/// Sides of a box with equal corners.
pub const SIDES: Bound = Bound::count("sides", 3, 12);
/// Boards that cross at one line.
pub const LAPPED: Bound = Bound::count("boards of a lap", 2, 4);
/// How much larger than a nut its pocket is.
pub const NUT_GAP: Bound = Bound::length("gap", 0, 10 * MM);
/// Holes of a pattern along one axis.
pub const HOLES: Bound = Bound::count("holes", 1, 1000);
/// Boards of one assembly.
pub const BOARDS: Bound = Bound::count("boards", 1, 2000);
/// Nanometres of a document's unit, and the parts that make it.
pub const UNIT: Bound = Bound::count("unit", 1, 1_000_000_000);
/// Numerator or denominator of a ratio.
pub const RATIO_TERM: Bound = Bound::count("ratio term", 1, 1_000_000);

/// A side of a sheet.
pub const SHEET: Bound = Bound::length("sheet", MM, REACH);
/// Height of the letters of a label in a file.
pub const LETTERS: Bound = Bound::length("letters", MM / 10, 1_000 * MM);
/// Sheets of one kind that are at hand.
pub const SHEETS: Bound = Bound::count("sheets", 1, 1_000_000);
/// A side of an offcut, inside its border.
pub const OFFCUT: Bound = Bound::length("offcut side", 20 * MM, REACH);
/// How many offcuts of one sheet are told.
pub const OFFCUTS: usize = 100;
/// Where the search for a layout starts.
pub const SEED: Bound = Bound::count("seed", 0, u32::MAX as i64);
/// Caliper readings of one board.
pub const READINGS: Bound = Bound::count("thickness readings", 1, 10_000);
/// How fast the cutter moves along a line.
pub const FEED: Bound = Bound::millionths("feed", Unit::Speed, 1000, 10_000);
/// How fast it moves with the tool up.
pub const TRAVEL_SPEED: Bound = FEED.named("travel speed");
/// How fast it goes down into the board.
pub const PLUNGE: Bound = FEED.named("plunge");
/// How high it stands above the board when it is up.
pub const HEIGHT: Bound = Bound::length("height", MM / 10, 200 * MM);
/// How deep a tool goes, from the face of the board.
pub const DOWN: Bound = Bound::length("depth", 0, 300 * MM);
/// Turns a minute of a bit.
pub const SPEED: Bound = Bound::count("speed", 1, 1_000_000);
/// How fast speeds change.
pub const ACCELERATION: Bound = Bound::millionths("acceleration", Unit::Acceleration, 1000, 1_000_000);
/// How far the way may be rounded off at a corner; 0 stops there.
pub const DEVIATION: Bound = Bound::length("deviation", 0, 10 * MM);
/// How long lifting and lowering the tool take together.
pub const LIFT: Bound = Bound::millionths("lift", Unit::Seconds, 0, 600);
/// How long a blade takes to turn at a corner.
pub const SWIVEL: Bound = Bound::millionths("swivel", Unit::Seconds, 0, 600);
/// How often each line is cut.
pub const PASSES: Bound = Bound::count("passes", 1, 1000);
/// A beam's power in the machine's own unit.
pub const POWER: Bound = Bound::millionths("power", Unit::Number, 0, 1_000_000);
/// Along what way a bit sinks to the depth of a pass.
pub const RAMP: Bound = Bound::length("ramp", 0, REACH);
/// Bridges of one part.
pub const BRIDGES: Bound = Bound::count("bridges", 0, 100);
/// How wide a bridge is.
pub const BRIDGE_WIDTH: Bound = Bound::length("bridge width", MM / 20, 50 * MM);
/// How far apart bridges are along an outline.
pub const SPACING: Bound = Bound::length("bridge spacing", MM, REACH);
/// How far apart the supports of the machine's bed are.
pub const BED: Bound = Bound::length("bed", MM, 1000 * MM);
/// The length of the way in from the waste.
pub const LEAD: Bound = Bound::length("lead", 0, 100 * MM);
/// How far chords may lie from the arcs that they stand for.
pub const FLAT: Bound = Bound::length("flat", 100, MM);
/// The length of all cuts of a job.
pub const TALLY_LENGTH: Bound = Bound::length("length", 0, 1_000_000_000 * MM);
/// How much there is of something in a job.
pub const TALLY_COUNT: Bound = Bound::count("count", 0, 1_000_000_000);
/// Jobs whose times are known.
pub const KNOWN: Bound = Bound::count("known", 2, 10_000);
/// How long a known job took.
pub const KNOWN_MINUTES: Bound = Bound::millionths("minutes", Unit::Minutes, 1, 1_000_000);

/// All ranges, for docs and tests.
pub const ALL: &[Bound] = &[
    LENGTH,
    SIZE,
    RUN,
    THICKNESS,
    DEPTH,
    KERF,
    TRAIL,
    SWIVEL_ABOVE,
    OVERCUT,
    DIAMETER,
    RELIEF,
    ALLOWANCE,
    FINGER_WIDTH,
    FINGER_COUNT,
    TAB_WIDTH,
    TAB_SPACING,
    TAB_END,
    LAP,
    GAUGE,
    WEB,
    BORDER,
    GAP,
    DIVIDERS,
    PIECES,
    LID_CLEARANCE,
    FEET,
    TURN,
    CROSSING,
    SIDES,
    LAPPED,
    NUT_GAP,
    HOLES,
    BOARDS,
    UNIT,
    RATIO_TERM,
    SHEET,
    SHEETS,
    OFFCUT,
    SEED,
    READINGS,
    FEED,
    TRAVEL_SPEED,
    PLUNGE,
    HEIGHT,
    DOWN,
    SPEED,
    ACCELERATION,
    DEVIATION,
    LIFT,
    SWIVEL,
    PASSES,
    POWER,
    RAMP,
    BRIDGES,
    BRIDGE_WIDTH,
    SPACING,
    BED,
    LEAD,
    FLAT,
    TALLY_LENGTH,
    TALLY_COUNT,
    KNOWN,
    KNOWN_MINUTES,
];

//! G-code, streamed without heap.
//!
//! The words are those of RS-274/NGC as Kramer, Proctor and Messina describe them (NIST IR 6556, 2000).

use super::cautions::{AXIS, BLADE, CAUTIONS};
use super::number::{on_grid, trimmed};
use super::sink::{Fixed, Sink};
use super::text::plain;
use crate::bounds::{DOWN, FEED, HEIGHT, PLUNGE, POWER, SPEED};
use crate::cut::{Action, Cutter, Move};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::point::Point;
use crate::round::nearest;

/// What a G-code file needs to know of machine and tool.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct GcodeSpec {
    /// The tool: a blade and a bit move along z, a beam is turned on and off.
    pub cutter: Cutter,
    /// Speed along a cut, in nanometres a second: 0.001 to 10,000 mm/s.
    pub feed: i64,
    /// Speed of a tool that goes down, in nanometres a second, and along a ramp: 0.001 to 10,000 mm/s.
    pub plunge: i64,
    /// How high a tool stands above the board when it is up: 0.1 to 200 mm.
    pub height: Nm,
    /// Beam: whether the machine may lower the power where it goes slower (`M4`), or keeps it (`M3`).
    pub dynamic: bool,
    /// Bit: turns a minute, 1 to 1,000,000.
    pub speed: i64,
}

/// A G-code file in the making. One unit is 1 mm, the origin is the sheet's lower left corner, z is 0 on the board's face.
///
/// Coordinates have four decimals, so no point moves by more than 0.00008 mm. Arcs are in centre form. `G0` is for the tool that is up or off, `G1`, `G2`
/// and `G3` for cuts. Before anything moves, the modes are set, spindle or beam are off and the tool is up; at the end likewise, and over the origin.
/// After a pause, in which it may have been moved by hand, the tool is brought up again and goes anew to where the next cut begins.
///
/// ```
/// use dryfit_core::{Action, Cutter, Fixed, Gcode, GcodeSpec, LineKind, Move, Nm, Point};
/// let mm = |v| Nm::from_mm(v);
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let cutter = Cutter::blade(Nm::ZERO, mm(0.25)?)?;
/// let spec = GcodeSpec { cutter, feed: 10_000_000, plunge: 2_000_000, height: mm(2.0)?, dynamic: false, speed: 1 };
/// let mut memory = [0; 2000];
/// let mut sink = Fixed::new(&mut memory);
/// let mut file = Gcode::begin(&mut sink, &spec, "a line")?;
/// let line = Move { from: at(5.0, 5.0)?, to: at(45.5, 5.0)?, centre: None, clockwise: true };
/// let lower = Action::Lower { depth: mm(1.5)?, power: 0 };
/// for action in [Action::Line(LineKind::CutOuter), Action::Travel(line.from), lower, Action::Cut(line), Action::Lift] {
///     file.act(&action)?;
/// }
/// file.end()?;
/// let text = std::str::from_utf8(sink.written()).unwrap();
/// assert!(text.contains("G0 X5 Y5\nG1 Z-1.5 F120\nG1 X45.5 F600\nG0 Z2\n"));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Debug)]
pub struct Gcode<S> {
    sink: S,
    spec: GcodeSpec,
    /// Where the tool stands, in steps.
    at: Option<[i64; 2]>,
    /// How deep it stands, if it is down.
    depth: Option<Nm>,
    /// The feed that holds.
    feed: i64,
}

/// A step of the file: the fourth decimal.
const STEP: i64 = 100;
/// Below this chord, and below this radius, an arc is written as a straight move: once its ends are rounded it could come out as nearly a full circle.
const CHORD: i64 = 20;
const RADIUS: i64 = 50;
/// No line is longer.
const LINE: usize = 128;

#[inline]
fn steps(point: Point) -> [i64; 2] {
    on_grid(point, STEP)
}

impl<S: Sink> Gcode<S> {
    /// Starts a file: what it is, the cautions, and everything safe.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] with the parameter's name; [`Code::SinkFull`], as in all that follows.
    pub fn begin(sink: S, spec: &GcodeSpec, title: &str) -> Result<Gcode<S>, Error> {
        FEED.check(spec.feed)?;
        PLUNGE.check(spec.plunge)?;
        HEIGHT.check(spec.height.nm())?;
        SPEED.check(spec.speed)?;
        let mut file = Gcode { sink, spec: *spec, at: None, depth: None, feed: 0 };
        file.comment("title: ", title)?;
        let what = match spec.cutter {
            Cutter::Blade { .. } => BLADE,
            Cutter::Beam { .. } => "Beam.",
            Cutter::Bit { .. } => "Bit.",
        };
        file.comment("mm, origin at the lower left corner of the sheet", "")?;
        if !matches!(spec.cutter, Cutter::Beam { .. }) {
            file.comment("Z is 0 on the face of the board", "")?;
        }
        file.comment(AXIS, "")?;
        file.comment(what, "")?;
        CAUTIONS.iter().try_for_each(|line| file.comment(line, ""))?;
        file.sink.put(b"M5\nG17 G21 G40 G49 G80 G90 G94\n")?;
        file.up()?;
        file.turn()?;
        Ok(file)
    }

    /// Does one thing.
    ///
    /// # Errors
    /// [`Code::OutOfOrder`] where a cut begins with the tool up or elsewhere, or a way with the tool down; [`Code::OutOfRange`] for a depth (0 to 300 mm) and a
    /// beam's power (0 to 1,000,000). Nothing of what is refused is written.
    #[inline]
    pub fn act(&mut self, action: &Action) -> Result<(), Error> {
        match *action {
            Action::Cut(way) => self.cut(&way, None),
            Action::Ramp { way, depth } => self.cut(&way, Some(depth)),
            Action::Line(kind) => self.comment(kind.id(), ""),
            Action::Travel(to) => self.travel(to),
            Action::Lower { depth, power } => self.lower(depth, power),
            Action::Lift => self.lift(),
            Action::Pause => self.pause(),
        }
    }

    /// A remark of a line, shortened if need be.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn note(&mut self, text: &str) -> Result<(), Error> {
        self.comment("note: ", text)
    }

    /// Ends the file and gives the sink back.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn end(mut self) -> Result<S, Error> {
        self.lift()?;
        self.sink.put(b"M5\n")?;
        self.up()?;
        self.sink.put(b"G0 X0 Y0\nM2\n")?;
        Ok(self.sink)
    }

    fn cut(&mut self, way: &Move, depth: Option<Nm>) -> Result<(), Error> {
        let (Some(from), Some(_)) = (self.at, self.depth) else { return Err(out_of_order("cut")) };
        if steps(way.from) != from {
            return Err(out_of_order("cut"));
        }
        depth.map(|depth| DOWN.check(depth.nm())).transpose()?;
        let to = steps(way.to);
        let centre = way.centre.map(steps).filter(|&centre| is_round(from, to, centre));
        let mut memory = [0; LINE];
        let mut line = Fixed::new(&mut memory);
        line.put(match (centre, way.clockwise) {
            (None, _) => b"G1",
            (Some(_), true) => b"G2",
            (Some(_), false) => b"G3",
        })?;
        let bare = line.written().len();
        for (letter, from, to) in [(b" X", from[0], to[0]), (b" Y", from[1], to[1])] {
            if from != to || centre.is_some() {
                line.put(letter)?;
                trimmed(&mut line, to, 4)?;
            }
        }
        if let Some(depth) = depth {
            self.depth = Some(depth);
            line.put(b" Z")?;
            trimmed(&mut line, nearest(i128::from(-depth.nm()), i128::from(STEP)), 4)?;
        }
        if let Some(centre) = centre {
            line.put(b" I")?;
            trimmed(&mut line, centre[0] - from[0], 4)?;
            line.put(b" J")?;
            trimmed(&mut line, centre[1] - from[1], 4)?;
        }
        if line.written().len() == bare {
            return Ok(());
        }
        let feed = if depth.is_some() { self.spec.plunge } else { self.spec.feed };
        set_feed(&mut self.feed, feed, &mut line)?;
        line.put(b"\n")?;
        self.at = Some(to);
        self.sink.put(line.written())
    }

    fn travel(&mut self, to: Point) -> Result<(), Error> {
        if self.depth.is_some() {
            return Err(out_of_order("travel"));
        }
        let [x, y] = steps(to);
        if self.at.replace([x, y]) == Some([x, y]) {
            return Ok(());
        }
        self.sink.put(b"G0 X")?;
        trimmed(&mut self.sink, x, 4)?;
        self.sink.put(b" Y")?;
        trimmed(&mut self.sink, y, 4)?;
        self.sink.put(b"\n")
    }

    fn lower(&mut self, depth: Nm, power: i64) -> Result<(), Error> {
        if self.at.is_none() {
            return Err(out_of_order("lower"));
        }
        DOWN.check(depth.nm())?;
        if let Cutter::Beam { .. } = self.spec.cutter {
            POWER.check(power)?;
            self.depth = Some(depth);
            self.sink.put(if self.spec.dynamic { b"M4 S" } else { b"M3 S" })?;
            trimmed(&mut self.sink, power, 6)?;
            return self.sink.put(b"\n");
        }
        self.depth = Some(depth);
        let mut memory = [0; LINE];
        let mut line = Fixed::new(&mut memory);
        line.put(b"G1 Z")?;
        trimmed(&mut line, nearest(i128::from(-depth.nm()), i128::from(STEP)), 4)?;
        set_feed(&mut self.feed, self.spec.plunge, &mut line)?;
        line.put(b"\n")?;
        self.sink.put(line.written())
    }

    fn lift(&mut self) -> Result<(), Error> {
        if self.depth.take().is_none() {
            return Ok(());
        }
        match self.spec.cutter {
            Cutter::Beam { .. } => self.sink.put(b"M5\n"),
            _ => self.up(),
        }
    }

    fn pause(&mut self) -> Result<(), Error> {
        if self.depth.is_some() {
            return Err(out_of_order("pause"));
        }
        self.sink.put(b"M5\n(MSG, look at board and tape, then go on)\nM0\n")?;
        // Meanwhile the tool may have been moved by hand.
        self.at = None;
        self.up()?;
        self.turn()
    }

    /// A tool that moves along z goes to where it is safe.
    fn up(&mut self) -> Result<(), Error> {
        if let Cutter::Beam { .. } = self.spec.cutter {
            return Ok(());
        }
        self.sink.put(b"G0 Z")?;
        trimmed(&mut self.sink, nearest(i128::from(self.spec.height.nm()), i128::from(STEP)), 4)?;
        self.sink.put(b"\n")
    }

    /// A bit is brought up to its speed.
    fn turn(&mut self) -> Result<(), Error> {
        let Cutter::Bit { .. } = self.spec.cutter else { return Ok(()) };
        self.sink.put(b"M3 S")?;
        trimmed(&mut self.sink, self.spec.speed, 0)?;
        self.sink.put(b"\nG4 P2\n")
    }

    /// A comment on a line of its own.
    fn comment(&mut self, first: &str, text: &str) -> Result<(), Error> {
        self.sink.put(b"(")?;
        self.sink.put(first.as_bytes())?;
        plain(&mut self.sink, text)?;
        self.sink.put(b")\n")
    }
}

/// Writes the feed in millimetres a minute where it changes.
#[inline]
fn set_feed(holds: &mut i64, feed: i64, line: &mut Fixed<'_>) -> Result<(), Error> {
    if *holds == feed {
        return Ok(());
    }
    *holds = feed;
    line.put(b" F")?;
    trimmed(line, nearest(i128::from(feed) * 60, 1000), 3)
}

/// Whether an arc between these points, in steps, is one that every controller sees as what it is.
fn is_round(from: [i64; 2], to: [i64; 2], centre: [i64; 2]) -> bool {
    let beyond = |a: [i64; 2], b: [i64; 2], least: i64| {
        let [x, y] = [b[0] - a[0], b[1] - a[1]].map(i128::from);
        x * x + y * y >= i128::from(least) * i128::from(least)
    };
    beyond(from, to, CHORD) && beyond(from, centre, RADIUS)
}

#[cold]
fn out_of_order(what: &'static str) -> Error {
    Error::bare(Code::OutOfOrder, what)
}

#[cfg(test)]
#[path = "gcode_tests.rs"]
mod tests;

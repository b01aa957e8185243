//! G-code, streamed without heap.
//!
//! The words are those of RS-274/NGC as Kramer, Proctor and Messina describe them (NIST IR 6556, 2000).

use super::cautions::{AXIS, BLADE, CAUTIONS};
use super::lines::Lines;
use super::number::{on_grid, steps};
use super::sink::Sink;
use crate::bounds::{DOWN, FEED, HEIGHT, PLUNGE, POWER, SPEED, within};
use crate::cut::{Action, Cutter, Move};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::point::Point;

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
/// Each line goes to the sink as a whole. After a pause, in which it may have been moved by hand, the tool is brought up again and goes anew to where the next cut begins.
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
    tool: Tool,
}

/// The file behind its sink, any sink, so that a machine of 32 bits holds the code of it once.
#[derive(Debug)]
struct Tool {
    sort: Sort,
    dynamic: bool,
    feed: i64,
    plunge: i64,
    height: Nm,
    speed: i64,
    /// Where the tool stands, in steps.
    at: Option<[i32; 2]>,
    /// How deep it stands, if it is down.
    depth: Option<Nm>,
    /// The feed that holds.
    holds: i64,
    /// What is put together: here and not on the stack, which is the smaller memory of the two.
    lines: Lines,
}

/// The tool without its size, which the file does not ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sort {
    Blade,
    Beam,
    Bit,
}

const HEIGHTS: &str = "Z is 0 on the face of the board";
/// A step of the file: the fourth decimal.
const STEP: u16 = 100;
/// Below this chord, and below this radius, an arc is written as a straight move: once its ends are rounded it could come out as nearly a full circle.
const CHORD: u32 = 20;
const RADIUS: u32 = 50;

impl<S: Sink> Gcode<S> {
    /// Starts a file: what it is, the cautions, and everything safe.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] with the parameter's name; [`Code::SinkFull`], as in all that follows.
    pub fn begin(sink: S, spec: &GcodeSpec, title: &str) -> Result<Gcode<S>, Error> {
        let mut file = Gcode::blank(sink, spec);
        file.head(title)?;
        Ok(file)
    }

    /// A file in which nothing stands yet, for where a file must not be moved about in a small memory: [`Gcode::head`] comes first.
    pub const fn blank(sink: S, spec: &GcodeSpec) -> Gcode<S> {
        let sort = match spec.cutter {
            Cutter::Blade { .. } => Sort::Blade,
            Cutter::Beam { .. } => Sort::Beam,
            Cutter::Bit { .. } => Sort::Bit,
        };
        let GcodeSpec { feed, plunge, height, dynamic, speed, .. } = *spec;
        Gcode { sink, tool: Tool { sort, dynamic, feed, plunge, height, speed, at: None, depth: None, holds: 0, lines: Lines::new() } }
    }

    /// The sink.
    pub const fn sink(&self) -> &S {
        &self.sink
    }

    /// The start of a blank file; see [`Gcode::begin`].
    ///
    /// # Errors
    /// As [`Gcode::begin`].
    pub fn head(&mut self, title: &str) -> Result<(), Error> {
        self.tool.begin(title, &mut self.sink)
    }

    /// Cuts along a move at a depth, or with a beam's power: a tool that does not stand where the move begins is lifted, brought there and lowered.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] as [`Gcode::act`]; [`Code::SinkFull`].
    pub fn along(&mut self, way: &Move, depth: Nm, power: i64) -> Result<(), Error> {
        self.tool.along(way, depth, power, &mut self.sink)
    }

    /// Does one thing.
    ///
    /// # Errors
    /// [`Code::OutOfOrder`] where a cut begins with the tool up or elsewhere, or a way with the tool down; [`Code::OutOfRange`] for a depth (0 to 300 mm) and a
    /// beam's power (0 to 1,000,000). Nothing of what is refused is written.
    #[inline]
    pub fn act(&mut self, action: &Action) -> Result<(), Error> {
        self.tool.act(action, &mut self.sink)
    }

    /// A remark of a line, shortened if need be.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn note(&mut self, text: &str) -> Result<(), Error> {
        self.tool.lines.comment("note: ", text);
        self.tool.lines.send(&mut self.sink)
    }

    /// Ends the file and gives the sink back.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn end(mut self) -> Result<S, Error> {
        self.tail()?;
        Ok(self.sink)
    }

    /// The end of a file that stays where it is: nothing may follow.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn tail(&mut self) -> Result<(), Error> {
        self.tool.end(&mut self.sink)
    }
}

impl Tool {
    #[inline(never)]
    fn begin(&mut self, title: &str, sink: &mut dyn Sink) -> Result<(), Error> {
        within!(FEED, self.feed);
        within!(PLUNGE, self.plunge);
        within!(HEIGHT, self.height.nm());
        within!(SPEED, self.speed);
        self.lines.comment("title: ", title);
        let (what, height) = match self.sort {
            Sort::Blade => (BLADE, HEIGHTS),
            Sort::Beam => ("Beam.", ""),
            Sort::Bit => ("Bit.", HEIGHTS),
        };
        let about = ["mm, origin at the lower left corner of the sheet", height, AXIS, what];
        for table in [&about[..], &CAUTIONS[..]] {
            for line in table.iter().filter(|line| !line.is_empty()) {
                self.lines.send_one(sink)?;
                self.lines.comment(line, "");
            }
        }
        self.lines.send_one(sink)?;
        self.lines.put("M5\nG17 G21 G40 G49 G80 G90 G94\n");
        self.up();
        self.turn();
        self.lines.send(sink)
    }

    #[inline]
    fn act(&mut self, action: &Action, sink: &mut dyn Sink) -> Result<(), Error> {
        match *action {
            Action::Cut(ref way) => self.cut(way, None, sink),
            Action::Ramp { ref way, depth } => self.cut(way, Some(depth), sink),
            _ => self.other(action, sink),
        }
    }

    /// What is no cut.
    #[inline(never)]
    fn other(&mut self, action: &Action, sink: &mut dyn Sink) -> Result<(), Error> {
        match *action {
            Action::Cut(_) | Action::Ramp { .. } => {}
            Action::Line(kind) => self.lines.comment(kind.id(), ""),
            Action::Travel(_) if self.depth.is_some() => return Err(out_of_order("travel")),
            Action::Travel(to) => self.travel(to),
            Action::Lower { .. } if self.at.is_none() => return Err(out_of_order("lower")),
            Action::Lower { depth, power } => {
                within!(DOWN, depth.nm());
                if self.is_beam() {
                    within!(POWER, power);
                }
                self.depth = Some(depth);
                self.lower(power);
            }
            Action::Lift => self.lift(),
            Action::Pause if self.depth.is_some() => return Err(out_of_order("pause")),
            Action::Pause => {
                self.lines.put("M5\n(MSG, look at board and tape, then go on)\nM0\n");
                // Meanwhile the tool may have been moved by hand.
                self.at = None;
                self.up();
                self.turn();
            }
        }
        self.lines.send(sink)
    }

    #[inline(never)]
    fn end(&mut self, sink: &mut dyn Sink) -> Result<(), Error> {
        self.lift();
        self.lines.put("M5\n");
        self.up();
        self.lines.put("G0 X0 Y0\nM2\n");
        self.lines.send(sink)
    }

    #[inline(never)]
    fn along(&mut self, way: &Move, depth: Nm, power: i64, sink: &mut dyn Sink) -> Result<(), Error> {
        within!(DOWN, depth.nm());
        if self.is_beam() {
            within!(POWER, power);
        }
        if way.from == way.to {
            return Ok(());
        }
        let from = on_grid(&way.from, STEP);
        if self.at.is_none_or(|at| at[0] != from[0] || at[1] != from[1]) {
            self.lift();
            self.travel(way.from);
        }
        if self.depth != Some(depth) {
            self.depth = Some(depth);
            self.lower(power);
        }
        self.lines.send(sink)?;
        self.line(way, from, false);
        self.lines.send_one(sink)
    }

    #[inline(never)]
    fn cut(&mut self, way: &Move, ramp: Option<Nm>, sink: &mut dyn Sink) -> Result<(), Error> {
        let (Some(at), Some(_)) = (self.at, self.depth) else { return Err(out_of_order("cut")) };
        let from = on_grid(&way.from, STEP);
        if from[0] != at[0] || from[1] != at[1] {
            return Err(out_of_order("cut"));
        }
        if let Some(depth) = ramp {
            within!(DOWN, depth.nm());
            self.depth = Some(depth);
        }
        self.line(way, at, ramp.is_some());
        self.lines.send_one(sink)
    }

    /// A move from where the tool is, down to its depth if it is a ramp; nothing where the step is too small for one.
    fn line(&mut self, way: &Move, from: [i32; 2], ramp: bool) {
        let to = on_grid(&way.to, STEP);
        let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        let centre = way.centre.map(|centre| on_grid(&centre, STEP)).map(|centre| [centre[0] - from[0], centre[1] - from[1]]);
        let centre = centre.filter(|&[i, j]| is_long(dx, dy, CHORD) && is_long(i, j, RADIUS));
        let round = centre.is_some();
        if !round && !ramp && dx == 0 && dy == 0 {
            return;
        }
        self.at = Some(to);
        self.lines.put(match (round, way.clockwise) {
            (false, _) => "G1",
            (true, true) => "G2",
            (true, false) => "G3",
        });
        if round || dx != 0 {
            self.lines.word(b'X', i64::from(to[0]));
        }
        if round || dy != 0 {
            self.lines.word(b'Y', i64::from(to[1]));
        }
        if ramp {
            self.down();
        }
        if let Some([i, j]) = centre {
            self.lines.word(b'I', i64::from(i));
            self.lines.word(b'J', i64::from(j));
        }
        self.feed(if ramp { self.plunge } else { self.feed });
    }

    fn travel(&mut self, to: Point) {
        let to = on_grid(&to, STEP);
        if self.at.is_none_or(|at| at[0] != to[0] || at[1] != to[1]) {
            self.at = Some(to);
            self.lines.put("G0");
            self.lines.word(b'X', i64::from(to[0]));
            self.lines.word(b'Y', i64::from(to[1]));
            self.lines.letter(b'\n');
        }
    }

    fn lower(&mut self, power: i64) {
        if self.is_beam() {
            self.lines.put(if self.dynamic { "M4 S" } else { "M3 S" });
            self.lines.number(power, 6);
            self.lines.letter(b'\n');
        } else {
            self.lines.put("G1");
            self.down();
            self.feed(self.plunge);
        }
    }

    fn lift(&mut self) {
        if self.depth.take().is_some() {
            if self.is_beam() { self.lines.put("M5\n") } else { self.up() }
        }
    }

    /// A tool that moves along z goes to where it is safe.
    fn up(&mut self) {
        if !self.is_beam() {
            self.lines.put("G0");
            self.lines.word(b'Z', steps(self.height.nm(), STEP));
            self.lines.letter(b'\n');
        }
    }

    /// How deep the tool stands.
    fn down(&mut self) {
        let depth = self.depth.unwrap_or(Nm::ZERO);
        self.lines.word(b'Z', steps(-depth.nm(), STEP));
    }

    /// A bit is brought up to its speed.
    fn turn(&mut self) {
        if self.sort == Sort::Bit {
            self.lines.put("M3 S");
            self.lines.number(self.speed, 0);
            self.lines.put("\nG4 P2\n");
        }
    }

    /// The end of a line: the feed in millimetres a minute where it changes.
    fn feed(&mut self, feed: i64) {
        if self.holds != feed {
            self.holds = feed;
            // Ten-thousandths of it, whole thousandths: 60 / 1000 of the nanometres a second, which are 10^10 at most.
            self.lines.word(b'F', 10 * steps(3 * feed, 50));
        }
        self.lines.letter(b'\n');
    }

    const fn is_beam(&self) -> bool {
        matches!(self.sort, Sort::Beam)
    }
}

/// Whether a way is so many steps long at least.
#[inline(never)]
fn is_long(x: i32, y: i32, least: u32) -> bool {
    // A side as long as that is enough.
    let side = |way: i32| way.unsigned_abs().min(least);
    let (x, y) = (side(x), side(y));
    x * x + y * y >= least * least
}

#[cold]
#[inline(never)]
fn out_of_order(what: &'static str) -> Error {
    Error::bare(Code::OutOfOrder, what)
}

#[cfg(test)]
#[path = "gcode_tests.rs"]
mod tests;

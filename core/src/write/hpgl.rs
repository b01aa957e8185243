//! HP-GL, streamed without heap.

use super::cautions::{AXIS, BLADE, CAUTIONS};
use super::lines::Lines;
use super::number::on_grid;
use super::sink::Sink;
use crate::cut::{Action, Move, flat};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::point::Point;

/// An HP-GL file in the making, for cutters that are driven like plotters: one unit is 0.025 mm, the origin is the sheet's lower left corner.
/// (Unit: the makers' manuals of the 7470A and of HP-GL/2.)
///
/// Points are rounded to the unit, so they move by half of it at most along each axis; arcs are chords no farther from them than a sixteenth of it, since a blade's tip
/// follows what is left of them. Each kind of line has a pen of
/// its own: 1 `mark`, 2 `cut-inner`, 3 `cut-shared`, 4 `cut-outer`, 5 `trim`. Depth, force and speed are set at the machine; passes are cut one after the
/// other, pauses are not written: [`crate::hpgl`] refuses a plan that cannot be cut without what the format does not say. No text of the user's goes into the file.
/// Old plotters count to 32,767 units, 819 mm, and no farther.
///
/// ```
/// use dryfit_core::{Action, Fixed, Hpgl, LineKind, Move, Nm, Point};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let mut memory = [0; 1000];
/// let mut sink = Fixed::new(&mut memory);
/// let mut file = Hpgl::begin(&mut sink)?;
/// let line = Move { from: at(5.0, 5.0)?, to: at(105.0, 5.0)?, centre: None, clockwise: true };
/// let lower = Action::Lower { depth: Nm::ZERO, power: 0 };
/// for action in [Action::Line(LineKind::CutOuter), Action::Travel(line.from), lower, Action::Cut(line), Action::Lift] {
///     file.act(&action)?;
/// }
/// file.end()?;
/// let text = std::str::from_utf8(sink.written()).unwrap();
/// assert!(text.ends_with("IN;\nSP4;\nPU200,200;\nPD4200,200;\nPU;\nPU0,0;\nSP0;\n"));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Debug)]
pub struct Hpgl<S> {
    sink: S,
    pen: Pen,
}

/// The file behind its sink, any sink, so that a machine of 32 bits holds the code of it once.
#[derive(Debug, Default)]
struct Pen {
    /// Where the tool stands, in units.
    at: Option<[i32; 2]>,
    down: bool,
    /// How many points the open instruction has.
    points: usize,
}

/// One unit in nanometres.
const UNIT: i64 = 25_000;
fn units(point: &Point) -> [i32; 2] {
    on_grid(point, UNIT as u16)
}

/// Chords are no farther from arcs than this.
const FLAT: Nm = Nm::raw(UNIT / 16);
/// An instruction has no more points: some machines keep it whole before they move.
const POINTS: usize = 50;

impl<S: Sink> Hpgl<S> {
    /// Starts a file with the cautions. They come between two resets and without a pen, so a machine that does not know comments draws nothing.
    ///
    /// # Errors
    /// [`Code::SinkFull`], as in all that follows.
    pub fn begin(mut sink: S) -> Result<Hpgl<S>, Error> {
        head(&mut sink)?;
        Ok(Hpgl { sink, pen: Pen::default() })
    }

    /// The sink.
    pub const fn sink(&self) -> &S {
        &self.sink
    }

    /// Does one thing.
    ///
    /// # Errors
    /// [`Code::OutOfOrder`] where a cut begins with the tool up or elsewhere, or a way or another kind of line with the tool down.
    pub fn act(&mut self, action: &Action) -> Result<(), Error> {
        self.pen.act(action, &mut self.sink)
    }

    /// Draws along a move: a pen that does not stand where it begins is lifted and brought there.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn along(&mut self, way: &Move) -> Result<(), Error> {
        self.pen.along(way, &mut self.sink)
    }

    /// Ends the file and gives the sink back.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn end(mut self) -> Result<S, Error> {
        self.pen.lift(&mut self.sink)?;
        self.sink.put(b"PU0,0;\n")?;
        self.sink.put(b"SP0;\n")?;
        Ok(self.sink)
    }
}

fn head(sink: &mut dyn Sink) -> Result<(), Error> {
    sink.put(b"IN;SP0;\n")?;
    for table in [&CAUTIONS[..], &[AXIS, BLADE]] {
        for line in table {
            let lines = &mut Lines::new();
            lines.put("CO \"");
            lines.put(line);
            lines.put("\";\n");
            lines.send_one(sink)?;
        }
    }
    sink.put(b"IN;\n")
}

impl Pen {
    fn act(&mut self, action: &Action, sink: &mut dyn Sink) -> Result<(), Error> {
        match action {
            Action::Cut(way) | Action::Ramp { way, .. } => self.cut(way, sink),
            Action::Line(_) if self.down => Err(out_of_order("line")),
            Action::Line(kind) => {
                let lines = &mut Lines::new();
                lines.put("SP");
                lines.number(*kind as i64 + 1, 0);
                lines.put(";\n");
                lines.send_one(sink)
            }
            Action::Travel(_) if self.down => Err(out_of_order("travel")),
            Action::Travel(to) => self.point(units(to), sink),
            Action::Lower { .. } if self.at.is_none() => Err(out_of_order("lower")),
            Action::Lower { .. } => {
                self.down = true;
                Ok(())
            }
            Action::Lift => self.lift(sink),
            Action::Pause if self.down => Err(out_of_order("pause")),
            Action::Pause => Ok(()),
        }
    }

    fn along(&mut self, way: &Move, sink: &mut dyn Sink) -> Result<(), Error> {
        if way.from == way.to {
            return Ok(());
        }
        let from = units(&way.from);
        if !self.down || self.at.is_none_or(|at| at[0] != from[0] || at[1] != from[1]) {
            self.lift(sink)?;
            self.point(from, sink)?;
            self.down = true;
        }
        self.cut(way, sink)
    }

    fn cut(&mut self, way: &Move, sink: &mut dyn Sink) -> Result<(), Error> {
        let from = units(&way.from);
        if !self.down || self.at.is_none_or(|at| at[0] != from[0] || at[1] != from[1]) {
            return Err(out_of_order("cut"));
        }
        if way.centre.is_none() {
            return self.point(units(&way.to), sink);
        }
        flat(*way, Some(FLAT)).try_for_each(|chord| self.point(units(&chord.to), sink))
    }

    /// To a point: down, one more point of the open instruction, or up, an instruction of its own.
    fn point(&mut self, to: [i32; 2], sink: &mut dyn Sink) -> Result<(), Error> {
        if self.at.replace(to).is_some_and(|at| at[0] == to[0] && at[1] == to[1]) {
            return Ok(());
        }
        if self.points == POINTS {
            self.close(sink)?;
        }
        let lines = &mut Lines::new();
        lines.put(match (self.down, self.points) {
            (false, _) => "PU",
            (true, 0) => "PD",
            (true, _) => ",",
        });
        lines.number(i64::from(to[0]), 0);
        lines.letter(b',');
        lines.number(i64::from(to[1]), 0);
        if self.down {
            self.points += 1
        } else {
            lines.put(";\n")
        }
        lines.send_one(sink)
    }

    fn lift(&mut self, sink: &mut dyn Sink) -> Result<(), Error> {
        if !core::mem::replace(&mut self.down, false) {
            return Ok(());
        }
        self.close(sink)?;
        sink.put(b"PU;\n")
    }

    /// Ends the open instruction.
    fn close(&mut self, sink: &mut dyn Sink) -> Result<(), Error> {
        if core::mem::replace(&mut self.points, 0) == 0 {
            return Ok(());
        }
        sink.put(b";\n")
    }
}

#[cold]
#[inline(never)]
fn out_of_order(what: &'static str) -> Error {
    Error::bare(Code::OutOfOrder, what)
}

#[cfg(test)]
#[path = "hpgl_tests.rs"]
mod tests;

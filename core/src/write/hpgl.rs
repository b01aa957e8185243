//! HP-GL, streamed without heap.

use super::cautions::{AXIS, BLADE, CAUTIONS};
use super::number::{integer, on_grid};
use super::sink::Sink;
use crate::cut::{Action, Move, flat};
use crate::error::{Code, Error};
use crate::kind::LineKind;
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
    /// Where the tool stands, in units.
    at: Option<[i64; 2]>,
    down: bool,
    /// How many points the open instruction has.
    points: usize,
}

/// One unit in nanometres.
const UNIT: i64 = 25_000;
/// Chords are no farther from arcs than this.
const FLAT: Nm = Nm::raw(UNIT / 16);
/// An instruction has no more points: some machines keep it whole before they move.
const POINTS: usize = 50;

#[inline]
fn units(point: Point) -> [i64; 2] {
    on_grid(point, UNIT)
}

impl<S: Sink> Hpgl<S> {
    /// Starts a file with the cautions. They come between two resets and without a pen, so a machine that does not know comments draws nothing.
    ///
    /// # Errors
    /// [`Code::SinkFull`], as in all that follows.
    pub fn begin(mut sink: S) -> Result<Hpgl<S>, Error> {
        sink.put(b"IN;SP0;\n")?;
        for line in CAUTIONS.into_iter().chain([AXIS, BLADE]) {
            sink.put(b"CO \"")?;
            sink.put(line.as_bytes())?;
            sink.put(b"\";\n")?;
        }
        sink.put(b"IN;\n")?;
        Ok(Hpgl { sink, at: None, down: false, points: 0 })
    }

    /// Does one thing.
    ///
    /// # Errors
    /// [`Code::OutOfOrder`] where a cut begins with the tool up or elsewhere, or a way or another kind of line with the tool down.
    pub fn act(&mut self, action: &Action) -> Result<(), Error> {
        match *action {
            Action::Cut(way) | Action::Ramp { way, .. } => self.cut(way),
            Action::Line(kind) => self.pen(kind),
            Action::Travel(to) => self.travel(to),
            Action::Lower { .. } if self.at.is_none() => Err(out_of_order("lower")),
            Action::Lower { .. } => {
                self.down = true;
                Ok(())
            }
            Action::Lift => self.lift(),
            Action::Pause if self.down => Err(out_of_order("pause")),
            Action::Pause => Ok(()),
        }
    }

    /// Ends the file and gives the sink back.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn end(mut self) -> Result<S, Error> {
        self.lift()?;
        self.sink.put(b"PU0,0;\nSP0;\n")?;
        Ok(self.sink)
    }

    fn cut(&mut self, way: Move) -> Result<(), Error> {
        if !self.down || self.at != Some(units(way.from)) {
            return Err(out_of_order("cut"));
        }
        flat(way, Some(FLAT)).try_for_each(|chord| self.point(units(chord.to)))
    }

    /// Down, to a point.
    #[inline]
    fn point(&mut self, to: [i64; 2]) -> Result<(), Error> {
        if self.at.replace(to) == Some(to) {
            return Ok(());
        }
        if self.points == POINTS {
            self.close()?;
        }
        self.sink.put(if self.points == 0 { b"PD" } else { b"," })?;
        self.points += 1;
        self.pair(to)
    }

    fn travel(&mut self, to: Point) -> Result<(), Error> {
        if self.down {
            return Err(out_of_order("travel"));
        }
        let to = units(to);
        if self.at.replace(to) == Some(to) {
            return Ok(());
        }
        self.sink.put(b"PU")?;
        self.pair(to)?;
        self.sink.put(b";\n")
    }

    fn pen(&mut self, kind: LineKind) -> Result<(), Error> {
        if self.down {
            return Err(out_of_order("line"));
        }
        self.sink.put(b"SP")?;
        integer(&mut self.sink, kind as i64 + 1)?;
        self.sink.put(b";\n")
    }

    fn lift(&mut self) -> Result<(), Error> {
        if !core::mem::replace(&mut self.down, false) {
            return Ok(());
        }
        self.close()?;
        self.sink.put(b"PU;\n")
    }

    /// Ends the open instruction.
    fn close(&mut self) -> Result<(), Error> {
        if core::mem::replace(&mut self.points, 0) == 0 {
            return Ok(());
        }
        self.sink.put(b";\n")
    }

    fn pair(&mut self, [x, y]: [i64; 2]) -> Result<(), Error> {
        integer(&mut self.sink, x)?;
        self.sink.put(b",")?;
        integer(&mut self.sink, y)
    }
}

#[cold]
fn out_of_order(what: &'static str) -> Error {
    Error::bare(Code::OutOfOrder, what)
}

#[cfg(test)]
#[path = "hpgl_tests.rs"]
mod tests;

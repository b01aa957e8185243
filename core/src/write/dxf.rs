//! DXF of release 12 in ASCII, streamed without heap.

use core::f64::consts::FRAC_PI_2;

use super::cautions::CAUTIONS;
use super::number::{integer, millimetres, trimmed};
use super::sink::Sink;
use crate::cut::Move;
use crate::error::Error;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;

/// A DXF file in the making: release 12 (`AC1009`), which every reader knows. One unit is 1 mm; the release has no word for that, so a comment says it.
/// Points are in sheet coordinates: x right, y up, from the lower left corner; they are exact.
///
/// Each kind of line has a layer of its name; lines are polylines, and an arc is a bulge: the tangent of a quarter of its angle, positive if it runs
/// counter-clockwise.
///
/// ```
/// use dryfit_core::{Dxf, LineKind, Move, Nm, Point};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let half = |from, to| Ok::<_, dryfit_core::Error>(Move { from, to, centre: Some(at(10.0, 10.0)?), clockwise: false });
/// let hole = [half(at(13.0, 10.0)?, at(7.0, 10.0)?)?, half(at(7.0, 10.0)?, at(13.0, 10.0)?)?];
/// let mut file = Dxf::begin(Vec::new(), "A hole")?;
/// file.line(LineKind::CutInner, true, hole)?;
/// let text = String::from_utf8(file.end()?).unwrap();
/// assert!(text.contains("0\r\nVERTEX\r\n8\r\ncut-inner\r\n10\r\n13\r\n20\r\n10\r\n42\r\n1\r\n"));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Debug)]
pub struct Dxf<S> {
    sink: S,
    /// The line that is drawn move by move.
    open: Option<Line>,
}

/// A line in the making, and where it ends so far.
#[derive(Clone, Copy, Debug)]
struct Line {
    kind: LineKind,
    closed: bool,
    end: Point,
}

/// A layer's colour: the one of the format's table that is nearest to [`LineKind::colour`]; 7 is black or white, whatever the background is not.
const fn colour(kind: LineKind) -> i64 {
    match kind {
        LineKind::Mark => 241,
        LineKind::CutInner => 122,
        LineKind::CutShared => 30,
        LineKind::CutOuter => 7,
        LineKind::Trim => 151,
    }
}

/// So many decimals of a bulge: over a chord of 20 m, the height of the arc is right to the nanometre.
const BULGE: usize = 12;
/// The most letters of a text.
const TEXT: usize = 200;

const HEADER: &[u8] = b"0\r\nSECTION\r\n2\r\nHEADER\r\n9\r\n$ACADVER\r\n1\r\nAC1009\r\n9\r\n$DWGCODEPAGE\r\n3\r\nansi_1252\r\n0\r\nENDSEC\r\n\
0\r\nSECTION\r\n2\r\nTABLES\r\n\
0\r\nTABLE\r\n2\r\nLTYPE\r\n70\r\n2\r\n\
0\r\nLTYPE\r\n2\r\nCONTINUOUS\r\n70\r\n0\r\n3\r\nSolid line\r\n72\r\n65\r\n73\r\n0\r\n40\r\n0\r\n\
0\r\nLTYPE\r\n2\r\nDASHED\r\n70\r\n0\r\n3\r\nDashed line\r\n72\r\n65\r\n73\r\n2\r\n40\r\n1.5\r\n49\r\n1\r\n49\r\n-0.5\r\n\
0\r\nENDTAB\r\n0\r\nTABLE\r\n2\r\nLAYER\r\n70\r\n5\r\n";
const STYLES: &[u8] = b"0\r\nENDTAB\r\n0\r\nTABLE\r\n2\r\nSTYLE\r\n70\r\n1\r\n\
0\r\nSTYLE\r\n2\r\nSTANDARD\r\n70\r\n0\r\n40\r\n0\r\n41\r\n1\r\n50\r\n0\r\n71\r\n0\r\n42\r\n3\r\n3\r\ntxt\r\n4\r\n\r\n\
0\r\nENDTAB\r\n0\r\nENDSEC\r\n0\r\nSECTION\r\n2\r\nENTITIES\r\n";

impl<S: Sink> Dxf<S> {
    /// Starts a file with its title, the cautions and the tables.
    ///
    /// # Errors
    /// [`crate::Code::SinkFull`], as in all that follows.
    pub fn begin(sink: S, title: &str) -> Result<Dxf<S>, Error> {
        Dxf::with(sink, [title])
    }

    /// The same of a file that says more first.
    pub(super) fn with<'a>(sink: S, first: impl IntoIterator<Item = &'a str>) -> Result<Dxf<S>, Error> {
        let mut file = Dxf { sink, open: None };
        first.into_iter().chain(["One unit is 1 mm."]).chain(CAUTIONS).try_for_each(|line| file.comment(line))?;
        file.sink.put(HEADER)?;
        for kind in LineKind::ALL {
            file.sink.put(b"0\r\nLAYER\r\n2\r\n")?;
            file.sink.put(kind.id().as_bytes())?;
            file.sink.put(b"\r\n70\r\n0\r\n62\r\n")?;
            integer(&mut file.sink, colour(kind))?;
            file.sink.put(if kind.dashed() { b"\r\n6\r\nDASHED\r\n" } else { b"\r\n6\r\nCONTINUOUS\r\n" })?;
        }
        file.sink.put(STYLES)?;
        Ok(file)
    }

    /// The sink.
    pub const fn sink(&self) -> &S {
        &self.sink
    }

    /// Draws a line along moves that each begin where the last one ended; a closed one ends where it began.
    ///
    /// # Errors
    /// [`crate::Code::SinkFull`].
    pub fn line(&mut self, kind: LineKind, closed: bool, moves: impl IntoIterator<Item = Move>) -> Result<(), Error> {
        self.finish()?;
        moves.into_iter().try_for_each(|way| self.step(kind, closed, &way))?;
        self.finish()
    }

    /// Draws one move of a line that is handed over move by move. A move of another kind, or one that does not begin where the last one ended, begins a line
    /// of its own; so does what follows [`Dxf::finish`].
    ///
    /// # Errors
    /// [`crate::Code::SinkFull`].
    pub fn step(&mut self, kind: LineKind, closed: bool, way: &Move) -> Result<(), Error> {
        if way.from == way.to {
            return Ok(());
        }
        if self.open.is_none_or(|line| line.kind != kind || line.closed != closed || line.end != way.from) {
            self.finish()?;
            self.entity(b"POLYLINE", kind)?;
            self.sink.put(b"66\r\n1\r\n10\r\n0\r\n20\r\n0\r\n30\r\n0\r\n70\r\n")?;
            self.sink.put(if closed { b"1\r\n" } else { b"0\r\n" })?;
        }
        self.open = Some(Line { kind, closed, end: way.to });
        self.vertex(kind, way.from)?;
        let Some(arc) = way.arc() else { return Ok(()) };
        let quarter = libm::tan((arc.angle() / 4.0).clamp(0.0, FRAC_PI_2 / 2.0));
        let bulge = libm::round(quarter * 1e12) as i64;
        self.sink.put(b"42\r\n")?;
        trimmed(&mut self.sink, if way.clockwise { -bulge } else { bulge }, BULGE)?;
        self.sink.put(b"\r\n")
    }

    /// Ends the line that is handed over move by move, if there is one.
    ///
    /// # Errors
    /// [`crate::Code::SinkFull`].
    pub fn finish(&mut self) -> Result<(), Error> {
        let Some(line) = self.open.take() else { return Ok(()) };
        if !line.closed {
            self.vertex(line.kind, line.end)?;
        }
        self.entity(b"SEQEND", line.kind)
    }

    /// Writes text on the layer `mark`, its middle at a point. `size` is the height of the letters.
    ///
    /// # Errors
    /// [`crate::Code::SinkFull`].
    pub fn label(&mut self, text: &str, middle: Point, size: Nm) -> Result<(), Error> {
        self.finish()?;
        self.entity(b"TEXT", LineKind::Mark)?;
        self.pair([b"10", b"20"], middle)?;
        self.sink.put(b"30\r\n0\r\n40\r\n")?;
        millimetres(&mut self.sink, size.nm())?;
        self.sink.put(b"\r\n1\r\n")?;
        self.text(text)?;
        self.sink.put(b"\r\n72\r\n1\r\n73\r\n2\r\n")?;
        self.pair([b"11", b"21"], middle)?;
        self.sink.put(b"31\r\n0\r\n")
    }

    /// Ends the file and gives the sink back.
    ///
    /// # Errors
    /// [`crate::Code::SinkFull`].
    pub fn end(mut self) -> Result<S, Error> {
        self.finish()?;
        self.sink.put(b"0\r\nENDSEC\r\n0\r\nEOF\r\n")?;
        Ok(self.sink)
    }

    fn entity(&mut self, what: &[u8], kind: LineKind) -> Result<(), Error> {
        self.sink.put(b"0\r\n")?;
        self.sink.put(what)?;
        self.sink.put(b"\r\n8\r\n")?;
        self.sink.put(kind.id().as_bytes())?;
        self.sink.put(b"\r\n")
    }

    fn vertex(&mut self, kind: LineKind, at: Point) -> Result<(), Error> {
        self.entity(b"VERTEX", kind)?;
        self.pair([b"10", b"20"], at)
    }

    fn pair(&mut self, [x, y]: [&[u8]; 2], at: Point) -> Result<(), Error> {
        self.sink.put(x)?;
        self.sink.put(b"\r\n")?;
        millimetres(&mut self.sink, at.x.nm())?;
        self.sink.put(b"\r\n")?;
        self.sink.put(y)?;
        self.sink.put(b"\r\n")?;
        millimetres(&mut self.sink, at.y.nm())?;
        self.sink.put(b"\r\n")
    }

    fn comment(&mut self, text: &str) -> Result<(), Error> {
        self.sink.put(b"999\r\n")?;
        self.text(text)?;
        self.sink.put(b"\r\n")
    }

    /// Text on one line: what has a meaning in the format is written so that it stands for itself, letters beyond ASCII by their numbers.
    fn text(&mut self, text: &str) -> Result<(), Error> {
        for letter in text.chars().take(TEXT) {
            match letter {
                // Two of them begin a code.
                '%' => self.sink.put(b"%%%")?,
                // A caret stands for control characters, a backslash for codes of later releases.
                '^' => self.sink.put(b"^ ")?,
                '\\' => self.sink.put(b"/")?,
                ' '..='~' => self.sink.put(&[u8::try_from(letter).unwrap_or(b'?')])?,
                control if control.is_control() => self.sink.put(b" ")?,
                beyond => self.number(u32::from(beyond))?,
            }
        }
        Ok(())
    }

    /// A letter by its number, as four or more hexadecimal digits; those beyond 16 bits have none in this format.
    fn number(&mut self, number: u32) -> Result<(), Error> {
        if number > 0xFFFF {
            return self.sink.put(b"?");
        }
        let digit = |place: u32| {
            let value = (number >> (4 * place)) as u8 & 15;
            if value < 10 { b'0' + value } else { b'A' + value - 10 }
        };
        self.sink.put(b"\\U+")?;
        self.sink.put(&[digit(3), digit(2), digit(1), digit(0)])
    }
}

#[cfg(test)]
#[path = "dxf_tests.rs"]
mod tests;

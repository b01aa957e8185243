//! SVG of a sheet, streamed without heap.

use super::cautions::CAUTIONS;
use super::number::millimetres;
use super::path::{Pen, bent};
use super::sink::Sink;
use super::text::escaped;
use crate::cut::Move;
use crate::error::{Code, Error};
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;

const NAMESPACE: &[u8] = b"<svg xmlns=\"http://www.w3.org/2000/svg\"";
const GROUPS: &[u8] =
    b"     Groups: border = tape, no cut; mark = names, not to be cut; cut-inner = holes, first; cut-shared = one cut for two parts; \
cut-outer = outlines; trim = waste. -->\n";

/// An SVG file in the making: one user unit is 1 mm, and the size on paper is right. Points are in sheet coordinates: x right, y up,
/// from the lower left corner.
///
/// Each kind of line is one group, with the kind's name as its id. A file needs no heap, only a [`Sink`].
///
/// ```
/// use dryfit_core::{LineKind, Nm, Point, Svg};
/// let mm = |v| Nm::from_mm(v);
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
/// let mut memory = [0; 2000];
/// let mut sink = dryfit_core::Fixed::new(&mut memory);
/// let mut svg = Svg::begin(&mut sink, mm(30.0)?, mm(20.0)?, "A tile", "One square")?;
/// svg.label("tile", p(10.0, 10.0)?, mm(3.0)?)?;
/// svg.path(LineKind::CutOuter, [p(5.0, 5.0)?, p(15.5, 5.0)?, p(15.5, 15.0)?, p(5.0, 15.0)?])?;
/// svg.end()?;
/// let text = std::str::from_utf8(sink.written()).unwrap();
/// assert!(text.contains(r#"<path d="M5 15H15.5V5H5Z"/>"#));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Debug)]
pub struct Svg<S> {
    sink: S,
    height: Nm,
    open: Option<LineKind>,
    /// The line that is drawn move by move.
    pen: Pen,
    closed: bool,
}

impl<S: Sink> Svg<S> {
    /// Starts a file of a sheet's size, with its title and a sentence on what it is.
    ///
    /// # Errors
    /// [`Code::SinkFull`], as in all that follows.
    pub fn begin(mut sink: S, width: Nm, height: Nm, title: &str, description: &str) -> Result<Svg<S>, Error> {
        head(&mut sink, width.nm(), height.nm(), title)?;
        sink.put(b"<desc>")?;
        escaped(&mut sink, description)?;
        sink.put(b"</desc>\n")?;
        for (number, line) in CAUTIONS.into_iter().enumerate() {
            sink.put(if number == 0 { b"<!-- " } else { b"     " })?;
            sink.put(line.as_bytes())?;
            sink.put(b"\n")?;
        }
        sink.put(GROUPS)?;
        Ok(Svg { sink, height, open: None, pen: Pen::default(), closed: false })
    }

    /// The sink.
    pub const fn sink(&self) -> &S {
        &self.sink
    }

    /// Draws the inner edge of the sheet's border, where the tape ends: a group `border` of its own, which is no line to cut.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] after the first line or label.
    pub fn border(&mut self, lo: Point, hi: Point) -> Result<(), Error> {
        if let Some(open) = self.open {
            return Err(out_of_order(open, 0));
        }
        self.sink.put(b"<g id=\"border\" fill=\"none\" stroke=\"#999999\" stroke-width=\"0.1\" stroke-dasharray=\"4 2\">\n")?;
        self.outline(straight([lo, Point::new(hi.x, lo.y), hi, Point::new(lo.x, hi.y)]), true)?;
        self.sink.put(b"</g>\n")
    }

    /// Draws a closed loop.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] where `kind` comes before that of an earlier line: the kinds come in the order of [`LineKind::ALL`].
    pub fn path(&mut self, kind: LineKind, points: impl IntoIterator<Item = Point>) -> Result<(), Error> {
        self.bent_path(kind, straight(points))
    }

    /// Draws a closed loop of points that each have the radius of the arc that leaves them, if the edge is one. Arcs run clockwise as one
    /// sees them and are at most half a circle.
    ///
    /// # Errors
    /// As [`Svg::path`].
    ///
    /// ```
    /// use dryfit_core::{LineKind, Nm, Point, Svg};
    /// let mm = |v| Nm::from_mm(v);
    /// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
    /// let radius = Some(mm(3.0)?);
    /// let mut svg = Svg::begin(Vec::new(), mm(30.0)?, mm(20.0)?, "A hole", "Two half circles")?;
    /// svg.bent_path(LineKind::CutInner, [(p(10.0, 7.0)?, radius), (p(10.0, 13.0)?, radius)])?;
    /// let text = String::from_utf8(svg.end()?).unwrap();
    /// assert!(text.contains(r#"<path d="M10 13A3 3 0 0 1 10 7A3 3 0 0 1 10 13Z"/>"#));
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn bent_path(&mut self, kind: LineKind, points: impl IntoIterator<Item = (Point, Option<Nm>)>) -> Result<(), Error> {
        self.group(kind)?;
        self.outline(points, true)
    }

    /// Draws an open line.
    ///
    /// # Errors
    /// As [`Svg::path`].
    pub fn line(&mut self, kind: LineKind, points: impl IntoIterator<Item = Point>) -> Result<(), Error> {
        self.bent_line(kind, straight(points))
    }

    /// The same of points that each have the radius of the arc that leaves them, if the edge is one; see [`Svg::bent_path`].
    ///
    /// # Errors
    /// As [`Svg::path`].
    pub fn bent_line(&mut self, kind: LineKind, points: impl IntoIterator<Item = (Point, Option<Nm>)>) -> Result<(), Error> {
        self.group(kind)?;
        self.outline(points, false)
    }

    /// Draws a line along moves that each begin where the last one ended; a closed one ends where it began. Arcs may run either way.
    ///
    /// # Errors
    /// As [`Svg::path`].
    ///
    /// ```
    /// use dryfit_core::{LineKind, Move, Nm, Point, Svg};
    /// let mm = |v| Nm::from_mm(v);
    /// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
    /// let bend = Move { from: p(5.0, 5.0)?, to: p(10.0, 10.0)?, centre: Some(p(5.0, 10.0)?), clockwise: false };
    /// let mut svg = Svg::begin(Vec::new(), mm(30.0)?, mm(20.0)?, "A bend", "A quarter of a circle")?;
    /// svg.moves(LineKind::CutOuter, false, [bend])?;
    /// assert!(String::from_utf8(svg.end()?).unwrap().contains(r#"<path d="M5 15A5 5 0 0 0 10 10"/>"#));
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn moves(&mut self, kind: LineKind, closed: bool, moves: impl IntoIterator<Item = Move>) -> Result<(), Error> {
        self.finish()?;
        moves.into_iter().try_for_each(|way| self.step(kind, closed, &way))?;
        self.finish()
    }

    /// Draws one move of a line that is handed over move by move. A move of another kind, or one that does not begin where the last one ended, begins a line
    /// of its own; so does what follows [`Svg::finish`].
    ///
    /// # Errors
    /// As [`Svg::path`].
    pub fn step(&mut self, kind: LineKind, closed: bool, way: &Move) -> Result<(), Error> {
        if way.from == way.to {
            return Ok(());
        }
        if self.open != Some(kind) || self.closed != closed || !self.pen.is_at(way.from) {
            self.finish()?;
            self.group(kind)?;
            self.closed = closed;
            self.sink.put(b"<path d=\"")?;
        }
        let height = self.height;
        self.pen.step(&mut self.sink, way, |p| (p.x.nm(), (height - p.y).nm()), |radius| radius)
    }

    /// Ends the line that is handed over move by move, if there is one.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn finish(&mut self) -> Result<(), Error> {
        if self.pen.is_new() {
            return Ok(());
        }
        let mut pen = core::mem::take(&mut self.pen);
        if self.closed {
            pen.close(&mut self.sink)?;
        }
        self.sink.put(b"\"/>\n")
    }

    /// Writes text in the group `mark`, centred on a point. `size` is the height of the font.
    ///
    /// # Errors
    /// As [`Svg::path`]: labels come before all cuts.
    pub fn label(&mut self, text: &str, centre: Point, size: Nm) -> Result<(), Error> {
        self.group(LineKind::Mark)?;
        self.sink.put(b"<text x=\"")?;
        millimetres(&mut self.sink, centre.x.nm())?;
        self.sink.put(b"\" y=\"")?;
        millimetres(&mut self.sink, (self.height - centre.y).nm().saturating_add(drop(size)))?;
        self.sink.put(b"\" font-size=\"")?;
        millimetres(&mut self.sink, size.nm())?;
        self.sink.put(b"\" font-family=\"sans-serif\" text-anchor=\"middle\" fill=\"")?;
        self.sink.put(LineKind::Mark.colour().as_bytes())?;
        self.sink.put(b"\" stroke=\"none\">")?;
        escaped(&mut self.sink, text)?;
        self.sink.put(b"</text>\n")
    }

    /// Ends the file and gives the sink back.
    ///
    /// # Errors
    /// [`Code::SinkFull`].
    pub fn end(mut self) -> Result<S, Error> {
        self.finish()?;
        if self.open.is_some() {
            self.sink.put(b"</g>\n")?;
        }
        self.sink.put(b"</svg>\n")?;
        Ok(self.sink)
    }

    /// Makes the group of a kind the open one.
    fn group(&mut self, kind: LineKind) -> Result<(), Error> {
        self.finish()?;
        match self.open {
            Some(open) if open == kind => return Ok(()),
            Some(open) if open > kind => return Err(out_of_order(open, kind as i64)),
            Some(_) => self.sink.put(b"</g>\n")?,
            None => {}
        }
        self.open = Some(kind);
        self.sink.put(b"<g id=\"")?;
        self.sink.put(kind.id().as_bytes())?;
        self.sink.put(b"\" fill=\"none\" stroke=\"")?;
        self.sink.put(kind.colour().as_bytes())?;
        self.sink.put(b"\" stroke-width=\"0.1\"")?;
        self.sink.put(if kind.dashed() { b" stroke-dasharray=\"1 0.5\">\n" } else { b">\n" })
    }

    fn outline(&mut self, points: impl IntoIterator<Item = (Point, Option<Nm>)>, closed: bool) -> Result<(), Error> {
        let height = self.height;
        let mut points = points.into_iter().map(|(p, radius)| ((p.x.nm(), (height - p.y).nm()), radius.map(Nm::nm))).peekable();
        if points.peek().is_none() {
            return Ok(());
        }
        self.sink.put(b"<path d=\"")?;
        bent(&mut self.sink, points, closed)?;
        self.sink.put(b"\"/>\n")
    }
}

fn straight(points: impl IntoIterator<Item = Point>) -> impl Iterator<Item = (Point, Option<Nm>)> {
    points.into_iter().map(|point| (point, None))
}

/// The start of a file of this size in nm, and its title.
pub(super) fn head(sink: &mut impl Sink, width: i64, height: i64, title: &str) -> Result<(), Error> {
    sink.put(NAMESPACE)?;
    sink.put(b" width=\"")?;
    millimetres(sink, width)?;
    sink.put(b"mm\" height=\"")?;
    millimetres(sink, height)?;
    sink.put(b"mm\" viewBox=\"0 0 ")?;
    millimetres(sink, width)?;
    sink.put(b" ")?;
    millimetres(sink, height)?;
    sink.put(b"\">\n<title>")?;
    escaped(sink, title)?;
    sink.put(b"</title>\n")
}

/// How far the baseline lies below the middle of the letters.
pub(super) const fn drop(size: Nm) -> i64 {
    size.nm() / 100 * 35
}

#[cold]
fn out_of_order(open: LineKind, given: i64) -> Error {
    let last = LineKind::ALL.len() as i64 - 1;
    Error::count(Code::OutOfRange, "line kind", given, open as i64, last)
}

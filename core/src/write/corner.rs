//! The sheet of a dovetailed corner, at true scale: cut out and folded over a board's end, every line lies where it belongs.

use super::sink::Sink;
use super::svg::Svg;
use crate::bounds::MM;
use crate::error::Error;
use crate::joint::{DovetailLayout, Fit, Side, Stroke, Surface};
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;

/// White around each strip.
const MARGIN: i64 = 10 * MM;
/// Board that is drawn beyond a baseline.
const BEYOND: i64 = 10 * MM;
/// The column of the surfaces' names, right of the strips.
const NAMES: i64 = 44 * MM;
/// The largest and the smallest font.
const FONT: i64 = 3 * MM;
const SMALLEST: i64 = MM;
/// Width of a letter, generously, where the font is 1 mm high.
const WIDE: i64 = MM * 62 / 100;

const DESCRIPTION: &str = "At true scale, 1 unit = 1 mm; measure a width before use. Each strip is the end of one board unfolded: outer face, end grain, inner face. \
The pin board's lines are marks for saw and chisel: a machine that cuts straight down cannot cut them.";

/// Writes the SVG of a layout into a sink and gives the sink back: no heap.
///
/// Two strips, the tail board's above the pin board's, each unfolded as in
///
/// ```text
///    outer face     y upwards, into the board
///    ----------     end
///    end grain      y upwards, from the inner face
///    ----------     end
///    inner face     y downwards, into the board
/// ```
///
/// All lines are in the group `mark` but for the tail board's outline, once, in `cut-outer`: an open line, whose board goes on beyond the baseline.
///
/// # Errors
/// What the sink says.
///
/// ```
/// use dryfit_core::{DovetailCorner, Nm, Ratio, write_corner};
/// let mm = Nm::from_mm;
/// let layout = DovetailCorner::new(mm(120.0)?, mm(12.0)?, mm(12.0)?, 5, Ratio::new(1, 8)?).layout()?;
/// let mut memory = [0; 20_000];
/// let mut sink = dryfit_core::Fixed::new(&mut memory);
/// write_corner(&mut sink, &layout, "Drawer")?;
/// assert!(std::str::from_utf8(sink.written()).unwrap().contains("<g id=\"cut-outer\""));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
pub fn write_corner<S: Sink>(sink: S, layout: &DovetailLayout, title: &str) -> Result<S, Error> {
    let paper = Paper { layout, width: 2 * MARGIN + layout.width().nm() + NAMES };
    let mut svg = Svg::begin(sink, Nm::raw(paper.width), Nm::raw(paper.height()), title, DESCRIPTION)?;
    for surface in Surface::ALL {
        let [lo, hi] = paper.rectangle(surface);
        svg.path(LineKind::Mark, [lo, Point::new(hi.x, lo.y), hi, Point::new(lo.x, hi.y)])?;
        let beside = Point::raw(paper.width - NAMES / 2, (lo.y.nm() + hi.y.nm()) / 2);
        svg.label(surface.name(), beside, Nm::raw(FONT))?;
        words(&mut svg, &paper, surface)?;
    }
    // The first of the two faces shows the outline itself.
    for line in layout.lines().filter(|line| line.surface != Surface::TailOuter || line.stroke != Stroke::Flank) {
        svg.line(LineKind::Mark, [line.from, line.to].map(|p| paper.place(line.surface, p)))?;
    }
    let outline = layout.tail_profile(Fit::EXACT, Nm::ZERO)?;
    svg.line(LineKind::CutOuter, outline.vertices().map(|vertex| paper.place(Surface::TailOuter, vertex.at)))?;
    svg.end()
}

/// What is what on one surface: tail or pin, and the waste between, where a letter fits.
fn words<S: Sink>(svg: &mut Svg<S>, paper: &Paper<'_>, surface: Surface) -> Result<(), Error> {
    let layout = paper.layout;
    let (names, deep) = match surface {
        Surface::TailOuter | Surface::TailInner => (["tail", "waste"], layout.tail_length()),
        Surface::PinOuter if layout.lap().is_some() => return Ok(()),
        Surface::PinOuter | Surface::PinInner => (["waste", "pin"], layout.pin_length()),
        Surface::PinEnd => (["waste", "pin"], layout.socket_depth()),
        Surface::TailEnd => return Ok(()),
    };
    let lean = layout.pattern().slope().of(layout.tail_length());
    for span in layout.pattern().spans() {
        let [tail, pin] = names;
        let word = if span.owner == Side::A { tail } else { pin };
        // A letter's height around the word.
        let room = (span.to - span.from - lean).nm();
        let size = FONT.min(deep.nm() * 2 / 3).min((i128::from(room) * i128::from(MM) / i128::from(WIDE * word.len() as i64 + MM / 2)) as i64);
        if size >= SMALLEST {
            let centre = Point::raw((span.from + span.to).nm() / 2, deep.nm() / 2);
            svg.label(word, paper.place(surface, centre), Nm::raw(size))?;
        }
    }
    Ok(())
}

/// Where the surfaces lie on the sheet.
struct Paper<'a> {
    layout: &'a DovetailLayout,
    width: i64,
}

impl Paper<'_> {
    /// How high a surface is drawn: a face goes on beyond the baseline.
    fn drawn(&self, surface: Surface) -> i64 {
        let height = self.layout.height(surface).nm();
        if matches!(surface, Surface::TailEnd | Surface::PinEnd) { height } else { height + BEYOND }
    }

    /// From the sheet's lower edge to the lower edge of a surface, those after it being below.
    fn bottom(&self, surface: Surface) -> i64 {
        let below = Surface::ALL.into_iter().filter(|&other| other > surface).map(|other| self.drawn(other)).sum::<i64>();
        let strips = if surface < Surface::PinOuter { 2 } else { 1 };
        below + strips * MARGIN
    }

    fn height(&self) -> i64 {
        self.bottom(Surface::TailOuter) + self.drawn(Surface::TailOuter) + MARGIN
    }

    fn rectangle(&self, surface: Surface) -> [Point; 2] {
        let bottom = self.bottom(surface);
        [Point::raw(MARGIN, bottom), Point::raw(MARGIN + self.layout.width().nm(), bottom + self.drawn(surface))]
    }

    /// A point of a surface on the sheet. The inner faces hang below their end.
    fn place(&self, surface: Surface, p: Point) -> Point {
        let [lo, hi] = self.rectangle(surface);
        let y = if matches!(surface, Surface::TailInner | Surface::PinInner) { hi.y - p.y } else { lo.y + p.y };
        Point::new(lo.x + p.x, y)
    }
}

#[cfg(test)]
#[path = "corner_tests.rs"]
mod tests;

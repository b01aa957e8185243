//! Where every line of a dovetailed corner goes.

use super::warning::{DovetailWarning, warnings};
use crate::error::Error;
use crate::joint::fit::Fit;
use crate::joint::pattern::{Pattern, Side};
use crate::joint::profile::Profile;
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;

/// A surface of one of the two boards, with its own coordinates.
///
/// On all of them x goes along the boards' width, from one edge of the corner, the same for both boards. (But for the last nanometre a
/// layout is its own mirror image.) On a face, y goes from the end into the board; on end grain, from the inner face to the outer.
///
/// ```text
///        faces                       end grain
///   y ^  into the board          y ^ outer face
///     |------------- baseline      |_____________
///     |                            |             |
///     |____________> x  end        |_____________|> x   inner face
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Surface {
    /// The tail board's face outside the corner.
    TailOuter,
    /// The tail board's end grain.
    TailEnd,
    /// The tail board's face inside the corner.
    TailInner,
    /// The pin board's face outside the corner.
    PinOuter,
    /// The pin board's end grain.
    PinEnd,
    /// The pin board's face inside the corner.
    PinInner,
}

impl Surface {
    /// All six: the tail board's, then the pin board's, as they follow each other when the end is unfolded.
    pub const ALL: [Surface; 6] = [Surface::TailOuter, Surface::TailEnd, Surface::TailInner, Surface::PinOuter, Surface::PinEnd, Surface::PinInner];

    /// In words, e.g. `"pin board, inner face"`.
    pub const fn name(self) -> &'static str {
        match self {
            Surface::TailOuter => "tail board, outer face",
            Surface::TailEnd => "tail board, end grain",
            Surface::TailInner => "tail board, inner face",
            Surface::PinOuter => "pin board, outer face",
            Surface::PinEnd => "pin board, end grain",
            Surface::PinInner => "pin board, inner face",
        }
    }
}

/// What a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Stroke {
    /// Gauged parallel to the end, as deep as the mate is thick.
    Baseline,
    /// Where the side of a tail and of a pin meets the surface: slanted on the tail board's faces and the pin board's end grain, else square.
    Flank,
    /// Gauged on the end grain of a lapped corner: how deep the tails go in.
    Lap,
}

impl Stroke {
    /// `"baseline"`, `"flank"` or `"lap"`.
    pub const fn name(self) -> &'static str {
        match self {
            Stroke::Baseline => "baseline",
            Stroke::Flank => "flank",
            Stroke::Lap => "lap",
        }
    }
}

/// One straight line of a layout, in the coordinates of its [`Surface`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LayoutLine {
    /// Where it lies.
    pub surface: Surface,
    /// What it is.
    pub stroke: Stroke,
    /// Its start: on the baseline or the inner face, or at x = 0.
    pub from: Point,
    /// Its end.
    pub to: Point,
}

impl LayoutLine {
    /// Whether a straight-down cut may follow it: only the tails' flanks on the tail board. All others are marks.
    pub fn may_cut(&self) -> bool {
        self.stroke == Stroke::Flank && matches!(self.surface, Surface::TailOuter | Surface::TailInner)
    }
}

/// Widths across the boards: at the baseline, and at the end of the tails.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct DovetailWidths {
    /// Of the first tail; the others differ by a nanometre at most.
    pub tail: [Nm; 2],
    /// Of a socket between two tails, which a pin fills.
    pub socket: [Nm; 2],
    /// Of the half socket at x = 0.
    pub half_socket: [Nm; 2],
}

/// A corner set out: made by [`super::DovetailCorner::layout`].
///
/// ```
/// use dryfit_core::{DovetailCorner, Nm, Ratio, Surface};
/// let mm = Nm::from_mm;
/// let corner = DovetailCorner::new(mm(60.0)?, mm(9.0)?, mm(18.0)?, 2, Ratio::new(1, 8)?).lapped(DovetailCorner::FRONT_LAP);
/// let layout = corner.layout()?;
/// assert_eq!((layout.tail_length(), layout.pin_length()), (mm(11.65)?, mm(9.0)?));
/// // The lap hides the joint from the outer face.
/// assert!(layout.lines().all(|line| line.surface != Surface::PinOuter));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct DovetailLayout {
    /// Side A are the tails; widths at half the tails' length.
    pub(super) pattern: Pattern,
    pub(super) tail_board: Nm,
    pub(super) pin_board: Nm,
    pub(super) lap: Option<Nm>,
    pub(super) gauge: Nm,
    pub(super) socket: Nm,
}

/// What is drawn on each surface.
const STROKES: [(Surface, Stroke); 11] = [
    (Surface::TailOuter, Stroke::Baseline),
    (Surface::TailOuter, Stroke::Flank),
    (Surface::TailEnd, Stroke::Flank),
    (Surface::TailInner, Stroke::Baseline),
    (Surface::TailInner, Stroke::Flank),
    (Surface::PinOuter, Stroke::Baseline),
    (Surface::PinOuter, Stroke::Flank),
    (Surface::PinEnd, Stroke::Flank),
    (Surface::PinEnd, Stroke::Lap),
    (Surface::PinInner, Stroke::Baseline),
    (Surface::PinInner, Stroke::Flank),
];

impl DovetailLayout {
    /// The boards' width.
    pub const fn width(&self) -> Nm {
        self.pattern.run()
    }

    /// How many tails.
    pub const fn count(&self) -> u32 {
        self.pattern.boundaries / 2
    }

    /// Tails (side A) and pins (side B) by their widths at half the tails' length.
    pub const fn pattern(&self) -> &Pattern {
        &self.pattern
    }

    /// The tail board's thickness.
    pub const fn tail_board(&self) -> Nm {
        self.tail_board
    }

    /// The pin board's thickness.
    pub const fn pin_board(&self) -> Nm {
        self.pin_board
    }

    /// The front lap of a lapped corner.
    pub const fn lap(&self) -> Option<Nm> {
        self.lap
    }

    /// How far the tail board's baseline lies from its end: the pin board's thickness and the allowance, or what the lap leaves of it.
    pub fn tail_length(&self) -> Nm {
        self.lap.map_or(self.pin_board + self.gauge, |lap| self.pin_board - lap)
    }

    /// How far the pin board's baseline lies from its end: the tail board's thickness and the allowance.
    pub fn pin_length(&self) -> Nm {
        self.tail_board + self.gauge
    }

    /// How far the sockets for the tails go into the pin board's thickness, from its inner face.
    pub fn socket_depth(&self) -> Nm {
        self.pin_board - self.lap.unwrap_or(Nm::ZERO)
    }

    /// How far a flank leans over a length.
    fn rise(&self, length: Nm) -> i64 {
        self.pattern.slope().of(length).nm()
    }

    /// Where flank `index` of 2 x count meets the baseline, and where the same flank stands `depth` further out.
    fn flank(&self, index: u32, depth: Nm) -> (Nm, Nm) {
        // Even flanks begin a tail: it is wider further out, so they lean towards x = 0.
        let outwards = if index.is_multiple_of(2) { -1 } else { 1 };
        let rise = self.rise(self.tail_length());
        let middle = self.pattern.boundary(index).map_or(0, Nm::nm);
        let base = middle - outwards * (rise - half(rise));
        (Nm::raw(base), Nm::raw(base + outwards * self.rise(depth)))
    }

    /// The end of the tail board as a polyline, with the board at +y as in [`Profile`]: for a machine that cuts straight down, or by hand.
    /// `fit.flank` is the gap to the pins, measured square to the flank; as the pins are cut by hand to the tails, nothing is usual.
    ///
    /// # Errors
    /// As [`Profile::new`].
    pub fn tail_profile(&self, fit: Fit, kerf: Nm) -> Result<Profile, Error> {
        Profile::new(self.pattern, Side::A, self.tail_length(), fit, kerf)
    }

    /// Widths of tails and sockets.
    pub fn widths(&self) -> DovetailWidths {
        let length = self.tail_length();
        let ((base, end), (base_after, end_after)) = (self.flank(0, length), self.flank(1, length));
        let narrow = self.socket - Nm::raw(2 * self.rise(length));
        DovetailWidths { tail: [base_after - base, end_after - end], socket: [self.socket, narrow], half_socket: [base, end] }
    }

    /// All lines on all surfaces, surface by surface.
    pub fn lines(&self) -> impl Iterator<Item = LayoutLine> + Clone + use<> {
        let layout = *self;
        let drawn = STROKES.into_iter().filter(move |&(surface, stroke)| match (surface, stroke) {
            (Surface::PinOuter, _) => layout.lap.is_none(),
            (_, Stroke::Lap) => layout.lap.is_some(),
            _ => true,
        });
        drawn.flat_map(move |(surface, stroke)| {
            let count = if stroke == Stroke::Flank { layout.pattern.boundaries } else { 1 };
            (0..count).map(move |index| layout.line(surface, stroke, index))
        })
    }

    /// How large a surface is from its lower corner: the width, and on end grain the thickness, on a face the baseline's distance.
    pub fn height(&self, surface: Surface) -> Nm {
        match surface {
            Surface::TailOuter | Surface::TailInner => self.tail_length(),
            Surface::TailEnd => self.tail_board,
            Surface::PinOuter | Surface::PinInner => self.pin_length(),
            Surface::PinEnd => self.pin_board,
        }
    }

    fn line(&self, surface: Surface, stroke: Stroke, index: u32) -> LayoutLine {
        let height = self.height(surface);
        let (from, to) = match (surface, stroke) {
            (_, Stroke::Baseline) => (Point::new(Nm::ZERO, height), Point::new(self.width(), height)),
            (_, Stroke::Lap) => (Point::new(Nm::ZERO, self.socket_depth()), Point::new(self.width(), self.socket_depth())),
            (Surface::TailOuter | Surface::TailInner, Stroke::Flank) => {
                let (base, end) = self.flank(index, height);
                (Point::new(base, height), Point::new(end, Nm::ZERO))
            }
            (Surface::TailEnd, Stroke::Flank) => {
                let (_, end) = self.flank(index, self.tail_length());
                (Point::new(end, Nm::ZERO), Point::new(end, height))
            }
            (Surface::PinEnd, Stroke::Flank) => {
                let (base, end) = self.flank(index, self.socket_depth());
                (Point::new(base, Nm::ZERO), Point::new(end, self.socket_depth()))
            }
            (Surface::PinOuter | Surface::PinInner, Stroke::Flank) => {
                let (inner, outer) = self.flank(index, self.socket_depth());
                let x = if surface == Surface::PinInner { inner } else { outer };
                (Point::new(x, height), Point::new(x, Nm::ZERO))
            }
        };
        LayoutLine { surface, stroke, from, to }
    }

    /// What lies outside the ranges that the handbooks advise. It is set out all the same.
    pub fn warnings(&self) -> impl Iterator<Item = DovetailWarning> + use<> {
        let widths = self.widths();
        warnings(self.pattern.slope(), self.width(), self.count(), self.socket, widths)
    }
}

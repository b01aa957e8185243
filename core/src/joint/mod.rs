//! Joints, without heap: a run cut into spans, and what one side of it looks like.

mod angled;
mod apart;
mod boundaries;
mod dovetail;
mod fingers;
mod fit;
mod flat_box;
mod frame;
mod halves;
mod moved;
mod outline;
mod pattern;
mod profile;
pub mod proportion;
mod tabs;
mod tails;
mod turn;
mod zigzag;

#[cfg(feature = "alloc")]
pub(crate) use angled::RIGHT;
pub use boundaries::Boundaries;
pub use dovetail::{DovetailCorner, DovetailLayout, DovetailWarning, DovetailWidths, LayoutLine, Stroke, Surface};
pub use fingers::{Fingers, Parity};
pub use fit::{Corner, Fit, Role, Share, Vertex};
pub use flat_box::{Face, FlatBox};
pub use halves::Halves;
pub use outline::{Outline, OutlineWalk};
pub use pattern::{Pattern, Side, Span, Spans};
pub use profile::{Profile, Vertices};
pub use tabs::Tabs;
pub use tails::{Half, Tails};

#[cfg(feature = "alloc")]
pub(crate) use flat_box::cube_owner;
#[cfg(feature = "alloc")]
pub(crate) use moved::Moved;

use crate::error::Error;
use crate::length::Nm;

/// How two boards share their run. Side A is the board named first.
///
/// ```
/// use dryfit_core::{Fingers, Joint, Nm};
/// let joint = Joint::from(Fingers::count(5));
/// let pattern = joint.pattern(Nm::parse("50 mm")?, Nm::parse("3 mm")?)?;
/// assert_eq!(pattern.spans().len(), 5);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Joint {
    /// Alternate spans of equal width.
    Fingers(Fingers),
    /// Tabs of side A through slots of side B.
    Tabs(Tabs),
    /// One part of the run to each.
    Halves(Halves),
    /// Spans whose flanks lean, for two boards of one plane.
    Tails(Tails),
    /// The whole run to one side: it passes through a closed slot of the other.
    Whole(Side),
}

impl Joint {
    /// The pattern of a run; `thickness` is that of the thicker board, or how deep two boards of one plane reach into each other.
    ///
    /// # Errors
    /// What the constructor of the kind refuses.
    pub fn pattern(&self, run: Nm, thickness: Nm) -> Result<Pattern, Error> {
        match self {
            Joint::Fingers(fingers) => fingers.pattern(run, thickness),
            Joint::Tabs(tabs) => tabs.pattern(run),
            Joint::Halves(halves) => halves.pattern(run),
            Joint::Tails(tails) => tails.pattern(run, thickness),
            Joint::Whole(side) => Pattern::whole(run, *side),
        }
    }

    /// The same joint seen with the sides' names exchanged.
    #[must_use]
    pub fn swapped(self) -> Joint {
        match self {
            Joint::Fingers(fingers) => Joint::Fingers(fingers.swapped()),
            Joint::Tabs(tabs) => Joint::Tabs(tabs.swapped()),
            Joint::Halves(halves) => Joint::Halves(halves.swapped()),
            Joint::Tails(tails) => Joint::Tails(tails.swapped()),
            Joint::Whole(side) => Joint::Whole(side.other()),
        }
    }
}

impl From<Fingers> for Joint {
    fn from(fingers: Fingers) -> Joint {
        Joint::Fingers(fingers)
    }
}

impl From<Tabs> for Joint {
    fn from(tabs: Tabs) -> Joint {
        Joint::Tabs(tabs)
    }
}

impl From<Halves> for Joint {
    fn from(halves: Halves) -> Joint {
        Joint::Halves(halves)
    }
}

impl From<Tails> for Joint {
    fn from(tails: Tails) -> Joint {
        Joint::Tails(tails)
    }
}

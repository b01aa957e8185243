//! Tabs: side A through slots of side B, which keeps both ends.
//!
//! ```text
//!    B    A     B     A     B     A    B
//!       ┌───┐       ┌───┐       ┌───┐        A's edge: K = 3
//!   ────┘   └───────┘   └───────┘   └────
//!   |end|width|spacing|
//! ```

use super::pattern::{Pattern, Side};
use crate::bounds::{Bound, FINGER_COUNT, RUN, TAB_END, TAB_SPACING, TAB_WIDTH, within};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::round::{floor, half};

const TAB_COUNT: Bound = FINGER_COUNT.named("tab count");

/// Tabs of a width, at least a spacing apart, the outermost a distance from the ends.
///
/// As many as fit; what is left over widens the spacing evenly. Every tab is exactly `width` wide.
///
/// ```
/// use dryfit_core::{Nm, Tabs};
/// let tabs = Tabs::new(Nm::parse("20 mm")?, Nm::parse("40 mm")?);
/// assert_eq!(tabs.pattern(Nm::parse("200 mm")?)?.spans().len(), 7);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tabs {
    width: Nm,
    spacing: Nm,
    end: Option<Nm>,
    owner: Side,
}

impl Tabs {
    /// Tabs of a width and a least spacing; the end distance is half the spacing.
    pub fn new(width: Nm, spacing: Nm) -> Tabs {
        Tabs { width, spacing, end: None, owner: Side::A }
    }

    /// Another distance of the outermost tabs from the ends of the run.
    #[must_use]
    pub fn end(self, end: Nm) -> Tabs {
        Tabs { end: Some(end), ..self }
    }

    /// Gives the tabs to a side.
    #[must_use]
    pub fn owned_by(self, owner: Side) -> Tabs {
        Tabs { owner, ..self }
    }

    /// The same with the sides' names exchanged.
    #[must_use]
    pub fn swapped(self) -> Tabs {
        Tabs { owner: self.owner.other(), ..self }
    }

    /// The pattern of a run.
    ///
    /// # Errors
    /// [`Code::TabsDoNotFit`] where not even one fits, [`Code::OutOfRange`] for a value outside [`crate::bounds`].
    pub fn pattern(&self, run: Nm) -> Result<Pattern, Error> {
        let length = within!(RUN, run.nm());
        let width = within!(TAB_WIDTH, self.width.nm());
        let spacing = within!(TAB_SPACING, self.spacing.nm());
        let end = match self.end {
            Some(end) => within!(TAB_END, end.nm()),
            None => half(spacing).max(1),
        };
        let free = length - 2 * end - width;
        if free < 0 {
            return Err(Error::length(Code::TabsDoNotFit, RUN.name, length, width + 2 * end, RUN.most));
        }
        let pitches = floor(free, width + spacing);
        let rest = self.owner.other();
        if pitches == 0 {
            let start = half(length - width);
            return Ok(Pattern::new(run, rest, 2, [start, start + width], 0, 1));
        }
        let count = within!(TAB_COUNT, pitches + 1);
        let boundaries = 2 * count as u32;
        Ok(Pattern::new(run, rest, boundaries, [end * pitches, (end + width) * pitches], free, pitches))
    }
}

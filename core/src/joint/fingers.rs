//! Fingers: equal spans, side by side.
//!
//! ```text
//!        A     B     A     B     A
//!      ┌───┐     ┌───┐     ┌───┐        A's edge: n = 5, A at both ends
//!      │   └─────┘   └─────┘   │
//! ```
//!
//! Common practice, no source: an odd number, so that both ends look alike; a finger no narrower than its board is thick.

use super::pattern::{Pattern, Side};
use crate::bounds::{Bound, FINGER_COUNT, FINGER_WIDTH, RUN, within};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::round::floor;

const LEAST_WIDTH: Bound = FINGER_WIDTH.named("least finger width");
const THICKNESS_WIDTH: Bound = FINGER_WIDTH.named("thickness");

/// Which numbers of fingers are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Parity {
    /// Both ends belong to one side.
    Odd,
    /// Each side gets one end.
    Even,
    /// Whatever comes nearest to the width.
    Any,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Size {
    Width(Option<Nm>),
    Count(u32),
}

/// How a run is cut into fingers: by width or by count.
///
/// ```
/// use dryfit_core::{Fingers, Nm, Parity, Side};
/// let run = Nm::parse("100 mm")?;
/// let board = Nm::parse("3 mm")?;
/// assert_eq!(Fingers::width(Nm::parse("12 mm")?).pattern(run, board)?.spans().len(), 9);
/// assert_eq!(Fingers::count(4).first(Side::B).pattern(run, board)?.first(), Side::B);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Fingers {
    size: Size,
    parity: Parity,
    first: Side,
    least: Option<Nm>,
    /// So many at least, even if they get narrower than `least`.
    fewest: u32,
}

impl Default for Fingers {
    /// An odd number of fingers about three boards wide.
    fn default() -> Fingers {
        Fingers { size: Size::Width(None), parity: Parity::Odd, first: Side::A, least: None, fewest: 0 }
    }
}

impl Fingers {
    /// Fingers about `width` wide: the odd number nearest to run / width.
    pub fn width(width: Nm) -> Fingers {
        Fingers { size: Size::Width(Some(width)), ..Fingers::default() }
    }

    /// Exactly `count` fingers and gaps together.
    pub fn count(count: u32) -> Fingers {
        Fingers { size: Size::Count(count), ..Fingers::default() }
    }

    /// What the edge of one board gets in the face of another: the face keeps both ends, at least one tab between.
    pub fn through_face() -> Fingers {
        Fingers { fewest: 3, ..Fingers::default() }
    }

    /// Odd, even or any number. Does not matter for a given count.
    #[must_use]
    pub fn parity(self, parity: Parity) -> Fingers {
        Fingers { parity, ..self }
    }

    /// Who owns the first finger.
    #[must_use]
    pub fn first(self, first: Side) -> Fingers {
        Fingers { first, ..self }
    }

    /// Allows fingers as narrow as `least` in place of the thicker board's thickness.
    #[must_use]
    pub fn least(self, least: Nm) -> Fingers {
        Fingers { least: Some(least), ..self }
    }

    /// The same with the sides' names exchanged.
    #[must_use]
    pub fn swapped(self) -> Fingers {
        Fingers { first: self.first.other(), ..self }
    }

    /// The pattern of a run. `thickness` is that of the thicker board: the least and, three times over, the default width.
    ///
    /// # Errors
    /// [`Code::FingersDoNotFit`] for a count above run / least, [`Code::RunTooShort`] where not even the smallest number fits,
    /// [`Code::OutOfRange`] for a width, count or run outside [`crate::bounds`].
    pub fn pattern(&self, run: Nm, thickness: Nm) -> Result<Pattern, Error> {
        let mut pattern = Pattern::BLANK;
        self.pattern_into(run, thickness, &mut pattern).map(|()| pattern)
    }

    /// The same, made where it stands.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(super) fn pattern_into(&self, run: Nm, thickness: Nm, pattern: &mut Pattern) -> Result<(), Error> {
        let length = within!(RUN, run.nm());
        let least = within!(LEAST_WIDTH, self.least.unwrap_or(thickness).nm());
        let most = floor(length, least);
        let mut needed = least;
        let count = match self.size {
            Size::Count(count) => {
                let count = within!(FINGER_COUNT, i64::from(count));
                if most >= 1 && count > most {
                    return Err(Error::count(Code::FingersDoNotFit, FINGER_COUNT.name, count, 1, most));
                }
                if most < 1 { 0 } else { count }
            }
            Size::Width(width) => {
                let width = match width {
                    Some(width) => within!(FINGER_WIDTH, width.nm()),
                    None => 3 * within!(THICKNESS_WIDTH, thickness.nm()),
                };
                needed *= if self.parity == Parity::Even { 2 } else { 1 };
                self.nearest(length, width, most)
            }
        };
        if count < 1 {
            return Err(Error::length(Code::RunTooShort, RUN.name, length, needed, RUN.most));
        }
        within!(FINGER_COUNT, count);
        // Boundary i is i * run / count: numerators run and 2 run for the first two, then 2 run more each.
        *pattern = Pattern::new(run, self.first, count as u32 - 1, [length, 2 * length], 2 * length, count);
        pattern.least = least;
        Ok(())
    }

    /// The wanted number nearest to `length / width`, not above `most`; 0 where there is none.
    fn nearest(&self, length: i64, width: i64, most: i64) -> i64 {
        let (smallest, stride) = match self.parity {
            Parity::Odd => (1, 2),
            Parity::Even => (2, 2),
            Parity::Any => (1, 1),
        };
        // Rounded down to a number that may be.
        let whole = |more: i64| if stride == 2 { more & !1 } else { more };
        // Steps above the smallest: the nearest whole number to (length / width - smallest) / stride, halves downwards.
        let pitch = stride * width;
        let steps = -floor(pitch - 2 * (length - smallest * width), 2 * pitch);
        let mut count = smallest + (stride * steps.max(0)).min(whole(most - smallest));
        if self.fewest > 0 && count < i64::from(self.fewest) {
            count = smallest - whole(smallest - i64::from(self.fewest));
        }
        if count >= smallest && count <= length { count } else { 0 }
    }
}

//! A pattern seen from one side, as a polyline: pattern + depth + allowances + kerf.
//!
//! ```text
//!   y
//!   ^      ┌──────┐        ┌──────┐            y = depth: where the mate has its spans
//!   │ ─────┘      └────────┘      └─────       y = 0: where this side has its own
//!   └──────────────────────────────────> x     the board lies above, travel along +x
//! ```

use core::iter::FusedIterator;

use super::boundaries::Boundaries;
use super::fit::{Fit, Role, Share, Vertex};
use super::pattern::{Pattern, Side};
use crate::bounds::{DEPTH, KERF};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;

/// One side of a joint in the plane of its board.
///
/// The run goes from x = 0 to x = run; the board lies at +y, so this is the bottom edge of a counter-clockwise outline.
/// Own spans end at y = 0, the mate's spans are notches of `depth`, the mate's thickness.
///
/// ```
/// use dryfit_core::{Fingers, Fit, Nm, Profile, Side};
/// let board = Nm::parse("3 mm")?;
/// let pattern = Fingers::count(3).pattern(Nm::parse("30 mm")?, board)?;
/// let profile = Profile::new(pattern, Side::A, board, Fit::EXACT, Nm::ZERO)?;
/// let points: Vec<_> = profile.vertices().map(|v| (v.at.x.mm(), v.at.y.mm())).collect();
/// assert_eq!(points, [(0.0, 0.0), (10.0, 0.0), (10.0, 3.0), (20.0, 3.0), (20.0, 0.0), (30.0, 0.0)]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Profile {
    pattern: Pattern,
    side: Side,
    own_y: i64,
    mate_y: i64,
    /// How far every flank moves out of the board.
    flank: i64,
}

impl Profile {
    /// The profile of `side`; `depth` is the mate's thickness, `kerf` the full width of the cut.
    /// The polyline is the line that the cutter's centre follows.
    ///
    /// # Errors
    /// [`Code::SlotCloses`] where allowances and kerf leave an edge no length, [`Code::OutOfRange`] for depth and kerf.
    pub fn new(pattern: Pattern, side: Side, depth: Nm, fit: Fit, kerf: Nm) -> Result<Profile, Error> {
        let depth = DEPTH.check(depth.nm())?;
        let grow = half(KERF.check(kerf.nm())?);
        let share = match side {
            Side::A => Share::Lower,
            Side::B => Share::Upper,
        };
        let profile = Profile {
            pattern,
            side,
            own_y: -grow - fit.tip().nm(),
            mate_y: depth - grow - fit.shift(Role::Cheek, Share::Full).nm(),
            flank: grow + fit.shift(Role::Flank, share).nm(),
        };
        profile.check()?;
        Ok(profile)
    }

    /// Every edge keeps a positive length.
    fn check(&self) -> Result<(), Error> {
        let depth = self.mate_y - self.own_y;
        if self.pattern.boundaries > 0 && depth <= 0 {
            return Err(Error::length(Code::SlotCloses, "flank length", depth, 1, DEPTH.most));
        }
        for (side, sign) in [(self.side, 1), (self.side.other(), -1)] {
            let Some(widths) = self.pattern.narrowest(side) else { continue };
            let moved = [widths.inner.map(|w| w + 2 * sign * self.flank), widths.end.map(|w| w + sign * self.flank)];
            if let Some(width) = moved.into_iter().flatten().find(|width| *width <= 0) {
                return Err(Error::length(Code::SlotCloses, "span width", width, 1, self.pattern.run));
            }
        }
        Ok(())
    }

    /// The pattern behind it.
    pub const fn pattern(&self) -> &Pattern {
        &self.pattern
    }

    /// The vertices along +x, and the role of the edge that leaves each (the last is `Free`).
    pub fn vertices(&self) -> Vertices {
        let own = self.pattern.first() == self.side;
        Vertices {
            boundaries: self.pattern.boundaries(),
            levels: if own { [self.own_y, self.mate_y] } else { [self.mate_y, self.own_y] },
            roles: if own { [Role::Tip, Role::Cheek] } else { [Role::Cheek, Role::Tip] },
            shift: if own { self.flank } else { -self.flank },
            x: 0,
            run: self.pattern.run,
            stage: Stage::Span,
            left: 2 * self.pattern.boundaries as usize + 2,
        }
    }
}

/// The vertices of a [`Profile`]: exact-size, fused, no heap.
#[derive(Clone, Copy, Debug)]
pub struct Vertices {
    boundaries: Boundaries,
    /// The level of the span we are on, and the other.
    levels: [i64; 2],
    /// The role of the edge along the span we are on, and of the other.
    roles: [Role; 2],
    /// How far the next boundary moves along +x.
    shift: i64,
    x: i64,
    run: i64,
    stage: Stage,
    left: usize,
}

/// What the next vertex begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stage {
    Span,
    Flank,
}

impl Iterator for Vertices {
    type Item = Vertex;

    #[inline]
    fn next(&mut self) -> Option<Vertex> {
        self.left = self.left.checked_sub(1)?;
        let [y, other] = self.levels;
        let at = Point::raw(self.x, y);
        match self.stage {
            Stage::Span => {
                let [role, _] = self.roles;
                self.stage = Stage::Flank;
                self.x = self.boundaries.next().map_or(self.run, |b| b.nm() + self.shift);
                Some(Vertex { at, role })
            }
            Stage::Flank => {
                let [role, next] = self.roles;
                self.stage = Stage::Span;
                self.levels = [other, y];
                self.roles = [next, role];
                self.shift = -self.shift;
                Some(Vertex { at, role: if self.left == 0 { Role::Free } else { Role::Flank } })
            }
        }
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.left, Some(self.left))
    }
}

impl ExactSizeIterator for Vertices {}
impl FusedIterator for Vertices {}

#[cfg(test)]
#[path = "profile_tests.rs"]
mod tests;

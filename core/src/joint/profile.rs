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
use crate::round::{half, nearest};

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
    /// Of own spans' ends, and of the edges along the mate's.
    roles: [Role; 2],
    /// How far the ends of every flank move out of the board, on its own level and on the mate's.
    shifts: [i64; 2],
}

impl Profile {
    /// The profile of `side`; `depth` is the mate's thickness, `kerf` the full width of the cut.
    /// The polyline is the line that the cutter's centre follows.
    ///
    /// # Errors
    /// [`Code::SlotCloses`] where allowances and kerf leave an edge no length, [`Code::FingersDoNotFit`] where flanks lean by more than the
    /// run over a depth that is not the pattern's, [`Code::OutOfRange`] for depth and kerf.
    pub fn new(pattern: Pattern, side: Side, depth: Nm, fit: Fit, kerf: Nm) -> Result<Profile, Error> {
        let depth = DEPTH.check(depth.nm())?;
        let grow = half(KERF.check(kerf.nm())?);
        let share = match side {
            Side::A => Share::Lower,
            Side::B => Share::Upper,
        };
        let flank = grow + fit.shift(Role::Flank, share).nm();
        // All edges of a splice are flanks.
        let in_plane = pattern.slope().num() > 0;
        let roles = if in_plane { [Role::Flank; 2] } else { [Role::Tip, Role::Cheek] };
        let [own, mate] = if in_plane { [flank; 2] } else { roles.map(|role| grow + fit.shift(role, Share::Full).nm()) };
        let rise = pattern.slope().of(Nm::raw(depth)).nm();
        if rise > pattern.run {
            return Err(Error::length(Code::FingersDoNotFit, "slope times depth", rise, 0, pattern.run));
        }
        let shifts = lean(rise, depth, side, [own, mate], flank);
        let profile = Profile { pattern, side, own_y: -own, mate_y: depth - mate, roles, shifts };
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
            for shift in self.shifts {
                let moved = [widths.inner.map(|w| w + 2 * sign * shift), widths.end.map(|w| w + sign * shift)];
                if let Some(width) = moved.into_iter().flatten().find(|width| *width <= 0) {
                    return Err(Error::length(Code::SlotCloses, "span width", width, 1, self.pattern.run));
                }
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
        let ([at_own, at_mate], [tip, cheek]) = (self.shifts, self.roles);
        Vertices {
            boundaries: self.pattern.boundaries(),
            levels: if own { [self.own_y, self.mate_y] } else { [self.mate_y, self.own_y] },
            roles: if own { [tip, cheek] } else { [cheek, tip] },
            shifts: if own { [at_own, at_mate] } else { [-at_mate, -at_own] },
            boundary: 0,
            x: 0,
            run: self.pattern.run,
            stage: Stage::Span,
            left: 2 * self.pattern.boundaries as usize + 2,
        }
    }
}

/// How far the ends of a leaning flank move out of the board: half its rise, widest at the board's own tips, and what the levels and the
/// normal shift `flank` add. Both mates round the rise in the same place. `levels` is how far each level moves outwards.
fn lean(rise: i64, depth: i64, side: Side, levels: [i64; 2], flank: i64) -> [i64; 2] {
    if rise == 0 {
        return [flank; 2];
    }
    let (lower, upper) = (half(rise), rise - half(rise));
    let (at_own, at_mate) = if side == Side::A { (lower, -upper) } else { (upper, -lower) };
    let (rise, depth, normal) = (i128::from(rise), i128::from(depth), i128::from(flank));
    // Along the run a normal shift is longer by the flank's length over the depth.
    let along = (normal * normal * (rise * rise + depth * depth)).unsigned_abs().isqrt() as i128 * normal.signum();
    let [own, mate] = levels.map(|level| nearest(rise * i128::from(level) + along, depth));
    [at_own + own, at_mate + mate]
}

/// The vertices of a [`Profile`]: exact-size, fused, no heap.
#[derive(Clone, Copy, Debug)]
pub struct Vertices {
    boundaries: Boundaries,
    /// The level of the span we are on, and the other.
    levels: [i64; 2],
    /// The role of the edge along the span we are on, and of the other.
    roles: [Role; 2],
    /// How far the next boundary moves along +x, on the level of the span we are on and on the other.
    shifts: [i64; 2],
    /// The boundary that the flank stands on.
    boundary: i64,
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
                self.x = match self.boundaries.next() {
                    Some(boundary) => {
                        let [here, _] = self.shifts;
                        self.boundary = boundary.nm();
                        self.boundary + here
                    }
                    None => self.run,
                };
                Some(Vertex { at, role })
            }
            Stage::Flank => {
                let ([role, next], [here, there]) = (self.roles, self.shifts);
                self.stage = Stage::Span;
                self.levels = [other, y];
                self.roles = [next, role];
                self.shifts = [-there, -here];
                self.x = self.boundary + there;
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

//! A pattern seen from one side, as a polyline: pattern + depth + allowances + kerf.
//!
//! ```text
//!   y
//!   ^      ┌──────┐        ┌──────┐            y = depth: where the mate has its spans
//!   │ ─────┘      └────────┘      └─────       y = 0: where this side has its own
//!   └──────────────────────────────────> x     the board lies above, travel along +x
//! ```

use core::iter::FusedIterator;

use super::boundaries::Forwards;
use super::fingers::Fingers;
use super::fit::{Fit, Role, Share, Vertex};
use super::pattern::{Pattern, Side};
use crate::bounds::{DEPTH, KERF, within};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::point::Point;
use crate::ratio::Ratio;
use crate::round::{half, nearest_small, root};

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
        let mut profile = Profile { pattern, ..Profile::BLANK };
        let made = if pattern.slope().num() > 0 { profile.leaning(side, depth, fit, kerf) } else { profile.square(side, depth, fit, kerf) };
        made.map(|()| profile)
    }

    /// Nothing yet, in memory that a small chip has once: [`Profile::take_fingers`] and [`Profile::square`] come first.
    pub const BLANK: Profile =
        Profile { pattern: Pattern::BLANK, side: Side::A, own_y: 0, mate_y: 0, roles: [Role::Tip, Role::Cheek], shifts: [0; 2] };

    /// Takes the pattern of fingers over a run, as [`Fingers::pattern`]. [`Profile::square`] makes a profile of it.
    ///
    /// # Errors
    /// As [`Fingers::pattern`].
    pub fn take_fingers(&mut self, fingers: &Fingers, run: Nm, thickness: Nm) -> Result<(), Error> {
        fingers.pattern_into(run, thickness, &mut self.pattern)
    }

    /// Becomes the profile of its pattern, whose flanks stand square: a chip that makes fingers alone needs nothing of flanks that lean.
    ///
    /// ```
    /// use dryfit_core::{Fingers, Fit, Nm, Profile, Side};
    /// let (run, board) = (Nm::parse("30 mm")?, Nm::parse("3 mm")?);
    /// let mut profile = Profile::BLANK;
    /// profile.take_fingers(&Fingers::count(3), run, board)?;
    /// profile.square(Side::A, board, Fit::EXACT, Nm::ZERO)?;
    /// assert_eq!(profile, Profile::new(Fingers::count(3).pattern(run, board)?, Side::A, board, Fit::EXACT, Nm::ZERO)?);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// As [`Profile::new`].
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn square(&mut self, side: Side, depth: Nm, fit: Fit, kerf: Nm) -> Result<(), Error> {
        let (depth, grow) = (within!(DEPTH, depth.nm()), half(within!(KERF, kerf.nm())));
        self.pattern.slope = Ratio::ZERO;
        self.side = side;
        (self.own_y, self.mate_y) = (-(grow + fit.tip().nm()), depth - (grow - fit.cheek().nm()));
        self.roles = [Role::Tip, Role::Cheek];
        self.shifts = [flank(side, fit, grow); 2];
        self.sound()
    }

    #[inline(never)]
    fn leaning(&mut self, side: Side, depth: Nm, fit: Fit, kerf: Nm) -> Result<(), Error> {
        let (depth, grow) = (within!(DEPTH, depth.nm()), half(within!(KERF, kerf.nm())));
        let flank = flank(side, fit, grow);
        let (run, rise) = (self.pattern.run, self.pattern.slope().of(Nm::raw(depth)).nm());
        if rise > run {
            return Err(Error::length(Code::FingersDoNotFit, "slope times depth", rise, 0, run));
        }
        self.side = side;
        (self.own_y, self.mate_y) = (-flank, depth - flank);
        // All edges of a splice are flanks.
        self.roles = [Role::Flank; 2];
        self.shifts = lean(rise, depth, side, [flank; 2], flank);
        self.sound()
    }

    /// Whether all its edges keep a length.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn sound(&self) -> Result<(), Error> {
        let flank = self.mate_y - self.own_y;
        if self.pattern.boundaries > 0 && flank <= 0 {
            return Err(Error::length(Code::SlotCloses, "flank length", flank, 1, DEPTH.most));
        }
        let narrowest = self.narrowest();
        if narrowest <= 0 {
            return Err(Error::length(Code::SlotCloses, "span width", narrowest, 1, self.pattern.run));
        }
        Ok(())
    }

    /// The width of a span that has none left; else that of another.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn narrowest(&self) -> i64 {
        let [own, mate] = self.shifts;
        let mut width = self.width(self.side, own);
        if width > 0 && own != mate {
            width = self.width(self.side, mate);
        }
        if width > 0 {
            width = self.width(self.side.other(), -own);
        }
        if width > 0 && own != mate {
            width = self.width(self.side.other(), -mate);
        }
        width
    }

    /// The same of a side's spans, whose ends move out of the board by so much.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn width(&self, side: Side, shift: i64) -> i64 {
        let widths = self.pattern.narrowest(side);
        let inner = widths.inner + 2 * shift;
        if inner > 0 { widths.end + shift } else { inner }
    }

    /// The pattern behind it.
    pub const fn pattern(&self) -> &Pattern {
        &self.pattern
    }

    /// The vertices along +x, and the role of the edge that leaves each (the last is `Free`).
    pub fn vertices(&self) -> Vertices {
        self.vertices_from(Point::ZERO)
    }

    /// The same, where the run begins at another point.
    ///
    /// ```
    /// use dryfit_core::{Fingers, Fit, Nm, Point, Profile, Side};
    /// let board = Nm::parse("3 mm")?;
    /// let pattern = Fingers::count(3).pattern(Nm::parse("30 mm")?, board)?;
    /// let profile = Profile::new(pattern, Side::A, board, Fit::EXACT, Nm::ZERO)?;
    /// let corner = Point::new(Nm::parse("5 mm")?, Nm::parse("7 mm")?);
    /// assert_eq!(profile.vertices_from(corner).next().map(|first| first.at), Some(corner));
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn vertices_from(&self, start: Point) -> Vertices {
        let own = self.pattern.first() == self.side;
        let ([at_own, at_mate], [tip, cheek]) = (self.shifts, self.roles);
        // A run of 10 m that begins 10 m away: nothing overflows.
        let (x, y) = (start.x.nm(), start.y.nm());
        let (own_y, mate_y) = (y + self.own_y, y + self.mate_y);
        Vertices {
            boundaries: Forwards::new(&self.pattern, x),
            levels: if own { [own_y, mate_y] } else { [mate_y, own_y] },
            roles: if own { [tip, cheek] } else { [cheek, tip] },
            shifts: if own { [at_own, at_mate] } else { [-at_mate, -at_own] },
            boundary: x,
            x,
            end: x + self.pattern.run,
            left: 2 * self.pattern.boundaries + 2,
        }
    }
}

/// How far a square flank moves out of the board.
fn flank(side: Side, fit: Fit, grow: i64) -> i64 {
    let share = match side {
        Side::A => Share::Lower,
        Side::B => Share::Upper,
    };
    grow + fit.shift(Role::Flank, share).nm()
}

/// How far the ends of a leaning flank move out of the board: half its rise, widest at the board's own tips, and what the levels and the
/// normal shift `flank` add. Both mates round the rise in the same place. `levels` is how far each level moves outwards.
fn lean(rise: i64, depth: i64, side: Side, levels: [i64; 2], flank: i64) -> [i64; 2] {
    if rise == 0 { [flank; 2] } else { leaning(rise, depth, side, levels, flank) }
}

#[cold]
#[inline(never)]
fn leaning(rise: i64, depth: i64, side: Side, levels: [i64; 2], flank: i64) -> [i64; 2] {
    let (lower, upper) = (half(rise), rise - half(rise));
    let (at_own, at_mate) = if side == Side::A { (lower, -upper) } else { (upper, -lower) };
    // Along the run a normal shift is longer by the flank's length over the depth.
    let square = |value: i64| u128::from(value.unsigned_abs()) * u128::from(value.unsigned_abs());
    let along = root(square(flank) * (square(rise) + square(depth))) as i64 * flank.signum();
    // A rise of 10^10 nm at most, and shifts of 2 * 10^7 by kerf and allowances: 64 bits are enough for each product.
    let [own, mate] = levels.map(|level| nearest_small(rise * level + along, depth));
    [at_own + own, at_mate + mate]
}

/// The vertices of a [`Profile`]: exact-size, fused, no heap.
#[derive(Clone, Copy, Debug)]
pub struct Vertices {
    boundaries: Forwards,
    /// The level of the span we are on, and the other.
    levels: [i64; 2],
    /// The role of the edge along the span we are on, and of the other.
    roles: [Role; 2],
    /// How far the next boundary moves along +x, on the level of the span we are on and on the other.
    shifts: [i64; 2],
    /// The boundary that the flank stands on.
    boundary: i64,
    x: i64,
    /// Where the run ends.
    end: i64,
    /// Even where a span begins next, odd where it ends.
    left: u32,
}

impl Vertices {
    /// None at all.
    pub const NONE: Vertices =
        Vertices { boundaries: Forwards::NONE, levels: [0; 2], roles: [Role::Free; 2], shifts: [0; 2], boundary: 0, x: 0, end: 0, left: 0 };

    /// Where a span begins.
    #[inline]
    fn begin(&mut self) -> Vertex {
        let begun = Vertex { at: Point::raw(self.x, self.levels[0]), role: self.roles[0] };
        // The end of the run does not move.
        self.x = if self.left > 1 {
            self.boundary = self.boundaries.next().nm();
            self.boundary + self.shifts[0]
        } else {
            self.end
        };
        begun
    }

    /// Where it ends: the next one lies on the other level.
    #[inline]
    fn end(&mut self) -> Vertex {
        let ([y, other], [role, next], [here, there]) = (self.levels, self.roles, self.shifts);
        let ended = Vertex { at: Point::raw(self.x, y), role: if self.left == 0 { Role::Free } else { Role::Flank } };
        self.levels = [other, y];
        self.roles = [next, role];
        self.shifts = [-there, -here];
        self.x = self.boundary + there;
        ended
    }
}

impl Iterator for Vertices {
    type Item = Vertex;

    #[inline]
    fn next(&mut self) -> Option<Vertex> {
        self.left = self.left.checked_sub(1)?;
        Some(if self.left % 2 == 1 { self.begin() } else { self.end() })
    }

    /// A span at a time, one end after the other.
    #[inline]
    fn fold<A, F: FnMut(A, Vertex) -> A>(mut self, first: A, mut with: F) -> A {
        let mut folded = first;
        while self.left > 0 {
            if self.left.is_multiple_of(2) {
                self.left -= 1;
                folded = with(folded, self.begin());
            }
            self.left -= 1;
            folded = with(folded, self.end());
        }
        folded
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        (self.left as usize, Some(self.left as usize))
    }
}

impl ExactSizeIterator for Vertices {}
impl FusedIterator for Vertices {}

#[cfg(test)]
#[path = "profile_tests.rs"]
mod tests;

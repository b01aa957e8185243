//! Allowances, and the role that says which of them an edge gets.

use super::angled::RIGHT;
use crate::bounds::{ALLOWANCE, within};
use crate::error::Error;
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;

/// What an edge of a panel touches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// A cut edge of another board.
    Flank,
    /// The face of another board: the side of a slot, the shoulder behind a finger.
    Cheek,
    /// Nothing: the end of a finger or tab, flush with the other board's face.
    Tip,
    /// Nothing: an edge without a joint.
    Free,
}

impl Role {
    /// `"flank"`, `"cheek"`, `"tip"` or `"free"`.
    pub const fn name(self) -> &'static str {
        match self {
            Role::Flank => "flank",
            Role::Cheek => "cheek",
            Role::Tip => "tip",
            Role::Free => "free",
        }
    }
}

/// How much of an allowance this edge takes; its opposite takes the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Share {
    /// The lower half.
    Lower,
    /// The rest of a lower half.
    Upper,
    /// All of it.
    Full,
}

/// Allowances: the gap between two mates; negative is interference (as in ISO 286-1). From -10 mm to 10 mm.
///
/// `flank`: between two cut edges. `cheek`: between a cut edge and a board's face, so a slot is thickness + cheek wide.
/// `tip`: how far a finger's end stands proud (+) or back (-).
///
/// ```
/// use dryfit_core::{Fit, Nm};
/// let fit = Fit::new(Nm::parse("0.05 mm")?, Nm::parse("0.1 mm")?, Nm::ZERO)?;
/// assert_eq!(fit.cheek(), Nm::parse("0.1 mm")?);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Fit {
    flank: Nm,
    cheek: Nm,
    tip: Nm,
}

impl Fit {
    /// No allowance: the parts fill the blocks exactly.
    pub const EXACT: Fit = Fit { flank: Nm::ZERO, cheek: Nm::ZERO, tip: Nm::ZERO };

    /// Three allowances.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`], with the allowance's name.
    pub const fn new(flank: Nm, cheek: Nm, tip: Nm) -> Result<Fit, Error> {
        within!(const { ALLOWANCE.named("flank") }, flank.nm());
        within!(const { ALLOWANCE.named("cheek") }, cheek.nm());
        within!(const { ALLOWANCE.named("tip") }, tip.nm());
        Ok(Fit { flank, cheek, tip })
    }

    /// The nearest allowances that are allowed: for numbers that were checked where they came in.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub const fn clamped(flank: i64, cheek: i64, tip: i64) -> Fit {
        Fit { flank: ALLOWANCE.nearest(flank), cheek: ALLOWANCE.nearest(cheek), tip: ALLOWANCE.nearest(tip) }
    }

    /// Gap between two cut edges.
    pub const fn flank(&self) -> Nm {
        self.flank
    }

    /// Gap between a cut edge and a face.
    pub const fn cheek(&self) -> Nm {
        self.cheek
    }

    /// How far a finger's end stands proud.
    pub const fn tip(&self) -> Nm {
        self.tip
    }

    /// How far an edge moves outwards, away from its board.
    pub const fn shift(&self, role: Role, share: Share) -> Nm {
        let gap = match role {
            Role::Flank => self.flank.nm(),
            Role::Cheek => self.cheek.nm(),
            Role::Tip => return self.tip,
            Role::Free => return Nm::ZERO,
        };
        Nm::raw(match share {
            Share::Lower => -half(gap),
            Share::Upper => half(gap) - gap,
            Share::Full => -gap,
        })
    }
}

/// A vertex of a finished outline, and the role of the edge that leaves it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Vertex {
    /// Where.
    pub at: Point,
    /// The leaving edge's role.
    pub role: Role,
}

/// A vertex of a nominal outline, with all that is known of the edge that leaves it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Corner {
    /// Where.
    pub at: Point,
    /// The leaving edge's role.
    pub role: Role,
    /// Its share of the allowance.
    pub share: Share,
    pub(crate) mate: u16,
    /// The sine of the angle between the edge and the mate's face, in billionths.
    pub(crate) sine: u32,
}

impl Corner {
    /// How far the leaving edge moves outwards: what the fit asks for is measured square to the mate's face.
    pub(crate) fn shift(&self, fit: Fit) -> i64 {
        let gap = fit.shift(self.role, self.share).nm();
        if self.sine == RIGHT { gap } else { super::angled::along(gap, self.sine) }
    }

    pub(crate) const NOBODY: u16 = u16::MAX;

    /// The board that the leaving edge touches, by its number in the assembly.
    pub const fn mate(&self) -> Option<usize> {
        if self.mate == Corner::NOBODY { None } else { Some(self.mate as usize) }
    }
}

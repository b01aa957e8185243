//! What is asked of a joint and of its fit.

use dryfit_core::bounds::ALLOWANCE;
use dryfit_core::{Fingers, Fit, Half, Halves, Joint, Parity, Ratio, Side, Tabs, Tails};

use super::length::dryfit_nm;
use crate::given::Given;

/// Alternate spans of equal width: a finger joint. By `count`, else about `width` wide.
pub const DRYFIT_JOINT_FINGERS: u32 = 0;
/// Tabs of one board through slots of the other: `width` and `spacing`, perhaps `end`.
pub const DRYFIT_JOINT_TABS: u32 = 1;
/// One part of the run to each board, at `numerator` / `denominator` of it: a halving.
pub const DRYFIT_JOINT_HALVES: u32 = 2;
/// Spans whose flanks lean, for two boards of one plane: `count` tails, a slope of `numerator` : `denominator`, perhaps pins of `width`.
pub const DRYFIT_JOINT_TAILS: u32 = 3;
/// The whole run to one board: it passes through a closed slot of the other.
pub const DRYFIT_JOINT_WHOLE: u32 = 4;
/// Fingers of a board's edge in the face of another, which keeps both ends: three spans at least.
pub const DRYFIT_JOINT_THROUGH_FACE: u32 = 5;

/// The first side of a joint.
pub const DRYFIT_SIDE_A: u32 = 0;
/// The second side of a joint.
pub const DRYFIT_SIDE_B: u32 = 1;

/// An odd number of fingers.
pub const DRYFIT_PARITY_ODD: u32 = 0;
/// An even number of fingers.
pub const DRYFIT_PARITY_EVEN: u32 = 1;
/// Any number of fingers.
pub const DRYFIT_PARITY_ANY: u32 = 2;

/// A row of tails begins and ends with half a pin.
pub const DRYFIT_ENDS_HALF_PINS: u32 = 0;
/// A row of tails begins and ends with half a tail.
pub const DRYFIT_ENDS_HALF_TAILS: u32 = 1;

/// What is asked of a joint. 0 is the usual value of every field; a field that the kind has no use for must be 0.
///
/// `{ .kind = DRYFIT_JOINT_FINGERS, .count = 9 }` and `{ .width = 12 * DRYFIT_MM }` are whole joints.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_joint {
    /// One of `DRYFIT_JOINT_...`.
    pub kind: u32,
    /// Fingers and gaps together, or whole tails.
    pub count: u32,
    /// Fingers by width: one of `DRYFIT_PARITY_...`.
    pub parity: u32,
    /// One of `DRYFIT_SIDE_...`: who owns the first span; of tabs and tails, whose they are; of a whole run, whose it is.
    pub first: u32,
    /// Halves: where the run is split, 1/2 if both are 0. Tails: rise over run of the slope, 1:8 if both are 0.
    pub numerator: u32,
    /// See `numerator`.
    pub denominator: u32,
    /// Tails: one of `DRYFIT_ENDS_...`.
    pub ends: u32,
    /// Fingers: about how wide, three times the thicker board if 0. Tabs: how wide, exactly. Tails: how wide a pin is at mid-depth, as wide as a tail if 0.
    pub width: dryfit_nm,
    /// Tabs: from one tab to the next.
    pub spacing: dryfit_nm,
    /// Tabs: least distance from an end of the run, half the spacing if 0.
    pub end: dryfit_nm,
    /// Fingers: how narrow they may get, as the thicker board is thick if 0.
    pub least: dryfit_nm,
}

/// The fields that not every kind has a use for, as bits.
const COUNT: u32 = 1;
const PARITY: u32 = 1 << 1;
const RATIO: u32 = 3 << 2;
const ENDS: u32 = 1 << 4;
const WIDTH: u32 = 1 << 5;
const SPACING: u32 = 1 << 6;
const END: u32 = 1 << 7;
const LEAST: u32 = 1 << 8;
/// What each kind has a use for.
const USED: [u32; 6] = [COUNT | PARITY | WIDTH | LEAST, WIDTH | SPACING | END, RATIO, COUNT | RATIO | ENDS | WIDTH, 0, PARITY | LEAST];

impl dryfit_joint {
    /// The joint of the core.
    #[inline(never)]
    pub(crate) fn core(&self, given: &mut Given) -> Joint {
        self.only(given.one_of(&USED, 0, self.kind, "joint"), given);
        let first = self.first(given);
        match self.kind {
            DRYFIT_JOINT_TABS => {
                let tabs = Tabs::new(given.length(self.width, "tab width"), given.length(self.spacing, "spacing")).owned_by(first);
                Joint::Tabs(given.usual(self.end, "end").map_or(tabs, |end| tabs.end(end)))
            }
            DRYFIT_JOINT_HALVES => Joint::Halves(Halves::split(self.ratio(Ratio::HALF, given)).first(first)),
            DRYFIT_JOINT_TAILS => {
                let half = given.one_of(&[Half::Pins, Half::Tails], Half::Pins, self.ends, "ends");
                let tails = Tails::new(self.count, self.ratio(Ratio::EIGHTH, given)).half(half);
                let tails = given.usual(self.width, "pin width").map_or(tails, |width| tails.pin_width(width));
                Joint::Tails(if first == Side::B { tails.swapped() } else { tails })
            }
            DRYFIT_JOINT_WHOLE => Joint::Whole(first),
            DRYFIT_JOINT_THROUGH_FACE => Joint::Fingers(self.bounded(Fingers::through_face(), given)),
            _ => Joint::Fingers(self.sized(given)),
        }
    }

    /// The fingers of the core, where only fingers will do.
    #[inline(never)]
    pub(crate) fn fingers(&self, given: &mut Given) -> Fingers {
        given.up_to(self.kind, DRYFIT_JOINT_FINGERS, "joint");
        self.only(COUNT | PARITY | WIDTH | LEAST, given);
        self.sized(given)
    }

    fn sized(&self, given: &mut Given) -> Fingers {
        let sized = match (self.count, given.usual(self.width, "finger width")) {
            (0, None) => Fingers::default(),
            (0, Some(width)) => Fingers::width(width),
            (count, _) => {
                given.unused(true, self.width, "finger width beside a count");
                Fingers::count(count)
            }
        };
        self.bounded(sized, given)
    }

    fn bounded(&self, fingers: Fingers, given: &mut Given) -> Fingers {
        let parity = given.one_of(&[Parity::Odd, Parity::Even, Parity::Any], Parity::Odd, self.parity, "parity");
        let fingers = fingers.parity(parity).first(self.first(given));
        given.usual(self.least, "least finger width").map_or(fingers, |least| fingers.least(least))
    }

    fn first(&self, given: &mut Given) -> Side {
        side(self.first, "first", given)
    }

    fn ratio(&self, usual: Ratio, given: &mut Given) -> Ratio {
        if (self.numerator, self.denominator) == (0, 0) {
            return usual;
        }
        given.or(Ratio::new(self.numerator, self.denominator), usual)
    }

    /// Refuses what this kind has no use for.
    #[inline(never)]
    fn only(&self, used: u32, given: &mut Given) {
        let numbers = [self.count, self.parity, self.numerator, self.denominator, self.ends];
        let lengths = [self.width, self.spacing, self.end, self.least];
        let mut bits = used;
        for (name, number) in ["count", "parity", "numerator", "denominator", "ends"].into_iter().zip(numbers) {
            given.unused(bits & 1 == 0, i64::from(number), name);
            bits >>= 1;
        }
        for (name, number) in ["width", "spacing", "end", "least"].into_iter().zip(lengths) {
            given.unused(bits & 1 == 0, number, name);
            bits >>= 1;
        }
    }
}

/// One of `DRYFIT_SIDE_...`.
pub(crate) fn side(number: u32, name: &'static str, given: &mut Given) -> Side {
    if given.up_to(number, DRYFIT_SIDE_B, name) == DRYFIT_SIDE_A { Side::A } else { Side::B }
}

/// Allowances: the full gap between two mates; negative is interference. Each from -10 mm to 10 mm.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default)]
pub struct dryfit_fit {
    /// Cut edge against cut edge.
    pub flank: dryfit_nm,
    /// Cut edge against a sheet's face: a slot is as wide as its board is thick, and this.
    pub cheek: dryfit_nm,
    /// How far a finger's end stands proud (positive) or back (negative).
    pub tip: dryfit_nm,
}

impl dryfit_fit {
    #[inline(never)]
    pub(crate) fn core(&self, given: &mut Given) -> Fit {
        given.several(&ALLOWANCE, &["flank", "cheek", "tip"], &[self.flank, self.cheek, self.tip]);
        Fit::clamped(self.flank, self.cheek, self.tip)
    }
}

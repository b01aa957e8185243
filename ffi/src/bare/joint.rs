//! What is asked of a joint and of its fit.

use dryfit_core::bounds::{ALLOWANCE, Unit};
use dryfit_core::{Fingers, Fit, Half, Halves, Joint, Nm, Parity, Ratio, Side, Tabs, Tails};

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
    #[cfg_attr(target_pointer_width = "32", inline(never))]
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
            DRYFIT_JOINT_THROUGH_FACE => {
                self.check(given);
                Joint::Fingers(self.bounded(Fingers::through_face()))
            }
            _ => {
                self.check(given);
                Joint::Fingers(self.sized())
            }
        }
    }

    /// The fingers of the core, where only fingers will do.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn fingers(&self, given: &mut Given) -> Fingers {
        given.up_to(self.kind, DRYFIT_JOINT_FINGERS, "joint");
        self.only(COUNT | PARITY | WIDTH | LEAST, given);
        self.check(given);
        self.sized()
    }

    fn sized(&self) -> Fingers {
        match (self.count, self.width) {
            (0, 0) => self.bounded(Fingers::default()),
            (0, width) => self.bounded(Fingers::width(Nm::clamped(width))),
            (count, _) => self.bounded(Fingers::count(count)),
        }
    }

    /// Looks at the numbers of fingers.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn check(&self, given: &mut Given) {
        given.length(self.width, "finger width");
        given.unused(self.count != 0, Unit::Length, self.width, "finger width beside a count");
        given.up_to(self.parity, DRYFIT_PARITY_ANY, "parity");
        given.up_to(self.first, DRYFIT_SIDE_B, "first");
        given.length(self.least, "least finger width");
    }

    fn bounded(&self, fingers: Fingers) -> Fingers {
        let parity = match self.parity {
            DRYFIT_PARITY_EVEN => Parity::Even,
            DRYFIT_PARITY_ANY => Parity::Any,
            _ => Parity::Odd,
        };
        let first = if self.first == DRYFIT_SIDE_A { Side::A } else { Side::B };
        let fingers = fingers.parity(parity).first(first);
        if self.least == 0 { fingers } else { fingers.least(Nm::clamped(self.least)) }
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
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn only(&self, used: u32, given: &mut Given) {
        let mut number = |bit: u32, number: u32, name| given.unused(used & bit == 0, Unit::Count, number.into(), name);
        number(COUNT, self.count, "count");
        number(PARITY, self.parity, "parity");
        number(RATIO, self.numerator, "numerator");
        number(RATIO, self.denominator, "denominator");
        number(ENDS, self.ends, "ends");
        let mut length = |bit: u32, length: dryfit_nm, name| given.unused(used & bit == 0, Unit::Length, length, name);
        length(WIDTH, self.width, "width");
        length(SPACING, self.spacing, "spacing");
        length(END, self.end, "end");
        length(LEAST, self.least, "least");
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
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub(crate) fn check(&self, given: &mut Given) {
        // SAFETY: three numbers, one after the other.
        let numbers = unsafe { &*(&raw const *self).cast::<[dryfit_nm; 3]>() };
        given.several(&ALLOWANCE, &["flank", "cheek", "tip"], numbers);
    }

    /// The allowances of the core, once they are checked.
    pub(crate) const fn core(&self) -> Fit {
        Fit::clamped(self.flank, self.cheek, self.tip)
    }
}

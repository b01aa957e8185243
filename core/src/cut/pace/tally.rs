//! What a job costs in: how long its lines are, how many parts come off it, how often the tool starts and turns, and how far it goes in between.

use core::iter::Sum;
use core::ops::Add;

use crate::bounds::PASSES;
use crate::cut::contour::Contour;
use crate::cut::route::Route;
use crate::error::Error;

/// One thing that takes time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Cost {
    /// The length of what is cut.
    Cut,
    /// The parts.
    Parts,
    /// The starts of a cut.
    Starts,
    /// The corners.
    Corners,
    /// The way with the tool up.
    Travel,
    /// The sheets.
    Sheets,
}

impl Cost {
    /// All of them; those that tell most with least come first.
    pub const ALL: [Cost; 6] = [Cost::Cut, Cost::Parts, Cost::Starts, Cost::Corners, Cost::Travel, Cost::Sheets];

    /// `"cut"`, `"parts"`, `"starts"`, `"corners"`, `"travel"` or `"sheets"`.
    pub const fn name(self) -> &'static str {
        match self {
            Cost::Cut => "cut",
            Cost::Parts => "parts",
            Cost::Starts => "starts",
            Cost::Corners => "corners",
            Cost::Travel => "travel",
            Cost::Sheets => "sheets",
        }
    }

    /// Nanometres a metre for lengths, 1 for what is counted.
    pub(super) const fn unit(self) -> f64 {
        match self {
            Cost::Cut | Cost::Travel => 1e9,
            Cost::Parts | Cost::Starts | Cost::Corners | Cost::Sheets => 1.0,
        }
    }

    /// Whether it belongs to the job, and not only to the way in which it was laid out.
    pub(super) const fn of_job(self) -> bool {
        matches!(self, Cost::Cut | Cost::Parts | Cost::Corners)
    }
}

/// What is to be done on one sheet.
#[derive(Clone, Copy, Debug)]
pub struct Work<'a> {
    /// Its lines.
    pub lines: &'a [Contour],
    /// The order in which they are cut.
    pub route: &'a Route,
    /// How many parts come off it.
    pub parts: usize,
}

/// What a sheet or a job costs in, all passes together. Tallies of sheets add up to that of the job.
///
/// ```
/// use dryfit_core::{Contour, LineKind, Nm, Point, Route, RouteSpec, Shape, Tally, Work};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let plate = Shape::from_loops([[at(30.0, 40.0)?, at(90.0, 40.0)?, at(90.0, 80.0)?, at(30.0, 80.0)?]]);
/// let lines = [Contour::closed(LineKind::CutOuter, plate.rings().next().unwrap().bent())];
/// let work = Work { lines: &lines, route: &Route::new(&lines, &RouteSpec::default()), parts: 1 };
/// let tally = Tally { cut: 400_000_000, parts: 1, starts: 2, corners: 8, travel: 50_000_000, sheets: 1 };
/// assert_eq!(Tally::of(&work, 2)?, tally);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Tally {
    /// The length of what is cut, in nanometres; what two parts share is cut once.
    pub cut: i64,
    /// How many parts there are, however often they are cut.
    pub parts: i64,
    /// How often the tool starts a cut.
    pub starts: i64,
    /// How many corners it cuts; see [`Contour::corners`].
    pub corners: i64,
    /// The way with the tool up, in nanometres.
    pub travel: i64,
    /// How many sheets there are.
    pub sheets: i64,
}

impl Tally {
    /// That of one sheet. Each line is cut `passes` times, 1 to 1000, as in [`crate::Machine::seconds`].
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the passes.
    pub fn of(work: &Work<'_>, passes: i64) -> Result<Tally, Error> {
        let passes = PASSES.check(passes)?;
        let lines = work.route.cuts().iter().filter_map(|cut| work.lines.get(cut.contour));
        let one = |line: &Contour| Tally {
            cut: line.length().saturating_mul(passes),
            starts: passes,
            parts: 0,
            corners: (line.corners() as i64).saturating_mul(passes),
            travel: line.way_back().saturating_mul(passes - 1),
            sheets: 0,
        };
        let parts = i64::try_from(work.parts).unwrap_or(i64::MAX);
        let sheet = Tally { parts, travel: work.route.travel(), sheets: 1, ..Tally::default() };
        Ok(lines.map(one).fold(sheet, Tally::add))
    }

    /// How much there is of one thing.
    pub const fn get(&self, cost: Cost) -> i64 {
        match cost {
            Cost::Cut => self.cut,
            Cost::Parts => self.parts,
            Cost::Starts => self.starts,
            Cost::Corners => self.corners,
            Cost::Travel => self.travel,
            Cost::Sheets => self.sheets,
        }
    }
}

impl Add for Tally {
    type Output = Tally;

    fn add(self, other: Tally) -> Tally {
        let sum = |cost| self.get(cost).saturating_add(other.get(cost));
        Tally {
            cut: sum(Cost::Cut),
            parts: sum(Cost::Parts),
            starts: sum(Cost::Starts),
            corners: sum(Cost::Corners),
            travel: sum(Cost::Travel),
            sheets: sum(Cost::Sheets),
        }
    }
}

impl Sum for Tally {
    fn sum<I: Iterator<Item = Tally>>(tallies: I) -> Tally {
        tallies.fold(Tally::default(), Tally::add)
    }
}

//! How long a job takes: by the machine's numbers, or by jobs whose times are known.

mod known;
mod squares;
mod tally;

use alloc::vec::Vec;

pub use self::tally::{Cost, Tally, Work};

use self::known::Known;
use super::machine::Machine;
use crate::error::{Error, Failure};

/// How long jobs take.
///
/// Where feed and acceleration are known, by a [`Machine`]. Where only earlier jobs are, by what they cost in: least squares of their minutes with no
/// cost below zero (as Lawson and Hanson, *Solving Least Squares Problems*, put it). Few jobs cannot tell many costs apart, so the simplest explanation
/// is taken: the cut length first, then parts, starts, corners, travel and sheets, each only if it really tells more (Student's test); never more costs than jobs.
///
/// ```
/// use dryfit_core::{Cost, Pace, Tally};
/// // Two closed boxes of six parts.
/// let job = |cut| Tally { cut, parts: 6, starts: 6, corners: 300, travel: 0, sheets: 1 };
/// let pace = Pace::from_known(&[(job(2_500_000_000), 92.0), (job(3_750_000_000), 102.0)])?;
/// let costs = pace.costs().unwrap();
/// assert!((costs[0].1 - 8.0).abs() < 1e-9 && costs[0].0 == Cost::Cut); // minutes a metre
/// assert!((costs[1].1 - 12.0).abs() < 1e-9 && costs[1].0 == Cost::Parts); // minutes a part
/// let estimate = pace.estimate_tally(&job(3_000_000_000)).unwrap();
/// assert!((estimate.minutes - 96.0).abs() < 1e-9 && estimate.outside.is_empty());
/// assert_eq!(estimate.spread, None); // two jobs, two costs: nothing is left to tell how sure it is
/// assert_eq!(pace.estimate_tally(&job(4_000_000_000)).unwrap().outside, [Cost::Cut]);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Pace {
    way: Way,
}

#[derive(Clone, Debug, PartialEq)]
enum Way {
    Machine(Machine),
    Known(Known),
}

/// How long a job takes, and how sure that is.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// The minutes of all sheets.
    pub minutes: f64,
    /// Their standard error; none by a machine's numbers, and none where the known jobs leave nothing to tell it by.
    pub spread: Option<f64>,
    /// What there is less or more of than in any known job: there the estimate is a guess.
    pub outside: Vec<Cost>,
}

impl From<Machine> for Pace {
    fn from(machine: Machine) -> Pace {
        Pace { way: Way::Machine(machine) }
    }
}

impl Pace {
    /// The pace of jobs that took so many minutes, 0.000001 to 1,000,000.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for fewer than two jobs or more than 10,000; the same or [`crate::Code::NotFinite`] for the minutes, with
    /// the job's number from 0; [`crate::Code::KnownAlike`] where cut length, parts and corners are the same in all.
    pub fn from_known(known: &[(Tally, f64)]) -> Result<Pace, Failure> {
        Ok(Pace { way: Way::Known(Known::new(known)?) })
    }

    /// The machine, where it is by one.
    pub const fn machine(&self) -> Option<Machine> {
        match self.way {
            Way::Machine(machine) => Some(machine),
            Way::Known(_) => None,
        }
    }

    /// The known jobs and their minutes; none by a machine.
    pub fn known(&self) -> &[(Tally, f64)] {
        self.by_known().map_or(&[], |known| &known.jobs)
    }

    /// The minutes that each thing costs, those without a cost too: a metre of length, one of what is counted. None by a machine.
    pub fn costs(&self) -> Option<[(Cost, f64); 6]> {
        let costs = self.by_known()?.costs();
        let mut each = costs.into_iter();
        Some(Cost::ALL.map(|cost| (cost, each.next().unwrap_or(0.0) * cost.unit())))
    }

    /// By how many minutes each known job took longer than the pace says.
    pub fn residuals(&self) -> &[f64] {
        self.by_known().map_or(&[], Known::residuals)
    }

    /// The standard error of a job's minutes: the root of the squared residuals' sum by what jobs are more than costs. None where they are not, and
    /// none by a machine.
    pub fn spread(&self) -> Option<f64> {
        self.by_known()?.spread()
    }

    /// How long a job takes, sheet by sheet, each line cut `passes` times.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the passes.
    pub fn estimate(&self, sheets: &[Work<'_>], passes: i64) -> Result<Estimate, Error> {
        match &self.way {
            Way::Machine(machine) => {
                let seconds = sheets.iter().try_fold(0.0, |sum, work| Ok(sum + machine.seconds(work.lines, work.route, passes)?))?;
                Ok(Estimate { minutes: seconds / 60.0, spread: None, outside: Vec::new() })
            }
            Way::Known(known) => {
                let job: Tally = sheets.iter().map(|work| Tally::of(work, passes)).sum::<Result<Tally, Error>>()?;
                Ok(of_known(known, &job))
            }
        }
    }

    /// How long a job takes of which the tally is all that is known; none by a machine, which needs the lines.
    pub fn estimate_tally(&self, tally: &Tally) -> Option<Estimate> {
        self.by_known().map(|known| of_known(known, tally))
    }

    const fn by_known(&self) -> Option<&Known> {
        match &self.way {
            Way::Machine(_) => None,
            Way::Known(known) => Some(known),
        }
    }
}

fn of_known(known: &Known, tally: &Tally) -> Estimate {
    let (minutes, spread) = known.minutes(tally);
    Estimate { minutes, spread, outside: known.outside(tally) }
}

#[cfg(test)]
#[path = "../pace_tests.rs"]
mod tests;

//! A pace from jobs whose times are known.

use alloc::format;
use alloc::vec::Vec;

use super::squares::{Solution, nearest};
use super::tally::{Cost, Tally};
use crate::bounds::{KNOWN, KNOWN_MINUTES};
use crate::error::{Code, Error, Failure};

/// What known jobs tell about what costs how much.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Known {
    pub jobs: Vec<(Tally, f64)>,
    solution: Solution,
    /// By what each cost's column was divided.
    scales: Vec<f64>,
}

/// Student's t, two-sided 95 percent, for 1 to 10 degrees of freedom (any table of it; from memory).
const STUDENT: [f64; 10] = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];
/// Every part takes its time beside what is cut of it, so for that two standard errors are enough.
const PARTS: f64 = 2.0;
/// What is left of the minutes' squares when all is explained.
const EXPLAINED: f64 = 1e-18;

impl Known {
    pub fn new(known: &[(Tally, f64)]) -> Result<Known, Failure> {
        KNOWN.check(i64::try_from(known.len()).unwrap_or(i64::MAX))?;
        for (number, (_, minutes)) in known.iter().enumerate() {
            KNOWN_MINUTES.from_float(*minutes).map_err(|error| Failure::at(error, format!("known[{number}]")))?;
        }
        let same = |cost| known.iter().zip(known.iter().skip(1)).all(|(a, b)| a.0.get(cost) == b.0.get(cost));
        if Cost::ALL.into_iter().filter(|cost| cost.of_job()).all(same) {
            return Err(Error::bare(Code::KnownAlike, "known").into());
        }
        let minutes: Vec<f64> = known.iter().map(|(_, minutes)| *minutes).collect();
        let most = |cost: Cost| known.iter().map(|(tally, _)| tally.get(cost)).max().unwrap_or(0).max(1) as f64;
        let scales: Vec<f64> = Cost::ALL.into_iter().map(most).collect();
        let column = |(cost, scale): (Cost, &f64)| known.iter().map(|(tally, _)| tally.get(cost) as f64 / scale).collect::<Vec<f64>>();
        let columns: Vec<Vec<f64>> = Cost::ALL.into_iter().zip(&scales).map(column).collect();
        Ok(Known { jobs: known.to_vec(), solution: simplest(&columns, &minutes), scales })
    }

    /// The minutes that one of each costs, in the order of [`Cost::ALL`].
    pub fn costs(&self) -> [f64; 6] {
        Cost::ALL.map(|cost| self.shares().find(|(picked, _)| *picked == cost).map_or(0.0, |(_, share)| share))
    }

    /// Those that cost something.
    fn shares(&self) -> impl Iterator<Item = (Cost, f64)> + '_ {
        let scaled = |(&number, share): (&usize, &f64)| Some((*Cost::ALL.get(number)?, share / self.scales.get(number)?));
        self.solution.picked.iter().zip(&self.solution.shares).filter_map(scaled)
    }

    pub fn residuals(&self) -> &[f64] {
        &self.solution.residuals
    }

    /// The standard error of a job's minutes; none where as many costs as jobs explain them.
    pub fn spread(&self) -> Option<f64> {
        let free = self.jobs.len().saturating_sub(self.solution.picked.len());
        (free > 0).then(|| libm::sqrt(self.solution.rest() / free as f64))
    }

    /// The minutes of another job, and their standard error: what jobs vary by, and how sure the costs are so far away from the known ones.
    pub fn minutes(&self, tally: &Tally) -> (f64, Option<f64>) {
        let minutes = self.shares().map(|(cost, share)| tally.get(cost) as f64 * share).sum();
        let entry = |&number: &usize| Some(tally.get(*Cost::ALL.get(number)?) as f64 / self.scales.get(number)?);
        let row: Vec<f64> = self.solution.picked.iter().filter_map(entry).collect();
        (minutes, self.spread().map(|spread| spread * libm::sqrt(1.0 + self.solution.leverage(&row))))
    }

    /// What there is less or more of than in any known job; of what a layout alone makes only where it costs something.
    pub fn outside(&self, tally: &Tally) -> Vec<Cost> {
        let counts = |cost: &Cost| cost.of_job() || self.shares().any(|(picked, _)| picked == *cost);
        let beyond = |&cost: &Cost| {
            let (less, more) =
                (|(job, _): &(Tally, f64)| job.get(cost) <= tally.get(cost), |(job, _): &(Tally, f64)| job.get(cost) >= tally.get(cost));
            !(self.jobs.iter().any(less) && self.jobs.iter().any(more))
        };
        Cost::ALL.into_iter().filter(counts).filter(beyond).collect()
    }
}

/// The simplest of all explanations: costs are taken one by one in their order, the first first, each only if it really tells more.
/// There are never more of them than jobs, and from three jobs on one fewer. What tells more is tested as a further column of a regression is: what is left
/// has to fall by more than t² times the variance.
fn simplest(columns: &[Vec<f64>], minutes: &[f64]) -> Solution {
    let jobs = minutes.len();
    let most = if jobs > 2 { jobs - 1 } else { jobs };
    let of = |numbers: &[usize]| {
        let chosen: Vec<Vec<f64>> = numbers.iter().filter_map(|&number| columns.get(number).cloned()).collect();
        let mut found = nearest(&chosen, minutes);
        found.picked = found.picked.iter().filter_map(|&place| numbers.get(place).copied()).collect();
        found
    };
    let mut best = of(&[0]);
    let explained = EXPLAINED * minutes.iter().map(|minutes| minutes * minutes).sum::<f64>();
    // Each round adds one or is the last.
    for _ in columns {
        let left = jobs.saturating_sub(best.picked.len() + 1);
        let tells = |&(number, ref found): &(usize, Solution)| {
            let sure = if number == 1 { PARTS } else { student(left) };
            let lower = found.rest() * (1.0 + sure * sure / left.max(1) as f64) < best.rest();
            found.picked.len() <= most && best.rest() > explained && lower
        };
        let free = (0..columns.len()).filter(|number| !best.picked.contains(number));
        let mut further = free.map(|number| (number, of(&[best.picked.as_slice(), &[number]].concat())));
        let Some((_, better)) = further.find(tells) else { break };
        best = better;
    }
    best
}

/// Student's t, two-sided 95 percent; to a hundredth beyond the table.
fn student(free: usize) -> f64 {
    STUDENT.get(free.max(1) - 1).copied().unwrap_or(1.96 + 2.5 / free as f64)
}

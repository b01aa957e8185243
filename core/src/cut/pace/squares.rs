//! Least squares with nothing negative, of a few columns: every choice of columns is tried, so the best is found.

use alloc::vec::Vec;

/// What of a column is not made of others must be at least so much of it.
const INDEPENDENT: f64 = 1e-9;

/// Columns and how much of each comes nearest to what was asked.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Solution {
    /// The columns that have a share, by their numbers.
    pub picked: Vec<usize>,
    /// Their shares, all above zero.
    pub shares: Vec<f64>,
    /// What is left: asked for less what the shares give.
    pub residuals: Vec<f64>,
    /// The upper triangle of the picked columns' QR decomposition, column by column.
    upper: Vec<Vec<f64>>,
}

impl Solution {
    /// The sum of the squares of what is left.
    pub fn rest(&self) -> f64 {
        dot(&self.residuals, &self.residuals)
    }

    /// How far another row lies from those that were given: xᵀ (AᵀA)⁻¹ x, of its picked entries.
    pub fn leverage(&self, row: &[f64]) -> f64 {
        let mut solved: Vec<f64> = Vec::with_capacity(self.upper.len());
        for (column, entry) in self.upper.iter().zip(row) {
            let diagonal = column.last().copied().unwrap_or(1.0);
            solved.push((entry - dot(column, &solved)) / diagonal);
        }
        dot(&solved, &solved)
    }
}

/// The shares of columns, none negative, that come nearest to `wanted`. Of two choices as good the one with fewer columns.
///
/// The best has a set of independent columns that have a share, and there the shares are those of plain least squares; so it is among those of all sets.
pub(super) fn nearest(columns: &[Vec<f64>], wanted: &[f64]) -> Solution {
    let mut best = Solution { picked: Vec::new(), shares: Vec::new(), residuals: wanted.to_vec(), upper: Vec::new() };
    for set in 1..1usize << columns.len() {
        let picked: Vec<usize> = (0..columns.len()).filter(|column| set >> column & 1 == 1).collect();
        let Some(found) = plain(columns, picked, wanted).filter(|found| found.shares.iter().all(|&share| share > 0.0)) else { continue };
        let better = found.rest() < best.rest() * (1.0 - 1e-12);
        if better || found.rest() <= best.rest() && found.picked.len() < best.picked.len() {
            best = found;
        }
    }
    best
}

/// Plain least squares of some columns by Gram and Schmidt, twice over for what rounding leaves; nothing where they depend on each other.
fn plain(columns: &[Vec<f64>], picked: Vec<usize>, wanted: &[f64]) -> Option<Solution> {
    let mut upright: Vec<Vec<f64>> = Vec::with_capacity(picked.len());
    let mut upper: Vec<Vec<f64>> = Vec::with_capacity(picked.len());
    for column in picked.iter().filter_map(|&number| columns.get(number)) {
        let mut rest = column.clone();
        let mut entries = alloc::vec![0.0; upright.len()];
        for _ in 0..2 {
            for (unit, entry) in upright.iter().zip(&mut entries) {
                *entry += take(&mut rest, unit);
            }
        }
        let length = libm::sqrt(dot(&rest, &rest));
        if length <= INDEPENDENT * libm::sqrt(dot(column, column)) {
            return None;
        }
        rest.iter_mut().for_each(|value| *value /= length);
        entries.push(length);
        upright.push(rest);
        upper.push(entries);
    }
    let mut residuals = wanted.to_vec();
    let mut along: Vec<f64> = upright.iter().map(|unit| take(&mut residuals, unit)).collect();
    let mut shares = Vec::with_capacity(picked.len());
    for column in upper.iter().rev() {
        let share = along.pop()? / column.last()?;
        along.iter_mut().zip(column).for_each(|(value, entry)| *value -= entry * share);
        shares.push(share);
    }
    shares.reverse();
    Some(Solution { picked, shares, residuals, upper })
}

/// Takes out of `from` what lies along a unit; how much that was.
fn take(from: &mut [f64], unit: &[f64]) -> f64 {
    let share = dot(from, unit);
    from.iter_mut().zip(unit).for_each(|(value, unit)| *value -= share * unit);
    share
}

/// Of the shorter one's length.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
#[path = "../squares_tests.rs"]
mod tests;

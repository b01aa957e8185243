//! How a bit sinks into a line: along the way, not straight down.

use super::passes::Pass;
use crate::cut::{Action, Move};
use crate::error::Error;
use crate::length::Nm;
use crate::round::nearest;

/// On a short line the ramp goes round, or to and fro, no more often than this.
const LAPS: i64 = 20;

/// The cuts of one pass of a bit along a line, beginning where the tool stands at `pass.from`: sinking along `length`, then once along all of the line at full depth.
/// A closed line is gone round; an open one to and fro, and after that from its start to its end.
pub(super) fn sink(moves: &[Move], closed: bool, pass: Pass, length: Nm, each: &mut impl FnMut(&Action) -> Result<(), Error>) -> Result<(), Error> {
    let lap = moves.iter().map(Move::length).fold(0, i64::saturating_add);
    let length = length.nm().min(lap.saturating_mul(LAPS));
    let gain = (pass.depth - pass.from).nm();
    if length <= 0 || gain <= 0 {
        return moves.iter().try_for_each(|way| each(&Action::Cut(*way)));
    }
    let count = moves.len();
    let way = |step: usize| {
        let (round, place) = (step.checked_div(count)?, step.checked_rem(count)?);
        match closed || round % 2 == 0 {
            true => moves.get(place).copied(),
            false => moves.get(count - 1 - place).map(|way| way.reversed()),
        }
    };
    let (mut done, mut step) = (0, 0);
    while let Some(whole) = way(step) {
        let end = done + whole.length();
        if end < length {
            let depth = pass.from.nm() + nearest(i128::from(gain) * i128::from(end), i128::from(length));
            each(&Action::Ramp { way: whole, depth: Nm::raw(depth) })?;
            (done, step) = (end, step + 1);
            continue;
        }
        let [before, beyond] = whole.split(length - done);
        each(&Action::Ramp { way: before, depth: pass.depth })?;
        if closed {
            // Round to here again.
            each(&Action::Cut(beyond))?;
            (step + 1..step + count).filter_map(way).try_for_each(|way| each(&Action::Cut(way)))?;
            return each(&Action::Cut(before));
        }
        // The shortest way back to where it begins, and all along it.
        let round = step / count.max(1);
        if round.is_multiple_of(2) {
            each(&Action::Cut(before.reversed()))?;
            (round * count..step).rev().filter_map(way).try_for_each(|way| each(&Action::Cut(way.reversed())))?;
        } else {
            each(&Action::Cut(beyond))?;
            (step + 1..(round + 1) * count).filter_map(way).try_for_each(|way| each(&Action::Cut(way)))?;
        }
        return moves.iter().try_for_each(|way| each(&Action::Cut(*way)));
    }
    Ok(())
}

#[cfg(test)]
#[path = "ramp_tests.rs"]
mod tests;

//! One block of parts that share cuts, grown part by part.

use alloc::collections::BTreeSet;
use alloc::vec::Vec;
use core::cmp::Reverse;

use super::super::job::Job;
use super::super::watch::Watch;
use super::pairs::{By, Pairs};
use super::variant::{Variant, fits};

/// Some parts in their places.
#[derive(Clone, Debug)]
pub(super) struct State {
    /// Variants, each with its lower left corner.
    pub members: Vec<(usize, By)>,
    /// How many parts of each class are left.
    left: Vec<usize>,
    pub lo: By,
    hi: By,
    shared: i64,
    allowed: u64,
}

impl State {
    /// Nothing yet, with these parts to be had.
    pub fn empty(left: Vec<usize>) -> State {
        State { members: Vec::new(), left, lo: [i64::MAX; 2], hi: [i64::MIN; 2], shared: 0, allowed: u64::MAX }
    }

    pub fn size(&self) -> [i64; 2] {
        [self.hi[0] - self.lo[0], self.hi[1] - self.lo[1]]
    }

    pub fn left(&self) -> &[usize] {
        &self.left
    }

    /// With one more part; none where none of its kind is left, or where the whole fits no sheet.
    fn with(&self, job: &Job<'_>, number: usize, variant: &Variant, at: By, shared: i64) -> Option<State> {
        let mut next = self.clone();
        let left = next.left.get_mut(variant.class).filter(|left| **left > 0)?;
        *left -= 1;
        let max = [at[0] + variant.size[0], at[1] + variant.size[1]];
        next.lo = [next.lo[0].min(at[0]), next.lo[1].min(at[1])];
        next.hi = [next.hi[0].max(max[0]), next.hi[1].max(max[1])];
        next.allowed &= variant.allowed;
        next.shared += shared;
        next.members.push((number, at));
        fits(job, next.size(), next.allowed).then_some(next)
    }

    /// More shared first, then less room taken.
    fn worth(&self) -> (Reverse<i64>, i128) {
        let [width, height] = self.size();
        (Reverse(self.shared), i128::from(width) * i128::from(height))
    }

    /// The same places give the same list, wherever the block lies.
    fn print(&self) -> Vec<(usize, By)> {
        let mut print: Vec<_> = self.members.iter().map(|&(number, at)| (number, [at[0] - self.lo[0], at[1] - self.lo[1]])).collect();
        print.sort_unstable();
        print
    }
}

/// The best block of up to `most` parts that begins with a part of class `first`: in each step every part that is left is tried at every place where it shares
/// most with one that is there, and the best `width` blocks go on (beam search). None where nothing shares anything.
pub(super) fn grow(
    job: &Job<'_>,
    pairs: &mut Pairs<'_>,
    left: &[usize],
    first: usize,
    most: usize,
    width: usize,
    watch: &mut Watch<'_>,
) -> Option<State> {
    let empty = State::empty(left.to_vec());
    let mut beam: Vec<State> = pairs
        .variants()
        .iter()
        .enumerate()
        .filter(|(_, variant)| variant.class == first)
        .take(1)
        .filter_map(|(number, variant)| empty.with(job, number, variant, [0, 0], 0))
        .collect();
    let mut best: Option<State> = None;
    for _ in 1..most {
        let mut next: Vec<State> = Vec::new();
        for state in &beam {
            next.extend(expand(job, pairs, state));
        }
        next.sort_by_key(State::worth);
        let mut seen = BTreeSet::new();
        next.retain(|state| seen.len() < width && seen.insert(state.print()));
        let Some(found) = next.first() else { break };
        best = Some(found.clone());
        beam = next;
        if !watch.go_on(0.0) {
            break;
        }
    }
    best
}

/// All blocks with one part more.
fn expand(job: &Job<'_>, pairs: &mut Pairs<'_>, state: &State) -> Vec<State> {
    let mut tried = BTreeSet::new();
    let mut grown = Vec::new();
    for &(there, at) in &state.members {
        for (number, variant) in pairs.variants().iter().enumerate() {
            if state.left.get(variant.class).is_none_or(|left| *left == 0) || state.allowed & variant.allowed == 0 {
                continue;
            }
            for by in pairs.places(there, number) {
                let place = [at[0] + by[0], at[1] + by[1]];
                if !tried.insert((number, place)) {
                    continue;
                }
                let shared = state
                    .members
                    .iter()
                    .try_fold(0, |sum, &(other, from)| Some(sum + pairs.seam(other, number, [place[0] - from[0], place[1] - from[1]])?));
                grown.extend(shared.and_then(|shared| state.with(job, number, variant, place, shared)));
            }
        }
    }
    grown
}

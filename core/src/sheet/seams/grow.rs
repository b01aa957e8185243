//! One block of parts that share cuts, grown part by part.

use alloc::collections::BTreeSet;
use alloc::vec::Vec;
use core::cmp::Reverse;

use super::super::area;
use super::super::job::Job;
use super::super::watch::Watch;
use super::pairs::{By, Pairs};
use super::variant::fits;

/// Where one more part may lie.
#[derive(Clone, Copy, Debug)]
struct Place {
    /// Its variant and its lower left corner.
    number: usize,
    at: By,
    /// What it shares with all that are there.
    shared: i64,
}

/// Some parts in their places.
#[derive(Clone, Debug)]
pub(super) struct State {
    /// Variants, each with its lower left corner.
    pub members: Vec<(usize, By)>,
    /// How many parts of each class are left.
    left: Vec<usize>,
    /// Where those may lie.
    places: Vec<Place>,
    pub lo: By,
    hi: By,
    shared: i64,
    allowed: u64,
}

/// Of a block with one part more: how much it shares, the most first; the area of the rectangle around it; that rectangle, whichever way it lies.
type Worth = (Reverse<i64>, i128, [i64; 2]);

impl State {
    /// Nothing yet, with these parts to be had.
    fn empty(left: &[usize]) -> State {
        State { members: Vec::new(), left: left.to_vec(), places: Vec::new(), lo: [i64::MAX; 2], hi: [i64::MIN; 2], shared: 0, allowed: u64::MAX }
    }

    pub fn size(&self) -> [i64; 2] {
        [self.hi[0] - self.lo[0], self.hi[1] - self.lo[1]]
    }

    pub fn left(&self) -> &[usize] {
        &self.left
    }

    /// The corners of the rectangle around all, with one part more.
    fn around(&self, at: By, size: [i64; 2]) -> [By; 2] {
        let far = [at[0] + size[0], at[1] + size[1]];
        [[self.lo[0].min(at[0]), self.lo[1].min(at[1])], [self.hi[0].max(far[0]), self.hi[1].max(far[1])]]
    }

    /// What it is worth with one part more; none where the whole would fit no sheet.
    fn worth(&self, job: &Job<'_>, pairs: &Pairs<'_>, place: &Place) -> Option<Worth> {
        let variant = pairs.variants().get(place.number)?;
        let [lo, hi] = self.around(place.at, variant.size);
        let [w, h] = [hi[0] - lo[0], hi[1] - lo[1]];
        fits(job, [w, h], self.allowed & variant.allowed).then_some((Reverse(self.shared + place.shared), area([w, h]), [w.min(h), w.max(h)]))
    }

    /// With one part more, and places beside it.
    fn with(&self, pairs: &mut Pairs<'_>, new: &Place) -> Option<State> {
        let variant = pairs.variants().get(new.number)?;
        let mut left = self.left.clone();
        let count = left.get_mut(variant.class)?;
        *count = count.checked_sub(1)?;
        let [lo, hi] = self.around(new.at, variant.size);
        let allowed = self.allowed & variant.allowed;
        let mut members = self.members.clone();
        members.push((new.number, new.at));
        let from = |at: By, there: By| [at[0] - there[0], at[1] - there[1]];
        let variants = pairs.variants();
        let open: Vec<bool> = variants.iter().map(|v| left.get(v.class).is_some_and(|left| *left > 0) && allowed & v.allowed != 0).collect();
        let mut places: Vec<Place> = Vec::with_capacity(self.places.len());
        for place in self.places.iter().filter(|place| open.get(place.number) == Some(&true)) {
            if let Some(more) = pairs.seam(new.number, place.number, from(place.at, new.at)) {
                places.push(Place { shared: place.shared + more, ..*place });
            }
        }
        let known: BTreeSet<(usize, By)> = places.iter().map(|place| (place.number, place.at)).collect();
        for (number, _) in open.iter().enumerate().filter(|(_, open)| **open) {
            for by in pairs.places(new.number, number) {
                let at = [new.at[0] + by[0], new.at[1] + by[1]];
                if !known.contains(&(number, at)) {
                    let shared = members.iter().try_fold(0, |sum, &(other, there)| Some(sum + pairs.seam(other, number, from(at, there))?));
                    places.extend(shared.map(|shared| Place { number, at, shared }));
                }
            }
        }
        Some(State { members, left, places, lo, hi, shared: self.shared + new.shared, allowed })
    }

    /// The same parts in the same places give the same list, wherever the block lies.
    fn print(&self, new: &Place, lo: By) -> Vec<(usize, By)> {
        let all = self.members.iter().copied().chain([(new.number, new.at)]);
        let mut print: Vec<_> = all.map(|(number, at)| (number, [at[0] - lo[0], at[1] - lo[1]])).collect();
        print.sort_unstable();
        print
    }
}

/// The best block of up to `most` parts that begins with a part of class `first`: in each step every part that is left is tried at every place
/// where it shares most with one that is there, and the best `width` blocks go on (beam search). None where nothing
/// shares anything.
pub(super) fn grow(
    job: &Job<'_>,
    pairs: &mut Pairs<'_>,
    left: &[usize],
    first: usize,
    (most, width): (usize, usize),
    watch: &mut Watch<'_>,
) -> Option<State> {
    let number = pairs.variants().iter().position(|variant| variant.class == first)?;
    let alone = Place { number, at: [0, 0], shared: 0 };
    let mut beam: Vec<State> = State::empty(left).with(pairs, &alone).into_iter().collect();
    let mut best: Option<State> = None;
    for _ in 1..most {
        let mut next: Vec<(Worth, usize, Place)> = Vec::new();
        for (index, state) in beam.iter().enumerate() {
            next.extend(state.places.iter().filter_map(|place| Some((state.worth(job, pairs, place)?, index, *place))));
        }
        next.sort_by_key(|&(worth, ..)| worth);
        let mut seen = BTreeSet::new();
        let mut grown: Vec<State> = Vec::new();
        for (_, index, place) in next {
            let Some(state) = beam.get(index) else { continue };
            if seen.insert(state.print(&place, [state.lo[0].min(place.at[0]), state.lo[1].min(place.at[1])])) {
                grown.extend(state.with(pairs, &place));
            }
            if grown.len() == width {
                break;
            }
        }
        let Some(found) = grown.first() else { break };
        best = Some(found.clone());
        beam = grown;
        if !watch.go_on(0.0) {
            break;
        }
    }
    best
}

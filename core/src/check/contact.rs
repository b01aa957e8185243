//! The gaps of each contact of two boards.
//!
//! Along the centre line of their block the two alternate: the distance from one to the next is a flank gap. Beside every
//! stretch of a board, the other's edges face its two sheet faces: a cheek gap, or both together in a slot.

use alloc::vec::Vec;

use super::body::Body;
use super::section::{Step, filled};
use crate::edges::Event;
use crate::point::Axis;

/// Smallest and largest gap met so far; negative is interference.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Gaps {
    range: Option<(i64, i64)>,
}

impl Gaps {
    pub fn add(&mut self, gap: i64) {
        let (lo, hi) = self.range.unwrap_or((gap, gap));
        self.range = Some((lo.min(gap), hi.max(gap)));
    }

    pub fn join(&mut self, other: Gaps) {
        if let Some((lo, hi)) = other.range {
            self.add(lo);
            self.add(hi);
        }
    }

    pub fn range(&self) -> Option<(i64, i64)> {
        self.range
    }
}

/// All contacts of two boards at right angles. `p` is what the first fills of the second's thickness, `q` the other way round. What is
/// as far apart as `reach` does not touch, nor do cheeks that face each other over no more than a `step` of the outline.
pub(super) fn contacts(a: &Body, b: &Body, (p, q): (&[Step], &[Step]), (reach, step): (i64, i64)) -> Gaps {
    let run = a.normal().third(b.normal());
    let (in_a, in_b) = (centre(a, run, b.thick(), p), centre(b, run, a.thick(), q));
    let mut gaps = flanks(&in_a, &in_b, reach);
    gaps.join(cheeks(&in_b, a.events(run), b.thick(), (reach, step)));
    gaps.join(cheeks(&in_a, b.events(run), a.thick(), (reach, step)));
    gaps
}

/// Where a body fills the centre line of a band: where it fills any of the band, if it fills all of it there.
fn centre(body: &Body, run: Axis, (lo, hi): (i64, i64), steps: &[Step]) -> Vec<(i64, i64)> {
    if steps.iter().all(|step| step.value == 0 || step.value == hi - lo) {
        return filled(steps).collect();
    }
    let middle = lo + (hi - lo) / 2;
    let mut room = Vec::new();
    body.section(run, (middle, middle + 1), &mut room);
    filled(&room).collect()
}

/// Distances between a stretch of one board and the next of the other.
pub(super) fn flanks(a: &[(i64, i64)], b: &[(i64, i64)], reach: i64) -> Gaps {
    let mut gaps = Gaps::default();
    let mut all: Vec<(i64, i64, bool)> = a.iter().map(|&(from, to)| (from, to, true)).chain(b.iter().map(|&(from, to)| (from, to, false))).collect();
    all.sort_unstable();
    for pair in all.windows(2) {
        if let [(_, end, one), (start, _, other)] = *pair
            && one != other
            && start - end < reach
        {
            gaps.add(start - end);
        }
    }
    gaps
}

/// Gaps between a board's faces (`thick`) and the mate's edges, beside each of the board's stretches.
fn cheeks(stretches: &[(i64, i64)], edges: &[Event], (lo, hi): (i64, i64), (reach, step): (i64, i64)) -> Gaps {
    let mut gaps = Gaps::default();
    let middle = lo + (hi - lo) / 2;
    // Each edge stands in the list twice: its start waits for its end.
    let mut open: Vec<(i64, i64, i8)> = Vec::new();
    let mut near: Vec<(i64, i64, i64, i8)> = Vec::new();
    for event in edges.iter().filter(|event| event.across > lo - reach && event.across < hi + reach) {
        let below = event.across <= middle;
        // A cheek below has its solid below, one above has it above.
        let below_solid = (event.sign > 0) == event.start;
        if below != below_solid {
            continue;
        }
        if event.start {
            open.push((event.along, event.across, event.sign));
        } else if let Some(index) = open.iter().position(|&(_, across, sign)| across == event.across && sign == -event.sign) {
            let (from, across, sign) = open.swap_remove(index);
            near.push((from, event.along, across, sign));
        }
    }
    near.sort_unstable();
    let mut first = 0;
    for &(from, to) in stretches {
        while near.get(first).is_some_and(|&(_, end, ..)| end <= from) {
            first += 1;
        }
        let (mut under, mut over) = (Gaps::default(), Gaps::default());
        for &(start, end, across, sign) in near.iter().skip(first).take_while(|&&(start, ..)| start < to) {
            // A shorter touch is a corner where two allowances step, not a contact.
            if end.min(to) - start.max(from) > step {
                if sign == 1 { under.add(lo - across) } else { over.add(across - hi) }
            }
        }
        match (under.range(), over.range()) {
            (Some((a, b)), Some((c, d))) => {
                gaps.add(a + c);
                gaps.add(b + d);
            }
            (Some((a, b)), None) | (None, Some((a, b))) => {
                gaps.add(a);
                gaps.add(b);
            }
            (None, None) => {}
        }
    }
    gaps
}

#[cfg(test)]
#[path = "contact_tests.rs"]
mod tests;

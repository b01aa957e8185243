//! How much of a band an outline fills, along a run.
//!
//! At every point of the run the filled width is the sum of the edges there, those with the solid below counted up and those with
//! the solid above counted down, each clamped to the band. So one pass over sorted edge ends gives it, holes and all.

use alloc::vec::Vec;

use crate::edges::Event;

/// A piecewise constant width: from `at` on it is `value`, until the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Step {
    pub at: i64,
    pub value: i64,
}

/// Farther than any coordinate: the end of an open band.
pub(super) const FAR: i64 = 8 * crate::bounds::REACH;

/// The filled width of the band `lo..hi`; `events` are sorted along the run.
pub(super) fn section(events: &[Event], lo: i64, hi: i64, out: &mut Vec<Step>) {
    out.clear();
    let Some(first) = events.first() else { return };
    let (mut at, mut value, mut last) = (first.along, 0, 0);
    for event in events {
        if event.along != at {
            if value != last {
                out.push(Step { at, value });
                last = value;
            }
            at = event.along;
        }
        // Edges below the band count nothing, edges above it all of it.
        if event.across > lo {
            value += i64::from(event.sign) * (event.across.min(hi) - lo);
        }
    }
    if value != last {
        out.push(Step { at, value });
    }
}

/// Two widths side by side over each stretch where both are constant: from, to, first, second.
pub(super) fn both<'a>(a: &'a [Step], b: &'a [Step]) -> impl Iterator<Item = (i64, i64, i64, i64)> + 'a {
    let (mut i, mut j) = (0, 0);
    let (mut va, mut vb) = (0, 0);
    let mut at = None;
    core::iter::from_fn(move || {
        loop {
            let (next_a, next_b) = (a.get(i), b.get(j));
            let to = match (next_a, next_b) {
                (Some(p), Some(q)) => p.at.min(q.at),
                (Some(p), None) => p.at,
                (None, Some(q)) => q.at,
                (None, None) => return None,
            };
            let stretch = at.map(|from| (from, to, va, vb));
            if let Some(step) = next_a.filter(|s| s.at == to) {
                va = step.value;
                i += 1;
            }
            if let Some(step) = next_b.filter(|s| s.at == to) {
                vb = step.value;
                j += 1;
            }
            at = Some(to);
            if stretch.is_some() {
                return stretch;
            }
        }
    })
}

/// The stretches where a width is positive, joined where they touch.
pub(super) fn filled(steps: &[Step]) -> impl Iterator<Item = (i64, i64)> + '_ {
    let mut rest = steps.iter();
    core::iter::from_fn(move || {
        let from = rest.by_ref().find(|step| step.value > 0)?.at;
        let to = rest.by_ref().find(|step| step.value <= 0).map_or(from, |step| step.at);
        Some((from, to))
    })
}

/// The steps that matter between two places of the run, up to the first beyond.
fn within(steps: &[Step], from: i64, to: i64) -> &[Step] {
    let first = steps.partition_point(|step| step.at <= from).saturating_sub(1);
    let last = steps.partition_point(|step| step.at < to) + 1;
    steps.get(first..last.min(steps.len())).unwrap_or(&[])
}

/// The filled area between two places of the run.
pub(super) fn integral(steps: &[Step], from: i64, to: i64) -> i128 {
    let steps = within(steps, from, to);
    let ends = steps.iter().skip(1).map(|step| step.at).chain(core::iter::once(to));
    let area = |(step, end): (&Step, i64)| i128::from((end.min(to) - step.at.max(from)).max(0)) * i128::from(step.value);
    steps.iter().zip(ends).map(area).sum()
}

/// What neither of two boards fills of their block between two places of the run; `ta` and `tb` are their thicknesses.
pub(super) fn empty(p: &[Step], q: &[Step], (ta, tb): (i64, i64), (from, to): (i64, i64)) -> i128 {
    let section = i128::from(ta) * i128::from(tb);
    let filled = both(within(p, from, to), within(q, from, to)).map(|(a, b, of_b, of_a)| {
        let length = (b.min(to) - a.max(from)).max(0);
        i128::from(length) * (section - i128::from(ta - of_a) * i128::from(tb - of_b))
    });
    section * i128::from(to - from) - filled.sum::<i128>()
}

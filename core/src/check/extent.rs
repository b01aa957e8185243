//! Outlines in one plane: how far each reaches across, and how much two of them share.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::body::Body;
use crate::edges::Event;
use crate::point::Axis;

/// Over a stretch of the run: the outline's edges across it, counted by sign.
struct Sweep<'a> {
    events: &'a [Event],
    /// Sum of signs of the edges at each place across.
    active: BTreeMap<i64, i64>,
}

impl Sweep<'_> {
    fn advance(&mut self, to: i64) {
        while let Some((event, rest)) = self.events.split_first()
            && event.along <= to
        {
            let sum = self.active.entry(event.across).or_insert(0);
            *sum += i64::from(event.sign);
            if *sum == 0 {
                self.active.remove(&event.across);
            }
            self.events = rest;
        }
    }

    /// Solid intervals across, at the present place.
    fn solid(&self) -> Vec<(i64, i64)> {
        let mut out = Vec::new();
        let (mut depth, mut start) = (0, 0);
        for (&across, &sign) in &self.active {
            // Below a solid stands an edge of sign -1.
            if depth == 0 {
                start = across;
            }
            depth -= sign;
            if depth == 0 {
                out.push((start, across));
            }
        }
        out
    }
}

/// Visits the stretches of the run between edge ends of either body: from, to, the two sweeps.
fn walk(a: &Body, b: &Body, along: Axis, mut visit: impl FnMut(i64, i64, &Sweep, &Sweep)) {
    let mut places: Vec<i64> = a.events(along).iter().chain(b.events(along)).map(|event| event.along).collect();
    places.sort_unstable();
    places.dedup();
    let mut first = Sweep { events: a.events(along), active: BTreeMap::new() };
    let mut second = Sweep { events: b.events(along), active: BTreeMap::new() };
    let mut rest = places.iter().peekable();
    while let (Some(&from), Some(&&to)) = (rest.next(), rest.peek()) {
        first.advance(from);
        second.advance(from);
        visit(from, to, &first, &second);
    }
}

/// The area that two outlines of one plane share, in square nanometres, and the least extent of a shared rectangle.
pub(super) fn shared_area(a: &Body, b: &Body) -> (i128, i64) {
    let (mut area, mut depth) = (0, 0);
    walk(a, b, a.normal().plane().0, |from, to, p, q| {
        if p.active.is_empty() || q.active.is_empty() {
            return;
        }
        let (p, q) = (p.solid(), q.solid());
        let (mut i, mut j) = (0, 0);
        while let (Some(&(a0, a1)), Some(&(b0, b1))) = (p.get(i), q.get(j)) {
            let width = a1.min(b1) - a0.max(b0);
            if width > 0 {
                area += i128::from(width) * i128::from(to - from);
                depth = depth.max(width.min(to - from));
            }
            if a1 < b1 {
                i += 1;
            } else {
                j += 1;
            }
        }
    });
    (area, depth)
}

/// Whether `a`, moved along `axis` of the common plane (upwards or downwards), runs into `b`.
pub(super) fn runs_into(a: &Body, b: &Body, axis: Axis, upwards: bool) -> bool {
    let along = a.normal().third(axis);
    let mut hit = false;
    walk(a, b, along, |_, _, p, q| {
        let ends = |sweep: &Sweep| sweep.active.first_key_value().zip(sweep.active.last_key_value()).map(|((lo, _), (hi, _))| (*lo, *hi));
        if let (Some((a0, a1)), Some((b0, b1))) = (ends(p), ends(q)) {
            hit |= if upwards { a0 < b1 } else { a1 > b0 };
        }
    });
    hit
}

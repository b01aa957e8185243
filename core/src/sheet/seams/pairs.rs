//! Two parts side by side: whether they may lie so, how much they share, and where they share most.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;
use core::cmp::Reverse;

use super::variant::Variant;
use crate::bounds::MM;
use crate::overlay::common;

/// How far the second part's lower left corner lies from the first one's.
pub(super) type By = [i64; 2];

/// So many places are looked at more closely, and so many of these are kept.
const LOOKED_AT: usize = 16;
const KEPT: usize = 5;

/// A line that has to be begun on its own is worth less by so much: what the tool could have cut in the time.
const START: i64 = 10 * MM;

/// What is known of pairs of variants.
pub(super) struct Pairs<'a> {
    variants: &'a [Variant],
    gap: i64,
    seams: BTreeMap<(usize, usize, By), Option<i64>>,
    places: BTreeMap<(usize, usize), Vec<By>>,
}

impl<'a> Pairs<'a> {
    pub fn new(variants: &'a [Variant], gap: i64) -> Pairs<'a> {
        Pairs { variants, gap, seams: BTreeMap::new(), places: BTreeMap::new() }
    }

    pub fn variants(&self) -> &'a [Variant] {
        self.variants
    }

    /// The length that two parts share; none where they may not lie so: where they overlap, where the way into a
    /// relief of one runs through the other, or where edges face each other across less
    /// waste than the gap.
    pub fn seam(&mut self, a: usize, b: usize, by: By) -> Option<i64> {
        let (one, other) = (self.variants.get(a)?, self.variants.get(b)?);
        let clear = self.gap.max(1);
        let [[x, y], [w, h], [others_w, others_h]] = [by, one.size, other.size];
        let apart = [x - w, -x - others_w, y - h, -y - others_h].into_iter().any(|between| between >= clear);
        if apart {
            return Some(0);
        }
        if let Some(known) = self.seams.get(&(a, b, by)) {
            return *known;
        }
        let crowded = one.lines.crowds(&other.lines, by, self.gap);
        let overlaps = || common(&one.strips, &other.strips_at(by)).area > 0;
        let cuts_into = || one.goes_into(other, by) || other.goes_into(one, [-x, -y]);
        let seam = (!crowded && !overlaps() && !cuts_into()).then(|| one.lines.seam(&other.lines, by).0);
        self.seams.insert((a, b, by), seam);
        seam
    }

    /// Where the second part may lie beside the first so that they share most, the starts of lines counted, the most first.
    pub fn places(&mut self, a: usize, b: usize) -> Vec<By> {
        if let Some(known) = self.places.get(&(a, b)) {
            return known.clone();
        }
        let (Some(one), Some(other)) = (self.variants.get(a), self.variants.get(b)) else { return Vec::new() };
        let mut wanted: Vec<(Reverse<i64>, By)> = one.lines.matches(&other.lines);
        wanted.truncate(LOOKED_AT);
        let worth = |by| {
            let (shared, lines) = one.lines.seam(&other.lines, by);
            shared - START * i64::try_from(lines).unwrap_or(i64::MAX / START)
        };
        let legal = wanted.into_iter().filter(|&(_, by)| self.seam(a, b, by).is_some());
        let mut legal: Vec<(Reverse<i64>, By)> = legal.map(|(_, by)| (Reverse(worth(by)), by)).filter(|(worth, _)| worth.0 > 0).collect();
        legal.sort_unstable();
        let places: Vec<By> = legal.into_iter().take(KEPT).map(|(_, by)| by).collect();
        self.places.insert((a, b), places.clone());
        places
    }
}

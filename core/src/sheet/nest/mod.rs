//! Layouts by true outlines: parts lie in the holes and bays of others, the gap kept.
//!
//! Every outline is covered by rectangles. Two of them that lie less than the gap apart along both axes are too near: so each pair, one of
//! a part and one that lies already, forbids a rectangle of places. A part goes to the lowest free place, the leftmost of them, turned as it
//! ends lowest unless told otherwise; sheets are filled in their order, then a new one is taken (bottom-left filling by no-fit regions: Burke, Hellier, Kendall
//! and Whitwell, *Operations Research* 54, 2006). A search turns over the sequence in which parts are laid, and the ways they lie.
//!
//! A bay counts only where something could lie in it: with `limb` the least of all parts' areas divided by half their outlines' lengths (no
//! more than the width of a strip or of a frame's rails), bays and holes narrower than `limb` and two gaps are closed. So finger edges
//! cost nothing, and what has no bay is left to the packer of rectangles.

mod cover;
mod fill;
mod place;

use alloc::vec::Vec;

use super::area;
use super::job::Job;
use super::layout::Layout;
use super::random::Random;
use super::watch::Watch;
use cover::Cover;
use fill::{Filling, Way};

/// More rectangles than this are not nested: a sequence costs at most the square of their number for each way to turn.
const MOST_RECTANGLES: usize = 1000;
/// How many pairs of rectangles are looked at, all in all, where no clock ends the search; a sequence begun is laid to its end.
const PAIRS: u64 = 20_000_000;

/// What is needed to nest the parts of a job.
pub(crate) struct Nest<'a> {
    job: &'a Job<'a>,
    /// For each part wanted: its number, and all ways it may lie.
    parts: Vec<Part>,
}

/// A part and how it may lie on each kind of stock.
struct Part {
    number: usize,
    /// Area of the rectangle around it.
    area: i128,
    longer: i64,
    ways: Vec<Way>,
}

/// A part's turn to be laid.
#[derive(Clone, Copy)]
struct Turn<'a> {
    part: &'a Part,
    /// The way it is to lie where it has a place so.
    way: Option<usize>,
}

impl<'a> Nest<'a> {
    /// None where no part has a bay or hole that a part could lie in, or the parts are too many to be nested in a bounded time.
    pub fn of(job: &'a Job<'a>) -> Option<Nest<'a>> {
        let paths: Vec<_> = job.wanted.iter().filter_map(|&number| Some((number, job.item(number)?.path))).collect();
        if paths.len() < 2 || paths.len() > MOST_RECTANGLES {
            return None;
        }
        let limb = |area: i128, length: i64| area.checked_div(i128::from(length)).and_then(|limb| i64::try_from(limb).ok()).unwrap_or(0);
        let measured: Vec<i128> = paths.iter().map(|(_, path)| path.twice_area()).collect();
        let least = paths.iter().zip(&measured).map(|((_, path), &area)| limb(area, path.length())).min()?;
        let bay = (least.max(0) + 2 * job.gap()).max(1);
        let mut covers: Vec<Cover> = Vec::with_capacity(paths.len());
        for (index, ((_, path), &area)) in paths.iter().zip(&measured).enumerate() {
            let known = paths.iter().take(index).position(|(_, known)| core::ptr::eq(*known, *path)).and_then(|at| covers.get(at).cloned());
            covers.push(known.unwrap_or_else(|| Cover::of(path, area, bay)));
        }
        let count: usize = covers.iter().map(|cover| cover.rects.len()).sum();
        if covers.iter().all(|cover| cover.rects.len() < 2) || count > MOST_RECTANGLES {
            return None;
        }
        let part = |((number, _), cover): (&(usize, _), &Cover)| Part {
            number: *number,
            area: area(cover.size),
            longer: cover.size[0].max(cover.size[1]),
            ways: Way::all(cover, job.spec.turns, job.spec.flips),
        };
        Some(Nest { job, parts: paths.iter().zip(&covers).map(part).collect() })
    }

    /// The best layout of the sequences tried: the larger parts first, the longer first, and what swapping and turning parts makes of the better one.
    /// None where it is stopped before the first of them is laid.
    pub fn lay_out(&self, watch: &mut Watch<'_>) -> Option<Layout> {
        let by = |key: fn(&Part) -> i128| {
            let mut sequence: Vec<Turn<'_>> = self.parts.iter().map(|part| Turn { part, way: None }).collect();
            sequence.sort_by_key(|turn| core::cmp::Reverse(key(turn.part)));
            sequence
        };
        let mut sequence = by(|part| part.area);
        let mut pairs = 0;
        let mut best = Filling::of(self.job, &sequence, &mut pairs, watch)?;
        let mut random = Random(self.job.spec.seed);
        let mut next = by(|part| i128::from(part.longer));
        while watch.timed || pairs < PAIRS {
            let Some(filling) = Filling::of(self.job, &next, &mut pairs, watch) else { break };
            // As good is taken too, so that the search wanders.
            if filling.rank() <= best.rank() {
                (best, sequence) = (filling, next);
            }
            next = sequence.clone();
            let (a, b) = (random.below(next.len()), random.below(next.len()));
            match random.below(3) {
                0 => next.swap(a, b),
                1 => {
                    let turn = next.remove(a);
                    next.insert(b, turn);
                }
                // One more than there are: as it ends lowest.
                _ => next.iter_mut().skip(a).take(1).for_each(|turn| turn.way = Some(random.below(turn.part.ways.len() + 1))),
            }
        }
        Some(best.layout())
    }
}

#[cfg(test)]
#[path = "nest_tests.rs"]
mod tests;

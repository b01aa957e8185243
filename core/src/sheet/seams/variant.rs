//! The ways in which each part may lie, equal parts and equal ways taken together.

use alloc::collections::BTreeSet;
use alloc::vec::Vec;

use super::super::Placement;
use super::super::job::Job;
use super::pairs::By;
use super::shared::Lines;
use crate::length::Nm;
use crate::overlay::{Strips, common};
use crate::point::Point;
use crate::shape::Shape;

/// A part as it may lie, its lower left corner at the origin.
pub(super) struct Variant {
    /// Which kind of part.
    pub class: usize,
    pub quarter_turns: u8,
    pub flipped: bool,
    pub size: [i64; 2],
    pub lines: Lines,
    pub strips: Strips,
    edges: Vec<(Point, Point)>,
    /// Where the tool goes into a relief and back: outside the outline as a rule. The rectangle around each way.
    ins: Vec<[By; 2]>,
    /// Where it may lie so: two bits for each stock, as it is and with one more quarter turn.
    pub allowed: u64,
}

impl Variant {
    /// Its strips when its lower left corner lies elsewhere.
    pub fn strips_at(&self, by: [i64; 2]) -> Strips {
        let moved = |p: Point| Point::new(p.x + Nm::raw(by[0]), p.y + Nm::raw(by[1]));
        Strips::of(self.edges.iter().map(|&(a, b)| (moved(a), moved(b))), false)
    }

    /// Whether one of its ways into a relief runs through another part, whose lower left corner lies `by` from this one's.
    pub fn goes_into(&self, other: &Variant, by: By) -> bool {
        let far = [by[0] + other.size[0], by[1] + other.size[1]];
        let near = |[lo, hi]: &&[By; 2]| lo[0] < far[0] && lo[1] < far[1] && hi[0] > by[0] && hi[1] > by[1];
        self.ins.iter().filter(near).any(|[lo, hi]| {
            let corners = [(lo[0], lo[1]), (hi[0], lo[1]), (hi[0], hi[1]), (lo[0], hi[1])].map(|(x, y)| Point::raw(x - by[0], y - by[1]));
            let next = corners.into_iter().cycle().skip(1);
            common(&Strips::of(corners.into_iter().zip(next), false), &other.strips).area > 0
        })
    }
}

/// The kinds of parts, each with the numbers of its items, and the ways in which they may lie.
#[derive(Default)]
pub(super) struct Variants {
    pub classes: Vec<Vec<usize>>,
    pub all: Vec<Variant>,
}

/// The most stocks that are told apart.
const STOCKS: usize = 32;

impl Variants {
    pub fn of(job: &Job<'_>, items: &[usize]) -> Variants {
        let mut variants = Variants::default();
        for &number in items {
            let Some(item) = job.item(number) else { continue };
            let same = |class: &&mut Vec<usize>| {
                let other = class.first().and_then(|&first| job.item(first));
                other.is_some_and(|other| other.path == item.path && other.grain == item.grain)
            };
            match variants.classes.iter_mut().find(same) {
                Some(class) => class.push(number),
                None => {
                    variants.lie(job, number, item.path);
                    variants.classes.push(Vec::from([number]));
                }
            }
        }
        variants
    }

    /// Adds all ways in which a new kind of part may lie that differ from each other.
    fn lie(&mut self, job: &Job<'_>, number: usize, path: &Shape) {
        let mut known: Vec<(Shape, u64)> = Vec::new();
        for (flipped, quarter_turns) in [false, true].into_iter().flat_map(|flipped| (0..4).map(move |turns| (flipped, turns))) {
            let allowed = self::allowed(job, number, quarter_turns);
            if flipped && !job.spec.flips || allowed == 0 {
                continue;
            }
            let placement = Placement { part: number, at: Point::default(), quarter_turns, flipped };
            let placed = placement.place(path);
            if known.iter().any(|(other, as_far)| *as_far == allowed && alike(other, &placed)) {
                continue;
            }
            let edges: Vec<_> = placed.edges().collect();
            self.all.push(Variant {
                class: self.classes.len(),
                quarter_turns,
                flipped,
                size: placement.size(path).map(Nm::nm),
                lines: Lines::of(&placed),
                strips: Strips::of(edges.iter().copied(), false),
                ins: ins(&edges),
                edges,
                allowed,
            });
            known.push((placed, allowed));
        }
    }
}

/// The rectangles around the edges that a path goes along and back; those that are no more than a line are a nanometre wider on both sides.
fn ins(edges: &[(Point, Point)]) -> Vec<[By; 2]> {
    let all: BTreeSet<(Point, Point)> = edges.iter().copied().collect();
    let there_and_back = edges.iter().filter(|&&(a, b)| a < b && all.contains(&(b, a)));
    let around = there_and_back.map(|&(a, b)| {
        let sides = [(a.x.nm(), b.x.nm()), (a.y.nm(), b.y.nm())].map(|(p, q)| if p == q { [p - 1, p + 1] } else { [p.min(q), p.max(q)] });
        [sides.map(|side| side[0]), sides.map(|side| side[1])]
    });
    around.collect()
}

/// Whether two outlines run through the same points; what their edges are for does not matter.
fn alike(a: &Shape, b: &Shape) -> bool {
    a.loops().len() == b.loops().len() && a.edges().eq(b.edges()) && a.arcs().eq(b.arcs())
}

fn allowed(job: &Job<'_>, number: usize, quarter_turns: u8) -> u64 {
    let may = |stock, more| job.item(number).is_some_and(|item| job.may_turn(item, stock, (quarter_turns + more) % 4));
    let bits = job
        .stocks
        .iter()
        .take(STOCKS)
        .enumerate()
        .flat_map(|(place, stock)| [0, 1].map(|more| (2 * place as u32 + u32::from(more), may(stock, more))));
    bits.filter(|&(_, may)| may).map(|(bit, _)| 1 << bit).sum()
}

/// Whether a rectangle fits where it is allowed to lie.
pub(super) fn fits(job: &Job<'_>, [width, height]: [i64; 2], allowed: u64) -> bool {
    job.stocks.iter().take(STOCKS).enumerate().any(|(place, stock)| {
        let [most_x, most_y] = job.room(stock);
        let may = |more: usize| allowed >> (2 * place + more) & 1 == 1;
        may(0) && width <= most_x && height <= most_y || may(1) && height <= most_x && width <= most_y
    })
}

//! The boundary of a rectangle less disjoint rectangles, line by line.
//!
//! Every rectangle brings directed edges with the board on their left; where two opposite edges lie on one line they cancel.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::slab::{Attr, Lost, Stretch, corner};
use crate::joint::Corner;
use crate::point::Point;
use crate::shape::lowest_of;

/// A directed edge on a line: along +u on a line of constant v (`forward`: board above), or along +v on a line of constant u.
#[derive(Clone, Copy, Debug)]
struct Segment {
    line: i64,
    from: i64,
    to: i64,
    forward: bool,
    attr: Attr,
}

/// A maximal straight stretch of the boundary: segments `first..last` of its list, all on one line, in one direction.
#[derive(Clone, Copy, Debug)]
struct Chain {
    first: usize,
    last: usize,
    start: (i64, i64),
    end: (i64, i64),
}

/// Edges of one direction: net segments and the chains they form.
#[derive(Debug, Default)]
struct Lines {
    net: Vec<Segment>,
    chains: Vec<Chain>,
}

impl Lines {
    /// Cancels opposite edges. `upright` lines have constant u.
    fn of(mut segments: Vec<Segment>, upright: bool) -> Lines {
        segments.sort_unstable_by_key(|s| (s.line, s.from));
        let mut lines = Lines { net: Vec::with_capacity(segments.len()), chains: Vec::with_capacity(segments.len()) };
        for line in segments.chunk_by(|a, b| a.line == b.line) {
            lines.cancel(line);
        }
        lines.link(upright);
        lines
    }

    /// The edges of one line that have no opposite, in order.
    fn cancel(&mut self, line: &[Segment]) {
        let mut forward = line.iter().filter(|s| s.forward).copied();
        let mut backward = line.iter().filter(|s| !s.forward).copied();
        let (mut f, mut b) = (forward.next(), backward.next());
        loop {
            match (&mut f, &mut b) {
                (None, None) => return,
                (Some(s), None) => {
                    self.keep(*s);
                    f = forward.next();
                }
                (None, Some(s)) => {
                    self.keep(*s);
                    b = backward.next();
                }
                (Some(p), Some(q)) => {
                    if p.from < q.from {
                        let to = p.to.min(q.from);
                        self.keep(Segment { to, ..*p });
                        p.from = to;
                    } else if q.from < p.from {
                        let to = q.to.min(p.from);
                        self.keep(Segment { to, ..*q });
                        q.from = to;
                    } else {
                        let to = p.to.min(q.to);
                        (p.from, q.from) = (to, to);
                    }
                    if p.from >= p.to {
                        f = forward.next();
                    }
                    if b.is_some_and(|q| q.from >= q.to) {
                        b = backward.next();
                    }
                }
            }
        }
    }

    /// Adds a net segment, or lengthens the last one where it goes on alike.
    fn keep(&mut self, segment: Segment) {
        if let Some(last) = self.net.last_mut()
            && (last.line, last.to, last.forward, last.attr) == (segment.line, segment.from, segment.forward, segment.attr)
        {
            last.to = segment.to;
        } else {
            self.net.push(segment);
        }
    }

    fn link(&mut self, upright: bool) {
        let point = |line, along| if upright { (line, along) } else { (along, line) };
        let mut first = 0;
        for run in self.net.chunk_by(|a, b| (a.line, a.to, a.forward) == (b.line, b.from, b.forward)) {
            if let (Some(low), Some(high)) = (run.first(), run.last()) {
                let (low, high, forward) = (point(low.line, low.from), point(high.line, high.to), low.forward);
                let (start, end) = if forward { (low, high) } else { (high, low) };
                self.chains.push(Chain { first, last: first + run.len(), start, end });
            }
            first += run.len();
        }
    }

    /// Hands out the corners at which the segments of a chain start, in travel order.
    fn corners(&self, chain: &Chain, upright: bool, out: &mut Vec<Corner>) {
        let Some(segments) = self.net.get(chain.first..chain.last) else { return };
        let corner = |s: &Segment| {
            let along = if s.forward { s.from } else { s.to };
            let at = if upright { Point::raw(s.line, along) } else { Point::raw(along, s.line) };
            corner(at, s.attr)
        };
        if segments.first().is_some_and(|s| s.forward) {
            out.extend(segments.iter().map(corner));
        } else {
            out.extend(segments.iter().rev().map(corner));
        }
    }
}

/// All edges of a slab: those along u, and those along v.
#[derive(Debug, Default)]
pub(super) struct Edges {
    level: Vec<Segment>,
    upright: Vec<Segment>,
}

impl Edges {
    /// One of the slab's own four edges, numbered anticlockwise from the bottom.
    pub fn rim(&mut self, side: usize, (width, height): (i64, i64), rim: &[Stretch]) {
        let (list, line, forward) = match side {
            0 => (&mut self.level, 0, true),
            1 => (&mut self.upright, width, true),
            2 => (&mut self.level, height, false),
            _ => (&mut self.upright, 0, false),
        };
        list.extend(rim.iter().map(|&Stretch { from, to, attr }| Segment { line, from, to, forward, attr }));
    }

    /// The edges around what is lost. The board lies outside: left of an upward edge on the left side, above a rightward edge on the top.
    pub fn lost(&mut self, Lost { u, v, edges: [left, bottom, right, top] }: Lost) {
        self.upright.push(Segment { line: u.0, from: v.0, to: v.1, forward: true, attr: left });
        self.upright.push(Segment { line: u.1, from: v.0, to: v.1, forward: false, attr: right });
        self.level.push(Segment { line: v.0, from: u.0, to: u.1, forward: false, attr: bottom });
        self.level.push(Segment { line: v.1, from: u.0, to: u.1, forward: true, attr: top });
    }

    /// Links them into closed rings, each starting at its lowest, then leftmost corner.
    pub fn rings(self) -> Vec<Vec<Corner>> {
        rings(self.level, self.upright)
    }
}

fn rings(level: Vec<Segment>, upright: Vec<Segment>) -> Vec<Vec<Corner>> {
    let (level, upright) = (Lines::of(level, false), Lines::of(upright, true));
    let (after_level, pinched) = matches((&level.chains, true), (&upright.chains, false));
    let (after_upright, _) = matches((&upright.chains, false), (&level.chains, true));
    let mut seen = alloc::vec![false; level.chains.len()];
    let mut rings = Vec::new();
    for start in 0..level.chains.len() {
        let mut ring = Vec::with_capacity(if rings.is_empty() { level.net.len() + upright.net.len() } else { 8 });
        let mut now = start;
        while let (Some(flag @ false), Some(chain)) = (seen.get_mut(now), level.chains.get(now)) {
            *flag = true;
            level.corners(chain, false, &mut ring);
            let Some((next, chain)) = after_level.get(now).and_then(|&n| upright.chains.get(n).map(|c| (n, c))) else { break };
            upright.corners(chain, true, &mut ring);
            let Some(&next) = after_upright.get(next) else { break };
            now = next;
        }
        match ring.is_empty() {
            true => {}
            false if pinched => split_pinched(ring, &mut rings),
            false => rings.push(ring),
        }
    }
    for ring in &mut rings {
        from_lowest(ring);
    }
    rings
}

/// Turns a ring so that it starts at its lowest, then leftmost corner.
pub(super) fn from_lowest(ring: &mut [Corner]) {
    let lowest = lowest_of(ring.iter().map(|corner| corner.at));
    ring.rotate_left(lowest);
}

/// For each chain of `from`, the chain of `to` that starts where it ends; and whether chains meet in fours anywhere. There they are
/// linked to the left: so solids that touch in a point stay apart, however often they do. The flags tell the level chains.
fn matches((from, from_level): (&[Chain], bool), (to, to_level): (&[Chain], bool)) -> (Vec<usize>, bool) {
    let ends = by_place(from, from_level, |chain| chain.end);
    let starts = by_place(to, to_level, |chain| chain.start);
    let mut next = alloc::vec![usize::MAX; from.len()];
    let mut link = |end: usize, start: usize| {
        if let Some(slot) = next.get_mut(end) {
            *slot = start;
        }
    };
    let mut pinched = false;
    let place = |index: usize| from.get(index).map(|chain| chain.end);
    let mut rest = ends.into_iter().zip(starts).peekable();
    while let Some((end, start)) = rest.next() {
        let Some((other_end, other_start)) = rest.next_if(|&(other, _)| place(other) == place(end)) else {
            link(end, start);
            continue;
        };
        pinched = true;
        let left = from.get(end).zip(to.get(start)).is_some_and(|(e, s)| turns_left(e, s));
        let (start, other_start) = if left { (start, other_start) } else { (other_start, start) };
        link(end, start);
        link(other_end, other_start);
    }
    (next, pinched)
}

/// The numbers of chains, ordered by u and then v of one of their ends. Upright chains are in that order already; level ones are
/// ordered by v, so u and the number decide.
fn by_place(chains: &[Chain], level: bool, end: impl Fn(&Chain) -> (i64, i64)) -> Vec<usize> {
    const NUMBER: u32 = 28;
    if !level {
        return (0..chains.len()).collect();
    }
    if chains.len() >= 1 << NUMBER {
        let mut order: Vec<usize> = (0..chains.len()).collect();
        order.sort_by_key(|&index| chains.get(index).map(|chain| end(chain).0));
        return order;
    }
    let mut keys: Vec<i64> = chains.iter().zip(0..).map(|(chain, number)| (end(chain).0 << NUMBER) | number).collect();
    keys.sort_unstable();
    keys.into_iter().map(|key| (key & ((1 << NUMBER) - 1)) as usize).collect()
}

fn turns_left(before: &Chain, after: &Chain) -> bool {
    let step = |chain: &Chain| ((chain.end.0 - chain.start.0).signum(), (chain.end.1 - chain.start.1).signum());
    let ((ax, ay), (bx, by)) = (step(before), step(after));
    ax * by - ay * bx > 0
}

/// A ring that touches itself in a point goes around a piece of void there, which gets a ring of its own.
fn split_pinched(ring: Vec<Corner>, rings: &mut Vec<Vec<Corner>>) {
    let mut open: Vec<Corner> = Vec::with_capacity(ring.len());
    let mut places: BTreeMap<Point, usize> = BTreeMap::new();
    for corner in ring {
        if let Some(&place) = places.get(&corner.at) {
            let inner: Vec<Corner> = open.drain(place..).collect();
            for corner in &inner {
                places.remove(&corner.at);
            }
            rings.push(inner);
        }
        places.insert(corner.at, open.len());
        open.push(corner);
    }
    rings.push(open);
}

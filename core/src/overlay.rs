//! Two outlines of one plane laid over each other: what both fill, and whether one runs into the other.
//!
//! The plane is cut into strips at every vertex; in a strip an outline is a pile of trapezoids. Which line lies above which is asked
//! in whole numbers (`i128`), so edges that two outlines share never overlap. How much they share, where they do, is measured with floats.

use alloc::vec::Vec;

use crate::point::Point;

/// An edge that is not along the strips: `x` is the way along, `y` across; `x0 < x1`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Line {
    x0: i64,
    y0: i64,
    x1: i64,
    y1: i64,
    /// The solid lies above it.
    floor: bool,
}

impl Line {
    fn level(&self) -> bool {
        self.y0 == self.y1
    }

    /// Its height at `x`, as a fraction.
    fn at(&self, x: i64) -> (i128, i128) {
        let (dx, dy) = (i128::from(self.x1 - self.x0), i128::from(self.y1 - self.y0));
        (i128::from(self.y0) * dx + dy * i128::from(x - self.x0), dx)
    }

    /// Twice its height in the middle of a strip, as a fraction.
    fn middle(&self, x0: i64, x1: i64) -> (i128, i128) {
        if self.level() {
            return (2 * i128::from(self.y0), 1);
        }
        let ((p, dx), (q, _)) = (self.at(x0), self.at(x1));
        (p + q, dx)
    }

    /// A height below which it does not come in a strip, and one above which it does not.
    fn least(&self, from: i64, to: i64) -> i64 {
        let floor = |x: i64| self.height(x, |p, q| p.div_euclid(q));
        floor(from).min(floor(to))
    }

    fn most(&self, from: i64, to: i64) -> i64 {
        let ceiling = |x: i64| self.height(x, |p, q| -(-p).div_euclid(q));
        ceiling(from).max(ceiling(to))
    }

    fn height(&self, x: i64, round: impl Fn(i128, i128) -> i128) -> i64 {
        if self.level() {
            return self.y0;
        }
        let (p, q) = self.at(x);
        round(p, q) as i64
    }

    /// How far it lies above `other` at `x`; the sign is exact.
    fn above(&self, other: &Line, x: i64) -> f64 {
        if self.level() && other.level() {
            return (self.y0 - other.y0) as f64;
        }
        let ((p, q), (r, s)) = (self.at(x), other.at(x));
        (p * s - r * q) as f64 / (q as f64 * s as f64)
    }

    /// The cosine of its slope: what a height above it measures square to it.
    fn cosine(&self) -> f64 {
        let (dx, dy) = ((self.x1 - self.x0) as f64, (self.y1 - self.y0) as f64);
        dx / libm::hypot(dx, dy)
    }
}

/// An outline ready to be laid over another, in strips along one axis of its plane.
#[derive(Clone, Debug, Default)]
pub(crate) struct Strips {
    /// By their way along.
    lines: Vec<Line>,
}

impl Strips {
    /// The outline given by its edges, the solid on their left; strips across x, or across y.
    pub fn of(edges: impl Iterator<Item = (Point, Point)>, upright: bool) -> Strips {
        let place = |p: Point| if upright { (p.y.nm(), p.x.nm()) } else { (p.x.nm(), p.y.nm()) };
        let line = |(a, b): (Point, Point)| {
            let ((ax, ay), (bx, by)) = (place(a), place(b));
            let onwards = ax < bx;
            let (x0, y0, x1, y1) = if onwards { (ax, ay, bx, by) } else { (bx, by, ax, ay) };
            (x0 < x1).then_some(Line { x0, y0, x1, y1, floor: onwards != upright })
        };
        let mut lines: Vec<Line> = edges.filter_map(line).collect();
        lines.sort_unstable_by_key(|line| line.x0);
        Strips { lines }
    }

    /// From where to where it reaches along.
    fn reach(&self) -> Option<(i64, i64)> {
        self.lines.first().map(|first| first.x0).zip(self.lines.iter().map(|line| line.x1).max())
    }
}

/// The lines of one outline that cross the strip we are in.
struct Pile<'a> {
    rest: &'a [Line],
    lines: Vec<Line>,
}

impl Pile<'_> {
    /// Goes on to the strip `x0..x1`, in which no line begins or ends.
    fn advance(&mut self, x0: i64, x1: i64) {
        /// As many new lines are put in one by one.
        const FEW: usize = 4;
        self.lines.retain(|line| line.x1 > x0);
        let begun = self.rest.partition_point(|line| line.x0 <= x0);
        let (new, rest) = self.rest.split_at(begun);
        self.rest = rest;
        // Lines of one outline do not cross: their order in the middle of the strip is that all along it, and stays.
        let order = |a: &Line, b: &Line| {
            let ((p, q), (r, s)) = (a.middle(x0, x1), b.middle(x0, x1));
            (p * s).cmp(&(r * q))
        };
        let new = new.iter().filter(|line| line.x1 > x0);
        if begun > FEW {
            self.lines.extend(new);
            self.lines.sort_unstable_by(order);
        } else {
            for line in new {
                let place = self.lines.partition_point(|other| order(other, line).is_lt());
                self.lines.insert(place, *line);
            }
        }
    }

    /// The solids, each between a floor and a ceiling.
    fn solids(&self) -> impl Iterator<Item = (Line, Line)> + '_ {
        let ceilings = self.lines.iter().skip(1);
        self.lines.iter().zip(ceilings).filter(|(a, b)| a.floor && !b.floor).map(|(a, b)| (*a, *b))
    }
}

/// Visits the strips that both outlines reach: from, to, the two piles.
fn walk(a: &Strips, b: &Strips, mut visit: impl FnMut(i64, i64, &Pile, &Pile)) {
    let (Some((a0, a1)), Some((b0, b1))) = (a.reach(), b.reach()) else { return };
    let (lo, hi) = (a0.max(b0), a1.min(b1));
    let ends = a.lines.iter().chain(&b.lines).flat_map(|line| [line.x0, line.x1]);
    let mut places: Vec<i64> = ends.filter(|x| (lo..=hi).contains(x)).collect();
    places.sort_unstable();
    places.dedup();
    let (mut p, mut q) = (Pile { rest: &a.lines, lines: Vec::new() }, Pile { rest: &b.lines, lines: Vec::new() });
    for (&from, &to) in places.iter().zip(places.iter().skip(1)) {
        p.advance(from, to);
        q.advance(from, to);
        visit(from, to, &p, &q);
    }
}

/// What two outlines both fill.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Common {
    /// In square nanometres; 0 only if they share nothing.
    pub area: i128,
    /// Least extent of the largest common cell, square to its edges, in nanometres.
    pub depth: i64,
}

/// The common part of two outlines, cut into strips along the same axis.
pub(crate) fn common(a: &Strips, b: &Strips) -> Common {
    let mut common = Common::default();
    walk(a, b, |from, to, p, q| {
        if p.lines.is_empty() || q.lines.is_empty() {
            return;
        }
        let others: Vec<(Line, Line)> = q.solids().collect();
        let mut first = 0;
        for one in p.solids() {
            let (low, high) = (one.0.least(from, to), one.1.most(from, to));
            // Both piles are in order: those that lie below this one lie below the next too.
            first += others.iter().skip(first).take_while(|(_, ceiling)| ceiling.most(from, to) <= low).count();
            for &other in others.iter().skip(first).take_while(|(floor, _)| floor.least(from, to) < high) {
                let cell = cell(one, other, (from, to));
                common.area += cell.area;
                common.depth = common.depth.max(cell.depth);
            }
        }
    });
    common
}

/// What two trapezoids share in a strip.
fn cell((a_floor, a_ceiling): (Line, Line), (b_floor, b_ceiling): (Line, Line), (from, to): (i64, i64)) -> Common {
    let width = to - from;
    if [a_floor, a_ceiling, b_floor, b_ceiling].iter().all(Line::level) {
        let height = a_ceiling.y0.min(b_ceiling.y0) - a_floor.y0.max(b_floor.y0);
        return if height > 0 { Common { area: i128::from(height) * i128::from(width), depth: height.min(width) } } else { Common::default() };
    }
    // The common height is the least of four distances, each linear along the strip.
    let pairs = [(a_ceiling, b_floor), (b_ceiling, a_floor), (a_ceiling, a_floor), (b_ceiling, b_floor)];
    let ends = pairs.map(|(ceiling, floor)| (ceiling.above(&floor, from), ceiling.above(&floor, to)));
    if ends.iter().any(|&(start, end)| start <= 0.0 && end <= 0.0) {
        return Common::default();
    }
    let height = |t: f64| ends.iter().map(|&(start, end)| start + (end - start) * t).fold(f64::INFINITY, f64::min);
    // It bends where two of them are equal, and begins where one of them is nothing.
    let mut bends: Vec<f64> = alloc::vec![0.0, 1.0];
    for (index, &(start, end)) in ends.iter().enumerate() {
        bends.push(start / (start - end));
        bends.extend(ends.iter().skip(index + 1).map(|&(s, e)| (start - s) / (start - s - end + e)));
    }
    bends.retain(|t| (0.0..=1.0).contains(t));
    bends.sort_unstable_by(f64::total_cmp);
    let heights: Vec<(f64, f64)> = bends.iter().map(|&t| (t, height(t).max(0.0))).collect();
    let area: f64 = heights.iter().zip(heights.iter().skip(1)).map(|(&(s, g), &(t, h))| (t - s) * (g + h) / 2.0).sum();
    if area <= 0.0 {
        return Common::default();
    }
    // Of the two lines of each distance, square to the steeper.
    let square = pairs.map(|(p, q)| p.cosine().min(q.cosine()));
    let deep = |t: f64| ends.iter().zip(square).map(|(&(start, end), cosine)| (start + (end - start) * t) * cosine).fold(f64::INFINITY, f64::min);
    let depth = bends.iter().map(|&t| deep(t)).fold(0.0, f64::max);
    let area = libm::ceil(area * width as f64) as i128;
    Common { area: area.max(1), depth: (libm::ceil(depth) as i64).clamp(1, width) }
}

/// Whether the first outline, moved upwards or downwards without end, passes through the second. Touching is free.
pub(crate) fn runs_into(a: &Strips, b: &Strips, upwards: bool) -> bool {
    let mut hit = false;
    walk(a, b, |from, to, p, q| {
        let (a, b) = if upwards { (p.lines.first(), q.lines.last()) } else { (p.lines.last(), q.lines.first()) };
        if let (Some(a), Some(b)) = (a, b) {
            let (low, high) = if upwards { (a, b) } else { (b, a) };
            hit |= high.above(low, from) > 0.0 || high.above(low, to) > 0.0;
        }
    });
    hit
}

#[cfg(test)]
#[path = "overlay_tests.rs"]
mod tests;

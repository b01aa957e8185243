//! A finished outline seen along the axis about which boards are turned: what a cut across the axis shows of it.

use alloc::vec::Vec;

use crate::assembly::{At, Board, Plan};
use crate::overlay::Strips;
use crate::point::{Axis, Point};
use crate::shape::Shape;

/// One board's solid. Between two neighbouring levels its section is the same.
#[derive(Clone, Debug)]
pub(super) struct Solid<'a> {
    pub board: &'a Board,
    pub shape: &'a Shape,
    pub axis: Axis,
    /// Of an upright board.
    pub plan: Option<Plan>,
}

/// What a cut shows of a board.
#[derive(Clone, Debug, Default)]
pub(super) struct Section {
    /// Of an upright board: the solid stretches along it, from its lowest corner.
    pub stretches: Vec<(i64, i64)>,
    /// The outline in the plan, the solid on the left.
    pub edges: Vec<(Point, Point)>,
    pub strips: Strips,
    lo: (i64, i64),
    hi: (i64, i64),
}

impl<'a> Solid<'a> {
    pub fn new(board: &'a Board, shape: &'a Shape, axis: Axis) -> Solid<'a> {
        Solid { board, shape, axis, plan: (board.normal() != axis).then(|| Plan::of(board, axis)) }
    }

    /// A point of its outline: along an upright board, and along the axis.
    fn place(&self, p: Point) -> (i64, i64) {
        let (u, _) = self.board.normal().plane();
        let (along, level) = if u == self.axis { (p.y, p.x) } else { (p.x, p.y) };
        (along.nm(), level.nm() + self.board.lo(self.axis))
    }

    /// Where its section may change along the axis.
    pub fn levels(&self, out: &mut Vec<i64>) {
        out.extend([self.board.lo(self.axis), self.board.hi(self.axis)]);
        if self.plan.is_some() {
            out.extend(self.shape.vertices().iter().map(|v| self.place(v.at).1));
        }
    }

    /// Whether an upright board has an edge that runs along neither axis: its section would not be the same between levels.
    pub fn leans(&self) -> bool {
        self.plan.is_some() && self.shape.leans()
    }

    /// Whether the full slab reaches this level.
    pub fn reaches(&self, level: i64) -> bool {
        self.board.lo(self.axis) <= level && level < self.board.hi(self.axis)
    }

    /// Its section at a level, or just above it.
    pub fn section(&self, level: i64) -> Section {
        let Some(plan) = &self.plan else {
            return if self.reaches(level) { Section::of(Vec::new(), self.flat()) } else { Section::default() };
        };
        let stretches = self.cuts(level, |p| self.place(p));
        let outline = |&(from, to): &(i64, i64)| ring(&plan.stretch(from as f64, to as f64));
        let edges = stretches.iter().flat_map(outline).collect();
        Section::of(stretches, edges)
    }

    /// The solid along the axis at a place along an upright board.
    pub fn column(&self, along: i64) -> Vec<(i64, i64)> {
        self.cuts(along, |p| {
            let (along, level) = self.place(p);
            (level, along)
        })
    }

    /// The solid stretches of its outline on a line across the second coordinate.
    fn cuts(&self, at: i64, place: impl Fn(Point) -> (i64, i64)) -> Vec<(i64, i64)> {
        let crossed = |(a, b): (Point, Point)| {
            let ((x, y), (_, end)) = (place(a), place(b));
            ((y <= at) != (end <= at)).then_some(x)
        };
        let mut cuts: Vec<i64> = self.shape.edges().filter_map(crossed).collect();
        cuts.sort_unstable();
        let pair = |pair: &[i64]| match *pair {
            [from, to] if from < to => Some((from, to)),
            _ => None,
        };
        cuts.chunks(2).filter_map(pair).collect()
    }

    /// The outline of a flat board in the plan.
    fn flat(&self) -> Vec<(Point, Point)> {
        let (u, v) = self.board.normal().plane();
        let place = |p: Point| Point::raw(p.x.nm() + self.board.lo(u), p.y.nm() + self.board.lo(v));
        self.shape.edges().map(|(a, b)| (place(a), place(b))).collect()
    }

    /// The full slab in the plan.
    pub fn slab(&self) -> Vec<(Point, Point)> {
        match &self.plan {
            Some(plan) => ring(&plan.stretch(0.0, plan.length())),
            None => {
                let (u, v) = self.board.normal().plane();
                let place = |p: Point| ((p.x.nm() + self.board.lo(u)) as f64, (p.y.nm() + self.board.lo(v)) as f64);
                ring(&self.board.corners().into_iter().map(place).collect::<Vec<_>>())
            }
        }
    }
}

impl Section {
    pub fn of(stretches: Vec<(i64, i64)>, edges: Vec<(Point, Point)>) -> Section {
        let strips = Strips::of(edges.iter().copied(), false);
        let of = |fold: fn(i64, i64) -> i64, start: i64| edges.iter().fold((start, start), |(x, y), (p, _)| (fold(x, p.x.nm()), fold(y, p.y.nm())));
        let (lo, hi) = (of(i64::min, i64::MAX), of(i64::max, i64::MIN));
        Section { stretches, edges, strips, lo, hi }
    }

    /// In strips along the other axis of the plan.
    pub fn upright(&self) -> Strips {
        Strips::of(self.edges.iter().copied(), true)
    }

    /// Whether the boxes of two sections share area.
    pub fn near(&self, other: &Section) -> bool {
        self.lo.0 < other.hi.0 && other.lo.0 < self.hi.0 && self.lo.1 < other.hi.1 && other.lo.1 < self.hi.1
    }

    /// The lengths of its edges, at most.
    pub fn perimeter(&self) -> f64 {
        self.edges.iter().map(|&(p, q)| crate::plane::distance(p, q) as f64).sum()
    }

    /// How far a ray goes from a point in a direction (of length 1) until it meets the outline.
    pub fn ahead(&self, from: At, (dx, dy): At) -> Option<f64> {
        let hit = |&(p, q): &(Point, Point)| {
            let ((px, py), (qx, qy)) = ((p.x.nm() as f64 - from.0, p.y.nm() as f64 - from.1), (q.x.nm() as f64 - from.0, q.y.nm() as f64 - from.1));
            let side = |x: f64, y: f64| dx * y - dy * x;
            let (s, e) = (side(px, py), side(qx, qy));
            if (s < 0.0) == (e < 0.0) {
                return None;
            }
            let t = s / (s - e);
            let way = (px + (qx - px) * t) * dx + (py + (qy - py) * t) * dy;
            (way > -SLACK).then_some(way)
        };
        self.edges.iter().filter_map(hit).min_by(f64::total_cmp)
    }
}

/// Rounding of corners in the plan, in nanometres: what is no more does not count.
pub(super) const SLACK: f64 = 4.0;

/// The edges of a closed outline, its corners rounded.
pub(super) fn ring(corners: &[At]) -> Vec<(Point, Point)> {
    let round = |&(x, y): &At| Point::raw(libm::round(x) as i64, libm::round(y) as i64);
    corners.iter().zip(corners.iter().skip(1).chain(corners.first())).map(|(p, q)| (round(p), round(q))).collect()
}

/// An edge in the plan from left to right, and the outline it belongs to.
#[derive(Clone, Copy)]
struct Line {
    from: At,
    to: At,
    owner: usize,
}

/// The area that several outlines cover together, in square nanometres: in strips, in which no edges begin, end or cross.
pub(super) fn covered(outlines: &[&[(Point, Point)]]) -> f64 {
    let plain = |p: Point| (p.x.nm() as f64, p.y.nm() as f64);
    let line = |owner, (p, q): (Point, Point)| {
        let (from, to) = if p.x < q.x { (plain(p), plain(q)) } else { (plain(q), plain(p)) };
        (from.0 < to.0).then_some(Line { from, to, owner })
    };
    let mut lines: Vec<Line> =
        outlines.iter().enumerate().flat_map(|(owner, edges)| edges.iter().filter_map(move |&edge| line(owner, edge))).collect();
    lines.sort_unstable_by(|a, b| a.from.0.total_cmp(&b.from.0));
    let mut places: Vec<f64> = lines.iter().flat_map(|line| [line.from.0, line.to.0]).collect();
    for (index, a) in lines.iter().enumerate() {
        let later = lines.iter().skip(index + 1).take_while(|b| b.from.0 < a.to.0);
        places.extend(later.filter(|b| b.owner != a.owner).filter_map(|b| crossing(a, b)));
    }
    places.sort_unstable_by(f64::total_cmp);
    places.dedup();
    let (mut rest, mut active) = (lines.as_slice(), Vec::<Line>::new());
    let (mut cuts, mut spans) = (Vec::new(), Vec::new());
    let mut sum = 0.0;
    for (&x0, &x1) in places.iter().zip(places.iter().skip(1)) {
        active.retain(|line| line.to.0 > x0);
        let (new, later) = rest.split_at(rest.partition_point(|line| line.from.0 <= x0));
        active.extend(new.iter().filter(|line| line.to.0 > x0));
        rest = later;
        let x = f64::midpoint(x0, x1);
        cuts.clear();
        cuts.extend(active.iter().map(|&Line { from: p, to: q, owner }| (owner, p.1 + (q.1 - p.1) * ((x - p.0) / (q.0 - p.0)))));
        cuts.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        spans.clear();
        spans.extend(cuts.chunks(2).filter_map(|pair| if let [(_, from), (_, to)] = *pair { Some((from, to)) } else { None }));
        spans.sort_unstable_by(|a: &(f64, f64), b| a.0.total_cmp(&b.0));
        let mut end = f64::NEG_INFINITY;
        for &(from, to) in &spans {
            sum += (to - from.max(end)).max(0.0) * (x1 - x0);
            end = end.max(to);
        }
    }
    sum
}

/// Where two edges cross along the first axis, if they do inside both.
fn crossing(a: &Line, b: &Line) -> Option<f64> {
    let (p, q, r, s) = (a.from, a.to, b.from, b.to);
    if p.1.max(q.1) <= r.1.min(s.1) || r.1.max(s.1) <= p.1.min(q.1) {
        return None;
    }
    let side = |p: At, q: At, r: At| (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0);
    let (start, end) = (side(p, q, r), side(p, q, s));
    if (start < 0.0) == (end < 0.0) || (side(r, s, p) < 0.0) == (side(r, s, q) < 0.0) {
        return None;
    }
    Some(r.0 + (s.0 - r.0) * (start / (start - end)))
}

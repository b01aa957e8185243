//! How long two outlines run along one line, against each other: what one cut can do for both.

use alloc::vec::Vec;
use core::cmp::Ordering;

use crate::point::Point;
use crate::shape::Shape;

/// The total length in nanometres over which straight edges of two placed paths coincide and run against each other: the solid of
/// one lies on one side of the line, that of the other on the other side. One cut along it is the edge of both.
///
/// Edges need not match end to end: what counts is the stretch that they have in common, each stretch of a slanted line rounded down to the
/// nanometre. Edges that run the same way (one part upon the other) do not count, nor does a point. Arcs never count: each bulges into its
/// own solid, so no arc of one outline is an edge of another.
pub(crate) fn shared_length(a: &Shape, b: &Shape) -> i64 {
    Lines::of(a).shared(&Lines::of(b), [0, 0])
}

/// A straight edge, as a stretch of the line it lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Stretch {
    /// The line's least whole step: to the right, or straight up.
    step: [i64; 2],
    /// Whether the edge goes that way.
    forth: bool,
    /// Which of the parallel lines: the cross product of the step and any of its points.
    offset: i128,
    /// Where the edge begins and ends along x, upright edges along y.
    from: i64,
    to: i64,
}

impl Stretch {
    fn of(a: Point, b: Point) -> Option<Stretch> {
        let (way, start) = ([(b.x - a.x).nm(), (b.y - a.y).nm()], [a.x.nm(), a.y.nm()]);
        let parts = divisor(way)?;
        let forth = way[0] > 0 || way[0] == 0 && way[1] > 0;
        let step = way.map(|w| if forth { w / parts } else { -w / parts });
        let along = |p: Point| if way[0] == 0 { p.y.nm() } else { p.x.nm() };
        Some(Stretch { step, forth, offset: cross(step, start), from: along(a).min(along(b)), to: along(a).max(along(b)) })
    }

    /// The same edge of a path that lies elsewhere.
    fn moved(self, by: [i64; 2]) -> Stretch {
        let along = if self.step[0] == 0 { by[1] } else { by[0] };
        Stretch { offset: self.offset + cross(self.step, by), from: self.from + along, to: self.to + along, ..self }
    }

    fn line(&self) -> ([i64; 2], i128) {
        (self.step, self.offset)
    }

    /// The length of a piece of this line from one place along it to another.
    fn length(&self, from: i64, to: i64) -> i64 {
        match self.step {
            [1, 0] | [0, 1] => to - from,
            [x, y] => {
                // Both places are whole points of the line, so a whole number of steps apart.
                let steps = i128::from((to - from) / x);
                let [dx, dy] = [x, y].map(|side| steps * i128::from(side));
                (dx * dx + dy * dy).isqrt() as i64
            }
        }
    }
}

/// The straight edges of one path, by their lines.
#[derive(Clone, Debug, Default)]
pub(super) struct Lines {
    /// Those that go along their line's step, and those that go against it; by line, then along it.
    ways: [Vec<Stretch>; 2],
}

impl Lines {
    pub fn of(path: &Shape) -> Lines {
        let mut lines = Lines::default();
        for ring in path.rings() {
            let next = ring.vertices().iter().skip(1).chain(ring.vertices().first());
            let straight = ring.bent().zip(next).filter(|((_, centre), _)| centre.is_none());
            for stretch in straight.filter_map(|((a, _), b)| Stretch::of(a.at, b.at)) {
                let [forth, back] = &mut lines.ways;
                if stretch.forth { forth.push(stretch) } else { back.push(stretch) }
            }
        }
        for way in &mut lines.ways {
            way.sort_unstable_by_key(|stretch| (stretch.step, stretch.offset, stretch.from));
        }
        lines
    }

    /// The length along which these run against the edges of another path, which is moved first.
    pub fn shared(&self, other: &Lines, by: [i64; 2]) -> i64 {
        let ([forth, back], [others_forth, others_back]) = (&self.ways, &other.ways);
        along(forth, others_back, by).saturating_add(along(back, others_forth, by))
    }
}

/// The total length of the stretches that two sorted lists have in common.
fn along(a: &[Stretch], b: &[Stretch], by: [i64; 2]) -> i64 {
    let (mut a, mut b) = (a.iter().copied().peekable(), b.iter().map(|stretch| stretch.moved(by)).peekable());
    let mut total = 0i64;
    while let (Some(p), Some(q)) = (a.peek(), b.peek()) {
        let order = p.line().cmp(&q.line());
        if order == Ordering::Equal {
            let (from, to) = (p.from.max(q.from), p.to.min(q.to));
            if from < to {
                total = total.saturating_add(p.length(from, to));
            }
        }
        // The one that ends first has nothing more to share.
        if order.then(p.to.cmp(&q.to)) == Ordering::Greater {
            b.next()
        } else {
            a.next()
        };
    }
    total
}

fn cross([x, y]: [i64; 2], [px, py]: [i64; 2]) -> i128 {
    i128::from(x) * i128::from(py) - i128::from(y) * i128::from(px)
}

/// The greatest whole number that divides both; none for a point.
fn divisor([x, y]: [i64; 2]) -> Option<i64> {
    let (mut a, mut b) = (x.abs(), y.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    (a != 0).then_some(a)
}

#[cfg(test)]
#[path = "shared_tests.rs"]
mod tests;

//! Straight edges as stretches of the lines they lie on, and where two of them run against each other.

use core::cmp::Ordering;

use crate::length::Nm;
use crate::point::Point;

/// A straight edge, as a stretch of the line it lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Stretch {
    /// The line's least whole step: to the right, or straight up.
    step: [i64; 2],
    /// Whether the edge goes that way.
    pub forth: bool,
    /// Which of the parallel lines: the cross product of the step and any of its points.
    offset: i128,
    /// Where the edge begins and ends along x, upright edges along y.
    pub from: i64,
    pub to: i64,
    /// Where it lies across: the other coordinate of its end at `from`.
    across: i64,
}

impl Stretch {
    /// None of an edge without length.
    pub fn of(a: Point, b: Point) -> Option<Stretch> {
        let (way, start) = ([(b.x - a.x).nm(), (b.y - a.y).nm()], [a.x.nm(), a.y.nm()]);
        let parts = divisor(way)?;
        let forth = way[0] > 0 || way[0] == 0 && way[1] > 0;
        let step = way.map(|w| if forth { w / parts } else { -w / parts });
        let first = if forth { a } else { b };
        let last = if forth { b } else { a };
        let (from, to, across) = match way[0] {
            0 => (first.y, last.y, first.x),
            _ => (first.x, last.x, first.y),
        };
        Some(Stretch { step, forth, offset: cross(step, start), from: from.nm(), to: to.nm(), across: across.nm() })
    }

    /// The same edge of a path that lies elsewhere.
    pub fn moved(self, by: [i64; 2]) -> Stretch {
        let (along, across) = if self.step[0] == 0 { (by[1], by[0]) } else { (by[0], by[1]) };
        Stretch { offset: self.offset + cross(self.step, by), from: self.from + along, to: self.to + along, across: self.across + across, ..self }
    }

    /// Which line: its step and which of the parallel ones.
    pub fn line(&self) -> ([i64; 2], i128) {
        (self.step, self.offset)
    }

    /// The parallel lines beyond this one by more than nothing and less than `gap`, as they are before they move `by`: both ends excluded.
    pub fn nearer_than(&self, gap: i64, by: [i64; 2]) -> (([i64; 2], i128), ([i64; 2], i128)) {
        let [x, y] = self.step.map(i128::from);
        let offset = self.offset - cross(self.step, by);
        // The least whole offset that is as far as the gap.
        let (gap, length) = (i128::from(gap), x * x + y * y);
        let reach = (gap * gap).checked_mul(length).map_or_else(
            // Beyond all numbers at hand: a little farther.
            || gap * (length.isqrt() + 1),
            |square| {
                let root = square.isqrt();
                if root * root == square { root } else { root + 1 }
            },
        );
        ((self.step, offset), (self.step, offset + reach))
    }

    /// The length of a piece of this line from one place along it to another, rounded down.
    pub fn length(&self, from: i64, to: i64) -> i64 {
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

    /// The point of this line at a place along it that is a whole number of steps away.
    pub fn point(&self, along: i64) -> Point {
        match self.step {
            [0, _] => Point::new(Nm::raw(self.across), Nm::raw(along)),
            [x, y] => Point::new(Nm::raw(along), Nm::raw(self.across + (along - self.from) / x * y)),
        }
    }
}

/// Calls for each piece that a stretch of one list and one of the other have in common, with both and the piece's places along the line.
/// Both lists are sorted by line and along it, and the stretches of either do not overlap each other.
pub(crate) fn meet<A: Copy, B: Copy>(
    a: impl Iterator<Item = (Stretch, A)>,
    b: impl Iterator<Item = (Stretch, B)>,
    mut each: impl FnMut((Stretch, A), (Stretch, B), i64, i64),
) {
    let (mut a, mut b) = (a.peekable(), b.peekable());
    while let (Some(&p), Some(&q)) = (a.peek(), b.peek()) {
        let order = p.0.line().cmp(&q.0.line());
        if order == Ordering::Equal {
            let (from, to) = (p.0.from.max(q.0.from), p.0.to.min(q.0.to));
            if from < to {
                each(p, q, from, to);
            }
        }
        // The one that ends first has nothing more to share.
        if order.then(p.0.to.cmp(&q.0.to)) == Ordering::Greater {
            b.next();
        } else {
            a.next();
        }
    }
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

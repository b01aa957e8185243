//! Whether a way in keeps clear of all lines.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use crate::bounds::MM;
use crate::cut::cells::{Cells, FLAT};
use crate::cut::contour::Contour;
use crate::cut::{Bridges, Move, flat};
use crate::length::Nm;
use crate::plane::cross;
use crate::point::Point;

/// The edges of all lines.
pub(super) struct Clear {
    /// Each with the distance to keep.
    chords: Cells<f64>,
    /// The chords between part and waste that rise or fall, by the rows that they pass through.
    rows: BTreeMap<i64, Vec<[Point; 2]>>,
    room: [Point; 2],
    farthest: i64,
}

/// How high a row is.
const ROW: i64 = 8 * MM;

impl Clear {
    pub(super) fn new(bridges: &Bridges, room: [Point; 2], kerf: Nm) -> Clear {
        // Never so near that rounding counts.
        let gap = (kerf.nm() / 2).max(2 * FLAT.nm());
        let (mut chords, mut rows, mut farthest) = (Vec::new(), BTreeMap::<i64, Vec<[Point; 2]>>::new(), gap);
        for way in bridges.lines.iter().flat_map(Contour::edges) {
            // A bridge ends in the board around it, which has to stay too.
            let keep = if bridges.is_gap(&way) { gap.max(way.length()) } else { gap };
            farthest = farthest.max(keep);
            chords.extend(flat(way, Some(FLAT)).map(|way| ([way.from, way.to], keep as f64)));
        }
        for way in bridges.lines.iter().filter(|line| super::has_waste(line.kind)).flat_map(Contour::edges).flat_map(|way| flat(way, Some(FLAT))) {
            let (low, high) = (way.from.y.min(way.to.y), way.from.y.max(way.to.y));
            if low != high {
                let passed = low.nm().div_euclid(ROW)..=high.nm().div_euclid(ROW);
                passed.for_each(|row| rows.entry(row).or_default().push([way.from, way.to]));
            }
        }
        Clear { chords: Cells::new(chords), rows, room, farthest }
    }

    /// Whether a point lies in no part: a ray to the right crosses the lines between part and waste an even number of times. What two parts share is no such line.
    fn in_waste(&self, p: Point) -> bool {
        let row = self.rows.get(&p.y.nm().div_euclid(ROW));
        let crossed = row.into_iter().flatten().filter(|[a, b]| {
            let up = a.y < b.y;
            (a.y > p.y) != (b.y > p.y) && (cross(*a, *b, p) > 0) == up
        });
        crossed.count() % 2 == 0
    }

    /// Whether a way in, which ends on a line, stays in the room and in the waste, meets no line but at its end, and leads off those there.
    pub(super) fn holds(&self, way: &Move) -> bool {
        let [lo, hi] = self.room;
        let inside = |p: Point| lo.x <= p.x && p.x <= hi.x && lo.y <= p.y && p.y <= hi.y;
        let pieces: Vec<[Point; 2]> = flat(*way, Some(FLAT)).map(|way| [way.from, way.to]).collect();
        if !pieces.iter().all(|[from, _]| inside(*from) && self.in_waste(*from)) {
            return false;
        }
        let length = apart(way.from, way.to);
        let (least, most) = way.bounds();
        self.chords.near([least, most], self.farthest + 1).all(|(chord, keep)| {
            if away(way.to, *chord) > 2.0 {
                return pieces.iter().all(|piece| between(*piece, *chord) >= *keep);
            }
            // A line on which it ends.
            away(way.from, *chord) >= length / 4.0
        })
    }
}

fn apart(a: Point, b: Point) -> f64 {
    libm::hypot((b.x - a.x).nm() as f64, (b.y - a.y).nm() as f64)
}

/// The distance of a point from a chord.
fn away(p: Point, [a, b]: [Point; 2]) -> f64 {
    let way = |from: Point, to: Point| [(to.x - from.x).nm() as f64, (to.y - from.y).nm() as f64];
    let ([dx, dy], [px, py]) = (way(a, b), way(a, p));
    let square = dx * dx + dy * dy;
    if square == 0.0 {
        return apart(a, p);
    }
    let part = ((px * dx + py * dy) / square).clamp(0.0, 1.0);
    libm::hypot(px - part * dx, py - part * dy)
}

/// The distance of two chords.
fn between(one: [Point; 2], other: [Point; 2]) -> f64 {
    let left = |a: Point, b: Point, c: Point| cross(a, b, c).signum();
    let ([a, b], [c, d]) = (one, other);
    if left(a, b, c) * left(a, b, d) < 0 && left(c, d, a) * left(c, d, b) < 0 {
        return 0.0;
    }
    away(a, other).min(away(b, other)).min(away(c, one)).min(away(d, one))
}

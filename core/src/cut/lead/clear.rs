//! Whether a way in keeps clear of all lines.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use crate::bounds::MM;
use crate::cut::contour::Contour;
use crate::cut::{Bridges, Move, flat};
use crate::length::Nm;
use crate::plane::cross;
use crate::point::Point;

/// The edges of all lines in square cells, so that near ones are found without looking at all.
pub(super) struct Clear {
    /// Each with the distance to keep.
    chords: Vec<([Point; 2], f64)>,
    cells: BTreeMap<[i64; 2], Vec<usize>>,
    /// The chords between part and waste that rise or fall, by the rows of cells that they pass through.
    rows: BTreeMap<i64, Vec<[Point; 2]>>,
    room: [Point; 2],
    farthest: i64,
}

const CELL: i64 = 8 * MM;
/// Chords stand for arcs, no farther from them than this.
const FLAT: Nm = Nm::raw(10_000);

impl Clear {
    pub(super) fn new(bridges: &Bridges, room: [Point; 2], kerf: Nm) -> Clear {
        // Never so near that rounding counts.
        let gap = (kerf.nm() / 2).max(2 * FLAT.nm());
        let mut clear = Clear { chords: Vec::new(), cells: BTreeMap::new(), rows: BTreeMap::new(), room, farthest: gap };
        for way in bridges.lines.iter().flat_map(Contour::edges) {
            // A bridge ends in the board around it, which has to stay too.
            let keep = if bridges.is_gap(&way) { gap.max(way.length()) } else { gap };
            clear.farthest = clear.farthest.max(keep);
            clear.chords.extend(flat(way, Some(FLAT)).map(|way| ([way.from, way.to], keep as f64)));
        }
        for way in bridges.lines.iter().filter(|line| super::has_waste(line.kind)).flat_map(Contour::edges).flat_map(|way| flat(way, Some(FLAT))) {
            let (low, high) = (way.from.y.min(way.to.y), way.from.y.max(way.to.y));
            if low != high {
                let rows = low.nm().div_euclid(CELL)..=high.nm().div_euclid(CELL);
                rows.for_each(|row| clear.rows.entry(row).or_default().push([way.from, way.to]));
            }
        }
        for (number, (chord, _)) in clear.chords.iter().enumerate() {
            for cell in along(*chord) {
                clear.cells.entry(cell).or_default().push(number);
            }
        }
        clear
    }

    /// Whether a point lies in no part: a ray to the right crosses the lines between part and waste an even number of times. What two parts share is no such line.
    fn in_waste(&self, p: Point) -> bool {
        let row = self.rows.get(&p.y.nm().div_euclid(CELL));
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
        let reach = self.farthest + 1;
        let (least, most) = way.bounds();
        let corner = |p: Point, by: i64| Point::raw(p.x.nm() + by, p.y.nm() + by);
        cells(corner(least, -reach), corner(most, reach))
            .filter_map(|cell| self.cells.get(&cell))
            .flatten()
            .filter_map(|&number| self.chords.get(number))
            .all(|(chord, keep)| {
                if away(way.to, *chord) > 2.0 {
                    return pieces.iter().all(|piece| between(*piece, *chord) >= *keep);
                }
                // A line on which it ends.
                away(way.from, *chord) >= length / 4.0
            })
    }
}

/// The cells of a rectangle.
fn cells(lo: Point, hi: Point) -> impl Iterator<Item = [i64; 2]> {
    let [x, y] = [lo.x.nm()..=hi.x.nm(), lo.y.nm()..=hi.y.nm()].map(|span| span.start().div_euclid(CELL)..=span.end().div_euclid(CELL));
    x.flat_map(move |column| y.clone().map(move |row| [column, row]))
}

/// The cells that a chord may pass through: those of the rectangles around its pieces, each no longer than a cell.
fn along([a, b]: [Point; 2]) -> Vec<[i64; 2]> {
    let (dx, dy) = ((b.x - a.x).nm(), (b.y - a.y).nm());
    let count = (dx.abs().max(dy.abs()) / CELL + 1).min(4_000);
    let at = |step: i64| Point::raw(a.x.nm() + dx / count * step, a.y.nm() + dy / count * step);
    let mut found: Vec<[i64; 2]> = (0..count)
        .flat_map(|step| {
            let (p, q) = (at(step), if step + 1 == count { b } else { at(step + 1) });
            cells(Point::new(p.x.min(q.x), p.y.min(q.y)), Point::new(p.x.max(q.x), p.y.max(q.y)))
        })
        .collect();
    found.sort_unstable();
    found.dedup();
    found
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

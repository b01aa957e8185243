//! Chords in square cells, so that near ones are found without looking at all.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use crate::bounds::MM;
use crate::length::Nm;
use crate::point::Point;

/// Chords stand for arcs, no farther from them than this.
pub(super) const FLAT: Nm = Nm::raw(10_000);

/// The side of a cell.
const CELL: i64 = 8 * MM;

/// Chords by cell, each with what is known of it.
pub(super) struct Cells<T> {
    chords: Vec<([Point; 2], T)>,
    cells: BTreeMap<[i64; 2], Vec<usize>>,
}

impl<T> Cells<T> {
    pub fn new(chords: Vec<([Point; 2], T)>) -> Cells<T> {
        let mut cells: BTreeMap<[i64; 2], Vec<usize>> = BTreeMap::new();
        for (number, (chord, _)) in chords.iter().enumerate() {
            for cell in along(*chord) {
                cells.entry(cell).or_default().push(number);
            }
        }
        Cells { chords, cells }
    }

    /// Those that may come nearer to a rectangle than `reach`; some more than once.
    pub fn near(&self, [lo, hi]: [Point; 2], reach: i64) -> impl Iterator<Item = &([Point; 2], T)> {
        let corner = |p: Point, by: i64| Point::raw(p.x.nm() + by, p.y.nm() + by);
        let found = cells(corner(lo, -reach), corner(hi, reach)).filter_map(|cell| self.cells.get(&cell)).flatten();
        found.filter_map(|&number| self.chords.get(number))
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

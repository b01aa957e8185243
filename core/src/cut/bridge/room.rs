//! Where there is room for a bridge.

use alloc::vec::Vec;

use crate::cut::cells::{Cells, FLAT};
use crate::cut::contour::Contour;
use crate::cut::{Move, flat};
use crate::joint::Role;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;

/// A stretch along a part's own outline, counted over all of its lines, where the middle of a gap may lie.
#[derive(Clone, Copy)]
pub(super) struct Room {
    pub from: i64,
    pub to: i64,
    /// The line and edge it is on.
    pub place: (usize, usize),
    /// Where that edge begins.
    pub start: i64,
}

impl Room {
    /// What is left of it without what lies between these two.
    pub fn without(self, from: i64, to: i64) -> impl Iterator<Item = Room> {
        let rest = [Room { to: self.to.min(from), ..self }, Room { from: self.from.max(to), ..self }];
        rest.into_iter().filter(|room| room.from <= room.to)
    }
}

/// Finds room for gaps of one length.
pub(super) struct Rooms {
    /// What is cut through, with the number of its line.
    chords: Cells<usize>,
    gap: i64,
    kerf: i64,
}

/// What is rounded is less than this.
const ROUNDED: f64 = 2.0;

impl Rooms {
    pub fn new(lines: &[Contour], gap: i64, kerf: Nm) -> Rooms {
        let cut = lines.iter().enumerate().filter(|(_, line)| line.kind != LineKind::Mark);
        let chords =
            cut.flat_map(|(number, line)| line.edges().flat_map(move |way| flat(way, Some(FLAT)).map(move |way| ([way.from, way.to], number))));
        Rooms { chords: Cells::new(chords.collect()), gap, kerf: kerf.nm() }
    }

    /// The stretches of straight edges of a role that have at least so much board between their own cut and any other beside it.
    pub fn of(&self, lines: &[(usize, &Contour)], role: Role, board: i64) -> Vec<Room> {
        let margin = self.gap + half(self.gap) + 1;
        let mut rooms = Vec::new();
        let mut along = 0;
        for &(number, line) in lines {
            for (edge, way) in line.edges().enumerate() {
                let (start, length) = (along, way.length());
                along += length;
                let suits = way.centre.is_none() && line.points.get(edge).is_some_and(|(vertex, _)| vertex.role == role);
                if suits && length >= 2 * margin {
                    let whole = Room { from: start + margin, to: start + length - margin, place: (number, edge), start };
                    let taken = self.crowded(&way, number, self.kerf + board);
                    rooms.extend(taken.into_iter().fold(Vec::from([whole]), |rooms, [from, to]| {
                        rooms.into_iter().flat_map(|room| room.without(start + from, start + to)).collect()
                    }));
                }
            }
        }
        rooms
    }

    /// Where the middle of a gap may not lie along a straight edge, since another line, or the same one, comes nearer than `far` on the side of the waste.
    fn crowded(&self, way: &Move, number: usize, far: i64) -> Vec<[i64; 2]> {
        let between = |a: Point, b: Point| [(b.x - a.x).nm() as f64, (b.y - a.y).nm() as f64];
        let [x, y] = between(way.from, way.to);
        let length = libm::hypot(x, y).max(1.0);
        // Along the edge, and out to its right.
        let place = |p: Point| {
            let [dx, dy] = between(way.from, p);
            [(dx * x + dy * y) / length, (dx * y - dy * x) / length]
        };
        let (lo, hi) = way.bounds();
        let beside = half(self.gap) + far;
        let taken = self.chords.near([lo, hi], far).filter_map(|(chord, line)| {
            let [[u0, v0], [u1, v1]] = chord.map(place);
            let (least, most) = (if *line == number { ROUNDED } else { -ROUNDED }, far as f64);
            if v0.max(v1) < least || v0.min(v1) >= most {
                return None;
            }
            // What of the chord is as near as that.
            let at = |v: f64| if v0 == v1 { u0 } else { u0 + (u1 - u0) * ((v.clamp(least, most) - v0) / (v1 - v0)) };
            let [a, b] = if v0 == v1 { [u0, u1] } else { [at(v0), at(v1)] };
            Some([libm::floor(a.min(b)) as i64 - beside, libm::ceil(a.max(b)) as i64 + beside])
        });
        taken.filter(|[from, to]| *to > 0 && *from < way.length()).collect()
    }
}

//! Ways in: a beam pierces, and a bit plunges, in the waste, and comes from there to the line.

mod clear;

use alloc::vec::Vec;

use self::clear::Clear;
use super::contour::{Contour, Entry};
use super::moves::Move;
use super::{Bridges, Cut};
use crate::joint::Role;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;

/// Finds ways in that lie in the waste.
///
/// At a corner of the part the way in runs straight on into the first edge; on a straight edge it is a quarter of a circle that touches the edge, or comes square
/// to it. It keeps clear of every line, and of the sheet's edge, by half the kerf, and of bridges by as much as their gap is long; and shorter ones are tried
/// where there is no room. Behind a bridge it comes square to the edge: along the edge it would cut into the bridge; where another part ends beside the start,
/// aslant against it.
///
/// ```text
///       |         |                     |  part  |
///       |  part   |                 ----+----<---+----   an edge begins in its middle:
///   ->--+---->----+                         (            a quarter circle from the waste
///   in along the first edge                  o
/// ```
pub(super) struct Leads<'a> {
    bridges: &'a Bridges,
    clear: Clear,
    lengths: [i64; 3],
}

/// A start with its way in: where a closed line is entered, if that changed, and the moves that lead there.
pub(super) struct Lead {
    pub entry: Option<Entry>,
    pub moves: Vec<Move>,
}

/// How many other places of a line are tried.
const TRIED: usize = 24;

impl<'a> Leads<'a> {
    /// Ways in of this length for lines inside the rectangle `room`, for a cut of this width.
    pub fn new(bridges: &'a Bridges, room: [Point; 2], kerf: Nm, length: Nm) -> Leads<'a> {
        let length = length.nm();
        Leads { bridges, clear: Clear::new(bridges, room, kerf), lengths: [length, length / 2, length / 4] }
    }

    /// The way in to a closed line, from where the route begins it or from another place that suits better.
    pub fn closed(&self, cut: &Cut) -> Option<Lead> {
        let line = self.bridges.lines.get(cut.contour)?;
        let wanted = line.entry_point(cut.entry)?;
        let mut others = places(line, self.bridges);
        // Those that leave no mark in a joint first, the near ones before the far.
        others.sort_by_key(|&(entry, joint)| (joint, line.entry_point(entry).map(|at| crate::plane::distance(wanted, at))));
        let tried = || core::iter::once(cut.entry).filter(|&entry| !in_joint(line, entry)).chain(others.iter().map(|(entry, _)| *entry).take(TRIED));
        self.lengths.iter().filter(|&&length| length > 0).find_map(|&length| {
            tried().find_map(|entry| {
                let mut walk = line.walk(entry, cut.reversed);
                let first = walk.next()?;
                let last = walk.last().unwrap_or(first);
                let moves = self.to(&first, Some(&last), cut.reversed, length)?;
                Some(Lead { entry: Some(entry), moves })
            })
        })
    }

    /// The way in to a piece that begins with this move.
    pub fn open(&self, first: &Move, reversed: bool) -> Option<Lead> {
        let moves = self.lengths.iter().filter(|&&length| length > 0).find_map(|&length| self.to(first, None, reversed, length))?;
        Some(Lead { entry: None, moves })
    }

    /// The moves of a way in of this length to the start of `first`, after which `last` arrives there if the line is closed.
    fn to(&self, first: &Move, last: Option<&Move>, reversed: bool, length: i64) -> Option<Vec<Move>> {
        let ahead = unit(first.leaving())?;
        let before = match last {
            Some(last) => unit(last.arriving())?,
            None => ahead,
        };
        // The part lies to the left of the line as it is stored, the waste to the right.
        let side = if reversed { -1.0 } else { 1.0 };
        let waste = [ahead[1] * side, -ahead[0] * side];
        let at = |way: [f64; 2], far: f64, from: Point| {
            let along = |way: f64| libm::round(way * far) as i64;
            Point::raw(from.x.nm() + along(way[0]), from.y.nm() + along(way[1]))
        };
        let start = first.from;
        let straight = |from: Point| Move { from, to: start, centre: None, clockwise: true };
        let turn = (before[0] * ahead[1] - before[1] * ahead[0]) * side;
        let along = before[0] * ahead[0] + before[1] * ahead[1];
        let mut found: Vec<Move> = Vec::new();
        if turn > 0.25 || turn > -1e-9 && along < 0.0 {
            found.push(straight(at(ahead, -(length as f64), start)));
        } else if turn.abs() < 1e-6 && along > 0.0 {
            if last.is_some() {
                // A quarter of a circle is as long as was asked.
                let radius = length as f64 * core::f64::consts::FRAC_2_PI;
                let centre = at(waste, radius, start);
                found.push(Move { from: at(ahead, -radius, centre), to: start, centre: Some(centre), clockwise: !reversed });
            }
            found.push(straight(at(waste, length as f64, start)));
            // Where another part ends beside the start there is waste ahead only.
            let aslant = [ahead[0] + waste[0], ahead[1] + waste[1]];
            found.push(straight(at(aslant, length as f64 * core::f64::consts::FRAC_1_SQRT_2, start)));
        }
        found.into_iter().find(|way| self.clear.holds(way)).map(|way| Vec::from([way]))
    }
}

/// Whether a walk that begins here leaves its mark in a joint.
fn in_joint(line: &Contour, entry: Entry) -> bool {
    let (Entry::Point(edge) | Entry::Middle(edge)) = entry;
    line.points.get(edge).is_some_and(|(vertex, _)| matches!(vertex.role, Role::Flank | Role::Cheek))
}

/// The points and the middles of the straight edges of a closed line, each with whether its mark would be in a joint.
fn places(line: &Contour, bridges: &Bridges) -> Vec<(Entry, bool)> {
    let way = |edge: usize| line.edge(edge).filter(|way| way.from != way.to && !bridges.is_gap(way));
    let middle = |edge: usize| way(edge).filter(|way| way.centre.is_none()).map(|_| Entry::Middle(edge));
    let both = |edge: usize| way(edge).map(|_| Entry::Point(edge)).into_iter().chain(middle(edge));
    (0..line.points.len()).flat_map(both).map(|entry| (entry, in_joint(line, entry))).collect()
}

/// Whether a line has waste to its right: what two parts share has none.
pub(super) fn has_waste(kind: LineKind) -> bool {
    matches!(kind, LineKind::CutInner | LineKind::CutOuter)
}

fn unit((x, y): (i128, i128)) -> Option<[f64; 2]> {
    let (x, y) = (x as f64, y as f64);
    let length = libm::sqrt(x * x + y * y);
    (length > 0.0).then(|| [x / length, y / length])
}

#[cfg(test)]
#[path = "../lead_tests.rs"]
mod tests;

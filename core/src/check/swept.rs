//! Whether one board, moved straight away, runs into another where boards are turned.

use alloc::vec::Vec;

use super::order::Direction;
use super::solid::{SLACK, Section, Solid, ring};
use crate::assembly::{Board, Plan};
use crate::overlay::common;
use crate::point::Axis;
use crate::shape::Shape;

/// Farther than any board reaches.
const FAR: f64 = 4e10;

/// One board's solid, slice by slice.
#[derive(Clone, Debug)]
pub(super) struct Sliced<'a> {
    solid: Solid<'a>,
    /// Each different section once, with the stretches of the axis over which it is seen, upwards.
    slices: Vec<(Vec<(i64, i64)>, Section)>,
}

impl<'a> Sliced<'a> {
    pub fn new(board: &'a Board, shape: &'a Shape, axis: Axis) -> Sliced<'a> {
        let solid = Solid::new(board, shape, axis);
        let mut levels = Vec::new();
        solid.levels(&mut levels);
        levels.sort_unstable();
        levels.dedup();
        let mut slices: Vec<(Vec<(i64, i64)>, Section)> = Vec::new();
        for (&from, &to) in levels.iter().zip(levels.iter().skip(1)) {
            let section = solid.section(from);
            match slices.iter_mut().find(|(_, other)| other.edges == section.edges) {
                Some((stretches, _)) => stretches.push((from, to)),
                None => slices.push((alloc::vec![(from, to)], section)),
            }
        }
        Sliced { solid, slices }
    }

    /// Directions in which it may be taken off, the handiest first: along the axis of turning, square to its own faces, and along itself.
    pub fn ways(&self) -> [Direction; 6] {
        let axis = self.solid.axis;
        let along = |upwards| Direction { axis, upwards, own: false };
        let own = |axis, upwards| Direction { axis, upwards, own: true };
        let second = if self.solid.board.normal().plane().0 == axis { Axis::Y } else { Axis::X };
        [along(true), own(Axis::Z, true), own(Axis::Z, false), own(second, false), own(second, true), along(false)]
    }

    /// Whether it passes through `other` when it moves off without end. Touching is free.
    pub fn blocked(&self, other: &Sliced, way: Direction) -> bool {
        let hits =
            |a: &Section, b: &Section| a.near(b) && common(&a.strips, &b.strips).depth.min(common(&a.upright(), &b.upright()).depth) > SLACK as i64;
        if !way.own && way.axis != self.solid.axis {
            return true;
        }
        if !way.own {
            let ends = |stretches: &[(i64, i64)]| (stretches.first().map_or(0, |s| s.0), stretches.last().map_or(0, |s| s.1));
            return self.slices.iter().any(|(own, a)| {
                let (from, to) = ends(own);
                let met = |stretches: &[(i64, i64)]| if way.upwards { ends(stretches).1 > from } else { ends(stretches).0 < to };
                other.slices.iter().any(|(stretches, b)| met(stretches) && hits(a, b))
            });
        }
        // A flat board is lifted off, never pushed aside.
        let Some(plan) = self.solid.plan else { return true };
        self.slices.iter().filter(|(_, a)| !a.stretches.is_empty()).any(|(own, a)| {
            let swept = swept(&plan, a, self.out_of_face(), way);
            let met = |stretches: &[(i64, i64)]| stretches.iter().any(|(start, end)| own.iter().any(|(from, to)| start < to && from < end));
            other.slices.iter().any(|(stretches, b)| swept.near(b) && met(stretches) && hits(&swept, b))
        })
    }

    /// Whether the panel's w runs into the thickness as the plan counts it.
    fn out_of_face(&self) -> bool {
        self.solid.board.normal() != Axis::Y
    }
}

/// What an upright board's section passes over.
fn swept(plan: &Plan, section: &Section, onwards: bool, way: Direction) -> Section {
    let t = plan.thickness();
    let outline = |(from, to): (f64, f64), (near, far): (f64, f64)| {
        let [p, q, r, s] = [(from, near), (to, near), (to, far), (from, far)].map(|(along, deep)| plan.at(along, deep));
        if plan.anticlockwise() { ring(&[p, q, r, s]) } else { ring(&[p, s, r, q]) }
    };
    let ends = |&(from, to): &(i64, i64)| (from as f64, to as f64);
    let edges = if way.axis == Axis::Z {
        let deep = if way.upwards == onwards { (0.0, FAR) } else { (-FAR, t) };
        section.stretches.iter().flat_map(|stretch| outline(ends(stretch), deep)).collect()
    } else {
        let from = section.stretches.first().map_or(0.0, |stretch| ends(stretch).0);
        let to = section.stretches.last().map_or(0.0, |stretch| ends(stretch).1);
        outline(if way.upwards { (from, FAR) } else { (-FAR, to) }, (0.0, t))
    };
    Section::of(Vec::new(), edges)
}

//! Random free assemblies: boards on random planes that end at each other's faces or a little beyond.

use dryfit_core::{Assembly, Axis, Failure, Joint};
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::FileFailurePersistence;

use crate::nm;

/// One board by its two corners, in nanometres.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slab {
    /// The axis across it.
    pub normal: Axis,
    /// Lowest corner along x, y, z.
    pub lo: [i64; 3],
    /// Highest corner.
    pub hi: [i64; 3],
}

/// Boards in the order of adding, and the joints asked for by their numbers.
#[derive(Clone, Debug)]
pub struct Scene {
    /// The boards; `b0`, `b1` and so on.
    pub slabs: Vec<Slab>,
    /// Side A, side B, joint.
    pub joints: Vec<(usize, usize, Joint)>,
}

impl Slab {
    /// Volume of what several slabs have in common.
    pub fn common(slabs: &[&Slab]) -> i128 {
        let along = |k: usize| {
            let lo = slabs.iter().map(|s| s.lo[k]).max().unwrap_or(0);
            let hi = slabs.iter().map(|s| s.hi[k]).min().unwrap_or(0);
            i128::from((hi - lo).max(0))
        };
        along(0) * along(1) * along(2)
    }

    /// Whether the mate ends at a face of this board, so that their block lies at its edge.
    pub fn ends_at(&self, face_of: &Slab) -> bool {
        let k = face_of.normal.index();
        self.lo[k] == face_of.lo[k] || self.hi[k] == face_of.hi[k]
    }

    /// Whether this board's extent along an axis lies strictly inside the other's.
    pub fn inside(&self, other: &Slab, axis: Axis) -> bool {
        let k = axis.index();
        other.lo[k] < self.lo[k] && self.hi[k] < other.hi[k]
    }
}

impl Scene {
    /// The same boards and joints as an assembly.
    ///
    /// # Errors
    /// What the assembly refuses.
    pub fn assembly(&self) -> Result<Assembly, Failure> {
        let mut assembly = Assembly::new();
        for (number, slab) in self.slabs.iter().enumerate() {
            let (u, v) = slab.normal.plane();
            let size = |axis: Axis| nm(slab.hi[axis.index()] - slab.lo[axis.index()]);
            assembly.add(&format!("b{number}"), slab.normal, slab.lo.map(nm), [size(u), size(v)], size(slab.normal))?;
        }
        for &(a, b, joint) in &self.joints {
            assembly.joint(&format!("b{a}"), &format!("b{b}"), joint)?;
        }
        Ok(assembly)
    }

    /// Pairs of boards that overlap, the one added first in front.
    pub fn pairs(&self) -> Vec<(usize, usize)> {
        let all = (0..self.slabs.len()).flat_map(|a| (a + 1..self.slabs.len()).map(move |b| (a, b)));
        all.filter(|&(a, b)| Slab::common(&[&self.slabs[a], &self.slabs[b]]) > 0).collect()
    }

    fn without_lonely_boards(mut slabs: Vec<Slab>) -> Scene {
        loop {
            let meets = |a: usize| slabs.iter().enumerate().any(|(b, other)| a != b && Slab::common(&[&slabs[a], other]) > 0);
            match (0..slabs.len()).find(|&a| !meets(a)) {
                Some(lonely) => drop(slabs.remove(lonely)),
                None => return Scene { slabs, joints: Vec::new() },
            }
        }
    }
}

/// The settings of a property over scenes; a failing case is kept beside the test.
pub fn config(cases: u32) -> ProptestConfig {
    let kept = FileFailurePersistence::WithSource("regressions");
    ProptestConfig { cases, max_global_rejects: 100 * cases, failure_persistence: Some(Box::new(kept)), ..ProptestConfig::default() }
}

/// How far one board reaches along one axis: the planes it starts and ends at, and how far beyond.
type Reach = (Index, Index, i64, i64);

fn reach() -> impl Strategy<Value = Reach> {
    // Never between 0 and a thickness: that would be a blind joint.
    (any::<Index>(), any::<Index>(), select(vec![0, 0, 9, 12]), select(vec![0, 0, 8, 11]))
}

/// Scenes of two to nine boards without joints of their own; every coordinate is a multiple of `step` nanometres.
pub fn scenes(step: i64) -> impl Strategy<Value = Scene> {
    let planes = || (20..40i64, prop::collection::vec((select(vec![3i64, 4, 6]), 25..60i64), 1..=3));
    let boards = prop::collection::vec((prop::bool::weighted(0.85), reach(), reach()), 9);
    ([planes(), planes(), planes()], boards)
        .prop_map(move |(planes, draws)| slabs(&planes, &draws, step))
        .prop_shuffle()
        .prop_map(Scene::without_lonely_boards)
        .prop_filter("fewer than two boards meet", |scene| scene.slabs.len() >= 2)
}

fn slabs(planes: &[(i64, Vec<(i64, i64)>); 3], draws: &[(bool, Reach, Reach)], step: i64) -> Vec<Slab> {
    let faces: Vec<Vec<(i64, i64)>> = planes
        .iter()
        .map(|(start, sheets)| {
            let mut at = *start;
            let mut next = |&(thick, gap): &(i64, i64)| {
                let low = at;
                at += thick + gap;
                (low, low + thick)
            };
            sheets.iter().map(&mut next).collect()
        })
        .collect();
    let mut slabs = Vec::new();
    let mut draws = draws.iter();
    for axis in Axis::ALL {
        for &(low, high) in &faces[axis.index()] {
            let Some(&(present, along_u, along_v)) = draws.next() else { break };
            let (u, v) = axis.plane();
            let (mut lo, mut hi) = ([low; 3], [high; 3]);
            for (other, (from, to, before, behind)) in [(u, along_u), (v, along_v)] {
                let sheets = &faces[other.index()];
                let (one, two) = (from.index(sheets.len()), to.index(sheets.len()));
                lo[other.index()] = sheets[one.min(two)].0 - before;
                hi[other.index()] = sheets[one.max(two)].1 + behind;
            }
            if present {
                slabs.push(Slab { normal: axis, lo: lo.map(|c| c * step), hi: hi.map(|c| c * step) });
            }
        }
    }
    slabs
}

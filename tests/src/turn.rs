//! The 24 rotations that take the axes to axes.

use dryfit_core::Axis;

use crate::Slab;

/// A rotation: where each axis goes, and with which sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turn {
    to: [Axis; 3],
    sign: [i64; 3],
}

impl Turn {
    /// All 24, the identity among them.
    pub fn all() -> Vec<Turn> {
        let mut turns = Vec::new();
        for to in [[0, 1, 2], [1, 2, 0], [2, 0, 1], [0, 2, 1], [2, 1, 0], [1, 0, 2]] {
            for bits in 0..8 {
                let sign = [0, 1, 2].map(|k| if bits >> k & 1 == 1 { -1 } else { 1 });
                let even = (0..3).filter(|&i| to[i] == i).count() != 1;
                let parity: i64 = if even { 1 } else { -1 };
                if parity * sign[0] * sign[1] * sign[2] == 1 {
                    turns.push(Turn { to: to.map(|k| Axis::ALL[k]), sign });
                }
            }
        }
        turns
    }

    /// Where an axis goes.
    pub fn axis(&self, axis: Axis) -> Axis {
        self.to[axis.index()]
    }

    /// Whether lengths along an axis run backwards afterwards.
    pub fn reverses(&self, axis: Axis) -> bool {
        self.sign[axis.index()] < 0
    }

    /// Where a point goes.
    pub fn point(&self, point: [i64; 3]) -> [i64; 3] {
        let mut out = [0; 3];
        for axis in Axis::ALL {
            out[self.axis(axis).index()] = self.sign[axis.index()] * point[axis.index()];
        }
        out
    }

    /// Where a board goes.
    pub fn slab(&self, slab: &Slab) -> Slab {
        let (one, two) = (self.point(slab.lo), self.point(slab.hi));
        let pick = |choose: fn(i64, i64) -> i64| [0, 1, 2].map(|k| choose(one[k], two[k]));
        Slab { normal: self.axis(slab.normal), lo: pick(i64::min), hi: pick(i64::max) }
    }
}

//! Length and area of a plain box's panels by formulas, without any outline.
//!
//! With an odd number of fingers on every run, the first of side A, front and back own all corners. So each outline goes along the rectangle around
//! it, and twice through the depth of each notch that stands between two fingers; and its area is what lies inside all notches' floors, and fingers on it.

use super::Cutter;
use crate::joint::{Face, Fit, FlatBox, Pattern, Side};
use crate::round::half;

/// A box for which the formulas hold: fingers at least as wide as the board is thick, and allowances and half the kerf so small beside it that no
/// edge reaches another.
pub(super) struct PlainBox {
    outside: [i64; 3],
    runs: [Run; 3],
    /// How far a finger's end stands out, and how deep a notch's floor lies, from the slab's edge.
    tip: i64,
    floor: i64,
    /// What the earlier of two boards gives up at each flank, and the later.
    flank: [i64; 2],
    cheek: i64,
    /// Half the kerf.
    grow: i64,
    closed: bool,
}

/// A shared run: how often it is cut, and how much of it each side has.
#[derive(Clone, Copy)]
struct Run {
    cuts: i64,
    share: [i64; 2],
}

/// What one panel comes to, and its twin on the other side of the box.
pub(super) struct Plain {
    pub faces: [Face; 2],
    /// Of the path: its length, and the sides of the rectangle around it.
    pub length: i64,
    pub path: [i64; 2],
    /// Of the finished part.
    pub area: i128,
}

impl Run {
    /// None unless the first and the last span are A's and all are at least so wide.
    fn of(pattern: &Pattern, least: i64) -> Option<Run> {
        let mut run = Run { cuts: -1, share: [0, 0] };
        for span in pattern.spans() {
            let wide = (span.to - span.from).nm();
            let [a, b] = &mut run.share;
            *(if span.owner == Side::A { a } else { b }) += wide;
            run.cuts += 1;
            if wide < least {
                return None;
            }
        }
        (pattern.first() == Side::A && pattern.last() == Side::A).then_some(run)
    }

    /// Whether side B has any of it.
    fn shared(&self) -> bool {
        self.cuts > 0
    }

    /// Notches between two fingers of A, and of B.
    fn notches(&self) -> [i64; 2] {
        let inner = self.cuts / 2;
        [inner, (inner - 1).max(0)]
    }
}

impl PlainBox {
    pub fn new(flat: &FlatBox, cutter: Cutter, fit: Fit) -> Option<PlainBox> {
        let (outside, thickness, closed) = flat.given();
        let (flank, cheek, tip, grow) = (fit.flank().nm(), fit.cheek().nm(), fit.tip().nm(), half(cutter.kerf().nm()));
        if 3 * (flank.abs().max(cheek.abs()).max(tip.abs()) + grow) > thickness {
            return None;
        }
        let [x, y, z] = flat.patterns();
        let runs = [Run::of(x, thickness)?, Run::of(y, thickness)?, Run::of(z, thickness)?];
        Some(PlainBox { outside, runs, tip, floor: thickness + cheek, flank: [half(flank), flank - half(flank)], cheek, grow, closed })
    }

    /// Front and back: side A along all edges, with all corners.
    pub fn front(&self) -> Plain {
        let ([x, _, z], [along_x, _, along_z]) = (self.outside, self.runs);
        let (level, depth) = (1 + i64::from(self.closed), self.tip + self.floor);
        let fingers = level * self.fingers(along_x, 0, 2) + 2 * self.fingers(along_z, 0, level);
        let notches = level * along_x.notches()[0] + 2 * along_z.notches()[0];
        let size = [x + 2 * self.tip, z + level * self.tip];
        self.plain([Face::Front, Face::Back], size, [x - 2 * self.floor, z - level * self.floor], fingers + 2 * level * depth, notches)
    }

    /// Left and right: side B towards front and back, side A towards base and top.
    pub fn left(&self) -> Plain {
        let ([_, y, z], [_, along_y, along_z]) = (self.outside, self.runs);
        let level = 1 + i64::from(self.closed);
        let fingers = 2 * self.fingers(along_z, 1, 0) + level * self.fingers(along_y, 0, 2);
        let notches = 2 * along_z.notches()[1] + level * along_y.notches()[0];
        let size = [y + 2 * self.reach(along_z), z + level * self.tip];
        self.plain([Face::Left, Face::Right], size, [y - 2 * self.floor, z - level * self.floor], fingers, notches)
    }

    /// Base and top: side B along all edges.
    pub fn base(&self) -> Plain {
        let ([x, y, _], [along_x, along_y, _]) = (self.outside, self.runs);
        let fingers = 2 * self.fingers(along_x, 1, 0) + 2 * self.fingers(along_y, 1, 0);
        let notches = 2 * along_x.notches()[1] + 2 * along_y.notches()[1];
        let size = [x + 2 * self.reach(along_y), y + 2 * self.reach(along_x)];
        self.plain([Face::Base, Face::Top], size, [x - 2 * self.floor, y - 2 * self.floor], fingers, notches)
    }

    /// How wide the fingers of a side are in all, where so many ends of them lie at a mate's face.
    fn fingers(&self, run: Run, side: usize, ends: i64) -> i64 {
        let (share, flank) = if side == 0 { (run.share[0], self.flank[0]) } else { (run.share[1], self.flank[1]) };
        share - run.cuts * flank - ends * self.cheek
    }

    /// How far side B stands out along a run.
    fn reach(&self, run: Run) -> i64 {
        if run.shared() { self.tip } else { -self.floor }
    }

    fn plain(&self, faces: [Face; 2], size: [i64; 2], core: [i64; 2], fingers: i64, notches: i64) -> Plain {
        let depth = self.tip + self.floor;
        let [width, height] = size;
        let area = |[width, height]: [i64; 2]| i128::from(width) * i128::from(height);
        Plain {
            faces,
            length: 2 * (width + height) + 2 * notches * depth + 8 * self.grow,
            path: size.map(|side| side + 2 * self.grow),
            area: area(core) + area([fingers, depth]),
        }
    }
}

//! A panel as its peers make it: a slab, less rectangles.
//!
//! With an odd number of fingers of which the earlier face owns the first, the front and the back own all eight corners.

use dryfit_core::{Face, Fingers, Nm, Side};

use crate::scenes::{FINGERS, OUTSIDE, THICKNESS, mm};

/// Left, bottom, right, top, in nanometres.
pub type Rect = [i64; 4];

/// One panel to be made by booleans.
#[derive(Clone, Debug)]
pub struct Lost {
    /// Which panel.
    pub face: Face,
    /// Its slab.
    pub slab: Rect,
    /// What other boards own of the slab.
    pub lost: Vec<Rect>,
    /// What is left of the slab once all its edges are cut off by the board's thickness.
    pub core: Rect,
    /// Fingers and corners that it keeps around the core.
    pub kept: Vec<Rect>,
}

/// The six panels of the closed box.
pub fn cells() -> Vec<Lost> {
    Face::ALL.into_iter().map(panel).collect()
}

fn panel(face: Face) -> Lost {
    let thick = mm(THICKNESS).nm();
    let rank = face as usize / 2;
    // Front and back are the first to win, then left and right, then base and top.
    let [x, y, z] = OUTSIDE.map(|side| mm(side).nm());
    let (width, height) = [(x, z), (y, z), (x, y)][rank];
    // The ranks of the mates at left and right, and of those below and above.
    let (sides, ends) = [(1, 2), (0, 2), (1, 0)][rank];
    let mut made =
        Lost { face, slab: [0, 0, width, height], lost: Vec::new(), core: [thick, thick, width - thick, height - thick], kept: Vec::new() };
    for place in [0, height - thick] {
        made.edge(width, rank < ends, |from, to| [from, place, to, place + thick]);
    }
    for place in [0, width - thick] {
        made.edge(height, rank < sides, |from, to| [place, from, place + thick, to]);
    }
    for left in [0, width - thick] {
        for bottom in [0, height - thick] {
            let list = if rank == 0 { &mut made.kept } else { &mut made.lost };
            list.push([left, bottom, left + thick, bottom + thick]);
        }
    }
    made
}

impl Lost {
    fn edge(&mut self, length: i64, first: bool, place: impl Fn(i64, i64) -> Rect) {
        let thick = mm(THICKNESS).nm();
        let run = Nm::new(length - 2 * thick).expect("within ten metres");
        let pattern = Fingers::count(FINGERS).pattern(run, mm(THICKNESS)).expect("the fingers fit");
        for span in pattern.spans() {
            let rect = place(thick + span.from.nm(), thick + span.to.nm());
            if (span.owner == Side::A) == first { self.kept.push(rect) } else { self.lost.push(rect) }
        }
    }
}

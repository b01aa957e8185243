//! Rectangles onto sheets: a greedy filling, and a search that turns its order over.
//!
//! A sheet is filled from below: the lowest gap of the rim first, and into it what suits it best by how many of its sides come flush
//! (fitness classes: Leung, Zhang and Sim, *European Journal of Operational Research* 215, 2011; the rim kept as segments: Imahori and Yagiura,
//! *Computers & Operations Research* 37, 2010). A gap is given up only where nothing left fits into it, so what is left out fits nowhere.
//! Where several would do, an order decides. The search swaps it about under a target: fewer sheets, or the last one filled less high. It keeps what
//! leaves little more area out than before (threshold accepting: Dueck and Scheuer, *Journal of Computational Physics* 90, 1990), and gives a filling
//! up as soon as it has wasted more than that.
//!
//! How a rectangle may lie is asked per kind of sheet. The last sheet is filled as low as can be; for an offcut of its whole height the
//! caller packs its parts once more with both axes exchanged.

mod bound;
mod fill;
mod order;
mod search;
mod sheets;
mod skip;
mod skyline;
mod turn;
mod ways;

use alloc::vec::Vec;

use super::area;
use super::watch::Watch;
use fill::{Full, Plan};

/// A rectangle to be packed; the gap is already added to both of its sides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Rect {
    pub size: [i64; 2],
}

impl Rect {
    /// Width and height as it lies.
    pub fn lying(&self, turned: bool) -> [i64; 2] {
        let [width, height] = self.size;
        if turned { [height, width] } else { [width, height] }
    }

    fn longer(&self) -> i64 {
        self.size[0].max(self.size[1])
    }

    fn shorter(&self) -> i64 {
        self.size[0].min(self.size[1])
    }
}

/// A kind of sheet: its room inside the border, the gap added to both sides; how many there are, `None` for as many as needed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Bin {
    pub size: [i64; 2],
    pub count: Option<u32>,
}

/// Where a rectangle lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Spot {
    pub rect: usize,
    pub sheet: usize,
    pub at: [i64; 2],
    pub turned: bool,
}

/// What was packed, and what was not.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Packing {
    /// Which kind each sheet is.
    pub sheets: Vec<usize>,
    pub spots: Vec<Spot>,
    /// What fits on no kind of sheet, and what no sheet was left for.
    pub unplaced: Vec<usize>,
}

/// Packs rectangles on sheets. `allowed(rect, bin)` says whether one may lie as it is, and turned.
///
/// Kinds of sheets are used up in the order given, as long as anything left fits on them. Then the least area is left out, then the fewest
/// sheets are used, then the last one is filled the least high; the sheets before are as full as the search could make them. All
/// arithmetic is whole, so the same seed gives the same packing everywhere, unless a clock stops it.
pub(crate) fn pack(rects: &[Rect], bins: &[Bin], allowed: &dyn Fn(usize, usize) -> [bool; 2], seed: u64, watch: &mut Watch<'_>) -> Packing {
    let problem = Problem { rects, bins, allowed };
    let found = search::search(&problem, seed, watch);
    let mut packing = Packing::default();
    let mut left = alloc::vec![true; rects.len()];
    for (sheet, full) in found.into_iter().enumerate() {
        packing.sheets.push(full.bin);
        for spot in full.spots {
            if let Some(left) = left.get_mut(spot.rect) {
                *left = false;
            }
            packing.spots.push(Spot { sheet, ..spot });
        }
    }
    packing.unplaced = left.iter().enumerate().filter(|(_, left)| **left).map(|(rect, _)| rect).collect();
    packing
}

/// Whether all rectangles go on one sheet of this size at the first try, which a search begins with too. `allowed` as for [`pack`].
pub(crate) fn at_once(rects: &[Rect], size: [i64; 2], allowed: &dyn Fn(usize, usize) -> [bool; 2]) -> bool {
    search::at_once(&Problem { rects, bins: &[Bin { size, count: Some(1) }], allowed })
}

/// What is to be packed.
#[derive(Clone, Copy)]
struct Problem<'a> {
    rects: &'a [Rect],
    bins: &'a [Bin],
    allowed: &'a dyn Fn(usize, usize) -> [bool; 2],
}

impl Problem<'_> {
    /// A whole sheet of a kind.
    fn full(&self, bin: usize) -> [Plan; 1] {
        [Plan { bin, top: self.bins.get(bin).map_or(0, |bin| bin.size[1]) }]
    }

    /// How high a sheet is filled.
    fn used(&self, sheet: &Full) -> i64 {
        let tops = sheet.spots.iter().filter_map(|spot| Some(spot.at[1] + self.rects.get(spot.rect)?.lying(spot.turned)[1]));
        tops.max().unwrap_or(0)
    }

    /// The area of what lies on a sheet.
    fn area(&self, sheet: &Full) -> i128 {
        sheet.spots.iter().filter_map(|spot| self.rects.get(spot.rect)).map(|rect| area(rect.size)).sum()
    }

    /// How a rectangle may lie on a kind of sheet: turned or not, and its size then.
    fn ways(&self, rect: usize, bin: usize) -> impl Iterator<Item = (bool, [i64; 2])> + use<> {
        let [as_is, turned] = (self.allowed)(rect, bin);
        let sizes = self.rects.get(rect).copied().zip(self.bins.get(bin).copied());
        let way = move |may: bool, turned: bool| {
            let (rect, Bin { size: [width, height], .. }) = sizes?;
            let [w, h] = rect.lying(turned);
            (may && w <= width && h <= height).then_some((turned, [w, h]))
        };
        let square = sizes.is_some_and(|(rect, _)| rect.size[0] == rect.size[1]);
        [way(as_is, false), way(turned && !(as_is && square), true)].into_iter().flatten()
    }
}

#[cfg(test)]
#[path = "pack_tests.rs"]
mod tests;

//! What is painted before what: from behind to the front.

use alloc::vec::Vec;

/// The numbers 0 to `count - 1` so that whatever is behind something else comes before it; equals keep their order.
///
/// Where things are behind each other in a ring, the one with the fewest things behind it comes first. Quadratic in `count`.
pub(super) fn paint_order(count: usize, behind: impl Fn(usize, usize) -> bool) -> Vec<usize> {
    // How many things behind each are not painted yet; `None` once it is painted itself.
    let mut waiting: Vec<Option<usize>> = (0..count).map(|j| Some((0..count).filter(|&i| i != j && behind(i, j)).count())).collect();
    let mut order = Vec::with_capacity(count);
    while let Some((next, _)) = waiting.iter().enumerate().filter_map(|(i, left)| Some((i, (*left)?))).min_by_key(|&(_, left)| left) {
        if let Some(painted) = waiting.get_mut(next) {
            *painted = None;
        }
        order.push(next);
        for (j, left) in waiting.iter_mut().enumerate() {
            if let Some(left) = left
                && behind(next, j)
            {
                *left = left.saturating_sub(1);
            }
        }
    }
    order
}

/// An axis-aligned box: lowest and highest corner in nm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Block3 {
    pub(super) lo: [i64; 3],
    pub(super) hi: [i64; 3],
}

impl Block3 {
    /// Three numbers that stay the same along a line of sight, each from its lowest to its highest value: x + y, y + z, x - z.
    /// The picture of a box is where its three strips meet.
    fn strips(&self) -> [(i64, i64); 3] {
        let ([x0, y0, z0], [x1, y1, z1]) = (self.lo, self.hi);
        [(x0 + y0, x1 + y1), (y0 + z0, y1 + z1), (x0 - z1, x1 - z0)]
    }

    /// Whether the two share volume.
    pub(super) fn overlaps(&self, other: &Block3) -> bool {
        let apart = self.lo.iter().zip(other.hi).any(|(&lo, hi)| lo >= hi) || other.lo.iter().zip(self.hi).any(|(&lo, hi)| lo >= hi);
        !apart
    }

    /// Whether the two pictures share an area. Their sides have three directions only, so three strips decide.
    pub(super) fn overlaps_in_view(&self, other: &Block3) -> bool {
        self.strips().into_iter().zip(other.strips()).all(|((a0, a1), (b0, b1))| a0 < b1 && b0 < a1)
    }

    /// Whether this box is hidden by `other` in part. The viewer looks from +x, -y, +z.
    ///
    /// Disjoint boxes are parted along some axis, and that decides; for boxes that overlap, the axis along which they overlap least does.
    pub(super) fn behind(&self, other: &Block3) -> bool {
        if !self.overlaps_in_view(other) {
            return false;
        }
        let ([x0, y0, z0], [x1, y1, z1]) = (self.lo, self.hi);
        let ([u0, v0, w0], [u1, v1, w1]) = (other.lo, other.hi);
        // How far one is past the other along each axis: positive is parted.
        let behind = [u0 - x1, y0 - v1, w0 - z1].into_iter().max().unwrap_or(0);
        let before = [x0 - u1, v0 - y1, z0 - w1].into_iter().max().unwrap_or(0);
        behind > before
    }
}

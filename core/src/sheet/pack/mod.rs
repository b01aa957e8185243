//! Rectangles on sheets.

use alloc::vec::Vec;

use super::watch::Watch;

/// A rectangle to be packed; the gap is already added to both of its sides.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rect {
    pub size: [i64; 2],
}

/// A kind of sheet: the room inside its border, the gap already added to both sides, and how many there are.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bin {
    pub size: [i64; 2],
    pub count: Option<u32>,
}

/// Where a rectangle lies.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spot {
    pub rect: usize,
    pub sheet: usize,
    pub at: [i64; 2],
    pub turned: bool,
}

/// All rectangles on sheets.
#[derive(Clone, Debug, Default)]
pub(crate) struct Packing {
    /// Which bin each sheet is.
    pub sheets: Vec<usize>,
    pub spots: Vec<Spot>,
    pub unplaced: Vec<usize>,
}

/// Packs rectangles on sheets, bins in the order given. `allowed(rect, bin)` says whether it may lie as it is, and turned.
pub(crate) fn pack(rects: &[Rect], bins: &[Bin], allowed: &dyn Fn(usize, usize) -> [bool; 2], _seed: u64, watch: &mut Watch<'_>) -> Packing {
    let mut order: Vec<usize> = (0..rects.len()).collect();
    order.sort_by_key(|&rect| rects.get(rect).map(|rect| core::cmp::Reverse(rect.size[0].max(rect.size[1]))));
    let mut packing = Packing::default();
    let mut left: Vec<Option<u32>> = bins.iter().map(|bin| bin.count).collect();
    let mut bin = 0;
    while let Some(&Bin { size: [width, height], .. }) = bins.get(bin) {
        if left.get(bin) == Some(&Some(0)) || order.is_empty() || !watch.go_on(0.0) {
            bin += 1;
            continue;
        }
        let (mut x, mut base, mut top) = (0, 0, 0);
        let sheet = packing.sheets.len();
        let before = order.len();
        order.retain(|&rect| {
            let Some(&Rect { size: [w, h] }) = rects.get(rect) else { return false };
            for (may, turned) in allowed(rect, bin).into_iter().zip([false, true]) {
                let (w, h) = if turned { (h, w) } else { (w, h) };
                if may && w <= width && h <= height {
                    if x + w > width {
                        (x, base) = (0, top);
                    }
                    if base + h <= height {
                        packing.spots.push(Spot { rect, sheet, at: [x, base], turned });
                        x += w;
                        top = top.max(base + h);
                        return false;
                    }
                }
            }
            true
        });
        if order.len() == before {
            bin += 1;
        } else {
            packing.sheets.push(bin);
            if let Some(Some(left)) = left.get_mut(bin) {
                *left -= 1;
            }
        }
    }
    packing.unplaced = order;
    packing
}

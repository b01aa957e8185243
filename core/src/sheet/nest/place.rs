//! The lowest free place of a part on a sheet.

use alloc::vec::Vec;

use super::cover::{Cover, Rect};

/// The lowest place, then the leftmost, at which a part keeps the gap from all that lies in a room of a size; `work` counts the pairs looked at.
pub(super) fn lowest(cover: &Cover, lying: &[Rect], room: [i64; 2], gap: i64, work: &mut u64) -> Option<[i64; 2]> {
    let [last_x, last_y] = [room[0] - cover.size[0], room[1] - cover.size[1]];
    if last_x < 0 || last_y < 0 {
        return None;
    }
    *work += (lying.len() * cover.rects.len()) as u64;
    let forbidden = |lies: &Rect, rect: &Rect| {
        let along = |[a0, a1]: [i64; 2], [b0, b1]: [i64; 2]| [a0 - gap - b1, a1 + gap - b0];
        [along(lies[0], rect[0]), along(lies[1], rect[1])]
    };
    // Every rectangle is open: on its sides the gap is just kept.
    let mut all: Vec<Rect> = lying.iter().flat_map(|lies| cover.rects.iter().map(move |rect| forbidden(lies, rect))).collect();
    all.retain(|[x, y]| x[0] < last_x.max(1) && x[1] > 0 && y[0] < last_y.max(1) && y[1] > 0);
    all.sort_unstable();
    let mut level = 0;
    while level <= last_y {
        let (mut free, mut next) = (0, i64::MAX);
        for [x, y] in &all {
            *work += 1;
            if x[0] >= free || free > last_x {
                break;
            }
            if x[1] > free && y[0] < level && level < y[1] {
                (free, next) = (x[1], next.min(y[1]));
            }
        }
        if free <= last_x {
            return Some([free, level]);
        }
        // What bars this level does so until the first of it ends.
        level = next;
    }
    None
}

//! How far boards are pulled apart for a picture.

use alloc::vec;
use alloc::vec::Vec;

use crate::assembly::Board;
use crate::length::Nm;
use crate::point::Axis;

/// Offsets (nm along x, y, z) that pull boards apart, one a board.
///
/// `steps` is the order of putting together: the board's number, and the axis and sign of the straight move that brings it into place. Each
/// board is pulled back against its move, past all boards before it that stand in its way, and at least by `gap`: no two slabs overlap, and
/// those put in later are farther out. Boards without a step stay where they are, and so does the first; numbers beyond the list are skipped.
///
/// ```
/// use dryfit_core::{Axis, BoxSpec, Nm, explode};
/// let mm = |v| Nm::from_mm(v);
/// let boards = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?;
/// let (base, top) = (4, 5);
/// let steps = [(base, Axis::Z, -1), (0, Axis::Y, 1), (1, Axis::Y, -1), (2, Axis::X, 1), (3, Axis::X, -1), (top, Axis::Z, -1)];
/// let offsets = explode(&steps, boards.boards(), mm(40.0)?);
/// assert_eq!(offsets[base], [0, 0, 0]);
/// assert_eq!(offsets[0], [0, -42_500_000, 0]); // the front: its own thickness and the gap, towards the viewer
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn explode(steps: &[(usize, Axis, i8)], boards: &[Board], gap: Nm) -> Vec<[i64; 3]> {
    let mut offsets = vec![[0; 3]; boards.len()];
    let mut moved = vec![false; boards.len()];
    let mut placed: Vec<usize> = (0..boards.len()).filter(|i| steps.iter().all(|(board, ..)| board != i)).collect();
    for &(number, axis, sign) in steps {
        let Some(board) = boards.get(number) else { continue };
        if moved.get(number).copied().unwrap_or(true) {
            continue;
        }
        let mut pull = if placed.is_empty() { 0 } else { gap.nm().max(0) };
        for (other, offset) in placed.iter().filter_map(|&i| Some((boards.get(i)?, offsets.get(i)?))) {
            let lo = |axis: Axis| other.lo(axis) + offset.get(axis.index()).copied().unwrap_or(0);
            let hi = |axis: Axis| other.hi(axis) + offset.get(axis.index()).copied().unwrap_or(0);
            let in_the_way = Axis::ALL.into_iter().filter(|&a| a != axis).all(|a| board.lo(a) < hi(a) && lo(a) < board.hi(a));
            if in_the_way {
                let past = if sign < 0 { hi(axis) - board.lo(axis) } else { board.hi(axis) - lo(axis) };
                pull = pull.max(past + gap.nm().max(0));
            }
        }
        if let Some(offset) = offsets.get_mut(number).and_then(|offset| offset.get_mut(axis.index())) {
            *offset = if sign < 0 { pull } else { -pull };
        }
        if let Some(moved) = moved.get_mut(number) {
            *moved = true;
        }
        placed.push(number);
    }
    offsets
}

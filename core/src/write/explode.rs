//! How far boards are pulled apart for a picture.

use alloc::vec;
use alloc::vec::Vec;

use crate::assembly::Board;
use crate::check::{Direction, Step};
use crate::length::Nm;
use crate::point::Axis;

/// Offsets (nm along x, y, z) that pull boards apart, one a board.
///
/// `steps` is the order of putting together. Each board is pulled back against its move, past all boards before it that stand in its way,
/// and at least by `gap`: no two slabs overlap, and those put in later are farther out. What joins a raised board is raised with it. What was joined apart from the others is pulled
/// apart by itself and then back as one. Boards without a step stay where they are, and so does the first; numbers beyond the list and
/// second steps of a board are skipped.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, explode, order};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let boards: Vec<_> = panels.iter().map(|panel| panel.board().clone()).collect();
/// let offsets = explode(&order(&panels)?, &boards, mm(40.0)?);
/// let (left, base) = (2, 4);
/// assert_eq!(offsets[base], [0, 0, 0]);
/// assert_eq!(offsets[left], [-42_500_000, 0, 42_500_000]); // its own thickness and the gap; as high as the front that it joins
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn explode(steps: &[Step], boards: &[Board], gap: Nm) -> Vec<[i64; 3]> {
    let mut offsets = vec![[0; 3]; boards.len()];
    let mut moved = vec![false; boards.len()];
    let mut placed: Vec<usize> = (0..boards.len()).filter(|i| steps.iter().all(|step| step.board != *i)).collect();
    for step in steps {
        if moved.get(step.board).copied().unwrap_or(true) {
            continue;
        }
        // What moves, and past what: a board of a piece that is put together apart moves past that piece's boards only.
        let apart = steps.iter().find(|whole| whole.along.contains(&step.board));
        let rest: Vec<usize> = match apart {
            Some(whole) => whole.along.iter().copied().filter(|&i| moved.get(i) == Some(&true)).chain([whole.board]).collect(),
            None => placed.clone(),
        };
        let movers: Vec<usize> = step.along.iter().copied().chain([step.board]).collect();
        // What stands on a raised board, or hangs on it, is raised too.
        let joined = |other: &usize| movers.iter().any(|&mover| boards.get(mover).zip(boards.get(*other)).is_some_and(|(a, b)| a.overlaps(b)));
        let raised = rest.iter().copied().filter(joined).filter_map(|other| offsets.get(other).map(|[_, _, z]| *z)).max().unwrap_or(0);
        for &mover in &movers {
            if let Some([_, _, z]) = offsets.get_mut(mover) {
                *z += raised.max(0);
            }
        }
        let pull = pull(&movers, &rest, step.direction, boards, &offsets, gap.nm().max(0));
        for &mover in &movers {
            let vector = boards.get(step.board).map_or([0.0; 3], |board| step.direction.vector(board));
            for (offset, part) in offsets.get_mut(mover).into_iter().flatten().zip(vector) {
                *offset -= libm::round(part * pull as f64) as i64;
            }
        }
        if let Some(moved) = moved.get_mut(step.board) {
            *moved = true;
        }
        if apart.is_none() {
            placed.extend(movers);
        }
    }
    offsets
}

/// How far boards are pulled back so that they are past all others in their way by the gap.
fn pull(movers: &[usize], rest: &[usize], direction: Direction, boards: &[Board], offsets: &[[i64; 3]], gap: i64) -> i64 {
    let place = |number: usize, axis: Axis| {
        let (board, offset) = (boards.get(number)?, offsets.get(number)?.get(axis.index())?);
        let (lo, hi) = board.extent(axis);
        Some((lo + offset, hi + offset))
    };
    let past = |mover: usize, other: usize| {
        // Along its own axis a turned board has nothing in its way; the gap is enough to part it from what it was joined to.
        if direction.own {
            return None;
        }
        let meet = |axis| matches!((place(mover, axis), place(other, axis)), (Some((a, b)), Some((c, d))) if a < d && c < b);
        let ((a, b), (c, d)) = place(mover, direction.axis).zip(place(other, direction.axis))?;
        let far = if direction.upwards { b - c } else { d - a };
        Axis::ALL.into_iter().filter(|&axis| axis != direction.axis).all(meet).then_some(far + gap)
    };
    let farthest = movers.iter().flat_map(|&mover| rest.iter().filter_map(move |&other| past(mover, other))).max();
    if rest.is_empty() { 0 } else { farthest.unwrap_or(gap).max(gap) }
}

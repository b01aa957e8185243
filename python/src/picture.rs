//! The exploded picture of an assembly.

use dryfit_core::{Axis, Board, Failure, Nm, Panel, explode, exploded, order};

/// A fifth of the longest side of any board: far enough to see the joints, near enough to see what belongs together.
fn default_gap(boards: &[Board]) -> Nm {
    let longest = boards.iter().flat_map(|board| Axis::ALL.map(|axis| board.size(axis))).max().unwrap_or(0);
    Nm::new(longest / 5).unwrap_or_default()
}

/// Boards pulled apart by `gap` in the order of putting together; put together for a gap of 0.
pub(crate) fn picture(panels: &[Panel], gap: Option<Nm>) -> Result<String, Failure> {
    let boards = boards(panels);
    let offsets = offsets(panels, gap.unwrap_or_else(|| default_gap(&boards)))?;
    let slabs: Vec<_> = boards.iter().zip(panels.iter().map(Panel::shape)).collect();
    Ok(exploded(&slabs, &offsets))
}

/// How far each board is pulled by `gap`, in nanometres along x, y and z. Where nothing is pulled, boards may lock each other.
pub(crate) fn offsets(panels: &[Panel], gap: Nm) -> Result<Vec<[i64; 3]>, Failure> {
    if gap == Nm::ZERO { Ok(vec![[0; 3]; panels.len()]) } else { Ok(explode(&order(panels)?, &boards(panels), gap)) }
}

fn boards(panels: &[Panel]) -> Vec<Board> {
    panels.iter().map(|panel| panel.board().clone()).collect()
}

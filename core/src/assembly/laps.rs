//! Boards that cross at one line: the line is shared out in equal parts, one for each.
//!
//! ```text
//!    low            middle           high
//!   +---| |---+    +---| |---+    +---------+
//!   |   | |   |    |   +-+   |    |         |
//!   |   | |   |    |         |    |   +-+   |     a third of the height to each
//!   |   +-+   |    |   +-+   |    |   | |   |
//!   +---------+    +---| |---+    +---| |---+
//! ```

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::block::{Block, Blocks};
use super::board::Board;
use super::pieces::Piece;
use crate::error::{Code, Error, Failure};
use crate::joint::Corner;
use crate::round::nearest;

/// The lap that both boards of a block belong to.
pub(super) fn of<'a>(block: &Block, laps: &'a [Vec<usize>]) -> Option<&'a [usize]> {
    let both = |lap: &&Vec<usize>| [block.a, block.b].iter().all(|&number| lap.contains(&usize::from(number)));
    laps.iter().find(both).map(Vec::as_slice)
}

/// Who has what of a block: each board of the lap its part of the run, in the order named.
pub(super) fn pieces(block: &Block, lap: &[usize]) -> Vec<Piece> {
    let parts = lap.len() as i128;
    let at = |part: usize| block.from + nearest(part as i128 * i128::from(block.to - block.from), parts);
    let piece = |(part, &board): (usize, &usize)| {
        let own = [block.a, block.b].into_iter().find(|&number| usize::from(number) == board);
        // In a third board's part both lose; that is counted where each meets that board.
        Piece { from: at(part), to: at(part + 1), owner: own.unwrap_or(Corner::NOBODY) }
    };
    lap.iter().enumerate().map(piece).collect()
}

/// Every board of a lap loses the widest shadow of the others, so that those that lose clear each other too.
pub(super) fn widen(boards: &[Board], blocks: &mut Blocks, laps: &[Vec<usize>]) -> Result<(), Failure> {
    for lap in laps {
        let numbers: Vec<usize> =
            (0..blocks.all().len()).filter(|&n| blocks.all().get(n).is_some_and(|block| of(block, laps) == Some(lap))).collect();
        let all: Vec<Block> = numbers.iter().filter_map(|&n| blocks.all().get(n).copied()).collect();
        let names = || {
            let names: Vec<String> = lap.iter().filter_map(|&n| boards.get(n)).map(|board| format!("\"{}\"", board.name())).collect();
            format!("boards {}", names.join(", "))
        };
        if all.len() != lap.len() * (lap.len() - 1) / 2 {
            return Err(Failure::at(Error::bare(Code::DoNotMeet, "lap"), names()));
        }
        let uneven = |block: &&Block| all.iter().any(|other| (other.run, other.from, other.to) != (block.run, block.from, block.to));
        if all.iter().any(|block| block.splice.is_some()) || all.iter().find(uneven).is_some() {
            return Err(Failure::at(Error::bare(Code::UnevenLap, "lap"), names()));
        }
        let widest = |number: u16| {
            let of_board = all.iter().filter(|block| block.a == number || block.b == number);
            let region = |block: &Block| {
                boards.get(usize::from(number)).zip(boards.get(usize::from(block.mate(number)))).map(|(own, mate)| block.region(number, own, mate).1)
            };
            of_board.filter_map(region).reduce(|(from, to), (lo, hi)| (from.min(lo), to.max(hi))).unwrap_or_default()
        };
        for number in numbers {
            blocks.widen(number, |block| block.shadows = Some(super::turned::Shadows { on: [widest(block.a), widest(block.b)], sine: block.sine() }));
        }
    }
    Ok(())
}

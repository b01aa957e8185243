//! Boards as slabs, their blocks, and the panels that are left of them.

mod block;
mod board;
mod boxes;
mod defaults;
mod feet;
mod lift_off;
mod outline;
mod panel;
mod pieces;
mod segments;
mod shell;
mod shelves;
mod sliding;
mod spliced;
mod top;

pub(crate) use block::{Block, Blocks, Depth};
pub use board::{Board, Frame};
pub use boxes::BoxSpec;
pub use panel::Panel;
pub use spliced::{RingSpec, SpliceSpec};
pub use top::Top;

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use crate::bounds::{BOARDS, LENGTH, SIZE, THICKNESS};
use crate::error::{Code, Error, Failure};
use crate::joint::Joint;
use crate::length::Nm;
use crate::point::Axis;

/// Boards at right angles to each other, each given as the full slab it would be if it won every argument.
///
/// Where two slabs overlap they are joined: edge on edge by fingers, edge in face by tabs, crossing by halves, end to end in one
/// plane by tails, or as [`Assembly::joint`] says. Boards that only touch are not joined.
///
/// ```
/// use dryfit_core::{Assembly, Axis, Nm};
/// let mm = |v| Nm::from_mm(v);
/// let mut stand = Assembly::new();
/// stand.add("long", Axis::Y, [mm(0.0)?, mm(50.0)?, mm(0.0)?], [mm(120.0)?, mm(80.0)?], mm(2.5)?)?;
/// stand.add("short", Axis::X, [mm(60.0)?, mm(0.0)?, mm(0.0)?], [mm(100.0)?, mm(80.0)?], mm(2.5)?)?;
/// let panels = stand.panels()?;
/// assert_eq!(panels[0].shape().vertices().len(), 8); // a rectangle with one slot
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Assembly {
    boards: Vec<Board>,
    /// Explicit joints: side A, side B.
    joints: Vec<(usize, usize, Joint)>,
}

impl Assembly {
    /// No boards yet.
    pub fn new() -> Assembly {
        Assembly::default()
    }

    /// Adds a board: its normal, lowest corner, the two sizes along the other axes (in x, y, z order) and thickness. Returns its number.
    ///
    /// # Errors
    /// [`Code::NameTaken`], [`Code::NameEmpty`], [`Code::OutOfRange`] for a coordinate, size or thickness,
    /// [`Code::SamePlace`] where it overlaps a board of the same normal other than end to end in one plane.
    pub fn add(&mut self, name: &str, normal: Axis, at: [Nm; 3], size: [Nm; 2], thickness: Nm) -> Result<usize, Failure> {
        let place = |error| Failure::at(error, format!("board \"{name}\""));
        if name.is_empty() {
            return Err(Error::bare(Code::NameEmpty, "name").into());
        }
        if self.find(name).is_some() {
            return Err(place(Error::bare(Code::NameTaken, "name")));
        }
        BOARDS.check(self.boards.len() as i64 + 1).map_err(place)?;
        THICKNESS.check(thickness.nm()).map_err(place)?;
        for coordinate in at {
            LENGTH.named("at").check(coordinate.nm()).map_err(place)?;
        }
        let [width, height] = size;
        for side in [width, height] {
            SIZE.check(side.nm()).map_err(place)?;
        }
        let board = Board::new(String::from(name), normal, at, size, thickness);
        for axis in Axis::ALL {
            LENGTH.named("at + size").check(board.hi(axis)).map_err(place)?;
        }
        let apart = |other: &&Board| other.normal() == normal && other.overlaps(&board) && block::Depth::between(other, &board).is_none();
        if let Some(other) = self.boards.iter().find(apart) {
            return Err(Failure::at(Error::bare(Code::SamePlace, "at"), format!("boards \"{}\" and \"{name}\"", other.name())));
        }
        self.boards.push(board);
        Ok(self.boards.len() - 1)
    }

    /// Joins two boards in a way of one's own; `first` is side A. A later call for the same pair replaces the earlier.
    ///
    /// # Errors
    /// [`Code::NoSuchBoard`], [`Code::DoNotMeet`], [`Code::Blind`].
    pub fn joint(&mut self, first: &str, second: &str, joint: Joint) -> Result<(), Failure> {
        let number = |name: &str| self.find(name).ok_or_else(|| Failure::at(Error::bare(Code::NoSuchBoard, "joint"), format!("board \"{name}\"")));
        let (a, b) = (number(first)?, number(second)?);
        let meets = match (self.boards.get(a), self.boards.get(b)) {
            (Some(p), Some(q)) if a != b => block::Block::between(p, q, a, b)?.is_some(),
            _ => false,
        };
        if !meets {
            return Err(Failure::at(Error::bare(Code::DoNotMeet, "joint"), format!("boards \"{first}\" and \"{second}\"")));
        }
        self.joints.retain(|&(p, q, _)| (p, q) != (a, b) && (p, q) != (b, a));
        self.joints.push((a, b, joint));
        Ok(())
    }

    /// The boards, in the order they were added.
    pub fn boards(&self) -> &[Board] {
        &self.boards
    }

    /// The number of a board.
    pub fn find(&self, name: &str) -> Option<usize> {
        self.boards.iter().position(|board| board.name() == name)
    }

    /// The panels: each slab less what it lost, in the order of the boards.
    ///
    /// # Errors
    /// [`Code::NoBoards`]; [`Code::MeetsNothing`] where one of several boards overlaps no other; [`Code::Blind`];
    /// and what the joints' patterns refuse, with the two boards' names.
    pub fn panels(&self) -> Result<Vec<Panel>, Failure> {
        if self.boards.is_empty() {
            return Err(Error::bare(Code::NoBoards, "boards").into());
        }
        let blocks = Blocks::of(&self.boards)?;
        if self.boards.len() > 1
            && let Some(lonely) = blocks.lonely()
        {
            let name = self.boards.get(lonely).map_or("", |board| board.name());
            return Err(Failure::at(Error::bare(Code::MeetsNothing, "at, size"), format!("board \"{name}\"")));
        }
        let shared = pieces::Shared::of(&self.boards, &blocks, &self.joints)?;
        Ok(outline::panels(&self.boards, &blocks, &shared))
    }
}

#[cfg(test)]
#[path = "assembly_tests.rs"]
mod tests;

#[cfg(test)]
#[path = "splice_tests.rs"]
mod splice_tests;

//! Boards as slabs, their blocks, and the panels that are left of them.

mod block;
mod board;
mod bolt;
mod boxes;
mod defaults;
mod feet;
mod flat;
mod laps;
mod lift_off;
mod opening;
mod outline;
mod panel;
mod pieces;
mod plan;
mod prism;
mod segments;
mod shell;
mod shelves;
mod slab;
mod sliding;
mod spliced;
mod top;
mod turned;
mod walk;

pub(crate) use block::{Block, Blocks, Depth};
pub use board::{Board, Frame};
pub use bolt::Bolt;
pub use boxes::BoxSpec;
pub use opening::Opening;
pub use panel::Panel;
pub(crate) use plan::{At, Plan};
pub use prism::PrismSpec;
pub use spliced::{RingSpec, SpliceSpec};
pub use top::Top;

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use crate::angle::Angle;
use crate::bounds::{BOARDS, LAPPED, LENGTH, SIZE, THICKNESS};
use crate::error::{Code, Error, Failure};
use crate::joint::Joint;
use crate::length::Nm;
use crate::point::Axis;

/// Boards at right angles to each other, or turned about one axis, each given as the full slab it would be if it won every argument.
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
    /// Boards that cross at one line.
    laps: Vec<Vec<usize>>,
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
        let board = self.slab(name, normal, at, size, thickness)?;
        self.place(board)
    }

    /// A board that has been checked but for its place.
    fn slab(&self, name: &str, normal: Axis, at: [Nm; 3], size: [Nm; 2], thickness: Nm) -> Result<Board, Failure> {
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
        Ok(board)
    }

    /// Adds a board where no other is.
    fn place(&mut self, board: Board) -> Result<usize, Failure> {
        let (name, normal) = (board.name(), board.normal());
        let place = |error| Failure::at(error, format!("board \"{name}\""));
        if let Some(axis) = board.upright() {
            let others = self.boards.iter().filter_map(Board::upright);
            let (u, v) = normal.plane();
            if others.into_iter().any(|other| other != axis) || (board.turned_by().is_some() && axis != u && axis != v) {
                return Err(place(Error::bare(Code::TwoAxes, "turn")));
            }
        }
        for (number, other) in self.boards.iter().enumerate().filter(|(_, other)| other.upright().or(board.upright()).is_some()) {
            turned::meeting(other, &board, number, self.boards.len())?;
        }
        let apart = |other: &&Board| {
            other.upright().or(board.upright()).is_none()
                && other.normal() == normal
                && other.overlaps(&board)
                && block::Depth::between(other, &board).is_none()
        };
        if let Some(other) = self.boards.iter().find(apart) {
            return Err(Failure::at(Error::bare(Code::SamePlace, "at"), format!("boards \"{}\" and \"{name}\"", other.name())));
        }
        self.boards.push(board);
        Ok(self.boards.len() - 1)
    }

    /// Adds a board that is turned: placed as [`Assembly::add`] places it, then turned about a line through the middle of its slab, parallel
    /// to an axis in its plane; anticlockwise as seen against that axis. Returns its number.
    ///
    /// All turned boards of an assembly are turned about parallel lines. A board that meets a turned one loses the whole shadow that the
    /// mate throws on it ([`Angle::slot_width`]); the wedges beside it stay open, and the dry fit states them.
    ///
    /// ```
    /// use dryfit_core::{Angle, Assembly, Axis, Nm, dry_fit};
    /// let mm = |v| Nm::from_mm(v);
    /// let mut stand = Assembly::new();
    /// stand.add("long", Axis::Y, [mm(0.0)?, mm(50.0)?, Nm::ZERO], [mm(120.0)?, mm(80.0)?], mm(3.0)?)?;
    /// let turn = (Axis::Z, Angle::degrees(30.0)?);
    /// stand.add_turned("slanted", Axis::X, [mm(60.0)?, mm(0.0)?, Nm::ZERO], [mm(100.0)?, mm(80.0)?], mm(3.0)?, turn)?;
    /// let panels = stand.panels()?;
    /// let slot: Vec<Nm> = panels[1].shape().vertices().iter().map(|v| v.at).filter(|at| at.y == Nm::new(40_000_000).unwrap()).map(|at| at.x).collect();
    /// let width = *slot.iter().max().unwrap() - *slot.iter().min().unwrap();
    /// assert!((width - Angle::degrees(60.0)?.slot_width(mm(3.0)?, mm(3.0)?)?).nm().abs() <= 1);
    /// assert!(dry_fit(&panels).ok());
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    ///
    /// # Errors
    /// As [`Assembly::add`]; [`Code::TwoAxes`] for an axis that is not in its plane, or not that of the others; [`Code::OutOfRange`] where
    /// it lies too flat against another board that it meets.
    pub fn add_turned(
        &mut self,
        name: &str,
        normal: Axis,
        at: [Nm; 3],
        size: [Nm; 2],
        thickness: Nm,
        (axis, angle): (Axis, Angle),
    ) -> Result<usize, Failure> {
        let board = self.slab(name, normal, at, size, thickness)?;
        self.place(board.about_its_middle(axis, angle))
    }

    /// Boards that cross at one line, two to four: the line is cut in equal parts, the first (lowest) for the board named first.
    ///
    /// In its own part a board is whole; all others lose there the widest shadow of any of them, so that they clear each other too.
    /// Three boards: Fairham, *Woodwork Joints* (1921), the halved joint, "one-third lapped". A later call with one of the boards replaces
    /// the earlier.
    ///
    /// ```
    /// use dryfit_core::{Angle, Assembly, Axis, Nm, dry_fit};
    /// let mm = |v| Nm::from_mm(v);
    /// let mut star = Assembly::new();
    /// for (name, turn) in [("low", 0.0), ("middle", 60.0), ("high", 120.0)] {
    ///     let turn = (Axis::Z, Angle::degrees(turn)?);
    ///     star.add_turned(name, Axis::Y, [mm(0.0)?, mm(48.5)?, Nm::ZERO], [mm(100.0)?, mm(60.0)?], mm(3.0)?, turn)?;
    /// }
    /// star.lap(&["low", "middle", "high"])?;
    /// assert!(dry_fit(&star.panels()?).ok());
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the number of boards, [`Code::NoSuchBoard`], [`Code::NameTaken`] for one named twice. That they do not
    /// cross, or not along one stretch, shows when the panels are made.
    pub fn lap(&mut self, names: &[&str]) -> Result<(), Failure> {
        LAPPED.check(i64::try_from(names.len()).unwrap_or(i64::MAX))?;
        let mut lap = Vec::with_capacity(names.len());
        for name in names {
            let place = |code| Failure::at(Error::bare(code, "lap"), format!("board \"{name}\""));
            let number = self.find(name).ok_or_else(|| place(Code::NoSuchBoard))?;
            if lap.contains(&number) {
                return Err(place(Code::NameTaken));
            }
            lap.push(number);
        }
        self.laps.retain(|other| other.iter().all(|number| !lap.contains(number)));
        self.laps.push(lap);
        Ok(())
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

    /// Gives a board an opening. Where it does not lie on the board's own solid, apart from other openings, [`Assembly::panels`] refuses.
    ///
    /// # Errors
    /// [`Code::NoSuchBoard`].
    pub fn open(&mut self, board: &str, opening: Opening) -> Result<(), Failure> {
        let number = self.find(board).and_then(|number| self.boards.get_mut(number));
        let found = number.ok_or_else(|| Failure::at(Error::bare(Code::NoSuchBoard, "opening"), format!("board \"{board}\"")))?;
        found.open(opening);
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
    /// [`Code::OpeningMisplaced`]; [`Code::NoBoards`]; [`Code::MeetsNothing`] where one of several boards overlaps no other; [`Code::Blind`];
    /// and what the joints' patterns refuse, with the two boards' names.
    pub fn panels(&self) -> Result<Vec<Panel>, Failure> {
        if self.boards.is_empty() {
            return Err(Error::bare(Code::NoBoards, "boards").into());
        }
        let mut blocks = Blocks::of(&self.boards)?;
        laps::widen(&self.boards, &mut blocks, &self.laps)?;
        turned::apart(&self.boards, &blocks, &self.laps)?;
        if self.boards.len() > 1
            && let Some(lonely) = blocks.lonely()
        {
            let name = self.boards.get(lonely).map_or("", |board| board.name());
            return Err(Failure::at(Error::bare(Code::MeetsNothing, "at, size"), format!("board \"{name}\"")));
        }
        let shared = pieces::Shared::of(&self.boards, &blocks, &self.joints, &self.laps)?;
        outline::panels(&self.boards, &blocks, &shared)?.into_iter().map(Panel::opened).collect()
    }
}

#[cfg(test)]
#[path = "assembly_tests.rs"]
mod tests;

#[cfg(test)]
#[path = "splice_tests.rs"]
mod splice_tests;

#[cfg(test)]
#[path = "turned_tests.rs"]
mod turned_tests;

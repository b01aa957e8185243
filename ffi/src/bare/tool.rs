//! A tool that goes along moves: it is brought to where they begin, lowered and lifted without being told.

use dryfit_core::{Action, Error, Move, Nm, Point};

/// How a tool cuts.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Depth {
    /// How deep it cuts.
    pub cut: Nm,
    /// How deep it stays while a blade is turned.
    pub turn: Nm,
    /// A beam's power.
    pub power: i64,
}

/// How the tool stands, and what the next cut is.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Tool {
    /// Where it stands in the board, if it does.
    at: Option<Point>,
    /// How deep it stands there.
    now: Nm,
    pub depth: Depth,
}

impl Tool {
    /// A tool that is up.
    pub fn new(depth: Depth) -> Tool {
        Tool { depth, ..Tool::default() }
    }

    /// Cuts along a move.
    pub fn cut(&mut self, way: &Move, swivel: bool, act: &mut dyn FnMut(&Action) -> Result<(), Error>) -> Result<(), Error> {
        if way.from == way.to {
            return Ok(());
        }
        let (depth, power) = (if swivel { self.depth.turn } else { self.depth.cut }, self.depth.power);
        if self.at != Some(way.from) {
            self.lift(act)?;
            act(&Action::Travel(way.from))?;
            act(&Action::Lower { depth, power })?;
        } else if self.now != depth {
            act(&Action::Lower { depth, power })?;
        }
        (self.at, self.now) = (Some(way.to), depth);
        act(&Action::Cut(*way))
    }

    /// Lifts the tool if it is down.
    pub fn lift(&mut self, act: &mut dyn FnMut(&Action) -> Result<(), Error>) -> Result<(), Error> {
        if self.at.take().is_some() { act(&Action::Lift) } else { Ok(()) }
    }
}

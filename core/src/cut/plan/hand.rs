//! The actions of one piece after the other, and what is remembered between them: the blade's direction.

use alloc::vec::Vec;

use super::passes::Pass;
use super::ramp::sink;
use super::spec::Ways;
use super::{Piece, Plan};
use crate::cut::{Action, Knife, Move};
use crate::error::Error;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::point::Point;
use crate::round::nearest;

/// Hands actions over.
pub(super) struct Hand<'a, F> {
    plan: &'a Plan,
    kind: Option<LineKind>,
    /// Where a blade's axis stands beside its tip: the way it points.
    offset: Option<Point>,
    each: F,
}

impl<F: FnMut(&Action) -> Result<(), Error>> Hand<'_, F> {
    /// Nothing is done yet.
    pub(super) fn new(plan: &Plan, each: F) -> Hand<'_, F> {
        Hand { plan, kind: None, offset: plan.first_offset(), each }
    }

    /// One pass over one piece.
    pub(super) fn piece(&mut self, piece: &Piece, pass: Pass) -> Result<(), Error> {
        if self.kind.replace(piece.kind) != Some(piece.kind) {
            (self.each)(&Action::Line(piece.kind))?;
        }
        match self.plan.ways {
            Ways::Blade { knife, turn } => self.drag(piece, &knife, turn, pass)?,
            Ways::Beam => self.along(piece, pass)?,
            Ways::Bit { ramp } => match ramp.unwrap_or(Nm::raw((pass.depth - pass.from).nm().saturating_mul(10))) {
                Nm::ZERO => self.along(piece, pass)?,
                ramp => self.ramp(piece, ramp, pass)?,
            },
        }
        (self.each)(&Action::Lift)
    }

    pub(super) fn pause(&mut self) -> Result<(), Error> {
        (self.each)(&Action::Pause)
    }

    /// A blade's axis, so that the tip follows.
    fn drag(&mut self, piece: &Piece, knife: &Knife, turn: Option<Nm>, pass: Pass) -> Result<(), Error> {
        let mut axis = knife.follow(piece.moves.iter().copied(), piece.closed, self.offset);
        let Some(start) = axis.start() else { return Ok(()) };
        // Less deep while it is turned, if that was asked for and it is any deeper.
        let turn = turn.filter(|&turn| turn < pass.depth);
        let mut deep = None;
        (self.each)(&Action::Travel(start))?;
        for way in axis.by_ref() {
            let depth = turn.filter(|_| way.swivel).unwrap_or(pass.depth);
            if deep.replace(depth) != Some(depth) {
                (self.each)(&Action::Lower { depth, power: 0 })?;
            }
            self.plan.straightened(way.way).try_for_each(|way| (self.each)(&Action::Cut(way)))?;
        }
        self.offset = axis.offset().or(self.offset);
        Ok(())
    }

    /// From the waste in, and along the line.
    fn along(&mut self, piece: &Piece, pass: Pass) -> Result<(), Error> {
        let mut ways = piece.lead.iter().chain(&piece.moves).flat_map(|&way| self.plan.straightened(way)).peekable();
        let Some(first) = ways.peek() else { return Ok(()) };
        (self.each)(&Action::Travel(first.from))?;
        (self.each)(&Action::Lower { depth: pass.depth, power: pass.power })?;
        ways.try_for_each(|way| (self.each)(&Action::Cut(way)))
    }

    /// A bit that sinks along the line itself. On the way in, it sinks from the board's face to where the pass before it ended: there nothing is cut before.
    fn ramp(&mut self, piece: &Piece, ramp: Nm, pass: Pass) -> Result<(), Error> {
        let [lead, moves] = [&piece.lead, &piece.moves].map(|ways| ways.iter().flat_map(|&way| self.plan.straightened(way)).collect::<Vec<Move>>());
        let Some(start) = lead.first().or(moves.first()) else { return Ok(()) };
        (self.each)(&Action::Travel(start.from))?;
        let depth = if lead.is_empty() { pass.from } else { Nm::ZERO };
        (self.each)(&Action::Lower { depth, power: 0 })?;
        let (length, mut done) = (lead.iter().map(Move::length).sum::<i64>().max(1), 0);
        for way in lead {
            done += way.length();
            let depth = Nm::raw(nearest(i128::from(pass.from.nm()) * i128::from(done), i128::from(length)));
            (self.each)(&if pass.from == Nm::ZERO { Action::Cut(way) } else { Action::Ramp { way, depth } })?;
        }
        sink(&moves, piece.closed, pass, ramp, &mut self.each)
    }
}

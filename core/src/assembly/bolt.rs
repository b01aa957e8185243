//! A screw through the face of one board into the edge of another, with a captive nut.

use alloc::format;

use super::Assembly;
use super::block::Block;
use super::board::Board;
use super::opening::{Cross, Opening};
use crate::bounds::{LENGTH, NUT_GAP, SIZE};
use crate::error::{Code, Error, Failure};
use crate::hardware::{Clearance, Thread};
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;

/// A screw and its nut: the face board gets a clearance hole, the edge board a cross slot, where the face board keeps the joint.
///
/// ```text
///   face board      edge board
///      ┌──┐ shoulder     ┌───┐
///      │  ├──────────────┤nut├─────┐
///    ▐█╪══╪══════════════╪═══╪══   │   shaft: as wide as the clearance hole
///      │  ├──────────────┤   ├─────┘   pocket: nut + gap both ways
///      └──┘              └───┘
///      |<------ length ------->|
/// ```
///
/// The screw's end stands two pitches beyond the nut, and the shaft ends one pitch behind it (common practice). From the shoulder to the pocket
/// at least the nut's height of board is left, and as much beside and behind the slot. Pockets have square corners, also for a bit: a nut
/// does not reach into them.
///
/// ```
/// use dryfit_core::{Assembly, Axis, Bolt, Nm, Thread, dry_fit};
/// let mm = |v| Nm::from_mm(v);
/// let mut shelf = Assembly::new();
/// shelf.add("side", Axis::X, [Nm::ZERO; 3], [mm(120.0)?, mm(200.0)?], mm(6.0)?)?;
/// shelf.add("shelf", Axis::Z, [mm(0.0)?, mm(0.0)?, mm(100.0)?], [mm(250.0)?, mm(120.0)?], mm(6.0)?)?;
/// shelf.bolt("shelf", "side", Bolt::new(Thread::M4, mm(25.0)?)?, mm(60.0)?)?;
/// assert_eq!(shelf.panels().unwrap_err().error.code, dryfit_core::Code::OpeningMisplaced); // a tab of the shelf is there
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Bolt {
    thread: Thread,
    length: Nm,
    clearance: Clearance,
    gap: Nm,
}

impl Bolt {
    /// A screw of a thread and a length under its head; medium clearance, and 0.2 mm more than the nut for its pocket.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the length.
    pub fn new(thread: Thread, length: Nm) -> Result<Bolt, Error> {
        SIZE.named("screw length").check(length.nm())?;
        Ok(Bolt { thread, length, clearance: Clearance::Medium, gap: Nm::raw(200_000) })
    }

    /// The series of the clearance hole, as which the shaft is wide too.
    #[must_use]
    pub const fn clearance(self, clearance: Clearance) -> Bolt {
        Bolt { clearance, ..self }
    }

    /// How much wider and longer than the nut its pocket is: 0 to 10 mm.
    ///
    /// # Errors
    /// [`Code::OutOfRange`].
    pub fn gap(self, gap: Nm) -> Result<Bolt, Error> {
        NUT_GAP.check(gap.nm())?;
        Ok(Bolt { gap, ..self })
    }

    /// The openings of the face board and the edge board at a place along their run.
    fn openings(&self, edge: &Board, face: &Board, block: &Block, at: i64) -> Result<[Opening; 2], Error> {
        let (across, run) = (face.normal(), block.run);
        let inwards = edge.lo(across) == face.lo(across);
        if !inwards && edge.hi(across) != face.hi(across) {
            return Err(Error::bare(Code::DoNotMeet, "bolt"));
        }
        let thread = self.thread;
        let (height, pitch, hole) = (thread.nut_height().nm(), thread.pitch().nm(), thread.hole(self.clearance).nm());
        let length = |code, parameter, given, least, most| {
            if (least..=most).contains(&given) { Ok(()) } else { Err(Error::length(code, parameter, given, least, most)) }
        };
        length(Code::NutTooWide, "screw diameter", thread.diameter().nm(), 1, edge.thickness().nm())?;
        // Along the run: the pocket, and the nut's height of board on both sides.
        let (pocket, width) = (thread.nut_width().nm() + self.gap.nm(), edge.size(run));
        length(Code::NutTooWide, "nut's pocket", pocket, 1, width - 2 * height)?;
        let (least, most) = (block.from.max(edge.lo(run) + height + pocket - half(pocket)), block.to.min(edge.hi(run) - height - half(pocket)));
        let place = block.from + at;
        length(Code::NutTooWide, "at", at, least - block.from, most - block.from)?;
        // By the depth behind the shoulder.
        let thick = face.thickness().nm();
        let tip = self.length.nm() - thick;
        let start = tip - 2 * pitch - height;
        let (behind, before) = ((start + height + self.gap.nm()).max(tip) + pitch, 2 * pitch + 2 * height + thick);
        let room = edge.size(across) - thick - height;
        length(Code::ScrewDoesNotHold, "screw length", self.length.nm(), before, self.length.nm() + room - behind)?;
        let (along, local) = (place - edge.lo(run), |axis, value: i64| value - face.lo(axis));
        let shoulder = if inwards { face.hi(across) } else { face.lo(across) } - edge.lo(across);
        let side = |width: i64| (along - half(width), along - half(width) + width);
        let cross = Cross {
            shaft: side(hole),
            pocket: side(pocket),
            depth: (start, start + height + self.gap.nm()),
            end: behind,
            mouth: shoulder,
            upright: run == edge.normal().plane().1,
            inwards,
        };
        let middle = edge.lo(edge.normal()) + half(edge.thickness().nm());
        let (u, v) = face.normal().plane();
        let coordinate = |axis| if axis == run { local(axis, place) } else { local(axis, middle) };
        Ok([Opening::round(Point::raw(coordinate(u), coordinate(v)), Nm::raw(hole))?, Opening::cross(cross)])
    }
}

impl Assembly {
    /// Joins the edge of one board to the face of another by a screw and a nut, at a distance from the lower end of their run: where the face
    /// board keeps the joint. Elsewhere, and where the openings meet others, [`Assembly::panels`] refuses.
    ///
    /// # Errors
    /// [`Code::NoSuchBoard`]; [`Code::DoNotMeet`] where `edge` does not end at the face of `face`; [`Code::Blind`];
    /// [`Code::NutTooWide`] with the range of the screw's diameter, the pocket's width or the place; [`Code::ScrewDoesNotHold`] with the
    /// range of the screw's length.
    pub fn bolt(&mut self, edge: &str, face: &str, bolt: Bolt, at: Nm) -> Result<(), Failure> {
        let find = |name: &str| {
            let found = self.find(name).and_then(|number| Some((number, self.boards.get(number)?)));
            found.ok_or_else(|| Failure::at(Error::bare(Code::NoSuchBoard, "bolt"), format!("board \"{name}\"")))
        };
        let place = |error| Failure::at(error, format!("bolt of \"{edge}\" to \"{face}\""));
        LENGTH.named("at").check(at.nm()).map_err(place)?;
        let ((i, one), (j, other)) = (find(edge)?, find(face)?);
        if one.turn().or(other.turn()).is_some() {
            return Err(place(Error::bare(Code::NotAvailable, "bolt of a turned board")));
        }
        let block = if i == j { None } else { Block::between(one, other, i, j)? }.filter(|_| one.normal() != other.normal());
        let block = block.ok_or_else(|| place(Error::bare(Code::DoNotMeet, "bolt")))?;
        let [hole, cross] = bolt.openings(one, other, &block, at.nm()).map_err(place)?;
        for (number, opening) in [(j, hole), (i, cross)] {
            if let Some(board) = self.boards.get_mut(number) {
                board.open(opening);
            }
        }
        Ok(())
    }
}

#[cfg(test)]
#[path = "bolt_tests.rs"]
mod tests;

//! The lines of a sheet in the order of the cut, in pieces that are cut without lifting the tool.

use alloc::vec::Vec;

use super::spec::MotionSpec;
use crate::cut::lead::{Lead, Leads, has_waste};
use crate::cut::{Bridges, Contour, Cut, Cutter, Entry, Move, Route};
use crate::error::Error;
use crate::kind::LineKind;
use crate::length::Nm;
use crate::plane::distance;
use crate::point::Point;

/// What is cut without lifting the tool.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    pub kind: LineKind,
    /// Whether it ends where it began, the way in left aside.
    pub closed: bool,
    /// From the waste to the line.
    pub lead: Vec<Move>,
    pub moves: Vec<Move>,
}

/// All pieces of a sheet, and what could not be done.
pub(super) struct Pieces {
    pub pieces: Vec<Piece>,
    pub bridges: usize,
    /// Parts without a bridge that should have one.
    pub bare: Vec<usize>,
    /// How many pieces have no way in and should have one.
    pub unled: usize,
}

/// Puts in the bridges, finds the order and the ways in.
pub(super) fn pieces(lines: Vec<Contour>, room: [Point; 2], cutter: Cutter, spec: &MotionSpec) -> Result<Pieces, Error> {
    let length = spec.lead(cutter)?;
    let bridges = Bridges::place(lines, &spec.bridges(cutter), cutter.kerf())?;
    let route = Route::new(&bridges.lines, &spec.route);
    let leads = (length > Nm::ZERO).then(|| Leads::new(&bridges, room, cutter.kerf(), length));
    let mut made = Pieces { pieces: Vec::new(), bridges: bridges.count(), bare: bridges.bare.clone(), unled: 0 };
    for cut in route.cuts() {
        let Some(line) = bridges.lines.get(cut.contour) else { continue };
        let leads = leads.as_ref().filter(|_| has_waste(line.kind));
        let mut add = |closed: bool, lead: Option<Lead>, moves: Vec<Move>| {
            made.unled += usize::from(leads.is_some() && lead.is_none());
            let lead = lead.map_or_else(Vec::new, |lead| lead.moves);
            made.pieces.push(Piece { kind: line.kind, closed, lead, moves });
        };
        let walked: Vec<Move> = line.walk(cut.entry, cut.reversed).collect();
        let gapped = walked.iter().any(|way| bridges.is_gap(way));
        if line.closed && !gapped {
            let lead = leads.and_then(|leads| leads.closed(cut));
            let entry: Option<Entry> = lead.as_ref().and_then(|lead| lead.entry).filter(|&entry| entry != cut.entry);
            let moves = entry.map_or(walked, |entry| line.walk(entry, cut.reversed).collect());
            add(true, lead, moves);
            continue;
        }
        let walked = if line.closed { from_gap(walked, &bridges, cut, line) } else { walked };
        for moves in walked.split(|way| bridges.is_gap(way)).filter(|moves| !moves.is_empty()) {
            let lead = leads.and_then(|leads| leads.open(moves.first()?, cut.reversed));
            add(false, lead, moves.to_vec());
        }
    }
    Ok(made)
}

/// A walk round a closed line that begins behind the gap that is nearest to where the route begins it.
fn from_gap(mut walked: Vec<Move>, bridges: &Bridges, cut: &Cut, line: &Contour) -> Vec<Move> {
    let wanted = line.entry_point(cut.entry).unwrap_or_default();
    let gaps = walked.iter().enumerate().filter(|(_, way)| bridges.is_gap(way));
    let nearest = gaps.min_by_key(|(_, way)| distance(way.to, wanted)).map_or(0, |(place, _)| place);
    walked.rotate_left(nearest);
    walked
}

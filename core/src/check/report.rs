//! The dry fit and what it found.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::proof::{Allowed, prove};
use super::strange::strange;
use crate::assembly::{Board, Panel};
use crate::cut::{Cutter, Parts, Piece, unrelieved};
use crate::length::Nm;
use crate::shape::{Shape, place};

/// What a dry fit found. Lengths in nanometres, volumes in cubic nanometres.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// How deep a board reaches into another at most; 0 if none does.
    pub overlap_max: Nm,
    /// Volume that two boards claim.
    pub overlap_volume: i128,
    /// Smallest gap of all contacts; negative is interference.
    pub gap_min: Nm,
    /// Largest gap of all contacts.
    pub gap_max: Nm,
    /// Volume of the slabs that no board fills.
    pub void_volume: i128,
    /// Pieces that fall off their panels.
    pub loose_pieces: usize,
    /// The thinnest solid of any panel.
    pub thinnest_neck: Nm,
    /// Radius that a round cutter leaves in inner corners; 0 for a blade, and where those that a mate must fill are relieved.
    pub corner_fillet: Nm,
    /// What is wrong, with boards and places; empty if all is well.
    pub problems: Vec<String>,
    /// Whether any two boards touch: without contacts both gaps are 0.
    pub(super) touching: bool,
}

impl Report {
    /// Whether the pieces fit.
    pub fn ok(&self) -> bool {
        self.problems.is_empty()
    }

    /// The worse of two reports, and the problems of both.
    fn join(mut self, other: Report) -> Report {
        self.overlap_max = self.overlap_max.max(other.overlap_max);
        self.overlap_volume += other.overlap_volume;
        // A piece in which nothing touches has no gaps to compare.
        (self.gap_min, self.gap_max) = match (self.touching, other.touching) {
            (true, true) => (self.gap_min.min(other.gap_min), self.gap_max.max(other.gap_max)),
            (false, true) => (other.gap_min, other.gap_max),
            _ => (self.gap_min, self.gap_max),
        };
        self.touching |= other.touching;
        self.void_volume += other.void_volume;
        self.loose_pieces += other.loose_pieces;
        self.thinnest_neck = self.thinnest_neck.min(other.thinnest_neck);
        self.corner_fillet = self.corner_fillet.max(other.corner_fillet);
        self.problems.extend(other.problems);
        self
    }
}

/// The dry fit of nominal panels: every point of every slab has exactly one owner.
///
/// ```
/// use dryfit_core::{BoxSpec, Nm, dry_fit};
/// let mm = |v| Nm::from_mm(v);
/// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
/// let report = dry_fit(&panels);
/// assert!(report.ok() && report.void_volume == 0 && report.overlap_volume == 0);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
pub fn dry_fit(panels: &[Panel]) -> Report {
    let shapes: Vec<&Shape> = panels.iter().map(Panel::shape).collect();
    let boards: Vec<&Board> = panels.iter().map(Panel::board).collect();
    prove(&boards, &shapes, Allowed::default())
}

/// The dry fit of any outlines, each given with the slab it was cut from and measured from the slab's lowest corner.
///
/// Their edges must run along the axes, but for those inside the overlap of two boards of one plane, and in boards that lie across turned
/// ones. Where another slants, a loop is none, outlines are missing, or two boards overlap as no assembly lets them, that is the only
/// problem reported: nothing else is judged.
pub fn dry_fit_shapes(boards: &[&Board], shapes: &[Shape]) -> Report {
    let problems = strange(boards, shapes);
    if !problems.is_empty() {
        return Report { problems, ..Report::default() };
    }
    prove(boards, shapes, Allowed::default())
}

/// The dry fit of what comes off the cutter: the kerf is taken off each path first. Gaps and interference may be what the fit
/// asked for, but no more.
pub fn dry_fit_parts(parts: &Parts) -> Report {
    parts.pieces().iter().filter_map(prove_piece).reduce(Report::join).unwrap_or_default()
}

/// Two corners, each rounded to the nanometre in the path and once more in the part.
const SLACK: i64 = 4;

/// The most that a point on a slanted edge lies off it.
const ROUNDED: i64 = 2;

/// None of plain parts: they stand nowhere, so there is nothing to fit.
fn prove_piece(piece: &Piece) -> Option<Report> {
    let standing = piece.parts().iter().filter_map(|part| Some((part.board()?, part.finished())));
    let (boards, shapes): (Vec<&Board>, Vec<&Shape>) = standing.unzip();
    if boards.is_empty() {
        return None;
    }
    let (flank, cheek, tip) = (piece.fit().flank().nm(), piece.fit().cheek().nm(), piece.fit().tip().nm());
    let relief = piece.relief().is_some();
    // Where a relief begins on a slanted edge, its point was rounded to the side of the board.
    let rounded = if relief && shapes.iter().any(|shape| shape.leans()) { ROUNDED } else { 0 };
    let gap = flank.max(cheek).max(0);
    let allowed = Allowed {
        depth: (-flank).max(-cheek).max(0),
        gap,
        strip: gap.max(-tip).max(rounded),
        step: flank.abs() + cheek.abs() + tip.abs(),
        slack: SLACK,
        relief,
    };
    let mut report = prove(&boards, &shapes, allowed);
    let filled = piece.parts().iter().zip(&shapes).find_map(|(part, shape)| unrelieved(shape).map(|at| (part, at)));
    if !relief || filled.is_some() {
        report.corner_fillet = piece.cutter().corner_radius();
    }
    if let (Cutter::Bit { .. }, Some((part, at))) = (piece.cutter(), filled) {
        let radius = report.corner_fillet;
        let problem = format!("a bit leaves a fillet of radius {radius} in inner corners without relief; a square mate does not reach into");
        report.problems.push(format!("{problem} that of panel \"{}\" near {}", part.name(), place(at)));
    }
    Some(report)
}

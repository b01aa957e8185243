//! The dry fit and what it found.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::body::Body;
use super::contact::{Gaps, contacts};
use super::cubes;
use super::overlap::overlap;
use super::section::{Step, both};
use super::strange::strange;
use crate::assembly::{Blocks, Board, Panel};
use crate::cut::{Cutter, Parts, Piece};
use crate::joint::Vertex;
use crate::length::Nm;
use crate::shape::{Shape, is_hole, place};
use crate::sweep;

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
    /// Radius that a round cutter leaves in inner corners; 0 for a blade.
    pub corner_fillet: Nm,
    /// What is wrong, with boards and places; empty if all is well.
    pub problems: Vec<String>,
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
        self.gap_min = self.gap_min.min(other.gap_min);
        self.gap_max = self.gap_max.max(other.gap_max);
        self.void_volume += other.void_volume;
        self.loose_pieces += other.loose_pieces;
        self.thinnest_neck = self.thinnest_neck.min(other.thinnest_neck);
        self.corner_fillet = self.corner_fillet.max(other.corner_fillet);
        self.problems.extend(other.problems);
        self
    }
}

/// What a fit allows: the deepest interference, the widest gap, the widest strip that a part may lack along its edges, and the longest
/// step in an edge where allowances differ.
#[derive(Clone, Copy, Debug, Default)]
struct Allowed {
    depth: i64,
    gap: i64,
    strip: i64,
    step: i64,
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
    let shapes: Vec<Shape> = panels.iter().map(Panel::shape).collect();
    let boards: Vec<&Board> = panels.iter().map(Panel::board).collect();
    prove(&boards, &shapes, Allowed::default())
}

/// The dry fit of any outlines, each given with the slab it was cut from and measured from the slab's lowest corner.
///
/// Their edges must run along the axes. Where one does not, or a loop is none, or outlines are missing, that is the only problem reported:
/// nothing else is judged.
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
    parts.pieces().iter().map(prove_piece).reduce(Report::join).unwrap_or_default()
}

fn prove_piece(piece: &Piece) -> Report {
    let shapes: Vec<Shape> = piece.parts().iter().map(crate::cut::Part::finished).collect();
    let boards: Vec<&Board> = piece.parts().iter().map(crate::cut::Part::board).collect();
    let (flank, cheek, tip) = (piece.fit().flank().nm(), piece.fit().cheek().nm(), piece.fit().tip().nm());
    let gap = flank.max(cheek).max(0);
    let allowed = Allowed { depth: (-flank).max(-cheek).max(0), gap, strip: gap.max(-tip), step: flank.abs() + cheek.abs() + tip.abs() };
    let mut report = prove(&boards, &shapes, allowed);
    report.corner_fillet = piece.cutter().corner_radius();
    if let Cutter::Bit { .. } = piece.cutter()
        && shapes.iter().any(has_inner_corner)
    {
        report
            .problems
            .push(format!("a bit leaves a fillet of radius {} in every inner corner; a square mate does not reach in", report.corner_fillet));
    }
    report
}

fn has_inner_corner(shape: &Shape) -> bool {
    shape.loops().any(|ring| ring.len() > 4 || is_hole(ring))
}

fn prove(boards: &[&Board], shapes: &[Shape], allowed: Allowed) -> Report {
    let bodies: Vec<Body> = boards.iter().zip(shapes).map(|(board, shape)| Body::new(board, shape)).collect();
    let mut report = Report::default();
    pieces(&bodies, &mut report);
    let (mut p, mut q) = (Vec::new(), Vec::new());
    // Nor is the next flank of fingers narrower than that a contact.
    let half_board = boards.iter().map(|board| board.thickness().nm()).min().unwrap_or(0) / 2;
    let reach = half_board.min(report.thinnest_neck.nm()).max(allowed.gap + 1);
    let mut gaps = Gaps::default();
    for (i, a) in bodies.iter().enumerate() {
        for b in bodies.iter().skip(i + 1) {
            let shared = overlap(a, b, &mut p, &mut q);
            report.overlap_volume += shared.volume;
            report.overlap_max = report.overlap_max.max(Nm::raw(shared.depth));
            if shared.depth > allowed.depth {
                report.problems.push(format!("boards \"{}\" and \"{}\" overlap by {}", a.board.name(), b.board.name(), Nm::raw(shared.depth)));
            }
            if a.normal() != b.normal() && a.board.overlaps(b.board) {
                let found = contacts(a, b, (reach, allowed.step), &mut p);
                gaps.join(found);
                if let Some((_, most)) = found.range()
                    && most > allowed.gap
                {
                    report.problems.push(format!("boards \"{}\" and \"{}\" stand {} apart", a.board.name(), b.board.name(), Nm::raw(most)));
                }
            }
        }
    }
    if let Some((least, most)) = gaps.range() {
        (report.gap_min, report.gap_max) = (Nm::raw(least), Nm::raw(most));
    }
    voids(&bodies, allowed.strip == 0, &mut report);
    // Without an exact fit some void is asked for, but no more than a strip along every edge.
    let strips: i128 = bodies.iter().map(|body| i128::from(body.shape.length()) * i128::from(width(body.thick()))).sum();
    if allowed.strip > 0 && report.void_volume > strips * i128::from(allowed.strip) {
        report.problems.push(String::from("more of the boards is missing than the allowances explain"));
    }
    report
}

/// Loose pieces, crossing edges and the thinnest neck of each outline.
fn pieces(bodies: &[Body], report: &mut Report) {
    let mut neck = i64::MAX;
    for body in bodies {
        let outers = body.shape.loops().filter(|ring: &&[Vertex]| !is_hole(ring)).count();
        if outers != 1 {
            report.loose_pieces += outers.saturating_sub(1);
            report.problems.push(format!("panel \"{}\" comes in {outers} pieces", body.board.name()));
        }
        match sweep::thinnest(body.edges()) {
            Ok(Some(thin)) => {
                neck = neck.min(thin.width);
                if thin.width == 0 {
                    report.problems.push(format!("panel \"{}\" is no wider than a point near {}", body.board.name(), place(body.local(thin.at))));
                }
            }
            Ok(None) => {}
            Err(at) => report.problems.push(format!("panel \"{}\": edges cross near {}", body.board.name(), place(body.local(at)))),
        }
    }
    report.thinnest_neck = Nm::raw(if neck == i64::MAX { 0 } else { neck });
}

/// What no board fills: of each slab outside the blocks, of each block, of each cube.
fn voids(bodies: &[Body], exact: bool, report: &mut Report) {
    let boards: Vec<&Board> = bodies.iter().map(|body| body.board).collect();
    let Ok(blocks) = Blocks::of(&boards) else {
        report.problems.push(String::from("a board ends inside the thickness of another"));
        return;
    };
    let (mut p, mut q) = (Vec::new(), Vec::new());
    // Of each body: the slab's area outside the blocks, and how much of it is filled.
    let mut own: Vec<(i128, i128)> = bodies.iter().map(|body| whole(body, &mut p)).collect();
    let mut take = |number: u16, area: i128, filled: i128, sign: i128| {
        if let Some((slab, solid)) = own.get_mut(usize::from(number)) {
            *slab -= sign * area;
            *solid -= sign * filled;
        }
    };
    for block in blocks.all() {
        let (Some(a), Some(b)) = (bodies.get(usize::from(block.a)), bodies.get(usize::from(block.b))) else { continue };
        let (ta, tb) = (width(a.thick()), width(b.thick()));
        a.section(block.run, b.thick(), &mut p);
        b.section(block.run, a.thick(), &mut q);
        let length = i128::from(block.to - block.from);
        take(block.a, i128::from(tb) * length, integral(&p, block.from, block.to), 1);
        take(block.b, i128::from(ta) * length, integral(&q, block.from, block.to), 1);
        let thirds = blocks.thirds(&boards, block);
        let mut void = empty(&p, &q, (ta, tb), (block.from, block.to));
        for &(lo, hi, third) in &thirds {
            let (from, to) = (lo.max(block.from), hi.min(block.to));
            void -= empty(&p, &q, (ta, tb), (from, to));
            // The cube was taken from each slab twice, once with either run.
            take(block.a, i128::from(tb) * i128::from(to - from), integral(&p, from, to), give_back(block.b, third));
            take(block.b, i128::from(ta) * i128::from(to - from), integral(&q, from, to), give_back(block.a, third));
            if let Some(c) = bodies.get(usize::from(third)).filter(|_| third > block.b) {
                let (_, empty) = cubes::void([a, b, c]);
                if exact && empty > 0 {
                    report.problems.push(format!(
                        "the corner of \"{}\", \"{}\" and \"{}\" has no owner",
                        a.board.name(),
                        b.board.name(),
                        c.board.name()
                    ));
                }
                report.void_volume += empty;
            }
        }
        if exact && void > 0 {
            report.problems.push(format!("the block of \"{}\" and \"{}\" is not filled", a.board.name(), b.board.name()));
        }
        report.void_volume += void;
    }
    for (body, (slab, solid)) in bodies.iter().zip(own) {
        if exact && solid < slab {
            report.problems.push(format!("panel \"{}\" has lost board that no other claims", body.board.name()));
        }
        report.void_volume += (slab - solid) * i128::from(width(body.thick()));
    }
}

/// A cube lies on two runs of each slab; the one with the lower-numbered other board gives it back.
fn give_back(mate: u16, third: u16) -> i128 {
    if mate < third { -1 } else { 0 }
}

fn width((lo, hi): (i64, i64)) -> i64 {
    hi - lo
}

/// The area of a slab and how much of it is filled.
fn whole(body: &Body, room: &mut Vec<Step>) -> (i128, i128) {
    let (u, v) = body.normal().plane();
    let board = body.board;
    body.section(u, (board.lo(v), board.hi(v)), room);
    (i128::from(board.size(u)) * i128::from(board.size(v)), integral(room, board.lo(u), board.hi(u)))
}

/// The filled area between two places of the run.
fn integral(steps: &[Step], from: i64, to: i64) -> i128 {
    both(steps, &[]).map(|(a, b, value, _)| i128::from((b.min(to) - a.max(from)).max(0)) * i128::from(value)).sum()
}

/// What neither of two boards fills of their block between two places of the run.
fn empty(p: &[Step], q: &[Step], (ta, tb): (i64, i64), (from, to): (i64, i64)) -> i128 {
    let section = i128::from(ta) * i128::from(tb);
    let full = section * i128::from(to - from);
    let filled = both(p, q).map(|(a, b, of_b, of_a)| {
        let length = i128::from((b.min(to) - a.max(from)).max(0));
        length * (section - i128::from(ta - of_a) * i128::from(tb - of_b))
    });
    full - filled.sum::<i128>()
}

//! One pass over all pairs of boards: what they share, how far they stand apart, what neither fills.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::borrow::Borrow;

use super::body::Body;
use super::contact::{Gaps, contacts};
use super::cubes;
use super::overlap::{Overlap, coplanar, crossing};
use super::plug::plugged;
use super::report::Report;
use super::section::{Step, empty, integral};
use super::slices;
use super::solid::Solid;
use super::splice::{self, contacts as contacts_in_plane, runs_through};
use crate::assembly::{Block, Blocks, Board};
use crate::joint::Vertex;
use crate::length::Nm;
use crate::point::Axis;
use crate::shape::{Shape, is_hole, place};

/// What a fit allows: the deepest interference, the widest gap, the widest strip that a part may lack along its edges, and the longest
/// step in an edge where allowances differ.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Allowed {
    pub depth: i64,
    pub gap: i64,
    pub strip: i64,
    pub step: i64,
    /// Rounding where an edge slants.
    pub slack: i64,
    /// Whether arcs may bulge into the boards.
    pub relief: bool,
}

/// The dry fit of outlines against the slabs that they were cut from.
pub(super) fn prove<S: Borrow<Shape>>(boards: &[&Board], shapes: &[S], allowed: Allowed) -> Report {
    let filled: Vec<_> = boards.iter().zip(shapes).map(|(board, shape)| plugged(board, shape.borrow())).collect();
    let plugs = boards.iter().zip(shapes).zip(&filled);
    let bodies: Vec<Body> = plugs.map(|((board, shape), (filled, _))| Body::plugged(board, filled, shape.borrow())).collect();
    let mut report = Report::default();
    for (board, at) in boards.iter().zip(&filled).flat_map(|(board, (_, lacking))| lacking.iter().map(move |at| (board, at))) {
        report.problems.push(format!("panel \"{}\" lacks its opening near {}", board.name(), place(*at)));
    }
    let blocks = match Blocks::of(boards) {
        Ok(blocks) => blocks,
        Err(failure) => {
            report.problems.push(format!("{failure}: nothing was judged"));
            return report;
        }
    };
    pieces(&bodies, &mut report);
    // What is as far apart as half a board does not touch, nor is the next flank of fingers narrower than that a contact.
    let half_board = boards.iter().map(|board| board.thickness().nm()).min().unwrap_or(0) / 2;
    let reach = half_board.min(report.thinnest_neck.nm()).max(allowed.gap + 1);
    if let Some(axis) = blocks.axis() {
        let solids: Vec<Solid> = bodies.iter().map(|body| Solid::new(body.board, body.shape, axis)).collect();
        slices::prove(&solids, boards, &blocks, allowed, reach, &mut report);
        bulges(&bodies, allowed, &mut report);
        return report;
    }
    let mut proof = Proof {
        bodies: &bodies,
        boards,
        blocks: &blocks,
        allowed,
        reach,
        gaps: Gaps::default(),
        own: Vec::new(),
        p: Vec::new(),
        q: Vec::new(),
        report,
    };
    proof.run();
    let mut report = proof.report;
    bulges(&bodies, allowed, &mut report);
    report
}

/// Sections see the chords of arcs; what they take beyond, they take from a board's own.
fn bulges(bodies: &[Body], allowed: Allowed, report: &mut Report) {
    for body in bodies.iter().filter(|body| body.shape.is_bent()) {
        report.void_volume += body.shape.twice_segments() * i128::from(body.board.thickness().nm()) / 2;
        if !allowed.relief {
            report.problems.push(format!("panel \"{}\" has lost board in an arc that no other claims", body.board.name()));
        }
    }
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
        match body.thinnest() {
            Ok(Some(thin)) => {
                neck = neck.min(thin.width);
                if thin.width == 0 {
                    report.problems.push(format!("panel \"{}\" is no wider than a point near {}", body.board.name(), place(thin.at)));
                }
            }
            Ok(None) => {}
            Err(at) => report.problems.push(format!("panel \"{}\": edges cross near {}", body.board.name(), place(at))),
        }
    }
    report.thinnest_neck = Nm::raw(if neck == i64::MAX { 0 } else { neck });
}

/// The pass and what it has gathered.
struct Proof<'a> {
    bodies: &'a [Body<'a>],
    boards: &'a [&'a Board],
    blocks: &'a Blocks,
    allowed: Allowed,
    reach: i64,
    gaps: Gaps,
    /// Of each slab: its area outside the blocks, and how much of it is filled.
    own: Vec<(i128, i128)>,
    /// What the first of a pair fills of the second's thickness, and the other way round.
    p: Vec<Step>,
    q: Vec<Step>,
    report: Report,
}

impl Proof<'_> {
    fn run(&mut self) {
        self.own = self.bodies.iter().map(|body| slab(body, &mut self.p)).collect();
        let mut blocks = self.blocks.all().iter().peekable();
        for (i, a) in self.bodies.iter().enumerate() {
            for (j, b) in self.bodies.iter().enumerate().skip(i + 1) {
                let block = blocks.next_if(|block| (usize::from(block.a), usize::from(block.b)) == (i, j));
                if block.is_none() && !a.near(b) {
                    continue;
                }
                if a.normal() == b.normal() {
                    self.claim(a, b, coplanar(a, b));
                    if let Some((block, depth)) = block.and_then(|block| Some((block, block.splice?))) {
                        a.section(block.run, (depth.from, depth.to), &mut self.p);
                        b.section(block.run, (depth.from, depth.to), &mut self.q);
                        self.touch(a, b, contacts_in_plane(a, b, block, depth, self.reach));
                        self.fill(block, a, b);
                    }
                    continue;
                }
                let run = a.normal().third(b.normal());
                self.judge(a, b, run);
                a.section(run, b.thick(), &mut self.p);
                b.section(run, a.thick(), &mut self.q);
                self.claim(a, b, crossing(&self.p, &self.q));
                if let Some(block) = block {
                    let found = contacts(a, b, (&self.p, &self.q), (self.reach, self.allowed.step));
                    self.touch(a, b, found);
                    self.fill(block, a, b);
                }
            }
        }
        if let Some((least, most)) = self.gaps.range() {
            (self.report.gap_min, self.report.gap_max) = (Nm::raw(least), Nm::raw(most));
            self.report.touching = true;
        }
        self.missing();
    }

    /// Where an edge slants, its corners were rounded once more than the fit asked for.
    fn slack(&self, a: &Body, b: &Body) -> i64 {
        if a.leans && b.leans { self.allowed.slack } else { 0 }
    }

    /// What two boards both claim.
    fn claim(&mut self, a: &Body, b: &Body, shared: Overlap) {
        self.report.overlap_volume += shared.volume;
        self.report.overlap_max = self.report.overlap_max.max(Nm::raw(shared.depth));
        if shared.depth > self.allowed.depth + self.slack(a, b) {
            let depth = Nm::raw(shared.depth);
            self.report.problems.push(format!("boards \"{}\" and \"{}\" overlap by {depth}", a.board.name(), b.board.name()));
        }
    }

    /// A splice that reaches into another board is not understood.
    fn judge(&mut self, a: &Body, b: &Body, run: Axis) {
        if runs_through(a, b, run) || runs_through(b, a, run) {
            self.report.problems.push(format!("boards \"{}\" and \"{}\" meet where an edge slants: not judged", a.board.name(), b.board.name()));
        }
    }

    /// The gaps of their contacts.
    fn touch(&mut self, a: &Body, b: &Body, found: Gaps) {
        self.gaps.join(found);
        let allowed = self.allowed.gap + self.slack(a, b);
        if let Some(most) = found.range().map(|(_, most)| most).filter(|most| *most > allowed) {
            let most = Nm::raw(most);
            self.report.problems.push(format!("boards \"{}\" and \"{}\" stand {most} apart", a.board.name(), b.board.name()));
        }
    }

    /// What neither fills of their block, and no third board of the cubes in it.
    fn fill(&mut self, block: &Block, a: &Body, b: &Body) {
        let exact = self.allowed.strip == 0;
        let whole = (block.from, block.to);
        // How far across the run the block reaches in the plane of each.
        let (tb, ta) = block.splice.map_or((b.board.thickness().nm(), a.board.thickness().nm()), |depth| (depth.size(), depth.size()));
        self.take(block.a, tb, whole, 1, true);
        self.take(block.b, ta, whole, 1, false);
        let mut void = self.empty(block, a, b, whole);
        let thirds = self.blocks.thirds(self.boards, block);
        if let Err(failure) = self.blocks.uncrowded(self.boards, block, &thirds) {
            self.report.problems.push(format!("{failure}: not judged"));
        }
        for (lo, hi, third) in thirds {
            let stretch = (lo.max(block.from), hi.min(block.to));
            void -= self.empty(block, a, b, stretch);
            // Each slab counts the cube in both of its runs; the one with the lower-numbered other board gives it back.
            self.take(block.a, tb, stretch, if block.b < third { -1 } else { 0 }, true);
            self.take(block.b, ta, stretch, if block.a < third { -1 } else { 0 }, false);
            if let Some(c) = self.bodies.get(usize::from(third)).filter(|_| third > block.b) {
                let all = |steps, thick: i64| integral(steps, lo, hi) == i128::from(thick) * i128::from(hi - lo);
                let nobody = if all(&self.p, tb) || all(&self.q, ta) { 0 } else { cubes::void([a, b, c]) };
                if exact && nobody > 0 {
                    let [a, b, c] = [a, b, c].map(|body| body.board.name());
                    self.report.problems.push(format!("the corner of \"{a}\", \"{b}\" and \"{c}\" has no owner"));
                }
                self.report.void_volume += nobody;
            }
        }
        if exact && void > 0 {
            self.report.problems.push(format!("the block of \"{}\" and \"{}\" is not filled", a.board.name(), b.board.name()));
        }
        self.report.void_volume += void;
    }

    /// What neither of two boards fills of a stretch of their block.
    fn empty(&self, block: &Block, a: &Body, b: &Body, (from, to): (i64, i64)) -> i128 {
        let (ta, tb) = (a.board.thickness().nm(), b.board.thickness().nm());
        let Some(depth) = block.splice else { return empty(&self.p, &self.q, (ta, tb), (from, to)) };
        let twice = splice::filled(a, block, depth, &self.p, (from, to)) + splice::filled(b, block, depth, &self.q, (from, to));
        // What both claim is a problem of its own.
        (2 * i128::from(depth.size()) * i128::from(to - from) - twice).max(0) * i128::from(ta) / 2
    }

    /// Takes a stretch of a block, as thick as the mate, from a slab's own area.
    fn take(&mut self, board: u16, thick: i64, (from, to): (i64, i64), sign: i128, first: bool) {
        let filled = if first { &self.p } else { &self.q };
        if let Some((area, solid)) = self.own.get_mut(usize::from(board)) {
            *area -= sign * i128::from(thick) * i128::from(to - from);
            *solid -= sign * integral(filled, from, to);
        }
    }

    /// What no board fills of the slabs outside all blocks.
    fn missing(&mut self) {
        let mut strips = 0;
        for (body, &(area, solid)) in self.bodies.iter().zip(&self.own) {
            let thick = i128::from(body.board.thickness().nm());
            if self.allowed.strip == 0 && solid < area {
                self.report.problems.push(format!("panel \"{}\" has lost board that no other claims", body.board.name()));
            }
            if self.allowed.strip == 0 && solid > area {
                self.report.problems.push(format!("panel \"{}\" has slanted edges in no one splice: not judged", body.board.name()));
            }
            self.report.void_volume += (area - solid) * thick;
            if self.allowed.strip > 0 {
                strips += i128::from(self.allowed.strip) * i128::from(body.shape.length()) * thick;
            }
        }
        // Without an exact fit some void is asked for, but no more than a strip along every edge.
        if self.allowed.strip > 0 && self.report.void_volume > strips {
            self.report.problems.push(String::from("more of the boards is missing than the allowances explain"));
        }
    }
}

/// The area of a slab and how much of it is filled.
fn slab(body: &Body, room: &mut Vec<Step>) -> (i128, i128) {
    let (u, v) = body.normal().plane();
    let board = body.board;
    body.section(u, (board.lo(v), board.hi(v)), room);
    (i128::from(board.size(u)) * i128::from(board.size(v)), integral(room, board.lo(u), board.hi(u)))
}

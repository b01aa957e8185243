//! The dry fit where boards are turned: cut across the axis of turning, slice by slice.
//!
//! Every board is upright or flat with respect to that axis, so between neighbouring levels no section changes: upright boards show turned
//! rectangles, flat ones their outline. In each slice nothing may lie over anything else, and whatever a board lacks must be explained:
//! by the shadow of a mate that stands there, or by a flat board that fills it. What is open beside such a mate is a wedge; its volume is
//! stated, not hidden.

use alloc::format;
use alloc::vec::Vec;

use super::contact::{Gaps, flanks};
use super::proof::Allowed;
use super::report::Report;
use super::solid::{SLACK, Section, Solid, covered, ring};
use crate::assembly::{At, Block, Blocks, Board};
use crate::length::Nm;
use crate::overlay::common;
use crate::plane::distance;
use crate::point::{Axis, Point};

/// The proof of boards that are turned about an axis; loose pieces and necks are in the report already.
pub(super) fn prove(solids: &[Solid], boards: &[&Board], blocks: &Blocks, allowed: Allowed, reach: i64, report: &mut Report) {
    for solid in solids.iter().filter(|solid| solid.leans()) {
        report.problems.push(format!("panel \"{}\" stands upright and has an edge that slants: not judged", solid.board.name()));
    }
    let mut levels = Vec::new();
    solids.iter().for_each(|solid| solid.levels(&mut levels));
    levels.sort_unstable();
    levels.dedup();
    let mut proof = Slices { solids, boards, blocks, allowed, reach, gaps: Gaps::default(), missed: alloc::vec![false; solids.len()], report };
    let mut before: Option<(Vec<bool>, f64)> = None;
    let mut kinds: Vec<Kind> = Vec::new();
    for pair in levels.windows(2) {
        let [from, to] = *pair else { continue };
        let sections: Vec<Section> = solids.iter().map(|solid| solid.section(from)).collect();
        let present: Vec<bool> = solids.iter().map(|solid| solid.reaches(from)).collect();
        let open = to - from <= allowed.strip;
        // What looks alike is judged once.
        let alike =
            |kind: &&mut Kind| (&kind.present, kind.open) == (&present, open) && kind.sections.iter().zip(&sections).all(|(a, b)| a.edges == b.edges);
        if let Some(kind) = kinds.iter_mut().find(alike) {
            kind.height += to - from;
            continue;
        }
        kinds.push(Kind { sections, present, open, level: from, height: to - from });
    }
    for Kind { sections, present, open, level, height } in kinds {
        // The slabs change less often than the sections.
        let whole = match &before {
            Some((slabs, whole)) if *slabs == present => *whole,
            _ => proof.slabs(level),
        };
        before = Some((present, whole));
        proof.slice(&sections, (level, height, open), whole);
    }
    proof.along_the_axis();
    if let Some((least, most)) = proof.gaps.range() {
        (report.gap_min, report.gap_max, report.touching) = (Nm::raw(least), Nm::raw(most), true);
    }
}

/// Slices in which all boards show the same.
struct Kind {
    sections: Vec<Section>,
    /// Which slabs reach there.
    present: Vec<bool>,
    /// No higher than a gap that was asked for, which is open to all.
    open: bool,
    /// Where the first of them begins.
    level: i64,
    /// Of all of them.
    height: i64,
}

struct Slices<'a> {
    solids: &'a [Solid<'a>],
    boards: &'a [&'a Board],
    blocks: &'a Blocks,
    allowed: Allowed,
    reach: i64,
    gaps: Gaps,
    /// Panels of which it has been said that they lack something.
    missed: Vec<bool>,
    report: &'a mut Report,
}

impl Slices<'_> {
    /// The area of all slabs together at a level.
    fn slabs(&self, level: i64) -> f64 {
        let slabs: Vec<Vec<(Point, Point)>> = self.solids.iter().filter(|solid| solid.reaches(level)).map(Solid::slab).collect();
        covered(&slabs.iter().map(Vec::as_slice).collect::<Vec<_>>())
    }

    fn slice(&mut self, sections: &[Section], (from, height, open): (i64, i64, bool), whole: f64) {
        let height = i128::from(height);
        for (i, a) in sections.iter().enumerate() {
            for (j, b) in sections.iter().enumerate().skip(i + 1).filter(|(_, b)| a.near(b)) {
                self.claim((i, a), (j, b), height);
            }
        }
        // Even to the nanometre, corners are rounded: what could come from that alone is nothing.
        let edge: f64 = sections.iter().map(Section::perimeter).sum();
        let void = whole - covered(&sections.iter().map(|section| section.edges.as_slice()).collect::<Vec<_>>());
        if void > SLACK * edge {
            self.report.void_volume += void as i128 * height;
        }
        for (number, solid) in self.solids.iter().enumerate().filter(|(_, solid)| solid.reaches(from) && !open) {
            if !self.explained(number, solid, sections, from) && !core::mem::replace(self.missed.get_mut(number).unwrap_or(&mut true), true) {
                self.report.problems.push(format!("panel \"{}\" has lost board that no other claims", solid.board.name()));
            }
        }
        for block in self.blocks.all() {
            self.touch(block, sections, from);
        }
    }

    fn claim(&mut self, (i, a): (usize, &Section), (j, b): (usize, &Section), height: i128) {
        let mut shared = common(&a.strips, &b.strips);
        if shared.depth > SLACK as i64 {
            // Strips that an edge crosses steeply overstate a sliver's depth; those across them do not.
            shared.depth = shared.depth.min(common(&a.upright(), &b.upright()).depth);
        }
        if shared.depth <= SLACK as i64 {
            return;
        }
        self.report.overlap_volume += shared.area * height;
        if shared.depth > self.report.overlap_max.nm() {
            self.report.overlap_max = Nm::raw(shared.depth);
        }
        if shared.depth > self.allowed.depth + SLACK as i64
            && let (Some(p), Some(q)) = (self.solids.get(i), self.solids.get(j))
        {
            let said = format!("boards \"{}\" and \"{}\" overlap", p.board.name(), q.board.name());
            if !self.report.problems.iter().any(|problem| problem.starts_with(&said)) {
                self.report.problems.push(format!("{said} by {}", Nm::raw(shared.depth)));
            }
        }
    }

    /// Whether all that a board lacks in a slice belongs to another, or to a wedge beside one.
    fn explained(&self, number: usize, solid: &Solid, sections: &[Section], level: i64) -> bool {
        let Some(section) = sections.get(number) else { return true };
        let strip = 4 * self.allowed.strip + SLACK as i64;
        let Some(plan) = &solid.plan else {
            // Outside the upright slabs a flat board is whole.
            let upright: Vec<Vec<(Point, Point)>> =
                self.solids.iter().filter(|other| other.plan.is_some() && other.reaches(level)).map(Solid::slab).collect();
            let with = |edges: &[(Point, Point)]| {
                let mut all: Vec<&[(Point, Point)]> = upright.iter().map(Vec::as_slice).collect();
                all.push(edges);
                covered(&all)
            };
            return with(&solid.slab()) - with(&section.edges) <= strip as f64 * section.perimeter();
        };
        let shadows = self.shadows(number, sections, level);
        let mut last = 0;
        let ends = section.stretches.iter().map(|&(from, to)| (from, to)).chain([(plan.length() as i64, i64::MAX)]);
        for (next, end) in ends {
            // What is missing before this stretch, less the shadows.
            let mut at = last;
            for &(from, to) in &shadows {
                if from - strip > at && !self.filled(solid, sections, (at, next.min(from))) {
                    return false;
                }
                at = at.max(to.min(next));
                if at >= next {
                    break;
                }
            }
            if next - at > strip && !self.filled(solid, sections, (at, next)) {
                return false;
            }
            last = end;
        }
        true
    }

    /// The stretches along an upright board that lie in the shadow of upright mates that stand there at this level, and of those that
    /// cross at the same place; in order.
    fn shadows(&self, number: usize, sections: &[Section], level: i64) -> Vec<(i64, i64)> {
        let Some(own) = self.boards.get(number) else { return Vec::new() };
        let number = number as u16;
        let mut all: Vec<(i64, i64, bool)> = Vec::new();
        for (_, block) in self.blocks.of_board(number) {
            let mate = block.mate(number);
            let (Some(board), Some(section)) = (self.boards.get(usize::from(mate)), sections.get(usize::from(mate))) else { continue };
            if Some(block.run) != self.axis() || level < block.from || level >= block.to {
                continue;
            }
            let local = |number: u16, own: &Board, mate: &Board| {
                let (axis, (from, to)) = block.region(number, own, mate);
                (from - own.lo(axis), to - own.lo(axis))
            };
            let (from, to) = local(number, own, board);
            let (start, end) = local(mate, board, own);
            let middle = start + (end - start) / 2;
            all.push((from, to, section.stretches.iter().any(|&(a, b)| a <= middle && middle < b)));
        }
        all.sort_unstable();
        let mut joined: Vec<(i64, i64, bool)> = Vec::with_capacity(all.len());
        for (from, to, stands) in all {
            match joined.last_mut() {
                Some(last) if from < last.1 => *last = (last.0, last.1.max(to), last.2 || stands),
                _ => joined.push((from, to, stands)),
            }
        }
        joined.into_iter().filter(|(.., stands)| *stands).map(|(from, to, _)| (from, to)).collect()
    }

    fn axis(&self) -> Option<Axis> {
        self.solids.first().map(|solid| solid.axis)
    }

    /// Whether flat boards fill a stretch of an upright one.
    fn filled(&self, solid: &Solid, sections: &[Section], (from, to): (i64, i64)) -> bool {
        let Some(plan) = &solid.plan else { return false };
        let hole = Section::of(Vec::new(), ring(&plan.stretch(from as f64, to as f64)));
        let flats = self.solids.iter().zip(sections).filter(|(other, _)| other.plan.is_none());
        let area: i128 = flats.map(|(_, section)| common(&hole.strips, &section.strips).area).sum();
        let strip = 2.0 * self.allowed.strip as f64 + SLACK;
        area as f64 >= (to - from) as f64 * plan.thickness() - strip * hole.perimeter()
    }

    /// The gaps beside one board of a block in a slice.
    fn touch(&mut self, block: &Block, sections: &[Section], level: i64) {
        let numbers = [(block.a, block.b), (block.b, block.a)];
        for (one, other) in numbers {
            let (Some(stands), Some(mate)) = (self.solids.get(usize::from(one)), self.solids.get(usize::from(other))) else { continue };
            let (Some(section), Some(across)) = (sections.get(usize::from(one)), sections.get(usize::from(other))) else { continue };
            let (Some(plan), true) = (&stands.plan, mate.reaches(level)) else { continue };
            let gaps = if mate.plan.is_none() {
                beside_flat(section, across, plan, self.reach)
            } else {
                let (axis, (from, to)) = block.region(one, stands.board, mate.board);
                let middle = from + (to - from) / 2 - stands.board.lo(axis);
                let (axis, (from, to)) = block.region(other, mate.board, stands.board);
                let lost = (from - mate.board.lo(axis), to - mate.board.lo(axis));
                let own = section.stretches.iter().find(|&&(a, b)| a <= middle && middle < b);
                let ends = self.nearest_ends(block, other, mate.board, lost);
                own.map(|own| beside(ring(&plan.stretch(own.0 as f64, own.1 as f64)), mate, across, &ends, self.reach)).unwrap_or_default()
            };
            let cosine = if block.shadows.is_some() { cosine(block) } else { 0.0 };
            self.join(gaps, mate.board.thickness().nm() as f64 * cosine, (stands.board, mate.board));
        }
    }

    /// Where the ends of an upright board may belong to one of its mates: nearer to that mate's shadow, of which `own` is the stretch,
    /// than to any other's. For each end of the shadow, a test.
    fn nearest_ends(&self, block: &Block, number: u16, board: &Board, own: (i64, i64)) -> impl Fn(i64, bool) -> i64 + use<> {
        let others = self.blocks.of_board(number).filter(|&(_, other)| other != block && other.run == block.run);
        let others: Vec<(i64, i64)> = others
            .filter_map(|(_, other)| {
                let mate = self.boards.get(usize::from(other.mate(number)))?;
                let (axis, (from, to)) = other.region(number, board, mate);
                Some((from - board.lo(axis), to - board.lo(axis)))
            })
            .collect();
        move |at, low| {
            let pick = |(from, to): (i64, i64)| (at - if low { from } else { to }).abs();
            let far = pick(own);
            if others.iter().any(|&other| pick(other) < far) { i64::MAX } else { far }
        }
    }

    fn join(&mut self, found: Gaps, wedge: f64, (a, b): (&Board, &Board)) {
        self.gaps.join(found);
        let allowed = self.allowed.gap + (2.0 * wedge) as i64 + 2 * SLACK as i64;
        if let Some(most) = found.range().map(|(_, most)| most).filter(|most| *most > allowed) {
            let said = format!("boards \"{}\" and \"{}\" stand", a.name(), b.name());
            if !self.report.problems.iter().any(|problem| problem.starts_with(&said)) {
                self.report.problems.push(format!("{said} {} apart", Nm::raw(most)));
            }
        }
    }

    /// Flanks of upright boards, and the cheeks that lie on the faces of flat ones.
    fn along_the_axis(&mut self) {
        for block in self.blocks.all() {
            let (Some(a), Some(b)) = (self.solids.get(usize::from(block.a)), self.solids.get(usize::from(block.b))) else { continue };
            let mut gaps = Gaps::default();
            if a.plan.is_some() && b.plan.is_some() {
                let column = |solid: &Solid, number: u16, mate: &Board| {
                    let (axis, (from, to)) = block.region(number, solid.board, mate);
                    solid.column(from + (to - from) / 2 - solid.board.lo(axis))
                };
                gaps = flanks(&column(a, block.a, b.board), &column(b, block.b, a.board), self.reach);
            } else {
                let (wall, flat) = if a.plan.is_some() { (a, b) } else { (b, a) };
                let (lo, hi) = (flat.board.lo(flat.axis), flat.board.hi(flat.axis));
                let full = wall.section(lo + (hi - lo) / 2);
                for pair in full.stretches.windows(2) {
                    let [(_, from), (to, _)] = *pair else { continue };
                    let column = wall.column(from + (to - from) / 2);
                    let under = column.iter().map(|&(_, end)| lo - end).filter(|gap| gap.abs() < self.reach).min();
                    let over = column.iter().map(|&(start, _)| start - hi).filter(|gap| gap.abs() < self.reach).min();
                    if under.is_some() || over.is_some() {
                        gaps.add(under.unwrap_or(0) + over.unwrap_or(0));
                    }
                }
            }
            self.join(gaps, 0.0, (a.board, b.board));
        }
    }
}

/// The cosine of the angle between two upright boards.
fn cosine(block: &Block) -> f64 {
    let sine = f64::from(block.sine()) / f64::from(crate::joint::RIGHT);
    libm::sqrt((1.0 - sine * sine).max(0.0))
}

/// Gaps between an upright board's stretches and a flat board around them: at both faces, and at both ends.
fn beside_flat(section: &Section, flat: &Section, plan: &crate::assembly::Plan, reach: i64) -> Gaps {
    let mut gaps = Gaps::default();
    let unit = |(x, y): At, (a, b): At| {
        let far = libm::hypot(a - x, b - y).max(1.0);
        ((a - x) / far, (b - y) / far)
    };
    let t = plan.thickness();
    for &(from, to) in &section.stretches {
        let (from, to) = (from as f64, to as f64);
        let (middle, centre) = (f64::midpoint(from, to), t / 2.0);
        let ahead = |(a, b): At, (c, d): At| {
            let start = plan.at(a, b);
            flat.ahead(start, unit(start, plan.at(c, d))).map(|gap| libm::round(gap) as i64).filter(|gap| *gap < reach)
        };
        let faces = [ahead((middle, 0.0), (middle, -t)), ahead((middle, t), (middle, 2.0 * t))];
        let found = faces.into_iter().flatten();
        if found.clone().next().is_some() {
            gaps.add(found.sum());
        }
        for end in [ahead((from, centre), (from - t, centre)), ahead((to, centre), (to + t, centre))].into_iter().flatten() {
            gaps.add(end);
        }
    }
    gaps
}

/// Gaps between an upright board and the ends of a mate beside it: the nearest point of each end, and the widest part of the wedge.
fn beside(own: Vec<(Point, Point)>, mate: &Solid, across: &Section, far: &impl Fn(i64, bool) -> i64, reach: i64) -> Gaps {
    let Some(plan) = &mate.plan else { return Gaps::default() };
    let own = Section::of(Vec::new(), own);
    let before = across.stretches.iter().find(|&&(_, end)| far(end, true) < reach).map(|&(start, end)| (start, end, end));
    let behind = across.stretches.iter().find(|&&(start, _)| far(start, false) < reach).map(|&(start, end)| (start, end, start));
    let gap = |(start, end, at): (i64, i64, i64)| {
        let other = Section::of(Vec::new(), ring(&plan.stretch(start as f64, end as f64)));
        let shared = common(&own.strips, &other.strips).depth;
        let least = if shared > SLACK as i64 { -shared } else { apart(&own, &other) };
        let corner = |deep: f64| {
            let (x, y) = plan.at(at as f64, deep);
            let p = Point::raw(libm::round(x) as i64, libm::round(y) as i64);
            own.edges.iter().map(|&edge| to_edge(p, edge)).min().unwrap_or(0)
        };
        (least, corner(0.0).max(corner(plan.thickness())).max(least))
    };
    let sides = [before.map(gap), behind.map(gap)];
    let mut gaps = Gaps::default();
    let found = sides.iter().flatten();
    if found.clone().next().is_some() {
        gaps.add(found.clone().map(|(least, _)| least).sum());
        gaps.add(found.map(|(_, most)| most).sum());
    }
    gaps
}

/// How far two outlines stand apart that do not overlap.
fn apart(a: &Section, b: &Section) -> i64 {
    let from = |one: &Section, other: &Section| {
        one.edges.iter().flat_map(|&(p, _)| other.edges.iter().map(move |&edge| to_edge(p, edge))).min().unwrap_or(i64::MAX)
    };
    from(a, b).min(from(b, a))
}

/// The distance from a point to an edge.
fn to_edge(p: Point, (a, b): (Point, Point)) -> i64 {
    let (ax, ay) = ((b.x - a.x).nm() as f64, (b.y - a.y).nm() as f64);
    let (px, py) = ((p.x - a.x).nm() as f64, (p.y - a.y).nm() as f64);
    let length = libm::hypot(ax, ay);
    let along = (px * ax + py * ay) / length.max(1.0);
    if along <= 0.0 {
        distance(p, a)
    } else if along >= length {
        distance(p, b)
    } else {
        libm::round(libm::fabs(ax * py - ay * px) / length.max(1.0)) as i64
    }
}

#[cfg(test)]
#[path = "slices_tests.rs"]
mod tests;

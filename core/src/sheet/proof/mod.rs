//! The proof of a layout: from where the outlines lie, and nothing that the search knows.

mod contact;
mod distance;
mod edge;
mod facing;
mod near;

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use self::contact::contact;
use self::distance::distance;
use self::edge::Placed;
use self::facing::facing;
use self::near::near_parts;
use super::{Item, Layout, Placement, Sheet, Stock};
use crate::bounds::REACH;
use crate::length::Nm;
use crate::point::Point;
use crate::shape::place;

/// So many problems are told; where there are more, the last line says so.
const TOLD: usize = 100;

/// What lies farther away than this reaches over the border of any sheet, and is compared with no other part: products stay within bounds.
const FAR: i64 = 4 * REACH;

/// What the proof of a layout found.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct LayoutReport {
    /// What is wrong, one line each, with parts and places; empty if all is well. At most 100, and a line that there are more.
    pub problems: Vec<String>,
    /// The least distance of the cut paths of two parts on one sheet that share no cut, rounded down to the nanometre; none without such parts.
    pub gap_min: Option<Nm>,
    /// The length in nanometres that one cut does for two parts, each piece of a slanted line rounded down.
    pub shared_length: i64,
}

impl LayoutReport {
    /// Whether the layout can be cut as it is.
    pub fn ok(&self) -> bool {
        self.problems.is_empty()
    }

    fn full(&self) -> bool {
        self.problems.len() > TOLD
    }

    fn tell(&mut self, problem: impl FnOnce() -> String) {
        if self.problems.len() < TOLD {
            self.problems.push(problem());
        } else if !self.full() {
            self.problems.push(String::from("there are more problems"));
        }
    }
}

impl Layout {
    /// Proves the layout from where the outlines lie. `items` are those that were laid out, `stocks` those that were there for them.
    ///
    /// * Every part lies on one sheet once, or is listed as unplaced; every sheet is one of the stocks, no more of them than there are.
    /// * A sheet has the thickness of its parts, and its grain runs along theirs.
    /// * Every cut path keeps half its kerf, rounded up, off the border.
    /// * No part overlaps another. This is exact, slanted edges and holes too: a part may lie in another's hole.
    /// * Two parts that share no cut stand at least the gap apart, measured straight from path to path.
    /// * On a sheet of shared cuts, parts that share one (straight edges coincide over a length and run against each other), or hang together by
    ///   such parts: where parallel edges of two of them face each other across waste, they coincide or stand at least the gap apart.
    ///
    /// Of an arc its chord counts: the arc bulges into its own part, so it is no nearer to others. Of what lies between two parallel
    /// edges, only edges parallel to both are seen.
    ///
    /// ```
    /// use dryfit_core::{Item, LayoutSpec, Nm, Point, Shape, Stock};
    /// let mm = |v| Nm::from_mm(v);
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
    /// let tile = Shape::from_loops([[at(0.0, 0.0)?, at(40.0, 0.0)?, at(40.0, 25.0)?, at(0.0, 25.0)?]]);
    /// let items = [Item::new("a", &tile), Item::new("b", &tile)];
    /// let stock = Stock::new(mm(2.5)?, [mm(100.0)?, mm(70.0)?], mm(8.0)?, mm(1.0)?)?;
    /// let mut layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
    /// let report = layout.check(&items, &[stock]);
    /// assert!(report.ok() && report.gap_min == Some(mm(1.0)?));
    /// layout.sheets[0].placements[1].at = layout.sheets[0].placements[0].at;
    /// assert_eq!(layout.check(&items, &[stock]).problems, [r#"sheet 1: parts "a" and "b" overlap at (8, 8) mm"#]);
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    #[must_use]
    pub fn check(&self, items: &[Item<'_>], stocks: &[Stock]) -> LayoutReport {
        let mut report = LayoutReport::default();
        self.check_parts(items, &mut report);
        self.check_stocks(stocks, &mut report);
        for (sheet, number) in self.sheets.iter().zip(1..) {
            sheet.check(items, number, &mut report);
        }
        report
    }

    /// That every part is there once.
    fn check_parts(&self, items: &[Item<'_>], report: &mut LayoutReport) {
        let mut times: Vec<(usize, usize)> = alloc::vec![(0, 0); items.len()];
        for part in self.sheets.iter().flat_map(|sheet| &sheet.placements).map(|placement| placement.part) {
            match times.get_mut(part) {
                Some((placed, _)) => *placed += 1,
                None => report.tell(|| format!("part {part} is laid out, but there are only {}", items.len())),
            }
        }
        for &part in &self.unplaced {
            match times.get_mut(part) {
                Some((_, unplaced)) => *unplaced += 1,
                None => report.tell(|| format!("part {part} is unplaced, but there are only {}", items.len())),
            }
        }
        for (item, times) in items.iter().zip(times) {
            let name = item.name;
            match times {
                (1, 0) | (0, 1) => {}
                (0, 0) => report.tell(|| format!("part \"{name}\" is missing")),
                (1.., 1..) => report.tell(|| format!("part \"{name}\" is both laid out and unplaced")),
                (placed, unplaced) => report.tell(|| format!("part \"{name}\" is listed {} times", placed + unplaced)),
            }
        }
    }

    /// That every sheet is there.
    fn check_stocks(&self, stocks: &[Stock], report: &mut LayoutReport) {
        let mut used: Vec<u64> = alloc::vec![0; stocks.len()];
        for (sheet, number) in self.sheets.iter().zip(1..) {
            let kinds = stocks.iter().filter(|stock| stock.alike(&sheet.stock));
            let most = kinds.map(|stock| stock.count().map(u64::from)).sum::<Option<u64>>();
            let first = stocks.iter().position(|stock| stock.alike(&sheet.stock)).and_then(|first| used.get_mut(first));
            let Some(used) = first else {
                report.tell(|| format!("sheet {number}: it is none of the stocks"));
                continue;
            };
            *used += 1;
            if let Some(most) = most.filter(|most| *used > *most) {
                report.tell(|| format!("sheet {number}: the stocks have only {most} of its kind"));
            }
        }
    }
}

impl Sheet {
    fn check(&self, items: &[Item<'_>], number: usize, report: &mut LayoutReport) {
        let placements = self.placements.iter().filter_map(|placement| items.get(placement.part).map(|item| (item, placement)));
        let mut placed = Vec::with_capacity(self.placements.len());
        for (item, placement) in placements {
            let part = Placed::of(placed.len(), item.name, &placement.place(item.path));
            self.check_one(item, placement, &part, number, report);
            placed.push(part);
        }
        placed.retain(|part| !part.edges.is_empty() && part.lo.into_iter().chain(part.hi).all(|place| place.abs() <= FAR));
        let groups = self.check_contacts(&placed, number, report);
        self.check_gaps(&placed, &groups, number, report);
        if self.stock.gap() > Nm::ZERO {
            for (a, b, at, apart) in facing(&placed, &groups, self.stock.gap().nm()) {
                report.tell(|| self.too_near((a, b), at, apart, number));
            }
        }
    }

    /// Thickness, grain and border.
    fn check_one(&self, item: &Item<'_>, placement: &Placement, part: &Placed<'_>, number: usize, report: &mut LayoutReport) {
        let (name, stock) = (item.name, &self.stock);
        if let Some(thickness) = item.thickness.filter(|&thickness| thickness != stock.thickness()) {
            report.tell(|| format!("sheet {number}: part \"{name}\" is for {thickness}, the sheet has {}", stock.thickness()));
        }
        if !stock.grain().allows(item.grain, placement.quarter_turns) {
            report.tell(|| format!("sheet {number}: part \"{name}\" lies across the grain"));
        }
        let clear = stock.border().nm() + item.half_kerf();
        let ([left, low], [right, high]) = (part.lo, part.hi);
        let over = [clear - left, clear - low, right - (stock.width().nm() - clear), high - (stock.height().nm() - clear)];
        let over = over.into_iter().max().filter(|&over| over > 0 && !part.edges.is_empty());
        if let Some(over) = over {
            report.tell(|| format!("sheet {number}: part \"{name}\" reaches {} too far into the border", Nm::raw(over)));
        }
    }

    /// Overlaps and shared cuts; gives for each part the group that it hangs together with. Parts that overlap are one group: their distance says nothing more.
    fn check_contacts(&self, placed: &[Placed<'_>], number: usize, report: &mut LayoutReport) -> Vec<usize> {
        let most = placed.iter().map(|part| part.number + 1).max().unwrap_or(0);
        let mut groups: Vec<usize> = (0..most).collect();
        near_parts(placed, 0, |a, b| {
            let found = contact(a, b);
            if let Some(at) = found.overlap {
                report.tell(|| format!("sheet {number}: parts \"{}\" and \"{}\" overlap at {}", a.name, b.name, place(at)));
            }
            let shared = if self.share_cuts { found.shared } else { 0 };
            report.shared_length = report.shared_length.saturating_add(shared);
            if found.overlap.is_some() || shared > 0 {
                let (p, q) = (root(&groups, a.number), root(&groups, b.number));
                // Roots have the least number, so every way to one ends.
                groups.iter_mut().skip(p.max(q)).take(1).for_each(|group| *group = p.min(q));
            }
            if report.full() { -1 } else { 0 }
        });
        (0..most).map(|part| root(&groups, part)).collect()
    }

    /// That parts of different groups keep the gap.
    fn check_gaps(&self, placed: &[Placed<'_>], groups: &[usize], number: usize, report: &mut LayoutReport) {
        let gap = self.stock.gap().nm();
        let group = |part: &Placed<'_>| groups.get(part.number);
        if placed.windows(2).all(|pair| matches!(pair, [a, b] if group(a) == group(b))) {
            return;
        }
        let mut least: Option<i64> = report.gap_min.map(Nm::nm);
        let far = |least: Option<i64>| least.map_or(i64::MAX / 2, |least| least.max(gap));
        near_parts(placed, far(least), |a, b| {
            let apart = if group(a) == group(b) { None } else { distance(a, b, far(least)) };
            if let Some((apart, at)) = apart {
                least = Some(least.map_or(apart, |least| least.min(apart)));
                if apart < gap {
                    report.tell(|| self.too_near((a, b), at, apart, number));
                }
            }
            if report.full() { -1 } else { far(least) }
        });
        report.gap_min = least.map(Nm::raw);
    }

    fn too_near(&self, (a, b): (&Placed<'_>, &Placed<'_>), at: Point, apart: i64, number: usize) -> String {
        let (apart, gap) = (Nm::raw(apart), self.stock.gap());
        let (a, b) = if a.number < b.number { (a, b) } else { (b, a) };
        format!("sheet {number}: parts \"{}\" and \"{}\" are {apart} apart at {}, less than the gap of {gap}", a.name, b.name, place(at))
    }
}

/// The part that stands for a part's group.
fn root(groups: &[usize], mut part: usize) -> usize {
    while let Some(&next) = groups.get(part).filter(|&&next| next < part) {
        part = next;
    }
    part
}

#[cfg(test)]
#[path = "proof_tests.rs"]
mod tests;

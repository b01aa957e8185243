//! The lines that a sheet is cut along: outlines and holes, and what two parts share only once.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use super::stretch::{Stretch, meet};
use super::trails::trails;
use super::{Item, Sheet, item};
use crate::cut::Contour;
use crate::error::Error;
use crate::joint::{Role, Vertex};
use crate::kind::LineKind;
use crate::plane::distance;
use crate::point::Point;

impl Sheet {
    /// The lines of all parts where they lie on the sheet, placement by placement, each with the number of its part. `items` are those that were laid out.
    ///
    /// On a sheet of shared cuts, where the straight edges of two parts coincide, the stretch that they have in common is cut once: it comes last, as [`LineKind::CutShared`],
    /// in lines as long as can be. What it leaves of the outlines are open lines of their kind. Every point of every outline lies on
    /// one line.
    ///
    /// ```text
    ///   +-------+-----+        outline of A: an open line round three sides and a bit
    ///   |   A   #     |        ####: the shared cut, once
    ///   |       #  B  |
    ///   +-------#-----+
    /// ```
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    ///
    /// ```
    /// use dryfit_core::{Item, LayoutSpec, LineKind, Nm, Point, Route, RouteSpec, Shape, Stock};
    /// let mm = |v| Nm::from_mm(v);
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
    /// let plate = [at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 40.0)?, at(0.0, 40.0)?];
    /// let slot = [at(10.0, 10.0)?, at(10.0, 13.0)?, at(30.0, 13.0)?, at(30.0, 10.0)?];
    /// let shape = Shape::from_loops([plate, slot]);
    /// let items = [Item::new("plate", &shape)];
    /// let stock = Stock::new(mm(2.0)?, [mm(100.0)?, mm(80.0)?], mm(5.0)?, mm(1.0)?)?;
    /// let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
    /// let lines = layout.sheets[0].lines(&items)?;
    /// assert_eq!([lines[0].kind, lines[1].kind], [LineKind::CutOuter, LineKind::CutInner]);
    /// assert_eq!(Route::new(&lines, &RouteSpec::default()).cuts()[0].contour, 1);
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    pub fn lines(&self, items: &[Item<'_>]) -> Result<Vec<Contour>, Error> {
        let whole = self.loops(items)?;
        let shared = self.shared(&whole);
        if shared.pieces.is_empty() {
            return Ok(whole);
        }
        let mut lines = Vec::with_capacity(whole.len());
        for (number, line) in whole.into_iter().enumerate() {
            split(line, |edge| shared.taken.get(&(number, edge)).map_or(&[], Vec::as_slice), &mut lines);
        }
        lines.extend(trails(&shared.pieces).into_iter().map(|trail| Contour::open(LineKind::CutShared, trail)));
        Ok(lines)
    }

    /// The length in nanometres that one cut does for two parts, each piece of a slanted line rounded down.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn shared_length(&self, items: &[Item<'_>]) -> Result<i64, Error> {
        Ok(self.shared(&self.loops(items)?).length())
    }

    /// The length of all cuts in nanometres: every outline and hole, what two parts share once.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn cut_length(&self, items: &[Item<'_>]) -> Result<i64, Error> {
        let loops = self.loops(items)?;
        Ok(loops.iter().map(Contour::length).fold(0, i64::saturating_add) - self.shared(&loops).length())
    }

    fn shared(&self, loops: &[Contour]) -> Shared {
        if self.share_cuts { Shared::of(loops) } else { Shared::default() }
    }

    /// Every loop of every part where it lies.
    fn loops(&self, items: &[Item<'_>]) -> Result<Vec<Contour>, Error> {
        let mut loops = Vec::new();
        for placement in &self.placements {
            let placed = placement.place(item(items, placement.part)?.path);
            let kind = |hole| if hole { LineKind::CutInner } else { LineKind::CutOuter };
            loops.extend(placed.rings().map(|ring| Contour::closed(kind(ring.is_hole()), ring.bent()).of_part(placement.part)));
        }
        Ok(loops)
    }
}

/// The stretches that two outlines have in common.
#[derive(Default)]
struct Shared {
    /// From point to point, with the role of the edge that runs that way.
    pieces: Vec<(Vertex, Point)>,
    /// What is taken of each edge (line and edge by their numbers), in the order of the edge.
    taken: BTreeMap<(usize, usize), Vec<[Point; 2]>>,
}

impl Shared {
    fn of(lines: &[Contour]) -> Shared {
        let (mut forth, mut back) = (Vec::new(), Vec::new());
        for (number, line) in lines.iter().enumerate() {
            for (edge, (vertex, _)) in line.points.iter().enumerate().filter(|(_, (_, centre))| centre.is_none()) {
                let Some(stretch) = line.edge(edge).and_then(|way| Stretch::of(way.from, way.to)) else { continue };
                if stretch.forth { &mut forth } else { &mut back }.push((stretch, (number, edge, vertex.role)));
            }
        }
        for way in [&mut forth, &mut back] {
            way.sort_unstable_by_key(|(stretch, _): &(Stretch, (usize, usize, Role))| (stretch.line(), stretch.from));
        }
        let mut shared = Shared::default();
        meet(forth.into_iter(), back.into_iter(), |(stretch, (line, edge, role)), (_, (other, others, _)), from, to| {
            // Into a relief as wide as the tool and back by the same way: one part's own.
            if line == other {
                return;
            }
            let (from, to) = (stretch.point(from), stretch.point(to));
            shared.pieces.push((Vertex { at: from, role }, to));
            shared.taken.entry((line, edge)).or_default().push([from, to]);
            // Found along the line, so the last comes first for the edge that runs back.
            shared.taken.entry((other, others)).or_default().insert(0, [to, from]);
        });
        shared
    }

    fn length(&self) -> i64 {
        self.pieces.iter().map(|(from, to)| distance(from.at, *to)).fold(0, i64::saturating_add)
    }
}

/// What is left of a closed line when stretches of its edges are taken away: all of it, or open lines.
fn split<'a>(line: Contour, taken: impl Fn(usize) -> &'a [[Point; 2]], lines: &mut Vec<Contour>) {
    let cut = (0..line.points.len()).filter(|&edge| !taken(edge).is_empty()).count();
    if cut == 0 {
        lines.push(line);
        return;
    }
    // Pieces in the order of the walk; a piece that ends at a taken stretch ends its line.
    let mut open: Vec<Vec<(Vertex, Option<Point>)>> = Vec::from([Vec::new()]);
    for (number, &(vertex, centre)) in line.points.iter().enumerate() {
        let Some(edge) = line.edge(number) else { continue };
        let mut at = edge.from;
        for &[from, to] in taken(number) {
            if let Some(last) = open.last_mut() {
                if at != from {
                    last.push((Vertex { at, ..vertex }, None));
                }
                if !last.is_empty() {
                    last.push((Vertex { at: from, ..vertex }, None));
                }
            }
            open.push(Vec::new());
            at = to;
        }
        if let Some(last) = open.last_mut().filter(|_| at != edge.to) {
            last.push((Vertex { at, ..vertex }, centre));
        }
    }
    // The walk began somewhere in the middle of a piece: its end goes on with the first.
    let mut last = open.pop().unwrap_or_default();
    match open.first_mut() {
        Some(first) if !first.is_empty() => {
            last.append(first);
            *first = last;
        }
        _ => {
            if let (false, Some(&(start, _))) = (last.is_empty(), line.points.first()) {
                last.push((start, None));
            }
            open.push(last);
        }
    }
    let own = open.into_iter().filter(|points| points.len() > 1);
    lines.extend(own.map(|points| Contour { part: line.part, ..Contour::open(line.kind, points) }));
}

#[cfg(test)]
#[path = "lines_tests.rs"]
mod tests;

//! The lines that a cutter follows, each without a break.

use alloc::vec::Vec;

use super::moves::{Move, turns};
use crate::joint::Vertex;
use crate::kind::LineKind;
use crate::plane::{distance, twice_cross};
use crate::point::Point;

/// One line that the cutter follows without a break, in the sheet's coordinates: an outline, a hole, or an open line where shared cuts split
/// outlines.
///
/// Each point has the role of the edge that leaves it, and the centre of the arc that does so, if it is one: clockwise and at most half a circle,
/// as [`crate::Ring::bent`] gives them. The last point of an open line leaves nothing; that of a closed one leads back to the first.
///
/// ```
/// use dryfit_core::{Contour, LineKind, Nm, Point, Shape};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let plate = Shape::from_loops([[at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 40.0)?, at(0.0, 40.0)?]]);
/// let outline = Contour::closed(LineKind::CutOuter, plate.rings().next().unwrap().bent()).of_part(3);
/// assert_eq!((outline.length(), outline.corners(), outline.part), (200_000_000, 4, Some(3)));
/// let open = Contour::open(LineKind::CutOuter, outline.points);
/// assert_eq!((open.length(), open.corners()), (160_000_000, 2));
/// assert_eq!(open.ends(), Some((at(0.0, 0.0)?, at(0.0, 40.0)?)));
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Contour {
    /// What it is for.
    pub kind: LineKind,
    /// The number of the part that it belongs to, if it is one's alone.
    pub part: Option<usize>,
    /// Whether the last point leads back to the first.
    pub closed: bool,
    /// Whether it may be walked only as it is stored, whatever the route asks of its kind.
    pub one_way: bool,
    /// Its points, each with the centre of the arc that leaves it.
    pub points: Vec<(Vertex, Option<Point>)>,
}

/// Where the walk along a line begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Entry {
    /// At the point of this number. An open line begins at one of its ends all the same.
    Point(usize),
    /// In the middle of the edge that leaves the point of this number, rounded down to the nanometre; at the point where the edge is an arc.
    Middle(usize),
}

impl Contour {
    /// A line that ends where it began.
    pub fn closed(kind: LineKind, points: impl IntoIterator<Item = (Vertex, Option<Point>)>) -> Contour {
        Contour { kind, part: None, closed: true, one_way: false, points: points.into_iter().collect() }
    }

    /// A line with two ends.
    pub fn open(kind: LineKind, points: impl IntoIterator<Item = (Vertex, Option<Point>)>) -> Contour {
        Contour { closed: false, ..Contour::closed(kind, points) }
    }

    /// The same line as one of a part's own.
    #[must_use]
    pub fn of_part(self, number: usize) -> Contour {
        Contour { part: Some(number), ..self }
    }

    /// The first and the last point, which are one where the line is closed; none of a line without points.
    pub fn ends(&self) -> Option<(Point, Point)> {
        let (first, last) = (self.points.first()?.0.at, self.points.last()?.0.at);
        Some((first, if self.closed { first } else { last }))
    }

    /// How many edges it has.
    pub fn edge_count(&self) -> usize {
        if self.closed { self.points.len() } else { self.points.len().saturating_sub(1) }
    }

    /// The edge that leaves the point of this number; numbers go round.
    pub fn edge(&self, number: usize) -> Option<Move> {
        let count = self.points.len();
        let (from, centre) = self.points.get(number.checked_rem(count)?)?;
        let (to, _) = self.points.get((number + 1).checked_rem(count)?)?;
        Some(Move { from: from.at, to: to.at, centre: *centre, clockwise: true })
    }

    /// Its edges as they are stored: arcs clockwise.
    pub fn edges(&self) -> impl Iterator<Item = Move> + '_ {
        (0..self.edge_count()).filter_map(|number| self.edge(number))
    }

    /// The sum of all edges' lengths in nanometres, each rounded.
    pub fn length(&self) -> i64 {
        self.edges().map(|edge| edge.length()).fold(0, i64::saturating_add)
    }

    /// The straight way from its end back to its start in nanometres, rounded down; none where it is closed.
    pub fn way_back(&self) -> i64 {
        self.ends().map_or(0, |(first, last)| distance(first, last))
    }

    /// At how many points the way turns, by more than about a degree (1 in 57). Where a walk begins and ends counts on closed lines only.
    pub fn corners(&self) -> usize {
        turns(self.edges(), self.closed).filter(|[before, after]| before.turns_into(after)).count()
    }

    /// Twice the area that the chords enclose, in square nanometres: positive if it is stored counter-clockwise.
    pub fn twice_area(&self) -> i128 {
        self.edges().map(|edge| twice_cross(edge.from, edge.to)).sum()
    }

    /// Lowest and highest corner of the bounding rectangle, arcs and all; none of a line without points.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let single = self.points.first()?.0.at;
        Some(
            self.edges()
                .map(|edge| edge.bounds())
                .fold((single, single), |(a, b), (lo, hi)| (Point::new(a.x.min(lo.x), a.y.min(lo.y)), Point::new(b.x.max(hi.x), b.y.max(hi.y)))),
        )
    }

    /// Where a walk that begins so has its first point.
    pub fn entry_point(&self, entry: Entry) -> Option<Point> {
        match entry {
            Entry::Point(number) => self.points.get(number).map(|(vertex, _)| vertex.at),
            Entry::Middle(number) => self.edge(number).map(|edge| edge.middle().unwrap_or(edge.from)),
        }
    }

    /// Its moves in the order of the walk. A reversed walk runs against the stored direction, and arcs then are counter-clockwise; it begins at the
    /// last point of an open line, and at the same place of a closed one.
    ///
    /// ```
    /// use dryfit_core::{Contour, Entry, LineKind, Nm, Point, Shape};
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
    /// let plate = Shape::from_loops([[at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 40.0)?, at(0.0, 40.0)?]]);
    /// let outline = Contour::closed(LineKind::CutOuter, plate.rings().next().unwrap().bent());
    /// let ends: Vec<Point> = outline.walk(Entry::Middle(0), true).map(|edge| edge.to).collect();
    /// assert_eq!(ends, [at(0.0, 0.0)?, at(0.0, 40.0)?, at(60.0, 40.0)?, at(60.0, 0.0)?, at(30.0, 0.0)?]);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn walk(&self, entry: Entry, reversed: bool) -> impl Iterator<Item = Move> + '_ {
        let count = self.edge_count();
        let (first, halves) = match entry {
            _ if !self.closed => (0, None),
            Entry::Point(number) => (number, None),
            Entry::Middle(number) => (number, self.edge(number).and_then(|edge| edge.halves())),
        };
        // Of a halved edge the part beyond the middle comes first, and the part before it last.
        let (head, tail) = match halves {
            Some([before, beyond]) if reversed => (Some(before.reversed()), Some(beyond.reversed())),
            Some([before, beyond]) => (Some(beyond), Some(before)),
            None => (None, None),
        };
        let whole = count - usize::from(head.is_some()).min(count);
        let skip = usize::from(head.is_some() && !reversed);
        let middle = (0..whole).filter_map(move |step| match reversed {
            false => self.edge(first + skip + step),
            true => self.edge((first % count.max(1)) + count - 1 - step).map(Move::reversed),
        });
        head.into_iter().chain(middle).chain(tail)
    }
}

#[cfg(test)]
#[path = "contour_tests.rs"]
mod tests;

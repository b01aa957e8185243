//! How thin the solid of an outline gets, and whether its edges cross.
//!
//! A line sweeps over the outline once along each axis and keeps the edges that it crosses in order. Between a neighbouring pair
//! lies solid or void; two of one kind in a row mean that edges cross. n log n for n vertices, but for moving the crossed edges along.

use alloc::vec::Vec;

use crate::edges::{Edges, Event, Void};
use crate::point::Point;

/// A narrow place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Thin {
    /// Solid width in nanometres.
    pub width: i64,
    /// One end of it.
    pub at: Point,
}

/// The thinnest solid of a rectilinear shape, between parallel edges or two inner corners; or a point where edges cross.
pub(crate) fn thinnest(edges: &Edges) -> Result<Option<Thin>, Point> {
    let level = sweep(&edges.level).map_err(|(x, y)| Point::raw(x, y))?;
    let upright = sweep(&edges.upright).map_err(|(y, x)| Point::raw(x, y))?;
    let level = level.map(|(width, x, y)| Thin { width, at: Point::raw(x, y) });
    let upright = upright.map(|(width, y, x)| Thin { width, at: Point::raw(x, y) });
    let Some(mut thin) = level.into_iter().chain(upright).min_by_key(|thin| thin.width) else { return Ok(None) };
    diagonal(edges.level.iter(), 1, (Void::LowerLeft, Void::UpperRight), &mut thin);
    diagonal(edges.level.iter().rev(), -1, (Void::LowerRight, Void::UpperLeft), &mut thin);
    Ok(Some(thin))
}

/// That no edge crosses another or lies on it; or a point where one does.
///
/// Both sweeps are needed: along an edge, a sweep does not see another that lies on it.
pub(crate) fn uncrossed(edges: &Edges) -> Result<(), Point> {
    sweep(&edges.level).map_err(|(x, y)| Point::raw(x, y))?;
    sweep(&edges.upright).map_err(|(y, x)| Point::raw(x, y))?;
    Ok(())
}

fn same_place(a: &Event, b: &Event) -> bool {
    a.along == b.along
}

/// A solid width, and the way along and across to its lower end.
type Width = (i64, i64, i64);

/// An edge that the sweep line crosses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Crossed {
    /// Twice its place, and one more if the solid lies beyond it.
    key: i64,
}

impl Crossed {
    fn of(event: &Event) -> Crossed {
        Crossed { key: 2 * event.across + i64::from(event.sign < 0) }
    }

    fn place(self) -> i64 {
        self.key >> 1
    }

    fn floor(self) -> bool {
        self.key & 1 == 1
    }
}

/// Widths across one axis, or the way along and across to a place where edges cross.
fn sweep(events: &[Event]) -> Result<Option<Width>, (i64, i64)> {
    let mut active = Active::default();
    let mut best: Option<Width> = None;
    for batch in events.chunk_by(same_place) {
        active.pass(batch)?;
        for &Event { along, across: at, .. } in batch {
            let (below, here, above) = active.around(at);
            // The outermost edges bound the solid, also those that are outermost since this one has ended.
            let low = if below.is_none() { here.or(above) } else { None };
            let high = if above.is_none() { here.or(below) } else { None };
            if low.is_some_and(|edge| !edge.floor()) || high.is_some_and(Crossed::floor) {
                return Err((along, at));
            }
            let pairs = if here.is_some() { [(below, here), (here, above)] } else { [(below, above), (None, None)] };
            for pair in pairs {
                let (Some(low), Some(high)) = pair else { continue };
                let width = high.place() - low.place();
                match (low.floor(), high.floor()) {
                    (true, false) if best.is_none_or(|(least, ..)| width < least) => best = Some((width, along, low.place())),
                    (true, false) | (false, true) => {}
                    _ => return Err((along, at)),
                }
            }
        }
    }
    Ok(best)
}

/// The edges that the sweep line crosses, in order.
#[derive(Debug, Default)]
struct Active {
    edges: Vec<Crossed>,
    /// Room for a large batch.
    ended: Vec<i64>,
    begun: Vec<Crossed>,
    merged: Vec<Crossed>,
}

impl Active {
    /// So many events are worked in together.
    const LARGE: usize = 16;

    /// Takes out the edges that end, then takes in those that start; no two may be in one place.
    fn pass(&mut self, batch: &[Event]) -> Result<(), (i64, i64)> {
        if batch.len() > Active::LARGE {
            return self.pass_many(batch);
        }
        for event in batch {
            let index = self.index(event.across);
            let there = self.edges.get(index).is_some_and(|edge| edge.place() == event.across);
            match (event.start, there) {
                (false, true) => {
                    self.edges.remove(index);
                }
                (false, false) => {}
                (true, false) => self.edges.insert(index, Crossed::of(event)),
                (true, true) => return Err((event.along, event.across)),
            }
        }
        Ok(())
    }

    /// The same for a large batch, in one pass over all.
    fn pass_many(&mut self, batch: &[Event]) -> Result<(), (i64, i64)> {
        let (ends, starts) = batch.split_at(batch.partition_point(|event| !event.start));
        self.ended.clear();
        self.ended.extend(ends.iter().map(|event| event.across));
        self.ended.sort_unstable();
        self.begun.clear();
        self.begun.extend(starts.iter().map(Crossed::of));
        self.begun.sort_unstable();
        self.merged.clear();
        let (mut ended, mut begun) = (self.ended.iter().peekable(), self.begun.iter().peekable());
        for &edge in &self.edges {
            while ended.next_if(|&&across| across < edge.place()).is_some() {}
            if ended.next_if(|&&across| across == edge.place()).is_none() {
                while let Some(&new) = begun.next_if(|new| **new < edge) {
                    self.merged.push(new);
                }
                self.merged.push(edge);
            }
        }
        self.merged.extend(begun);
        core::mem::swap(&mut self.edges, &mut self.merged);
        match (self.edges.windows(2).find(|pair| matches!(pair, [a, b] if a.place() >= b.place())), batch) {
            (Some([edge, ..]), [event, ..]) => Err((event.along, edge.place())),
            _ => Ok(()),
        }
    }

    /// How many edges lie below a place.
    fn index(&self, at: i64) -> usize {
        self.edges.partition_point(|edge| edge.key < 2 * at)
    }

    /// The edge below a place, the one there, the one above.
    fn around(&self, at: i64) -> (Option<Crossed>, Option<Crossed>, Option<Crossed>) {
        let index = self.index(at);
        let here = self.edges.get(index).copied().filter(|edge| edge.place() == at);
        let below = index.checked_sub(1).and_then(|i| self.edges.get(i)).copied();
        let above = self.edges.get(index + usize::from(here.is_some())).copied();
        (below, here, above)
    }
}

/// Solid between two inner corners that face each other diagonally, nearer than `thin`; right above or beside each other too, and none
/// between where they meet in a point. The corners come in the order of x times `mirror`; of a facing pair, the void of `first` comes
/// first and lower.
fn diagonal<'a>(corners: impl Iterator<Item = &'a Event> + Clone, mirror: i64, (first, second): (Void, Void), thin: &mut Thin) {
    let of = |void: Void| corners.clone().filter(move |event| event.void == void).map(move |event| (event.along * mirror, event.across));
    // Those of the first kind, by height. One that is out of reach does no harm; it goes once the sweep has passed a reach further.
    let mut window: Vec<(i64, i64)> = Vec::new();
    let mut cleared = i64::MIN;
    let mut coming = of(first).peekable();
    for (x, y) in of(second) {
        if cleared < x - thin.width {
            window.retain(|&(_, other_x)| other_x >= x - thin.width);
            cleared = x;
        }
        let before = window.len();
        window.extend(core::iter::from_fn(|| coming.next_if(|other| other.0 <= x)).map(|(other_x, other_y)| (other_y, other_x)));
        if window.len() > before {
            // In order but for the new ones: that takes no longer than to go over them.
            window.sort();
        }
        let reach = window.partition_point(|other| other.0 < y - thin.width);
        for &(other_y, other_x) in window.iter().skip(reach).take_while(|other| **other <= (y, x)) {
            let (dx, dy) = (i128::from(x - other_x), i128::from(y - other_y));
            let width = (dx * dx + dy * dy).isqrt() as i64;
            if width < thin.width {
                *thin = Thin { width, at: Point::raw(x * mirror, y) };
            }
        }
    }
}

#[cfg(test)]
#[path = "sweep_tests.rs"]
mod tests;

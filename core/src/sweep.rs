//! How thin the solid of an outline gets, and whether its edges cross.
//!
//! A line sweeps over the outline once along each axis and keeps the edges that it crosses in order. Between a neighbouring pair
//! lies solid or void; two of one kind in a row mean that edges cross. n log n for n vertices.

use alloc::collections::BTreeMap;
use alloc::vec::Vec;

use crate::point::Point;
use crate::shape::Shape;

/// A narrow place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Thin {
    /// Solid width in nanometres.
    pub width: i64,
    /// One end of it.
    pub at: Point,
}

/// The end of an edge as the sweep line meets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Event {
    along: i64,
    /// Ends before starts.
    start: bool,
    across: i64,
    /// Solid lies beyond the edge, seen across the sweep.
    floor: bool,
}

/// The thinnest solid of a rectilinear shape, between parallel edges or two inner corners; or a point where edges cross.
pub(crate) fn thinnest(shape: &Shape) -> Result<Option<Thin>, Point> {
    let level = sweep(shape, |p| (p.x.nm(), p.y.nm()), true).map_err(|(x, y)| Point::raw(x, y))?;
    let upright = sweep(shape, |p| (p.y.nm(), p.x.nm()), false).map_err(|(y, x)| Point::raw(x, y))?;
    let mut thin = match (level, upright) {
        (Some((w, x, y)), Some((v, ..))) if w <= v => Some(Thin { width: w, at: Point::raw(x, y) }),
        (_, Some((w, y, x))) => Some(Thin { width: w, at: Point::raw(x, y) }),
        (Some((w, x, y)), None) => Some(Thin { width: w, at: Point::raw(x, y) }),
        (None, None) => None,
    };
    for mirror in [1, -1] {
        diagonal(shape, mirror, &mut thin);
    }
    Ok(thin)
}

type Width = (i64, i64, i64);

/// Widths across one axis. `view` gives a point's way along and across; `rightward_floor` says which travel has the solid beyond.
fn sweep(shape: &Shape, view: impl Fn(Point) -> (i64, i64), rightward_floor: bool) -> Result<Option<Width>, (i64, i64)> {
    let mut events = Vec::with_capacity(shape.vertices().len() + 2);
    for (a, b) in shape.edges() {
        let ((from, across), (to, other)) = (view(a), view(b));
        if across == other && from != to {
            let floor = (from < to) == rightward_floor;
            events.push(Event { along: from.min(to), start: true, across, floor });
            events.push(Event { along: from.max(to), start: false, across, floor });
        }
    }
    events.sort_unstable();
    let mut active: BTreeMap<i64, bool> = BTreeMap::new();
    let mut best: Option<Width> = None;
    for batch in events.chunk_by(|a, b| a.along == b.along) {
        for event in batch {
            if !event.start {
                active.remove(&event.across);
            } else if active.insert(event.across, event.floor).is_some() {
                return Err((event.along, event.across));
            }
        }
        for event in batch {
            let at = event.across;
            let below = active.range(..at).next_back();
            let here = active.get_key_value(&at);
            let above = active.range(at + 1..).next();
            let pairs = if here.is_some() { [(below, here), (here, above)] } else { [(below, above), (None, None)] };
            for pair in pairs {
                let (Some((low, low_floor)), Some((high, high_floor))) = pair else { continue };
                match (low_floor, high_floor) {
                    (true, false) if best.is_none_or(|(width, ..)| high - low < width) => best = Some((high - low, event.along, *low)),
                    (true, false) | (false, true) => {}
                    _ => return Err((event.along, at)),
                }
            }
            // The outermost edges bound the solid.
            let outside = (here.is_some() && below.is_none() && here.is_some_and(|(_, floor)| !floor))
                || (here.is_some_and(|(_, floor)| *floor) && above.is_none());
            if outside {
                return Err((event.along, at));
            }
        }
    }
    Ok(best)
}

/// Solid between two inner corners that face each other diagonally, nearer than `thin`; right above or beside each other too, and none
/// between where they meet in a point. Corners open towards lower left and upper right; `mirror` -1 looks at the other diagonal.
fn diagonal(shape: &Shape, mirror: i64, thin: &mut Option<Thin>) {
    let Some(mut best) = *thin else { return };
    // (x, y, opens to the upper right)
    let mut corners: Vec<(i64, i64, bool)> = Vec::new();
    for ring in shape.loops() {
        let before = ring.iter().skip(ring.len().saturating_sub(1)).chain(ring.iter());
        let after = ring.iter().skip(1).chain(ring.first());
        for ((a, b), c) in before.zip(ring).zip(after) {
            let step = |p: Point, q: Point| ((q.x - p.x).nm().signum(), (q.y - p.y).nm().signum());
            let ((ax, ay), (bx, by)) = (step(a.at, b.at), step(b.at, c.at));
            if ax * by - ay * bx < 0 {
                // The void lies to the right of both edges.
                let (open_x, open_y) = ((ay + by) * mirror, -(ax + bx));
                if open_x == open_y {
                    corners.push((b.at.x.nm() * mirror, b.at.y.nm(), open_x > 0));
                }
            }
        }
    }
    corners.sort_unstable();
    let mut window: BTreeMap<(i64, i64), ()> = BTreeMap::new();
    let mut oldest = 0;
    for &(x, y, upper_right) in &corners {
        while let Some(&(old_x, old_y, _)) = corners.get(oldest)
            && old_x < x - best.width
        {
            window.remove(&(old_y, old_x));
            oldest += 1;
        }
        if !upper_right {
            window.insert((y, x), ());
            continue;
        }
        let mut nearest = None;
        for &(other_y, other_x) in window.range((y - best.width, i64::MIN)..=(y, x)).map(|(key, ())| key) {
            let (dx, dy) = (x - other_x, y - other_y);
            let width = (i128::from(dx) * i128::from(dx) + i128::from(dy) * i128::from(dy)).isqrt() as i64;
            if width < best.width && nearest.is_none_or(|n: Thin| width < n.width) {
                nearest = Some(Thin { width, at: Point::raw(x * mirror, y) });
            }
        }
        best = nearest.unwrap_or(best);
    }
    *thin = Some(best);
}

#[cfg(test)]
#[path = "sweep_tests.rs"]
mod tests;

//! The order in which the lines of a sheet are cut, and where each begins.

mod change;
mod grid;
mod nesting;
mod seats;
mod tour;

use alloc::vec::Vec;

use self::nesting::ranks;
use self::seats::Seats;
use self::tour::{Stop, Tour};
use super::contour::{Contour, Entry};
use crate::kind::LineKind;
use crate::plane::distance;
use crate::point::Point;

/// Where closed lines begin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Start {
    /// At a corner, whichever makes the way shortest; lines without corners at any of their points.
    #[default]
    Corner,
    /// In the middle of the longest straight edge that is no flank, so that the mark of the start stays out of the joints.
    Middle,
}

/// Which way round closed lines are walked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Turning {
    /// As they are stored: outlines counter-clockwise, holes clockwise, so that the part lies to the left.
    #[default]
    Stored,
    /// Counter-clockwise, seen with y upwards.
    CounterClockwise,
    /// Clockwise.
    Clockwise,
}

/// What is asked of a [`Route`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct RouteSpec {
    /// Where closed lines begin.
    pub start: Start,
    /// Which way round outlines are walked.
    pub outer: Turning,
    /// Which way round holes are walked.
    pub inner: Turning,
    /// Where the tool stands at first: the sheet's lower left corner unless told otherwise.
    pub from: Point,
    /// Whether it returns there.
    pub home: bool,
}

/// One line of a route: which, where its walk begins, and whether it runs against the stored direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Cut {
    /// The line's number in the list that the route was made of.
    pub contour: usize,
    /// Where the walk begins; see [`Contour::walk`].
    pub entry: Entry,
    /// Whether it is walked against the stored direction.
    pub reversed: bool,
}

/// The order in which the lines of one sheet are cut.
///
/// Marks come first and trims last. What lies inside a line is cut before it; within that, holes first, then shared cuts, then outlines, so that
/// parts come free as late as can be: all outlines after all holes, but for parts in another part's hole, which come before that hole.
/// Where the order is free, the way between the lines is made short: always on to the nearest line, then stretches are turned round (2-opt) and short
/// ones moved elsewhere (Or-opt) for as long as that gains, and each line begins where the way is shortest. The same lines give the same route everywhere.
///
/// ```
/// use dryfit_core::{Contour, LineKind, Nm, Point, Route, RouteSpec, Shape};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let plate = [at(10.0, 10.0)?, at(70.0, 10.0)?, at(70.0, 50.0)?, at(10.0, 50.0)?];
/// let slot = [at(20.0, 20.0)?, at(20.0, 23.0)?, at(40.0, 23.0)?, at(40.0, 20.0)?];
/// let shape = Shape::from_loops([plate, slot]);
/// let line = |kind, loop_: usize| Contour::closed(kind, shape.rings().nth(loop_).unwrap().bent());
/// let contours = [line(LineKind::CutOuter, 0), line(LineKind::CutInner, 1)];
/// let route = Route::new(&contours, &RouteSpec::default());
/// assert_eq!(route.cuts().iter().map(|cut| cut.contour).collect::<Vec<_>>(), [1, 0]);
/// // From the sheet's corner to the slot's, and on to the plate's, both along the diagonal.
/// assert_eq!(route.travel(), 28_284_271 + 14_142_135);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Route {
    cuts: Vec<Cut>,
    legs: Vec<i64>,
}

impl Route {
    /// The route through these lines. Lines without points have no place and are left out.
    pub fn new(contours: &[Contour], spec: &RouteSpec) -> Route {
        let ranks = ranks(contours);
        let mut order: Vec<usize> = (0..contours.len()).filter(|&number| contours.get(number).is_some_and(|line| !line.points.is_empty())).collect();
        order.sort_by_key(|&number| ranks.get(number));
        let seats = Seats::new(contours, spec.start);
        let mut tour = Tour::new(spec.from, contours.len());
        for phase in order.chunk_by(|&a, &b| ranks.get(a) == ranks.get(b)) {
            tour.nearest(phase, &seats);
        }
        if spec.home {
            tour.end(spec.from);
        }
        let lengths: Vec<usize> = order.chunk_by(|&a, &b| ranks.get(a) == ranks.get(b)).map(<[usize]>::len).collect();
        tour.shorten(&lengths, &seats);
        let cut = |stop: &Stop| {
            let line = contours.get(stop.contour)?;
            Some(Cut { contour: stop.contour, entry: seats.entry(stop.seat)?, reversed: if line.closed { against(line, spec) } else { stop.turned } })
        };
        let cuts: Vec<Cut> = tour.lines().filter_map(cut).collect();
        let legs = legs(contours, &cuts, spec);
        Route { cuts, legs }
    }

    /// The cuts in their order.
    pub fn cuts(&self) -> &[Cut] {
        &self.cuts
    }

    /// The ways with the tool up in nanometres, each rounded down: to each cut, and back at the end if that was asked for.
    pub fn legs(&self) -> &[i64] {
        &self.legs
    }

    /// The sum of the ways with the tool up, in nanometres.
    pub fn travel(&self) -> i64 {
        self.legs.iter().copied().fold(0, i64::saturating_add)
    }
}

/// Whether the spec wants this closed line walked against its stored direction.
fn against(line: &Contour, spec: &RouteSpec) -> bool {
    let turning = match line.kind {
        LineKind::CutOuter => spec.outer,
        LineKind::CutInner => spec.inner,
        _ => Turning::Stored,
    };
    let area = line.twice_area();
    match turning {
        Turning::CounterClockwise if !line.one_way => area < 0,
        Turning::Clockwise if !line.one_way => area > 0,
        _ => false,
    }
}

/// The ways between the cuts.
fn legs(contours: &[Contour], cuts: &[Cut], spec: &RouteSpec) -> Vec<i64> {
    let mut at = spec.from;
    let leg = |cut: &Cut| {
        let line = contours.get(cut.contour)?;
        let (first, last) = if line.closed { line.entry_point(cut.entry).map(|point| (point, point))? } else { line.ends()? };
        let (enter, leave) = if cut.reversed { (last, first) } else { (first, last) };
        Some(distance(core::mem::replace(&mut at, leave), enter))
    };
    let mut legs: Vec<i64> = cuts.iter().filter_map(leg).collect();
    if spec.home {
        legs.push(distance(at, spec.from));
    }
    legs
}

#[cfg(test)]
#[path = "../route_tests.rs"]
mod tests;

//! A trailing blade: the axis is led so that the tip, which lags behind it, follows the line.

use core::f64::consts::PI;

use super::moves::Move;
use crate::bounds::{MM, OVERCUT, SWIVEL_ABOVE, TRAIL, within};
use crate::error::Error;
use crate::length::Nm;
use crate::point::Point;

/// What is known of a trailing blade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct KnifeSpec {
    /// How far the tip lags behind the axis: 0 to 20 mm.
    pub trail: Nm,
    /// At corners that turn by more than this, in millionths of a degree (0 to 90 degrees), the blade is turned about its tip.
    pub swivel_above: i64,
    /// How far the tip goes on beyond the point where a closed line began, so that the last fibre parts: 0 to 20 mm.
    pub overcut: Nm,
}

impl KnifeSpec {
    /// A blade of this trail that is turned where a line turns by more than 10 degrees, and overcuts by 0.5 mm. (Common practice, no source.)
    pub const fn new(trail: Nm) -> KnifeSpec {
        KnifeSpec { trail, swivel_above: 10 * MM, overcut: Nm::raw(MM / 2) }
    }
}

/// A blade whose tip trails its axis.
///
/// A tip that is to follow a line `C(s)` with the direction `T(s)` has its axis at `C(s) + trail T(s)`. So the axis runs beyond each corner by the
/// trail and then turns about the corner on an arc, while the tip stays; and where the line is an arc of radius r, the axis follows one about the same
/// centre with the radius `sqrt(r² + trail²)`. (The tip is the rear wheel of a bicycle, the axis the front wheel: Dunbar, Bosman, Nooij,
/// "The Track of a Bicycle Back Tire".)
///
/// ```text
///            ___ axis turns about the corner
///     ------C---+)
///     tip   |   /
///           | <'
///           |  ^
///           v   axis: trail ahead of the tip
/// ```
///
/// ```
/// use dryfit_core::{Knife, KnifeSpec, Move, Nm, Point};
/// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let corners = [at(0.0, 0.0)?, at(10.0, 0.0)?, at(10.0, 10.0)?];
/// let moves = corners.windows(2).map(|ends| Move { from: ends[0], to: ends[1], centre: None, clockwise: false });
/// let knife = Knife::new(KnifeSpec::new(Nm::from_mm(0.25)?))?;
/// let ends: Vec<Point> = knife.follow(moves, false, None).map(|axis| axis.way.to).collect();
/// assert_eq!(ends, [at(10.25, 0.0)?, at(10.0, 0.25)?, at(10.0, 10.25)?]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knife {
    spec: KnifeSpec,
    pub(super) trail: f64,
    /// The cosine of the largest turn that is taken in passing.
    pub(super) passing: f64,
}

/// One move of the axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct AxisMove {
    /// The way.
    pub way: Move,
    /// Whether the blade is turned about its tip, which stays where it is.
    pub swivel: bool,
}

/// A direction of length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Heading {
    pub x: f64,
    pub y: f64,
}

impl Heading {
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn of(x: i64, y: i64) -> Heading {
        let (x, y) = (x as f64, y as f64);
        let length = libm::sqrt(x * x + y * y);
        Heading { x: x / length, y: y / length }
    }

    /// The cosine of the turn into another direction.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn cosine(self, to: Heading) -> f64 {
        self.x * to.x + self.y * to.y
    }

    /// Its sine: positive to the left.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn sine(self, to: Heading) -> f64 {
        self.x * to.y - self.y * to.x
    }

    /// The direction of a move at one of its ends.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    pub fn at(way: &Move, end: Point) -> Heading {
        let Some(centre) = way.centre else { return Heading::of((way.to.x - way.from.x).nm(), (way.to.y - way.from.y).nm()) };
        let (x, y) = ((end.x - centre.x).nm(), (end.y - centre.y).nm());
        if way.clockwise { Heading::of(y, -x) } else { Heading::of(-y, x) }
    }
}

impl Knife {
    /// A blade by its numbers.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] with the parameter's name.
    pub fn new(spec: KnifeSpec) -> Result<Knife, Error> {
        within!(TRAIL, spec.trail.nm());
        within!(OVERCUT, spec.overcut.nm());
        let degrees = within!(SWIVEL_ABOVE, spec.swivel_above) as f64 / MM as f64;
        Ok(Knife { spec, trail: spec.trail.nm() as f64, passing: libm::cos(degrees * PI / 180.0) })
    }

    /// Its numbers.
    pub const fn spec(&self) -> KnifeSpec {
        self.spec
    }

    /// The moves of the axis that lead the tip along a line. Each begins where the last one ended; moves of the line without length are passed over.
    ///
    /// `offset` is where the axis stands beside the tip at the start, as [`Follow::offset`] told at the end of the line before: the blade is turned from there
    /// into the first direction. Without it, it points there already. A later turn that is not above [`KnifeSpec::swivel_above`] is a straight move between the
    /// same two points. At the end of a closed line the blade is turned into the first direction again, and goes on for the overcut; without an
    /// overcut it stops there as it came.
    pub fn follow<I: Iterator<Item = Move> + Clone>(&self, moves: I, closed: bool, offset: Option<Point>) -> Follow<I> {
        let left = closed.then_some(self.spec.overcut.nm());
        let led = Led { knife: *self, next: None, blade: None, start: None, set: true, left, over: None };
        let mut follow = Follow { line: Twice { first: moves.clone(), moves }, led };
        follow.led.begin(&mut follow.line, offset);
        follow
    }

    /// The blade as it points in a direction.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn blade(&self, heading: Heading) -> Blade {
        // To the nearest whole number, halves away from zero, as libm::round does, in a third of the time.
        let whole = |value: f64| (value + libm::copysign(0.5 - f64::EPSILON / 4.0, value)) as i64;
        let along = |way: f64| whole(self.trail * way);
        Blade { heading, offset: (along(heading.x), along(heading.y)) }
    }
}

/// How a blade points, and where its axis is beside the tip.
#[derive(Clone, Copy, Debug)]
struct Blade {
    heading: Heading,
    offset: (i64, i64),
}

impl Blade {
    /// Where the axis is while the tip is at a point.
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn axis(&self, tip: Point) -> Point {
        Point::raw(tip.x.nm() + self.offset.0, tip.y.nm() + self.offset.1)
    }
}

/// The moves of a blade's axis along a line; see [`Knife::follow`].
#[derive(Clone, Debug)]
pub struct Follow<I> {
    line: Twice<I>,
    led: Led,
}

/// A line that is gone along, and from its start again for the overcut.
trait Line {
    /// Its next move that has a length.
    fn next(&mut self) -> Option<Move>;
    fn again(&mut self);
}

/// Moves, and all of them once more.
#[derive(Clone, Debug)]
struct Twice<I> {
    first: I,
    moves: I,
}

impl<I: Iterator<Item = Move> + Clone> Line for Twice<I> {
    #[inline]
    fn next(&mut self) -> Option<Move> {
        self.moves.find(|way| way.from != way.to)
    }

    fn again(&mut self) {
        self.moves = self.first.clone();
    }
}

/// A blade on its way, along any line, so that a machine of 32 bits holds the code of it once.
#[derive(Clone, Copy, Debug)]
struct Led {
    knife: Knife,
    /// What the tip does after the turn that was handed out last, and how the blade points then.
    next: Option<(Move, Blade)>,
    /// How the blade points.
    blade: Option<Blade>,
    start: Option<Point>,
    /// Whether the blade has just been set down, and is turned into the first direction whatever the turn.
    set: bool,
    /// How far to go on when a closed line has ended; none before there is an end and after that is done.
    left: Option<i64>,
    /// How much of the overcut is left, once it has begun.
    over: Option<i64>,
}

impl<I: Iterator<Item = Move> + Clone> Follow<I> {
    /// Where the axis stands when the blade is set down at the start of the line; none of a line without length.
    pub const fn start(&self) -> Option<Point> {
        self.led.start
    }

    /// Where the axis stands beside the tip after what was walked so far.
    pub fn offset(&self) -> Option<Point> {
        Some(self.led.blade?.axis(Point::default()))
    }
}

impl<I: Iterator<Item = Move> + Clone> Iterator for Follow<I> {
    type Item = AxisMove;

    #[inline]
    fn next(&mut self) -> Option<AxisMove> {
        self.led.step(&mut self.line)
    }
}

impl Led {
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn begin(&mut self, line: &mut dyn Line, offset: Option<Point>) {
        self.next = self.fetch(line);
        if let Some((first, leaving)) = self.next {
            let blade = match offset.filter(|offset| *offset != Point::default()) {
                Some(offset) => self.knife.blade(Heading::of(offset.x.nm(), offset.y.nm())),
                None => leaving,
            };
            self.blade = Some(blade);
            self.start = Some(blade.axis(first.from));
        }
    }

    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn step(&mut self, line: &mut dyn Line) -> Option<AxisMove> {
        loop {
            let (way, leaving) = match self.next.take() {
                Some(next) => next,
                None => self.fetch(line)?,
            };
            let blade = self.blade?;
            let axis = self.go(way, leaving, blade);
            // An overcut may end within what is rounded.
            if axis.way.from != axis.way.to {
                return Some(axis);
            }
        }
    }

    /// What the tip does next.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn fetch(&mut self, line: &mut dyn Line) -> Option<(Move, Blade)> {
        if self.over.is_none()
            && let Some(way) = line.next()
        {
            return Some((way, self.knife.blade(Heading::at(&way, way.from))));
        }
        self.overcut(line)
    }

    /// The end of the line: of a closed one the start is gone over once more. Part of an edge has the direction of all of it.
    #[cold]
    fn overcut(&mut self, line: &mut dyn Line) -> Option<(Move, Blade)> {
        if let Some(left) = self.left.take() {
            self.over = Some(left);
            line.again();
        }
        let left = self.over.filter(|left| *left > 0)?;
        let way = line.next()?;
        let [part, rest] = way.split(left);
        self.over = Some(if rest.from == rest.to { left - part.length() } else { 0 });
        (part.from != part.to).then(|| (part, self.knife.blade(Heading::at(&way, way.from))))
    }

    /// Turns the blade to where it has to point, or goes along a move if it does so already.
    #[cfg_attr(target_pointer_width = "64", inline)]
    #[cfg_attr(target_pointer_width = "32", inline(never))]
    fn go(&mut self, way: Move, leaving: Blade, blade: Blade) -> AxisMove {
        let from = leaving.axis(way.from);
        if leaving.heading != blade.heading {
            self.blade = Some(leaving);
            let before = blade.axis(way.from);
            if before != from {
                let swivel = self.set || blade.heading.cosine(leaving.heading) < self.knife.passing;
                let clockwise = blade.heading.sine(leaving.heading) < 0.0;
                self.next = Some((way, leaving));
                let way = Move { from: before, to: from, centre: swivel.then_some(way.from), clockwise };
                return AxisMove { way, swivel };
            }
        }
        self.set = false;
        let arriving = if way.centre.is_some() { self.knife.blade(Heading::at(&way, way.to)) } else { leaving };
        self.blade = Some(arriving);
        AxisMove { way: Move { from, to: arriving.axis(way.to), ..way }, swivel: false }
    }
}

#[cfg(test)]
#[path = "knife_tests.rs"]
mod tests;

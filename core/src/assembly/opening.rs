//! Openings: holes that a board is meant to have.

use alloc::vec::Vec;

use crate::bounds::{HOLES, LENGTH, SIZE};
use crate::error::Error;
use crate::joint::{Role, Vertex};
use crate::length::Nm;
use crate::point::Point;
use crate::round::half;
use crate::shape::Shape;

/// A hole in a board, in panel coordinates: from the slab's lowest corner, x right and y up on the face that is seen.
///
/// It is no void to the dry fit, which asks instead that it is there. It has to lie on the board's own solid.
///
/// ```text
///    ╭──╮      ╭─────────╮     ┌─────┐
///    ╰──╯      ╰─────────╯     └─────┘
///    round       stadium      rectangle
/// ```
///
/// ```
/// use dryfit_core::{Assembly, Axis, Nm, Opening, Point, dry_fit};
/// let mm = |v| Nm::from_mm(v);
/// let mut shelf = Assembly::new();
/// shelf.add("shelf", Axis::Z, [Nm::ZERO; 3], [mm(250.0)?, mm(200.0)?], mm(6.0)?)?;
/// shelf.open("shelf", Opening::stadium(Point::new(mm(125.0)?, mm(170.0)?), [mm(90.0)?, mm(30.0)?])?)?;
/// let panels = shelf.panels()?;
/// assert!((panels[0].shape().area_mm2() - (250.0 * 200.0 - 60.0 * 30.0 - 15.0 * 15.0 * core::f64::consts::PI)).abs() < 1e-6);
/// assert!(dry_fit(&panels).ok());
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Opening {
    form: Form,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Form {
    /// Lowest and highest corner, and whether its shorter sides are half circles.
    Hole {
        lo: Point,
        hi: Point,
        round: bool,
    },
    Cross(Cross),
}

/// A slot for a screw from an edge inwards, and a pocket for its nut across it. Along the run and by the depth behind the mouth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) struct Cross {
    /// The shaft's two sides, along the run.
    pub shaft: (i64, i64),
    /// The pocket's, along the run and by its depth.
    pub pocket: (i64, i64),
    pub depth: (i64, i64),
    /// How deep the shaft is.
    pub end: i64,
    /// The place of the mouth across the run.
    pub mouth: i64,
    /// The run goes along y.
    pub upright: bool,
    /// The depth grows with the coordinate.
    pub inwards: bool,
}

impl Opening {
    /// A round hole.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the centre or the diameter, 0.001 mm to 10 m.
    pub fn round(centre: Point, diameter: Nm) -> Result<Opening, Error> {
        Opening::hole(centre, [SIZE.named("diameter").check(diameter.nm())?; 2], true)
    }

    /// A slot with round ends, for a cable or a hand: its whole width and height. Where both are equal it is a round hole.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for the centre or a size, 0.001 mm to 10 m.
    pub fn stadium(centre: Point, [width, height]: [Nm; 2]) -> Result<Opening, Error> {
        Opening::hole(centre, [SIZE.check(width.nm())?, SIZE.check(height.nm())?], true)
    }

    /// A rectangle: its whole width and height.
    ///
    /// # Errors
    /// As [`Opening::stadium`].
    pub fn rectangle(centre: Point, [width, height]: [Nm; 2]) -> Result<Opening, Error> {
        Opening::hole(centre, [SIZE.check(width.nm())?, SIZE.check(height.nm())?], false)
    }

    fn hole(centre: Point, [width, height]: [i64; 2], round: bool) -> Result<Opening, Error> {
        let (x, y) = (LENGTH.named("at").check(centre.x.nm())?, LENGTH.named("at").check(centre.y.nm())?);
        let lo = Point::raw(x - half(width), y - half(height));
        let hi = Point::raw(lo.x.nm() + width, lo.y.nm() + height);
        Ok(Opening { form: Form::Hole { lo, hi, round } })
    }

    pub(super) const fn cross(cross: Cross) -> Opening {
        Opening { form: Form::Cross(cross) }
    }

    /// A pattern of this hole: so many to the right and upwards, so far from centre to centre, itself the lowest on the left.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] for a count (1 to 1000) or a spacing.
    pub fn grid(self, count: [u32; 2], spacing: [Nm; 2]) -> Result<Vec<Opening>, Error> {
        let [columns, rows] = count;
        let [dx, dy] = spacing;
        for number in count {
            HOLES.check(i64::from(number))?;
        }
        for way in spacing {
            LENGTH.named("spacing").check(way.nm())?;
        }
        let places = (0..i64::from(rows)).flat_map(|row| (0..i64::from(columns)).map(move |column| (column, row)));
        Ok(places.map(|(column, row)| self.moved(column * dx.nm(), row * dy.nm())).collect())
    }

    fn moved(self, dx: i64, dy: i64) -> Opening {
        let by = |p: Point| Point::raw(p.x.nm() + dx, p.y.nm() + dy);
        match self.form {
            Form::Hole { lo, hi, round } => Opening { form: Form::Hole { lo: by(lo), hi: by(hi), round } },
            Form::Cross(_) => self,
        }
    }

    /// The outline of one that is closed all around; nothing for one that opens into an edge.
    pub(crate) fn closed(&self) -> Option<Shape> {
        let Form::Hole { lo, hi, round } = self.form else { return None };
        let ((x0, y0), (x1, y1)) = ((lo.x.nm(), lo.y.nm()), (hi.x.nm(), hi.y.nm()));
        let (width, height) = (x1 - x0, y1 - y0);
        let radius = half(width.min(height));
        let (left, right) = if width > height { (x0 + radius, x1 - radius) } else { (x0, x1) };
        let (low, high) = if height > width { (y0 + radius, y1 - radius) } else { (y0, y1) };
        let corners = |[a, b, c, d]: [Option<Point>; 4], (left, low, right, high): (i64, i64, i64, i64)| {
            // Clockwise, as holes run.
            [(left, low, a), (left, high, b), (right, high, c), (right, low, d)].map(|(x, y, centre)| (Point::raw(x, y), centre))
        };
        let middle = Point::raw(x0 + half(width), y0 + half(height));
        let ring = if !round {
            corners([None; 4], (x0, y0, x1, y1))
        } else if width > height {
            let centre = |x| Some(Point::raw(x, middle.y.nm()));
            corners([centre(left), None, centre(right), None], (left, y0, right, y1))
        } else if height > width {
            let centre = |y| Some(Point::raw(middle.x.nm(), y));
            corners([None, centre(high), None, centre(low)], (x0, low, x1, high))
        } else {
            let reach = libm::round(width as f64 * core::f64::consts::FRAC_1_SQRT_2 / 2.0) as i64;
            let (x, y) = (middle.x.nm(), middle.y.nm());
            corners([Some(middle); 4], (x - reach, y - reach, x + reach, y + reach))
        };
        let mut shape = Shape::default();
        shape.push_bent(ring.map(|(at, centre)| (Vertex { at, role: Role::Free }, centre)));
        Some(shape)
    }

    /// Of one that opens into an edge: its mouth's two ends on the edge in travel order, and the corners between them.
    pub(crate) fn open(&self) -> Option<([Point; 2], [Point; 10])> {
        let Form::Cross(cross) = self.form else { return None };
        let ((s0, s1), (n0, n1), (d0, d1), e) = (cross.shaft, cross.pocket, cross.depth, cross.end);
        let (mut mouth, mut inner) =
            ([(s0, 0), (s1, 0)], [(s0, d0), (n0, d0), (n0, d1), (s0, d1), (s0, e), (s1, e), (s1, d1), (n1, d1), (n1, d0), (s1, d0)]);
        // The board lies to the left of travel.
        if cross.upright == cross.inwards {
            mouth.reverse();
            inner.reverse();
        }
        Some((mouth.map(|(along, depth)| cross.point(along, depth)), inner.map(|(along, depth)| cross.point(along, depth))))
    }

    /// The rectangles that it takes, lowest and highest corner each.
    pub(super) fn rectangles(&self) -> Vec<(Point, Point)> {
        let cross = match self.form {
            Form::Hole { lo, hi, .. } => return alloc::vec![(lo, hi)],
            Form::Cross(cross) => cross,
        };
        let both = |(a, b): (i64, i64), (from, to)| {
            let (p, q) = (cross.point(a, from), cross.point(b, to));
            (Point::new(p.x.min(q.x), p.y.min(q.y)), Point::new(p.x.max(q.x), p.y.max(q.y)))
        };
        alloc::vec![both(cross.shaft, (1, cross.end)), both(cross.pocket, cross.depth)]
    }

    /// Its narrowest width.
    pub(crate) fn narrowest(&self) -> i64 {
        match self.form {
            Form::Hole { lo, hi, .. } => (hi.x - lo.x).nm().min((hi.y - lo.y).nm()),
            Form::Cross(cross) => (cross.shaft.1 - cross.shaft.0).min(cross.depth.1 - cross.depth.0),
        }
    }

    /// A point of it, for messages.
    pub(crate) fn place(&self) -> Point {
        match self.form {
            Form::Hole { lo, hi, .. } => Point::raw(lo.x.nm() + half((hi.x - lo.x).nm()), lo.y.nm() + half((hi.y - lo.y).nm())),
            Form::Cross(cross) => cross.point(cross.shaft.0 + half(cross.shaft.1 - cross.shaft.0), 0),
        }
    }
}

impl Cross {
    fn point(&self, along: i64, depth: i64) -> Point {
        let across = if self.inwards { self.mouth + depth } else { self.mouth - depth };
        if self.upright { Point::raw(across, along) } else { Point::raw(along, across) }
    }
}

#[cfg(test)]
#[path = "opening_tests.rs"]
mod tests;

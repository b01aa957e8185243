//! Boxes with three to twelve equal sides.

use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;

use super::Assembly;
use super::board::Board;
use crate::angle::Angle;
use crate::bounds::{SIDES, SIZE, THICKNESS};
use crate::error::{Code, Error, Failure};
use crate::joint::{Fingers, Joint};
use crate::length::Nm;
use crate::point::{Axis, Point};

/// A box with equal sides, fingered at the corners, with a base and perhaps a lid.
///
/// ```text
///       side-4                       The fingers of a side reach the outer corner line where the corner is not
///      ________                      sharper than a right angle, and stay inside the next side's face where it is.
///     /        \  side-3             The shoulders stand behind them: [`Angle::shoulder`]. Each side has the first
///    /          \                    finger at its far end.
///    \          /
///     \________/  side-2
///       side-1
/// ```
///
/// What no straight-down cut can reach stays open: a wedge at every finger, unless there are four sides. The dry fit states it.
///
/// ```
/// use dryfit_core::{Nm, PrismSpec, dry_fit};
/// let mm = |v| Nm::from_mm(v);
/// let six = PrismSpec::new(6, mm(60.0)?, mm(50.0)?, mm(3.0)?);
/// let panels = six.assembly()?.panels()?;
/// let report = dry_fit(&panels);
/// assert_eq!(panels.len(), 7); // and a base
/// assert!(report.ok() && report.void_volume > 0);
/// # Ok::<(), dryfit_core::Failure>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PrismSpec {
    sides: u32,
    side: Nm,
    height: Nm,
    thickness: Nm,
    /// With a top, or open.
    pub closed: bool,
    /// The joint of all boards; `None` for the default.
    pub fingers: Option<Fingers>,
}

impl PrismSpec {
    /// An open box with so many sides, each so long on the outside; the height is that of the whole.
    pub fn new(sides: u32, side: Nm, height: Nm, thickness: Nm) -> PrismSpec {
        PrismSpec { sides, side, height, thickness, closed: false, fingers: None }
    }

    /// How long the sides are where opposite ones lie so far apart on the outside, to the nanometre. Only an even number of sides has
    /// opposite ones.
    ///
    /// ```
    /// use dryfit_core::{Nm, PrismSpec};
    /// let across = Nm::parse("100 mm")?;
    /// assert_eq!(PrismSpec::side_across_flats(4, across)?, across);
    /// assert_eq!(PrismSpec::side_across_flats(6, across)?, Nm::parse("57.735027 mm")?);
    /// assert!(PrismSpec::side_across_flats(5, across).is_err());
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the size or the number of sides, [`Code::OddSides`].
    pub fn side_across_flats(sides: u32, across: Nm) -> Result<Nm, Error> {
        let (across, count) = (SIZE.named("across flats").check(across.nm())?, SIDES.check(i64::from(sides))?);
        if count % 2 != 0 {
            return Err(Error::bare(Code::OddSides, "across flats"));
        }
        let (cos, sin) = Angle::part(1, 2 * count).cos_sin();
        // A square's side exactly.
        Ok(Nm::raw(if count == 4 { across } else { libm::round(across as f64 * sin / cos) as i64 }))
    }

    /// How long the sides are where the outer corners lie on a circle of this diameter, to the nanometre.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the size or the number of sides.
    pub fn side_across_corners(sides: u32, across: Nm) -> Result<Nm, Error> {
        let (across, count) = (SIZE.named("across corners").check(across.nm())?, SIDES.check(i64::from(sides))?);
        let (_, sin) = Angle::part(1, 2 * count).cos_sin();
        Ok(Nm::raw(libm::round(across as f64 * sin) as i64))
    }

    /// The inner angle at the corners.
    fn corner(count: i64) -> Angle {
        Angle::part(count - 2, 2 * count)
    }

    /// The boards: `side-1`.. anticlockwise from the front as seen from above, `base`, `top`.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the number of sides, a size, or a side too short for its shoulders and a finger between them;
    /// [`Code::ThickerThanBox`] for the height.
    pub fn assembly(&self) -> Result<Assembly, Failure> {
        let count = SIDES.check(i64::from(self.sides))?;
        let thick = THICKNESS.check(self.thickness.nm())?;
        let side = SIZE.named("outside").check(self.side.nm())?;
        let height = SIZE.named("height").check(self.height.nm())?;
        let corner = PrismSpec::corner(count);
        let (shoulder, tip) = (corner.shoulder(self.thickness)?.nm(), corner.tip(self.thickness)?.nm());
        let least = 2 * shoulder + thick;
        if side < least {
            return Err(Error::length(Code::OutOfRange, "outside", side, least, SIZE.most).into());
        }
        let floors = if self.closed { 2 } else { 1 };
        if height <= floors * thick {
            return Err(Error::length(Code::ThickerThanBox, "height", height, floors * thick + 1, SIZE.most).into());
        }
        let turns: Vec<Angle> = (0..count).map(|k| Angle::part(k, count)).collect();
        let corners = corners(&turns, side as f64);
        let mut prism = Assembly::new();
        for (k, (&turn, &(x, y))) in (1..).zip(turns.iter().zip(&corners)) {
            let (cos, sin) = turn.cos_sin();
            let board = Board::new(format!("side-{k}"), Axis::Y, [Nm::ZERO; 3], [Nm::raw(side - 2 * tip), self.height], self.thickness);
            prism.place(board.turned(Axis::Z, turn, (x + tip as f64 * cos, y + tip as f64 * sin)))?;
        }
        let blank = blank(&turns, &corners, beyond_tips(tip, side, corner));
        let far = |of: fn(&Point) -> Nm| blank.iter().map(of).max().unwrap_or_default();
        let size = [far(|p| p.x), far(|p| p.y)];
        for (name, z) in [("base", 0), ("top", height - thick)].into_iter().take(floors as usize) {
            let board = Board::new(String::from(name), Axis::Z, [Nm::ZERO, Nm::ZERO, Nm::raw(z)], size, self.thickness);
            prism.place(board.shaped(blank.clone()))?;
        }
        let fingers = Joint::from(self.fingers.unwrap_or_default());
        for k in 1..=count {
            prism.joint(&format!("side-{k}"), &format!("side-{}", k % count + 1), fingers)?;
            for flat in ["base", "top"].into_iter().take(floors as usize) {
                prism.joint(&format!("side-{k}"), flat, fingers)?;
            }
        }
        Ok(prism)
    }
}

/// From where to where base and top reach along the outer face of a side: at a sharp corner no farther than to the line through the point
/// where the ends of the two sides cross, so that nothing of them lies between those ends.
fn beyond_tips(tip: i64, side: i64, corner: Angle) -> [f64; 2] {
    // The square of the cosine of half the angle.
    let square = f64::midpoint(1.0, corner.cos_sin().0);
    let from = if tip > 0 { tip as f64 / square } else { 0.0 };
    [from, side as f64 - from]
}

/// The outline of base and top: the outer faces of the sides from end to end, and from each end to the next.
fn blank(turns: &[Angle], corners: &[(f64, f64)], ends: [f64; 2]) -> Vec<Point> {
    let ends = turns.iter().zip(corners).flat_map(|(turn, &(x, y))| {
        let (cos, sin) = turn.cos_sin();
        ends.map(|along| Point::raw(libm::round(x + along * cos) as i64, libm::round(y + along * sin) as i64))
    });
    let mut blank: Vec<Point> = Vec::with_capacity(2 * turns.len());
    for end in ends {
        if blank.last() != Some(&end) && blank.first() != Some(&end) {
            blank.push(end);
        }
    }
    blank
}

/// The outer corners, each where a side begins; none lies below or left of the origin.
fn corners(turns: &[Angle], side: f64) -> Vec<(f64, f64)> {
    let mut corners: Vec<(f64, f64)> = Vec::with_capacity(turns.len());
    let mut at = (0.0, 0.0);
    for turn in turns {
        corners.push(at);
        let (cos, sin) = turn.cos_sin();
        at = (at.0 + side * cos, at.1 + side * sin);
    }
    let left = corners.iter().map(|corner| corner.0).fold(0.0, f64::min);
    corners.into_iter().map(|(x, y)| (x - left, y)).collect()
}

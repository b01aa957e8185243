//! The sheet as it is bought.

use crate::bounds::{BORDER, GAP, READINGS, SHEET, SHEETS, THICKNESS};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::round::nearest;

/// Along which side the grain runs: of a sheet, or of a part as it is drawn.
///
/// ```
/// use dryfit_core::Grain;
/// assert!(Grain::X.allows(Grain::X, 2) && !Grain::X.allows(Grain::X, 1));
/// assert!(Grain::X.allows(Grain::Y, 1) && Grain::Any.allows(Grain::Y, 0));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Grain {
    /// There is none, or it does not matter.
    #[default]
    Any,
    /// Along x.
    X,
    /// Along y.
    Y,
}

impl Grain {
    /// Whether a part with the grain `part` may lie on a sheet with this one after so many quarter turns.
    pub const fn allows(self, part: Grain, quarter_turns: u8) -> bool {
        match (self, part) {
            (Grain::Any, _) | (_, Grain::Any) => true,
            (Grain::X, Grain::X) | (Grain::Y, Grain::Y) => quarter_turns.is_multiple_of(2),
            (Grain::X, Grain::Y) | (Grain::Y, Grain::X) => !quarter_turns.is_multiple_of(2),
        }
    }
}

/// A kind of sheet: thickness from 0.01 mm to 200 mm, sides from 1 mm to 10 m, a border that is not cut (the tape's width)
/// and the least gap between two parts, both from 0 to 10 m. There are as many sheets as needed, and they have no grain, unless told otherwise.
///
/// ```
/// use dryfit_core::{Nm, Stock};
/// let mm = |v| Nm::from_mm(v);
/// let stock = Stock::new(mm(2.5)?, [mm(500.0)?, mm(350.0)?], mm(8.0)?, mm(1.0)?)?;
/// assert_eq!(stock.inside(), [mm(484.0)?, mm(334.0)?]);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stock {
    thickness: Nm,
    width: Nm,
    height: Nm,
    border: Nm,
    gap: Nm,
    count: Option<u32>,
    grain: Grain,
}

impl Stock {
    /// A stock by its thickness, width and height, border and gap.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] with the parameter's name; [`Code::BorderTooWide`] where two borders leave nothing of a side.
    pub fn new(thickness: Nm, [width, height]: [Nm; 2], border: Nm, gap: Nm) -> Result<Stock, Error> {
        THICKNESS.check(thickness.nm())?;
        SHEET.named("sheet width").check(width.nm())?;
        SHEET.named("sheet height").check(height.nm())?;
        BORDER.check(border.nm())?;
        GAP.check(gap.nm())?;
        let shorter = width.min(height).nm();
        if 2 * border.nm() >= shorter {
            return Err(Error::length(Code::BorderTooWide, "border", border.nm(), 0, (shorter - 1) / 2));
        }
        Ok(Stock { thickness, width, height, border, gap, count: None, grain: Grain::Any })
    }

    /// The same sheets, but only so many of them: 1 to 1 000 000.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for the number.
    pub fn sheets(mut self, count: u32) -> Result<Stock, Error> {
        SHEETS.check(i64::from(count))?;
        self.count = Some(count);
        Ok(self)
    }

    /// The same sheets with a grain.
    #[must_use]
    pub const fn grained(mut self, grain: Grain) -> Stock {
        self.grain = grain;
        self
    }

    /// The thickness of a board from caliper readings: their exact mean, rounded to the nanometre.
    ///
    /// # Errors
    /// [`Code::OutOfRange`] for no reading or more than 10 000, or for a reading that is no thickness.
    ///
    /// ```
    /// use dryfit_core::{Nm, Stock};
    /// let readings = ["2.45 mm", "2.5 mm", "2.46 mm"].map(Nm::parse);
    /// let readings = readings.into_iter().collect::<Result<Vec<_>, _>>()?;
    /// assert_eq!(Stock::mean_thickness(&readings)?, Nm::parse("2.47 mm")?);
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn mean_thickness(readings: &[Nm]) -> Result<Nm, Error> {
        let count = READINGS.check(i64::try_from(readings.len()).unwrap_or(i64::MAX))?;
        let mut sum = 0i128;
        for reading in readings {
            sum += i128::from(THICKNESS.named("thickness reading").check(reading.nm())?);
        }
        Ok(Nm::raw(nearest(sum, i128::from(count))))
    }

    /// Thickness of the board.
    pub const fn thickness(&self) -> Nm {
        self.thickness
    }

    /// Size along x.
    pub const fn width(&self) -> Nm {
        self.width
    }

    /// Size along y.
    pub const fn height(&self) -> Nm {
        self.height
    }

    /// Width of the border on all four sides, where nothing is cut.
    pub const fn border(&self) -> Nm {
        self.border
    }

    /// Least gap between the cut paths of two parts.
    pub const fn gap(&self) -> Nm {
        self.gap
    }

    /// How many sheets there are; none: as many as needed.
    pub const fn count(&self) -> Option<u32> {
        self.count
    }

    /// Whether the sheets are alike, however many there are.
    pub(crate) fn alike(&self, other: &Stock) -> bool {
        Stock { count: None, ..*self } == Stock { count: None, ..*other }
    }

    /// The same with one sheet less; none where it was the last.
    pub(crate) fn one_less(&self) -> Option<Stock> {
        match self.count {
            Some(0 | 1) => None,
            Some(count) => Some(Stock { count: Some(count - 1), ..*self }),
            None => Some(*self),
        }
    }

    /// How the grain runs.
    pub const fn grain(&self) -> Grain {
        self.grain
    }

    /// Width and height inside the border.
    pub fn inside(&self) -> [Nm; 2] {
        [self.width - self.border - self.border, self.height - self.border - self.border]
    }
}

//! The sheet as it is bought.

use crate::bounds::{BORDER, GAP, READINGS, SHEET, THICKNESS};
use crate::error::{Code, Error};
use crate::length::Nm;
use crate::round::nearest;

/// A kind of sheet: thickness from 0.01 mm to 200 mm, sides from 1 mm to 10 m, a border that is not cut (the tape's width)
/// and the least gap between two parts, both from 0 to 10 m.
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
        Ok(Stock { thickness, width, height, border, gap })
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

    /// Width and height inside the border.
    pub fn inside(&self) -> [Nm; 2] {
        [self.width - self.border - self.border, self.height - self.border - self.border]
    }
}

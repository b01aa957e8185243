//! Sheets of board.

use dryfit_core::{Error, Grain, Nm, Stock};

use crate::answer::{answer, dryfit_error};
use crate::bare::dryfit_nm;
use crate::buffer::Out;
use crate::given::{Given, List};
use crate::status::dryfit_status;

/// No grain, or none that matters.
pub const DRYFIT_GRAIN_ANY: u32 = 0;
/// The grain runs along x.
pub const DRYFIT_GRAIN_X: u32 = 1;
/// The grain runs along y.
pub const DRYFIT_GRAIN_Y: u32 = 2;

/// A kind of sheet.
#[repr(C)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct dryfit_stock {
    /// Of the board.
    pub thickness: dryfit_nm,
    /// Along x.
    pub width: dryfit_nm,
    /// Along y.
    pub height: dryfit_nm,
    /// On all four sides, where nothing is cut: the tape's width.
    pub border: dryfit_nm,
    /// The least gap between two parts.
    pub gap: dryfit_nm,
    /// How many there are; 0 for as many as needed.
    pub count: u32,
    /// One of `DRYFIT_GRAIN_...`.
    pub grain: u32,
}

pub(super) fn grain(number: u32, given: &mut Given) -> Grain {
    given.one_of(&[Grain::Any, Grain::X, Grain::Y], Grain::Any, number, "grain")
}

impl dryfit_stock {
    pub(super) fn core(&self) -> Result<Stock, Error> {
        let (thickness, size, border, gap, grain) = Given::all(|given| {
            let size = [given.length(self.width, "sheet width"), given.length(self.height, "sheet height")];
            let (border, gap) = (given.length(self.border, "border"), given.length(self.gap, "gap"));
            (given.length(self.thickness, "thickness"), size, border, gap, grain(self.grain, given))
        })?;
        let stock = Stock::new(thickness, size, border, gap)?;
        Ok(if self.count == 0 { stock } else { stock.sheets(self.count)? }.grained(grain))
    }

    pub(super) fn of(stock: &Stock) -> dryfit_stock {
        let lengths = [stock.thickness(), stock.width(), stock.height(), stock.border(), stock.gap()];
        let [thickness, width, height, border, gap] = lengths.map(Nm::nm);
        dryfit_stock { thickness, width, height, border, gap, count: stock.count().unwrap_or(0), grain: stock.grain() as u32 }
    }
}

/// The thickness of a board from caliper readings: their exact mean, rounded to the nanometre.
///
/// Errors: 102 for no reading, more than 10,000 or one that is no thickness; 810.
///
/// Ownership: nothing is kept. Threads: any.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dryfit_mean_thickness(
    readings: *const dryfit_nm,
    count: usize,
    out: *mut dryfit_nm,
    error: *mut dryfit_error,
) -> dryfit_status {
    // SAFETY: the contract of all functions.
    unsafe {
        answer(error, || {
            let (out, list) = (Out::new(out, "out")?, List::new(readings, count, "readings")?);
            // More than that are refused; no more memory is asked for.
            let few = list.take(10_001);
            let readings: alloc::vec::Vec<Nm> = Given::all(|given| few.map(|reading| given.length(reading, "thickness reading")).collect())?;
            out.put(Stock::mean_thickness(&readings)?.nm());
            Ok(())
        })
    }
}

//! Many boxes, one row after the other: what a sweep works on, without Python.

use dryfit_core::{BoxSpec, Code, Cutter, Failure, Figures, Fit, Item, LayoutSpec, Making, Nm, Pace, Parts, Stock};

use crate::column::{Column, Rows};
use crate::layout;
use crate::progress::Listener;
use crate::refusal::Refusal;
use crate::table::mm;

/// How many rows without a layout go between two looks at the clock.
const SELDOM: usize = 64;

/// What all boxes have in common, and the columns in which they differ.
pub(crate) struct Family {
    /// All but its size and thickness, which do not count.
    pub(crate) like: BoxSpec,
    pub(crate) fit: Fit,
    pub(crate) stock: Stock,
    pub(crate) lay_out: bool,
    pub(crate) pace: Option<Pace>,
    /// Sizes, three to a row.
    pub(crate) size: Column,
    pub(crate) thickness: Column,
    pub(crate) kerf: Column,
    pub(crate) real_thickness: Column,
    pub(crate) real_kerf: Column,
}

/// A box in figures.
pub(crate) struct Row {
    figures: Figures,
    gaps: (Nm, Nm),
    sheets: usize,
    minutes: f64,
    /// Whether the minutes are a guess.
    pub(crate) guessed: bool,
}

impl Row {
    /// A row as the table has it, or what is left of one that was refused.
    pub(crate) fn values(row: &Result<Row, Code>) -> [[u8; 8]; 8] {
        let count = |count: usize| i64::try_from(count).unwrap_or(i64::MAX).to_ne_bytes();
        match row {
            Ok(Row { figures, gaps: (least, most), sheets, minutes, .. }) => [
                (figures.cut_length as f64 / 1e6).to_ne_bytes(),
                (figures.twice_area as f64 / 2e12).to_ne_bytes(),
                mm(*least),
                mm(*most),
                minutes.to_ne_bytes(),
                count(figures.parts),
                count(*sheets),
                count(0),
            ],
            Err(code) => {
                let nan = f64::NAN.to_ne_bytes();
                [nan, nan, nan, nan, nan, count(0), count(0), i64::from(code.number()).to_ne_bytes()]
            }
        }
    }
}

impl Family {
    /// The rows that its columns make together.
    pub(crate) fn rows(&self) -> Result<Rows<5>, Refusal> {
        Rows::of([(&self.size, 1), (&self.thickness, 0), (&self.kerf, 0), (&self.real_thickness, 0), (&self.real_kerf, 0)])
    }

    /// Hands over row by row until the listener has enough.
    pub(crate) fn run(&self, rows: &Rows<5>, listener: &mut Listener, mut out: impl FnMut(Result<Row, Code>)) {
        let count = rows.shape.iter().product::<usize>().max(1) as f64;
        for (index, places) in rows.clone().each().enumerate() {
            let done = index as f64 / count;
            let row = self.row(places, &mut || listener.hear(done));
            // What takes less than a microsecond need not look at the clock each time.
            if (self.lay_out || index % SELDOM == 0) && !listener.hear(done) {
                return;
            }
            out(row.map_err(|failure| failure.error.code));
        }
    }

    fn row(&self, [size, thickness, kerf, real_thickness, real_kerf]: [usize; 5], go_on: &mut dyn FnMut() -> bool) -> Result<Row, Failure> {
        let size = [0, 1, 2].map(|axis| self.size.at(size + axis));
        let meant = Making { thickness: self.thickness.at(thickness), kerf: self.kerf.at(kerf) };
        let real = Making { thickness: self.real_thickness.at(real_thickness), kerf: self.real_kerf.at(real_kerf) };
        let spec = self.like.sized(size, meant.thickness);
        let cutter = Cutter::beam(meant.kerf)?;
        let row = |figures: Figures| Row { figures, gaps: figures.gaps(self.fit, meant, real), sheets: 0, minutes: f64::NAN, guessed: false };
        if !self.lay_out {
            return Ok(row(Figures::of(&spec, cutter, self.fit)?));
        }
        let stock = self.of_thickness(meant.thickness)?;
        // A plain box whose parts lie on one sheet at the first try needs no search.
        if self.pace.is_none()
            && let Some((figures, sizes)) = Figures::plain(&spec, cutter, self.fit)
            && stock.holds_at_once(sizes.into_iter().flatten(), meant.kerf)
        {
            return Ok(Row { sheets: 1, ..row(figures) });
        }
        let panels = spec.assembly()?.panels()?;
        let parts = Parts::cut(&panels, cutter, self.fit, Nm::ZERO)?;
        let mut row = row(Figures::of_parts(&panels, &parts));
        let items = Item::of(&parts);
        let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| go_on())?;
        if !layout.unplaced.is_empty() {
            let mut none = dryfit_core::bounds::SHEETS.error(0);
            none.code = Code::NoSheetLeft;
            return Err(none.into());
        }
        row.sheets = layout.sheets.len();
        if let Some(pace) = &self.pace {
            let estimate = layout::estimate(&layout, &items, pace, 1)?;
            (row.minutes, row.guessed) = (estimate.minutes, !estimate.outside.is_empty());
        }
        Ok(row)
    }

    /// The stock in boards of another thickness.
    fn of_thickness(&self, thickness: Nm) -> Result<Stock, Failure> {
        let of = &self.stock;
        let stock = Stock::new(thickness, [of.width(), of.height()], of.border(), of.gap())?.grained(of.grain());
        Ok(of.count().map_or(Ok(stock), |count| stock.sheets(count))?)
    }
}

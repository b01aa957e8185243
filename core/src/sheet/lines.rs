//! The lines that a sheet is cut along.

use alloc::vec::Vec;

use super::{Item, Sheet, item};
use crate::cut::Contour;
use crate::error::Error;
use crate::kind::LineKind;

impl Sheet {
    /// The lines of all parts where they lie on the sheet, placement by placement, each with the number of its part. `items` are those that were laid out.
    ///
    /// # Errors
    /// [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    ///
    /// ```
    /// use dryfit_core::{Item, LayoutSpec, LineKind, Nm, Point, Route, RouteSpec, Shape, Stock};
    /// let mm = |v| Nm::from_mm(v);
    /// let at = |x, y| Ok::<_, dryfit_core::Error>(Point::new(mm(x)?, mm(y)?));
    /// let plate = [at(0.0, 0.0)?, at(60.0, 0.0)?, at(60.0, 40.0)?, at(0.0, 40.0)?];
    /// let slot = [at(10.0, 10.0)?, at(10.0, 13.0)?, at(30.0, 13.0)?, at(30.0, 10.0)?];
    /// let shape = Shape::from_loops([plate, slot]);
    /// let items = [Item::new("plate", &shape)];
    /// let stock = Stock::new(mm(2.0)?, [mm(100.0)?, mm(80.0)?], mm(5.0)?, mm(1.0)?)?;
    /// let layout = LayoutSpec::default().lay_out(&items, &[stock], &mut |_| true)?;
    /// let lines = layout.sheets[0].lines(&items)?;
    /// assert_eq!([lines[0].kind, lines[1].kind], [LineKind::CutOuter, LineKind::CutInner]);
    /// assert_eq!(Route::new(&lines, &RouteSpec::default()).cuts()[0].contour, 1);
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    pub fn lines(&self, items: &[Item<'_>]) -> Result<Vec<Contour>, Error> {
        let mut lines = Vec::new();
        for placement in &self.placements {
            let placed = placement.place(item(items, placement.part)?.path);
            let kind = |hole| if hole { LineKind::CutInner } else { LineKind::CutOuter };
            lines.extend(placed.rings().map(|ring| Contour::closed(kind(ring.is_hole()), ring.bent()).of_part(placement.part)));
        }
        Ok(lines)
    }
}

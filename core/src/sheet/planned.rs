//! From a sheet to the motion that cuts it.

use alloc::collections::BTreeSet;

use super::{Item, Sheet};
use crate::cut::{Cutter, MotionSpec, Plan};
use crate::error::Error;
use crate::point::Point;
use crate::round::upper_half;

impl Sheet {
    /// Plans how a tool cuts this sheet. `items` are those that were laid out.
    ///
    /// # Errors
    /// As [`Plan::new`]; [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn plan(&self, items: &[Item<'_>], cutter: Cutter, spec: &MotionSpec) -> Result<Plan, Error> {
        let stock = &self.stock;
        // The cut itself stays off the tape.
        let margin = stock.border() + crate::Nm::raw(upper_half(cutter.kerf().nm()));
        let room = [Point::new(margin, margin), Point::new(stock.width() - margin, stock.height() - margin)];
        let lines = self.lines(items)?;
        let own: BTreeSet<usize> = lines.iter().filter_map(|line| line.part).collect();
        // What is bounded by shared cuts alone has no line that a bridge could be in.
        let without = self.placements.iter().map(|placement| placement.part).filter(|part| !own.contains(part));
        Ok(Plan::new(lines, stock.thickness(), room, cutter, spec)?.and_bare(without))
    }
}

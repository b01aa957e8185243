//! From a sheet to the motion that cuts it.

use super::{Item, Sheet};
use crate::cut::{Cutter, MotionSpec, Plan};
use crate::error::Error;
use crate::point::Point;
use crate::round::half;

impl Sheet {
    /// Plans how a tool cuts this sheet. `items` are those that were laid out.
    ///
    /// # Errors
    /// As [`Plan::new`]; [`crate::Code::OutOfRange`] where a placement names a part that is not in `items`.
    pub fn plan(&self, items: &[Item<'_>], cutter: Cutter, spec: &MotionSpec) -> Result<Plan, Error> {
        let stock = &self.stock;
        // The cut itself stays off the tape.
        let margin = stock.border() + crate::Nm::raw(cutter.kerf().nm() - half(cutter.kerf().nm()));
        let room = [Point::new(margin, margin), Point::new(stock.width() - margin, stock.height() - margin)];
        Plan::new(self.lines(items)?, stock.thickness(), room, cutter, spec)
    }
}

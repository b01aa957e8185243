//! The quick way to know that one sheet is enough.

use super::pack::{self, Rect};
use super::{Grain, Stock};
use crate::length::Nm;
use crate::round::upper_half;

impl Stock {
    /// Whether rectangles of these widths and heights, cut with a kerf, their grain along x, lie on one sheet at the first try of a search for a
    /// layout. So a layout of them takes one sheet; if not, it may yet.
    ///
    /// ```
    /// use dryfit_core::{Nm, Stock};
    /// let mm = |v| Nm::from_mm(v);
    /// let stock = Stock::new(mm(3.0)?, [mm(300.0)?, mm(200.0)?], mm(5.0)?, mm(1.0)?)?;
    /// let card = [mm(90.0)?, mm(60.0)?];
    /// assert!(stock.holds_at_once([card; 9], mm(0.2)?));
    /// assert!(!stock.holds_at_once([card; 10], mm(0.2)?));
    /// # Ok::<(), dryfit_core::Error>(())
    /// ```
    pub fn holds_at_once(&self, sizes: impl IntoIterator<Item = [Nm; 2]>, kerf: Nm) -> bool {
        let gap = self.gap().nm();
        let rects: alloc::vec::Vec<Rect> = sizes.into_iter().map(|size| Rect { size: size.map(|side| side.nm() + gap) }).collect();
        let room = self.inside().map(|side| side.nm() - 2 * upper_half(kerf.nm()) + gap);
        let may = [0, 1].map(|turns| self.grain().allows(Grain::X, turns));
        pack::at_once(&rects, room, &|_, _| may)
    }
}

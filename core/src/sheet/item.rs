//! What is laid out: a part's name, its cut path, and what it asks of the sheet.

use alloc::vec::Vec;

use crate::cut::Parts;
use crate::length::Nm;
use crate::shape::Shape;

use super::Grain;

/// One thing to be laid out.
///
/// ```
/// use dryfit_core::{Grain, Item, Nm, Point, Shape};
/// let p = |x, y| Ok::<_, dryfit_core::Error>(Point::new(Nm::from_mm(x)?, Nm::from_mm(y)?));
/// let tile = Shape::from_loops([[p(0.0, 0.0)?, p(40.0, 0.0)?, p(40.0, 25.0)?, p(0.0, 25.0)?]]);
/// let item = Item { thickness: Some(Nm::from_mm(2.5)?), grain: Grain::Y, ..Item::new("tile", &tile) };
/// assert_eq!(item.kerf, Nm::ZERO);
/// # Ok::<(), dryfit_core::Error>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Item<'a> {
    /// Its name, for messages and labels.
    pub name: &'a str,
    /// The line that the cutter's centre follows.
    pub path: &'a Shape,
    /// The board it is cut from; none if any board will do.
    pub thickness: Option<Nm>,
    /// Full width of the cut: half of it stays clear of the border.
    pub kerf: Nm,
    /// Items of one number belong together.
    pub group: usize,
    /// How the grain runs on the part as it is drawn. It counts on stock that has a grain.
    pub grain: Grain,
}

impl<'a> Item<'a> {
    /// An item for any board, cut by a thin blade, its grain along x.
    pub const fn new(name: &'a str, path: &'a Shape) -> Item<'a> {
        Item { name, path, thickness: None, kerf: Nm::ZERO, group: 0, grain: Grain::X }
    }

    /// How near the path's own cut comes to what lies beside it, in nanometres: half the kerf, rounded up.
    pub(crate) fn half_kerf(&self) -> i64 {
        crate::round::upper_half(self.kerf.nm())
    }

    /// The parts of a job, in order; those of one piece belong together.
    ///
    /// ```
    /// use dryfit_core::{BoxSpec, Cutter, Fit, Item, Nm, Parts};
    /// let mm = |v| Nm::from_mm(v);
    /// let panels = BoxSpec::outside([mm(110.0)?, mm(85.0)?, mm(60.0)?], mm(2.5)?).assembly()?.panels()?;
    /// let parts = Parts::cut(&panels, Cutter::beam(mm(0.2)?)?, Fit::EXACT, Nm::ZERO)?;
    /// let items = Item::of(&parts);
    /// assert_eq!((items.len(), items[0].name, items[0].kerf), (6, "front", mm(0.2)?));
    /// # Ok::<(), dryfit_core::Failure>(())
    /// ```
    pub fn of(parts: &'a Parts) -> Vec<Item<'a>> {
        let pieces = parts.pieces().iter().enumerate();
        let items = pieces.flat_map(|(group, piece)| {
            piece.parts().iter().map(move |part| Item {
                thickness: part.thickness(),
                kerf: piece.cutter().kerf(),
                group,
                ..Item::new(part.name(), part.path())
            })
        });
        items.collect()
    }
}

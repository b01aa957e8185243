//! What is asked of a search: items for one thickness of board, and the sheets for them.

use alloc::format;
use alloc::vec::Vec;

use super::{Item, LayoutSpec, Placement, Stock};
use crate::error::{Code, Error, Failure};
use crate::length::Nm;

/// Items that go on sheets of one thickness.
pub(crate) struct Job<'a> {
    /// All items.
    pub items: &'a [Item<'a>],
    /// The numbers of those to be laid out.
    pub wanted: Vec<usize>,
    /// The sheets for them, in the order in which they are to be used.
    pub stocks: Vec<Stock>,
    pub spec: LayoutSpec,
    /// How far all paths stay clear of the border: half the widest cut, rounded up.
    margin: i64,
    gap: i64,
}

impl<'a> Job<'a> {
    pub fn new(items: &'a [Item<'a>], wanted: Vec<usize>, stocks: Vec<Stock>, spec: LayoutSpec) -> Job<'a> {
        let margin = wanted.iter().filter_map(|&number| items.get(number)).map(Item::half_kerf).max().unwrap_or(0);
        let gap = stocks.iter().map(|stock| stock.gap().nm()).max().unwrap_or(0);
        Job { items, wanted, stocks, spec, margin, gap }
    }

    /// The item of a number.
    pub fn item(&self, number: usize) -> Option<&'a Item<'a>> {
        self.items.get(number)
    }

    /// The gap that parts keep: the widest that any of the stocks asks for.
    pub fn gap(&self) -> i64 {
        self.gap
    }

    /// Width and height of where paths may run.
    pub fn room(&self, stock: &Stock) -> [i64; 2] {
        stock.inside().map(|side| side.nm() - 2 * self.margin)
    }

    /// Its lower left corner, along both axes.
    pub fn corner(&self, stock: &Stock) -> i64 {
        stock.border().nm() + self.margin
    }

    /// Whether an item may lie on a stock after so many quarter turns.
    pub fn may_turn(&self, item: &Item<'_>, stock: &Stock, quarter_turns: u8) -> bool {
        if self.spec.turns { stock.grain().allows(item.grain, quarter_turns) } else { quarter_turns == 0 }
    }

    /// Whether an item fits a stock, as some quarter turn allows.
    fn fits(&self, item: &Item<'_>, stock: &Stock) -> bool {
        let [width, height] = self.room(stock);
        (0..2).any(|quarter_turns| {
            let [w, h] = Placement { quarter_turns, ..Placement::default() }.size(item.path).map(Nm::nm);
            self.may_turn(item, stock, quarter_turns) && w <= width && h <= height
        })
    }

    /// Every item fits some stock.
    pub fn check(&self) -> Result<(), Failure> {
        for item in self.wanted.iter().filter_map(|&number| self.item(number)) {
            if !self.stocks.iter().any(|stock| self.fits(item, stock)) {
                return Err(self.too_large(item));
            }
        }
        Ok(())
    }

    /// The side that does not fit the largest stock.
    fn too_large(&self, item: &Item<'_>) -> Failure {
        let [width, height] = Placement::default().size(item.path);
        let room = |stock: &Stock| self.room(stock).map(|side| Nm::raw(side.max(0)));
        let [most_x, most_y] = self.stocks.iter().map(room).max_by_key(|[x, y]| i128::from(x.nm()) * i128::from(y.nm())).unwrap_or_default();
        let sides = [("longer side", width.max(height), most_x.max(most_y)), ("shorter side", width.min(height), most_x.min(most_y))];
        let as_drawn = [("width", width, most_x), ("height", height, most_y)];
        let over = sides.into_iter().chain(as_drawn).find(|(_, given, most)| given > most);
        // What fits some way that the grain forbids is told by its width, turned.
        let (side, given, most) = over.unwrap_or(("width turned with the grain", height, most_x));
        let error = Error::length(Code::LargerThanSheet, side, given.nm(), 0, most.nm());
        Failure::at(error, format!("part \"{}\" of {width} x {height}, at most {most_x} x {most_y}", item.name))
    }
}

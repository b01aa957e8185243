//! Which rectangle goes first where several would do: what the search turns over.

use alloc::vec::Vec;

use super::skip::Skip;

#[derive(Clone, Default)]
pub(super) struct Order {
    list: Vec<u32>,
    rank: Vec<u32>,
    /// Whether a rectangle would rather lie turned.
    turned: Vec<bool>,
    left: Skip,
}

impl Order {
    /// The rectangles of a list, of `all` that there are.
    pub fn new(list: Vec<u32>, turned: Vec<bool>) -> Order {
        let mut rank = alloc::vec![u32::MAX; turned.len()];
        for (at, rect) in list.iter().enumerate() {
            if let Some(rank) = rank.get_mut(*rect as usize) {
                *rank = at as u32;
            }
        }
        Order { list, rank, turned, left: Skip::default() }
    }

    /// All are there.
    pub fn renew(&mut self) {
        self.left.renew(self.list.len());
    }

    pub fn drop(&mut self, rect: usize) {
        self.left.drop(self.rank(rect) as usize);
    }

    pub fn rank(&self, rect: usize) -> u32 {
        self.rank.get(rect).copied().unwrap_or(u32::MAX)
    }

    pub fn would_turn(&self, rect: usize) -> bool {
        self.turned.get(rect).copied().unwrap_or(false)
    }

    /// The first rectangle left at or after a rank, and its rank.
    pub fn next(&mut self, at: usize) -> Option<(usize, usize)> {
        let at = self.left.find(at);
        self.list.get(at).map(|rect| (at, *rect as usize))
    }

    /// Changes places; done once more it is undone.
    pub fn swap(&mut self, a: usize, b: usize) {
        if a < self.list.len() && b < self.list.len() {
            self.list.swap(a, b);
            for at in [a, b] {
                if let Some(rank) = self.list.get(at).and_then(|rect| self.rank.get_mut(*rect as usize)) {
                    *rank = at as u32;
                }
            }
        }
    }

    /// The rectangle of a rank would rather lie the other way; done once more it is undone.
    pub fn turn(&mut self, at: usize) {
        if let Some(turned) = self.list.get(at).and_then(|rect| self.turned.get_mut(*rect as usize)) {
            *turned = !*turned;
        }
    }
}

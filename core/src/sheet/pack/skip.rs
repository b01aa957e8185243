//! A row of places of which some are gone: the next one left is found in next to no time (union-find with halved paths).

use alloc::vec::Vec;

#[derive(Clone, Default)]
pub(super) struct Skip(Vec<u32>);

impl Skip {
    /// All of `n` places are there.
    pub fn renew(&mut self, n: usize) {
        self.0.clear();
        self.0.extend(0..=u32::try_from(n).unwrap_or(u32::MAX));
    }

    /// The first place left at or after `i`; the number of places where none is.
    pub fn find(&mut self, mut i: usize) -> usize {
        loop {
            let Some(&to) = self.0.get(i) else { return self.0.len().saturating_sub(1) };
            if to as usize == i {
                return i;
            }
            let further = self.0.get(to as usize).copied().unwrap_or(to);
            if let Some(place) = self.0.get_mut(i) {
                *place = further;
            }
            i = further as usize;
        }
    }

    /// The place is gone.
    pub fn drop(&mut self, i: usize) {
        if let Some(place) = self.0.get_mut(i) {
            *place = i as u32 + 1;
        }
    }
}

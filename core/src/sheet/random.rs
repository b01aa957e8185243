//! Whole random numbers, the same on every platform (splitmix64: Steele, Lea, Flood, OOPSLA 2014).

pub(crate) struct Random(pub u64);

impl Random {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `n`; 0 where `n` is 0.
    pub fn below(&mut self, n: usize) -> usize {
        // The high half of a product is below n, so it fits.
        ((u128::from(self.next()) * n as u128) >> 64) as usize
    }
}

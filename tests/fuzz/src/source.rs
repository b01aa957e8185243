//! Bytes as values: mostly such as a host would give, some at the limits, a few that nobody should.

use std::ops::RangeInclusive;

use arbitrary::Unstructured;
use dryfit_core::bounds::{Bound, LENGTH};

/// What a host might give, drawn from bytes. When they are used up every value is the plainest one.
pub struct Source<'a> {
    bytes: Unstructured<'a>,
    /// How many pointers were made NULL since the last call began.
    pub nulls: usize,
}

/// Numbers that overflow what forgets about them.
const EXTREME: [i64; 12] =
    [i64::MIN, i64::MIN + 1, i64::MAX, i64::MAX - 1, i32::MIN as i64, i32::MAX as i64, u32::MAX as i64, -1, 1, i64::MAX / 2, i64::MIN / 2, 1 << 53];

/// Pieces of text: what formats quote, what lines end with, what is longer than its room, and bytes that are no letters.
const PIECES: [&[u8]; 22] = [
    b"Box",
    b" ",
    b"lid",
    b"(",
    b")",
    b"<&>\"'",
    b"--",
    b"]]>",
    b"\n",
    b"\r\n",
    b"\0",
    b"%",
    b";",
    b"^J",
    b"\x7f\x1b[2J",
    "é".as_bytes(),
    "漢".as_bytes(),
    "\u{202e}\u{feff}".as_bytes(),
    "🪚".as_bytes(),
    b"\xff",
    b"\xc3",
    &[b'w'; 300],
];

impl<'a> Source<'a> {
    pub fn new(data: &'a [u8]) -> Source<'a> {
        Source { bytes: Unstructured::new(data), nulls: 0 }
    }

    /// A number below `count`; 0 when the bytes are used up.
    pub fn below(&mut self, count: usize) -> usize {
        self.bytes.int_in_range(0..=count.saturating_sub(1)).unwrap_or(0)
    }

    /// Rarely true.
    pub fn one_in(&mut self, count: usize) -> bool {
        self.below(count) + 1 == count
    }

    pub fn pick<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }

    pub fn any(&mut self) -> i64 {
        self.bytes.arbitrary().unwrap_or(0)
    }

    /// An enum's number: mostly one of `count`, now and then one that is none.
    pub fn choice(&mut self, count: u32) -> u32 {
        match self.below(64) {
            61 => count,
            62 => u32::MAX,
            63 => self.any() as u32,
            n => n as u32 % count,
        }
    }

    /// A number: mostly a round one of the usual range, then any of it, the limits and their neighbours, 0, and extremes.
    pub fn number(&mut self, usual: RangeInclusive<i64>, bound: Bound) -> i64 {
        let (least, most) = (*usual.start(), *usual.end());
        let Bound { least: floor, most: top, .. } = bound;
        match self.below(40) {
            0..=24 => {
                let step = self.pick(&[1_000_000, 500_000, 100_000, 1_000, 1]);
                let drawn = self.bytes.int_in_range(usual).unwrap_or(least);
                (drawn / step * step).clamp(least, most)
            }
            25..=33 => self.bytes.int_in_range(usual).unwrap_or(least),
            34..=36 => self.pick(&[floor, floor + 1, floor - 1, top, top - 1, top + 1]),
            37 => 0,
            38 => self.any() % (top.saturating_mul(2).max(1)),
            _ => self.pick(&EXTREME),
        }
    }

    /// A coordinate.
    pub fn coordinate(&mut self) -> i64 {
        if self.below(3) > 0 { self.number(0..=600_000_000, LENGTH) } else { 0 }
    }

    /// A pointer to it, or rarely NULL.
    pub fn at<T>(&mut self, value: &T) -> *const T {
        if self.null() { std::ptr::null() } else { value }
    }

    /// Whether to give NULL.
    pub fn null(&mut self) -> bool {
        let null = self.one_in(64);
        self.nulls += usize::from(null);
        null
    }

    /// Text that a host might hand over, of no more than some thousand bytes; not always UTF-8.
    pub fn text(&mut self) -> Vec<u8> {
        let count = if self.one_in(8) { self.below(12) } else { self.below(4) };
        // Exact, so that whoever reads past the end is seen.
        (0..count).flat_map(|_| self.pick(&PIECES[..]).to_vec()).collect::<Vec<u8>>().into_boxed_slice().into_vec()
    }

    pub fn double(&mut self) -> f64 {
        match self.below(8) {
            0..=3 => self.number(-600_000_000..=600_000_000, LENGTH) as f64 / 1e6,
            4 => self.pick(&[f64::NAN, -f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN, f64::MIN_POSITIVE, 5e-324, -0.0]),
            5 => self.pick(&[10_000.0, 10_000.000_000_5, 10_000.000_000_499, -10_000.000_000_500_1, 0.5e-6, -0.5e-6, 0.499_999_999e-6]),
            _ => f64::from_bits(self.any() as u64),
        }
    }
}

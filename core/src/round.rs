//! The one place where lengths are rounded.

/// `numerator / denominator` to the nearest integer, halves upwards. `denominator` must be positive.
///
/// ```
/// use dryfit_core::round::nearest;
/// assert_eq!(nearest(7, 2), 4);
/// assert_eq!(nearest(-7, 2), -3);
/// ```
pub const fn nearest(numerator: i128, denominator: i128) -> i64 {
    let denominator = if denominator < 1 { 1 } else { denominator };
    (2 * numerator + denominator).div_euclid(2 * denominator) as i64
}

/// `numerator / denominator` rounded down. `denominator` must be positive.
///
/// Anything below 1 counts as 1, so that no division can panic: the callers' checks are out of the compiler's sight.
///
/// ```
/// use dryfit_core::round::floor;
/// assert_eq!(floor(7, 2), 3);
/// assert_eq!(floor(-7, 2), -4);
/// ```
pub const fn floor(numerator: i64, denominator: i64) -> i64 {
    numerator.div_euclid(if denominator < 1 { 1 } else { denominator })
}

/// The lower half of a length: `floor(nm / 2)`. The other half is `nm - half(nm)`.
///
/// ```
/// use dryfit_core::round::half;
/// assert_eq!((half(7), 7 - half(7)), (3, 4));
/// assert_eq!(half(-1), -1);
/// ```
pub const fn half(nm: i64) -> i64 {
    nm.div_euclid(2)
}

/// The upper half of a length: what [`half`] leaves.
#[cfg(feature = "alloc")]
pub(crate) const fn upper_half(nm: i64) -> i64 {
    nm - half(nm)
}

/// What a computed length may be off by before it is rounded, in nanometres.
const NOISE: f64 = 1e-3;

/// A computed length rounded up, but for noise.
pub(crate) fn up(length: f64) -> i64 {
    libm::ceil(length - NOISE) as i64
}

/// A computed length rounded down, but for noise.
#[cfg(feature = "alloc")]
pub(crate) fn down(length: f64) -> i64 {
    libm::floor(length + NOISE) as i64
}

//! The one place where lengths are rounded.

/// `numerator / denominator` to the nearest integer, halves upwards. `denominator` must be positive.
///
/// ```
/// use dryfit_core::round::nearest;
/// assert_eq!(nearest(7, 2), 4);
/// assert_eq!(nearest(-7, 2), -3);
/// ```
#[inline(never)]
pub const fn nearest(numerator: i128, denominator: i128) -> i64 {
    let denominator = if denominator < 1 { 1 } else { denominator };
    let (twice, divisor) = (2 * numerator + denominator, 2 * denominator);
    // The complement of a negative number divided is that of the number divided, rounded down.
    let sign = twice >> 127;
    (wide_quotient((twice ^ sign) as u128, divisor as u128) as i128 ^ sign) as i64
}

/// The quotient of two numbers, of which the second is not 0.
#[inline]
pub(crate) const fn wide_quotient(value: u128, by: u128) -> u128 {
    let by = if by == 0 { 1 } else { by };
    if cfg!(target_pointer_width = "64") { value / by } else { wide_division(value, by) }
}

/// The same bit by bit, which takes long: only where 64 bits are not enough.
#[inline(never)]
const fn wide_division(value: u128, by: u128) -> u128 {
    if (value | by) >> 64 == 0 {
        return long_division(value as u64, by as u64) as u128;
    }
    let (mut rest, mut quotient, mut bits) = (0, value, 0);
    while bits < 128 {
        // The value leaves at the top, the quotient comes in at the bottom.
        rest = (rest << 1) | (quotient >> 127);
        quotient <<= 1;
        if rest >= by {
            rest -= by;
            quotient |= 1;
        }
        bits += 1;
    }
    quotient
}

/// The same where twice the numerator and twice the denominator, added, fit 64 bits: a machine of 32 bits has no other division of less than a kilobyte.
#[inline(never)]
pub(crate) const fn nearest_small(numerator: i64, denominator: i64) -> i64 {
    floor(2 * numerator + denominator, 2 * denominator)
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
#[inline(never)]
pub const fn floor(numerator: i64, denominator: i64) -> i64 {
    let denominator = if denominator < 1 { 1 } else { denominator };
    // The complement of a negative number divided is that of the number divided, rounded down.
    let sign = numerator >> 63;
    quotient((numerator ^ sign) as u64, denominator as u64) as i64 ^ sign
}

/// The quotient of two numbers, of which the second is not 0.
#[inline]
const fn quotient(value: u64, by: u64) -> u64 {
    if cfg!(target_pointer_width = "64") { value / if by == 0 { 1 } else { by } } else { long_division(value, by) }
}

/// The same bit by bit: for the few divisions by more than 16 bits that a pattern needs, in a tenth of the room of the usual function.
#[inline(never)]
const fn long_division(value: u64, by: u64) -> u64 {
    // From the highest bit that can be set.
    let highest = by.leading_zeros().saturating_sub(value.leading_zeros());
    let (mut rest, mut part, mut bit, mut quotient) = (value, by << highest, 1 << highest, 0);
    while bit != 0 {
        if rest >= part {
            rest -= part;
            quotient |= bit;
        }
        part >>= 1;
        bit >>= 1;
    }
    quotient
}

/// The quotient of a division by a small number, which is not 0.
///
/// Machines of 32 bits divide 64 bits by means of a long function. In digits of 16 bits they need three of their own divisions.
#[cfg_attr(target_pointer_width = "64", inline)]
#[cfg_attr(target_pointer_width = "32", inline(never))]
pub(crate) const fn divide(value: u64, by: u16) -> u64 {
    if cfg!(target_pointer_width = "64") {
        return value / if by == 0 { 1 } else { by as u64 };
    }
    short_division(value, by)
}

/// The same digit by digit.
const fn short_division(value: u64, by: u16) -> u64 {
    let by = if by == 0 { 1 } else { by as u32 };
    let (high, low) = ((value >> 32) as u32, value as u32);
    if high == 0 {
        return (low / by) as u64;
    }
    let (first, rest) = (high / by, high % by);
    let middle = (rest << 16) | (low >> 16);
    let last = ((middle % by) << 16) | (low & 0xFFFF);
    ((first as u64) << 32) | (((middle / by) as u64) << 16) | (last / by) as u64
}

/// The square root, rounded down.
pub(crate) const fn root(square: u128) -> u64 {
    if cfg!(target_pointer_width = "64") { square.isqrt() as u64 } else { short_root(square) }
}

/// The same bit by bit, in a fifteenth of the room.
#[inline(never)]
const fn short_root(square: u128) -> u64 {
    let (mut root, mut bit) = (0, 1 << 63);
    while bit != 0 {
        let more: u64 = root | bit;
        if more as u128 * more as u128 <= square {
            root = more;
        }
        bit >>= 1;
    }
    root
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

/// The nearest whole number, halves away from zero. Beyond 64 bits it is the last one, and 0 of what is no number.
#[inline]
pub(crate) fn whole(value: f64) -> i64 {
    // A float cast cuts off what is behind the point; what that is, is exact.
    let low = value as i64;
    let rest = value - low as f64;
    low.saturating_add(i64::from(rest >= 0.5)).saturating_sub(i64::from(rest <= -0.5))
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

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn digit_by_digit_is_division(value in prop_oneof![any::<u64>(), 0..1u64 << 34, Just(u64::MAX)], by in 1..=u16::MAX) {
            prop_assert_eq!(short_division(value, by), value / u64::from(by));
            prop_assert_eq!(divide(value, by), value / u64::from(by));
        }

        #[test]
        fn bit_by_bit_is_division(value in prop_oneof![any::<u64>(), 0..1u64 << 34, Just(u64::MAX)], by in prop_oneof![1..=u64::MAX, 1..1u64 << 20]) {
            prop_assert_eq!(long_division(value, by), value / by);
            prop_assert_eq!(quotient(value, by), value / by);
        }

        #[test]
        fn wide_bit_by_bit_is_division(value in prop_oneof![any::<u128>(), 0..1u128 << 70, 0..1u128 << 64], by in prop_oneof![1..1u128 << 126, 1..1u128 << 40]) {
            prop_assert_eq!(wide_division(value, by), value / by);
            prop_assert_eq!(wide_quotient(value, by), value / by);
        }

        #[test]
        fn whole_is_round(value in prop_oneof![any::<f64>(), -1e11..1e11f64, (-1_000_000i64..1_000_000).prop_map(|half| half as f64 / 2.0)], up: bool) {
            let near = if up { value.next_up() } else { value.next_down() };
            for value in [value, near, -value] {
                prop_assert_eq!(whole(value), libm::round(value) as i64);
            }
        }

        #[test]
        fn bit_by_bit_is_the_root(square in prop_oneof![any::<u128>(), 0..1u128 << 70, Just(u128::MAX)], side in any::<u64>()) {
            let exact = u128::from(side) * u128::from(side);
            for square in [square, exact, exact.saturating_sub(1)] {
                prop_assert_eq!(u128::from(short_root(square)), square.isqrt());
                prop_assert_eq!(root(square), short_root(square));
            }
        }

        #[test]
        fn small_fractions_are_rounded_as_large_ones(numerator in -1i64 << 60..1 << 60, denominator in prop_oneof![1i64..100, 1i64..1 << 40]) {
            prop_assert_eq!(nearest_small(numerator, denominator), nearest(i128::from(numerator), i128::from(denominator)));
            let (twice, divisor) = (2 * i128::from(numerator) + i128::from(denominator), 2 * i128::from(denominator));
            prop_assert_eq!(i128::from(nearest_small(numerator, denominator)), twice.div_euclid(divisor));
            prop_assert_eq!(floor(numerator, denominator), numerator.div_euclid(denominator));
        }
    }
}

//! Counts of things that are laid or bought whole.

/// Relative tolerance below which a part of a unit is taken for rounding of the arithmetic, not for a part that is needed:
/// 2.1 ft³ in bags of 0.30 ft³ is 7.000 000 000 000 001 bags in binary arithmetic, and 7 bags are bought.
pub(super) const TOLERANCE: f64 = 1e-9;

/// The least whole number that is not below `amount`, but for a relative [`TOLERANCE`]. Zero for what is not positive or not a
/// number.
pub(super) fn rounded_up(amount: f64) -> u32 {
    let whole = (amount * (1.0 - TOLERANCE)).ceil();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a cast from a float saturates, and NaN becomes 0"
    )]
    let count = whole as u32;
    count
}

#[cfg(test)]
mod tests {
    use super::rounded_up;

    #[track_caller]
    fn check(amount: f64, expected: u32) {
        assert_eq!(rounded_up(amount), expected, "{amount}");
    }

    #[test]
    fn rounding_up_does_not_fall_into_the_float_trap() {
        // Row C6: both sums are above the whole number in binary arithmetic.
        let [cubic_feet, units] = std::hint::black_box([2.1, 100.0]);
        assert!(cubic_feet / 0.30 > 7.0 && units * 1.10 > 110.0);
        check(2.1 / 0.30, 7);
        check(100.0 * 1.10, 110);
    }

    #[test]
    fn a_real_part_takes_a_whole_unit() {
        check(7.000_001, 8);
        check(0.25, 1);
        check(0.0, 0);
        check(-3.5, 0);
        check(f64::NAN, 0);
        check(f64::INFINITY, u32::MAX);
    }
}

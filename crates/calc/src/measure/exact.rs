//! Exact fractions, so that a length typed in sixteenths reaches metres with one rounding.

/// A number as numerator over a positive denominator. Every operation is `None` where it would not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Exact {
    numerator: i128,
    denominator: i128,
}

impl Exact {
    pub(super) const ZERO: Self = Self::whole(0);

    pub(super) const fn whole(number: i128) -> Self {
        Self {
            numerator: number,
            denominator: 1,
        }
    }

    /// `None` unless the denominator is above zero.
    pub(super) const fn ratio(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator > 0 {
            Some(Self {
                numerator,
                denominator,
            })
        } else {
            None
        }
    }

    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let left = self.numerator.checked_mul(other.denominator)?;
        let right = other.numerator.checked_mul(self.denominator)?;
        Self::ratio(
            left.checked_add(right)?,
            self.denominator.checked_mul(other.denominator)?,
        )
    }

    pub(super) fn times(self, other: Self) -> Option<Self> {
        Self::ratio(
            self.numerator.checked_mul(other.numerator)?,
            self.denominator.checked_mul(other.denominator)?,
        )
    }

    /// `None` unless `other` is above zero.
    pub(super) fn over(self, other: Self) -> Option<Self> {
        self.times(Self::ratio(other.denominator, other.numerator)?)
    }

    pub(super) const fn negated(self) -> Self {
        Self {
            numerator: self.numerator.wrapping_neg(),
            denominator: self.denominator,
        }
    }

    pub(super) const fn is_zero(self) -> bool {
        self.numerator == 0
    }

    pub(super) const fn is_one(self) -> bool {
        self.numerator == self.denominator
    }

    /// Whether its size is below that of `number`.
    pub(super) fn is_below(self, number: u32) -> bool {
        self.numerator.unsigned_abs() / self.denominator.unsigned_abs() < u128::from(number)
    }

    /// The double nearest to it, ties to even: long division until 55 bits stand, the rest gathered in the last bit.
    pub(super) fn nearest(self) -> f64 {
        const ENOUGH: u128 = 1 << 54;
        let divisor = self.denominator.unsigned_abs();
        let mut quotient = self.numerator.unsigned_abs() / divisor;
        let mut rest = self.numerator.unsigned_abs() % divisor;
        let mut halvings = 0;
        if quotient == 0 && rest == 0 {
            return 0.0;
        }
        while quotient < ENOUGH {
            quotient *= 2;
            rest *= 2;
            if rest >= divisor {
                rest -= divisor;
                quotient += 1;
            }
            halvings += 1;
        }
        if rest > 0 {
            quotient |= 1;
        }
        let size = libm::scalbn(quotient as f64, -halvings);
        if self.numerator < 0 { -size } else { size }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        // IEEE 754 division of two doubles that hold their integers exactly is the nearest double by definition.
        #[test]
        fn nearest_is_what_the_processor_divides(numerator in -(1_i64 << 53)..(1_i64 << 53), denominator in 1_i64..(1 << 53)) {
            let ours = Exact::ratio(numerator.into(), denominator.into()).unwrap().nearest();
            prop_assert_eq!(ours, numerator as f64 / denominator as f64);
        }

        // The standard library reads decimals to the nearest double.
        #[test]
        fn nearest_is_what_the_library_reads(whole in 0_i128..1_000_000_000_000_000, decimals in 0_i128..1_000_000_000_000) {
            let ours = Exact::ratio(whole * 1_000_000_000_000 + decimals, 1_000_000_000_000).unwrap().nearest();
            prop_assert_eq!(ours, format!("{whole}.{decimals:012}").parse::<f64>().unwrap());
        }
    }

    #[test]
    fn what_does_not_fit_is_none() {
        let huge = Exact::whole(i128::MAX);
        assert_eq!(huge.times(huge), None);
        assert_eq!(huge.plus(huge), None);
        assert_eq!(huge.over(Exact::ZERO), None);
        assert_eq!(Exact::ratio(1, 0), None);
        assert_eq!(huge.nearest(), i128::MAX as f64);
    }
}

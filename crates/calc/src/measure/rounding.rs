//! Rounding for the page, done once: halves away from zero, and what binary storage put a hair below a half counts as the half.

/// A value rounded to whole steps of what is written: sixteenths, hundredths, millimetres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Steps {
    /// Whether a minus stands before it; never before nothing.
    pub(super) negative: bool,
    pub(super) count: u64,
}

impl Steps {
    /// Rounds a value given in steps, halves away from zero.
    ///
    /// A value that falls short of a half by less than a thousand-millionth of a step, or than four units in the last
    /// place if that is more, is taken for the half: `2.03125 in` kept in metres still rounds to 2 1/16 in.
    pub(super) fn nearest(value: f64, most: u64) -> Self {
        let size = value.abs();
        let slack = (4.0 * f64::EPSILON * size).max(1e-9);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "floored, not negative, and a cast from float stops at the ends of the range"
        )]
        let count = (libm::floor(size + 0.5 + slack) as u64).min(most);
        Self {
            negative: value < 0.0 && count > 0,
            count,
        }
    }

    pub(super) const fn minus(self) -> &'static str {
        if self.negative { "-" } else { "" }
    }

    /// As a decimal with so many places; zeros at the end are dropped down to `least_places`.
    pub(super) fn decimal(self, places: usize, least_places: usize) -> String {
        let digits = format!("{:0>width$}", self.count, width = places + 1);
        let (whole, decimals) = digits
            .split_at_checked(digits.len().saturating_sub(places))
            .unwrap_or((&digits, ""));
        let mut kept = decimals;
        while kept.len() > least_places
            && let Some(shorter) = kept.strip_suffix('0')
        {
            kept = shorter;
        }
        let point = if kept.is_empty() { "" } else { "." };
        format!("{}{whole}{point}{kept}", self.minus())
    }
}

/// `count` parts of a unit cut into `parts`, as `2 1/4`, `3/8` or `0`; `parts` a power of two.
pub(super) fn mixed_number(count: u64, parts: u64) -> String {
    let whole = count / parts;
    let (mut above, mut below) = (count % parts, parts);
    if above == 0 {
        return whole.to_string();
    }
    while above.is_multiple_of(2) {
        above /= 2;
        below /= 2;
    }
    if whole == 0 {
        format!("{above}/{below}")
    } else {
        format!("{whole} {above}/{below}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halves_go_away_from_zero() {
        for (value, negative, count) in [
            (2.5, false, 3),
            (-2.5, true, 3),
            (2.499_999, false, 2),
            (2.5 - 4.0 * f64::EPSILON, false, 3), // a hair of binary noise
            (-0.4, false, 0),                     // never "-0"
            (1e300, false, 1000),
        ] {
            assert_eq!(
                Steps::nearest(value, 1000),
                Steps { negative, count },
                "{value}"
            );
        }
    }

    #[test]
    fn decimals_keep_what_is_asked() {
        let steps = |count| Steps {
            negative: true,
            count,
        };
        assert_eq!(steps(1200).decimal(3, 2), "-1.20");
        assert_eq!(steps(1205).decimal(3, 2), "-1.205");
        assert_eq!(steps(5).decimal(2, 0), "-0.05");
        assert_eq!(steps(2000).decimal(3, 0), "-2");
        assert_eq!(steps(57).decimal(0, 0), "-57");
    }

    #[test]
    fn fractions_are_reduced() {
        assert_eq!(mixed_number(36, 16), "2 1/4");
        assert_eq!(mixed_number(15, 16), "15/16");
        assert_eq!(mixed_number(8, 8), "1");
        assert_eq!(mixed_number(0, 4), "0");
    }
}

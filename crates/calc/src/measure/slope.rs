//! How steeply a surface falls, and how the trade writes it.

pub use super::written_slope::{SlopeStyle, read_fall, write_fall};

use crate::quantity::{Length, in_metres, metres};

/// How steeply a surface falls along the run: down per along, positive away from the house (for a cross-fall: positive
/// down to the right). Always finite.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Fall(f64);

impl Fall {
    /// From down ÷ along. `None` for NaN or an infinity.
    #[must_use]
    pub fn from_ratio(ratio: f64) -> Option<Self> {
        ratio.is_finite().then_some(Self(ratio))
    }

    /// From inches down per foot along. For the trade's own figures: `value` must be finite.
    #[must_use]
    pub const fn inches_per_foot(value: f64) -> Self {
        debug_assert!(value.is_finite());
        Self(value / 12.0)
    }

    /// From a hundredth down per along: 2 % is 1 in 50. For the trade's own figures: `value` must be finite.
    #[must_use]
    pub const fn percent(value: f64) -> Self {
        debug_assert!(value.is_finite());
        Self(value / 100.0)
    }

    /// From 1 down in `along`: 1 in 48 is 1/4 in per ft. `None` if that is not finite.
    #[must_use]
    pub fn one_in(along: f64) -> Option<Self> {
        Self::from_ratio(1.0 / along)
    }

    /// From millimetres down per metre along. For the trade's own figures: `value` must be finite.
    #[must_use]
    pub const fn millimetres_per_metre(value: f64) -> Self {
        debug_assert!(value.is_finite());
        Self(value / 1000.0)
    }

    /// From the angle below the horizontal. `None` at a right angle and beyond.
    #[must_use]
    pub fn degrees(value: f64) -> Option<Self> {
        (value.abs() < 90.0)
            .then(|| libm::tan(value.to_radians()))
            .and_then(Self::from_ratio)
    }

    /// Down ÷ along.
    #[must_use]
    pub const fn ratio(self) -> f64 {
        self.0
    }

    /// Inches down per foot along.
    #[must_use]
    pub const fn as_inches_per_foot(self) -> f64 {
        self.0 * 12.0
    }

    /// Hundredths down per along.
    #[must_use]
    pub const fn as_percent(self) -> f64 {
        self.0 * 100.0
    }

    /// How far along for 1 down, negative if it rises. `None` if level.
    #[must_use]
    pub fn as_one_in(self) -> Option<f64> {
        Some(1.0 / self.0).filter(|along| along.is_finite())
    }

    /// Millimetres down per metre along.
    #[must_use]
    pub const fn as_millimetres_per_metre(self) -> f64 {
        self.0 * 1000.0
    }

    /// The angle below the horizontal, in degrees.
    #[must_use]
    pub fn as_degrees(self) -> f64 {
        libm::atan(self.0).to_degrees()
    }

    /// How far down after so far along: 1/4 in per ft over 12 ft is 3 in.
    #[must_use]
    pub fn drop_over(self, along: Length) -> Length {
        metres(self.0 * in_metres(along))
    }

    /// The fall down the steepest line of a surface that falls `self` along and `across` square to it; never negative.
    #[must_use]
    pub fn steepest_with(self, across: Self) -> Self {
        Self(libm::hypot(self.0, across.0).min(f64::MAX))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{inches, unit::foot, unit::inch};

    /// check-values A13, computed there from atan: percent and degrees to 1e-4.
    #[test]
    fn one_in_so_many_is_so_many_percent_and_degrees() {
        for (text, percent, degrees) in [
            ("1:60", 1.6667, 0.9548),
            ("1:50", 2.0, 1.1458),
            ("1:48", 2.0833, 1.1935),
            ("1:40", 2.5, 1.4321),
            ("1:20", 5.0, 2.8624),
            ("1:15", 6.6667, 3.8141),
            ("1:12", 8.3333, 4.7636),
            ("1:10", 10.0, 5.7106),
            ("1:8", 12.5, 7.1250),
        ] {
            let fall = read_fall(text).unwrap();
            assert!(
                (fall.as_percent() - percent).abs() < 1e-4,
                "{text}: {}",
                fall.as_percent()
            );
            assert!(
                (fall.as_degrees() - degrees).abs() < 1e-4,
                "{text}: {}",
                fall.as_degrees()
            );
            assert!(
                (Fall::degrees(fall.as_degrees()).unwrap().ratio() - fall.ratio()).abs() < 1e-12,
                "{text}"
            );
        }
    }

    /// check-values A14 and A15: limits are the exact 1/20, 1/12 and 1/48, not a rounded percentage.
    #[test]
    fn a_percentage_stands_on_the_right_side_of_an_exact_limit() {
        let ratio = |text| read_fall(text).unwrap().ratio();
        assert!(ratio("5.000 %") <= 1.0 / 20.0); // walk
        assert!(ratio("5.01 %") > 1.0 / 20.0); // ramp
        assert!(ratio("8.33333 %") <= 1.0 / 12.0); // ramp
        assert!(ratio("8.34 %") > 1.0 / 12.0); // neither
        assert_eq!(ratio("1 in/ft"), 1.0 / 12.0);
        assert!(ratio("1/4 in/ft") <= 1.0 / 48.0); // cross-fall passes with nothing to spare
        assert!(ratio("2.09 %") > 1.0 / 48.0);
        assert!(ratio("2.5 %") > 1.0 / 48.0);
    }

    #[track_caller]
    fn drops(text: &str, along_ft: f64, drop_in: f64) {
        let drop = read_fall(text)
            .unwrap()
            .drop_over(Length::new::<foot>(along_ft));
        assert!(
            (drop - inches(drop_in)).abs() < inches(1e-9),
            "{} in",
            drop.get::<inch>()
        );
    }

    #[test]
    fn a_fall_drops_with_the_run() {
        drops("1/4 in/ft", 4.0, 1.0); // check-values A16: 4 ft wide at 1/4 in per ft
        drops("1/4 in per ft", 12.0, 3.0); // check-values B28 (Beall, Masonry and Concrete, 2004, p. 299)
        drops("2 %", 10.0, 2.4); // check-values A23: paving against a house, 2 % over 10 ft
        drops("5 %", 10.0, 6.0); // check-values A23: soil, 6 in over 10 ft
    }

    /// check-values A22: sqrt(0.02² + 0.015²) = 0.025.
    #[test]
    fn two_falls_make_a_steeper_one() {
        let steepest = Fall::percent(2.0).steepest_with(Fall::percent(-1.5));
        assert!((steepest.as_percent() - 2.5).abs() < 1e-9);
    }
}

//! The scales that a drawing may be made at.

/// Scales in dots of the sheet for a metre on the ground, in any order; none means that every scale will do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Scales<'a>(pub &'a [f64]);

impl Scales<'_> {
    /// Every scale will do.
    pub const ANY: Self = Self(&[]);

    /// The largest that is no larger than `most`; `most` itself where there is none.
    pub fn largest_within(self, most: f64) -> f64 {
        // A scale that fits to the last bit fits.
        let fitting = self
            .0
            .iter()
            .filter(|scale| **scale <= most * (1.0 + 1e-12));
        let largest = fitting.copied().fold(0.0, f64::max);
        if largest > 0.0 { largest } else { most }
    }

    /// Whether it is one of them.
    pub fn holds(self, dots_per_metre: f64) -> bool {
        self.0
            .iter()
            .any(|scale| (scale - dots_per_metre).abs() <= 1e-9 * scale.abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_largest_that_fits_is_taken() {
        let scales = Scales(&[500.0, 250.0, 1000.0]);
        assert!((scales.largest_within(700.0) - 500.0).abs() < 1e-9);
        assert!((scales.largest_within(500.0) - 500.0).abs() < 1e-9);
        // None fits: as large as it can be.
        assert!((scales.largest_within(90.0) - 90.0).abs() < 1e-9);
        assert!((Scales::ANY.largest_within(333.0) - 333.0).abs() < 1e-9);
        assert!(scales.holds(250.0) && !scales.holds(90.0) && !Scales::ANY.holds(90.0));
    }
}

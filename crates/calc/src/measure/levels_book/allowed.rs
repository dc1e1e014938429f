//! How large a misclosure may be.

use crate::quantity::unit::foot;
use crate::quantity::{Length, feet, in_metres, inches, metres};

/// The largest misclosure that is let pass where no limit was written down: 1/8 in.
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn default_limit() -> Length {
    inches(0.125)
}

/// 5 mm times the square root of the number of set-ups, for information.
///
/// # Source
/// Site practice, from memory (check-values L10).
#[must_use]
pub fn allowed_by_set_ups(n_set_ups: usize) -> Length {
    let count = u32::try_from(n_set_ups).unwrap_or(u32::MAX);
    metres(0.005 * f64::from(count).sqrt())
}

/// 0.05 ft times the square root of the distance levelled in miles, for information. Zero for a distance below zero.
///
/// # Source
/// Engineering Aid course of the US Navy, as given in its answer key (check-values L9).
#[must_use]
pub fn allowed_by_distance(distance: Length) -> Length {
    let miles = (distance.get::<foot>() / 5280.0).max(0.0);
    debug_assert!(in_metres(distance).is_finite(), "a distance is a number");
    feet(0.05 * miles.sqrt())
}

/// 12 mm times the square root of the distance levelled in kilometres, for information: third-order levelling, meant for long lines.
/// Zero for a distance below zero.
///
/// # Source
/// Third-order levelling, from memory (check-values L8).
#[must_use]
pub fn allowed_third_order(distance: Length) -> Length {
    let kilometres = (in_metres(distance) / 1000.0).max(0.0);
    metres(0.012 * kilometres.sqrt())
}

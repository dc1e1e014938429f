//! Why a soil cannot be named from its tests.

use crate::field::full_name;
use crate::measure::amount::plain;
use crate::place::Place;

/// Why a soil cannot be named, with field, value and limit.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum SoilError {
    /// NaN, an infinity, or outside 0 to 100 %.
    #[error("{}: {} % is not between 0 and 100 %", full_name(*.place), plain(*.value))]
    NotAShare {
        /// Which share.
        place: Place,
        /// As given.
        value: f64,
    },
    /// The shares of all grains are not 100 %.
    #[error("{what} add up to {} %, and not to 100 % within 1 %", plain(*.sum))]
    Sum {
        /// Whose shares.
        what: &'static str,
        /// Where the first of them stands.
        place: Place,
        /// What they add up to.
        sum: f64,
    },
    /// The liquid limit lies below the plastic limit.
    #[error(
        "Liquid limit: {} % is below the plastic limit, {} %",
        plain(*.liquid),
        plain(*.plastic)
    )]
    LiquidBelowPlastic {
        /// Liquid limit.
        liquid: f64,
        /// Plastic limit.
        plastic: f64,
    },
    /// Not a number, negative or not finite.
    #[error("{}: {} is not a number above zero", full_name(*.place), plain(*.value))]
    NotPositive {
        /// Which value.
        place: Place,
        /// As given.
        value: f64,
    },
    /// Grain sizes that do not grow.
    #[error(
        "{}: {} mm is less than {}, {} mm",
        full_name(*.place),
        plain(*.value),
        full_name(*.below),
        plain(*.limit)
    )]
    SizesOutOfOrder {
        /// The larger size by name.
        place: Place,
        /// As given.
        value: f64,
        /// The smaller size by name.
        below: Place,
        /// As given.
        limit: f64,
    },
    /// Something is not known that the name hangs on.
    #[error("{} is not known", full_name(*.place))]
    Missing {
        /// What is missing.
        place: Place,
    },
}

impl SoilError {
    /// Where the value stands that is wrong or missing.
    #[must_use]
    pub const fn place(&self) -> Place {
        match self {
            Self::NotAShare { place, .. }
            | Self::Sum { place, .. }
            | Self::NotPositive { place, .. }
            | Self::SizesOutOfOrder { place, .. }
            | Self::Missing { place } => *place,
            Self::LiquidBelowPlastic { .. } => Place::LiquidLimit,
        }
    }
}

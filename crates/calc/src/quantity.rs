//! The quantities that cross crate borders. The types are the units library's; the volumes and masses that are bought go through
//! our own exact factors, because the library rounds the cubic yard and the pound to seven figures.

pub use uom::si::f64::{Angle, Area, Length, Mass, MassDensity, Volume};

/// Units whose factor in the library is exact, to name in `Length::new::<inch>(…)` and `.get::<inch>()`.
pub mod unit {
    pub use uom::si::angle::{degree, radian};
    pub use uom::si::area::{square_foot, square_meter};
    pub use uom::si::length::{centimeter, foot, inch, meter, millimeter, yard};
    pub use uom::si::mass::{kilogram, ton as tonne};
    pub use uom::si::mass_density::kilogram_per_cubic_meter;
    pub use uom::si::volume::cubic_meter;
}

/// Cubic metres in a cubic foot: 0.3048³, exact.
pub const CUBIC_FOOT_M3: f64 = 0.028_316_846_592;
/// Cubic metres in a cubic yard: 0.9144³, exact.
pub const CUBIC_YARD_M3: f64 = 0.764_554_857_984;
/// Kilograms in a pound, exact by the international agreement of 1959.
pub const POUND_KG: f64 = 0.453_592_37;

/// A length of so many metres: for the end of a formula that worked in plain numbers.
#[must_use]
pub fn metres(value_m: f64) -> Length {
    Length::new::<unit::meter>(value_m)
}

/// A length of so many inches: for the trade's own defaults.
#[must_use]
pub fn inches(value_in: f64) -> Length {
    Length::new::<unit::inch>(value_in)
}

/// A length of so many feet.
#[must_use]
pub fn feet(value_ft: f64) -> Length {
    Length::new::<unit::foot>(value_ft)
}

/// A length of so many millimetres.
#[must_use]
pub fn millimetres(value_mm: f64) -> Length {
    Length::new::<unit::millimeter>(value_mm)
}

/// A length as a plain number of metres: for the start of a formula.
#[must_use]
pub fn in_metres(length: Length) -> f64 {
    length.get::<unit::meter>()
}

/// A volume of so many cubic metres.
#[must_use]
pub fn cubic_metres(value_m3: f64) -> Volume {
    Volume::new::<unit::cubic_meter>(value_m3)
}

/// A volume as a plain number of cubic metres.
#[must_use]
pub fn in_cubic_metres(volume: Volume) -> f64 {
    volume.get::<unit::cubic_meter>()
}

/// A volume in cubic feet.
#[must_use]
pub fn in_cubic_feet(volume: Volume) -> f64 {
    in_cubic_metres(volume) / CUBIC_FOOT_M3
}

/// A volume in cubic yards.
#[must_use]
pub fn in_cubic_yards(volume: Volume) -> f64 {
    in_cubic_metres(volume) / CUBIC_YARD_M3
}

/// An area of so many square metres.
#[must_use]
pub fn square_metres(value_m2: f64) -> Area {
    Area::new::<unit::square_meter>(value_m2)
}

/// A mass in short tons of 2,000 lb.
#[must_use]
pub fn in_short_tons(mass: Mass) -> f64 {
    mass.get::<unit::kilogram>() / (2000.0 * POUND_KG)
}

/// A density from kilograms per cubic metre.
#[must_use]
pub fn kilograms_per_cubic_metre(value: f64) -> MassDensity {
    MassDensity::new::<unit::kilogram_per_cubic_meter>(value)
}

#[cfg(test)]
mod tests {
    use super::unit::{foot, inch, kilogram, millimeter, square_foot, square_meter, yard};
    use super::*;

    #[track_caller]
    fn check(value: f64, expected: f64, relative: f64) {
        assert!(
            ((value - expected) / expected).abs() <= relative,
            "{value} instead of {expected}"
        );
    }

    /// Exact factors: NIST SP 811, check values U1 to U4, U7, U8, U13, U14.
    #[test]
    fn units_are_the_published_ones() {
        check(inches(1.0).get::<millimeter>(), 25.4, 1e-15);
        check(in_metres(feet(1.0)), 0.3048, 1e-15);
        check(in_metres(Length::new::<yard>(1.0)), 0.9144, 1e-15);
        check(
            Area::new::<square_foot>(1.0).get::<square_meter>(),
            0.092_903_04,
            1e-12,
        );
        check(CUBIC_FOOT_M3, 0.3048 * 0.3048 * 0.3048, 1e-15);
        check(CUBIC_YARD_M3, 0.9144 * 0.9144 * 0.9144, 1e-15);
        check(
            in_cubic_yards(cubic_metres(CUBIC_FOOT_M3)),
            1.0 / 27.0,
            1e-12,
        );
        check(in_short_tons(Mass::new::<kilogram>(907.184_74)), 1.0, 1e-12);
        check(POUND_KG / CUBIC_FOOT_M3, 16.018_463_373_96, 1e-9); // lb/ft³ in kg/m³
        check(2000.0 * POUND_KG / CUBIC_YARD_M3, 1186.5528, 1e-6); // short ton/yd³ in kg/m³
        check((feet(12.0) + inches(6.375)).get::<foot>(), 12.531_25, 1e-12);
        check(
            (feet(12.0) + inches(6.375)).get::<millimeter>(),
            3819.525,
            1e-12,
        );
        check((feet(5.0) + inches(7.5)).get::<inch>(), 67.5, 1e-12);
    }

    /// Check values E29 to E33: the volumes and the weight of a base as handbooks work them.
    #[test]
    fn volumes_and_weights_read_as_in_a_handbook() {
        let thin =
            square_metres(Area::new::<square_foot>(100.0).get::<square_meter>()) * inches(4.0);
        check(in_cubic_feet(thin), 33.3333, 1e-4);
        check(in_cubic_yards(thin), 1.2346, 1e-4);
        let base = feet(4.0) * feet(30.0) * inches(4.0);
        check(in_cubic_yards(base), 1.4815, 1e-4);
        let weight = base * kilograms_per_cubic_metre(135.0 * POUND_KG / CUBIC_FOOT_M3);
        check(in_short_tons(weight), 2.70, 1e-9);
    }
}

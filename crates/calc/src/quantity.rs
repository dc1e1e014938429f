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

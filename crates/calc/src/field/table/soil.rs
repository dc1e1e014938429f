//! Rows of the soil and of the frost.

use super::{in_inches, row};
use crate::field::{Field, Kind};
use crate::measure::amount::AmountUnit;
use crate::place::Place;

/// What an empty value of the soil means: tests are made where there is a doubt, and not everywhere.
const NOT_TESTED: &str = "not tested";

pub(super) fn field(place: Place) -> Field {
    match place {
        Place::SoilSand
        | Place::SoilSilt
        | Place::SoilClay
        | Place::LiquidLimit
        | Place::PlasticLimit
        | Place::Fines
        | Place::SieveSand
        | Place::SieveGravel
        | Place::GrainD10
        | Place::GrainD30
        | Place::GrainD60
        | Place::FinerThan002 => soil(place).or_else(NOT_TESTED),
        Place::FrostDepth
        | Place::FreezingIndex
        | Place::FreezingDays
        | Place::SurfaceFactor
        | Place::MeanTemperature
        | Place::DryDensity
        | Place::WaterContent
        | Place::Conductivity => frost(place),
        _ => row(
            "Soil and frost",
            "What the ground under the walk is, and how deep it freezes.",
            Kind::Thing,
        ),
    }
}

fn soil(place: Place) -> Field {
    match place {
        Place::SoilSand => row(
            "Sand",
            "Grains of 0.05 to 2 mm, of all up to 2 mm: from a laboratory, or by settling in a jar.",
            percent(100.0),
        ),
        Place::SoilSilt => row(
            "Silt",
            "Grains of 0.002 to 0.05 mm, of all up to 2 mm.",
            percent(100.0),
        ),
        Place::SoilClay => row(
            "Clay",
            "Grains under 0.002 mm, of all up to 2 mm.",
            percent(100.0),
        ),
        Place::LiquidLimit => row(
            "Liquid limit",
            "Water at which the soil begins to flow, from a laboratory.",
            percent(500.0),
        ),
        Place::PlasticLimit => row(
            "Plastic limit",
            "Water at which a 1/8 in thread crumbles. A soil that rolls no thread has its liquid limit here too.",
            percent(500.0),
        ),
        Place::Fines => row(
            "Fines",
            "What passes the No. 200 sieve, 0.075 mm.",
            percent(100.0),
        ),
        Place::SieveSand => row(
            "Sieved sand",
            "What passes the No. 4 sieve, 4.75 mm, and stays on the No. 200.",
            percent(100.0),
        ),
        Place::SieveGravel => row(
            "Sieved gravel",
            "What stays on the No. 4 sieve, 4.75 mm. Empty is what is left to 100 %.",
            percent(100.0),
        ),
        Place::GrainD10 => row(
            "Grain size D10",
            "A tenth of the soil by weight is finer.",
            grain(),
        ),
        Place::GrainD30 => row(
            "Grain size D30",
            "Three tenths of the soil by weight are finer.",
            grain(),
        ),
        Place::GrainD60 => row(
            "Grain size D60",
            "Six tenths of the soil by weight are finer.",
            grain(),
        ),
        _ => row(
            "Finer than 0.02 mm",
            "From a laboratory's hydrometer: how the soil will heave hangs on it.",
            percent(100.0),
        ),
    }
}

fn frost(place: Place) -> Field {
    match place {
        Place::FrostDepth => row(
            "Local frost depth",
            "What the local building office or code says. It is taken over any that is computed.",
            in_inches(0.0, 180.0),
        )
        .or_else("not asked"),
        Place::FreezingIndex => row(
            "Freezing index",
            "Degrees below freezing times days, of the air in a cold winter, from climate tables.",
            number(AmountUnit::FahrenheitDays, 1.0, 12_000.0),
        )
        .or_else("not known"),
        Place::FreezingDays => row(
            "Freezing season",
            "Days from first to last lasting frost, from climate tables.",
            number(AmountUnit::Days, 1.0, 365.0),
        )
        .or_else("not known"),
        Place::SurfaceFactor => row(
            "Surface factor",
            "Freezing index of the surface by that of the air. A shovelled walk freezes as the air does, snow keeps it warmer.",
            number(AmountUnit::Percent, 10.0, 120.0),
        )
        .or_else("100 %"),
        Place::MeanTemperature => row(
            "Mean temperature",
            "Mean of the air over the year, from climate tables.",
            number(AmountUnit::Fahrenheit, -22.0, 95.0),
        )
        .or_else("not known"),
        Place::DryDensity => row(
            "Dry density",
            "Weight of the dry ground in place; clays 90 to 100 lb/ft3, gravels 120 to 140 (Pavement Interactive).",
            number(AmountUnit::PoundsPerCubicFoot, 20.0, 160.0),
        )
        .or_else("not known"),
        Place::WaterContent => row(
            "Water content",
            "Water by weight of the dry soil, before winter: weigh, dry in an oven, weigh again.",
            percent(200.0),
        )
        .or_else("not known"),
        _ => row(
            "Conductivity",
            "How well the ground leads heat, mean of frozen and unfrozen.",
            number(AmountUnit::BtuPerHourFootFahrenheit, 0.05, 3.0),
        )
        .or_else("from density and water"),
    }
}

fn percent(most: f64) -> Kind {
    number(AmountUnit::Percent, 0.0, most)
}

fn grain() -> Kind {
    number(AmountUnit::Millimetre, 0.000_01, 300.0)
}

fn number(unit: AmountUnit, least: f64, most: f64) -> Kind {
    Kind::Number { unit, least, most }
}

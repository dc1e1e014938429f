//! Values of a price list that are written as texts, so that a cent stays a cent and nothing is without its unit.

use std::fmt;
use std::marker::PhantomData;

use rust_decimal::prelude::ToPrimitive as _;
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer};
use underbrick_calc::measure::decimal::read_decimal;
use underbrick_calc::order::{Currency, Decimal, Holds, Item, SaleUnit, Stage};
use underbrick_calc::quantity::unit::kilogram_per_cubic_meter;
use underbrick_calc::quantity::{CUBIC_FOOT_M3, Mass, MassDensity, POUND_KG, Volume};

/// Something that is read from a text.
pub(super) trait FromText: Sized {
    /// What is expected, for an error.
    const EXPECTED: &'static str;

    /// From the text, or why not.
    fn from_text(text: &str) -> Result<Self, String>;
}

/// A value that is written as a text.
pub(super) struct Texted<T>(pub T);

impl<'de, T: FromText> Deserialize<'de> for Texted<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader<T>(PhantomData<T>);
        impl<T: FromText> Visitor<'_> for Reader<T> {
            type Value = Texted<T>;

            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str(T::EXPECTED)
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Texted<T>, E> {
                T::from_text(text)
                    .map(Texted)
                    .map_err(|reason| E::custom(format!("{text:?}: {reason}")))
            }
        }
        // A number without quotes is told what is expected.
        deserializer.deserialize_any(Reader(PhantomData))
    }
}

/// A decimal number from zero on.
pub(super) struct FromZero(pub Decimal);

impl FromText for FromZero {
    const EXPECTED: &'static str = "a number in quotes, such as \"8.5\"";

    fn from_text(text: &str) -> Result<Self, String> {
        read_decimal(text)
            .map(Self)
            .map_err(|error| error.to_string())
    }
}

/// A decimal number above zero.
pub(super) struct AboveZero(pub Decimal);

impl FromText for AboveZero {
    const EXPECTED: &'static str = "a number above zero in quotes, such as \"0.5\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let FromZero(number) = FromZero::from_text(text)?;
        if number.is_zero() {
            return Err("it is not above zero".to_owned());
        }
        Ok(Self(number))
    }
}

/// Hours of a day's work: above 0, no more than 24.
pub(super) struct HoursADay(pub Decimal);

impl FromText for HoursADay {
    const EXPECTED: &'static str = "hours in quotes, above 0 and no more than 24";

    fn from_text(text: &str) -> Result<Self, String> {
        let AboveZero(hours) = AboveZero::from_text(text)?;
        if hours > Decimal::from(24) {
            return Err("a day has 24 hours".to_owned());
        }
        Ok(Self(hours))
    }
}

/// A share from 0 to 100 percent.
pub(super) struct Percent(pub Decimal);

impl FromText for Percent {
    const EXPECTED: &'static str = "a percentage in quotes, from \"0\" to \"100\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let FromZero(percent) = FromZero::from_text(text)?;
        if percent > Decimal::ONE_HUNDRED {
            return Err("it is above the most that can be true, 100 %".to_owned());
        }
        Ok(Self(percent))
    }
}

/// A margin: below 100 percent of the price.
pub(super) struct MarginPercent(pub Decimal);

impl FromText for MarginPercent {
    const EXPECTED: &'static str = "a percentage in quotes, below \"100\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let FromZero(percent) = FromZero::from_text(text)?;
        if percent >= Decimal::ONE_HUNDRED {
            return Err("a margin is a share of the price, and below 100 %".to_owned());
        }
        Ok(Self(percent))
    }
}

/// A mark-up on the cost.
pub(super) struct MarkUpPercent(pub Decimal);

impl FromText for MarkUpPercent {
    const EXPECTED: &'static str = "a percentage in quotes, from \"0\" to \"1000\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let FromZero(percent) = FromZero::from_text(text)?;
        if percent > Decimal::ONE_THOUSAND {
            return Err("a mark-up is a share of the cost, and no more than 1000 %".to_owned());
        }
        Ok(Self(percent))
    }
}

/// Loose volume by compacted volume, from 1 to 2.
pub(super) struct Ratio(pub f64);

impl FromText for Ratio {
    const EXPECTED: &'static str = "a ratio in quotes, from \"1\" to \"2\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let FromZero(ratio) = FromZero::from_text(text)?;
        ratio
            .to_f64()
            .filter(|ratio| (1.0..=2.0).contains(ratio))
            .map(Self)
            .ok_or_else(|| "loose to compacted is from 1 to 2".to_owned())
    }
}

/// Who sells something.
pub(super) struct Supplier(pub String);

impl FromText for Supplier {
    const EXPECTED: &'static str = "the name of a supplier in quotes";

    fn from_text(text: &str) -> Result<Self, String> {
        let name = text.trim();
        if name.is_empty() {
            return Err("the supplier has no name".to_owned());
        }
        Ok(Self(name.to_owned()))
    }
}

/// What a truck or a trailer may carry.
pub(super) struct Payload(pub Mass);

impl FromText for Payload {
    const EXPECTED: &'static str = "a weight with its unit in quotes, such as \"3000 lb\"";

    fn from_text(text: &str) -> Result<Self, String> {
        match Holds::from_text(text)? {
            Holds::Mass(mass) => Ok(Self(mass)),
            _ => Err("a weight is wanted, such as \"3000 lb\"".to_owned()),
        }
    }
}

/// What a box or a barrow holds.
pub(super) struct BoxVolume(pub Volume);

impl FromText for BoxVolume {
    const EXPECTED: &'static str = "a volume with its unit in quotes, such as \"3 yd3\"";

    fn from_text(text: &str) -> Result<Self, String> {
        match Holds::from_text(text)? {
            Holds::Volume(volume) => Ok(Self(volume)),
            _ => Err("a volume is wanted, such as \"3 yd3\"".to_owned()),
        }
    }
}

/// A price for one unit: `28.50 per ton`.
pub(super) struct PriceText {
    pub rate: Decimal,
    pub unit: SaleUnit,
}

impl FromText for PriceText {
    const EXPECTED: &'static str = "a price with its unit in quotes, such as \"28.50 per ton\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = text.split_once(" per ").ok_or_else(|| {
            format!(
                "the unit of sale is missing; write it behind, such as \"{} per ton\"",
                text.trim()
            )
        })?;
        let rate = read_decimal(number).map_err(|error| error.to_string())?;
        if rate.is_zero() {
            return Err("a price is above zero".to_owned());
        }
        Ok(Self {
            rate,
            unit: unit_of(unit)?,
        })
    }
}

/// Hours for one unit, or for the job as a whole: `1.5 per yd3`, `3`.
pub(super) struct HoursText {
    pub hours: Decimal,
    pub per: Option<SaleUnit>,
}

impl FromText for HoursText {
    const EXPECTED: &'static str = "hours in quotes, such as \"1.5 per yd3\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, per) = match text.split_once(" per ") {
            Some((number, unit)) => (number, Some(unit_of(unit)?)),
            None => (text, None),
        };
        let hours = read_decimal(number).map_err(|error| error.to_string())?;
        Ok(Self { hours, per })
    }
}

/// What something holds, or carries: `0.6 ft3`, `510 pieces`.
impl FromText for Holds {
    const EXPECTED: &'static str = "an amount with its unit in quotes, such as \"0.6 ft3\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = number_and_unit(text)?;
        let unit = unit_of(unit)?;
        let number = number.to_f64().unwrap_or(f64::NAN);
        unit.holds(number).ok_or_else(|| {
            "it is above zero, in a unit of volume, weight, length or area, or a whole number of pieces".to_owned()
        })
    }
}

/// A density: `100 lb/ft3` or `1600 kg/m3`.
impl FromText for MassDensity {
    const EXPECTED: &'static str = "a density with its unit in quotes, such as \"100 lb/ft3\"";

    fn from_text(text: &str) -> Result<Self, String> {
        let (number, unit) = number_and_unit(text)?;
        let times = match unit {
            "lb/ft3" | "lb/ft³" => POUND_KG / CUBIC_FOOT_M3,
            "kg/m3" | "kg/m³" => 1.0,
            other => return Err(format!("the unit {other:?} is not known: lb/ft3 or kg/m3")),
        };
        let kg_per_m3 = number.to_f64().unwrap_or(f64::NAN) * times;
        if (100.0..=5000.0).contains(&kg_per_m3) {
            Ok(Self::new::<kilogram_per_cubic_meter>(kg_per_m3))
        } else {
            Err("no building material is so light or so heavy: 100 to 5000 kg/m3, 6.2 to 312 lb/ft3".to_owned())
        }
    }
}

impl FromText for Currency {
    const EXPECTED: &'static str = "a currency by its code of three letters";

    fn from_text(text: &str) -> Result<Self, String> {
        Self::of(text).ok_or_else(|| {
            let known: Vec<&str> = underbrick_calc::order::CURRENCIES
                .iter()
                .map(|currency| currency.code)
                .collect();
            format!("the currency is not known: {}", known.join(", "))
        })
    }
}

impl FromText for Item {
    const EXPECTED: &'static str = "an item of the order, such as \"base\"";

    fn from_text(text: &str) -> Result<Self, String> {
        Self::of(text).ok_or_else(|| {
            let known: Vec<&str> = Self::ALL.iter().map(|item| item.key()).collect();
            format!("no item is called so: {}", known.join(", "))
        })
    }
}

impl FromText for Stage {
    const EXPECTED: &'static str = "a stage of the work, such as \"dig\"";

    fn from_text(text: &str) -> Result<Self, String> {
        Self::of(text).ok_or_else(|| {
            let known: Vec<&str> = Self::ALL.iter().map(|stage| stage.key()).collect();
            format!("no stage is called so: {}", known.join(", "))
        })
    }
}

fn number_and_unit(text: &str) -> Result<(Decimal, &str), String> {
    let (number, unit) = text.trim().split_once(' ').ok_or_else(|| {
        "the unit is missing; write it behind the number, with a space".to_owned()
    })?;
    let number = read_decimal(number).map_err(|error| error.to_string())?;
    Ok((number, unit.trim()))
}

fn unit_of(word: &str) -> Result<SaleUnit, String> {
    SaleUnit::of(word).ok_or_else(|| {
        let known: Vec<&str> = SaleUnit::ALL.iter().map(|unit| unit.key()).collect();
        format!(
            "the unit {:?} is not known: {}",
            word.trim(),
            known.join(", ")
        )
    })
}

//! Amounts that are no length, fall or angle, as people write them: percentages, grain sizes, freezing indices, temperatures,
//! densities, conductivities, days.

use super::reader::Reader;
use super::written::WrittenError;
use crate::site::ShownIn;

/// What is counted, in which unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountUnit {
    /// Hundredths.
    Percent,
    /// Grain size in millimetres, on every site.
    Millimetre,
    /// Freezing index in degrees Fahrenheit below 32, times days.
    FahrenheitDays,
    /// Temperature in degrees Fahrenheit.
    Fahrenheit,
    /// Density in pounds per cubic foot.
    PoundsPerCubicFoot,
    /// Conductivity in Btu per hour, foot and degree Fahrenheit.
    BtuPerHourFootFahrenheit,
    /// Days.
    Days,
}

/// An amount that is a number, with its unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    number: f64,
    unit: AmountUnit,
}

impl Amount {
    /// So many of a unit. `None` for NaN or an infinity.
    #[must_use]
    pub fn new(number: f64, unit: AmountUnit) -> Option<Self> {
        number.is_finite().then_some(Self { number, unit })
    }

    /// How many of its [`Amount::unit`]. Always finite.
    #[must_use]
    pub const fn number(self) -> f64 {
        self.number
    }

    /// What it counts.
    #[must_use]
    pub const fn unit(self) -> AmountUnit {
        self.unit
    }
}

/// One way to write a unit: the amount is number × `times` + `plus`.
struct Way {
    symbol: &'static str,
    /// In small letters, without spaces, points and dashes.
    names: &'static [&'static str],
    times: f64,
    plus: f64,
}

impl AmountUnit {
    /// The ways to write it, that of feet and inches first; a second one is that of metric sites.
    ///
    /// # Source
    /// NIST SP 811: 1 lb/ft³ = 0.45359237 kg ÷ 0.3048³ m³; 1 Btu(IT)/(h·ft·°F) = 1.730735 W/(m·K); 1 °C = 1.8 °F.
    const fn ways(self) -> &'static [Way] {
        const fn way(symbol: &'static str, names: &'static [&'static str], times: f64) -> Way {
            Way {
                symbol,
                names,
                times,
                plus: 0.0,
            }
        }
        const PERCENT: [Way; 1] = [way("%", &["%", "percent"], 1.0)];
        const MILLIMETRE: [Way; 1] = [way("mm", &["mm"], 1.0)];
        const INDEX: [Way; 2] = [
            way(
                "°F days",
                &["°fdays", "degfdays", "fdays", "°fday", "degfday"],
                1.0,
            ),
            way(
                "°C days",
                &["°cdays", "degcdays", "cdays", "°cday", "degcday"],
                1.8,
            ),
        ];
        const TEMPERATURE: [Way; 2] = [
            way("°F", &["°f", "degf", "f"], 1.0),
            Way {
                symbol: "°C",
                names: &["°c", "degc", "c"],
                times: 1.8,
                plus: 32.0,
            },
        ];
        const DENSITY: [Way; 2] = [
            way("lb/ft3", &["lb/ft3", "lb/ft³", "pcf"], 1.0),
            way("kg/m3", &["kg/m3", "kg/m³"], 1.0 / 16.018_463_373_960_14),
        ];
        const CONDUCTIVITY: [Way; 2] = [
            way(
                "Btu/h ft °F",
                &["btu/hft°f", "btu/hrft°f", "btu/hftf", "btu/hftdegf"],
                1.0,
            ),
            way("W/m K", &["w/mk", "w/(mk)"], 1.0 / 1.730_735),
        ];
        const DAYS: [Way; 1] = [way("days", &["days", "day", "d"], 1.0)];
        match self {
            Self::Percent => &PERCENT,
            Self::Millimetre => &MILLIMETRE,
            Self::FahrenheitDays => &INDEX,
            Self::Fahrenheit => &TEMPERATURE,
            Self::PoundsPerCubicFoot => &DENSITY,
            Self::BtuPerHourFootFahrenheit => &CONDUCTIVITY,
            Self::Days => &DAYS,
        }
    }

    fn way(self, shown_in: ShownIn) -> Option<&'static Way> {
        match shown_in {
            ShownIn::FeetInches => self.ways().first(),
            ShownIn::Metric => self.ways().last(),
        }
    }

    /// What a number without a unit counts on such a site: `%`, `°F days`, `kg/m3`.
    #[must_use]
    pub fn symbol(self, shown_in: ShownIn) -> &'static str {
        self.way(shown_in).map_or("", |way| way.symbol)
    }

    /// Every unit that may be written, that of feet and inches first.
    pub fn symbols(self) -> impl Iterator<Item = &'static str> {
        self.ways().iter().map(|way| way.symbol)
    }
}

/// The amount that a person wrote, in any unit of its kind: `35 %`, `-2,5 °C`, `1250 degF days`, `100 lb/ft3`.
///
/// # Errors
/// The first thing from the left that was not understood; [`WrittenError::NoUnit`] for a bare number.
pub fn read_amount(text: &str, unit: AmountUnit) -> Result<Amount, WrittenError> {
    let unit_at = text
        .find(|letter: char| letter.is_alphabetic() || matches!(letter, '%' | '°' | 'º'))
        .unwrap_or(text.len());
    let (number_text, unit_text) = text.split_at(unit_at);
    let not_understood = |what: &str| WrittenError::NotUnderstood {
        what: what.trim().chars().take(20).collect(),
        character: number_text.chars().count() + 1,
    };
    if number_text.trim().is_empty() && !unit_text.is_empty() {
        return Err(not_understood(unit_text));
    }
    let mut reader = Reader::of(number_text)?;
    let negative = reader.sign();
    let number = reader.number()?;
    reader.end()?;
    let written: String = unit_text
        .chars()
        .filter(|letter| !letter.is_whitespace() && !matches!(letter, '.' | '-' | '·' | '*'))
        .map(|letter| if letter == 'º' { '°' } else { letter })
        .flat_map(char::to_lowercase)
        .collect();
    if written.is_empty() {
        return Err(WrittenError::NoUnit {
            character: number.character,
        });
    }
    let way = unit
        .ways()
        .iter()
        .find(|way| way.names.contains(&written.as_str()))
        .ok_or_else(|| not_understood(unit_text))?;
    let value = if negative {
        number.value.negated()
    } else {
        number.value
    };
    Amount::new(value.nearest() * way.times + way.plus, unit)
        .ok_or_else(|| not_understood(number_text))
}

/// The amount as a site shows it, to four figures: `37.2 °F`, `15 %`, `1602 kg/m3`.
#[must_use]
pub fn write_amount(amount: Amount, shown_in: ShownIn) -> String {
    let Some(way) = amount.unit.way(shown_in) else {
        return amount.number.to_string();
    };
    format!(
        "{} {}",
        plain((amount.number - way.plus) / way.times),
        way.symbol
    )
}

/// A number to four figures, and to four decimals at most; whole from a thousand on. Zero carries no sign.
#[must_use]
pub fn plain(number: f64) -> String {
    let decimals = match number.abs() {
        size if size >= 1000.0 => 0,
        size if size >= 100.0 => 1,
        size if size >= 10.0 => 2,
        size if size >= 1.0 => 3,
        _ => 4,
    };
    let written = format!("{number:.decimals$}");
    let short = if written.contains('.') {
        written.trim_end_matches('0').trim_end_matches('.')
    } else {
        written.as_str()
    };
    if short == "-0" { "0" } else { short }.to_owned()
}

#[cfg(test)]
mod tests {
    use super::AmountUnit::*;
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn reads(text: &str, unit: AmountUnit, expected: f64) {
        let read = read_amount(text, unit).unwrap();
        assert!(
            (read.number() - expected).abs() <= 1e-6 * expected.abs().max(1.0),
            "{text}: {read:?}"
        );
        assert_eq!(read.unit(), unit);
    }

    #[test]
    fn every_unit_is_read() {
        reads("35 %", Percent, 35.0);
        reads("12½%", Percent, 12.5);
        reads("0.075 mm", Millimetre, 0.075);
        reads("2500 degF days", FahrenheitDays, 2500.0);
        reads("2500 °F-days", FahrenheitDays, 2500.0);
        reads("500 °C days", FahrenheitDays, 900.0); // × 1.8
        reads("37.2 °F", Fahrenheit, 37.2);
        reads("0 °C", Fahrenheit, 32.0);
        reads("-40 deg C", Fahrenheit, -40.0);
        reads("100 lb/ft3", PoundsPerCubicFoot, 100.0);
        reads("100 pcf", PoundsPerCubicFoot, 100.0);
        // NIST SP 811, check value U7: 1 lb/ft³ = 16.01846 kg/m³.
        reads("1601.846 kg/m³", PoundsPerCubicFoot, 100.0);
        reads("0.76 Btu/h ft °F", BtuPerHourFootFahrenheit, 0.76);
        reads("1.730735 W/m K", BtuPerHourFootFahrenheit, 1.0);
        reads("160 days", Days, 160.0);
    }

    /// Check values U7, U10, U11, by a units library that knows nothing of ours; it keeps pounds and Btu to seven figures.
    #[test]
    fn amounts_convert_as_a_units_library_does() {
        use uom::si::f64::{Energy, Length, MassDensity, TemperatureInterval, Time};
        use uom::si::mass_density::{kilogram_per_cubic_meter, pound_per_cubic_foot};
        use uom::si::temperature_interval::{degree_celsius, degree_fahrenheit, kelvin};
        use uom::si::{energy, length, time};

        let pcf = MassDensity::new::<pound_per_cubic_foot>(100.0).get::<kilogram_per_cubic_meter>();
        reads(&format!("{pcf:.6} kg/m3"), PoundsPerCubicFoot, 100.0);
        let degree = TemperatureInterval::new::<degree_fahrenheit>(1.0);
        let joule = Energy::new::<energy::btu_it>(1.0).get::<energy::joule>();
        let second = Time::new::<time::hour>(1.0).get::<time::second>();
        let metre = Length::new::<length::foot>(1.0).get::<length::meter>();
        let conductivity = joule / (second * metre * degree.get::<kelvin>());
        assert!((conductivity - 1.730_735).abs() < 1e-6, "{conductivity}");
        reads(
            &format!("{conductivity:.9} W/m K"),
            BtuPerHourFootFahrenheit,
            1.0,
        );
        // An index is a sum of differences: 5/9, and no 32 anywhere.
        let celsius_days = 2500.0 * degree.get::<degree_celsius>();
        assert!((celsius_days - 2500.0 * 5.0 / 9.0).abs() < 1e-9);
        reads(
            &format!("{celsius_days:.9} °C days"),
            FahrenheitDays,
            2500.0,
        );
        let none = read_amount("0 °C days", FahrenheitDays).unwrap();
        assert!(none.number().abs() < 1e-12, "{none:?}");
    }

    #[track_caller]
    fn refuses(text: &str, unit: AmountUnit, words: &str) {
        assert_eq!(
            read_amount(text, unit).unwrap_err().to_string(),
            words,
            "{text:?}"
        );
    }

    #[test]
    fn anything_else_is_refused() {
        refuses("", Percent, "nothing is written here");
        refuses("35", Percent, "the number at character 1 has no unit");
        refuses("35 mm", Percent, "“mm” at character 4 was not understood");
        refuses("%", Percent, "“%” at character 1 was not understood");
        refuses(
            "NaN %",
            Percent,
            "“NaN %” at character 1 was not understood",
        );
        refuses("3 4 %", Percent, "“4” at character 3 was not understood");
        refuses("35 %%", Percent, "“%%” at character 4 was not understood");
    }

    #[test]
    fn an_amount_is_written_as_its_site_shows_it() {
        let writes = |number, unit, feet: &str, metric: &str| {
            let amount = Amount::new(number, unit).unwrap();
            assert_eq!(write_amount(amount, ShownIn::FeetInches), feet);
            assert_eq!(write_amount(amount, ShownIn::Metric), metric);
        };
        writes(35.5, Percent, "35.5 %", "35.5 %");
        writes(50.0, Fahrenheit, "50 °F", "10 °C");
        writes(100.0, PoundsPerCubicFoot, "100 lb/ft3", "1602 kg/m3");
        writes(-0.000_01, Percent, "0 %", "0 %");
        assert!(Amount::new(f64::NAN, Percent).is_none());
        assert!(Amount::new(f64::INFINITY, Days).is_none());
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in any::<String>()) {
            for unit in [Percent, Millimetre, FahrenheitDays, Fahrenheit, PoundsPerCubicFoot, BtuPerHourFootFahrenheit, Days] {
                let _ = read_amount(&text, unit);
            }
        }

        #[test]
        fn what_was_written_is_read_again(number in 0.0..999.0_f64) {
            for unit in [Percent, Fahrenheit, Days] {
                let amount = Amount::new(number, unit).unwrap();
                let again = read_amount(&write_amount(amount, ShownIn::FeetInches), unit).unwrap();
                prop_assert!((again.number() - number).abs() <= 0.05 + 1e-9);
            }
        }
    }
}

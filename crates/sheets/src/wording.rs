//! Values as the trade writes them at one site.

use crate::figure::{Measure, Unit};
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::unit::{kilogram, millimeter, square_meter};
use underbrick_calc::quantity::{Area, Length, Mass, Volume, in_cubic_metres, in_metres};
use underbrick_calc::site::ShownIn;

/// How a site shows its values.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wording(pub(crate) ShownIn);

impl Wording {
    /// A thickness, a width, a depth: `3 1/4"` or `83 mm`.
    pub(crate) fn length(self, length: Option<Length>) -> Measure {
        measure(
            length,
            |length| length.get::<millimeter>(),
            Unit::Millimetre,
            |length| self.0.length(length),
        )
    }

    /// A length along the run: `12'-6"` or `3.81 m`.
    pub(crate) fn station(self, length: Option<Length>) -> Measure {
        measure(length, in_metres, Unit::Metre, |length| {
            self.0.along(length)
        })
    }

    /// A level above the datum, up positive, told as it is measured: `4 1/2" below` or `20 mm above`.
    pub(crate) fn level(self, level: Length) -> Measure {
        measure(
            Some(level),
            |level| level.get::<millimeter>(),
            Unit::Millimetre,
            |level| self.beside_datum(level),
        )
    }

    /// `33 ft²` or `3.07 m²`.
    pub(crate) fn area(self, area: Option<Area>) -> Measure {
        measure(
            area,
            |area| area.get::<square_meter>(),
            Unit::SquareMetre,
            |area| self.0.area(area),
        )
    }

    /// `1.85 yd³`, `9.3 ft³` or `0.26 m³`.
    pub(crate) fn volume(self, volume: Option<Volume>) -> Measure {
        measure(volume, in_cubic_metres, Unit::CubicMetre, |volume| {
            self.0.volume(volume)
        })
    }

    /// `2.63 short tons` or `2.39 t`.
    pub(crate) fn mass(self, mass: Option<Mass>) -> Measure {
        measure(
            mass,
            |mass| mass.get::<kilogram>(),
            Unit::Kilogram,
            |mass| self.0.mass(mass),
        )
    }

    /// `1/4 in/ft` or `2.08 %`.
    pub(crate) fn fall(self, fall: Option<Fall>) -> Measure {
        measure(fall, Fall::ratio, Unit::Ratio, |fall| self.0.fall(fall))
    }

    /// An offset from the centreline: `1'-3" right`, `380 mm left` or `centreline`.
    pub(crate) fn offset(self, offset: Length) -> Measure {
        measure(
            Some(offset),
            |offset| offset.get::<millimeter>(),
            Unit::Millimetre,
            |offset| {
                let written = self.0.length(size(offset));
                match in_metres(offset) {
                    _ if written == self.0.length(Length::default()) => "centreline".to_owned(),
                    offset_m if offset_m > 0.0 => format!("{written} right"),
                    _ => format!("{written} left"),
                }
            },
        )
    }

    fn beside_datum(self, level: Length) -> String {
        let written = self.0.length(size(level));
        match in_metres(level) {
            _ if written == self.0.length(Length::default()) => "level with it".to_owned(),
            level_m if level_m > 0.0 => format!("{written} above"),
            _ => format!("{written} below"),
        }
    }
}

/// A plain ratio to two decimals: `1.25`.
pub(crate) fn ratio(ratio: Option<f64>) -> Measure {
    measure(
        ratio,
        |ratio| ratio,
        Unit::Ratio,
        |ratio| format!("{ratio:.2}"),
    )
}

/// So many things of a list.
pub(crate) fn counted(n_things: Option<usize>) -> Measure {
    Measure::count(n_things.and_then(|n_things| u32::try_from(n_things).ok()))
}

/// Text from a file on one line of a sheet: line ends, tabs and codes that steer a terminal become spaces.
pub(crate) fn on_one_line(text: &str) -> String {
    let plain: String = text
        .chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn measure<T: Copy>(
    value: Option<T>,
    number: impl Fn(T) -> f64,
    unit: Unit,
    write: impl Fn(T) -> String,
) -> Measure {
    match value {
        Some(value) => Measure::new(Some(number(value)), unit, || write(value)),
        None => Measure::new(None, unit, String::new),
    }
}

fn size(length: Length) -> Length {
    if in_metres(length) < 0.0 {
        -length
    } else {
        length
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::quantity::{
        CUBIC_YARD_M3, cubic_metres, inches, metres, millimetres, square_metres,
    };

    const FEET: Wording = Wording(ShownIn::FeetInches);
    const METRIC: Wording = Wording(ShownIn::Metric);

    #[track_caller]
    fn check(measure: &Measure, number: f64, unit: &str, shown: &str) {
        assert_eq!(measure.number(), Some(number));
        assert_eq!(
            (measure.unit.symbol(), measure.shown.as_str()),
            (unit, shown)
        );
    }

    #[test]
    fn each_kind_is_written_as_the_site_shows_it() {
        check(&FEET.length(Some(inches(3.25))), 82.6, "mm", "3 1/4\""); // 3.25 × 25.4 = 82.55
        check(&METRIC.length(Some(inches(3.25))), 82.6, "mm", "83 mm");
        check(&FEET.station(Some(inches(150.0))), 3.81, "m", "12'-6\""); // 150 × 0.0254
        check(&METRIC.station(Some(inches(150.0))), 3.81, "m", "3.81 m");
        check(
            &FEET.volume(Some(cubic_metres(CUBIC_YARD_M3))),
            0.765,
            "m3",
            "1.00 yd³",
        );
        check(
            &FEET.volume(Some(cubic_metres(CUBIC_YARD_M3 / 3.0))),
            0.255,
            "m3",
            "0.33 yd³",
        ); // 27 ÷ 3
        check(
            &METRIC.volume(Some(cubic_metres(0.256))),
            0.256,
            "m3",
            "0.26 m³",
        );
        check(
            &FEET.area(Some(square_metres(9.290_304))),
            9.29,
            "m2",
            "100.0 ft²",
        ); // 0.09290304 m² in a square foot
        check(
            &FEET.mass(Some(Mass::new::<kilogram>(907.184_74))),
            907.0,
            "kg",
            "1.00 short tons",
        ); // 2000 × 0.45359237
        check(
            &METRIC.mass(Some(Mass::new::<kilogram>(2390.0))),
            2390.0,
            "kg",
            "2.39 t",
        );
        check(
            &FEET.fall(Some(Fall::inches_per_foot(0.25))),
            0.020_83,
            "ratio",
            "1/4 in/ft",
        );
        check(
            &METRIC.fall(Some(Fall::inches_per_foot(0.25))),
            0.020_83,
            "ratio",
            "2.08 %",
        );
    }

    #[test]
    fn levels_and_offsets_are_told_by_side() {
        check(&FEET.level(inches(-4.5)), -114.3, "mm", "4 1/2\" below");
        check(&METRIC.level(millimetres(20.0)), 20.0, "mm", "20 mm above");
        check(&FEET.level(metres(0.000_1)), 0.1, "mm", "level with it");
        check(&FEET.offset(inches(15.0)), 381.0, "mm", "1'-3\" right");
        check(
            &METRIC.offset(millimetres(-380.0)),
            -380.0,
            "mm",
            "380 mm left",
        );
        check(&METRIC.offset(metres(0.0)), 0.0, "mm", "centreline");
    }

    #[test]
    fn codes_that_steer_a_terminal_do_not_pass() {
        assert_eq!(
            on_one_line("12 Alder\n\u{1b}[31mCourt\t "),
            "12 Alder [31mCourt"
        );
    }
}

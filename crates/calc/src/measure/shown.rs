//! Values as one site shows them: the one place where feet and inches part from millimetres.

use super::slope::{Fall, SlopeStyle, write_fall};
use super::written::{LengthStyle, Nearest, write_length};
use crate::quantity::unit::{square_foot, square_meter, tonne};
use crate::quantity::{
    Area, Length, Mass, Volume, in_cubic_feet, in_cubic_metres, in_cubic_yards, in_short_tons,
};
use crate::site::ShownIn;

/// Below a tenth of a cubic yard a volume is told in cubic feet.
const CUBIC_FEET_BELOW_YD3: f64 = 0.1;

impl ShownIn {
    /// A level, a depth, a length: `1'-3 1/4"` or `387 mm`.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        let style = match self {
            Self::FeetInches => LengthStyle::FeetInches(Nearest::Sixteenth),
            Self::Metric => LengthStyle::Millimetres,
        };
        write_length(length, style)
    }

    /// A thickness or a width that is told without feet: `15 1/4"` or `387 mm`.
    #[must_use]
    pub fn thickness(self, length: Length) -> String {
        let style = match self {
            Self::FeetInches => LengthStyle::Inches(Nearest::Sixteenth),
            Self::Metric => LengthStyle::Millimetres,
        };
        write_length(length, style)
    }

    /// A length along the run: `12'-6"` or `3.81 m`.
    #[must_use]
    pub fn along(self, length: Length) -> String {
        let style = match self {
            Self::FeetInches => LengthStyle::FeetInches(Nearest::Sixteenth),
            Self::Metric => LengthStyle::Metres,
        };
        write_length(length, style)
    }

    /// `1/4 in/ft` or `2.08 %`.
    #[must_use]
    pub fn fall(self, fall: Fall) -> String {
        let style = match self {
            Self::FeetInches => SlopeStyle::InchesPerFoot,
            Self::Metric => SlopeStyle::Percent,
        };
        write_fall(fall, style)
    }

    /// `33.0 ft²` or `3.07 m²`.
    #[must_use]
    pub fn area(self, area: Area) -> String {
        match self {
            Self::FeetInches => format!("{} ft²", decimals(area.get::<square_foot>(), 1)),
            Self::Metric => format!("{} m²", decimals(area.get::<square_meter>(), 2)),
        }
    }

    /// `1.85 yd³`, `1.3 ft³` or `1.41 m³`.
    #[must_use]
    pub fn volume(self, volume: Volume) -> String {
        match self {
            Self::FeetInches if in_cubic_yards(volume) < CUBIC_FEET_BELOW_YD3 => {
                format!("{} ft³", decimals(in_cubic_feet(volume), 1))
            }
            Self::FeetInches => format!("{} yd³", decimals(in_cubic_yards(volume), 2)),
            Self::Metric => format!("{} m³", decimals(in_cubic_metres(volume), 2)),
        }
    }

    /// `2.63 short tons` or `2.39 t`.
    #[must_use]
    pub fn mass(self, mass: Mass) -> String {
        match self {
            Self::FeetInches => format!("{} short tons", decimals(in_short_tons(mass), 2)),
            Self::Metric => format!("{} t", decimals(mass.get::<tonne>(), 2)),
        }
    }
}

/// So many decimals; nothing is never less than nothing, as a sum of no terms is to the computer.
fn decimals(value: f64, n_decimals: usize) -> String {
    let written = format!("{value:.n_decimals$}");
    let is_nothing = written
        .chars()
        .all(|letter| matches!(letter, '-' | '0' | '.'));
    if is_nothing {
        written.trim_start_matches('-').to_owned()
    } else {
        written
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::kilogram;
    use crate::quantity::{CUBIC_YARD_M3, cubic_metres, inches, square_metres};

    const FEET: ShownIn = ShownIn::FeetInches;
    const METRIC: ShownIn = ShownIn::Metric;

    /// Exact factors of the units: NIST SP 811, check values U1 to U4.
    #[test]
    fn each_kind_is_written_both_ways() {
        let pairs = [
            (FEET.length(inches(15.25)), "1'-3 1/4\""),
            (METRIC.length(inches(15.25)), "387 mm"), // 15.25 × 25.4 = 387.35
            (FEET.thickness(inches(15.25)), "15 1/4\""),
            (METRIC.thickness(inches(15.25)), "387 mm"),
            (FEET.along(inches(150.0)), "12'-6\""),
            (METRIC.along(inches(150.0)), "3.81 m"), // 150 × 0.0254
            (FEET.fall(Fall::inches_per_foot(0.25)), "1/4 in/ft"),
            (METRIC.fall(Fall::inches_per_foot(0.25)), "2.08 %"), // 1 ÷ 48
            (FEET.area(square_metres(9.290_304)), "100.0 ft²"),   // 0.09290304 m² each
            (METRIC.area(square_metres(9.290_304)), "9.29 m²"),
            (FEET.volume(cubic_metres(CUBIC_YARD_M3)), "1.00 yd³"),
            (FEET.volume(cubic_metres(CUBIC_YARD_M3 / 3.0)), "0.33 yd³"),
            (FEET.volume(cubic_metres(CUBIC_YARD_M3 / 27.0)), "1.0 ft³"), // 27 ft³ to the yard
            (METRIC.volume(cubic_metres(0.256)), "0.26 m³"),
            (
                FEET.mass(Mass::new::<kilogram>(907.184_74)),
                "1.00 short tons",
            ), // 2000 × 0.45359237
            (METRIC.mass(Mass::new::<kilogram>(907.184_74)), "0.91 t"),
            // A sum of no terms is −0 to the computer; a little less than nothing is nothing too.
            (FEET.volume(cubic_metres(-0.0)), "0.0 ft³"),
            (METRIC.area(square_metres(-0.001)), "0.00 m²"),
            (METRIC.area(square_metres(-0.01)), "-0.01 m²"),
        ];
        for (written, expected) in pairs {
            assert_eq!(written, expected);
        }
    }
}

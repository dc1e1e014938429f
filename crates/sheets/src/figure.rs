//! One figure: a number with its unit, and the same as the trade writes it.

use serde::{Serialize, Serializer};

/// What stands where a value is missing.
pub const NOT_KNOWN: &str = "not known";

/// The unit of a figure. Each is rounded to the decimals that a tape, a scale or a delivery can tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Unit {
    /// Millimetres, to a tenth.
    #[serde(rename = "mm")]
    Millimetre,
    /// Metres, to a millimetre.
    #[serde(rename = "m")]
    Metre,
    /// Square metres, to a hundredth.
    #[serde(rename = "m2")]
    SquareMetre,
    /// Cubic metres, to a litre.
    #[serde(rename = "m3")]
    CubicMetre,
    /// Kilograms, whole.
    #[serde(rename = "kg")]
    Kilogram,
    /// So many.
    #[serde(rename = "count")]
    Count,
    /// One length by another, to a hundred-thousandth.
    #[serde(rename = "ratio")]
    Ratio,
    /// Percent, to a tenth.
    #[serde(rename = "%")]
    Percent,
}

impl Unit {
    /// As it stands in the JSON.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Metre => "m",
            Self::SquareMetre => "m2",
            Self::CubicMetre => "m3",
            Self::Kilogram => "kg",
            Self::Count => "count",
            Self::Ratio => "ratio",
            Self::Percent => "%",
        }
    }

    /// The value rounded to the decimals of this unit, half away from zero; zero never carries a sign.
    #[must_use]
    pub fn rounded(self, value: f64) -> f64 {
        let parts = match self {
            Self::Count | Self::Kilogram => 1.0,
            Self::Millimetre | Self::Percent => 10.0,
            Self::SquareMetre => 100.0,
            Self::Metre | Self::CubicMetre => 1000.0,
            Self::Ratio => 100_000.0,
        };
        (value * parts).round() / parts + 0.0
    }
}

/// A number, or a count without decimals.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Value {
    /// Things that are counted.
    Count(u32),
    /// Anything else, rounded by its unit.
    Number(f64),
}

/// A value with its unit, for machines and for people.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measure {
    /// Rounded by its unit; `None` where it is not known.
    pub value: Option<Value>,
    /// Its unit.
    pub unit: Unit,
    /// The same as the trade writes it, rounded from the full precision, or [`NOT_KNOWN`].
    pub shown: String,
}

impl Measure {
    /// A value that is written so. What is no number is not known.
    pub(crate) fn new(value: Option<f64>, unit: Unit, write: impl FnOnce() -> String) -> Self {
        match value.filter(|value| value.is_finite()) {
            Some(value) => Self {
                value: Some(Value::Number(unit.rounded(value))),
                unit,
                shown: write(),
            },
            None => Self::not_known(unit),
        }
    }

    /// So many.
    pub(crate) fn count(count: Option<u32>) -> Self {
        match count {
            Some(count) => Self {
                value: Some(Value::Count(count)),
                unit: Unit::Count,
                shown: count.to_string(),
            },
            None => Self::not_known(Unit::Count),
        }
    }

    fn not_known(unit: Unit) -> Self {
        Self {
            value: None,
            unit,
            shown: NOT_KNOWN.to_owned(),
        }
    }

    /// The value as a plain number in its unit.
    #[must_use]
    pub fn number(&self) -> Option<f64> {
        match self.value? {
            Value::Count(count) => Some(f64::from(count)),
            Value::Number(number) => Some(number),
        }
    }
}

/// What a figure belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// The run and its grade line.
    Line,
    /// Brick, setting bed and base.
    Section,
    /// What holds for all lifts.
    Lifts,
    /// One lift.
    EachLift,
    /// Edge brick, trench, restraint, forms.
    Edge,
    /// Areas, volumes, masses.
    Quantities,
}

impl Group {
    /// As it stands in the JSON.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Section => "section",
            Self::Lifts => "lifts",
            Self::EachLift => "each_lift",
            Self::Edge => "edge",
            Self::Quantities => "quantities",
        }
    }
}

impl Serialize for Group {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

/// One result.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// The name for machines, which never changes: `lift_2_top_below_string`.
    pub key: String,
    /// What it belongs to.
    pub group: Group,
    /// The name for people.
    pub name: String,
    /// Its value.
    #[serde(flatten)]
    pub measure: Measure,
    /// Whether it is the least that it can be, because the bottom of what must come out or the old surface is not known everywhere.
    pub is_least: bool,
}

impl Figure {
    pub(crate) fn new(
        group: Group,
        key: impl Into<String>,
        name: impl Into<String>,
        measure: Measure,
    ) -> Self {
        Self {
            key: key.into(),
            group,
            name: name.into(),
            measure,
            is_least: false,
        }
    }

    /// The same figure as the least amount, if it is.
    pub(crate) fn at_least(mut self, is_least: bool) -> Self {
        if is_least && self.measure.value.is_some() {
            self.is_least = true;
            self.measure.shown = format!("at least {}", self.measure.shown);
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(unit: Unit, value: f64, expected: f64) {
        let rounded = unit.rounded(value);
        assert!(
            rounded.to_bits() == expected.to_bits(),
            "{rounded} {}",
            unit.symbol()
        );
    }

    #[test]
    fn values_are_rounded_by_their_unit() {
        check(Unit::Millimetre, 57.15, 57.2); // 2 1/4 in, half away from zero
        check(Unit::Millimetre, -57.15, -57.2);
        check(Unit::Metre, 11.621_56, 11.622);
        check(Unit::SquareMetre, 4.864_9, 4.86);
        check(Unit::CubicMetre, 1.234_56, 1.235);
        check(Unit::Kilogram, 1234.5, 1235.0);
        check(Unit::Ratio, 1.0 / 48.0, 0.020_83);
        check(Unit::Millimetre, -0.01, 0.0); // never -0
    }

    #[test]
    fn what_is_no_number_is_not_known() {
        for value in [None, Some(f64::NAN), Some(f64::INFINITY)] {
            let measure = Measure::new(value, Unit::Metre, || "written".to_owned());
            assert_eq!((measure.value, measure.shown.as_str()), (None, NOT_KNOWN));
            let figure = Figure::new(Group::Line, "run_length", "Length", measure).at_least(true);
            assert!(!figure.is_least);
            assert_eq!(figure.measure.shown, NOT_KNOWN);
        }
    }

    #[test]
    fn the_symbol_is_what_the_json_says() {
        let units = [
            Unit::Millimetre,
            Unit::Metre,
            Unit::SquareMetre,
            Unit::CubicMetre,
            Unit::Kilogram,
            Unit::Count,
            Unit::Ratio,
            Unit::Percent,
        ];
        for unit in units {
            assert_eq!(
                serde_json::to_string(&unit).unwrap(),
                format!("\"{}\"", unit.symbol())
            );
        }
    }
}

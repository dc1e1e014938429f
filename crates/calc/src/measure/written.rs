//! Lengths as people write them: read, and written again so that reading gives the same text.

use super::exact::Exact;
use super::marks::Mark;
use super::reader::{Number, Reader};
use super::rounding::{Steps, mixed_number};
use crate::quantity::{Length, in_metres, metres};

/// The longest length that is read or written, a million kilometres: below it every style keeps its last digit in a double.
const LONGEST_M: u32 = 1_000_000_000;

/// What a number without a unit means in a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BareUnit {
    /// `57` is 57 in, and `5-3` is 5 ft 3 in.
    Inch,
    /// `57` is 57 ft, and `5-3` is 5 ft 3 in.
    Foot,
    /// `57` is 57 mm.
    Millimetre,
    /// `57` is 57 m.
    Metre,
}

/// How a length is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthStyle {
    /// `5'-3 1/2"`, `1'-0"`; below a foot `11 7/8"`.
    FeetInches(Nearest),
    /// `63 1/2"`.
    Inches(Nearest),
    /// `5.29 ft`, to a hundredth.
    DecimalFeet,
    /// `57 mm`, whole.
    Millimetres,
    /// `1.20 m` or `1.205 m`, to a thousandth.
    Metres,
}

/// To which part of an inch a length is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nearest {
    /// 1/16 in.
    Sixteenth,
    /// 1/8 in.
    Eighth,
    /// 1/4 in.
    Quarter,
}

/// Why a text is not a length, a slope or an angle, and at which character, counted from 1.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WrittenError {
    /// Nothing but space.
    #[error("nothing is written here")]
    Empty,
    /// A word, a mark or a number that has no place there.
    #[error("“{what}” at character {character} was not understood")]
    NotUnderstood {
        /// As written, shortened if it is long.
        what: String,
        /// Where it starts.
        character: usize,
    },
    /// Two of what can stand only once.
    #[error("a second {mark} mark at character {character} was not understood")]
    SecondMark {
        /// `inch`, `foot` or `decimal`.
        mark: &'static str,
        /// Where the second one stands.
        character: usize,
    },
    /// The text stops where something must follow.
    #[error("something is missing after “{after}” at character {character}")]
    Unfinished {
        /// The last thing written.
        after: String,
        /// Where it starts.
        character: usize,
    },
    /// A number whose unit nobody wrote.
    #[error("the number at character {character} has no unit")]
    NoUnit {
        /// Where the number starts.
        character: usize,
    },
    /// `1/0`.
    #[error("the fraction has a 0 below its line at character {character}")]
    NothingBelowLine {
        /// Where the 0 stands.
        character: usize,
    },
    /// `1.5/2`.
    #[error("a fraction takes whole numbers, not the decimals at character {character}")]
    BrokenFraction {
        /// Where the decimal number starts.
        character: usize,
    },
    /// `2 5/4`.
    #[error("after a whole number the fraction at character {character} must be under one")]
    FractionNotBelowOne {
        /// Where the fraction starts.
        character: usize,
    },
    /// `5.`
    #[error("no digit follows the decimal mark at character {character}")]
    NoDecimals {
        /// Where the mark stands.
        character: usize,
    },
    /// `1,200`, which means two things.
    #[error(
        "the comma at character {character} may set off thousands or decimals; write a point for decimals and nothing for thousands"
    )]
    CommaUnclear {
        /// Where the comma stands.
        character: usize,
    },
    /// More digits than any length has.
    #[error("the number at character {character} has more than {most} digits")]
    TooManyDigits {
        /// The most that are read.
        most: usize,
        /// Where the number starts.
        character: usize,
    },
    /// More decimals than any length has.
    #[error("the number at character {character} has more than {most} decimals")]
    TooManyDecimals {
        /// The most that are read.
        most: usize,
        /// Where the number starts.
        character: usize,
    },
    /// `5.5' 3"`.
    #[error("the feet at character {character} must be a whole number, as inches follow")]
    FeetNotWhole {
        /// Where the feet start.
        character: usize,
    },
    /// `5' 14"`.
    #[error("the inches at character {character} must be under 12, as they follow feet")]
    InchesNotBelowFoot {
        /// Where the inches start.
        character: usize,
    },
    /// `2:48`: only 1 to so many says plainly which is down and which along.
    #[error("a slope as a ratio starts with 1, not with the number at character {character}")]
    RatioNotOneIn {
        /// Where the number starts.
        character: usize,
    },
    /// Beyond anything that can be meant.
    #[error("the number at character {character} is beyond {limit}")]
    Beyond {
        /// The greatest that is read, with its unit.
        limit: &'static str,
        /// Where the number starts.
        character: usize,
    },
}

impl WrittenError {
    /// Where in the text the trouble is, counted from 1; `None` for an empty text.
    #[must_use]
    pub const fn character(&self) -> Option<usize> {
        match self {
            Self::Empty => None,
            Self::NotUnderstood { character, .. }
            | Self::SecondMark { character, .. }
            | Self::Unfinished { character, .. }
            | Self::NoUnit { character }
            | Self::NothingBelowLine { character }
            | Self::BrokenFraction { character }
            | Self::FractionNotBelowOne { character }
            | Self::NoDecimals { character }
            | Self::CommaUnclear { character }
            | Self::TooManyDigits { character, .. }
            | Self::TooManyDecimals { character, .. }
            | Self::FeetNotWhole { character }
            | Self::InchesNotBelowFoot { character }
            | Self::RatioNotOneIn { character }
            | Self::Beyond { character, .. } => Some(*character),
        }
    }
}

/// The length that a person typed into a field, where `bare` says what a number without a unit means.
///
/// Reads `2 1/4`, `2-1/4"`, `5'-3 1/2"`, `5-3 1/2`, `5.29 ft`, `57 mm`, `1,2 m`, `−2¼″` and their like. The result is the
/// double nearest to what was written. A sign belongs to the whole. A dash without a unit needs its figures tight on both
/// sides: `5 - 3` could be a sum.
///
/// # Errors
/// The first thing from the left that was not understood.
///
/// # Source
/// Inch 25.4 mm, foot 0.3048 m, yard 0.9144 m, exact (international yard and pound agreement of 1959).
pub fn read_length(text: &str, bare: BareUnit) -> Result<Length, WrittenError> {
    read(text, Some(bare))
}

/// The length in a record, which carries its own unit.
///
/// Feet may be followed by inches without a mark, as in `5' 3`.
///
/// # Errors
/// [`WrittenError::NoUnit`] for a bare number, even for `0`; else as [`read_length`].
pub fn read_length_with_unit(text: &str) -> Result<Length, WrittenError> {
    read(text, None)
}

/// The length as text with its unit, rounded half away from zero, at most a million kilometres either way.
///
/// Reading the text and writing it in the same style gives the same text. What is beyond gives a text that says so and
/// that cannot be read.
#[must_use]
pub fn write_length(length: Length, style: LengthStyle) -> String {
    let value_m = in_metres(length);
    if !value_m.is_finite() {
        return "not a number".to_owned();
    }
    if value_m.abs() > f64::from(LONGEST_M) {
        return "too long to write".to_owned();
    }
    match style {
        LengthStyle::FeetInches(nearest) => {
            let parts = nearest.parts_of_an_inch();
            feet_and_inches_text(steps(value_m, 0.0254 / f64::from(parts)), u64::from(parts))
        }
        LengthStyle::Inches(nearest) => {
            let parts = nearest.parts_of_an_inch();
            let steps = steps(value_m, 0.0254 / f64::from(parts));
            format!(
                "{}{}\"",
                steps.minus(),
                mixed_number(steps.count, parts.into())
            )
        }
        LengthStyle::DecimalFeet => format!("{} ft", steps(value_m, 0.003_048).decimal(2, 2)),
        LengthStyle::Millimetres => format!("{} mm", steps(value_m, 0.001).decimal(0, 0)),
        LengthStyle::Metres => format!("{} m", steps(value_m, 0.001).decimal(3, 2)),
    }
}

impl Nearest {
    const fn parts_of_an_inch(self) -> u32 {
        match self {
            Self::Sixteenth => 16,
            Self::Eighth => 8,
            Self::Quarter => 4,
        }
    }
}

/// The units that a length is written in.
#[derive(Clone, Copy, PartialEq)]
enum WrittenUnit {
    Inch,
    Foot,
    Yard,
    Millimetre,
    Centimetre,
    Metre,
}

impl WrittenUnit {
    fn of_word(word: &str) -> Option<Self> {
        Some(match word {
            "in" | "inch" | "inches" => Self::Inch,
            "ft" | "foot" | "feet" => Self::Foot,
            "yd" | "yard" | "yards" => Self::Yard,
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Self::Millimetre,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Self::Centimetre,
            "m" | "metre" | "metres" | "meter" | "meters" => Self::Metre,
            _ => return None,
        })
    }

    /// Ten-thousandths of a metre in one, exactly.
    const fn tenths_of_mm(self) -> i128 {
        match self {
            Self::Inch => 254,
            Self::Foot => 3048,
            Self::Yard => 9144,
            Self::Millimetre => 10,
            Self::Centimetre => 100,
            Self::Metre => 10_000,
        }
    }
}

impl From<BareUnit> for WrittenUnit {
    fn from(bare: BareUnit) -> Self {
        match bare {
            BareUnit::Inch => Self::Inch,
            BareUnit::Foot => Self::Foot,
            BareUnit::Millimetre => Self::Millimetre,
            BareUnit::Metre => Self::Metre,
        }
    }
}

fn read(text: &str, bare: Option<BareUnit>) -> Result<Length, WrittenError> {
    let mut reader = Reader::of(text)?;
    let negative = reader.sign();
    let first = reader.number()?;
    let (value, unit) = match unit(&mut reader) {
        Some(WrittenUnit::Foot) => after_feet(&mut reader, first)?,
        Some(unit) => (Some(first.value), unit),
        None if reader.at_tight_dash()
            && matches!(bare, None | Some(BareUnit::Inch | BareUnit::Foot)) =>
        {
            let feet_and_inches = after_feet(&mut reader, first)?;
            if bare.is_none() {
                reader.end()?;
                return Err(WrittenError::NoUnit {
                    character: first.character,
                });
            }
            feet_and_inches
        }
        None => {
            reader.end()?;
            let bare = bare.ok_or(WrittenError::NoUnit {
                character: first.character,
            })?;
            (Some(first.value), bare.into())
        }
    };
    reader.end()?;
    let beyond = WrittenError::Beyond {
        limit: "a million kilometres",
        character: first.character,
    };
    let Some(exact_m) = value.and_then(|value| {
        value.times(Exact::ratio(
            unit.tenths_of_mm(),
            WrittenUnit::Metre.tenths_of_mm(),
        )?)
    }) else {
        return Err(beyond);
    };
    if exact_m.nearest() > f64::from(LONGEST_M) {
        return Err(beyond);
    }
    Ok(metres(
        if negative { exact_m.negated() } else { exact_m }.nearest(),
    ))
}

/// What follows feet: nothing, or inches below twelve with a dash before and a mark behind, or without. `None` for a value
/// that does not fit.
fn after_feet(
    reader: &mut Reader<'_>,
    feet: Number,
) -> Result<(Option<Exact>, WrittenUnit), WrittenError> {
    if !reader.skip_if(&Mark::Dash) && !reader.at_number() {
        return Ok((Some(feet.value), WrittenUnit::Foot));
    }
    let inches = reader.number()?;
    if !feet.is_whole {
        return Err(WrittenError::FeetNotWhole {
            character: feet.character,
        });
    }
    if !inches.value.is_below(12) {
        return Err(WrittenError::InchesNotBelowFoot {
            character: inches.character,
        });
    }
    if !reader.skip_if(&Mark::Inch) {
        reader.skip_word(&["in", "inch", "inches"]);
    }
    let value = feet
        .value
        .times(Exact::whole(12))
        .and_then(|whole_in| whole_in.plus(inches.value));
    Ok((value, WrittenUnit::Inch))
}

/// The unit that stands here, and past it.
fn unit(reader: &mut Reader<'_>) -> Option<WrittenUnit> {
    let unit = match reader.peek()? {
        Mark::Foot => WrittenUnit::Foot,
        Mark::Inch => WrittenUnit::Inch,
        Mark::Word(word) => WrittenUnit::of_word(word)?,
        _ => return None,
    };
    reader.skip();
    Some(unit)
}

/// Never rounded up beyond the longest length, so that what is written can be read.
fn steps(value_m: f64, step_m: f64) -> Steps {
    let most = Steps::nearest(f64::from(LONGEST_M) / step_m - 0.5, u64::MAX);
    Steps::nearest(value_m / step_m, most.count)
}

fn feet_and_inches_text(steps: Steps, parts: u64) -> String {
    let (feet, above_feet) = (steps.count / (12 * parts), steps.count % (12 * parts));
    let minus = steps.minus();
    let whole_in = above_feet / parts;
    match (feet, whole_in) {
        (0, _) => format!("{minus}{}\"", mixed_number(above_feet, parts)),
        (_, 0) if above_feet > 0 => {
            format!("{minus}{feet}'-0 {}\"", mixed_number(above_feet, parts))
        }
        _ => format!("{minus}{feet}'-{}\"", mixed_number(above_feet, parts)),
    }
}

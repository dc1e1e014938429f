//! Slopes as people write them: read, and written again so that reading gives the same text.

use super::exact::Exact;
use super::marks::Mark;
use super::reader::{Number, Reader};
use super::rounding::{Steps, mixed_number};
use super::slope::Fall;
use super::written::WrittenError;

/// The steepest fall that is read or written, down ÷ along.
const STEEPEST: f64 = 1000.0;

/// The flattest fall that is written as 1 to so many, in tenths; flatter is written as level.
const FLATTEST_ONE_IN_TENTHS: u64 = 100_000;

/// How a fall is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlopeStyle {
    /// `1/4 in/ft`; `0.24 in/ft` where no sixteenth is within half a thousandth.
    InchesPerFoot,
    /// `2.08 %`, to a hundredth.
    Percent,
    /// `1:48`, to a tenth from 1:1 up; `level` beyond 1:10000.
    OneIn,
    /// `20.8 mm/m`, to a tenth.
    MillimetresPerMetre,
    /// `1.19°`, to a hundredth.
    Degrees,
}

/// The fall that a person wrote: `1/4 in per ft`, `1/4"/ft`, `2.08 %`, `1:48`, `1 in 48`, `20 mm/m`, `1.2°`, `level`.
///
/// All but degrees are the double nearest to the exact ratio.
///
/// # Errors
/// The first thing from the left that was not understood; [`WrittenError::NoUnit`] for a bare number, even for `0`.
pub fn read_fall(text: &str) -> Result<Fall, WrittenError> {
    let mut reader = Reader::of(text)?;
    if reader.skip_word(&["level"]) {
        reader.end()?;
        return Ok(Fall::default());
    }
    let negative = reader.sign();
    let number = reader.number()?;
    let ratio = ratio(&mut reader, number)?;
    reader.end()?;
    let beyond = WrittenError::Beyond {
        limit: "1000 down in 1 along",
        character: number.character,
    };
    let size = ratio
        .filter(|ratio| *ratio <= STEEPEST)
        .ok_or(beyond.clone())?;
    Fall::from_ratio(if negative && size > 0.0 { -size } else { size }).ok_or(beyond)
}

/// The fall as text with its unit, rounded half away from zero, down to 1000 down in 1 along.
///
/// Reading the text and writing it in the same style gives the same text. What is steeper gives a text that says so and
/// that cannot be read.
#[must_use]
pub fn write_fall(fall: Fall, style: SlopeStyle) -> String {
    if fall.ratio().abs() > STEEPEST {
        return "too steep to write".to_owned();
    }
    match style {
        SlopeStyle::InchesPerFoot => inches_per_foot_text(fall),
        SlopeStyle::Percent => format!("{} %", hundredths(fall.as_percent()).decimal(2, 0)),
        SlopeStyle::OneIn => one_in_text(fall),
        SlopeStyle::MillimetresPerMetre => {
            format!(
                "{} mm/m",
                Steps::nearest(fall.as_millimetres_per_metre() * 10.0, u64::MAX).decimal(1, 0)
            )
        }
        SlopeStyle::Degrees => format!("{}°", hundredths(fall.as_degrees()).decimal(2, 0)),
    }
}

/// What the unit after `number` makes of it. `None` for a value that does not fit.
fn ratio(reader: &mut Reader<'_>, number: Number) -> Result<Option<f64>, WrittenError> {
    if reader.skip_if(&Mark::Colon) {
        return one_in(reader, number);
    }
    if reader.skip_if(&Mark::Percent) || reader.skip_word(&["percent"]) {
        return Ok(part_of(number, 100));
    }
    if reader.skip_if(&Mark::Degree) || reader.skip_word(&["deg", "degree", "degrees"]) {
        return Ok(Fall::degrees(number.value.nearest()).map(Fall::ratio));
    }
    if reader.skip_word(&[
        "mm",
        "millimetre",
        "millimetres",
        "millimeter",
        "millimeters",
    ]) {
        per(reader)?;
        return if reader.skip_word(&["m", "metre", "meter"]) {
            Ok(part_of(number, 1000))
        } else {
            Err(reader.unexpected())
        };
    }
    let is_word_in = reader.skip_word(&["in"]);
    if is_word_in && reader.at_number() {
        return one_in(reader, number);
    }
    if is_word_in || reader.skip_if(&Mark::Inch) || reader.skip_word(&["inch", "inches"]) {
        per(reader)?;
        return if reader.skip_if(&Mark::Foot) || reader.skip_word(&["ft", "foot"]) {
            Ok(part_of(number, 12))
        } else {
            Err(reader.unexpected())
        };
    }
    reader.end()?;
    Err(WrittenError::NoUnit {
        character: number.character,
    })
}

/// Passes over the `per` of a slope.
fn per(reader: &mut Reader<'_>) -> Result<(), WrittenError> {
    if reader.skip_if(&Mark::Slash) || reader.skip_word(&["per"]) {
        Ok(())
    } else {
        Err(reader.unexpected())
    }
}

fn one_in(reader: &mut Reader<'_>, one: Number) -> Result<Option<f64>, WrittenError> {
    let along = reader.number()?;
    if !one.value.is_one() {
        return Err(WrittenError::RatioNotOneIn {
            character: one.character,
        });
    }
    if along.value.is_zero() {
        return Err(WrittenError::NothingBelowLine {
            character: along.character,
        });
    }
    Ok(one.value.over(along.value).map(Exact::nearest))
}

fn part_of(number: Number, parts: i128) -> Option<f64> {
    number.value.over(Exact::whole(parts)).map(Exact::nearest)
}

fn hundredths(value: f64) -> Steps {
    Steps::nearest(value * 100.0, u64::MAX)
}

/// Rounded to a thousandth first, so that what was read decides the same way again: thousandths `t` are a sixteenth `k` where
/// `t` is within a half of 62.5 `k`.
fn inches_per_foot_text(fall: Fall) -> String {
    let thousandths = Steps::nearest(fall.as_inches_per_foot() * 1000.0, u64::MAX);
    let twice = thousandths.count * 2;
    let sixteenths = (twice + 62) / 125;
    if twice.abs_diff(sixteenths * 125) <= 1 {
        format!(
            "{}{} in/ft",
            thousandths.minus(),
            mixed_number(sixteenths, 16)
        )
    } else {
        format!("{} in/ft", thousandths.decimal(3, 2))
    }
}

fn one_in_text(fall: Fall) -> String {
    let Some(along) = fall.as_one_in() else {
        return "level".to_owned();
    };
    let tenths = Steps::nearest(along * 10.0, u64::MAX);
    if tenths.count > FLATTEST_ONE_IN_TENTHS {
        return "level".to_owned();
    }
    let thousandths = Steps::nearest(along * 1000.0, u64::MAX);
    let (size, places) = if thousandths.count < 1000 {
        (thousandths, 3)
    } else {
        (tenths, 1)
    };
    format!(
        "{}1:{}",
        size.minus(),
        Steps {
            negative: false,
            ..size
        }
        .decimal(places, 0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const STYLES: [SlopeStyle; 5] = [
        SlopeStyle::InchesPerFoot,
        SlopeStyle::Percent,
        SlopeStyle::OneIn,
        SlopeStyle::MillimetresPerMetre,
        SlopeStyle::Degrees,
    ];

    #[track_caller]
    fn reads(text: &str, ratio: f64) {
        assert_eq!(read_fall(text).map(Fall::ratio), Ok(ratio), "{text:?}");
    }

    #[test]
    fn every_form_is_read_exactly() {
        let quarter = 1.0 / 48.0;
        for text in [
            "1/4 in per ft",
            "1/4 in/ft",
            "1/4\" per ft",
            "¼″/ft",
            "0.25 inches per foot",
            "1/4''/'",
            "1/4 in. per ft.",
            "1:48",
            "1 : 48",
            "1 in 48",
            "1 IN 48.0",
            "1.0 : 48",
            "+1:48",
        ] {
            reads(text, quarter);
        }
        reads("-1/4 in/ft", -quarter);
        reads("−1:48", -quarter);
        reads("- 1 in 48", -quarter);
        reads("2 %", 0.02);
        reads("2.08%", 0.0208);
        reads("1,5 percent", 0.015);
        reads("20 mm/m", 0.02);
        reads("20 mm per metre", 0.02);
        reads("2 1/2 in/ft", 2.5 / 12.0);
        reads("1 in/ft", 1.0 / 12.0);
        reads("0 %", 0.0);
        reads("level", 0.0);
        reads("1.2 deg", libm::tan(1.2_f64.to_radians()));
        reads("1.2°", libm::tan(1.2_f64.to_radians()));
        assert!(read_fall("-0 %").is_ok_and(|fall| fall.ratio().is_sign_positive()));
    }

    #[track_caller]
    fn refuses(text: &str, error: &WrittenError) {
        assert_eq!(read_fall(text).as_ref(), Err(error), "{text:?}");
    }

    #[test]
    fn anything_else_is_refused_where_it_stands() {
        use WrittenError::*;
        let odd = |what: &str, character| NotUnderstood {
            what: what.to_owned(),
            character,
        };
        let cut = |after: &str, character| Unfinished {
            after: after.to_owned(),
            character,
        };
        refuses("", &Empty);
        refuses("2", &NoUnit { character: 1 });
        refuses("-0", &NoUnit { character: 2 });
        refuses("1/48", &NoUnit { character: 1 });
        refuses("2 in", &cut("in", 3));
        refuses("2 in per", &cut("per", 6));
        refuses("2 in per m", &odd("m", 10));
        refuses("2 mm/ft", &odd("ft", 6));
        refuses("2 mm", &cut("mm", 3));
        refuses("1 in 4 ft", &odd("ft", 8));
        refuses("1:", &cut(":", 2));
        refuses("1:0", &NothingBelowLine { character: 3 });
        refuses("1:-48", &odd("-", 3));
        refuses("1:48:2", &odd(":", 5));
        refuses("2:48", &RatioNotOneIn { character: 1 });
        refuses("48:1", &RatioNotOneIn { character: 1 });
        refuses("2 %%", &odd("%", 4));
        refuses("% 2", &odd("%", 1));
        refuses("NaN %", &odd("NaN", 1));
        refuses("steep", &odd("steep", 1));
        refuses("level 2", &odd("2", 7));
        refuses(
            "90°",
            &Beyond {
                limit: "1000 down in 1 along",
                character: 1,
            },
        );
        refuses(
            "1000001 mm/m",
            &Beyond {
                limit: "1000 down in 1 along",
                character: 1,
            },
        );
    }

    #[track_caller]
    fn writes(fall: Fall, texts: [&str; 5]) {
        assert_eq!(STYLES.map(|style| write_fall(fall, style)), texts);
    }

    #[test]
    fn a_fall_is_written_in_every_style() {
        writes(
            Fall::inches_per_foot(0.25),
            ["1/4 in/ft", "2.08 %", "1:48", "20.8 mm/m", "1.19°"],
        );
        writes(
            Fall::percent(2.0),
            ["0.24 in/ft", "2 %", "1:50", "20 mm/m", "1.15°"],
        );
        writes(
            Fall::percent(-1.5),
            ["-0.18 in/ft", "-1.5 %", "-1:66.7", "-15 mm/m", "-0.86°"],
        );
        writes(Fall::default(), ["0 in/ft", "0 %", "level", "0 mm/m", "0°"]);
        writes(
            Fall::percent(-1e-9),
            ["0 in/ft", "0 %", "level", "0 mm/m", "0°"],
        );
        writes(
            Fall::percent(200.0),
            ["24 in/ft", "200 %", "1:0.5", "2000 mm/m", "63.43°"],
        );
        let per_foot = |value| write_fall(Fall::inches_per_foot(value), SlopeStyle::InchesPerFoot);
        assert_eq!(per_foot(1.0 / 16.0), "1/16 in/ft");
        assert_eq!(per_foot(0.1872), "3/16 in/ft"); // 0.187 is half a thousandth from 0.1875
        assert_eq!(per_foot(0.1862), "0.186 in/ft");
        let one_in = |along| write_fall(Fall::one_in(along).unwrap(), SlopeStyle::OneIn);
        assert_eq!(one_in(0.95), "1:0.95");
        assert_eq!(one_in(0.9996), "1:1");
        assert_eq!(one_in(10_000.0), "1:10000");
        assert_eq!(one_in(10_000.1), "level");
        assert_eq!(
            write_fall(Fall::percent(1e9), SlopeStyle::Percent),
            "too steep to write"
        );
    }

    proptest! {
        #[test]
        fn reading_what_was_written_gives_the_same_text(
            ratio in prop_oneof![-1.0..1.0, -STEEPEST..=STEEPEST, -1e-3..1e-3, (1_u32..200_000).prop_map(|n| 10.0 / f64::from(n))],
        ) {
            for style in STYLES {
                let text = write_fall(Fall::from_ratio(ratio).unwrap(), style);
                let read = read_fall(&text);
                prop_assert!(read.is_ok(), "{text}: {read:?}");
                prop_assert_eq!(write_fall(read.unwrap(), style), text);
            }
        }

        #[test]
        fn any_finite_fall_is_written_and_any_text_is_answered(ratio in any::<f64>(), text in any::<String>()) {
            if let Some(fall) = Fall::from_ratio(ratio) {
                for style in STYLES {
                    prop_assert!(!write_fall(fall, style).is_empty());
                }
            }
            let _ = read_fall(&text);
        }

        #[test]
        fn any_row_of_marks_is_answered(text in "[-+0-9 .,/:%°'\"inmftdegpr½]{0,12}") {
            if let Ok(fall) = read_fall(&text) {
                prop_assert!(fall.ratio().abs() <= STEEPEST);
            }
        }
    }
}

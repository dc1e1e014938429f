//! Angles as people write them: how far a run turns.

use super::marks::Mark;
use super::reader::Reader;
use super::rounding::Steps;
use super::written::WrittenError;
use crate::quantity::{Angle, unit::degree};

/// The greatest angle that is read or written.
const GREATEST_DEG: f64 = 1_000_000.0;

/// The angle that a person wrote: `90°`, `45 deg`, `22 1/2 degrees`, `-47,5°`.
///
/// # Errors
/// The first thing from the left that was not understood; [`WrittenError::NoUnit`] for a bare number.
pub fn read_angle(text: &str) -> Result<Angle, WrittenError> {
    let mut reader = Reader::of(text)?;
    let negative = reader.sign();
    let number = reader.number()?;
    let has_unit = reader.skip_if(&Mark::Degree) || reader.skip_word(&["deg", "degree", "degrees"]);
    reader.end()?;
    if !has_unit {
        return Err(WrittenError::NoUnit {
            character: number.character,
        });
    }
    let value_deg = if negative {
        number.value.negated()
    } else {
        number.value
    }
    .nearest();
    if value_deg.abs() > GREATEST_DEG {
        return Err(WrittenError::Beyond {
            limit: "a million degrees",
            character: number.character,
        });
    }
    Ok(Angle::new::<degree>(value_deg))
}

/// The angle in degrees, `47.5°`, rounded half away from zero to a hundredth.
///
/// Reading the text and writing it again gives the same text. What is not a number, or beyond a million degrees, gives a
/// text that says so and that cannot be read.
#[must_use]
pub fn write_angle(angle: Angle) -> String {
    let value_deg = angle.get::<degree>();
    if !value_deg.is_finite() {
        return "not a number".to_owned();
    }
    // A whole million, kept in radians, may come back a hair above itself.
    if value_deg.abs() > GREATEST_DEG + 1e-6 {
        return "too large to write".to_owned();
    }
    format!(
        "{}°",
        Steps::nearest(value_deg * 100.0, 100_000_000).decimal(2, 0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn reads(text: &str, value_deg: f64) {
        assert_eq!(
            read_angle(text),
            Ok(Angle::new::<degree>(value_deg)),
            "{text:?}"
        );
    }

    #[test]
    fn every_form_is_read() {
        reads("90 deg", 90.0);
        reads("90°", 90.0);
        reads("45 degrees", 45.0);
        reads(" + 1 Degree ", 1.0);
        reads("−22½°", -22.5);
        reads("22-1/2 deg.", 22.5);
        reads("47,5 º", 47.5);
        reads("-0°", 0.0);
        // A right angle in radians, from the mathematics and not from the code.
        assert_eq!(
            read_angle("90°").map(|angle| angle.value),
            Ok(std::f64::consts::FRAC_PI_2)
        );
    }

    #[track_caller]
    fn refuses(text: &str, error: &WrittenError) {
        assert_eq!(read_angle(text).as_ref(), Err(error), "{text:?}");
    }

    #[test]
    fn anything_else_is_refused_where_it_stands() {
        use WrittenError::*;
        let odd = |what: &str, character| NotUnderstood {
            what: what.to_owned(),
            character,
        };
        refuses("", &Empty);
        refuses("90", &NoUnit { character: 1 });
        refuses("-90", &NoUnit { character: 2 });
        refuses("90 in", &odd("in", 4));
        refuses("45° 30'", &odd("30", 5));
        refuses("deg", &odd("deg", 1));
        refuses("inf deg", &odd("inf", 1));
        refuses("90°°", &odd("°", 4));
        refuses("1/0°", &NothingBelowLine { character: 3 });
        refuses(
            "1000001°",
            &Beyond {
                limit: "a million degrees",
                character: 1,
            },
        );
    }

    #[track_caller]
    fn writes(value_deg: f64, text: &str) {
        assert_eq!(write_angle(Angle::new::<degree>(value_deg)), text);
    }

    #[test]
    fn an_angle_is_written_to_a_hundredth() {
        writes(47.5, "47.5°");
        writes(90.0, "90°");
        writes(-22.125, "-22.13°");
        writes(33.333_333, "33.33°");
        writes(100.0, "100°");
        writes(-0.001, "0°");
        writes(f64::NAN, "not a number");
        writes(f64::INFINITY, "not a number");
        writes(1e9, "too large to write");
    }

    proptest! {
        #[test]
        fn reading_what_was_written_gives_the_same_text(value_deg in prop_oneof![-360.0..=360.0, -GREATEST_DEG..=GREATEST_DEG]) {
            let text = write_angle(Angle::new::<degree>(value_deg));
            let read = read_angle(&text);
            prop_assert!(read.is_ok(), "{text}: {read:?}");
            prop_assert_eq!(write_angle(read.unwrap()), text);
        }

        #[test]
        fn any_text_and_any_angle_is_answered(text in any::<String>(), value in any::<f64>()) {
            let _ = read_angle(&text);
            prop_assert!(!write_angle(Angle::new::<degree>(value)).is_empty());
        }
    }

    #[test]
    fn the_greatest_angle_is_written_and_read() {
        writes(1_000_000.0, "1000000°");
        reads("1000000°", 1_000_000.0);
    }
}

//! Joints, gaps and means as a rule reads them: finer than the sixteenths of a tape.

use crate::quantity::{Length, unit};
use crate::site::ShownIn;

/// The length in inches by 64ths where it is one, `9/64"`, else to a thousandth, `8.042"`; on a metric site to a tenth, `3.2 mm`. It can
/// be read again as it stands.
#[must_use]
pub fn fine(length: Length, shown_in: ShownIn) -> String {
    match shown_in {
        ShownIn::FeetInches => in_inches(length.get::<unit::inch>()),
        ShownIn::Metric => format!("{} mm", decimal(length.get::<unit::millimeter>(), 1)),
    }
}

fn in_inches(value_in: f64) -> String {
    const NEAR_IN: f64 = 0.000_2;
    let parts = (value_in.abs() * 64.0).round();
    if !(0.0..1e9).contains(&parts) || (value_in.abs() - parts / 64.0).abs() > NEAR_IN {
        return format!("{}\"", decimal(value_in, 3));
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole, and from 0 to a thousand million"
    )]
    let parts = parts as u64;
    let (whole, rest) = (parts / 64, parts % 64);
    let halvings = rest.trailing_zeros().min(6);
    let sign = if value_in < 0.0 && parts > 0 { "-" } else { "" };
    match (whole, rest) {
        (_, 0) => format!("{sign}{whole}\""),
        (0, _) => format!("{sign}{}/{}\"", rest >> halvings, 64_u64 >> halvings),
        _ => format!(
            "{sign}{whole} {}/{}\"",
            rest >> halvings,
            64_u64 >> halvings
        ),
    }
}

/// Rounded to so many decimals, without noughts at the end and without a sign before nought.
fn decimal(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" { "0" } else { text }.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::written::read_length_with_unit;
    use crate::quantity::{in_metres, inches, millimetres};

    #[track_caller]
    fn check(length: Length, feet_inches: &str, metric: &str) {
        assert_eq!(fine(length, ShownIn::FeetInches), feet_inches);
        assert_eq!(fine(length, ShownIn::Metric), metric);
        for text in [feet_inches, metric] {
            let again = read_length_with_unit(text).unwrap();
            assert!(in_metres(again - length).abs() < 6e-5, "{text}");
        }
    }

    #[test]
    fn as_a_rule_reads_it() {
        check(inches(9.0 / 64.0), "9/64\"", "3.6 mm");
        check(inches(0.125), "1/8\"", "3.2 mm");
        check(inches(-0.125), "-1/8\"", "-3.2 mm");
        check(inches(41.375), "41 3/8\"", "1050.9 mm");
        check(inches(8.0), "8\"", "203.2 mm");
        check(inches(0.0), "0\"", "0 mm");
        check(inches(-0.000_1), "0\"", "0 mm");
        // The mean of 8, 8 and 8 1/8 in.
        check(inches(24.125 / 3.0), "8.042\"", "204.3 mm");
        check(millimetres(3.0), "0.118\"", "3 mm");
    }

    #[test]
    fn what_is_no_number_says_so() {
        assert_eq!(fine(inches(f64::NAN), ShownIn::FeetInches), "NaN\"");
        assert_eq!(fine(inches(f64::INFINITY), ShownIn::Metric), "inf mm");
    }
}

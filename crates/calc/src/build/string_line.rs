//! Whether string and tape can be trusted over the lengths of this walk: sag and temperature.

use super::asked::spacing;
use crate::findings::{Findings, Source, Weight};
use crate::line::Line;
use crate::place::Place;
use crate::quantity::{Length, in_metres, inches, metres};
use crate::site::Site;

/// What sag and heat do to the string from stake to stake and to the tape along the run.
#[derive(Clone, Debug, PartialEq)]
pub struct StringLine {
    /// From stake to stake.
    pub span: Length,
    /// How far the string sags in between.
    pub sag: Length,
    /// Span up to which that is of no concern: a sixteenth of an inch.
    pub span_of_no_concern: Length,
    /// How much longer or shorter than it says a steel tape is over the whole run, 20 °C (36 °F) from the 20 °C (68 °F) at which it is right.
    pub tape_error: Length,
    /// Length up to which that is of no concern: a sixteenth of an inch.
    pub tape_of_no_concern: Length,
    /// All of it in words.
    pub words: String,
}

/// Sag and error that no brick shows: 1/16 in.
fn of_no_concern() -> Length {
    inches(1.0 / 16.0)
}

/// Weight of the string, in newtons per metre: nylon of 1,140 kg/m³, 1/16 in across, as if it were solid.
///
/// # Source
/// Common practice, no source; density of nylon from memory.
const STRING_N_PER_M: f64 =
    1140.0 * 9.806_65 * 0.25 * std::f64::consts::PI * 0.001_587_5 * 0.001_587_5;

/// Pull on the string, in newtons: 10 lb.
///
/// # Source
/// Common practice, no source.
const PULL_N: f64 = 10.0 * 0.453_592_37 * 9.806_65;

/// Expansion of a steel tape, per °C.
///
/// # Source
/// 11.6 × 10⁻⁶ per °C, as surveying courses take it.
const STEEL_PER_C: f64 = 11.6e-6;

/// How far from the temperature at which the tape is right a hot or a cold day is taken to be, in °C.
const OFF_C: f64 = 20.0;

/// Sag of the string between the stakes of this walk, and what heat does to a tape along it.
#[must_use]
pub fn string_line(site: &Site, line: &Line) -> StringLine {
    let span = spacing(site).min(line.run.length());
    let sag = metres(sag_m(in_metres(span)));
    let span_of_no_concern =
        metres((8.0 * PULL_N * in_metres(of_no_concern()) / STRING_N_PER_M).sqrt());
    let tape_error = metres(expansion_m(in_metres(line.run.length()), OFF_C));
    let tape_of_no_concern = metres(in_metres(of_no_concern()) / (STEEL_PER_C * OFF_C));
    let shown = site.shown_in;
    let fine = shown.thickness(of_no_concern());
    let concern = |is_concern: bool| if is_concern { "more" } else { "no more" };
    let words = format!(
        "String pulled with 10 lb (45 N) sags {} than {fine} over the {} between stakes; that is of no concern up to {}. A steel tape is off by {} than {fine} over this run of {} on a day 36 °F (20 °C) hotter or colder than 68 °F (20 °C); up to {} that is of no concern, and over the drop from a string it is nothing.",
        concern(sag > of_no_concern()),
        shown.along(span),
        shown.along(span_of_no_concern),
        concern(tape_error > of_no_concern()),
        shown.along(line.run.length()),
        shown.along(tape_of_no_concern),
    );
    StringLine {
        span,
        sag,
        span_of_no_concern,
        tape_error,
        tape_of_no_concern,
        words,
    }
}

/// Notes a string that sags more than a brick shows.
pub(super) fn check(site: &Site, line: &Line, findings: &mut Findings) {
    let string = string_line(site, line);
    if string.sag <= of_no_concern() {
        return;
    }
    let shown = site.shown_in;
    findings.note(
        Place::BuildSpacing,
        Weight::Note,
        Source::CommonPractice,
        format!(
            "A string pulled with 10 lb (45 N) sags {} over the {} between stakes.",
            shown.thickness(string.sag),
            shown.along(string.span)
        ),
        format!(
            "Prop it between, or set stakes no more than {} apart; what is read near the middle of the span is low by so much.",
            shown.along(string.span_of_no_concern)
        ),
    );
}

/// Sag of a string at the middle of its span, between stakes of one height.
///
/// # Source
/// The parabola that a taut string hangs in: w L² ÷ 8 H.
fn sag_m(span_m: f64) -> f64 {
    STRING_N_PER_M * span_m * span_m / (8.0 * PULL_N)
}

/// How much a steel tape grows.
fn expansion_m(length_m: f64, warmer_c: f64) -> f64 {
    STEEL_PER_C * length_m * warmer_c
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{feet, unit};

    /// Against the catenary, the exact curve: a (cosh (L ÷ 2a) − 1) with a = H ÷ w.
    #[test]
    fn a_taut_string_hangs_as_the_catenary_does() {
        for span_m in [1.0, 3.048, 6.0, 15.0] {
            let a_m = PULL_N / STRING_N_PER_M;
            let exact_m = a_m * (libm::cosh(span_m / (2.0 * a_m)) - 1.0);
            assert!((sag_m(span_m) / exact_m - 1.0).abs() < 1e-5, "{span_m} m");
        }
    }

    /// 0.0221 N/m × 3.048² ÷ (8 × 44.48) = 0.58 mm over the 10 ft between stakes: under 1/32 in.
    #[test]
    fn over_ten_feet_it_is_of_no_concern() {
        let sag_mm = metres(sag_m(in_metres(feet(10.0)))).get::<unit::millimeter>();
        assert!((sag_mm - 0.58).abs() < 0.01, "{sag_mm} mm");
        assert!(sag_m(in_metres(feet(16.0))) < in_metres(of_no_concern()));
        assert!(sag_m(in_metres(feet(17.0))) > in_metres(of_no_concern()));
    }

    /// A published exercise: 318 m measured 27.92 °C above the standard temperature are 318.103 m (0.0000116 per °C).
    #[test]
    fn a_tape_grows_as_the_surveyor_reckons() {
        assert!((318.0 + expansion_m(318.0, 27.92) - 318.103).abs() < 0.0005);
    }
}

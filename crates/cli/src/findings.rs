//! Findings, one line each.

use underbrick_calc::findings::{Finding, Findings, Weight};
use underbrick_sheets::results::finding_row;

use crate::output::complain;

/// Writes every finding to stderr.
pub fn tell_all(findings: &Findings) {
    findings.iter().for_each(|finding| complain(&line(finding)));
}

/// Writes every finding but the checks that were kept to stderr.
pub fn tell(findings: &Findings) {
    findings
        .iter()
        .filter(|finding| finding.weight != Weight::Right)
        .for_each(|finding| complain(&line(finding)));
}

/// `warning: Pit 2 station: what was found. What can be done. [where the rule comes from]`
fn line(finding: &Finding) -> String {
    let row = finding_row(finding);
    // Many a text starts with the name of its field, which is not said twice.
    let lead = if row.text.starts_with(&row.place) {
        String::new()
    } else {
        format!("{}: ", row.place)
    };
    let remedy = if row.remedy.is_empty() {
        String::new()
    } else {
        format!(" {}", row.remedy)
    };
    format!(
        "{}: {lead}{}{remedy} [{}]",
        row.weight, row.text, row.source
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use underbrick_calc::findings::Source;
    use underbrick_calc::place::Place;

    #[track_caller]
    fn check(place: Place, text: &str, remedy: &str, expected: &str) {
        let finding = Finding {
            place,
            weight: Weight::Warning,
            text: text.into(),
            remedy: remedy.into(),
            source: Source::CommonPractice,
        };
        assert_eq!(line(&finding), expected);
    }

    #[test]
    fn a_finding_is_one_line_that_names_its_field_once() {
        let pit = Place::PitStation(1);
        check(
            pit,
            "Pit 2 station is missing.",
            "Measure it.",
            "warning: Pit 2 station is missing. Measure it. [common practice, no source]",
        );
        check(
            pit,
            "It is\nmissing.",
            "",
            "warning: Pit 2 station: It is missing. [common practice, no source]",
        );
    }
}

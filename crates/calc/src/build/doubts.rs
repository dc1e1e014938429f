//! Readings that may be slips, and people who do not agree.

use super::check::{ReadingFound, Verdict};
use super::readings::{ROUNDING_M, is_same_spot, off_words, sentence, spot_words};
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::quantity::{Length, feet, in_metres, inches, metres};
use crate::site::{ShownIn, Site};

/// Asks once about a reading that is off by more than 6 in: that is no work of a spade.
pub(super) fn question(site: &Site, found: &mut [ReadingFound], findings: &mut Findings) {
    for reading in found {
        let Some(off) = reading.off.filter(|off| off.abs() > inches(6.0)) else {
            continue;
        };
        let is_confirmed = site
            .build
            .readings
            .get(reading.reading_idx)
            .is_some_and(|input| input.is_confirmed);
        if is_confirmed {
            continue;
        }
        reading.is_questioned = true;
        let spot = spot_words(
            site.shown_in,
            reading.surface,
            reading.station,
            reading.offset,
        );
        let text = format!(
            "{}: {}: {}?",
            sentence(&spot),
            off_words(site.shown_in, off),
            slip(site.shown_in, off)
        );
        findings.note(
            Place::BuildValue(reading.reading_idx),
            Weight::Warning,
            Source::Readings,
            text,
            "Read it again, or say that it is right; what was typed is kept.",
        );
    }
}

/// What a reading that is far off may be.
fn slip(shown_in: ShownIn, off: Length) -> &'static str {
    let is_near_whole = |step: Length, near: Length| {
        let steps = in_metres(off.abs()) / in_metres(step);
        steps.round() >= 1.0 && (steps - steps.round()).abs() * in_metres(step) <= in_metres(near)
    };
    match shown_in {
        ShownIn::FeetInches if is_near_whole(feet(1.0), inches(0.75)) => "a slip of a foot",
        ShownIn::Metric if is_near_whole(metres(0.1), metres(0.01)) => "a slip of 10 cm",
        ShownIn::FeetInches | ShownIn::Metric => "is it read right",
    }
}

/// Two people who read one spot and do not agree.
pub(super) fn two_people(site: &Site, found: &[ReadingFound], findings: &mut Findings) {
    let initials = |reading: &ReadingFound| {
        site.build
            .readings
            .get(reading.reading_idx)
            .map_or("", |input| input.stamp.initials.trim())
    };
    for (nth, later) in found.iter().enumerate() {
        for earlier in found.iter().take(nth) {
            let (Some(one), Some(other)) = (earlier.off, later.off) else {
                continue;
            };
            let (first, second) = (initials(earlier), initials(later));
            let is_two_people = !first.is_empty() && !second.is_empty() && first != second;
            let most = later.tolerance.high.max(later.tolerance.low) + metres(ROUNDING_M);
            if !is_two_people || !is_same_spot(earlier, later) || (one - other).abs() <= most {
                continue;
            }
            let was_mended = earlier.verdict != Verdict::Right && later.verdict == Verdict::Right;
            let (weight, remedy) = if was_mended {
                (
                    Weight::Note,
                    "If it was mended in between, all is well: the later reading counts.",
                )
            } else {
                (
                    Weight::Warning,
                    "Read it again together; both are kept, and the later one counts.",
                )
            };
            let text = format!(
                "{}: {first} read it {}, {second} {}.",
                sentence(&spot_words(
                    site.shown_in,
                    later.surface,
                    later.station,
                    later.offset
                )),
                right_or_off(site.shown_in, one),
                right_or_off(site.shown_in, other),
            );
            findings.note(
                Place::BuildValue(later.reading_idx),
                weight,
                Source::Readings,
                text,
                remedy,
            );
        }
    }
}

fn right_or_off(shown_in: ShownIn, off: Length) -> String {
    if off.abs() < inches(1.0 / 32.0) {
        "on its level".to_owned()
    } else {
        off_words(shown_in, off)
    }
}

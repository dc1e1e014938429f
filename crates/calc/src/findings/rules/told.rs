//! What a reading of the evidence says, with what was worked out from it beside it.

use super::curves::least_radius;
use super::evidence_words;
use super::look::Facts;
use crate::place::Place;

/// The reading at a place, and what it is held against where the table does not say that.
pub(super) fn told(facts: &Facts<'_>, place: Place) -> String {
    let words = evidence_words(facts.site, facts.catalogue, place);
    match place {
        Place::LegRadius(leg_idx) => match least_radius(facts, leg_idx) {
            Some(least) => format!(
                "{words}; with joints midway in their limits whole brick follows from {}",
                facts.site.shown_in.along(least)
            ),
            None => words,
        },
        Place::Soil => {
            let worst = facts.soil.and_then(|soil| soil.frost_groups.first());
            worst.map_or(words, |worst| {
                format!("Frost group {}, {}", worst.group.name(), worst.why)
            })
        }
        _ => words,
    }
}

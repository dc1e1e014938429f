//! What is missing where a need is not known, in words.

use super::Job;
use crate::field::full_name;
use crate::lay::LayNote;
use crate::place::Place;
use crate::site::{LegShape, Site};

/// What the bed lacks.
pub(super) fn of_bed(job: &Job<'_>) -> String {
    if job.found.line.is_none() {
        return of_run(job.site);
    }
    let key = &job.site.bed.base_material;
    match job.catalogue.find(key) {
        Some(material) if material.as_base.is_some() => "a bed that can be built".to_owned(),
        Some(material) => format!(
            "a base material: {} cannot be bought as base",
            material.name
        ),
        None => format!("a base material: the catalogue does not know \"{}\"", key.0),
    }
}

/// What the layout of the brick lacks.
pub(super) fn of_lay(job: &Job<'_>) -> String {
    let notes = job.found.lay.map(|lay| lay.notes.as_slice());
    match notes {
        None => of_run(job.site),
        Some(notes) => {
            let is_too_large = |note: &LayNote| matches!(note, LayNote::TooMany { .. });
            if notes.iter().any(is_too_large) {
                "a layout: there would be more pieces than can be laid out".to_owned()
            } else {
                "a layout: not even one brick fits into the width".to_owned()
            }
        }
    }
}

/// What the run lacks.
fn of_run(site: &Site) -> String {
    let mut missing = Vec::new();
    if site.line.legs.is_empty() {
        missing.push("the run, leg by leg".to_owned());
    }
    for (leg_idx, leg) in site.line.legs.iter().enumerate() {
        let mut need = |place: Place, is_given: bool| {
            if !is_given {
                missing.push(full_name(place));
            }
        };
        match leg.shape {
            LegShape::Straight { length } => need(Place::LegLength(leg_idx), length.is_some()),
            LegShape::Curve { radius, turn, .. } => {
                need(Place::LegRadius(leg_idx), radius.is_some());
                need(Place::LegTurn(leg_idx), turn.is_some());
            }
        }
    }
    if site.line.width.is_none() {
        missing.push(full_name(Place::Width));
    }
    if missing.is_empty() {
        "a run that can be built".to_owned()
    } else {
        missing.join(", ")
    }
}

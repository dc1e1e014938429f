//! What soil and frost say that someone should look at.

use super::found::is_missing;
use super::texture::Texture;
use super::{FrostMethod, SoilError, SoilFound, frost_depth_said};
use crate::bed::Bed;
use crate::findings::{Findings, Source, Weight};
use crate::ground::soil::frost_group::TABLE;
use crate::place::Place;
use crate::site::{Moisture, Site};

/// Says what soil and frost mean for the walk and its bed.
pub fn report(site: &Site, found: &SoilFound, bed: Option<&Bed>, findings: &mut Findings) {
    report_wet_and_heaving(site, found, findings);
    report_depth(site, found, bed, findings);
}

/// Ground that heaves needs water to do so.
fn report_wet_and_heaving(site: &Site, found: &SoilFound, findings: &mut Findings) {
    let Some(worst) = found
        .frost_groups
        .first()
        .filter(|worst| worst.group.heaves())
    else {
        return;
    };
    let Some((place, seen)) = wet(site) else {
        return;
    };
    let text = format!(
        "The ground heaves in frost (group {}: {}) and it is wet: {seen}. Frost draws that water up and lifts the walk.",
        worst.group.name(),
        worst.why
    );
    let remedy = "Take the water away from under the walk and build on stone that water runs out of; a thicker base alone does not stop heave.";
    findings.note(
        place,
        Weight::Warning,
        Source::Published(TABLE),
        text,
        remedy,
    );
}

/// The first pit in which water seeped in, else the first wet layer.
fn wet(site: &Site) -> Option<(Place, String)> {
    let pits = || site.pits.iter().enumerate();
    let seep = pits().find(|(_, pit)| pit.seep.is_some());
    if let Some((pit_idx, _)) = seep {
        let place = Place::PitSeep(pit_idx);
        return Some((place, format!("water seeped into pit {}", pit_idx + 1)));
    }
    pits().find_map(|(pit_idx, pit)| {
        let is_wet = |layer: &crate::site::Layer| layer.moisture == Some(Moisture::Wet);
        let layer_idx = pit.layers.iter().position(is_wet)?;
        let place = Place::LayerMaterial(pit_idx, layer_idx);
        Some((
            place,
            format!("pit {}, layer {} is wet", pit_idx + 1, layer_idx + 1),
        ))
    })
}

/// Frost that goes deeper than the dig.
fn report_depth(site: &Site, found: &SoilFound, bed: Option<&Bed>, findings: &mut Findings) {
    let (Some(frost), Some(bed)) = (&found.frost, bed) else {
        return;
    };
    let dig = bed.base_top_below_grade + bed.thickest_base;
    if frost.depth <= dig {
        return;
    }
    let text = format!(
        "Frost goes {} deep ({}), the dig {} at its deepest: the base does not reach frost depth. That is usual for walks: frost depth is meant for footings.",
        frost_depth_said(frost.depth, frost.method, site.shown_in),
        frost.method.words(),
        site.shown_in.length(dig)
    );
    let (place, remedy) = match frost.method {
        FrostMethod::Local => (
            Place::FrostDepth,
            "Keep water out of the base instead. What the local code says goes before this.",
        ),
        FrostMethod::Berggren | FrostMethod::Stefan => (
            Place::FreezingIndex,
            "Keep water out of the base instead. Ask the local building office for its frost depth: it goes before this.",
        ),
    };
    findings.note(place, Weight::Note, Source::CommonPractice, text, remedy);
}

/// Tests that name nothing: a warning where they cannot be true, a note where something is missing.
pub(super) fn not_named(error: &SoilError, what: &str, findings: &mut Findings) {
    let (weight, remedy) = if is_missing(error) {
        (Weight::Note, "Write it down, or leave the tests empty.")
    } else {
        (
            Weight::Warning,
            "They are kept as written and not used. Look at the laboratory's sheet again.",
        )
    };
    let text = format!("The soil gets no {what}: {error}.");
    findings.note(error.place(), weight, Source::Readings, text, remedy);
}

/// Hand and sieve that say different things.
pub(super) fn feel_differs(by_shares: Texture, by_feel: Texture, findings: &mut Findings) {
    let text = format!(
        "By its shares the soil is {}, by feel {}. The shares are taken.",
        by_shares.name(),
        by_feel.name()
    );
    let remedy = "Feel it again, or ask which layer the sample came from.";
    findings.note(
        Place::SoilClay,
        Weight::Note,
        Source::Readings,
        text,
        remedy,
    );
}

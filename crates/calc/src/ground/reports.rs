//! What the pits say that someone should look at.

use super::{PitFound, Verdict};
use crate::catalogue::Catalogue;
use crate::field::full_name;
use crate::findings::{Findings, Source, Weight};
use crate::place::Place;
use crate::site::{Firmness, PitEnd, Site};

pub(super) fn report(
    site: &Site,
    catalogue: &Catalogue,
    pits: &[PitFound],
    findings: &mut Findings,
) {
    if pits.is_empty() {
        let text = "No pit can be used: what lies under the walk is not known, and the dig goes only as deep as the least base asks.";
        let remedy = "Lift a few bricks and dig at least one pit where the walk has sunk most.";
        findings.note(Place::Site, Weight::Warning, Source::Readings, text, remedy);
    }
    for pit in pits {
        report_bottom(site, catalogue, pit, findings);
        report_soft_ground(site, catalogue, pit, findings);
        report_seep(site, pit, findings);
    }
}

/// A pit that ends before good ground.
fn report_bottom(site: &Site, catalogue: &Catalogue, pit: &PitFound, findings: &mut Findings) {
    if pit.unsuitable_bottom.found {
        return;
    }
    let place = Place::Pit(pit.pit_idx);
    let ended = match site.pits.get(pit.pit_idx).map(|pit| pit.ended) {
        Some(PitEnd::Refused) => "the digging was refused",
        Some(PitEnd::Stopped) | None => "the digging stopped",
    };
    let ends_in = pit
        .layers
        .last()
        .map_or("nothing", |layer| name(catalogue, &layer.material));
    let text = format!(
        "{} ends in {ends_in}: {ended} {} below the old surface, and the bottom of what must come out was not found. Dig, spoil and base are the least amounts.",
        full_name(place),
        site.shown_in.length(pit.top - pit.dug_to),
    );
    let remedy = "Dig on until firm ground that may stay, or order with a reserve.";
    findings.note(place, Weight::Warning, Source::Readings, text, remedy);
}

/// Ground that may stay but gives under the thumb.
fn report_soft_ground(site: &Site, catalogue: &Catalogue, pit: &PitFound, findings: &mut Findings) {
    let written = site
        .pits
        .get(pit.pit_idx)
        .map_or(&[][..], |pit| &pit.layers);
    for (layer_idx, (found, layer)) in pit.layers.iter().zip(written).enumerate() {
        let is_soft = matches!(layer.firmness, Some(Firmness::VerySoft | Firmness::Soft));
        if found.verdict == Verdict::Stays && is_soft {
            let place = Place::LayerMaterial(pit.pit_idx, layer_idx);
            let text = format!(
                "{}, layer {}: {} may stay, but here it is soft: a thumb goes in an inch.",
                full_name(Place::Pit(pit.pit_idx)),
                layer_idx + 1,
                name(catalogue, &found.material)
            );
            let remedy =
                "Compact it and probe again; if it stays soft, dig on or lay a separation fabric.";
            findings.note(place, Weight::Warning, Source::CommonPractice, text, remedy);
        }
    }
}

/// Water in a pit: a warning where it stands in ground that comes out, or where the bottom of that was not found.
fn report_seep(site: &Site, pit: &PitFound, findings: &mut Findings) {
    let Some(seep) = pit.seep else { return };
    let place = Place::PitSeep(pit.pit_idx);
    let depth = site.shown_in.length(pit.top - seep);
    let pit_name = full_name(Place::Pit(pit.pit_idx));
    if seep >= pit.unsuitable_bottom.level || !pit.unsuitable_bottom.found {
        let text = format!(
            "{pit_name}: water seeped in {depth} below the old surface, in or above the ground that comes out."
        );
        let remedy =
            "Give the water a way out before the base goes in, or it will soften what carries it.";
        findings.note(place, Weight::Warning, Source::CommonPractice, text, remedy);
    } else {
        let text = format!(
            "{pit_name}: water seeped in {depth} below the old surface, below the ground that comes out."
        );
        findings.note(
            place,
            Weight::Note,
            Source::Readings,
            text,
            "Dig no deeper than needed there.",
        );
    }
}

fn name<'a>(catalogue: &'a Catalogue, key: &'a crate::site::MaterialKey) -> &'a str {
    catalogue
        .find(key)
        .map_or(key.0.as_str(), |material| material.name.as_str())
}

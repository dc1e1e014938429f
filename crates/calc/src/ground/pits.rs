//! One pit, in levels.

use super::UnsuitableBottom;
use super::layers::{Judged, judge, layers};
use crate::catalogue::Catalogue;
use crate::field::{full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::line::{Line, beyond_the_run};
use crate::place::Place;
use crate::quantity::{Length, metres};
use crate::site::{MaterialKey, Pit, Site};

/// A pit in levels.
#[derive(Clone, Debug, PartialEq)]
pub struct PitFound {
    /// Which pit of the site.
    pub pit_idx: usize,
    /// Along the run.
    pub station: Length,
    /// Square to it, right positive.
    pub offset: Length,
    /// Level of the old surface there.
    pub top: Length,
    /// Layers from the top down. Those below a layer whose lower face is not known are not among them.
    pub layers: Vec<LayerFound>,
    /// Lowest level that was dug to.
    pub dug_to: Length,
    /// Bottom of what must come out.
    pub unsuitable_bottom: UnsuitableBottom,
    /// Level at which water seeped in.
    pub seep: Option<Length>,
}

/// A layer in levels.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerFound {
    /// Upper face.
    pub top: Length,
    /// Lower face; for a last layer that goes on down, `None`.
    pub bottom: Option<Length>,
    /// What it is.
    pub material: MaterialKey,
    /// What becomes of it.
    pub verdict: Verdict,
}

/// What becomes of a layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// The old pavement: lifted and kept.
    Lifted,
    /// Must come out.
    ComesOut,
    /// May stay.
    Stays,
    /// The catalogue does not know the material.
    NotKnown,
}

/// One pit in levels; `None` where it cannot be placed or holds nothing: a finding says why.
pub(super) fn pit_found(
    site: &Site,
    catalogue: &Catalogue,
    line: &Line,
    pit_idx: usize,
    findings: &mut Findings,
) -> Option<PitFound> {
    let pit = site.pits.get(pit_idx)?;
    let station = pit_station(site, line, pit_idx, pit, findings)?;
    let offset = match pit.offset {
        Some(_) => take_length(
            site,
            Place::PitOffset(pit_idx),
            pit.offset,
            Weight::Warning,
            findings,
        )?,
        None => metres(0.0),
    };
    let place = Place::Pit(pit_idx);
    let Some(surface) = line.old_surface.at(station, offset) else {
        left_out(
            findings,
            place,
            &format!(
                "{}: no level of the old surface is known, so that its depths have no level.",
                full_name(place)
            ),
        );
        return None;
    };
    let top = surface.level;
    let layers = layers(site, catalogue, pit_idx, pit, top, findings);
    if layers.is_empty() {
        left_out(
            findings,
            place,
            &format!("{} has no layers.", full_name(place)),
        );
        return None;
    }
    let Judged {
        layers,
        dug_to,
        unsuitable_bottom,
    } = judge(top, layers, pit.layers.len());
    let seep = take_length(
        site,
        Place::PitSeep(pit_idx),
        pit.seep,
        Weight::Warning,
        findings,
    )
    .map(|depth| top - depth);
    Some(PitFound {
        pit_idx,
        station,
        offset,
        top,
        layers,
        dug_to,
        unsuitable_bottom,
        seep,
    })
}

fn pit_station(
    site: &Site,
    line: &Line,
    pit_idx: usize,
    pit: &Pit,
    findings: &mut Findings,
) -> Option<Length> {
    let place = Place::PitStation(pit_idx);
    if pit.station.is_none() {
        left_out(
            findings,
            place,
            &format!("{} is missing.", full_name(place)),
        );
    }
    let station = take_length(site, place, pit.station, Weight::Warning, findings)?;
    let on_run = line.run.station_on_run(station);
    if on_run.is_none() {
        left_out(
            findings,
            place,
            &beyond_the_run(site, &line.run, place, station),
        );
    }
    on_run
}

fn left_out(findings: &mut Findings, place: Place, text: &str) {
    findings.note(
        place,
        Weight::Warning,
        Source::Readings,
        text,
        "The pit is left out until this is mended.",
    );
}

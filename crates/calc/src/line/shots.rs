//! From tape and rod to levels of the old surface.

use super::Run;
use crate::field::{full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::measure::levels::{drop_by_rod, drop_by_string};
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{Shot, ShotBy, Site};

/// One level of the old surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reading {
    /// Along the run.
    pub station_m: f64,
    /// Square to it, right positive.
    pub offset_m: f64,
    /// Above the datum, up positive.
    pub level_m: f64,
}

/// All readings of a site that can be used: the old brick at the door, and the shots.
pub(super) fn readings(site: &Site, run: &Run, findings: &mut Findings) -> Vec<Reading> {
    let mut readings = Vec::with_capacity(site.line.shots.len() + 1);
    if let Some(drop) = take_length(
        site,
        Place::OldBelowSill,
        site.line.old_below_sill,
        Weight::Stop,
        findings,
    ) {
        readings.push(Reading {
            station_m: 0.0,
            offset_m: 0.0,
            level_m: in_metres(metres(0.0) - drop),
        });
    }
    let set_up = SetUp {
        string_above_sill: take_length(
            site,
            Place::StringAboveSill,
            site.line.string_above_sill,
            Weight::Warning,
            findings,
        ),
        rod_at_sill: take_length(
            site,
            Place::RodAtSill,
            site.line.rod_at_sill,
            Weight::Warning,
            findings,
        ),
    };
    for (shot_idx, shot) in site.line.shots.iter().enumerate() {
        readings.extend(reading(site, run, set_up, shot_idx, shot, findings));
    }
    readings.extend(super::book::readings(site, run, findings));
    if readings.is_empty() {
        let text = "No level of the old surface: how far the walk has sunk and what must be dug away is not known.";
        let remedy = "Measure from the underside of the sill down to the old brick at the door, and at least one level at the far end.";
        findings.note(
            Place::OldSurface,
            Weight::Warning,
            Source::Readings,
            text,
            remedy,
        );
    }
    name_doubles(site, &readings, findings);
    readings
}

/// What the readings were taken from.
#[derive(Clone, Copy, Debug)]
struct SetUp {
    string_above_sill: Option<Length>,
    rod_at_sill: Option<Length>,
}

fn reading(
    site: &Site,
    run: &Run,
    set_up: SetUp,
    shot_idx: usize,
    shot: &Shot,
    findings: &mut Findings,
) -> Option<Reading> {
    let station = shot_station(site, run, shot_idx, shot, findings)?;
    let offset = match shot.offset {
        Some(_) => take_length(
            site,
            Place::ShotOffset(shot_idx),
            shot.offset,
            Weight::Warning,
            findings,
        )?,
        None => metres(0.0),
    };
    let place = Place::ShotReading(shot_idx);
    if shot.reading.is_none() {
        left_out(
            findings,
            place,
            &format!("{} is missing.", full_name(place)),
        );
    }
    let reading = take_length(site, place, shot.reading, Weight::Warning, findings)?;
    let (drop, at_sill_place) = match shot.by {
        ShotBy::String => (
            set_up
                .string_above_sill
                .map(|above| drop_by_string(reading, above)),
            Place::StringAboveSill,
        ),
        ShotBy::Rod => (
            set_up
                .rod_at_sill
                .map(|at_sill| drop_by_rod(reading, at_sill)),
            Place::RodAtSill,
        ),
    };
    let Some(drop) = drop else {
        let text = format!(
            "{} cannot be used: \"{}\" is missing.",
            full_name(place),
            full_name(at_sill_place)
        );
        left_out(findings, place, &text);
        return None;
    };
    Some(Reading {
        station_m: in_metres(station),
        offset_m: in_metres(offset),
        level_m: in_metres(metres(0.0) - drop),
    })
}

fn shot_station(
    site: &Site,
    run: &Run,
    shot_idx: usize,
    shot: &Shot,
    findings: &mut Findings,
) -> Option<Length> {
    let place = Place::ShotStation(shot_idx);
    if shot.station.is_none() {
        left_out(
            findings,
            place,
            &format!("{} is missing.", full_name(place)),
        );
    }
    let station = take_length(site, place, shot.station, Weight::Warning, findings)?;
    let on_run = run.station_on_run(station);
    if on_run.is_none() {
        left_out(findings, place, &beyond_the_run(site, run, place, station));
    }
    on_run
}

/// In words, that a station lies beyond the far end (or before the door).
pub(crate) fn beyond_the_run(site: &Site, run: &Run, place: Place, station: Length) -> String {
    format!(
        "{}: {} lies beyond the run, which goes from 0 to {}.",
        full_name(place),
        site.shown_in.length(station),
        site.shown_in.length(run.length())
    )
}

pub(super) fn left_out(findings: &mut Findings, place: Place, text: &str) {
    findings.note(
        place,
        Weight::Warning,
        Source::Readings,
        text,
        "The reading is left out until this is mended.",
    );
}

/// Two readings of one spot that differ: the mean is taken, and said so.
fn name_doubles(site: &Site, readings: &[Reading], findings: &mut Findings) {
    for (nth, one) in readings.iter().enumerate() {
        for other in readings.iter().skip(nth + 1) {
            let apart_m = libm::hypot(
                one.station_m - other.station_m,
                one.offset_m - other.offset_m,
            );
            let differ_m = (one.level_m - other.level_m).abs();
            if apart_m <= 0.001 && differ_m > 0.001 {
                let text = format!(
                    "Two readings of the old surface at station {} differ by {}; the mean is used.",
                    site.shown_in.length(metres(one.station_m)),
                    site.shown_in.length(metres(differ_m))
                );
                findings.note(
                    Place::OldSurface,
                    Weight::Warning,
                    Source::Readings,
                    text,
                    "Read that spot again.",
                );
            }
        }
    }
}

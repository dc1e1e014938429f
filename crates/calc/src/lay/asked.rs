//! What is asked of the laying and cannot be: each is named with its value and its limit.

use super::brick::BrickSize;
use super::wishes::{LayWishes, most_lap};
use crate::field::{
    check_amount, check_count, check_turn, field, full_name, note_out_of_reason, take_length,
};
use crate::findings::{Findings, Source, Weight};
use crate::line::Run;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{CourseWay, Opening, Site};

/// Half a rounding of the tape: an opening as wide as the walk is not outside it.
const ROUNDING_M: f64 = 1e-6;

/// Names values of the laying that cannot be true, and those that cannot be true together.
pub(super) fn values(site: &Site, wishes: &LayWishes, findings: &mut Findings) {
    let lay = &site.lay;
    for (place, length) in [
        (Place::LeastLap, lay.least_lap),
        (Place::LeastPiece, lay.least_piece),
        (Place::LeastJoint, lay.least_joint),
        (Place::WidestJoint, lay.widest_joint),
        (Place::Kerf, lay.kerf),
        (Place::TargetWidth, lay.target_width),
        (Place::WidthTolerance, lay.width_tolerance),
    ] {
        take_length(site, place, length, Weight::Warning, findings);
    }
    let errors = [
        lay.lap
            .and_then(|lap| check_amount(Place::LapShare, lap).err()),
        lay.loss
            .and_then(|loss| check_amount(Place::BrickLoss, loss).err()),
        lay.bearing
            .and_then(|bearing| check_turn(Place::Bearing, bearing).err()),
        lay.n_on_site
            .and_then(|count| check_count(Place::BricksOnSite, count).err()),
    ];
    for error in errors.into_iter().flatten() {
        note_out_of_reason(site, error, Weight::Warning, findings);
    }
    limits(site, wishes, findings);
}

fn limits(site: &Site, wishes: &LayWishes, findings: &mut Findings) {
    let brick = BrickSize::of_field(site);
    let mut above =
        |place: Place, given: Option<Length>, limit: Length, name: &str, taken: &str| {
            if let Some(given) = given
                && given > limit
            {
                let text = format!(
                    "{}: {} is above {name}, {}.",
                    full_name(place),
                    site.shown_in.thickness(given),
                    site.shown_in.thickness(limit)
                );
                findings.note(place, Weight::Warning, Source::Readings, text, taken);
            }
        };
    above(
        Place::LeastJoint,
        site.lay.least_joint,
        wishes.widest_joint,
        "the widest joint",
        "It is kept as written and not used. Make the widest joint wider, or the least narrower.",
    );
    above(
        Place::Joint,
        Some(wishes.joint),
        wishes.widest_joint,
        "the widest joint",
        "Make the joint narrower, or allow a wider one.",
    );
    above(
        Place::LeastPiece,
        site.lay.least_piece,
        brick.length,
        "the brick's length",
        "It is kept as written and not used: a third of the brick is taken.",
    );
    above(
        Place::LeastLap,
        site.lay.least_lap,
        most_lap(brick),
        "half the brick",
        "It is kept as written and not used: a quarter of the brick is taken.",
    );
    if wishes.joint < wishes.least_joint {
        findings.note(
            Place::Joint,
            Weight::Warning,
            Source::Readings,
            format!(
                "{}: {} is below the least joint, {}.",
                full_name(Place::Joint),
                site.shown_in.thickness(wishes.joint),
                site.shown_in.thickness(wishes.least_joint)
            ),
            "Make the joint wider, or allow a narrower one.",
        );
    }
    for (place, joint) in [
        (Place::Joint, wishes.joint),
        (Place::WidestJoint, wishes.widest_joint),
    ] {
        if joint >= brick.width {
            findings.note(
                place,
                Weight::Warning,
                Source::Readings,
                format!(
                    "{}: {} is not below the brick's width, {}.",
                    full_name(place),
                    site.shown_in.thickness(joint),
                    site.shown_in.thickness(brick.width)
                ),
                "Measure brick and joint again.",
            );
        }
    }
}

/// Names what does not fit into the walk: a brick wider than it, an opening outside it or not wholly known, a target width that
/// leaves no field.
pub(crate) fn in_the_walk(site: &Site, wishes: &LayWishes, run: &Run, findings: &mut Findings) {
    let (place, across) = match wishes.courses {
        CourseWay::Along => (Place::BrickWidth, wishes.brick_width),
        CourseWay::Across => (Place::BrickLength, wishes.brick_length),
    };
    let narrowest = run
        .breaks()
        .into_iter()
        .map(|station| run.clear_width_at(station))
        .reduce(Length::min);
    if let Some(narrowest) = narrowest
        && across > narrowest
    {
        findings.note(
            place,
            Weight::Warning,
            Source::Readings,
            format!(
                "{}: {} does not fit between the edge bricks, {} apart.",
                full_name(place),
                site.shown_in.thickness(across),
                site.shown_in.thickness(narrowest)
            ),
            "Measure the brick and the width of the walk again.",
        );
    }
    let edges = wishes.edge_brick.across * 2.0;
    if let Some(target) = site.lay.target_width
        && target <= edges
    {
        findings.note(
            Place::TargetWidth,
            Weight::Warning,
            Source::Readings,
            format!(
                "{}: {} leaves no field between two edge bricks of {}.",
                full_name(Place::TargetWidth),
                site.shown_in.thickness(target),
                site.shown_in.thickness(wishes.edge_brick.across)
            ),
            "Take a wider walk, or stand the edge brick another way.",
        );
    }
    for (opening_idx, opening) in site.lay.openings.iter().enumerate() {
        check_opening(site, opening_idx, opening, run, findings);
    }
}

fn check_opening(
    site: &Site,
    opening_idx: usize,
    opening: &Opening,
    run: &Run,
    findings: &mut Findings,
) {
    let mut taken = |place: Place, length: Option<Length>| {
        if length.is_none() {
            findings.note(
                place,
                Weight::Warning,
                Source::Readings,
                format!(
                    "{} is missing: the opening is not laid around.",
                    full_name(place)
                ),
                field(place).how,
            );
        }
        take_length(site, place, length, Weight::Warning, findings)
    };
    let station = taken(Place::OpeningStation(opening_idx), opening.station);
    let along = taken(Place::OpeningAlong(opening_idx), opening.along);
    let across = taken(Place::OpeningAcross(opening_idx), opening.across);
    let offset = match opening.offset {
        None => Some(metres(0.0)),
        Some(_) => taken(Place::OpeningOffset(opening_idx), opening.offset),
    };
    let (Some(station), Some(along), Some(across), Some(offset)) = (station, along, across, offset)
    else {
        return;
    };
    let (station_m, half_along_m) = (in_metres(station), in_metres(along) / 2.0);
    let words = |length: Length| site.shown_in.length(length);
    let mut outside = |place: Place, text: String| {
        findings.note(
            place,
            Weight::Warning,
            Source::Readings,
            text,
            "Only what lies in the walk is left free. Measure it again.",
        );
    };
    if station_m - half_along_m < -ROUNDING_M
        || station_m + half_along_m > in_metres(run.length()) + ROUNDING_M
    {
        outside(
            Place::OpeningStation(opening_idx),
            format!(
                "Opening {}: from {} to {} along is outside the walk, which is {} long.",
                opening_idx + 1,
                words(metres(station_m - half_along_m)),
                words(metres(station_m + half_along_m)),
                words(run.length())
            ),
        );
    }
    let half_clear = run.clear_width_at(station) * 0.5;
    let reach = offset.abs() + across * 0.5;
    if in_metres(reach) > in_metres(half_clear) + ROUNDING_M {
        outside(
            Place::OpeningOffset(opening_idx),
            format!(
                "Opening {}: it reaches {} from the centreline, the edge brick stands at {}.",
                opening_idx + 1,
                words(reach),
                words(half_clear)
            ),
        );
    }
}

#[cfg(test)]
mod tests;

//! Stop Build: what string, tape and rod must read, whether what they read is right, and what each stage is closed on.

mod changes;
mod days;
pub(crate) mod full_size;
mod gauge;
pub(crate) mod live;
mod stages;
pub(crate) mod stakes;

use underbrick_calc::build::{Asks, Build, HoldStage, Required, StageFound, StageState, Verdict};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_records::v1::ReadBy;

use super::opened::{BuildList, Opened, Part, StagesShown};
use super::{Stop, findings, heading, named, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::build::CheckTap;
use crate::widgets::mark::Mark;
use crate::widgets::rows::{Row, ValueRow};

pub(super) fn rows(visit: &Visit, set: Option<Place>, opened: &Opened) -> Vec<Row> {
    let mut rows = Vec::new();
    match &visit.results().build {
        Some(build) => {
            rows.push(initials(visit));
            rows.push(Row::More {
                words: "stakes, one station a screen".to_owned(),
                part: Part::Station(Some(0)),
            });
            stages::rows(visit, build, set, opened, &mut rows);
            stakes::rows(visit, build, opened, &mut rows);
            gauge::rows(visit, build, opened, &mut rows);
            days::rows(visit, build, opened, &mut rows);
        }
        None => rows.push(Row::Said {
            mark: Mark::NotKnown,
            text: "There is nothing to build by yet.".to_owned(),
            under: "Measure the walk at stop Line, and the ground at stop Look first.".to_owned(),
        }),
    }
    changes::rows(visit, opened, &mut rows);
    rows.extend(findings(visit, Stop::Build));
    rows
}

/// Initials are not measured: where there are none the row says so.
fn initials(visit: &Visit) -> Row {
    let note = "stand behind readings";
    match named(visit, Place::Initials, None, "Your initials", note) {
        Row::Value(row) if row.value.is_empty() => Row::Value(ValueRow {
            value: "none yet".to_owned(),
            ..row
        }),
        other => other,
    }
}

/// A list that is folded until it is asked for. Gives whether its rows follow.
fn list(opened: &Opened, list: BuildList, name: &str, rows: &mut Vec<Row>) -> bool {
    let part = Part::BuildList(list);
    let is_open = opened.shows(&part);
    let verb = if is_open { "fold" } else { "show" };
    rows.push(Row::More {
        words: format!("{verb} {name}"),
        part,
    });
    is_open
}

/// The stage whose checks are shown.
fn shown_stage(build: &Build, opened: &Opened) -> Option<HoldStage> {
    match opened.stages {
        StagesShown::Only(stage) => Some(stage),
        StagesShown::Nothing => None,
        StagesShown::First => first_open(build),
    }
}

/// The first stage that is not closed.
pub(crate) fn first_open(build: &Build) -> Option<HoldStage> {
    let open = build.stages.iter().find(|found| !is_closed(found))?;
    Some(open.stage)
}

const fn is_closed(found: &StageFound) -> bool {
    matches!(
        found.state,
        StageState::Closed | StageState::ClosedWithReason | StageState::Doubtful
    )
}

/// The stage that asks for what is written at a place.
pub(crate) fn stage_of(visit: &Visit, place: Place) -> Option<HoldStage> {
    let stages = &visit.results().build.as_ref()?.stages;
    match place {
        Place::HoldStage(stage) | Place::StageReason(stage) | Place::StageInitials(stage) => {
            Some(stage)
        }
        Place::LiftCompacted(number) => Some(HoldStage::Lift(number)),
        _ => stages
            .iter()
            .find(|found| found.required.iter().any(|check| check.place == place))
            .map(|found| found.stage),
    }
}

/// Where a reading of the building stands, for the cross-section to show it.
pub(crate) fn station_of(visit: &Visit, place: Place) -> Option<Length> {
    match place {
        Place::BuildStation(idx) | Place::BuildOffset(idx) | Place::BuildValue(idx) => {
            visit.site().build.readings.get(idx)?.station
        }
        Place::SpotStation(idx) | Place::SpotSize(idx) => {
            visit.site().build.spots.get(idx)?.station
        }
        _ => None,
    }
}

/// What a tap on a check does: sets what is there, or adds it as it is asked for.
fn tap(visit: &Visit, check: &Required) -> CheckTap {
    match (check.place, check.asks) {
        (_, Asks::StageBefore(before)) => CheckTap::Open(Part::Stages(StagesShown::Only(before))),
        (
            Place::HoldStage(_),
            Asks::Level {
                surface,
                station,
                offset,
            },
        ) => CheckTap::Do(Edit::AddCheck {
            surface,
            station: Some(station),
            offset,
            by_rod: is_by_rod(visit),
        }),
        (Place::HoldStage(_), Asks::Spot(kind)) => CheckTap::Do(Edit::AddSpot(kind)),
        (place, _) => CheckTap::Set(place),
    }
}

/// The next reading is taken as the last one was; the first after a set-up by rod.
fn is_by_rod(visit: &Visit) -> bool {
    let build = &visit.record().build;
    let has_set_up = build
        .set_ups
        .last()
        .is_some_and(|set_up| !set_up.rod_at_sill.trim().is_empty());
    has_set_up
        && build
            .readings
            .last()
            .is_none_or(|last| matches!(last.by, ReadBy::Rod(_)))
}

/// What comes after a check that was read: the next of its stage that was not. `None` when all were, or when it is asked about first.
pub(crate) fn after_check(visit: &Visit, place: Place) -> Option<CheckTap> {
    let build = visit.results().build.as_ref()?;
    let found = build
        .stages
        .iter()
        .find(|found| found.required.iter().any(|check| check.place == place))?;
    let at = found
        .required
        .iter()
        .rposition(|check| check.place == place)?;
    let open = |check: &&Required| {
        check.verdict == Verdict::NotKnown
            && check.place != place
            && !matches!(check.asks, Asks::StageBefore(_))
    };
    let behind = found.required.iter().skip(at + 1).find(open);
    behind
        .or_else(|| found.required.iter().find(open))
        .map(|check| tap(visit, check))
}

/// Whether a reading is so far off that it is asked about: the pad stays on it.
pub(crate) fn is_questioned(visit: &Visit, place: Place) -> bool {
    let (Some(build), Place::BuildValue(idx)) = (&visit.results().build, place) else {
        return false;
    };
    build
        .readings
        .iter()
        .any(|found| found.reading_idx == idx && found.is_questioned)
}

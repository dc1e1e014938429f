//! Stages with hold points: the list in order, and what the shown one asks for.

use underbrick_calc::build::{
    Asks, Build, HoldStage, ReadingFound, Required, SpotKind, StageFound, StageState, Surface,
    Verdict,
};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{in_metres, metres};
use underbrick_words::Words;

use super::live::{off_words, wanted};
use super::{heading, is_by_rod, is_closed, named, shown_stage, tap};
use crate::edit::Edit;
use crate::stops::opened::Opened;
use crate::visit::Visit;
use crate::widgets::build::{BuildBit, CheckRow, StageRow};
use crate::widgets::mark::Mark;
use crate::widgets::rows::{Row, ValueRow, ValueState};

pub(super) fn rows(
    visit: &Visit,
    build: &Build,
    set: Option<Place>,
    opened: &Opened,
    rows: &mut Vec<Row>,
) {
    let n_closed = build.stages.iter().filter(|found| is_closed(found)).count();
    rows.push(heading(
        "Stages",
        format!("{n_closed} of {} closed", build.stages.len()),
    ));
    let shown = shown_stage(build, opened);
    for found in &build.stages {
        let is_open = shown == Some(found.stage);
        rows.push(Row::Build(BuildBit::Stage(stage_row(
            visit, found, is_open,
        ))));
        if is_open {
            asked(visit, build, found, set, rows);
        }
    }
}

fn stage_row(visit: &Visit, found: &StageFound, is_open: bool) -> StageRow {
    let n_all = found.required.len();
    let count =
        |wanted: fn(&Required) -> bool| found.required.iter().filter(|check| wanted(check)).count();
    let n_right = count(|check| check.verdict == Verdict::Right);
    let n_off = count(|check| matches!(check.verdict, Verdict::High | Verdict::Low));
    let (state, mark) = match found.state {
        StageState::Open => (format!("open: {n_right} of {n_all}"), None),
        StageState::Ready => ("ready".to_owned(), Some(Mark::Right)),
        StageState::Failed => (format!("failed: {n_off} off"), Some(Mark::Wrong)),
        StageState::Closed => ("closed".to_owned(), Some(Mark::Right)),
        StageState::ClosedWithReason => ("closed, reason".to_owned(), Some(Mark::Note)),
        StageState::Doubtful => ("doubtful".to_owned(), Some(Mark::NotKnown)),
    };
    let note = if is_closed(found) {
        closed_by(visit, found.stage)
    } else {
        String::new()
    };
    StageRow {
        stage: found.stage,
        name: found.stage.name(),
        state,
        mark,
        is_closed: is_closed(found),
        note,
        is_open,
    }
}

/// Who closed a stage, when, and why.
fn closed_by(visit: &Visit, stage: HoldStage) -> String {
    let key = stage.key();
    let notes = &visit.record().build.stages;
    let Some(note) = notes.iter().find(|note| note.stage == key) else {
        return String::new();
    };
    let stamp = &note.stamp;
    let by = if stamp.by.is_empty() {
        "without initials"
    } else {
        stamp.by.as_str()
    };
    let at = when(&stamp.at);
    let reason = note.reason.trim();
    if reason.is_empty() {
        format!("{by}, {at}")
    } else {
        format!("{by}, {at}: {reason}")
    }
}

/// Date and time without seconds as the clock showed them: `2026-05-04 08:30`, or `2026-05-04 13:30 UTC` where it showed that.
pub(super) fn when(at: &str) -> String {
    let zone = if at.ends_with('Z') { " UTC" } else { "" };
    match (at.get(..10), at.get(11..16)) {
        (Some(date), Some(time)) => format!("{date} {time}{zone}"),
        _ => at.to_owned(),
    }
}

/// What the shown stage asks for, what may hurt someone, and how it is closed.
fn asked(
    visit: &Visit,
    build: &Build,
    found: &StageFound,
    set: Option<Place>,
    rows: &mut Vec<Row>,
) {
    for check in &found.required {
        rows.push(Row::Build(BuildBit::Check(check_row(visit, build, check))));
        if let Place::SpotSize(idx) = check.place {
            let place = Place::SpotStation(idx);
            let is_there = visit.record().text(place).is_some_and(|at| !at.is_empty());
            let row = named(
                visit,
                place,
                None,
                "Where that was",
                "along the run, if it matters",
            );
            rows.push(optional(row, is_there, "anywhere"));
        }
    }
    if let HoldStage::Lift(number) = found.stage {
        rows.push(named(
            visit,
            Place::LiftCompacted(number),
            None,
            "Compacted, if measured",
            &lift_note(visit, build, number),
        ));
    }
    others(visit, found, set, rows);
    if let Some(surface) = surface_of(found) {
        rows.push(Row::Acts(vec![(
            format!("read {} elsewhere", surface.name()),
            Edit::AddCheck {
                surface,
                station: None,
                offset: metres(0.0),
                by_rod: is_by_rod(visit),
            },
        )]));
    }
    for kind in may_check(build, found.stage) {
        rows.push(Row::Acts(vec![(
            format!("check: {}", kind.name()),
            Edit::AddSpot(kind),
        )]));
    }
    closing(visit, found, rows);
    if !found.cautions.is_empty() {
        let words = Words::of(visit.site().show.crew_reads);
        rows.push(heading("Take care", found.stage.name()));
        rows.extend(found.cautions.iter().map(|caution| Row::Said {
            mark: Mark::Note,
            text: words.say(caution.key()),
            under: String::new(),
        }));
    }
}

fn check_row(visit: &Visit, build: &Build, check: &Required) -> CheckRow {
    let state = match check.verdict {
        Verdict::Right => ValueState::Right,
        Verdict::High | Verdict::Low => ValueState::Wrong,
        Verdict::NotKnown => ValueState::Missing,
    };
    let (value, note) = match check.asks {
        Asks::StageBefore(_) => ("open".to_owned(), String::new()),
        _ => said(visit, build, check),
    };
    CheckRow {
        what: check.what.clone(),
        value,
        note,
        state,
        tap: tap(visit, check),
    }
}

/// What was read and what to do, or what it must read.
fn said(visit: &Visit, build: &Build, check: &Required) -> (String, String) {
    let shown = visit.site().shown_in;
    match check.place {
        Place::BuildValue(idx) => {
            let found = build.readings.iter().find(|found| found.reading_idx == idx);
            let Some(found) = found else {
                return ("read it".to_owned(), String::new());
            };
            let note = if found.advice.is_empty() {
                must_read(visit, found)
            } else {
                found.advice.clone()
            };
            (off_words(shown, found), note)
        }
        Place::SpotSize(idx) => {
            let found = build.spots.iter().find(|found| found.spot_idx == idx);
            let Some((found, size)) = found.and_then(|found| Some((found, found.size?))) else {
                return ("measure it".to_owned(), String::new());
            };
            (shown.thickness(size), found.advice.clone())
        }
        Place::LiftLoose(number) => {
            let loose = visit.record().text(check.place).unwrap_or_default();
            let lift = build.lifts.iter().find(|lift| lift.number == number);
            let limit = lift.map_or_else(String::new, |lift| {
                format!("no more than {}", shown.thickness(lift.loose_limit))
            });
            (or_else(loose, "measure it"), limit)
        }
        Place::LiftPasses(number) => {
            let passes = visit.record().text(check.place).unwrap_or_default();
            (
                or_else(passes, "count them"),
                lift_note(visit, build, number),
            )
        }
        _ => ("read it".to_owned(), spot_to_read(visit, check)),
    }
}

fn or_else(text: &str, missing: &str) -> String {
    if text.trim().is_empty() {
        missing.to_owned()
    } else {
        text.to_owned()
    }
}

/// What the lift record says, else what it asks for.
fn lift_note(visit: &Visit, build: &Build, number: usize) -> String {
    let Some(lift) = build.lifts.iter().find(|lift| lift.number == number) else {
        return String::new();
    };
    if lift.advice.is_empty() {
        let compacted = visit.site().shown_in.thickness(lift.compacted);
        match lift.n_passes_asked {
            Some(n_passes) => format!("{compacted} compacted, {n_passes} passes or more"),
            None => format!("{compacted} compacted"),
        }
    } else {
        lift.advice.clone()
    }
}

fn must_read(visit: &Visit, found: &ReadingFound) -> String {
    wanted(visit, found).map_or_else(String::new, |words| format!("must read {words}"))
}

/// What the tape reads at a spot that was not read yet, where the stake table has its station.
fn spot_to_read(visit: &Visit, check: &Required) -> String {
    let Asks::Level {
        surface,
        station,
        offset,
    } = check.asks
    else {
        return String::new();
    };
    let stakes = visit.results().build.as_ref().map(|build| &build.stakes);
    let drop = stakes
        .into_iter()
        .flatten()
        .filter(|_| offset == metres(0.0))
        .find(|stake| in_metres((stake.station - station).abs()) < 1e-3)
        .and_then(|stake| stake.rows.iter().find(|row| row.surface == surface))
        .map(|row| row.drop);
    drop.map_or_else(String::new, |drop| {
        format!("tape must read {}", visit.site().shown_in.length(drop))
    })
}

/// What a stage may be checked for at any spot, though it does not ask for it.
fn may_check(build: &Build, stage: HoldStage) -> Vec<SpotKind> {
    match stage {
        HoldStage::Lift(number) if number == build.lifts.len() => {
            vec![SpotKind::StraightedgeOnBase]
        }
        HoldStage::Field => vec![
            SpotKind::JointWidth,
            SpotKind::BondLine,
            SpotKind::AboveInlet,
        ],
        _ => Vec::new(),
    }
}

/// The surface that a stage reads.
fn surface_of(found: &StageFound) -> Option<Surface> {
    found.required.iter().find_map(|check| match check.asks {
        Asks::Level { surface, .. } => Some(surface),
        _ => None,
    })
}

/// Readings of the stage's surface that no check stands on: read before, elsewhere, or not placed yet. Station at the left.
fn others(visit: &Visit, found: &StageFound, set: Option<Place>, rows: &mut Vec<Row>) {
    let Some(surface) = surface_of(found) else {
        return;
    };
    let key = surface.key();
    let readings = visit.record().build.readings.iter().enumerate();
    for (idx, reading) in readings.filter(|(_, reading)| reading.surface == key) {
        let place = Place::BuildValue(idx);
        let is_asked = found.required.iter().any(|check| check.place == place);
        let is_set =
            matches!(set, Some(Place::BuildStation(at) | Place::BuildOffset(at)) if at == idx);
        if is_asked && !is_set {
            continue;
        }
        let station = or_else(&reading.station, "where?");
        let by = if reading.stamp.by.is_empty() {
            when(&reading.stamp.at)
        } else {
            format!("{}, {}", reading.stamp.by, when(&reading.stamp.at))
        };
        let label = format!("{} at {station}", surface.name());
        let row = named(visit, place, Some(Place::BuildStation(idx)), &label, &by);
        rows.push(match row {
            Row::Value(row) => Row::Value(ValueRow { note: by, ..row }),
            other => other,
        });
    }
}

/// How the stage is closed, or opened again.
fn closing(visit: &Visit, found: &StageFound, rows: &mut Vec<Row>) {
    let stage = found.stage;
    let name = stage.name();
    if is_closed(found) {
        if found.state == StageState::Doubtful {
            rows.push(Row::Said {
                mark: Mark::NotKnown,
                text: "Closed, but what was read does not bear it out.".to_owned(),
                under: "Mend it and read again, or write a reason with initials.".to_owned(),
            });
            reason_rows(visit, stage, rows);
        }
        rows.push(Row::Acts(vec![(
            format!("open again: {name}"),
            Edit::ReopenStage(stage),
        )]));
        return;
    }
    if found.state == StageState::Ready {
        rows.push(Row::Acts(vec![(
            format!("close: {name}"),
            Edit::CloseStage(stage),
        )]));
        return;
    }
    let (has_reason, has_initials) = reason_rows(visit, stage, rows);
    if has_reason && has_initials {
        rows.push(Row::Acts(vec![(
            format!("close with this reason: {name}"),
            Edit::CloseStage(stage),
        )]));
    } else {
        rows.push(Row::Said {
            mark: Mark::NotKnown,
            text: "It closes when every check is right, or on a written reason with initials."
                .to_owned(),
            under: String::new(),
        });
    }
}

/// Reason and initials as entries. Gives whether each is there.
fn reason_rows(visit: &Visit, stage: HoldStage, rows: &mut Vec<Row>) -> (bool, bool) {
    let reason = Place::StageReason(stage);
    let initials = Place::StageInitials(stage);
    let has = |place: Place| {
        visit
            .record()
            .text(place)
            .is_some_and(|text| !text.trim().is_empty())
    };
    let device = visit.record().build.initials.trim();
    let note = "to close it over what is not right";
    rows.push(optional(
        named(visit, reason, None, "Reason", note),
        has(reason),
        "none",
    ));
    let own = optional(
        named(
            visit,
            initials,
            None,
            "Initials for it",
            "whoever decides that",
        ),
        has(initials),
        if device.is_empty() { "none" } else { device },
    );
    rows.push(own);
    (has(reason), has(initials) || !device.is_empty())
}

/// A value that need not be there is not missing.
fn optional(row: Row, is_there: bool, shown: &str) -> Row {
    match row {
        Row::Value(row) if !is_there && row.state == ValueState::Missing => Row::Value(ValueRow {
            value: shown.to_owned(),
            state: ValueState::Default,
            ..row
        }),
        other => other,
    }
}

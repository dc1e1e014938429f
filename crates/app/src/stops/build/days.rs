//! The day log: crew, weather, what came, what is to be remembered, and what was read that day.

use underbrick_calc::build::Build;
use underbrick_calc::place::Place;
use underbrick_calc::site::PictureOf;
use underbrick_records::v1::DayLog;

use super::{heading, list, named};
use crate::edit::Edit;
use crate::stops::opened::{BuildList, Opened};
use crate::stops::{figure, pictures};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::{Row, ValueRow, ValueState};

pub(super) fn rows(visit: &Visit, build: &Build, opened: &Opened, rows: &mut Vec<Row>) {
    let days = &visit.record().build.days;
    rows.push(heading(
        "Day log",
        match days.len() {
            1 => "1 day".to_owned(),
            n_days => format!("{n_days} days"),
        },
    ));
    if !list(opened, BuildList::Days, "the day log", rows) {
        return;
    }
    for (day_idx, day) in days.iter().enumerate() {
        day_rows(visit, build, day_idx, day, rows);
    }
    rows.push(Row::Acts(vec![("add today".to_owned(), Edit::AddDay)]));
    if !visit.is_local_time() {
        rows.push(Row::Said {
            mark: Mark::NotKnown,
            text: "This device names no time zone: dates and times are UTC.".to_owned(),
            under: "Set its time zone, and start again; a date can be written over.".to_owned(),
        });
    }
    let of = match days.len().checked_sub(1) {
        Some(last_idx) => PictureOf::Day(last_idx),
        None => PictureOf::HandedOver,
    };
    rows.push(heading("Take in pictures", pictures::said(visit, of)));
    pictures::taken_in(visit, of, rows);
    pictures::those_of(visit, PictureOf::HandedOver, rows);
}

fn day_rows(visit: &Visit, build: &Build, day_idx: usize, day: &DayLog, rows: &mut Vec<Row>) {
    rows.push(entry(visit, Place::DayDate(day_idx), "Date", &day.stamp.by));
    rows.push(entry(visit, Place::DayCrew(day_idx), "Crew", "who worked"));
    rows.push(entry(
        visit,
        Place::DayWeather(day_idx),
        "Weather",
        "in a few words",
    ));
    rows.push(entry(
        visit,
        Place::DayNotes(day_idx),
        "Notes",
        "what else is to be remembered",
    ));
    for nth in 0..day.deliveries.len() {
        rows.push(named(
            visit,
            Place::DeliveryCount(day_idx, nth),
            Some(Place::DeliveryItem(day_idx, nth)),
            &delivered(visit, day_idx, nth),
            "came; how many",
        ));
        rows.push(Row::Acts(vec![(
            format!("take away: {}", delivered(visit, day_idx, nth)),
            Edit::RemoveDelivery(day_idx, nth),
        )]));
    }
    let on_that_day = |at: &str| !day.date.is_empty() && at.starts_with(day.date.trim());
    let record = &visit.record().build;
    let n_read = record
        .readings
        .iter()
        .filter(|reading| on_that_day(&reading.stamp.at))
        .count();
    let closed: Vec<String> = build
        .stages
        .iter()
        .filter(|found| {
            let key = found.stage.key();
            record
                .stages
                .iter()
                .any(|note| note.stage == key && note.closed && on_that_day(&note.stamp.at))
        })
        .map(|found| found.stage.name())
        .collect();
    let closed = if closed.is_empty() {
        "no stage closed".to_owned()
    } else {
        format!("closed: {}", closed.join(", "))
    };
    rows.push(figure("Read that day", n_read.to_string(), closed));
    pictures::those_of(visit, PictureOf::Day(day_idx), rows);
    rows.push(Row::Acts(vec![
        (
            format!("something came, day {}", day_idx + 1),
            Edit::AddDelivery(day_idx),
        ),
        (
            format!("take day {} away", day_idx + 1),
            Edit::RemoveDay(day_idx),
        ),
    ]));
}

fn delivered(visit: &Visit, day_idx: usize, nth: usize) -> String {
    let key = visit.record().text(Place::DeliveryItem(day_idx, nth));
    key.and_then(underbrick_calc::order::Item::of)
        .map_or_else(|| "what came?".to_owned(), |item| item.name().to_owned())
}

/// A value that may stay empty.
fn entry(visit: &Visit, place: Place, label: &str, note: &str) -> Row {
    match named(visit, place, None, label, note) {
        Row::Value(row) if row.state == ValueState::Missing => Row::Value(ValueRow {
            state: ValueState::Default,
            ..row
        }),
        other => other,
    }
}

//! The penetrometer of an open pit: its rows, what follows from them, and how one row leads to the next.

use underbrick_calc::ground::{DrivenLayer, Penetrometer};
use underbrick_calc::place::Place;
use underbrick_calc::site::{DrivenInto, Hammer, ShownIn};

use super::{figure, heading, named, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, pit_idx: usize, set: Option<Place>, rows: &mut Vec<Row>) {
    let Some(pit) = visit.record().pits.get(pit_idx) else {
        return;
    };
    let log = &pit.penetrometer;
    let add = |word: &str| Row::Acts(vec![(word.to_owned(), Edit::AddPenetrometerRow(pit_idx))]);
    if log.is_empty() {
        rows.push(heading("Penetrometer", "not driven"));
        rows.push(add("drive a penetrometer"));
        return;
    }
    let n_rows = log.rows.len();
    let n_rows_words = format!("{n_rows} {}", if n_rows == 1 { "row" } else { "rows" });
    rows.push(heading("Penetrometer", n_rows_words));
    rows.push(Row::Choice {
        label: match log.hammer.into() {
            Hammer::Heavy => "Hammer".to_owned(),
            Hammer::Light => "Hammer: its travel is counted twice".to_owned(),
        },
        options: [
            ("8 kg, 17.6 lb", Hammer::Heavy),
            ("4.6 kg, 10.1 lb", Hammer::Light),
        ]
        .map(|(word, hammer)| {
            let chosen = log.hammer == hammer.into();
            (word.to_owned(), Edit::Hammer(pit_idx, hammer), chosen)
        })
        .to_vec(),
    });
    rows.push(Row::Choice {
        label: "Driven into".to_owned(),
        options: [
            ("any soil", DrivenInto::AnySoil),
            ("lean clay", DrivenInto::LeanClay),
            ("fat clay", DrivenInto::FatClay),
        ]
        .map(|(word, soil)| {
            let chosen = log.driven_into == soil.into();
            (word.to_owned(), Edit::DrivenInto(pit_idx, soil), chosen)
        })
        .to_vec(),
    });
    rows.push(value(visit, Place::PenetrometerStart(pit_idx), ""));
    for (row_idx, row) in log.rows.iter().enumerate() {
        let blows_place = Place::PenetrometerBlows(pit_idx, row_idx);
        let reading_place = Place::PenetrometerReading(pit_idx, row_idx);
        let label = format!("{}: {}", row_idx + 1, blows_words(&row.blows));
        rows.push(named(visit, reading_place, Some(blows_place), &label, ""));
        if set == Some(blows_place) || set == Some(reading_place) {
            rows.push(Row::Acts(vec![(
                format!("take row {} away", row_idx + 1),
                Edit::RemovePenetrometerRow(pit_idx, row_idx),
            )]));
        }
    }
    rows.push(add("add a row"));
    let found = visit
        .results()
        .penetrometers
        .iter()
        .find(|found| found.pit_idx == pit_idx);
    if let Some(found) = found {
        found_rows(found, visit.site().shown_in, rows);
    }
}

fn blows_words(blows: &str) -> String {
    match blows.trim() {
        "" => "blows not counted".to_owned(),
        "1" => "1 blow".to_owned(),
        blows => format!("{blows} blows"),
    }
}

fn found_rows(found: &Penetrometer, shown_in: ShownIn, rows: &mut Vec<Row>) {
    rows.push(heading("What it found", "down from the bottom of the pit"));
    for layer in &found.layers {
        rows.push(figure(
            format!(
                "{} to {}",
                shown_in.thickness(layer.from),
                shown_in.thickness(layer.to)
            ),
            format!("CBR about {}", layer.strength.cbr),
            note(layer, shown_in),
        ));
    }
    let relation = found
        .layers
        .first()
        .map_or("", |layer| layer.strength.relation.words());
    rows.push(figure(
        "Layers miss the readings by",
        shown_in.thickness(found.misfit),
        relation,
    ));
}

/// The spread of the relations, and the travel that it follows from.
fn note(layer: &DrivenLayer, shown_in: ShownIn) -> String {
    let per_blow = format!("{} per blow", layer.per_blow_words(shown_in));
    match layer.strength.spread_words() {
        Some(spread) => format!("({spread}), {per_blow}"),
        None => per_blow,
    }
}

/// Where a new row is set: where the scale starts, with the first; else its blows.
pub(crate) fn new_row(visit: &Visit, pit_idx: usize) -> Place {
    let log = visit
        .record()
        .pits
        .get(pit_idx)
        .map(|pit| &pit.penetrometer);
    match log {
        Some(log) if log.rows.len() == 1 && log.start.is_empty() => {
            Place::PenetrometerStart(pit_idx)
        }
        Some(log) => Place::PenetrometerBlows(pit_idx, log.rows.len().saturating_sub(1)),
        None => Place::Pit(pit_idx),
    }
}

/// What follows a value of a row.
pub(crate) enum RowStep {
    /// Another value.
    To(Place),
    /// A change of the rows.
    Do(Edit),
}

/// After the blows the reading, after the reading the next row's blows. After the last reading comes a new row; left empty, it goes
/// away again, and the log is done. `None` where a log is left as it is.
pub(crate) fn after_row(visit: &Visit, place: Place) -> Option<RowStep> {
    let is_empty = |place: Place| visit.record().text(place).is_none_or(str::is_empty);
    match place {
        Place::PenetrometerBlows(pit_idx, row_idx) => {
            let reading = Place::PenetrometerReading(pit_idx, row_idx);
            let is_last = visit
                .record()
                .text(Place::PenetrometerBlows(pit_idx, row_idx + 1))
                .is_none();
            let is_left_empty = row_idx > 0 && is_last && is_empty(place) && is_empty(reading);
            Some(if is_left_empty {
                RowStep::Do(Edit::RemovePenetrometerRow(pit_idx, row_idx))
            } else {
                RowStep::To(reading)
            })
        }
        Place::PenetrometerReading(pit_idx, row_idx) => {
            let next = Place::PenetrometerBlows(pit_idx, row_idx + 1);
            if visit.record().text(next).is_some() {
                Some(RowStep::To(next))
            } else {
                (!is_empty(place)).then_some(RowStep::Do(Edit::AddPenetrometerRow(pit_idx)))
            }
        }
        _ => None,
    }
}

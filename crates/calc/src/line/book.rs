//! From the level book to levels of the old surface, and what the book itself says.

use super::Run;
use super::shots::{Reading, beyond_the_run, left_out};
use crate::field::{check_length, full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::measure::levels_book::{
    BookRow, Closing, LevelBook, ReducedBook, Sight, Stands, allowed_by_set_ups, reduce,
};
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// The level book reduced, with findings on its slips, its three-way check and its misclosure. `None` without a sight.
pub(crate) fn level_book(site: &Site, findings: &mut Findings) -> Option<ReducedBook> {
    if site.line.book.rows.is_empty() {
        return None;
    }
    name_out_of_reason(site, findings);
    let reduced = reduce(&checked(&site.line.book));
    for fault in &reduced.faults {
        if is_out_of_reason(site, fault.place()) {
            continue; // said already
        }
        findings.note(
            fault.place(),
            Weight::Warning,
            Source::Readings,
            format!("{}.", fault.words(site.shown_in)),
            "What hangs on it has no level until this is mended.",
        );
    }
    name_left_out(site, &reduced, findings);
    if reduced.sums.is_some_and(|sums| !sums.agree()) {
        findings.note(
            Place::BookRow(0),
            Weight::Stop,
            Source::Readings,
            "The sums at the foot of the level book do not agree three ways.",
            "Go through its rows again.",
        );
    }
    name_closings(site, &reduced, findings);
    Some(reduced)
}

/// Levels of the old surface by the book.
pub(super) fn readings(site: &Site, run: &Run, findings: &mut Findings) -> Vec<Reading> {
    let reduced = reduce(&checked(&site.line.book));
    let rows = site.line.book.rows.iter().zip(&reduced.rows).enumerate();
    rows.filter(|(_, (row, _))| is_on_old_surface(row))
        .filter_map(|(row_idx, (row, reduced))| {
            let station = station(site, run, row_idx, row, findings)?;
            let offset = match row.offset {
                Some(_) => take_length(
                    site,
                    Place::BookOffset(row_idx),
                    row.offset,
                    Weight::Warning,
                    findings,
                )?,
                None => metres(0.0),
            };
            Some(Reading {
                station_m: in_metres(station),
                offset_m: in_metres(offset),
                level_m: in_metres(reduced.level_used?),
            })
        })
        .collect()
}

/// A backsight reads the point of the foresight before it once more: its level is that of the foresight.
fn is_on_old_surface(row: &BookRow) -> bool {
    row.stands == Stands::OldSurface && row.sight != Sight::Back
}

fn station(
    site: &Site,
    run: &Run,
    row_idx: usize,
    row: &BookRow,
    findings: &mut Findings,
) -> Option<Length> {
    let place = Place::BookStation(row_idx);
    if row.station.is_none() {
        left_out(
            findings,
            place,
            &format!("{} is missing.", full_name(place)),
        );
    }
    let station = take_length(site, place, row.station, Weight::Warning, findings)?;
    let on_run = run.station_on_run(station);
    if on_run.is_none() {
        left_out(findings, place, &beyond_the_run(site, run, place, station));
    }
    on_run
}

/// The book without what cannot be true.
fn checked(book: &LevelBook) -> LevelBook {
    let keep = |place, length: Option<Length>| length.and_then(|it| check_length(place, it).ok());
    LevelBook {
        rows: book
            .rows
            .iter()
            .enumerate()
            .map(|(row_idx, row)| BookRow {
                reading: keep(Place::BookReading(row_idx), row.reading),
                ..*row
            })
            .collect(),
        benchmark_above_sill: keep(Place::BookBenchmark, book.benchmark_above_sill),
        limit: keep(Place::BookLimit, book.limit),
        spread: book.spread,
    }
}

fn in_book(book: &LevelBook) -> impl Iterator<Item = (Place, Option<Length>)> {
    let readings = book.rows.iter().enumerate();
    readings
        .map(|(row_idx, row)| (Place::BookReading(row_idx), row.reading))
        .chain([
            (Place::BookBenchmark, book.benchmark_above_sill),
            (Place::BookLimit, book.limit),
        ])
}

fn name_out_of_reason(site: &Site, findings: &mut Findings) {
    for (place, length) in in_book(&site.line.book) {
        take_length(site, place, length, Weight::Warning, findings);
    }
}

fn is_out_of_reason(site: &Site, place: Place) -> bool {
    in_book(&site.line.book).any(|(at, length)| {
        at == place && length.is_some_and(|length| check_length(place, length).is_err())
    })
}

/// Rows that have no level though nothing is wrong with themselves.
fn name_left_out(site: &Site, reduced: &ReducedBook, findings: &mut Findings) {
    let rows = site.line.book.rows.iter().zip(&reduced.rows).enumerate();
    let left: Vec<usize> = rows
        .filter(|(row_idx, (_, reduced_row))| {
            reduced_row.level.is_none()
                && !reduced
                    .faults
                    .iter()
                    .any(|fault| fault.place() == Place::BookReading(*row_idx))
        })
        .map(|(row_idx, _)| row_idx)
        .collect();
    let Some(first) = left.first() else { return };
    let numbers: Vec<String> = left
        .iter()
        .map(|row_idx| row_idx.saturating_add(1).to_string())
        .collect();
    findings.note(
        Place::BookRow(*first),
        Weight::Warning,
        Source::Readings,
        format!(
            "Left out of the level book, because the set-up before is broken: sight {}.",
            numbers.join(", ")
        ),
        "Mend the sight before, or take the set-up again from a known level.",
    );
}

fn name_closings(site: &Site, reduced: &ReducedBook, findings: &mut Findings) {
    for closing in &reduced.closings {
        name_closing(site, closing, findings);
    }
    let last_fore = site
        .line
        .book
        .rows
        .iter()
        .rposition(|row| row.sight == Sight::Fore);
    if let Some(last) = last_fore
        && reduced.n_set_ups > 1
        && reduced.closings.last().map(|closing| closing.row_idx) < Some(last)
        && reduced.faults.is_empty()
    {
        findings.note(
            Place::BookReading(last),
            Weight::Note,
            Source::Readings,
            "The level book does not come back to a known level: what it is out by is not known.",
            "Close it with a foresight on the sill.",
        );
    }
}

fn name_closing(site: &Site, closing: &Closing, findings: &mut Findings) {
    let say = |length: Length| site.shown_in.thickness(length);
    let out_m = in_metres(closing.misclosure);
    let out = say(metres(out_m.abs()));
    let side = if out_m > 0.0 { "high" } else { "low" };
    let set_ups = match closing.n_set_ups {
        1 => "one set-up".to_owned(),
        n_set_ups => format!("{n_set_ups} set-ups"),
    };
    let closes = if out == say(metres(0.0)) {
        format!("The level book closes over {set_ups}")
    } else {
        format!("The level book closes {out} {side} over {set_ups}")
    };
    let spread = match (closing.is_spread, out_m.abs() > 1e-9) {
        (true, true) => " It is spread over them in proportion.",
        (false, true) => " The readings are used as they are.",
        (_, false) => "",
    };
    let peers = format!(
        "For information: 5 mm times the square root of the set-ups is {} (site practice, from memory).",
        say(allowed_by_set_ups(closing.n_set_ups))
    );
    let place = Place::BookReading(closing.row_idx);
    let limit = say(closing.limit);
    if closing.is_kept {
        let text = format!("{closes}, within {limit}.{spread}");
        findings.note(place, Weight::Right, Source::CommonPractice, text, peers);
    } else {
        let text = format!("{closes}, more than {limit}.{spread}");
        let remedy =
            format!("Take the set-ups again, or look for a sight that was misread. {peers}");
        findings.note(place, Weight::Warning, Source::CommonPractice, text, remedy);
    }
}

//! The field book at stop Line: sights from several set-ups, as a level book shows them.

use underbrick_calc::findings::Weight;
use underbrick_calc::measure::levels_book::{Closing, ReducedBook, ReducedRow};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::{BookRow, ShownIn, Sight, Stands};

use super::line::side;
use super::{displayed, figure, heading, value};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::book::{BookCell, BookFoot, BookLine, BookPart};
use crate::widgets::mark::Mark;
use crate::widgets::rows::{Row, ValueState};

pub(super) fn rows(visit: &Visit, set: Option<Place>, rows: &mut Vec<Row>) {
    let book = &visit.site().line.book;
    let Some(reduced) = &visit.results().book else {
        rows.push(heading("Field book", "for more than one set-up"));
        rows.push(Row::Acts(vec![(
            "start a field book".to_owned(),
            Edit::BookStart,
        )]));
        return;
    };
    let note = match reduced.n_set_ups {
        1 => "1 set-up closed".to_owned(),
        n_set_ups => format!("{n_set_ups} set-ups closed"),
    };
    rows.push(heading("Field book", note));
    rows.push(Row::Book(BookPart::Head));
    let mut row_idx = 0;
    while let Some(row) = book.rows.get(row_idx) {
        let back_idx = row_idx + 1;
        let turned = book.rows.get(back_idx).filter(|back| {
            row.sight == Sight::Fore && back.sight == Sight::Back && back.stands == row.stands
        });
        let mut line = line(visit, reduced, row_idx, row);
        if turned.is_some() {
            let back = reading(visit, back_idx, Sight::Back);
            line.collimation = collimation(visit, reduced.rows.get(back_idx));
            line.readings[0] = Some(back);
        }
        rows.push(Row::Book(BookPart::Line(Box::new(line))));
        let sights = row_idx..=row_idx + usize::from(turned.is_some());
        if set
            .and_then(sight_of)
            .is_some_and(|at| sights.contains(&at))
        {
            details(visit, row_idx, row, rows);
        }
        row_idx += 1 + usize::from(turned.is_some());
    }
    rows.push(Row::Book(BookPart::Foot(foot(visit, reduced))));
    keys(visit, reduced, rows);
    for closing in &reduced.closings {
        rows.push(closes(visit.site().shown_in, closing));
    }
    if !reduced.closings.is_empty() {
        rows.push(value(visit, Place::BookLimit, ""));
    }
}

/// Which sight a place belongs to.
const fn sight_of(place: Place) -> Option<usize> {
    match place {
        Place::BookRow(row_idx)
        | Place::BookStation(row_idx)
        | Place::BookOffset(row_idx)
        | Place::BookReading(row_idx) => Some(row_idx),
        _ => None,
    }
}

fn line(visit: &Visit, reduced: &ReducedBook, row_idx: usize, row: &BookRow) -> BookLine {
    let shown_in = visit.site().shown_in;
    let reduced = reduced.rows.get(row_idx);
    let has_station = visit.record().text(Place::BookStation(row_idx)).is_some();
    let (point, under) = point(shown_in, row, reduced, has_station);
    let station_is_wrong = [Place::BookStation(row_idx), Place::BookOffset(row_idx)]
        .into_iter()
        .flat_map(|place| visit.findings_at(place))
        .any(|finding| finding.weight >= Weight::Warning);
    let mut readings = [None, None, None];
    let column = match row.sight {
        Sight::Back => 0,
        Sight::Intermediate => 1,
        Sight::Fore => 2,
    };
    if let Some(cell) = readings.get_mut(column) {
        *cell = Some(reading(visit, row_idx, row.sight));
    }
    BookLine {
        point,
        under,
        point_place: if has_station {
            Place::BookStation(row_idx)
        } else {
            Place::BookReading(row_idx)
        },
        point_name: format!("Sight {}, where the rod stands", row_idx + 1),
        point_missing: has_station && (row.station.is_none() || station_is_wrong),
        readings,
        collimation: collimation(visit, reduced),
        level: reduced
            .and_then(|reduced| reduced.level_used)
            .map_or_else(String::new, |level| shown_in.thickness(-level)),
        step: reduced
            .and_then(|reduced| reduced.step)
            .map_or_else(String::new, |step| rise_or_fall(shown_in, step)),
    }
}

fn point(
    shown_in: ShownIn,
    row: &BookRow,
    reduced: Option<&ReducedRow>,
    has_station: bool,
) -> (String, String) {
    let turning_point = reduced.and_then(|reduced| reduced.turning_point);
    match row.stands {
        Stands::Sill => ("Sill".to_owned(), "datum".to_owned()),
        Stands::Benchmark => ("Bench".to_owned(), "mark".to_owned()),
        Stands::OldSurface if has_station => {
            let station = row
                .station
                .map_or_else(|| "where?".to_owned(), |station| shown_in.along(station));
            let off = row.offset.filter(|offset| *offset != metres(0.0));
            let side = off.map_or_else(
                || "old walk".to_owned(),
                |offset| {
                    let side = side(offset, shown_in);
                    side.trim_start_matches([',', ' ']).to_owned()
                },
            );
            (station, side)
        }
        Stands::TurningPoint | Stands::OldSurface => (
            turning_point.map_or_else(|| "TP".to_owned(), |number| format!("TP {number}")),
            "turn".to_owned(),
        ),
    }
}

fn collimation(visit: &Visit, reduced: Option<&ReducedRow>) -> String {
    reduced
        .and_then(|reduced| reduced.collimation)
        .map_or_else(String::new, |height| {
            format!("HI {}", visit.site().shown_in.thickness(height))
        })
}

fn rise_or_fall(shown_in: ShownIn, step: Length) -> String {
    let size = shown_in.thickness(metres(in_metres(step).abs()));
    if size == shown_in.thickness(metres(0.0)) {
        "level".to_owned()
    } else if step > metres(0.0) {
        format!("rise {size}")
    } else {
        format!("fall {size}")
    }
}

fn reading(visit: &Visit, row_idx: usize, sight: Sight) -> BookCell {
    let place = Place::BookReading(row_idx);
    let text = visit.record().text(place).unwrap_or_default();
    let worst = visit.findings_at(place).map(|finding| finding.weight).max();
    let state = match worst {
        _ if text.trim().is_empty() => ValueState::Missing,
        Some(Weight::Warning | Weight::Stop) => ValueState::Wrong,
        Some(Weight::Right) => ValueState::Right,
        Some(Weight::Note) | None => ValueState::Known,
    };
    BookCell {
        place,
        name: format!("Sight {}, {}", row_idx + 1, sight.word()),
        text: displayed(visit, place, text),
        state,
    }
}

/// What else can be said of the sight that is being set.
fn details(visit: &Visit, row_idx: usize, row: &BookRow, rows: &mut Vec<Row>) {
    let all = [
        (Stands::Sill, "the sill"),
        (Stands::Benchmark, "a benchmark"),
        (Stands::TurningPoint, "a turning point"),
        (Stands::OldSurface, "the old walk"),
    ];
    let options = all
        .into_iter()
        .filter(|(stands, _)| match row.sight {
            Sight::Back => matches!(stands, Stands::Sill | Stands::Benchmark),
            Sight::Intermediate => *stands != Stands::TurningPoint,
            Sight::Fore => true,
        })
        .map(|(stands, word)| {
            let edit = Edit::BookStands(row_idx, stands);
            (word.to_owned(), edit, row.stands == stands)
        });
    rows.push(Row::Choice {
        label: format!("Sight {}: the rod stands on", row_idx + 1),
        options: options.collect(),
    });
    if row.stands == Stands::Benchmark {
        rows.push(value(visit, Place::BookBenchmark, ""));
    }
    if visit.record().text(Place::BookOffset(row_idx)).is_some() {
        rows.push(value(visit, Place::BookOffset(row_idx), ""));
    }
    rows.push(Row::Acts(vec![(
        format!("take sight {} out", row_idx + 1),
        Edit::RemoveBookLine(row_idx),
    )]));
}

fn foot(visit: &Visit, reduced: &ReducedBook) -> BookFoot {
    let Some(sums) = &reduced.sums else {
        return BookFoot {
            sums: Vec::new(),
            mark: Mark::NotKnown,
            words: "nothing to check before a foresight".to_owned(),
        };
    };
    let say = |length: Length| visit.site().shown_in.thickness(length);
    let less = |one: Length, other: Length, all: Length| {
        format!("{} − {} = {}", say(one), say(other), say(all))
    };
    let (mark, words) = if sums.agree() {
        (Mark::Right, "checked: all three agree")
    } else {
        (Mark::Wrong, "the three do not agree")
    };
    BookFoot {
        sums: vec![
            (
                "BS − FS".to_owned(),
                less(sums.back, sums.fore, sums.back_less_fore()),
            ),
            (
                "rise − fall".to_owned(),
                less(sums.rise, sums.fall, sums.rise_less_fall()),
            ),
            (
                "last − first level, as read".to_owned(),
                say(sums.last_less_first),
            ),
        ],
        mark,
        words: words.to_owned(),
    }
}

fn keys(visit: &Visit, reduced: &ReducedBook, rows: &mut Vec<Row>) {
    let book = &visit.site().line.book;
    let is_open = book.rows.last().is_some_and(|row| row.sight != Sight::Fore);
    if is_open {
        rows.push(Row::Acts(vec![
            ("add a sight".to_owned(), Edit::BookSight),
            ("turn here".to_owned(), Edit::BookTurn),
            ("close on the sill".to_owned(), Edit::BookClose),
        ]));
    } else {
        let on_sill = ("new set-up on the sill".to_owned(), Edit::BookStart);
        rows.push(Row::Acts(vec![on_sill]));
    }
    let last = book.rows.len().saturating_sub(1);
    let mut acts = vec![("remove last row".to_owned(), Edit::RemoveBookLine(last))];
    if book.spread {
        let word = "take levels as read".to_owned();
        acts.insert(0, (word, Edit::BookSpread(false)));
    } else if !reduced.closings.is_empty() {
        let word = "spread the misclosure".to_owned();
        acts.insert(0, (word, Edit::BookSpread(true)));
    }
    rows.push(Row::Acts(acts));
}

fn closes(shown_in: ShownIn, closing: &Closing) -> Row {
    let out = shown_in.thickness(metres(in_metres(closing.misclosure).abs()));
    let size = if out == shown_in.thickness(metres(0.0)) {
        "exactly".to_owned()
    } else if closing.misclosure > metres(0.0) {
        format!("{out} high")
    } else {
        format!("{out} low")
    };
    let set_ups = match closing.n_set_ups {
        1 => "one set-up".to_owned(),
        n_set_ups => format!("{n_set_ups} set-ups"),
    };
    let used = if closing.is_spread {
        ", spread"
    } else {
        ", levels as read"
    };
    figure(
        format!("Sight {} closes", closing.row_idx + 1),
        size,
        format!("over {set_ups}{used}"),
    )
}

//! The brick as measured, and what the sample says.

use underbrick_calc::lay::fine;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_sheets::brick::{BrickSheet, SampleRow, aspect_words, brick, closing_words};

use super::super::{figure, heading, named};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, set: Option<Place>, rows: &mut Vec<Row>) {
    let site = visit.site();
    let n_measured = site.lay.sample.len();
    rows.push(heading(
        "Brick as measured",
        match n_measured {
            0 => "none yet: three at least".to_owned(),
            1 => "1 brick".to_owned(),
            more => format!("{more} bricks"),
        },
    ));
    for brick_idx in 0..n_measured {
        reading_rows(visit, brick_idx, set, rows);
    }
    let mut acts = vec![("measure a brick".to_owned(), Edit::AddSampleBrick(false))];
    if site.lay.second_brick.is_some() {
        acts.push((
            "measure a second-size brick".to_owned(),
            Edit::AddSampleBrick(true),
        ));
    }
    rows.push(Row::Acts(acts));
    let Some(found) = &visit.results().brick else {
        return;
    };
    let sheet = brick(found, site.shown_in);
    for row in &sheet.samples {
        sample_rows(row, rows);
    }
    rows.push(figure(
        "Length by thickness",
        sheet.aspect.shown.clone(),
        aspect_words(found.aspect),
    ));
    modular_rows(&sheet, rows);
}

/// One row a brick; its other sides and what takes it away are there while it is being set.
fn reading_rows(visit: &Visit, brick_idx: usize, set: Option<Place>, rows: &mut Vec<Row>) {
    let site = visit.site();
    let Some(reading) = site.lay.sample.get(brick_idx) else {
        return;
    };
    let words = |length: Option<Length>| {
        length.map_or_else(|| "?".to_owned(), |length| fine(length, site.shown_in))
    };
    let places = [
        Place::SampleLength(brick_idx),
        Place::SampleWidth(brick_idx),
        Place::SampleThickness(brick_idx),
    ];
    let [length, width, thickness] = places;
    let size = if reading.of_second {
        ", second size"
    } else {
        ""
    };
    let is_open = places.into_iter().any(|place| set == Some(place));
    let slip = places
        .into_iter()
        .flat_map(|place| visit.findings_at(place))
        .next();
    let note = match slip {
        Some(finding) if !is_open => finding.text.clone(),
        _ => format!(
            "x {} x {}{size}",
            words(reading.width),
            words(reading.thickness)
        ),
    };
    let number = brick_idx + 1;
    rows.push(named(
        visit,
        length,
        None,
        &format!("Brick {number}, length"),
        &note,
    ));
    if is_open {
        rows.push(named(
            visit,
            width,
            None,
            &format!("Brick {number}, width"),
            "",
        ));
        rows.push(named(
            visit,
            thickness,
            None,
            &format!("Brick {number}, thickness"),
            "",
        ));
        rows.push(Row::Acts(vec![(
            format!("take brick {number} away"),
            Edit::RemoveSampleBrick(brick_idx),
        )]));
    }
}

fn sample_rows(row: &SampleRow, rows: &mut Vec<Row>) {
    if row.of != "field" {
        rows.push(heading(
            "The second size",
            format!("{} measured", row.bricks),
        ));
    }
    for side in &row.sides {
        let mut note = if side.readings > 1 {
            format!(
                "{} to {}, spread {}",
                side.least.shown, side.most.shown, side.deviation.shown
            )
        } else {
            "one reading: spread not known".to_owned()
        };
        if side.left_out > 0 {
            note += &format!("; {} left out", side.left_out);
        }
        rows.push(figure(
            format!("Mean {} of {}", side.side, side.readings),
            side.mean.shown.clone(),
            note,
        ));
    }
    for class in &row.classes {
        let because = if class.because.is_empty() {
            "type the size as ordered above"
        } else {
            &class.because
        };
        rows.push(figure(
            format!("{}, {}", class.standard, class.what_for),
            class.class,
            because,
        ));
    }
    if !row.few.is_empty() {
        rows.push(note(row.few.clone()));
    }
}

fn modular_rows(sheet: &BrickSheet, rows: &mut Vec<Row>) {
    rows.push(figure(
        "Two widths, a joint",
        if sheet.is_modular {
            "modular"
        } else {
            "not modular"
        },
        format!("make the length at {}", sheet.closing_joint.shown),
    ));
    let closing = closing_words(sheet);
    if !closing.is_empty() {
        rows.push(note(closing));
    }
}

fn note(text: String) -> Row {
    Row::Said {
        mark: Mark::Note,
        text,
        under: String::new(),
    }
}

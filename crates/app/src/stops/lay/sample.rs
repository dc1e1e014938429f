//! The brick as measured, and what the sample says.

use underbrick_calc::lay::{BrickSample, fine};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::Length;
use underbrick_calc::site::Site;
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
    for (row, sample) in sheet.samples.iter().zip(
        [&found.sample.first, &found.sample.second]
            .into_iter()
            .flatten(),
    ) {
        sample_rows(site, row, sample, rows);
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

fn sample_rows(site: &Site, row: &SampleRow, sample: &BrickSample, rows: &mut Vec<Row>) {
    if row.of != "field" {
        rows.push(heading(
            "The second size",
            format!("{} measured", row.bricks),
        ));
    }
    for side in &row.sides {
        let note = if side.readings > 1 {
            format!(
                "{} to {}, spread {}",
                side.least.shown, side.most.shown, side.deviation.shown
            )
        } else {
            "one reading: spread not known".to_owned()
        };
        rows.push(figure(
            format!("Mean {} of {}", side.side, side.readings),
            side.mean.shown.clone(),
            note,
        ));
    }
    for class in &row.classes {
        rows.push(figure(
            class.standard,
            class.class,
            if class.because.is_empty() {
                class.what_for.to_owned()
            } else {
                format!("{}; {}", class.what_for, class.because)
            },
        ));
    }
    if !row.few.is_empty() {
        rows.push(note(row.few.clone()));
    }
    for slip in &sample.slips {
        rows.push(Row::Said {
            mark: Mark::Wrong,
            text: format!(
                "{}: {} {} {}.",
                underbrick_calc::field::full_name(slip.place),
                fine(slip.reading, site.shown_in),
                slip.kind.words(),
                fine(slip.against, site.shown_in)
            ),
            under: "kept as written, left out of the mean".to_owned(),
        });
    }
}

fn modular_rows(sheet: &BrickSheet, rows: &mut Vec<Row>) {
    rows.push(figure(
        "Two widths and a joint make the length",
        if sheet.is_modular {
            "modular"
        } else {
            "not modular"
        },
        format!("with a joint of {}", sheet.closing_joint.shown),
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

//! Pictures among the rows, and the card of the one that is looked at.

use underbrick_calc::place::Place;
use underbrick_calc::site::PictureOf;

use super::opened::{Opened, Part, PictureShown};
use super::{Stop, heading, named, pit_of};
use crate::album::Look;
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::pictures::{LargeView, Tile};
use crate::widgets::rows::{Row, ValueRow, ValueState};

/// Most files that are offered one by one.
const ONE_BY_ONE: usize = 3;

/// All pictures of the site, and what may be taken in.
pub(super) fn rows(visit: &Visit, opened: &Opened, rows: &mut Vec<Row>) {
    let album = visit.album();
    let n_pictures = visit.site().show.pictures.len();
    let note = match (n_pictures, album.n_awaited()) {
        (_, n_awaited @ 1..) => format!("taking in {n_awaited}"),
        (0, 0) => "none".to_owned(),
        (n_pictures, 0) => format!("{n_pictures} kept"),
    };
    rows.push(heading("Pictures", note));
    if n_pictures > 0 {
        rows.push(Row::Pictures(tiles(visit, |_| true)));
    }
    taken_in(visit, PictureOf::AsFound, rows);
    away(visit, opened, rows);
}

/// How pictures are taken in, and what lies in the folder to be taken in for that.
pub(super) fn taken_in(visit: &Visit, of: PictureOf, rows: &mut Vec<Row>) {
    rows.push(Row::Said {
        mark: Mark::Note,
        text: "Drop a JPEG or PNG on the window, or copy it into the folder pictures of this site."
            .to_owned(),
        under: "The file is kept as it is.".to_owned(),
    });
    unnamed(visit.album().unnamed(), of, rows);
}

/// Files in the folder that the record does not name.
fn unnamed(files: &[String], of: PictureOf, rows: &mut Vec<Row>) {
    let take_in = |words: String, files: &[String]| {
        let files = files.to_vec();
        Row::Acts(vec![(words, Edit::AddPictures { files, of })])
    };
    match files {
        [] => {}
        [file] => rows.push(take_in(format!("take in the new picture {file}"), files)),
        _ => {
            let n_files = files.len();
            let words = format!("{n_files} new pictures in the folder: take in");
            rows.push(take_in(words, files));
            if n_files <= ONE_BY_ONE {
                let each = files.iter().zip(files.chunks(1));
                rows.extend(each.map(|(file, only)| take_in(format!("only {file}"), only)));
            }
        }
    }
}

/// Pictures that were taken away and still lie in the folder.
fn away(visit: &Visit, opened: &Opened, rows: &mut Vec<Row>) {
    let away = &visit.record().show.put_away;
    if away.is_empty() {
        return;
    }
    let is_open = opened.shows(&Part::PicturesAway);
    let verb = if is_open { "fold" } else { "show" };
    let noun = if away.len() == 1 {
        "picture"
    } else {
        "pictures"
    };
    rows.push(Row::More {
        words: format!("{verb} {} {noun} taken away", away.len()),
        part: Part::PicturesAway,
    });
    if is_open {
        rows.extend(away.iter().map(|file| {
            let edit = Edit::BringPictureBack(file.clone());
            Row::Acts(vec![(format!("bring {file} back"), edit)])
        }));
    }
}

/// The pictures of one thing; nothing where there are none.
pub(super) fn those_of(visit: &Visit, of: PictureOf, rows: &mut Vec<Row>) {
    let tiles = tiles(visit, |belongs| belongs == of);
    if !tiles.is_empty() {
        rows.push(heading(
            "Pictures",
            match of {
                PictureOf::HandedOver => "of the walk as handed over".to_owned(),
                of => said(visit, of),
            },
        ));
        rows.push(Row::Pictures(tiles));
    }
}

fn tiles(visit: &Visit, is_shown: impl Fn(PictureOf) -> bool) -> Vec<Tile> {
    let pictures = visit.site().show.pictures.iter().enumerate();
    pictures
        .filter(|(_, picture)| is_shown(picture.of))
        .map(|(picture_idx, picture)| Tile {
            picture_idx,
            of: said(visit, picture.of),
            caption: picture.caption.trim().to_owned(),
            look: visit.album().small(&picture.file),
        })
        .collect()
}

/// What a picture belongs to, in words.
pub(crate) fn said(visit: &Visit, of: PictureOf) -> String {
    match of {
        PictureOf::AsFound => "as found".to_owned(),
        PictureOf::Pit(pit_idx) => format!("pit {}", pit_idx.saturating_add(1)),
        PictureOf::Sign(sign_idx) => {
            let kind = visit.site().signs.get(sign_idx).and_then(|sign| sign.what);
            kind.map_or_else(
                || format!("sign {}", sign_idx.saturating_add(1)),
                |kind| format!("sign {}: {}", sign_idx + 1, kind.name().to_lowercase()),
            )
        }
        PictureOf::Day(day_idx) => {
            let date = visit.record().text(Place::DayDate(day_idx));
            match date.map(str::trim) {
                Some(date) if !date.is_empty() => format!("day {date}"),
                _ => format!("day {}", day_idx.saturating_add(1)),
            }
        }
        PictureOf::HandedOver => "hand-over".to_owned(),
    }
}

/// What a picture that is dropped now belongs to: what is open on screen.
pub(crate) fn dropped_for(
    visit: &Visit,
    stop: Stop,
    set: Option<Place>,
    opened: &Opened,
    shown: Option<usize>,
) -> PictureOf {
    let site = visit.site();
    // Beside a picture that is looked at, one of the same.
    if let Some(picture) = shown.and_then(|idx| site.show.pictures.get(idx)) {
        return picture.of;
    }
    if stop == Stop::Build {
        return match site.build.days.len() {
            0 => PictureOf::HandedOver,
            n_days => PictureOf::Day(n_days - 1),
        };
    }
    match set {
        Some(
            Place::Sign(sign_idx)
            | Place::SignStation(sign_idx)
            | Place::SignOffset(sign_idx)
            | Place::SignWidth(sign_idx),
        ) => PictureOf::Sign(sign_idx),
        Some(place) => pit_of(place).map_or(PictureOf::AsFound, PictureOf::Pit),
        None => {
            let is_there = |pit_idx: &usize| *pit_idx < site.pits.len();
            let pit = opened.pit.filter(is_there).filter(|_| stop == Stop::Look);
            pit.map_or(PictureOf::AsFound, PictureOf::Pit)
        }
    }
}

/// What stands in the place of the ground.
pub(crate) fn large(visit: &Visit, shown: Option<PictureShown>) -> Option<LargeView> {
    let pictures = &visit.site().show.pictures;
    match shown? {
        PictureShown::One(picture_idx) => {
            let picture = pictures.get(picture_idx)?;
            let behind = (picture_idx + 1 < pictures.len()).then_some(picture_idx + 1);
            Some(LargeView {
                title: name(picture_idx, pictures.len()),
                caption: picture.caption.trim().to_owned(),
                look: visit.album().large(&picture.file),
                neighbours: [picture_idx.checked_sub(1), behind],
            })
        }
        PictureShown::Trouble => Some(LargeView {
            title: "Not taken in".to_owned(),
            caption: String::new(),
            look: Look::Broken(visit.album().troubles().join("; ")),
            neighbours: [None, None],
        }),
    }
}

fn name(picture_idx: usize, n_pictures: usize) -> String {
    format!("Picture {} of {n_pictures}", picture_idx + 1)
}

/// The rows of the picture that is looked at.
pub(crate) fn card(visit: &Visit, shown: Option<PictureShown>) -> Vec<Row> {
    let mut rows = Vec::new();
    match shown {
        Some(PictureShown::One(picture_idx)) => one(visit, picture_idx, &mut rows),
        Some(PictureShown::Trouble) => {
            rows.push(heading("Not taken in", ""));
            rows.extend(visit.album().troubles().iter().map(|words| Row::Said {
                mark: Mark::Wrong,
                text: format!("{words}."),
                under: "Nothing was changed here, and the file was left as it is.".to_owned(),
            }));
        }
        None => return rows,
    }
    rows.push(Row::More {
        words: "back to the list".to_owned(),
        part: Part::Picture(None),
    });
    rows
}

fn one(visit: &Visit, picture_idx: usize, rows: &mut Vec<Row>) {
    let site = visit.site();
    let Some(picture) = site.show.pictures.get(picture_idx) else {
        return;
    };
    rows.push(heading(
        &name(picture_idx, site.show.pictures.len()),
        picture.file.as_str(),
    ));
    let caption = Place::PictureCaption(picture_idx);
    rows.push(
        match named(visit, caption, None, "Caption", "stands under it on paper") {
            Row::Value(row) if row.value.is_empty() => Row::Value(ValueRow {
                value: "none".to_owned(),
                state: ValueState::Default,
                ..row
            }),
            other => other,
        },
    );
    let things = [PictureOf::AsFound]
        .into_iter()
        .chain((0..site.pits.len()).map(PictureOf::Pit))
        .chain((0..site.signs.len()).map(PictureOf::Sign))
        .chain((0..site.build.days.len()).map(PictureOf::Day))
        .chain([PictureOf::HandedOver]);
    rows.push(Row::Choice {
        label: "It belongs to".to_owned(),
        options: things
            .map(|of| {
                let edit = Edit::PictureOf(picture_idx, of);
                (said(visit, of), edit, picture.of == of)
            })
            .collect(),
    });
    let place = Place::Picture(picture_idx);
    rows.extend(visit.findings_at(place).map(Row::said));
    rows.push(Row::Acts(vec![(
        format!("take picture {} away", picture_idx + 1),
        Edit::RemovePicture(picture_idx),
    )]));
    rows.push(Row::Said {
        mark: Mark::Note,
        text: "Taken away, its file stays in the folder: undo brings it back, now or next week."
            .to_owned(),
        under: String::new(),
    });
}

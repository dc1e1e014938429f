//! `underbrick sheets`: everything that is handed over, in a folder.

use std::time::Instant;

use anyhow::{Context as _, bail};
use underbrick_calc::site::{Language, PictureOf};
use underbrick_records::pictures::for_paper;
use underbrick_records::write_whole;
use underbrick_sheets::paper::{Paper, Picture};
use underbrick_sheets::sheet_set::{SHEETS, SheetSet};

use crate::arguments::{PaperAsked, SheetsAsked, Tongue};
use crate::findings::tell;
use crate::measured::Measured;
use crate::output::{Status, complain, say};

/// Progress is told from here on.
const QUIET_S: f64 = 1.0;

/// Makes every sheet, each whole or not at all, and tells the findings.
///
/// # Errors
/// A site that cannot be read, a date that is none, a folder that cannot be written.
pub fn sheets(asked: &SheetsAsked) -> anyhow::Result<Status> {
    let started = Instant::now();
    let measured = Measured::read(&asked.site)?;
    let date = date(asked.date.as_deref())?;
    tell(&measured.findings);
    let pictures = pictures(&measured);
    let set = SheetSet {
        site: &measured.site,
        catalogue: &measured.catalogue,
        results: &measured.results,
        letterhead: measured.letterhead.as_ref(),
        paper: match asked.paper {
            PaperAsked::Letter => Paper::Letter,
            PaperAsked::A4 => Paper::A4,
        },
        language: match asked.lang {
            None => measured.site.show.crew_reads,
            Some(Tongue::En) => Language::English,
            Some(Tongue::Es) => Language::Spanish,
        },
        date,
        pictures: &pictures,
    };
    std::fs::create_dir_all(&asked.out)
        .with_context(|| format!("cannot make the folder {}", asked.out.display()))?;
    for (nth, kind) in SHEETS.iter().enumerate() {
        if started.elapsed().as_secs_f64() > QUIET_S {
            complain(&format!(
                "underbrick: {} of {}: {}",
                nth + 1,
                SHEETS.len(),
                kind.name
            ));
        }
        let bytes = kind
            .bytes(&set)
            .with_context(|| format!("the {}", kind.name))?;
        let path = asked.out.join(kind.file);
        write_whole(&path, &bytes).with_context(|| format!("cannot write {}", path.display()))?;
        say(&format!("{}\n", path.display()))?;
    }
    Ok(measured.status())
}

/// Pictures of the site, brought to size for paper; in the place of one that cannot be shown stand the words that say why.
fn pictures(measured: &Measured) -> Vec<(PictureOf, Picture)> {
    for_paper(measured.folder(), &measured.site)
        .into_iter()
        .map(|picture| {
            if let Err(why) = &picture.bytes {
                complain(&format!("underbrick: a picture is on no sheet: {why}"));
            }
            let dots = (picture.width, picture.height);
            (
                picture.of,
                Picture::new(picture.caption, picture.bytes, dots),
            )
        })
        .collect()
}

/// The day that stands on the sheets: as asked, or today where this machine is; by UTC where it names no time zone.
fn date(written: Option<&str>) -> anyhow::Result<(i16, i8, i8)> {
    let date = match written {
        None => jiff::tz::TimeZone::system()
            .to_datetime(jiff::Timestamp::now())
            .date(),
        Some(written) => match written.trim().parse::<jiff::civil::Date>() {
            Ok(date) => date,
            Err(_) => bail!(
                "--date {written:?} is no date: write year, month and day, such as 2026-05-04"
            ),
        },
    };
    Ok((date.year(), date.month(), date.day()))
}

//! Sheets, made beside the window: for the preview, and as files in the site's folder.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::site::{Letterhead, PictureOf, Site};
use underbrick_drawing::item::{Anchor, Item};
use underbrick_drawing::palette::Ink;
use underbrick_drawing::text::Text;
use underbrick_records::pictures::for_paper;
use underbrick_records::{Aside, RecordError, SiteFile, write_into};
use underbrick_sheets::paper::{Pages, Paper, Picture, lay_out};
use underbrick_sheets::sheet_set::{SHEETS, SheetSet};

use crate::visit::Visit;

/// Type in the frame of a picture in the preview, in dots of the page.
const PICTURE_WORDS: f64 = 9.0;

/// What sheets are made from, apart from the window.
pub(super) struct Order {
    /// The site's folder, for its pictures.
    folder: PathBuf,
    record: SiteFile,
    catalogue: Arc<Catalogue>,
    letterhead: Option<Letterhead>,
    paper: Paper,
    date: (i16, i8, i8),
}

/// One sheet, laid out into pages.
pub(super) struct Preview {
    /// What it is, in a few words.
    pub name: &'static str,
    pub pages: Pages,
}

/// What came of making the files: how many, or why not.
pub(super) type Made = Result<usize, String>;

impl Order {
    /// `None` where the clock gives no date for the sheets.
    pub fn of(visit: &Visit, paper: Paper) -> Option<Self> {
        Some(Self {
            folder: visit.folder().to_path_buf(),
            record: visit.record().clone(),
            catalogue: visit.shared_catalogue(),
            letterhead: visit.letterhead().cloned(),
            paper,
            date: visit.today()?,
        })
    }

    fn with_set<T>(&self, make: impl FnOnce(&SheetSet<'_>) -> T) -> T {
        let (site, _) = self.record.checked(&self.catalogue);
        let results = compute(&site, &self.catalogue);
        let pictures = pictures(&self.folder, &site);
        make(&SheetSet {
            site: &site,
            catalogue: &self.catalogue,
            results: &results,
            letterhead: self.letterhead.as_ref(),
            paper: self.paper,
            language: site.show.crew_reads,
            date: self.date,
            pictures: &pictures,
        })
    }
}

/// Pictures of the site, brought to size for paper; in the place of one that cannot be shown stand the words that say why.
fn pictures(folder: &Path, site: &Site) -> Vec<(PictureOf, Picture)> {
    let pictures = for_paper(folder, site).into_iter();
    pictures
        .map(|picture| {
            let on_paper = Picture {
                caption: picture.caption,
                bytes: picture.bytes,
                width: picture.width,
                height: picture.height,
            };
            (picture.of, on_paper)
        })
        .collect()
}

/// Says in the frame of each picture that it stands there on paper: the preview shows marks alone.
fn say_pictures(pages: &mut Pages) {
    for page in &mut pages.pages {
        for picture in &page.pictures {
            let middle = (
                picture.at.0 + picture.size.0 / 2.0,
                picture.at.1 + picture.size.1 / 2.0,
            );
            page.drawing.items.push(Item::Label {
                at: page.drawing.drawing_from_sheet(middle.0, middle.1),
                text: Text::regular("on paper the picture stands here"),
                size: PICTURE_WORDS,
                ink: Ink::SecondInk,
                anchor: Anchor::Middle,
                place: None,
            });
        }
    }
}

/// Lays out the sheets that are documents.
pub(super) fn preview(order: Order, context: &Context) -> Result<Aside<Vec<Preview>>, RecordError> {
    let lay_all_out = move || {
        order.with_set(|set| {
            let documents = SHEETS.iter().filter_map(|kind| {
                let document = kind.document(set)?;
                let mut pages = lay_out(&document, set.paper);
                say_pictures(&mut pages);
                Some(Preview {
                    name: kind.name,
                    pages,
                })
            });
            documents.collect()
        })
    };
    Aside::start(lay_all_out, waker(context))
}

/// Writes every sheet into a folder, each whole or not at all.
pub(super) fn write(
    order: Order,
    folder: PathBuf,
    context: &Context,
) -> Result<Aside<Made>, RecordError> {
    let write_all = move || order.with_set(|set| write_set(set, &folder));
    Aside::start(write_all, waker(context))
}

fn write_set(set: &SheetSet<'_>, folder: &Path) -> Made {
    for kind in SHEETS {
        let bytes = kind
            .bytes(set)
            .map_err(|error| format!("the {}: {error}", kind.name))?;
        write_into(folder, kind.file, &bytes).map_err(|error| error.to_string())?;
    }
    Ok(SHEETS.len())
}

fn waker(context: &Context) -> impl FnOnce() + Send + 'static {
    let context = context.clone();
    move || context.request_repaint()
}

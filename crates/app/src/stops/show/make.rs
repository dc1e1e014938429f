//! Sheets, made beside the window: for the preview, and as files in the site's folder.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::compute;
use underbrick_calc::site::Letterhead;
use underbrick_records::pictures::{Pixels, for_paper, pixels_of};
use underbrick_records::{Aside, RecordError, SiteFile, write_into};
use underbrick_sheets::paper::{Page, Pages, Paper, Picture, lay_out};
use underbrick_sheets::sheet_set::{SHEETS, SheetSet};

use crate::album::next_number;
use crate::platform::{Exchange, Platform};
use crate::visit::Visit;

/// What sheets are made from, apart from the window.
pub(super) struct Order {
    record: SiteFile,
    folder: PathBuf,
    catalogue: Arc<Catalogue>,
    letterhead: Option<Letterhead>,
    paper: Paper,
    date: (i16, i8, i8),
}

/// Where papers go on this device.
#[derive(Clone, Debug, Default)]
pub(crate) struct PapersPlace {
    /// Whether the device can show a folder.
    pub opens: bool,
    /// The only folder that can be reached from outside, where sites lie in one that cannot.
    outside: Option<Exchange>,
}

impl PapersPlace {
    pub fn on(platform: &dyn Platform) -> Self {
        let opens = platform.opens_folders();
        Self {
            opens,
            outside: platform.exchange().filter(|_| !opens),
        }
    }

    /// The folder for the papers of a site.
    pub fn folder(&self, site_folder: &Path) -> PathBuf {
        match &self.outside {
            None => site_folder.join("sheets"),
            Some(outside) => outside.folder.join("papers").join(own_name(site_folder)),
        }
    }

    /// How a person gets there.
    pub fn in_words(&self, site_folder: &Path) -> String {
        match &self.outside {
            None => self.folder(site_folder).display().to_string(),
            Some(outside) => {
                let name = own_name(site_folder).to_string_lossy();
                format!("{}, and there papers, {name}", outside.in_words)
            }
        }
    }
}

fn own_name(site_folder: &Path) -> &std::ffi::OsStr {
    site_folder.file_name().unwrap_or_else(|| "site".as_ref())
}

/// One sheet, laid out into pages.
pub(super) struct Preview {
    /// What it is, in a few words.
    pub name: &'static str,
    pub pages: Pages,
    /// The pictures of each page in dots, in the order of the page; `None` for one that cannot be shown.
    pub pictures: Vec<Vec<Option<Dots>>>,
}

/// A picture in dots, under a number that no other has.
pub(super) type Dots = (u64, Pixels);

/// Longest side of a picture in a preview, in dots.
const PREVIEW_DOTS: u32 = 800;

/// What came of making the files: how many, or why not.
pub(super) type Made = Result<usize, String>;

impl Order {
    /// `None` where the clock gives no date for the sheets.
    pub fn of(visit: &Visit, paper: Paper) -> Option<Self> {
        Some(Self {
            record: visit.record().clone(),
            folder: visit.folder().to_path_buf(),
            catalogue: visit.shared_catalogue(),
            letterhead: visit.letterhead().cloned(),
            paper,
            date: visit.today()?,
        })
    }

    fn with_set<T>(&self, make: impl FnOnce(&SheetSet<'_>) -> T) -> T {
        let (site, _) = self.record.checked(&self.catalogue);
        let results = compute(&site, &self.catalogue);
        let pictures: Vec<_> = for_paper(&self.folder, &site)
            .into_iter()
            .map(|picture| {
                let dots = (picture.width, picture.height);
                let shown = Picture::new(picture.caption, picture.bytes, dots);
                (picture.of, shown)
            })
            .collect();
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

/// Lays out the sheets that are documents.
pub(super) fn preview(order: Order, context: &Context) -> Result<Aside<Vec<Preview>>, RecordError> {
    let lay_all_out = move || {
        order.with_set(|set| {
            let documents = SHEETS.iter().filter_map(|kind| {
                let document = kind.document(set)?;
                let pages = lay_out(&document, set.paper);
                let of_page = |page: &Page| {
                    let pictures = page.pictures.iter();
                    pictures.map(|placed| dots(&placed.bytes)).collect()
                };
                Some(Preview {
                    name: kind.name,
                    pictures: pages.pages.iter().map(of_page).collect(),
                    pages,
                })
            });
            documents.collect()
        })
    };
    Aside::start(lay_all_out, waker(context))
}

fn dots(bytes: &[u8]) -> Option<Dots> {
    let pixels = pixels_of(bytes, PREVIEW_DOTS).ok()?;
    Some((next_number(), pixels))
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

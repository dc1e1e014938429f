//! Sites going out and coming in as files, through the folder that the device hands over.

use std::path::{Path, PathBuf};
use std::time::SystemTime;

use egui::{Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;
use underbrick_records::{Shelf, pack_into, unpack};

use crate::canvas::lettering;
use crate::platform::{Exchange, Platform};
use crate::site_list::{ListAnswer, words};
use crate::theme::{self, Ink, size};
use crate::widgets::key::Key;
use crate::widgets::rows::elided;

/// Most files that are listed to choose from.
const MOST_LISTED: usize = 200;

/// Width of the key that exports a site.
const EXPORT_WIDTH: f32 = 104.0;

/// What the list of sites knows of the folder.
#[derive(Default)]
pub struct Exchanging {
    place: Option<Exchange>,
    opens_folders: bool,
    /// What became of the last export or import, in words.
    said: Option<(Ink, String)>,
    /// Whether the folder is worth looking into just now.
    offers_folder: bool,
    /// The files to choose from, while one is chosen.
    incoming: Option<Vec<Incoming>>,
}

/// A file that may be a packed site.
struct Incoming {
    file: PathBuf,
    name: String,
    n_bytes: u64,
    changed: SystemTime,
}

impl Exchanging {
    /// Through the folder of this device.
    pub fn on(platform: &dyn Platform) -> Self {
        Self {
            place: platform.exchange(),
            opens_folders: platform.opens_folders(),
            ..Self::default()
        }
    }

    /// Whether there is a folder at all.
    pub const fn is_there(&self) -> bool {
        self.place.is_some()
    }

    /// Whether a file is being chosen.
    pub const fn is_choosing(&self) -> bool {
        self.incoming.is_some()
    }

    /// Packs a site into the folder and says where it is.
    pub fn export(&mut self, site: &Path) {
        let Some(place) = &self.place else { return };
        match pack_into(site, &place.folder) {
            Ok(file) => {
                let name = name_of(&file);
                self.say(
                    Ink::SecondInk,
                    format!("Exported as {name}. {}", way_to(place)),
                );
                self.offers_folder = self.opens_folders;
            }
            Err(error) => self.say(Ink::Wrong, format!("Not exported: {error}")),
        }
    }

    /// Lists the files to choose from.
    pub fn choose(&mut self) {
        let Some(place) = &self.place else { return };
        // Made here, so that there is a folder to put a file into. Where it cannot be, the list says that nothing is there.
        drop(std::fs::create_dir_all(&place.folder));
        self.incoming = Some(incoming(&place.folder));
        self.said = None;
    }

    /// Back to the sites. False where no file was being chosen.
    pub fn leave(&mut self) -> bool {
        self.incoming.take().is_some()
    }

    /// Unpacks a file onto the shelf. Gives what is to be said once the shelf has been read again.
    pub fn import(&self, file: &Path, shelf: &Shelf) -> (Ink, String) {
        match unpack(file, shelf) {
            Ok(folder) => (
                Ink::SecondInk,
                format!(
                    "Imported from {} into the folder {}. What was there before is as it was.",
                    name_of(file),
                    name_of(&folder)
                ),
            ),
            Err(error) => (Ink::Wrong, format!("Not imported: {error}")),
        }
    }

    /// Shows a folder in the device's own program.
    pub fn show_folder(&mut self, platform: &dyn Platform) {
        let Some(place) = &self.place else { return };
        if let Err(why) = platform.open_folder(&place.folder) {
            self.say(Ink::Wrong, why);
        }
        self.offers_folder = false;
    }

    /// Says something above the list.
    pub fn say(&mut self, ink: Ink, words: String) {
        self.said = Some((ink, words));
    }
}

fn way_to(place: &Exchange) -> String {
    format!("Where it is: {}", place.in_words)
}

fn name_of(path: &Path) -> String {
    path.file_name()
        .map(|name| name.to_string_lossy().into_owned())
        .unwrap_or_default()
}

/// Files in the folder that may be packed sites, the newest first.
fn incoming(folder: &Path) -> Vec<Incoming> {
    let mut found: Vec<Incoming> = std::fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .filter_map(|entry| {
            let (file, about) = (entry.path(), entry.metadata().ok()?);
            let is_packed = file
                .extension()
                .is_some_and(|ending| ending.eq_ignore_ascii_case("zip"));
            (is_packed && about.is_file()).then(|| Incoming {
                name: name_of(&file),
                file,
                n_bytes: about.len(),
                changed: about.modified().unwrap_or(SystemTime::UNIX_EPOCH),
            })
        })
        .collect();
    found.sort_by(|one, other| {
        let newest_first = other.changed.cmp(&one.changed);
        newest_first.then_with(|| one.name.cmp(&other.name))
    });
    found.truncate(MOST_LISTED);
    found
}

/// What was said last, above the sites.
pub fn said_ui(ui: &mut Ui, exchanging: &Exchanging) -> Option<ListAnswer> {
    let (ink, said) = exchanging.said.as_ref()?;
    words(ui, said, *ink);
    let is_tapped = exchanging.offers_folder && wide_key(ui, "open the folder");
    is_tapped.then_some(ListAnswer::OpenExchange)
}

/// The part of a site's row that is left beside its key, and whether the key was tapped.
pub fn export_ui(ui: &mut Ui, row: Rect, title: &str, site: &Path) -> (Rect, bool) {
    let key = Rect::from_min_max(pos2(row.max.x - EXPORT_WIDTH, row.min.y), row.max);
    let rest = Rect::from_min_max(row.min, pos2(key.min.x - size::GAP, row.max.y));
    let is_tapped = Key::new("export")
        .named(format!("export {title}"))
        .of(site)
        .show(ui, key)
        .clicked();
    (rest, is_tapped)
}

/// The key behind the last site.
pub fn import_ui(ui: &mut Ui, exchanging: &Exchanging) -> Option<ListAnswer> {
    let is_tapped = exchanging.is_there() && wide_key(ui, "import a site from a file");
    is_tapped.then_some(ListAnswer::ChooseIncoming)
}

/// The files to choose from, in the place of the sites.
pub fn incoming_ui(ui: &mut Ui, exchanging: &Exchanging) -> Option<ListAnswer> {
    let (place, files) = (exchanging.place.as_ref()?, exchanging.incoming.as_ref()?);
    let mut answer = None;
    let head = if files.is_empty() {
        "There is no packed site to import. A packed site is one file that ends in .zip. Where to put it: "
    } else {
        "Tap the file to import. It becomes a site of its own, and nothing that is here is written over. Where these files are: "
    };
    words(ui, &format!("{head}{}", place.in_words), Ink::SecondInk);
    for incoming in files {
        if incoming_row(ui, incoming) {
            answer = Some(ListAnswer::Import(incoming.file.clone()));
        }
    }
    ui.add_space(10.0);
    if exchanging.opens_folders && wide_key(ui, "open the folder") {
        answer = Some(ListAnswer::OpenExchange);
    }
    if wide_key(ui, "look again") {
        answer = Some(ListAnswer::ChooseIncoming);
    }
    if wide_key(ui, "back to the sites") {
        answer = Some(ListAnswer::LeaveIncoming);
    }
    answer
}

fn incoming_row(ui: &mut Ui, incoming: &Incoming) -> bool {
    let height = theme::tall(ui, size::ROW);
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    let name = incoming.name.clone();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    let theme = theme::current(ui);
    ui.painter().rect(
        rect,
        size::CORNER,
        theme::color(Ink::Key, theme),
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        StrokeKind::Inside,
    );
    let room = rect.width() - 40.0;
    let kilobytes = incoming.n_bytes.div_ceil(1000);
    let lines = [
        (24.0, size::TITLE, Ink::Ink, &incoming.name, true),
        (
            51.0,
            size::NOTE,
            Ink::SecondInk,
            &format!("{kilobytes} KB"),
            false,
        ),
    ];
    for (down, points, ink, text, is_bold) in lines {
        let points = theme::sized(ui, points);
        let text = elided(text, is_bold, points, room);
        lettering::paint(
            ui.painter(),
            pos2(rect.min.x + 18.0, rect.min.y + theme::tall(ui, down)),
            Anchor::Left,
            &if is_bold {
                Text::bold(text)
            } else {
                Text::regular(text)
            },
            points,
            theme::color(ink, theme),
        );
    }
    response.clicked()
}

fn wide_key(ui: &mut Ui, name: &str) -> bool {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), size::KEY), Sense::hover());
    Key::new(name)
        .on(Ink::Panel, Ink::Line)
        .show(ui, rect)
        .clicked()
}

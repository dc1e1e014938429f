//! Papers: made as files by one tap, and looked at page by page before.

use std::path::{Path, PathBuf};

use egui::{Rect, Role, Sense, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;
use underbrick_records::{Aside, AsideNews};
use underbrick_sheets::owner::owner_message;
use underbrick_sheets::paper::Paper;

use super::make::{self, Made, Order, PapersPlace, Preview};
use crate::canvas::lettering;
use crate::theme::{self, Ink, Theme, size};
use crate::visit::Visit;
use crate::widgets::key::{Key, cells};
use crate::widgets::pictures::{Fit, paint_picture};
use crate::widgets::show::drawn::{Drawn, scaled};
use crate::widgets::show::prose;

/// State of the papers.
#[derive(Default)]
pub(super) struct Papers {
    paper: Paper,
    preview: Previewed,
    /// The state of the site and the paper that the preview is of.
    previewed: Option<(u64, Paper)>,
    /// Which sheet is looked at.
    sheet: usize,
    /// Which of its pages.
    page: usize,
    drawn: Drawn,
    files: Files,
    /// What was copied last.
    copied: Option<&'static str>,
    /// Why the folder could not be shown.
    not_opened: Option<String>,
    pub place: PapersPlace,
}

#[derive(Default)]
enum Previewed {
    #[default]
    Nothing,
    AtWork(Aside<Vec<Preview>>),
    Ready(Vec<Preview>),
    Failed(String),
}

#[derive(Default)]
enum Files {
    #[default]
    Nothing,
    AtWork(Aside<Made>),
    Made(usize),
    Failed(String),
}

const NO_DATE: &str = "The clock of this device gives no date for the papers.";
const BROKE_OFF: &str = "It broke off. Try again.";

/// Where everything stands.
struct Rooms {
    make: Rect,
    said: Rect,
    papers: Rect,
    copies: Rect,
    sheets: [Rect; 2],
    pages: Rect,
    view: Rect,
}

/// Gives the folder that is to be shown in the device's own program.
pub(super) fn page_ui(
    ui: &mut Ui,
    rect: Rect,
    view: &mut Papers,
    visit: &Visit,
) -> Option<PathBuf> {
    view.keep_up(ui, visit);
    let rooms = Rooms::of(rect);
    let folder = view.place.folder(visit.folder());
    make_ui(ui, rooms.make, view, visit, folder.clone());
    papers_ui(ui, rooms.papers, view);
    let opens = copies_ui(ui, rooms.copies, view, visit, &folder);
    said_ui(ui, rooms.said, view, &view.place.in_words(visit.folder()));
    sheets_ui(ui, &rooms.sheets, view);
    pages_ui(ui, rooms.pages, view);
    view_ui(ui, rooms.view, view, visit.revision());
    opens.then_some(folder)
}

impl Rooms {
    fn of(rect: Rect) -> Self {
        let inner = rect.shrink2(vec2(16.0, 12.0));
        let is_beside = rect.width() > rect.height();
        let width = if is_beside {
            (0.34 * inner.width()).max(340.0)
        } else {
            inner.width()
        };
        let row = |nth: f32| {
            let top = inner.min.y + nth * (size::KEY + size::GAP);
            Rect::from_min_size(pos2(inner.min.x, top), vec2(width, size::KEY))
        };
        if is_beside {
            let said = Rect::from_min_max(
                pos2(inner.min.x, row(5.0).max.y + size::GAP),
                pos2(inner.min.x + width, inner.max.y),
            );
            let view = Rect::from_min_max(pos2(inner.min.x + width + 16.0, inner.min.y), inner.max);
            Self {
                make: row(0.0),
                papers: row(1.0),
                copies: row(2.0),
                sheets: [row(3.0), row(4.0)],
                pages: row(5.0),
                said,
                view,
            }
        } else {
            let (make, papers) = row(0.0).split_left_right_at_fraction(0.5);
            let sheets = row(2.0).split_left_right_at_fraction(0.5);
            let pages = row(3.0);
            let said = row(4.0);
            Self {
                make: make.with_max_x(make.max.x - size::GAP),
                papers,
                copies: row(1.0),
                sheets: [sheets.0.with_max_x(sheets.0.max.x - size::GAP), sheets.1],
                pages,
                said,
                view: Rect::from_min_max(pos2(inner.min.x, said.max.y + size::GAP), inner.max),
            }
        }
    }
}

impl Papers {
    /// Says why the folder could not be shown.
    pub fn say_not_opened(&mut self, why: String) {
        self.not_opened = Some(why);
    }

    /// Takes up what was made beside the window, and has the preview made anew where it is of something else.
    fn keep_up(&mut self, ui: &Ui, visit: &Visit) {
        let wanted = (visit.revision(), self.paper);
        if self.previewed != Some(wanted) {
            self.previewed = Some(wanted);
            self.preview = match Order::of(visit, self.paper) {
                None => Previewed::Failed(NO_DATE.to_owned()),
                Some(order) => match make::preview(order, ui) {
                    Ok(aside) => Previewed::AtWork(aside),
                    Err(error) => Previewed::Failed(error.to_string()),
                },
            };
        }
        if let Previewed::AtWork(aside) = &self.preview {
            match aside.news() {
                AsideNews::AtWork => {}
                AsideNews::Done(previews) => self.preview = Previewed::Ready(previews),
                AsideNews::Gone => self.preview = Previewed::Failed(BROKE_OFF.to_owned()),
            }
        }
        if let Files::AtWork(aside) = &self.files {
            match aside.news() {
                AsideNews::AtWork => {}
                AsideNews::Done(Ok(count)) => self.files = Files::Made(count),
                AsideNews::Done(Err(reason)) => self.files = Files::Failed(reason),
                AsideNews::Gone => self.files = Files::Failed(BROKE_OFF.to_owned()),
            }
        }
    }

    fn previews(&self) -> &[Preview] {
        match &self.preview {
            Previewed::Ready(previews) => previews,
            Previewed::Nothing | Previewed::AtWork(_) | Previewed::Failed(_) => &[],
        }
    }

    fn n_pages(&self) -> usize {
        self.previews()
            .get(self.sheet)
            .map_or(0, |preview| preview.pages.pages.len())
    }
}

fn make_ui(ui: &mut Ui, rect: Rect, view: &mut Papers, visit: &Visit, folder: PathBuf) {
    let is_at_work = matches!(view.files, Files::AtWork(_));
    let key = Key::new("make the papers").on(Ink::Line, Ink::Paper);
    if key.show(ui, rect).clicked() && !is_at_work {
        view.copied = None;
        view.files = match Order::of(visit, view.paper) {
            None => Files::Failed(NO_DATE.to_owned()),
            Some(order) => match make::write(order, folder, ui) {
                Ok(aside) => Files::AtWork(aside),
                Err(error) => Files::Failed(error.to_string()),
            },
        };
        ui.request_repaint();
    }
}

fn papers_ui(ui: &mut Ui, rect: Rect, view: &mut Papers) {
    let offered = [("US Letter", Paper::Letter), ("A4", Paper::A4)];
    for ((name, paper), cell) in offered.into_iter().zip(cells(rect, 2)) {
        let key = Key::new(name).chosen(view.paper == paper);
        if key.show(ui, cell).clicked() && view.paper != paper {
            view.paper = paper;
            view.files = Files::Nothing;
            ui.request_repaint();
        }
    }
}

/// The folder to look into, on a device that can show one, and what can be copied. Gives whether the folder is to be shown.
fn copies_ui(ui: &mut Ui, rect: Rect, view: &mut Papers, visit: &Visit, folder: &Path) -> bool {
    let offered: &[&str] = if view.place.opens {
        &["open the folder", "copy the folder", "copy the message"]
    } else {
        &["copy the folder", "copy the message"]
    };
    let mut opens = false;
    for (name, cell) in offered.iter().zip(cells(rect, offered.len())) {
        if !Key::new(*name).show(ui, cell).clicked() {
            continue;
        }
        view.not_opened = None;
        view.copied = None;
        match *name {
            "open the folder" => opens = true,
            "copy the folder" => {
                ui.copy_text(folder.display().to_string());
                view.copied = Some("The folder is copied.");
            }
            _ => {
                ui.copy_text(owner_message(visit.design()));
                view.copied = Some("The message to the owner is copied.");
            }
        }
        ui.request_repaint();
    }
    opens
}

/// What came of making and copying.
fn said_ui(ui: &mut Ui, rect: Rect, view: &Papers, folder: &str) {
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(rect).id_salt("said"),
        |ui| {
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    match &view.files {
                        Files::Nothing => {}
                        Files::AtWork(_) => prose::body(ui, "The papers are being made."),
                        Files::Made(count) => {
                            prose::said(ui, &format!("{count} papers are made."), Ink::Right);
                            prose::aside(ui, folder);
                        }
                        Files::Failed(reason) => {
                            prose::said(ui, "The papers could not be made:", Ink::Wrong);
                            prose::body(ui, reason);
                        }
                    }
                    if let Some(copied) = view.copied {
                        prose::body(ui, copied);
                    }
                    if let Some(why) = &view.not_opened {
                        prose::said(ui, why, Ink::Wrong);
                    }
                })
        },
    );
}

fn sheets_ui(ui: &mut Ui, rooms: &[Rect; 2], view: &mut Papers) {
    let names: Vec<&str> = view.previews().iter().map(|sheet| sheet.name).collect();
    let rooms = rooms.iter().flat_map(|room| cells(*room, 2));
    for ((nth, name), room) in names.into_iter().enumerate().zip(rooms) {
        let key = Key::new(name).chosen(view.sheet == nth);
        if key.show(ui, room).clicked() {
            view.sheet = nth;
            view.page = 0;
            ui.request_repaint();
        }
    }
}

fn pages_ui(ui: &mut Ui, rect: Rect, view: &mut Papers) {
    let n_pages = view.n_pages();
    if n_pages == 0 {
        return;
    }
    view.page = view.page.min(n_pages - 1);
    let width = (0.3 * rect.width()).max(size::KEY);
    let back = rect.with_max_x(rect.min.x + width);
    let next = rect.with_min_x(rect.max.x - width);
    let quiet = |is_there: bool| if is_there { Ink::Ink } else { Ink::Hairline };
    let has_next = view.page + 1 < n_pages;
    if Key::new("page before")
        .on(Ink::Key, quiet(view.page > 0))
        .show(ui, back)
        .clicked()
    {
        view.page = view.page.saturating_sub(1);
        ui.request_repaint();
    }
    if Key::new("page after")
        .on(Ink::Key, quiet(has_next))
        .show(ui, next)
        .clicked()
        && has_next
    {
        view.page += 1;
        ui.request_repaint();
    }
    let words = format!("{} of {n_pages}", view.page + 1);
    let between = Rect::from_min_max(back.right_top(), next.left_bottom());
    let id = ui.scope_id().with("page of");
    let response = ui.interact(between, id, Sense::hover());
    let name = format!("page {words}");
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    lettering::paint(
        ui.painter(),
        between.center(),
        Anchor::Middle,
        &Text::bold(words),
        theme::sized(ui, size::TITLE),
        theme::color(Ink::Ink, theme::current(ui)),
    );
}

/// The page as it will be printed: black on white in any light.
fn view_ui(ui: &mut Ui, rect: Rect, view: &mut Papers, revision: u64) {
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(rect, 0, theme::color(Ink::Pad, theme));
    let words = match &view.preview {
        Previewed::Ready(_) => "",
        Previewed::Nothing | Previewed::AtWork(_) => "The pages are being laid out.",
        Previewed::Failed(reason) => reason,
    };
    let (sheet, nth, paper) = (view.sheet, view.page, view.paper);
    let Previewed::Ready(previews) = &view.preview else {
        ui.scope_builder(
            egui::UiBuilder::new()
                .max_rect(rect.shrink(20.0))
                .id_salt("not yet"),
            |ui| prose::body(ui, words),
        );
        return;
    };
    let Some(preview) = previews.get(sheet) else {
        return;
    };
    let Some(page) = preview.pages.pages.get(nth) else {
        return;
    };
    let pictures = preview.pictures.get(nth).map_or(&[][..], Vec::as_slice);
    let drawn = &mut view.drawn;
    ui.scope_builder(
        egui::UiBuilder::new()
            .max_rect(rect.shrink(8.0))
            .id_salt("page"),
        |ui| {
            ui.set_clip_rect(rect.intersect(ui.clip_rect()));
            egui::ScrollArea::vertical()
                .id_salt((sheet, nth))
                .auto_shrink(false)
                .show(ui, |ui| {
                    let width = ui.available_width();
                    let by = f64::from(width) / page.drawing.sheet.width.max(1.0);
                    let height = lettering::narrowed(page.drawing.sheet.height * by);
                    let (room, _) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
                    let of_paper = if paper == Paper::A4 { 500 } else { 0 };
                    let made_from = (revision, 1_000 * (sheet + 1) + of_paper + nth);
                    drawn.show(ui, room, Theme::Sun, made_from, |_| {
                        scaled(&page.drawing, by)
                    });
                    let painter = ui.painter().with_clip_rect(room.intersect(ui.clip_rect()));
                    for (placed, dots) in page.pictures.iter().zip(pictures) {
                        let Some((number, pixels)) = dots else {
                            continue;
                        };
                        let scaled = |(x, y): (f64, f64)| {
                            vec2(lettering::narrowed(x * by), lettering::narrowed(y * by))
                        };
                        let at = room.min + scaled(placed.at);
                        let place = Rect::from_min_size(at, scaled(placed.size));
                        paint_picture(ui, &painter, place, *number, pixels, Fit::Filled);
                    }
                })
        },
    );
}

//! Show: what a homeowner takes in, agrees on and keeps. It has the whole screen, and nothing on it changes what was measured. A held
//! key leads back.

mod agree;
mod choose;
mod how_built;
mod make;
mod now_and_then;
mod papers;
mod told;
mod why;

use std::path::PathBuf;

use egui::{Key as Button, Rect, Ui, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::canvas::lettering;
use crate::edit::Edit;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;
use crate::widgets::key::{Key, cells};
use crate::widgets::show::hold::{Hold, hold_ui};

pub(crate) use make::PapersPlace;

/// What is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ShowPage {
    /// The walk as found and as it will be.
    #[default]
    NowAndThen,
    /// The layers, one by one.
    HowBuilt,
    /// Why the walk failed.
    Why,
    /// The ways with their prices.
    Choose,
    /// What is agreed, and its signature.
    Agree,
    /// What is handed over.
    Papers,
}

impl ShowPage {
    /// In the order in which they are told.
    pub const ALL: [Self; 6] = [
        Self::NowAndThen,
        Self::HowBuilt,
        Self::Why,
        Self::Choose,
        Self::Agree,
        Self::Papers,
    ];

    /// Its words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NowAndThen => "Now and then",
            Self::HowBuilt => "How it is built",
            Self::Why => "Why it failed",
            Self::Choose => "What can be chosen",
            Self::Agree => "What we agree",
            Self::Papers => "Papers",
        }
    }
}

/// State of what is shown. It is no part of the record.
#[derive(Default)]
pub(crate) struct ShowView {
    pub page: ShowPage,
    hold: Hold,
    told: Option<told::Told>,
    sections: now_and_then::Sections,
    steps: how_built::Steps,
    why: why::Why,
    agree: agree::Agreeing,
    papers: papers::Papers,
}

impl ShowView {
    /// With papers that go to a place.
    pub fn with(place: PapersPlace) -> Self {
        let mut view = Self::default();
        view.papers.place = place;
        view
    }

    /// Says why the folder of the papers could not be shown.
    pub fn say_not_opened(&mut self, why: String) {
        self.papers.say_not_opened(why);
    }

    /// The picture that is looked at, by its index.
    pub fn picture(&self, visit: &Visit) -> Option<usize> {
        (self.page == ShowPage::Why)
            .then(|| self.why.picture(visit))
            .flatten()
    }
}

/// What came of a frame.
#[derive(Default)]
pub(crate) struct ShowAnswer {
    /// The person leaves.
    pub leaves: bool,
    /// What was signed.
    pub edits: Vec<Edit>,
    /// A folder to be shown in the device's own program.
    pub opens: Option<PathBuf>,
}

/// Height of what stands over a page.
const HEAD: f32 = 68.0;

/// Shows everything in the whole of `rect`.
pub(crate) fn show_ui(ui: &mut Ui, rect: Rect, view: &mut ShowView, visit: &Visit) -> ShowAnswer {
    ui.style_mut().interaction.selectable_labels = false;
    let is_upright = rect.height() > rect.width();
    let told = match view.told.take() {
        Some(told) if told.revision == visit.revision() => told,
        _ => told::Told::of(visit),
    };
    let row = theme::tall(ui, size::KEY);
    let n_rows = if is_upright { 2.0 } else { 1.0 };
    let foot_height = n_rows * (row + size::GAP) + size::GAP;
    let head = Rect::from_min_size(rect.min, vec2(rect.width(), HEAD));
    let foot = Rect::from_min_max(pos2(rect.min.x, rect.max.y - foot_height), rect.max);
    let body = Rect::from_min_max(pos2(rect.min.x, head.max.y), pos2(rect.max.x, foot.min.y));
    let mut answer = ShowAnswer {
        leaves: head_ui(ui, head, view),
        ..ShowAnswer::default()
    };
    foot_ui(ui, foot, view, if is_upright { 2 } else { 1 });
    let page = view.page;
    view.agree.is_typing = false;
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(body).id_salt(page.words()),
        |ui| match page {
            ShowPage::NowAndThen => {
                now_and_then::page_ui(ui, body, &mut view.sections, visit, &told);
            }
            ShowPage::HowBuilt => how_built::page_ui(ui, body, &mut view.steps, visit, &told),
            ShowPage::Why => why::page_ui(ui, body, &mut view.why, visit, &told),
            ShowPage::Choose => choose::page_ui(ui, body, &told),
            ShowPage::Agree => {
                answer.edits = agree::page_ui(ui, body, &mut view.agree, visit, &told);
            }
            ShowPage::Papers => {
                answer.opens = papers::page_ui(ui, body, &mut view.papers, visit);
            }
        },
    );
    view.told = Some(told);
    let line = egui::Stroke::new(1.0, theme::color(Ink::Hairline, theme::current(ui)));
    ui.painter().hline(head.x_range(), head.max.y, line);
    // Escape leaves the field of the name first.
    if ui.input(|input| input.key_pressed(Button::Escape)) && !view.agree.is_typing {
        answer.leaves = true;
    }
    answer
}

/// The words of the page, and the key that leads back.
fn head_ui(ui: &Ui, rect: Rect, view: &mut ShowView) -> bool {
    let theme = theme::current(ui);
    lettering::paint(
        ui.painter(),
        pos2(rect.min.x + 24.0, rect.center().y),
        Anchor::Left,
        &Text::bold(view.page.words()),
        theme::sized(ui, size::VALUE),
        theme::color(Ink::Ink, theme),
    );
    let corner = Rect::from_min_max(pos2(rect.max.x - 72.0, rect.min.y), rect.max);
    hold_ui(ui, corner, &mut view.hold, "hold to leave")
}

/// The pages, a big word for each.
fn foot_ui(ui: &mut Ui, rect: Rect, view: &mut ShowView, n_rows: usize) {
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(rect, 0, theme::color(Ink::Panel, theme));
    let per_row = ShowPage::ALL.len().div_ceil(n_rows);
    let height = (rect.height() - size::GAP * (n_rows as f32 + 1.0)) / n_rows as f32;
    for (nth, pages) in ShowPage::ALL.chunks(per_row).enumerate() {
        let row = Rect::from_min_size(
            pos2(
                rect.min.x + size::MARGIN,
                rect.min.y + size::GAP + nth as f32 * (height + size::GAP),
            ),
            vec2(rect.width() - 2.0 * size::MARGIN, height),
        );
        for (page, cell) in pages.iter().zip(cells(row, per_row)) {
            let key = Key::new(page.words()).chosen(view.page == *page);
            if key.show(ui, cell).clicked() && view.page != *page {
                view.page = *page;
                ui.request_repaint();
            }
        }
    }
}

//! A cause: what is wrong in both wordings, a key for each reading that it stands on, and what to do.

use egui::{Color32, FontId, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;

use super::key::Key;
use super::mark::Mark;
use super::words::{Face, Words};
use crate::stops::opened::Part;
use crate::theme::{self, Ink, size};

/// A cause that was found.
#[derive(Clone, Debug)]
pub struct CauseRow {
    /// How surely.
    pub mark: Mark,
    /// The cause and how surely, in a few words.
    pub title: String,
    /// As the trade says it.
    pub trade: String,
    /// As it is said to the homeowner, in quotes.
    pub homeowner: String,
    /// Remedy and rule.
    pub under: String,
    /// The readings: words, and where they stand.
    pub evidence: Vec<(String, Place)>,
    /// What its last key shows or folds; `None` where all readings stand there.
    pub more: Option<(String, Part)>,
}

/// What was tapped in a cause.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CauseTap {
    /// One of its readings.
    Reading(Place),
    /// More of them, or fewer.
    More(Part),
}

/// Left edge of the words, behind the mark.
const INDENT: f32 = 34.0;

/// Shows a cause. Gives what was tapped.
pub fn cause_ui(ui: &mut Ui, nth: usize, row: &CauseRow) -> Option<CauseTap> {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let face = Face::bold(size::LABEL);
    let room = ui.available_width() - INDENT - 4.0;
    let title = Words::broken(ui, &row.title, face, room, Anchor::Left);
    let line = theme::tall(ui, 30.0);
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), line + title.more()),
        Sense::hover(),
    );
    let name = row.title.clone();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let middle = rect.min.y + line / 2.0;
    let at = pos2(rect.min.x + 17.0, middle);
    row.mark.paint(ui.painter(), at, 15.0, theme);
    title.paint(
        ui.painter(),
        pos2(rect.min.x + INDENT, middle),
        row.mark.color(theme),
    );
    said(
        ui,
        &row.trade,
        theme::regular(theme::sized(ui, size::NOTE) + 1.0),
        ink(Ink::Ink),
    );
    said(
        ui,
        &row.homeowner,
        theme::regular(theme::sized(ui, size::NOTE) + 1.0),
        ink(Ink::Line),
    );
    let mut tapped = None;
    for (words, place) in &row.evidence {
        if reading(ui, nth, words, *place) {
            tapped = Some(CauseTap::Reading(*place));
        }
    }
    if let Some((words, part)) = &row.more {
        let (rect, _) =
            ui.allocate_exact_size(vec2(ui.available_width(), size::KEY), Sense::hover());
        let key = Key::new(words.as_str()).on(Ink::Panel, Ink::Line);
        let is_tapped = ui
            .push_id(("readings of cause", nth), |ui| {
                key.show(ui, rect.with_min_x(rect.min.x + INDENT - 8.0))
            })
            .inner
            .clicked();
        if is_tapped {
            tapped = Some(CauseTap::More(part.clone()));
        }
    }
    said(
        ui,
        &row.under,
        theme::regular(theme::sized(ui, size::NOTE)),
        ink(Ink::SecondInk),
    );
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 8.0), Sense::hover());
    ui.painter().hline(
        rect.x_range(),
        rect.center().y,
        Stroke::new(1.0, ink(Ink::Hairline)),
    );
    tapped
}

/// A paragraph behind the mark.
fn said(ui: &mut Ui, words: &str, font: FontId, color: Color32) {
    let room = ui.available_width() - INDENT - 10.0;
    let galley = ui.painter().layout(words.to_owned(), font, color, room);
    let height = galley.size().y + 6.0;
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let name = words.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    ui.painter()
        .galley(pos2(rect.min.x + INDENT, rect.min.y + 2.0), galley, color);
}

/// One reading as a wide key with an arrow that says where it leads.
fn reading(ui: &mut Ui, nth: usize, words: &str, place: Place) -> bool {
    let face = Face::regular(size::LABEL);
    let room = ui.available_width() - INDENT + 8.0 - 52.0;
    let set = Words::broken(ui, words, face, room, Anchor::Left);
    let height = (theme::tall(ui, 38.0) + set.more()).max(size::KEY);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let rect = rect.with_min_x(rect.min.x + INDENT - 8.0);
    let id = ui.scope_id().with(("reading of cause", nth, place));
    let response = ui.interact(rect, id, Sense::click());
    let name = format!("go to {words}");
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let theme = theme::current(ui);
    let pressed = response.is_pointer_button_down_on();
    let fill = if pressed { Ink::LineGround } else { Ink::Key };
    let painter = ui.painter();
    painter.rect(
        rect,
        size::CORNER,
        theme::color(fill, theme),
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        StrokeKind::Inside,
    );
    let ink = theme::color(Ink::Line, theme);
    let tip = pos2(rect.max.x - 16.0, rect.center().y);
    painter.line_segment([tip - vec2(7.0, 7.0), tip], Stroke::new(2.0, ink));
    painter.line_segment([tip - vec2(7.0, -7.0), tip], Stroke::new(2.0, ink));
    set.paint(
        painter,
        pos2(rect.min.x + 14.0, rect.center().y - set.more() / 2.0),
        theme::color(Ink::Ink, theme),
    );
    response.clicked()
}

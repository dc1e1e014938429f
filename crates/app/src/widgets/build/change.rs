//! A change: what was changed, from what to what, by whom and when.

use egui::{Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::theme::{self, Ink, size};
use crate::widgets::mark::Mark;
use crate::widgets::words::{Face, Words};

/// What was changed by whom.
#[derive(Clone, Debug)]
pub struct ChangeRow {
    /// What was changed.
    pub what: String,
    /// What stood there before.
    pub from: String,
    /// What stands there since.
    pub to: String,
    /// Who, on which device, when, and whether it was taken back.
    pub note: String,
    /// What is wrong with its time; empty where nothing is.
    pub doubt: String,
}

/// Shows a change. It is read, not tapped.
pub(super) fn change_ui(ui: &mut Ui, row: &ChangeRow) {
    let scale = theme::tall(ui, 1.0);
    let tall = |points: f32| points * scale;
    let room = ui.available_width() - 28.0;
    let words =
        |words: &str, face: Face, room: f32| Words::broken(ui, words, face, room, Anchor::Left);
    let what = words(&row.what, Face::regular(size::LABEL), room);
    let values = format!("{} → {}", row.from, row.to);
    let values = words(&values, Face::bold(size::LABEL), room);
    let note = words(&row.note, Face::regular(size::NOTE), room);
    let doubt = words(&row.doubt, Face::regular(size::NOTE), room - 20.0);
    let doubt_height = if row.doubt.is_empty() {
        0.0
    } else {
        tall(23.0) + doubt.more()
    };
    let content = tall(66.0) + what.more() + values.more() + note.more() + doubt_height;
    let height = content + tall(20.0);
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let said = format!("{}, {} → {}, {}", row.what, row.from, row.to, row.note);
    let said = if row.doubt.is_empty() {
        said
    } else {
        format!("{said}. {}", row.doubt)
    };
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, said.clone()));
    if !ui.is_rect_visible(rect) {
        return;
    }
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let painter = ui.painter();
    painter.rect(
        rect,
        size::CORNER,
        ink(Ink::Panel),
        Stroke::new(1.0, ink(Ink::Hairline)),
        StrokeKind::Inside,
    );
    let left = rect.min.x + 14.0;
    let mut middle = rect.min.y + tall(21.0);
    what.paint(painter, pos2(left, middle), ink(Ink::Ink));
    middle += what.more() + tall(23.0);
    values.paint(painter, pos2(left, middle), ink(Ink::Line));
    middle += values.more() + tall(22.0);
    note.paint(painter, pos2(left, middle), ink(Ink::SecondInk));
    if !row.doubt.is_empty() {
        middle += note.more() + tall(23.0);
        Mark::NotKnown.paint(painter, pos2(left + 8.0, middle), 16.0, theme);
        doubt.paint(painter, pos2(left + 20.0, middle), ink(Ink::NotKnown));
    }
}

//! A check that a stage is closed on: what and where, what it says, and what to do.

use egui::{Role, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;

use crate::edit::Edit;
use crate::stops::opened::Part;
use crate::theme::{self, Ink, size};
use crate::widgets::rows::ValueState;
use crate::widgets::words::{Face, Words};

/// A check of a stage.
#[derive(Clone, Debug)]
pub struct CheckRow {
    /// What and where.
    pub what: String,
    /// What was found: `3/8" high`, `right`, or `read it`.
    pub value: String,
    /// What to do, or what it must read.
    pub note: String,
    /// Its state.
    pub state: ValueState,
    /// What a tap does.
    pub tap: CheckTap,
}

/// What a tap on a check does.
#[derive(Clone, Debug)]
pub enum CheckTap {
    /// Sets its value.
    Set(Place),
    /// Adds the reading first.
    Do(Edit),
    /// Shows what is to be done before.
    Open(Part),
}

/// Left edge of the words.
const INDENT: f32 = 40.0;

/// Shows a check. Gives whether it was tapped.
pub(super) fn check_ui(
    ui: &mut Ui,
    nth: usize,
    row: &CheckRow,
    (set, scroll): (Option<Place>, bool),
) -> bool {
    let scale = theme::tall(ui, 1.0);
    let tall = |points: f32| points * scale;
    let room = ui.available_width() - INDENT - 14.0;
    let value = Words::broken(ui, &row.value, Face::bold(size::TITLE), room, Anchor::Right);
    let what = Words::broken(
        ui,
        &row.what,
        Face::regular(size::LABEL),
        room,
        Anchor::Left,
    );
    let is_beside = what.width() + value.width() + 14.0 <= room;
    let note = Words::broken(ui, &row.note, Face::regular(size::NOTE), room, Anchor::Left);
    let value_height = if is_beside {
        0.0
    } else {
        tall(28.0) + value.more()
    };
    let note_height = if row.note.is_empty() {
        0.0
    } else {
        tall(24.0) + note.more()
    };
    let content = tall(20.0) + what.more() + value_height + note_height;
    let height = (content + tall(24.0)).max(size::KEY);
    let (rect, seen) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let is_set = set.is_some_and(|set| matches!(row.tap, CheckTap::Set(place) if place == set));
    if scroll && is_set {
        seen.scroll_to_me(None);
    }
    let id = ui.scope_id().with(("check", nth));
    let response = ui.interact(rect, id, Sense::click());
    let said = [&row.what, &row.value, &row.note]
        .into_iter()
        .filter(|part| !part.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ");
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, said.clone()));
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let painter = ui.painter();
    let (ground, border) = if is_set || response.is_pointer_button_down_on() {
        (Ink::LineGround, Stroke::new(2.5, ink(Ink::Line)))
    } else {
        (Ink::Key, Stroke::new(1.0, ink(Ink::Hairline)))
    };
    painter.rect(rect, size::CORNER, ink(ground), border, StrokeKind::Inside);
    let mut middle = rect.center().y - content / 2.0 + tall(10.0);
    let hub = pos2(rect.min.x + 21.0, middle);
    match row.state.mark() {
        Some(mark) => mark.paint(painter, hub, 20.0, theme),
        None => {
            painter.add(Shape::circle_stroke(
                hub,
                8.0,
                Stroke::new(1.5, ink(Ink::SecondInk)),
            ));
        }
    }
    let (left, right) = (rect.min.x + INDENT, rect.max.x - 14.0);
    what.paint(painter, pos2(left, middle), ink(Ink::Ink));
    middle += what.more();
    if !is_beside {
        middle += tall(28.0);
    }
    let value_ink = if is_set { Ink::Line } else { row.state.ink() };
    value.paint(painter, pos2(right, middle), ink(value_ink));
    if !is_beside {
        middle += value.more();
    }
    middle += tall(25.0);
    let note_ink = if row.state == ValueState::Wrong {
        Ink::Wrong
    } else {
        Ink::SecondInk
    };
    note.paint(painter, pos2(left, middle), ink(note_ink));
    response.clicked()
}

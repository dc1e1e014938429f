//! A stage with its hold point: name, state as word and mark, and who closed it.

use egui::{Role, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::build::HoldStage;
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;

use crate::theme::{self, Ink, size};
use crate::widgets::mark::Mark;
use crate::widgets::words::{Face, Words};

/// A stage.
#[derive(Clone, Debug)]
pub struct StageRow {
    /// Which.
    pub stage: HoldStage,
    /// Its name.
    pub name: String,
    /// Where it stands, in a word or two.
    pub state: String,
    /// The same as a mark; `None` where checks are only missing.
    pub mark: Option<Mark>,
    /// Whether it is closed.
    pub is_closed: bool,
    /// Who closed it and when, or what it waits for.
    pub note: String,
    /// Whether what it asks for follows.
    pub is_open: bool,
}

/// Room of the arrow at the left.
const INDENT: f32 = 32.0;

/// Shows a stage. Gives whether it was tapped.
pub(super) fn stage_ui(ui: &mut Ui, row: &StageRow, (set, scroll): (Option<Place>, bool)) -> bool {
    let scale = theme::tall(ui, 1.0);
    let tall = |points: f32| points * scale;
    let room = ui.available_width() - INDENT - 14.0;
    let mark_room = if row.mark.is_some() { 24.0 } else { 0.0 };
    let state = Words::broken(
        ui,
        &row.state,
        Face::bold(size::LABEL),
        room - mark_room,
        Anchor::Right,
    );
    let name_face = if row.is_open {
        Face::bold(size::TITLE)
    } else {
        Face::regular(size::LABEL)
    };
    let name = Words::broken(ui, &row.name, name_face, room, Anchor::Left);
    let is_beside = name.width() + state.width() + mark_room + 14.0 <= room;
    let note = Words::broken(ui, &row.note, Face::regular(size::NOTE), room, Anchor::Left);
    let state_height = if is_beside {
        0.0
    } else {
        tall(26.0) + state.more()
    };
    let note_height = if row.note.is_empty() {
        0.0
    } else {
        tall(24.0) + note.more()
    };
    let height = (tall(44.0) + name.more() + state_height + note_height).max(size::KEY);
    let (rect, seen) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    if scroll && set == Some(Place::HoldStage(row.stage)) {
        seen.scroll_to_me(Some(egui::Align::TOP));
    }
    let id = ui.scope_id().with(("stage", row.stage));
    let response = ui.interact(rect, id, Sense::click());
    let said = [&row.name, &row.state, &row.note]
        .into_iter()
        .filter(|part| !part.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ");
    let is_open = row.is_open;
    response.widget_info(move || WidgetInfo::selected(Role::Button, true, is_open, said.clone()));
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let painter = ui.painter();
    let (ground, border) = if is_open || response.is_pointer_button_down_on() {
        (Ink::LineGround, Stroke::new(2.5, ink(Ink::Line)))
    } else if row.is_closed {
        (Ink::Panel, Stroke::new(1.0, ink(Ink::Hairline)))
    } else {
        (Ink::Key, Stroke::new(1.0, ink(Ink::Hairline)))
    };
    painter.rect(rect, size::CORNER, ink(ground), border, StrokeKind::Inside);
    let content = tall(20.0) + name.more() + state_height + note_height;
    let mut middle = rect.center().y - content / 2.0 + tall(10.0);
    let hub = pos2(rect.min.x + 17.0, middle);
    let arrow = if is_open {
        [vec2(-6.0, -4.0), vec2(6.0, -4.0), vec2(0.0, 6.0)]
    } else {
        [vec2(-4.0, -6.0), vec2(6.0, 0.0), vec2(-4.0, 6.0)]
    };
    let arrow_ink = if is_open { Ink::Line } else { Ink::SecondInk };
    painter.add(Shape::convex_polygon(
        arrow.map(|corner| hub + corner).to_vec(),
        ink(arrow_ink),
        Stroke::NONE,
    ));
    let (left, right) = (rect.min.x + INDENT, rect.max.x - 14.0);
    name.paint(painter, pos2(left, middle), ink(Ink::Ink));
    middle += name.more();
    if !is_beside {
        middle += tall(26.0);
    }
    let state_ink = row.mark.map_or(ink(Ink::Line), |mark| mark.color(theme));
    state.paint(painter, pos2(right, middle), state_ink);
    if let Some(mark) = row.mark {
        let at = pos2(right - state.width() - 14.0, middle);
        mark.paint(painter, at, 16.0, theme);
    }
    if !is_beside {
        middle += state.more();
    }
    middle += tall(24.0);
    note.paint(painter, pos2(left, middle), ink(Ink::SecondInk));
    response.clicked()
}

//! A line of the order, or a stage of the work: name, how much, money, and how it was got or what is wrong with it.

use egui::{Role, Sense, Shape, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;

use crate::stops::opened::OrderPart;
use crate::theme::{self, Ink, size};
use crate::widgets::rows::ValueState;
use crate::widgets::words::{Face, Words};

/// A line of the order, or a stage of the work.
#[derive(Clone, Debug)]
pub struct LineRow {
    /// Which.
    pub part: OrderPart,
    /// What it is called.
    pub name: String,
    /// How much, as bought.
    pub value: String,
    /// What it costs; empty where that is not known.
    pub amount: String,
    /// How it was got, or what is wrong.
    pub note: String,
    /// Its state.
    pub state: ValueState,
    /// Whether what stands behind it follows, and the drawings light it.
    pub is_open: bool,
}

/// Room of the arrow at the left.
const INDENT: f32 = 32.0;

/// Shows a line. Gives whether it was tapped.
pub(super) fn line_ui(ui: &mut Ui, row: &LineRow, (set, scroll): (Option<Place>, bool)) -> bool {
    let scale = theme::tall(ui, 1.0);
    let tall = |points: f32| points * scale;
    let room = ui.available_width() - INDENT - 14.0;
    let value_face = Face::bold(if row.state == ValueState::Missing {
        size::LABEL
    } else {
        size::TITLE
    });
    let value = Words::broken(ui, &row.value, value_face, room, Anchor::Right);
    let name = Words::broken(
        ui,
        &row.name,
        Face::regular(size::LABEL),
        room,
        Anchor::Left,
    );
    let is_beside = name.width() + value.width() + 14.0 <= room;
    let amount = Words::broken(
        ui,
        &row.amount,
        Face::bold(size::LABEL),
        room,
        Anchor::Right,
    );
    let mark = row.state.mark();
    let mark_room = if mark.is_some() { 20.0 } else { 0.0 };
    // A wide value has a line of its own; a narrower one stands over the amount, beside the note.
    let is_wide = !is_beside && value.width() > room * 0.4;
    let beside_note = if is_beside || is_wide {
        amount.width()
    } else {
        amount.width().max(value.width())
    };
    let note_room = room - beside_note - 14.0 - mark_room;
    let note = Words::broken(
        ui,
        &row.note,
        Face::regular(size::NOTE),
        note_room,
        Anchor::Left,
    );
    let value_height = if is_beside {
        0.0
    } else {
        tall(30.0) + value.more()
    };
    let below = if is_wide {
        value_height + note.more()
    } else {
        note.more().max(value_height)
    };
    let height = (tall(size::ROW) + name.more() + below).max(size::KEY);
    let (rect, seen) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    if scroll && looked_at(row.part, set) {
        seen.scroll_to_me(Some(egui::Align::TOP));
    }
    let response = ui.interact(
        rect,
        ui.scope_id().with(("order line", row.part)),
        Sense::click(),
    );
    let said = [&row.name, &row.value, &row.amount, &row.note]
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
    } else {
        (Ink::Key, Stroke::new(1.0, ink(Ink::Hairline)))
    };
    painter.rect(rect, size::CORNER, ink(ground), border, StrokeKind::Inside);
    let mut middle = rect.min.y + tall(23.0);
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
    let value_ink = match row.state {
        ValueState::Missing => Ink::NotKnown,
        _ if is_open => Ink::Line,
        _ => Ink::Ink,
    };
    name.paint(painter, pos2(left, middle), ink(Ink::Ink));
    if is_beside {
        value.paint(painter, pos2(right, middle), ink(value_ink));
    }
    middle += name.more() + tall(26.0);
    if is_wide {
        value.paint(painter, pos2(right, middle + 2.0), ink(value_ink));
        middle += value.more() + tall(28.0);
    }
    if is_beside || is_wide {
        amount.paint(painter, pos2(right, middle), ink(Ink::Ink));
    } else {
        value.paint(painter, pos2(right, middle + 2.0), ink(value_ink));
        let under = middle + value.more() + tall(28.0);
        amount.paint(painter, pos2(right, under), ink(Ink::Ink));
    }
    let mut left = left;
    if let Some(mark) = mark {
        mark.paint(painter, pos2(left + 7.0, middle), 13.0, theme);
        left += mark_room;
    }
    let note_ink = match row.state {
        ValueState::Known | ValueState::Default => Ink::SecondInk,
        other => other.ink(),
    };
    note.paint(painter, pos2(left, middle), ink(note_ink));
    response.clicked()
}

/// Whether the line itself is what is looked at, and not a value behind it.
fn looked_at(part: OrderPart, set: Option<Place>) -> bool {
    matches!((part, set), (OrderPart::Line(item), Some(Place::OrderLine(at))) if item == at)
}

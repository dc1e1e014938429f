//! A card that is taken with one tap: what it is, how much, and what comes with it.

use egui::{Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::rows::elided;
use crate::canvas::lettering;
use crate::edit::Edit;
use crate::theme::{self, Ink, size};

/// A card that is taken with one tap.
#[derive(Clone, Debug)]
pub struct OfferCard {
    /// What it is, in a few words.
    pub title: String,
    /// How much.
    pub value: String,
    /// What comes with it.
    pub note: String,
    /// Whether it is how things are now.
    pub is_now: bool,
    /// What taking it asks for.
    pub edit: Edit,
}

/// Shows a card. Gives whether it was tapped and is not how things are already.
pub fn offer_ui(ui: &mut Ui, nth: usize, card: &OfferCard) -> bool {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), size::ROW), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("offer", nth)), Sense::click());
    let name = format!("{}, {}", card.title, card.note);
    let is_now = card.is_now;
    response.widget_info(move || WidgetInfo::selected(Role::Button, true, is_now, name.clone()));
    if !ui.is_rect_visible(rect) {
        return response.clicked() && !is_now;
    }
    let theme = theme::current(ui);
    let painter = ui.painter();
    let ink = |ink: Ink| theme::color(ink, theme);
    let (ground, border) = if is_now || response.is_pointer_button_down_on() {
        (Ink::LineGround, Stroke::new(2.0, ink(Ink::Line)))
    } else {
        (Ink::Panel, Stroke::new(1.0, ink(Ink::Line)))
    };
    painter.rect(rect, size::CORNER, ink(ground), border, StrokeKind::Inside);
    let value = Text::bold(&card.value);
    let value_width = lettering::width(&value, size::TITLE);
    lettering::paint(
        painter,
        pos2(rect.max.x - 14.0, rect.center().y),
        Anchor::Right,
        &value,
        size::TITLE,
        ink(Ink::Line),
    );
    let room = rect.width() - value_width - 40.0;
    let left = rect.min.x + 14.0;
    lettering::paint(
        painter,
        pos2(left, rect.min.y + 23.0),
        Anchor::Left,
        &Text::bold(elided(&card.title, true, size::LABEL, room)),
        size::LABEL,
        ink(Ink::Ink),
    );
    lettering::paint(
        painter,
        pos2(left, rect.min.y + 49.0),
        Anchor::Left,
        &Text::regular(elided(&card.note, false, size::NOTE, room)),
        size::NOTE,
        ink(Ink::SecondInk),
    );
    response.clicked() && !is_now
}

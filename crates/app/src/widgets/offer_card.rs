//! A card that is taken with one tap: what it is, how much, and what comes with it.

use egui::{Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::rows::elided;
use crate::canvas::lettering;
use crate::edit::Edit;
use crate::theme::{self, Ink, size};

/// Height of a second line of notes at the design's text size.
const MORE: f32 = 24.0;

/// A card that is taken with one tap.
#[derive(Clone, Debug)]
pub struct OfferCard {
    /// What it is, in a few words.
    pub title: String,
    /// How much.
    pub value: String,
    /// What comes with it.
    pub note: String,
    /// A second line of that; may be empty.
    pub more: String,
    /// Whether it is how things are now.
    pub is_now: bool,
    /// What taking it asks for.
    pub edit: Edit,
}

/// Shows a card. Gives whether it was tapped and is not how things are already.
pub fn offer_ui(ui: &mut Ui, nth: usize, card: &OfferCard) -> bool {
    let tall = |points: f32| theme::tall(ui, points);
    let height = if card.more.is_empty() {
        tall(size::ROW)
    } else {
        tall(size::ROW + MORE)
    };
    let lines = [tall(23.0), tall(49.0), tall(49.0 + MORE)];
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("offer", nth)), Sense::click());
    let name = [card.title.as_str(), &card.note, &card.more]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(", ");
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
    let title_size = theme::sized(ui, size::TITLE);
    let value_width = lettering::width(&value, title_size);
    lettering::paint(
        painter,
        pos2(rect.max.x - 14.0, rect.min.y + lines[0] + 6.0),
        Anchor::Right,
        &value,
        title_size,
        ink(Ink::Line),
    );
    let beside = rect.width() - value_width - 40.0;
    let below = rect.width() - 28.0;
    let label = theme::sized(ui, size::LABEL);
    let note = theme::sized(ui, size::NOTE);
    let words = [
        (
            Text::bold(elided(&card.title, true, label, beside)),
            label,
            Ink::Ink,
        ),
        (
            Text::regular(elided(&card.note, false, note, below)),
            note,
            Ink::SecondInk,
        ),
        (
            Text::regular(elided(&card.more, false, note, below)),
            note,
            Ink::SecondInk,
        ),
    ];
    for ((text, size, color), line) in words.into_iter().zip(lines) {
        lettering::paint(
            painter,
            pos2(rect.min.x + 14.0, rect.min.y + line),
            Anchor::Left,
            &text,
            size,
            ink(color),
        );
    }
    response.clicked() && !is_now
}

//! What the homeowner asks in that minute: how much, how long, how many people.

use egui::{Role, Sense, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::canvas::lettering;
use crate::theme::{self, Ink, size};
use crate::widgets::mark::Mark;
use crate::widgets::words::{Face, Words};

/// The price of the way that is ordered.
#[derive(Clone, Debug)]
pub struct PriceHead {
    /// How much: from likely to worst.
    pub price: String,
    /// What the upper end stands for; empty where there is but one figure.
    pub range: String,
    /// Which way, days, crew and hours.
    pub under: String,
    /// Why it is the least; empty where it is not.
    pub least: String,
}

/// Shows the price.
pub(super) fn price_ui(ui: &mut Ui, head: &PriceHead) {
    let theme = theme::current(ui);
    let scale = theme::tall(ui, 1.0);
    let tall = |points: f32| points * scale;
    let room = ui.available_width() - 20.0;
    let price = Text::bold(&head.price);
    let mut points = theme::sized(ui, size::READING);
    while lettering::width(&price, points) > room && points > size::LABEL {
        points -= 1.0;
    }
    let set = |words: &str, face: Face, room: f32| {
        (!words.is_empty()).then(|| Words::broken(ui, words, face, room, Anchor::Left))
    };
    let range = set(&head.range, Face::regular(size::NOTE), room);
    let under = set(&head.under, Face::bold(size::LABEL), room);
    let least = set(&head.least, Face::regular(size::NOTE), room - 22.0);
    let line = |words: &Option<Words>, height: f32| {
        words
            .as_ref()
            .map_or(0.0, |words| tall(height) + words.more())
    };
    let height = tall(52.0) + line(&range, 22.0) + line(&under, 26.0) + line(&least, 24.0) + 6.0;
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let name = [&head.price, &head.range, &head.under, &head.least]
        .into_iter()
        .filter(|part| !part.is_empty())
        .cloned()
        .collect::<Vec<_>>()
        .join(", ");
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let painter = ui.painter();
    let left = rect.min.x + 4.0;
    lettering::paint(
        painter,
        pos2(left, rect.min.y + tall(26.0)),
        Anchor::Left,
        &price,
        points,
        theme::color(Ink::Line, theme),
    );
    let mut top = rect.min.y + tall(52.0);
    if let Some(words) = &range {
        words.paint(
            painter,
            pos2(left, top + tall(9.0)),
            theme::color(Ink::SecondInk, theme),
        );
        top += tall(22.0) + words.more();
    }
    if let Some(words) = &under {
        words.paint(
            painter,
            pos2(left, top + tall(12.0)),
            theme::color(Ink::Ink, theme),
        );
        top += tall(26.0) + words.more();
    }
    if let Some(words) = &least {
        Mark::NotKnown.paint(painter, pos2(left + 8.0, top + tall(12.0)), 14.0, theme);
        words.paint(
            painter,
            pos2(left + 22.0, top + tall(12.0)),
            theme::color(Ink::NotKnown, theme),
        );
    }
}

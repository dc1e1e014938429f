//! The bar over the ground: which site this is, and whether every change is on disk.

use egui::{Rect, Ui, pos2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;
use underbrick_records::KeepStatus;

use crate::canvas::lettering;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::rows::elided;

/// Shows the bar in `rect`.
pub(crate) fn title_ui(ui: &Ui, rect: Rect, visit: &Visit) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let (mark, word, ink) = match visit.keep_status() {
        KeepStatus::OnDisk => (Mark::Right, "on disk".to_owned(), Ink::Right),
        KeepStatus::Writing => (Mark::Note, "writing".to_owned(), Ink::SecondInk),
        KeepStatus::Failed { reason } => {
            (Mark::Wrong, format!("not on disk: {reason}"), Ink::Wrong)
        }
    };
    let word = elided(
        &word,
        false,
        theme::sized(ui, size::NOTE),
        rect.width() * 0.55,
    );
    let word_width = lettering::width(&Text::regular(word.as_str()), theme::sized(ui, size::NOTE));
    let right = rect.max.x - 20.0;
    lettering::paint(
        painter,
        pos2(right, rect.center().y),
        Anchor::Right,
        &Text::regular(word),
        theme::sized(ui, size::NOTE),
        theme::color(ink, theme),
    );
    mark.paint(
        painter,
        pos2(right - word_width - 14.0, rect.center().y),
        14.0,
        theme,
    );
    let room = rect.width() - word_width - 80.0;
    let address = if visit.site().address.trim().is_empty() {
        "no address yet"
    } else {
        visit.site().address.as_str()
    };
    let address = elided(address, true, theme::sized(ui, size::TITLE), room);
    let address_width =
        lettering::width(&Text::bold(address.as_str()), theme::sized(ui, size::TITLE));
    let left = rect.min.x + 20.0;
    lettering::paint(
        painter,
        pos2(left, rect.center().y),
        Anchor::Left,
        &Text::bold(address),
        theme::sized(ui, size::TITLE),
        theme::color(Ink::Ink, theme),
    );
    let walk = elided(
        &visit.site().walk,
        false,
        theme::sized(ui, size::LABEL),
        room - address_width - 20.0,
    );
    lettering::paint(
        painter,
        pos2(left + address_width + 20.0, rect.center().y + 1.0),
        Anchor::Left,
        &Text::regular(walk),
        theme::sized(ui, size::LABEL),
        theme::color(Ink::SecondInk, theme),
    );
    painter.hline(
        rect.x_range(),
        rect.max.y,
        egui::Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
    );
}

//! What can be chosen: a card for each way, with its price, its days and what it mends.

use egui::{Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use underbrick_sheets::owner::WayTold;

use super::told::Told;
use crate::theme::{self, Ink, size};
use crate::widgets::show::prose;

const NOTE: &str = "Where two figures stand, the lower is for ground as good as the holes showed it, the higher for ground as bad everywhere as in the worst of them. \"At least\" means that something is not known or not priced yet.";

pub(super) fn page_ui(ui: &mut Ui, rect: Rect, told: &Told) {
    let inner = rect.shrink2(vec2(16.0, 12.0));
    if told.ways.is_empty() {
        ui.scope_builder(
            egui::UiBuilder::new().max_rect(inner).id_salt("none"),
            |ui| {
                prose::lead(
                    ui,
                    "There is nothing to choose yet: the walk is not measured far enough.",
                );
            },
        );
        return;
    }
    let note_height = prose::height(ui, NOTE, false, size::LABEL, inner.width() - 16.0) + 12.0;
    let (cards, note) = inner.split_top_bottom_at_y(inner.max.y - note_height);
    let is_beside = inner.width() > inner.height();
    let count = told.ways.len() as f32;
    for (nth, way) in told.ways.iter().enumerate() {
        let nth = nth as f32;
        let card = if is_beside {
            let width = (cards.width() - size::MARGIN * (count - 1.0)) / count;
            Rect::from_min_size(
                pos2(cards.min.x + nth * (width + size::MARGIN), cards.min.y),
                vec2(width, cards.height() - size::MARGIN),
            )
        } else {
            let height = (cards.height() - size::MARGIN * count) / count;
            Rect::from_min_size(
                pos2(cards.min.x, cards.min.y + nth * (height + size::MARGIN)),
                vec2(cards.width(), height),
            )
        };
        card_ui(ui, card, way, is_beside);
    }
    ui.scope_builder(
        egui::UiBuilder::new()
            .max_rect(note.shrink2(vec2(8.0, 0.0)))
            .id_salt("note"),
        |ui| prose::aside(ui, NOTE),
    );
}

/// One way. A card that is wide and low runs what is mended on in one sentence.
fn card_ui(ui: &mut Ui, rect: Rect, way: &WayTold, is_high: bool) {
    let theme = theme::current(ui);
    let (ground, border) = if way.is_chosen {
        let line = Stroke::new(3.0, theme::color(Ink::Line, theme));
        (Ink::LineGround, line)
    } else {
        let line = Stroke::new(1.0, theme::color(Ink::Hairline, theme));
        (Ink::Panel, line)
    };
    ui.painter().rect(
        rect,
        size::CORNER,
        theme::color(ground, theme),
        border,
        StrokeKind::Inside,
    );
    let inner = rect.shrink2(vec2(18.0, 14.0));
    ui.scope_builder(
        egui::UiBuilder::new()
            .max_rect(inner)
            .id_salt(way.name.as_str()),
        |ui| {
            ui.set_clip_rect(inner.intersect(ui.clip_rect()));
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    ui.spacing_mut().item_spacing.y = 8.0;
                    prose::head(ui, &way.name);
                    prose::lead(ui, &way.price);
                    prose::body(ui, &format!("Time: {}", way.days));
                    if way.is_chosen {
                        prose::said(ui, "This is the one that is planned.", Ink::Line);
                    }
                    if way.mends.is_empty() {
                        prose::body(ui, "No cause was found that it could mend.");
                    }
                    for (what, causes) in &way.mends {
                        if !is_high {
                            prose::body(ui, &format!("{what}: {causes}."));
                            continue;
                        }
                        ui.add_space(4.0);
                        let ink = match *what {
                            "Mends" => Ink::Right,
                            "Leaves" => Ink::Wrong,
                            _ => Ink::NotKnown,
                        };
                        prose::said(ui, what, ink);
                        for cause in causes.split("; ") {
                            prose::point(ui, cause);
                        }
                    }
                })
        },
    );
}

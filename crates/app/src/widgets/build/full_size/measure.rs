//! The screen is measured: a card as banks give it is laid on it, and a bar dragged to its edge.

use egui::{
    Context, CornerRadius, Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use underbrick_drawing::item::Anchor;

use super::NOT_MEASURED;
use crate::platform::screen::{self, CARD_HEIGHT_MM, CARD_WIDTH_MM};
use crate::stops::opened::{FullSize, Part};
use crate::theme::{self, Ink, size};
use crate::widgets::key::{Key, cells};
use crate::widgets::words::{Face, Words};

/// What a tap on a key moves the bar by.
const STEP_MM: f32 = 0.1;

pub(super) fn measure_ui(ui: &mut Ui, body: Rect, keys: Rect) -> Option<Part> {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let mut points_per_mm = draft(ui);
    let words =
        "Lay a bank card on the screen, its left edge on the line. Drag the bar to its right edge.";
    let face = Face::regular(size::LABEL);
    let words = Words::broken(ui, words, face, body.width(), Anchor::Left);
    let mut y = body.min.y + theme::tall(ui, 16.0);
    words.paint(ui.painter(), pos2(body.min.x, y), ink(Ink::Ink));
    y += words.more() + theme::tall(ui, 26.0);
    let note = "Any card of the format ID-1 of ISO/IEC 7810 will do: 85.6 mm wide, 54 mm high. A tape will do too.";
    let note = Words::broken(
        ui,
        note,
        Face::regular(size::NOTE),
        body.width(),
        Anchor::Left,
    );
    note.paint(ui.painter(), pos2(body.min.x, y), ink(Ink::SecondInk));
    y += note.more() + theme::tall(ui, 24.0);

    let left = body.min.x;
    let most = (body.max.x - left - 2.0) / CARD_WIDTH_MM;
    let bar = |points_per_mm: f32| {
        let x = left + CARD_WIDTH_MM * points_per_mm;
        Rect::from_min_max(
            pos2(x - size::KEY / 2.0, y),
            pos2(x + size::KEY / 2.0, body.max.y),
        )
    };
    let id = ui.scope_id().with("bar of the card");
    let touched = ui.interact(bar(points_per_mm), id, Sense::drag());
    if touched.dragged() {
        // Only what the finger moves: it need not have met the bar in its middle.
        let moved = touched.drag_delta().x / CARD_WIDTH_MM;
        points_per_mm = (points_per_mm + moved).min(most);
        keep_draft(ui, points_per_mm);
        ui.request_repaint();
    }
    let kept = screen::measured(ui, points_per_mm);
    let shown = kept;
    touched.widget_info(move || {
        WidgetInfo::labeled(
            Role::Splitter,
            true,
            format!("bar of the card, {shown} pixels for 100 mm"),
        )
    });
    let painter = ui.painter().with_clip_rect(body);
    let wide = CARD_WIDTH_MM * points_per_mm;
    let height = (CARD_HEIGHT_MM * points_per_mm).min(body.max.y - y - 2.0);
    let card = Rect::from_min_size(pos2(left, y), vec2(wide, height));
    painter.rect(
        card,
        CornerRadius::same(size::CORNER),
        ink(Ink::Key),
        Stroke::new(1.5, ink(Ink::Ink)),
        StrokeKind::Inside,
    );
    let line = Stroke::new(3.0, ink(Ink::Line));
    painter.vline(left + 1.5, y..=body.max.y, line);
    let x = left + wide;
    painter.vline(x - 1.5, y..=body.max.y, line);
    let hub = pos2(x - 1.5, card.max.y.min(body.max.y - 24.0));
    painter.circle_filled(hub, 22.0, ink(Ink::Line));
    for side in [-1.0, 1.0] {
        painter.add(egui::Shape::convex_polygon(
            vec![
                hub + vec2(side * 5.0, -8.0),
                hub + vec2(side * 14.0, 0.0),
                hub + vec2(side * 5.0, 8.0),
            ],
            ink(Ink::Paper),
            Stroke::NONE,
        ));
    }

    let mut asked = None;
    let steps = [("narrower", -STEP_MM), ("wider", STEP_MM)];
    let all = cells(keys, 4);
    let mut all = all.into_iter();
    for ((words, step), cell) in steps.into_iter().zip(all.by_ref()) {
        if Key::new(words).show(ui, cell).clicked() {
            let scaled = points_per_mm * (1.0 + step / CARD_WIDTH_MM);
            keep_draft(ui, scaled.min(most));
            ui.request_repaint();
        }
    }
    let ends = [
        ("leave it", Ink::Key, Ink::Ink),
        ("it fits", Ink::Line, Ink::Paper),
    ];
    for ((words, ground, letters), cell) in ends.into_iter().zip(all) {
        if Key::new(words).on(ground, letters).show(ui, cell).clicked() {
            if words == "it fits" {
                screen::set_pixels_per_100_mm(ui, Some(kept));
            }
            ui.data_mut(|data| data.remove::<f32>(draft_id()));
            asked = Some(Part::FullSize(Some(FullSize::Screed)));
        }
    }
    asked
}

/// Points for a millimetre as the bar stands.
fn draft(context: &Context) -> f32 {
    let kept = context.data(|data| data.get_temp(draft_id()));
    kept.or_else(|| screen::points_per_mm(context))
        .unwrap_or(NOT_MEASURED)
}

fn keep_draft(context: &Context, points_per_mm: f32) {
    let least = 0.5 / context.pixels_per_point();
    context.data_mut(|data| data.insert_temp(draft_id(), points_per_mm.max(least)));
}

fn draft_id() -> egui::Id {
    egui::Id::unique("underbrick bar of the card")
}

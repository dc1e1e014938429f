//! Under the plan: what the selected piece is, and keys for smaller, larger and the whole walk.

use egui::{Rect, Stroke, Ui, pos2, vec2};
use underbrick_drawing::{PlanInput, piece_said};

use super::{Asked, KEY, PlanViewState, selected_idx};
use crate::canvas::lettering::in_line;
use crate::theme::{self, Ink, size};
use crate::widgets::key::{Key, cells};

/// One tap on a key makes the plan so many times larger or smaller.
const STEP: f64 = 1.6;

/// What the selected piece is, and the keys.
pub(super) fn strip_ui(ui: &mut Ui, asked: &Asked<'_, '_>, strip: Rect, state: &mut PlanViewState) {
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(strip, 0, theme::color(Ink::Panel, theme));
    let line = Stroke::new(1.0, theme::color(Ink::Hairline, theme));
    ui.painter().hline(strip.x_range(), strip.min.y, line);
    let inner = strip.shrink2(vec2(8.0, 4.0));
    let keys_width = (3.0 * theme::tall(ui, KEY) + 2.0 * size::GAP).min(inner.width() * 0.6);
    let keys = Rect::from_min_max(pos2(inner.max.x - keys_width, inner.min.y), inner.max);
    let words = Rect::from_min_max(inner.min, pos2(keys.min.x - size::MARGIN, inner.max.y));
    words_ui(ui, words.shrink2(vec2(6.0, 0.0)), state, asked.input);
    let cells = cells(keys, 3);
    let [less, more, all] = cells.as_slice() else {
        return;
    };
    let mut by = None;
    if Key::two_lines("−", "smaller").show(ui, *less).clicked() {
        by = Some(1.0 / STEP);
    }
    if Key::two_lines("+", "larger").show(ui, *more).clicked() {
        by = Some(STEP);
    }
    if Key::two_lines("whole", "walk").show(ui, *all).clicked() {
        state.view = None;
        ui.request_repaint();
    }
    if let Some(by) = by {
        let view = asked.current(ui, state);
        asked.scale(ui, state, view, by, asked.area.center());
    }
}

fn words_ui(ui: &mut Ui, rect: Rect, state: &PlanViewState, input: &PlanInput<'_>) {
    let said = selected_idx(state).and_then(|idx| piece_said(input, idx));
    let (words, ink, sizes): (String, Ink, &[f32]) = match (&said, &state.light) {
        (Some(said), _) => (
            in_line(said),
            Ink::Ink,
            &[size::TITLE, size::LABEL, size::NOTE],
        ),
        // The line of the order that is open stands here: in a corner of the plan it would cover something.
        (None, Some(light)) => (
            in_line(&light.title()),
            Ink::Line,
            &[size::LABEL, size::NOTE],
        ),
        (None, None) => (
            "Tap a brick to see what it is, twice for one joint.".to_owned(),
            Ink::SecondInk,
            &[size::LABEL, size::NOTE],
        ),
    };
    let color = theme::color(ink, theme::current(ui));
    let fonts = sizes.iter().map(|points| match said {
        Some(_) => theme::bold(theme::sized(ui, *points)),
        None if state.light.is_some() => theme::bold(theme::sized(ui, *points)),
        None => theme::regular(theme::sized(ui, *points)),
    });
    let fits = |font: &egui::FontId| {
        let (words, font) = (words.clone(), font.clone());
        let galley = ui.painter().layout(words, font, color, rect.width());
        galley.size().y <= rect.height()
    };
    let font = fonts
        .into_iter()
        .find(fits)
        .unwrap_or_else(|| theme::regular(size::TICK));
    let middle = egui::Layout::left_to_right(egui::Align::Center);
    ui.scope_builder(egui::UiBuilder::new().max_rect(rect).layout(middle), |ui| {
        ui.set_clip_rect(rect.intersect(ui.clip_rect()));
        let text = egui::RichText::new(words).font(font).color(color);
        ui.add(egui::Label::new(text).wrap());
    });
}

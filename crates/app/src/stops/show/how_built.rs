//! The layers come in one by one, as they will be built, with a sentence for each.

use egui::{Rect, Ui, pos2, vec2};
use underbrick_drawing::plain::proposed_up_to;

use super::told::Told;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;
use crate::widgets::key::Key;
use crate::widgets::show::drawn::Drawn;
use crate::widgets::show::prose;

/// How far it is built.
#[derive(Default)]
pub(super) struct Steps {
    drawn: Drawn,
    /// Which step is shown, from 0.
    at: usize,
}

const KEY_WIDTH: f32 = 132.0;

pub(super) fn page_ui(ui: &mut Ui, rect: Rect, view: &mut Steps, visit: &Visit, told: &Told) {
    let n_steps = told.steps.len();
    view.at = view.at.min(n_steps.saturating_sub(1));
    let words_room = rect.width() - 2.0 * (KEY_WIDTH + size::MARGIN) - 48.0;
    let tallest = told
        .steps
        .iter()
        .map(|step| {
            prose::height(ui, &step.title, true, size::TITLE, words_room)
                + prose::height(ui, &step.words, false, prose::BODY, words_room)
                + theme::sized(ui, size::LABEL)
                + 34.0
        })
        .fold(0.0, f32::max);
    let band_height =
        (tallest + 2.0 * size::MARGIN).clamp(size::KEY + 2.0 * size::MARGIN, 0.45 * rect.height());
    let band = Rect::from_min_max(pos2(rect.min.x, rect.max.y - band_height), rect.max);
    let room = Rect::from_min_max(rect.min, pos2(rect.max.x, band.min.y));
    let theme = theme::current(ui);
    let (site, catalogue, results) = (visit.site(), visit.catalogue(), visit.results());
    let n_done = if n_steps == 0 { 0 } else { view.at + 1 };
    view.drawn
        .show(ui, room, theme, (told.revision, 100 + n_done), |sheet| {
            proposed_up_to(site, catalogue, results, told.station, sheet, n_done)
        });
    ui.painter()
        .rect_filled(band, 0, theme::color(Ink::Panel, theme));
    let inner = band.shrink2(vec2(size::MARGIN, size::MARGIN));
    let key = |left: f32| {
        let height = inner.height().min(theme::tall(ui, 96.0));
        Rect::from_min_size(
            pos2(left, inner.center().y - height / 2.0),
            vec2(KEY_WIDTH, height),
        )
    };
    let (back, next) = (key(inner.min.x), key(inner.max.x - KEY_WIDTH));
    let quiet = |is_there: bool| if is_there { Ink::Ink } else { Ink::Hairline };
    let has_next = view.at + 1 < n_steps;
    if Key::new("back")
        .on(Ink::Key, quiet(view.at > 0))
        .show(ui, back)
        .clicked()
    {
        view.at = view.at.saturating_sub(1);
        ui.request_repaint();
    }
    if Key::new("next")
        .on(Ink::Key, quiet(has_next))
        .show(ui, next)
        .clicked()
        && has_next
    {
        view.at += 1;
        ui.request_repaint();
    }
    let words = Rect::from_min_max(
        pos2(back.max.x + 24.0, inner.min.y),
        pos2(next.min.x - 24.0, inner.max.y),
    );
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(words).id_salt("words"),
        |ui| {
            egui::ScrollArea::vertical()
                .id_salt(view.at)
                .auto_shrink(false)
                .show(ui, |ui| match told.steps.get(view.at) {
                    Some(step) => {
                        prose::aside(ui, &format!("Step {} of {n_steps}", view.at + 1));
                        prose::head(ui, &step.title);
                        prose::body(ui, &step.words);
                    }
                    None => prose::body(
                        ui,
                        "There are no steps to show yet: the walk is not measured far enough.",
                    ),
                })
        },
    );
}

//! Why the walk failed: one sentence, the reasons, and what lies under the brick, beside the walk as it is.

use egui::{Rect, Ui, vec2};
use underbrick_drawing::plain::as_found_section;

use super::told::Told;
use crate::theme;
use crate::visit::Visit;
use crate::widgets::show::drawn::Drawn;
use crate::widgets::show::prose;

/// State of the drawing.
#[derive(Default)]
pub(super) struct Why {
    drawn: Drawn,
}

pub(super) fn page_ui(ui: &mut Ui, rect: Rect, view: &mut Why, visit: &Visit, told: &Told) {
    let (words, picture) = if rect.width() > rect.height() {
        rect.split_left_right_at_fraction(0.54)
    } else {
        rect.split_top_bottom_at_fraction(0.62)
    };
    let theme = theme::current(ui);
    let (site, catalogue, results) = (visit.site(), visit.catalogue(), visit.results());
    view.drawn.show(
        ui,
        picture.shrink(8.0),
        theme,
        (told.revision, 2),
        |sheet| as_found_section(site, catalogue, results, told.station, sheet),
    );
    let inner = words.shrink2(vec2(24.0, 16.0));
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(inner).id_salt("words"),
        |ui| {
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    ui.spacing_mut().item_spacing.y = 10.0;
                    prose::lead(ui, &told.why.lead);
                    for (title, lines) in [
                        ("Also", &told.why.others),
                        ("Seen on the walk", &told.why.seen),
                        ("What lies under it", &told.why.under),
                    ] {
                        if lines.is_empty() {
                            continue;
                        }
                        prose::title(ui, title);
                        for line in lines {
                            prose::item(ui, &from_capital(line));
                        }
                    }
                    let n_pictures = site.show.pictures.len();
                    if n_pictures > 0 {
                        prose::title(ui, "Pictures");
                        for picture in &site.show.pictures {
                            let words = if picture.caption.trim().is_empty() {
                                &picture.file
                            } else {
                                &picture.caption
                            };
                            prose::item(ui, words);
                        }
                    }
                })
        },
    );
}

/// With a capital at its head, as a line that stands alone has.
fn from_capital(words: &str) -> String {
    let mut letters = words.chars();
    let first = letters.next().map(char::to_uppercase);
    first.into_iter().flatten().chain(letters).collect()
}

//! The walk as found and as it will be, at one scale. A tapped layer is told in plain words.

use egui::{Rect, Ui, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::plain::{PlainName, as_found_section, proposed_section};
use underbrick_drawing::text::Text;
use underbrick_sheets::agreement::capital;

use super::told::Told;
use crate::canvas::lettering;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;
use crate::widgets::show::drawn::Drawn;
use crate::widgets::show::prose;

/// State of the two drawings.
#[derive(Default)]
pub(super) struct Sections {
    found: Drawn,
    proposed: Drawn,
    /// What was tapped, and whether in the walk as it will be.
    tapped: Option<(Place, bool)>,
}

const NOTHING_TAPPED: &str = "Tap a layer: it is told in plain words here.";

pub(super) fn page_ui(ui: &mut Ui, rect: Rect, view: &mut Sections, visit: &Visit, told: &Told) {
    let room = rect.width() - 48.0;
    let names = told.found.iter().chain(&told.proposed);
    let tallest = names
        .map(|name| told_height(ui, name, room))
        .fold(0.0, f32::max);
    let band_height = (tallest + 2.0 * size::MARGIN).clamp(72.0, 0.4 * rect.height());
    let band = Rect::from_min_max(pos2(rect.min.x, rect.max.y - band_height), rect.max);
    let both = Rect::from_min_max(rect.min, pos2(rect.max.x, band.min.y));
    let (left, right) = if both.width() > both.height() {
        both.split_left_right_at_fraction(0.5)
    } else {
        both.split_top_bottom_at_fraction(0.5)
    };
    half_ui(ui, left, view, visit, told, false);
    half_ui(ui, right, view, visit, told, true);
    let theme = theme::current(ui);
    let line = egui::Stroke::new(1.0, theme::color(Ink::Hairline, theme));
    if both.width() > both.height() {
        ui.painter().vline(right.min.x, both.y_range(), line);
    } else {
        ui.painter().hline(both.x_range(), right.min.y, line);
    }
    band_ui(ui, band, view, told);
}

fn half_ui(
    ui: &Ui,
    rect: Rect,
    view: &mut Sections,
    visit: &Visit,
    told: &Told,
    is_proposed: bool,
) {
    let theme = theme::current(ui);
    let head_height = theme::sized(ui, size::TITLE) + 18.0;
    let (head, room) = rect.split_top_bottom_at_y(rect.min.y + head_height);
    let (site, catalogue, results) = (visit.site(), visit.catalogue(), visit.results());
    let (title, drawn) = if is_proposed {
        ("As it will be", &mut view.proposed)
    } else {
        ("As it is now", &mut view.found)
    };
    let made_from = (told.revision, usize::from(is_proposed));
    let response = drawn.show(ui, room, theme, made_from, |sheet| {
        if is_proposed {
            proposed_section(site, catalogue, results, told.station, sheet)
        } else {
            as_found_section(site, catalogue, results, told.station, sheet)
        }
    });
    let tapped = drawn.tapped(&response);
    lettering::paint(
        ui.painter(),
        pos2(head.min.x + 24.0, head.center().y + 4.0),
        Anchor::Left,
        &Text::bold(title),
        theme::sized(ui, size::TITLE),
        theme::color(Ink::Ink, theme),
    );
    if response.clicked() {
        let names = if is_proposed {
            &told.proposed
        } else {
            &told.found
        };
        view.tapped = tapped
            .filter(|place| names.iter().any(|name| name.place == *place))
            .map(|place| (place, is_proposed));
        ui.request_repaint();
    }
    if let Some((place, of_proposed)) = view.tapped
        && of_proposed == is_proposed
    {
        let drawn = if is_proposed {
            &view.proposed
        } else {
            &view.found
        };
        drawn.outline(ui, place);
    }
}

fn told_height(ui: &Ui, name: &PlainName, room: f32) -> f32 {
    let words = sentence(name);
    prose::height(ui, &name.title, true, size::TITLE, room)
        + prose::height(ui, &words, false, prose::BODY, room)
        + 14.0
}

/// How much of it there is, and why.
fn sentence(name: &PlainName) -> String {
    if name.note.is_empty() {
        return name.why.clone();
    }
    let note = capital(&name.note);
    if name.why.is_empty() {
        format!("{note}.")
    } else {
        format!("{note}. {}", name.why)
    }
}

fn band_ui(ui: &mut Ui, rect: Rect, view: &Sections, told: &Told) {
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(rect, 0, theme::color(Ink::Panel, theme));
    let name = view.tapped.and_then(|(place, is_proposed)| {
        let names = if is_proposed {
            &told.proposed
        } else {
            &told.found
        };
        names.iter().find(|name| name.place == place)
    });
    let inner = rect.shrink2(vec2(24.0, size::MARGIN));
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(inner).id_salt("band"),
        |ui| {
            egui::ScrollArea::vertical()
                .id_salt(view.tapped)
                .auto_shrink(false)
                .show(ui, |ui| match name {
                    Some(name) => {
                        prose::head(ui, &name.title);
                        prose::body(ui, &sentence(name));
                    }
                    None => prose::body(ui, NOTHING_TAPPED),
                })
        },
    );
}

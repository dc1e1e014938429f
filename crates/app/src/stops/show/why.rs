//! Why the walk failed: one sentence, the reasons, and what lies under the brick, beside the walk as it is, drawn and photographed.

use egui::{Rect, Role, Sense, Ui, WidgetInfo, vec2};
use underbrick_calc::site::PictureOf;
use underbrick_drawing::plain::as_found_section;
use underbrick_sheets::agreement::capital;

use super::told::Told;
use crate::album::Look;
use crate::stops::pictures::said;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;
use crate::widgets::pictures::{Fit, paint_picture, said_in};
use crate::widgets::show::drawn::Drawn;
use crate::widgets::show::prose;

/// State of the drawing, and of the pictures.
#[derive(Default)]
pub(super) struct Why {
    drawn: Drawn,
    /// Which of the pictures is looked at.
    nth: usize,
}

impl Why {
    /// The picture that is looked at, by its index.
    pub fn picture(&self, visit: &Visit) -> Option<usize> {
        let pictures = as_found(visit);
        pictures.get(self.nth).or(pictures.first()).copied()
    }
}

/// Pictures that show the walk as found, by their index.
fn as_found(visit: &Visit) -> Vec<usize> {
    let pictures = visit.site().show.pictures.iter().enumerate();
    pictures
        .filter(|(_, picture)| match picture.of {
            PictureOf::AsFound | PictureOf::Pit(_) | PictureOf::Sign(_) => true,
            PictureOf::Day(_) | PictureOf::HandedOver => false,
        })
        .map(|(picture_idx, _)| picture_idx)
        .collect()
}

pub(super) fn page_ui(ui: &mut Ui, rect: Rect, view: &mut Why, visit: &Visit, told: &Told) {
    let (words, picture) = if rect.width() > rect.height() {
        rect.split_left_right_at_fraction(0.54)
    } else {
        rect.split_top_bottom_at_fraction(0.62)
    };
    let theme = theme::current(ui);
    let picture = match view.picture(visit) {
        None => picture,
        Some(picture_idx) => {
            let (drawn, photograph) = if picture.width() > picture.height() {
                picture.split_left_right_at_fraction(0.62)
            } else {
                picture.split_top_bottom_at_fraction(0.5)
            };
            photograph_ui(ui, photograph.shrink(8.0), view, visit, picture_idx);
            drawn
        }
    };
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
                            prose::item(ui, &capital(line));
                        }
                    }
                })
        },
    );
}

/// One picture with its words; a tap goes on to the next.
fn photograph_ui(ui: &mut Ui, rect: Rect, view: &mut Why, visit: &Visit, picture_idx: usize) {
    let Some(picture) = visit.site().show.pictures.get(picture_idx) else {
        return;
    };
    let pictures = as_found(visit);
    let n_pictures = pictures.len();
    let nth = pictures.iter().position(|idx| *idx == picture_idx);
    let nth = nth.unwrap_or(0);
    let shows = match picture.caption.trim() {
        "" => capital(&said(visit, picture.of)),
        caption => caption.to_owned(),
    };
    let line = if n_pictures > 1 {
        format!("{} of {n_pictures}: {shows}", nth + 1)
    } else {
        shows
    };
    let sense = if n_pictures > 1 {
        Sense::click()
    } else {
        Sense::hover()
    };
    let response = ui.interact(rect, ui.scope_id().with("photograph"), sense);
    let (role, name) = if n_pictures > 1 {
        (Role::Button, format!("picture {line}, tap for the next"))
    } else {
        (Role::Image, format!("picture: {line}"))
    };
    response.widget_info(move || WidgetInfo::labeled(role, true, name.clone()));
    if response.clicked() {
        view.nth = (nth + 1) % n_pictures.max(1);
        ui.request_repaint();
    }
    let room = rect.width() - 16.0;
    let foot_height = prose::height(ui, &line, false, size::LABEL, room) + 12.0;
    let (body, foot) = rect.split_top_bottom_at_y(rect.max.y - foot_height);
    let painter = ui.painter().with_clip_rect(body.intersect(ui.clip_rect()));
    match visit.album().large(&picture.file) {
        Look::Here(number, pixels) => {
            paint_picture(ui, &painter, body, number, &pixels, Fit::Whole);
        }
        Look::Awaited => said_in(ui, body, "is fetched", Ink::SecondInk, size::LABEL),
        Look::Broken(_) => {
            let words = "This picture cannot be shown.";
            said_in(ui, body, words, Ink::SecondInk, size::LABEL);
        }
    }
    let inner = foot.shrink2(vec2(8.0, 6.0));
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(inner).id_salt("caption"),
        |ui| prose::aside(ui, &line),
    );
}

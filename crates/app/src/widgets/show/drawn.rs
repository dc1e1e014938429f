//! A drawing in a room, made when what it shows changes and kept until then.

use egui::{Rect, Response, Role, Sense, Shape, Stroke, Ui, WidgetInfo, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::{Drawing, Item, Sheet};
use underbrick_drawing::picked;

use crate::canvas;
use crate::canvas::lettering::narrowed;
use crate::theme::{self, Ink, Theme};

/// How near a finger must come to a mark, in points.
const REACH: f32 = 14.0;

/// Lettering of a drawing is never smaller than this: it is read by two, from further away.
const LEAST_SCALE: f64 = 1.15;

/// A kept drawing.
#[derive(Default)]
pub struct Drawn {
    kept: Option<Kept>,
}

struct Kept {
    key: Key,
    drawing: Drawing,
    shapes: Vec<Shape>,
}

#[derive(Clone, Copy, PartialEq)]
struct Key {
    made_from: MadeFrom,
    rect: Rect,
    theme: Theme,
    pixels_per_point: f32,
    text_size: u16,
}

/// What a drawing is made from: the revision of the site, and which of several it is.
pub type MadeFrom = (u64, usize);

impl Drawn {
    /// Shows a drawing in `rect`, made by `make` where it is another than before.
    pub fn show(
        &mut self,
        ui: &Ui,
        rect: Rect,
        theme: Theme,
        made_from: MadeFrom,
        make: impl FnOnce(Sheet) -> Drawing,
    ) -> Response {
        let key = Key {
            made_from,
            rect,
            theme,
            pixels_per_point: ui.pixels_per_point(),
            text_size: theme::text_size(ui),
        };
        let kept = match self.kept.take() {
            Some(kept) if kept.key == key => kept,
            _ => {
                let drawing = make(Sheet {
                    width: f64::from(rect.width()),
                    height: f64::from(rect.height()),
                    text_scale: f64::from(theme::text_scale(ui)).max(LEAST_SCALE),
                });
                let shapes = canvas::shapes(ui.painter(), &drawing, rect.min, theme);
                Kept {
                    key,
                    drawing,
                    shapes,
                }
            }
        };
        let kept = self.kept.insert(kept);
        let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
        painter.rect_filled(rect, 0, theme::color(Ink::Paper, theme));
        painter.extend(kept.shapes.iter().cloned());
        let id = ui.scope_id().with(("drawn", made_from.1));
        let response = ui.interact(rect.intersect(ui.clip_rect()), id, Sense::click());
        let words = kept.drawing.words.clone();
        response.widget_info(move || WidgetInfo::labeled(Role::Image, true, words.clone()));
        response
    }

    /// The thing that a tap was on.
    pub fn tapped(&self, response: &Response) -> Option<Place> {
        if !response.clicked() {
            return None;
        }
        let kept = self.kept.as_ref()?;
        let at = response.interact_pointer_pos()? - kept.key.rect.min;
        let (x, y) = (f64::from(at.x), f64::from(at.y));
        picked(&kept.drawing, x, y, f64::from(REACH))
    }

    /// Draws a line round every area of a thing.
    pub fn outline(&self, ui: &Ui, place: Place) {
        let Some(kept) = &self.kept else { return };
        let rect = kept.key.rect;
        let stroke = Stroke::new(3.5, theme::color(Ink::Line, kept.key.theme));
        let painter = ui.painter().with_clip_rect(rect);
        for item in &kept.drawing.items {
            let Item::Area {
                outline,
                place: Some(of),
                ..
            } = item
            else {
                continue;
            };
            if *of != place {
                continue;
            }
            let corners = outline.iter().map(|point| {
                let (x, y) = kept.drawing.sheet_from_drawing(*point);
                rect.min + vec2(narrowed(x), narrowed(y))
            });
            painter.add(Shape::closed_line(corners.collect(), stroke));
        }
    }
}

/// The same drawing, so many times as large: lines and lettering grow with it.
#[must_use]
pub fn scaled(drawing: &Drawing, by: f64) -> Drawing {
    let mut scaled = drawing.clone();
    scaled.dots_per_metre *= by;
    scaled.sheet.width *= by;
    scaled.sheet.height *= by;
    for item in &mut scaled.items {
        match item {
            Item::Area { pen, .. } => {
                if let Some(pen) = pen {
                    pen.width *= by;
                }
            }
            Item::Line { pen, .. } | Item::Hatch { pen, .. } => pen.width *= by,
            Item::Label { size, .. } => *size *= by,
        }
    }
    scaled
}

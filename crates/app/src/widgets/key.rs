//! A painted key: the one kind of button there is.

use egui::{Align2, FontId, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::canvas::lettering;
use crate::theme::{self, Ink, size};

/// What a key looks like.
#[derive(Clone, Debug)]
pub struct Key {
    name: String,
    face: Face,
    ground: Ink,
    ink: Ink,
    chosen: bool,
}

#[derive(Clone, Debug)]
enum Face {
    Words(Vec<String>),
    Figure(String),
}

impl Key {
    /// A key whose face is its name.
    #[must_use]
    pub fn new(name: impl Into<String>) -> Self {
        let name = name.into();
        Self {
            face: Face::Words(vec![name.clone()]),
            name,
            ground: Ink::Key,
            ink: Ink::Ink,
            chosen: false,
        }
    }

    /// A key with a figure or a fraction on it.
    #[must_use]
    pub fn figure(figure: impl Into<String>) -> Self {
        let figure = figure.into();
        Self {
            name: figure.clone(),
            face: Face::Figure(figure),
            ground: Ink::Key,
            ink: Ink::Ink,
            chosen: false,
        }
    }

    /// Two lines: a bigger and a smaller one.
    #[must_use]
    pub fn two_lines(upper: impl Into<String>, lower: impl Into<String>) -> Self {
        let (upper, lower) = (upper.into(), lower.into());
        Self {
            name: format!("{upper} {lower}"),
            face: Face::Words(vec![upper, lower]),
            ground: Ink::Key,
            ink: Ink::Ink,
            chosen: false,
        }
    }

    /// On another ground.
    #[must_use]
    pub const fn on(mut self, ground: Ink, ink: Ink) -> Self {
        self.ground = ground;
        self.ink = ink;
        self
    }

    /// Drawn as the chosen one of several.
    #[must_use]
    pub const fn chosen(mut self, chosen: bool) -> Self {
        self.chosen = chosen;
        self
    }

    /// Shows the key in a rectangle.
    pub fn show(self, ui: &mut Ui, rect: Rect) -> Response {
        let id = ui.scope_id().with(("key", self.name.as_str()));
        let response = ui.interact(rect, id, Sense::click());
        let (name, chosen) = (self.name.clone(), self.chosen);
        response
            .widget_info(move || WidgetInfo::selected(Role::Button, true, chosen, name.clone()));
        if !ui.is_rect_visible(rect) {
            return response;
        }
        let theme = theme::current(ui);
        let pressed = response.is_pointer_button_down_on();
        let (ground, ink, border) = if self.chosen {
            (
                Ink::LineGround,
                Ink::Line,
                Stroke::new(2.0, theme::color(Ink::Line, theme)),
            )
        } else {
            (
                self.ground,
                self.ink,
                Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
            )
        };
        let painter = ui.painter();
        let fill = if pressed {
            theme::color(Ink::LineGround, theme)
        } else {
            theme::color(ground, theme)
        };
        painter.rect(rect, size::CORNER, fill, border, StrokeKind::Inside);
        let color = theme::color(if pressed { Ink::Line } else { ink }, theme);
        match &self.face {
            Face::Figure(figure) => {
                lettering::paint(
                    painter,
                    rect.center(),
                    Anchor::Middle,
                    &Text::bold(figure),
                    if figure.contains('/') {
                        size::READING
                    } else {
                        size::VALUE
                    },
                    color,
                );
            }
            Face::Words(lines) => match lines.as_slice() {
                [upper, lower] => {
                    lettering::paint(
                        painter,
                        rect.center() - vec2(0.0, 11.0),
                        Anchor::Middle,
                        &Text::bold(upper),
                        size::LABEL,
                        color,
                    );
                    lettering::paint(
                        painter,
                        rect.center() + vec2(0.0, 12.0),
                        Anchor::Middle,
                        &Text::regular(lower),
                        size::NOTE,
                        color,
                    );
                }
                lines => {
                    let words = lines.join(" ");
                    let font = fitting(ui, &words, rect.width() - 12.0);
                    let galley = painter.layout(words, font, color, rect.width() - 12.0);
                    let corner = Align2::CENTER_CENTER
                        .align_size_within_rect(galley.size(), rect)
                        .min;
                    let centred = rect.center() - galley.size() / 2.0;
                    painter.galley(
                        egui::pos2(corner.x.max(rect.min.x + 6.0), centred.y),
                        galley,
                        color,
                    );
                }
            },
        }
        response
    }
}

/// Bold label type, or the note size where the longest word would not fit.
fn fitting(ui: &Ui, words: &str, width: f32) -> FontId {
    let label = theme::bold(size::LABEL);
    let widest = words
        .split_whitespace()
        .map(|word| {
            ui.painter()
                .layout_no_wrap(word.to_owned(), label.clone(), egui::Color32::WHITE)
                .size()
                .x
        })
        .fold(0.0, f32::max);
    if widest > width {
        theme::bold(size::TICK)
    } else {
        label
    }
}

/// Cuts `rect` into a row of `n` equal cells with gaps.
#[must_use]
pub fn cells(rect: Rect, n: usize) -> Vec<Rect> {
    let count = n.max(1) as f32;
    let width = (rect.width() - size::GAP * (count - 1.0)) / count;
    (0..n)
        .map(|idx| {
            let left = rect.min.x + idx as f32 * (width + size::GAP);
            Rect::from_min_size(egui::pos2(left, rect.min.y), vec2(width, rect.height()))
        })
        .collect()
}

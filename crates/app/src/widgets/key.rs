//! A painted key: the one kind of button there is.

use std::sync::Arc;

use egui::{
    Align2, Color32, Galley, Painter, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, Vec2,
    WidgetInfo, vec2,
};
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
    /// What tells it apart from another of the same name.
    of: Option<egui::Id>,
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
            of: None,
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
            of: None,
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
            of: None,
        }
    }

    /// With a longer name than stands on its face.
    #[must_use]
    pub fn named(mut self, name: impl Into<String>) -> Self {
        self.name = name.into();
        self
    }

    /// Told apart from others of the same name by what it belongs to.
    #[must_use]
    pub fn of(mut self, thing: impl std::hash::Hash + std::fmt::Debug) -> Self {
        self.of = Some(egui::Id::unique(("key of", thing)));
        self
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
        let id = ui.scope_id().with(("key", self.name.as_str(), self.of));
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
                let points = if figure.contains('/') {
                    size::READING
                } else {
                    size::VALUE
                };
                one_line(painter, rect, 0.0, &Text::bold(figure), points, color);
            }
            Face::Words(lines) => match lines.as_slice() {
                [upper, lower] => {
                    // Both lines stay within a low key.
                    let scale = theme::text_scale(ui);
                    let times = scale.min(rect.height() / 48.0) / scale;
                    let apart = scale.max(1.0) * times;
                    let (up, down) = (-11.0 * apart, 12.0 * apart);
                    let (upper, lower) = (Text::bold(upper), Text::regular(lower));
                    one_line(painter, rect, up, &upper, size::LABEL * times, color);
                    one_line(painter, rect, down, &lower, size::NOTE * times, color);
                }
                lines => {
                    let galley = fitting(painter, &lines.join(" "), rect.size(), color);
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

/// One line across the middle of a key, so far below it; made smaller where the key is too narrow.
fn one_line(painter: &Painter, rect: Rect, below: f32, text: &Text, points: f32, color: Color32) {
    let mut points = theme::sized(painter.ctx(), points);
    while lettering::width(text, points) > rect.width() - 6.0 && points > size::TICK {
        points -= 1.0;
    }
    let at = rect.center() + vec2(0.0, below);
    lettering::paint(painter, at, Anchor::Middle, text, points, color);
}

/// Bold words on as many lines as they need, made smaller where a word is wider than the key or the lines are taller.
fn fitting(painter: &Painter, words: &str, key: Vec2, color: Color32) -> Arc<Galley> {
    let room = key.x - 12.0;
    let mut points = theme::sized(painter.ctx(), size::LABEL);
    loop {
        let font = theme::bold(points);
        let widest = words
            .split_whitespace()
            .map(|word| lettering::width(&Text::bold(word), points))
            .fold(0.0, f32::max);
        let galley = painter.layout(words.to_owned(), font, color, room);
        if (widest <= room && galley.size().y <= key.y - 4.0) || points <= size::TICK {
            return galley;
        }
        points -= 1.0;
    }
}

/// Three keys in a row: to what is before, away, to what is behind. A way that leads nowhere is quiet. Gives where a tap leads: `None`
/// within is away.
pub fn ways_ui<T: Copy>(
    ui: &mut Ui,
    rect: Rect,
    [away, next]: [&str; 2],
    [before, behind]: [Option<T>; 2],
) -> Option<Option<T>> {
    let mut asked = None;
    let keys = [
        ("back", before, Ink::Key, Ink::Line),
        (away, None, Ink::Key, Ink::Ink),
        (next, behind, Ink::Line, Ink::Paper),
    ];
    for ((words, to, ground, letters), cell) in keys.into_iter().zip(cells(rect, 3)) {
        let is_way = words != away;
        let (ground, letters) = if is_way && to.is_none() {
            (Ink::Panel, Ink::Hairline)
        } else {
            (ground, letters)
        };
        let key = Key::new(words).on(ground, letters);
        if key.show(ui, cell).clicked() && (!is_way || to.is_some()) {
            asked = Some(to);
        }
    }
    asked
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

//! Words in a room: on one line in our own lettering, or broken into as many as they need.

use std::sync::Arc;

use egui::text::LayoutJob;
use egui::{Align, Color32, FontId, Galley, Painter, Pos2, Ui, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::rows::elided;
use crate::canvas::lettering;
use crate::theme;

/// Most lines that words are broken into.
const MOST_LINES: usize = 8;

/// Words set in type.
#[derive(Clone, Debug)]
pub(super) struct Words {
    set: Set,
    anchor: Anchor,
}

#[derive(Clone, Debug)]
enum Set {
    Line(Text, f32),
    Broken(Arc<Galley>),
}

/// How words are to be set: whether bold, and in which points of the design.
#[derive(Clone, Copy, Debug)]
pub(super) struct Face {
    pub bold: bool,
    pub points: f32,
}

impl Words {
    /// Cut where they are too long for one line, as the design has it; with larger type they are broken instead, so that what is read
    /// at its size is read at every size.
    pub fn of(ui: &Ui, words: &str, face: Face, room: f32) -> Self {
        if theme::text_size(ui) > 100 {
            return Self::broken(ui, words, face, room, Anchor::Left);
        }
        let points = theme::sized(ui, face.points);
        let cut = elided(words, face.bold, points, room);
        Self {
            set: Set::Line(face.text(&cut), points),
            anchor: Anchor::Left,
        }
    }

    /// Broken where they are too long for one line.
    pub fn broken(ui: &Ui, words: &str, face: Face, room: f32, anchor: Anchor) -> Self {
        let points = theme::sized(ui, face.points);
        let text = face.text(words);
        if lettering::width(&text, points) <= room {
            return Self {
                set: Set::Line(text, points),
                anchor,
            };
        }
        let mut job = LayoutJob::simple(
            lettering::in_line(words),
            face.font(points),
            Color32::PLACEHOLDER,
            room.max(points),
        );
        job.wrap.max_rows = MOST_LINES;
        if anchor == Anchor::Right {
            job.halign = Align::RIGHT;
        }
        Self {
            set: Set::Broken(ui.painter().layout_job(job)),
            anchor,
        }
    }

    /// Width of the widest line.
    pub fn width(&self) -> f32 {
        match &self.set {
            Set::Line(text, points) => lettering::width(text, *points),
            Set::Broken(galley) => galley.size().x,
        }
    }

    /// How much taller than one line.
    pub fn more(&self) -> f32 {
        match &self.set {
            Set::Line(..) => 0.0,
            Set::Broken(galley) => (galley.size().y - first_line(galley)).max(0.0),
        }
    }

    /// The middle of the first line stands at `at`, its left or right end there.
    pub fn paint(&self, painter: &Painter, at: Pos2, color: Color32) {
        match &self.set {
            Set::Line(text, points) => {
                lettering::paint(painter, at, self.anchor, text, *points, color);
            }
            // A galley that is set to the right has its right end at its position.
            Set::Broken(galley) => painter.galley_with_override_text_color(
                at - vec2(0.0, first_line(galley) / 2.0),
                Arc::clone(galley),
                color,
            ),
        }
    }
}

impl Face {
    pub const fn bold(points: f32) -> Self {
        Self { bold: true, points }
    }

    pub const fn regular(points: f32) -> Self {
        Self {
            bold: false,
            points,
        }
    }

    fn text(self, words: &str) -> Text {
        if self.bold {
            Text::bold(words)
        } else {
            Text::regular(words)
        }
    }

    fn font(self, points: f32) -> FontId {
        if self.bold {
            theme::bold(points)
        } else {
            theme::regular(points)
        }
    }
}

fn first_line(galley: &Galley) -> f32 {
    galley.rows.first().map_or(0.0, |row| row.height())
}

//! The gauge rod, its upper end held to the string, with a line across it for each surface.

use egui::{Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use super::{RodMark, Scale};
use crate::theme::{self, Ink, size};
use crate::widgets::words::{Face, Words};

/// A lath: common practice, no source.
pub(super) const WIDTH_MM: f32 = 30.0;

/// What is left of the rod below its last mark.
pub(super) const BELOW_MM: f32 = 6.0;

/// From the rod to the words of its marks.
const APART: f32 = 46.0;

/// From the words of one mark to those of the next.
const LINE: f32 = 26.0;

pub(super) fn rod_ui(ui: &mut Ui, room: Rect, marks: &[RodMark], scale: Scale) {
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let on_screen = |millimetres: f32| millimetres * scale.points_per_mm;
    let longest = marks.last().map_or(0.0, |mark| mark.below_string_mm);
    // Wide enough to be seen at any scale.
    let width = on_screen(WIDTH_MM).clamp(24.0, room.width() * 0.4);
    let top = pos2(room.min.x + 6.0, room.min.y);
    let rod = Rect::from_min_size(top, vec2(width, on_screen(longest + BELOW_MM)));
    let response = ui.interact(rod, ui.scope_id().with("gauge rod"), Sense::hover());
    let said: Vec<&str> = marks.iter().map(|mark| mark.words.as_str()).collect();
    let said = format!("rod from the string down: {}", said.join("; "));
    response.widget_info(move || WidgetInfo::labeled(Role::Image, true, said.clone()));
    let painter = ui.painter();
    painter.rect(
        rod,
        0,
        ink(Ink::Timber),
        Stroke::new(1.5, ink(Ink::Ink)),
        StrokeKind::Inside,
    );
    let string = Stroke::new(2.5, ink(Ink::Line));
    painter.hline(room.min.x..=rod.max.x + APART - 6.0, rod.min.y, string);
    let left = rod.max.x + APART;
    let words_room = room.max.x - left;
    let face = Face::bold(size::LABEL);
    let line = theme::tall(ui, LINE);
    let mut lines: Vec<(f32, Words, Ink)> = Vec::new();
    let held = Words::broken(ui, "the string", face, words_room, Anchor::Left);
    lines.push((rod.min.y + 8.0, held, Ink::Line));
    for mark in marks {
        let at = rod.min.y + on_screen(mark.below_string_mm);
        painter.hline(rod.x_range(), at, Stroke::new(2.0, ink(Ink::Ink)));
        let words = Words::broken(ui, &mark.words, face, words_room, Anchor::Left);
        let after = lines
            .last()
            .map_or(at, |(before, words, _)| before + words.more() + line);
        lines.push((at.max(after), words, Ink::Ink));
    }
    // Pushed up where the last ones would leave the room.
    let mut lowest = room.max.y - 10.0;
    for (at, words, _) in lines.iter_mut().rev() {
        *at = at.min(lowest - words.more());
        lowest = *at - line;
    }
    for (mark, (at, _, _)) in marks.iter().zip(lines.iter().skip(1)) {
        let from = pos2(rod.max.x, rod.min.y + on_screen(mark.below_string_mm));
        let leader = Stroke::new(1.0, ink(Ink::SecondInk));
        painter.line_segment([from, pos2(left - 6.0, *at)], leader);
    }
    for (at, words, words_ink) in lines {
        words.paint(painter, pos2(left, at), ink(words_ink));
    }
}

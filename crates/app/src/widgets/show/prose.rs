//! Large words, one under the other, broken where the room ends.

use std::sync::Arc;

use egui::text::{LayoutJob, TextFormat};
use egui::{FontId, Galley, Role, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use underbrick_sheets::agreement::{WordRun, WordRunKind};

use crate::canvas::lettering::in_line;
use crate::theme::{self, Ink, size};

/// Type of a longer text, in points of the design.
pub const BODY: f32 = size::LABEL + 2.0;

/// From the dot of a list to its words.
const INDENT: f32 = 26.0;

/// The one sentence that matters.
pub fn lead(ui: &mut Ui, words: &str) {
    set(ui, words, bold(ui, size::VALUE), Ink::Ink, 0.0);
}

/// What stands over other words.
pub fn title(ui: &mut Ui, words: &str) {
    ui.add_space(8.0);
    set(ui, words, bold(ui, size::TITLE), Ink::Ink, 0.0);
}

/// As [`title`], with nothing over it.
pub fn head(ui: &mut Ui, words: &str) {
    set(ui, words, bold(ui, size::TITLE), Ink::Ink, 0.0);
}

/// A sentence.
pub fn sentence(ui: &mut Ui, words: &str) {
    set(ui, words, regular(ui, size::TITLE), Ink::Ink, 0.0);
}

/// A longer text.
pub fn body(ui: &mut Ui, words: &str) {
    set(ui, words, regular(ui, BODY), Ink::Ink, 0.0);
}

/// A sentence that matters less.
pub fn aside(ui: &mut Ui, words: &str) {
    set(ui, words, regular(ui, size::LABEL), Ink::SecondInk, 0.0);
}

/// A sentence in another colour.
pub fn said(ui: &mut Ui, words: &str, ink: Ink) {
    set(ui, words, bold(ui, size::TITLE), ink, 0.0);
}

/// A line of a list.
pub fn item(ui: &mut Ui, words: &str) {
    listed(ui, words, regular(ui, size::TITLE));
}

/// A smaller line of a list.
pub fn point(ui: &mut Ui, words: &str) {
    listed(ui, words, regular(ui, BODY));
}

fn listed(ui: &mut Ui, words: &str, font: FontId) {
    let line = font.size;
    let top = set(ui, words, font, Ink::Ink, INDENT);
    let theme = theme::current(ui);
    ui.painter().circle_filled(
        pos2(top.x + 9.0, top.y + 0.62 * line),
        0.16 * line,
        theme::color(Ink::Line, theme),
    );
}

/// Two texts in one: what has gone is struck out, what was added is underlined; both in words for a screen reader.
pub fn changed(ui: &mut Ui, runs: &[WordRun]) {
    let theme = theme::current(ui);
    let mut job = LayoutJob::default();
    job.wrap.max_width = ui.available_width();
    let mut told = String::new();
    for run in runs {
        let (font, ink, mark) = match run.kind {
            WordRunKind::Same => (regular(ui, size::TITLE), Ink::Ink, ""),
            WordRunKind::Gone => (regular(ui, size::TITLE), Ink::Wrong, "no longer: "),
            WordRunKind::Added => (bold(ui, size::TITLE), Ink::Right, "now: "),
        };
        let color = theme::color(ink, theme);
        let line = Stroke::new(2.0, color);
        let mut format = TextFormat::simple(font, color);
        match run.kind {
            WordRunKind::Same => {}
            WordRunKind::Gone => format.strikethrough = line,
            WordRunKind::Added => format.underline = line,
        }
        let space = if told.is_empty() { 0.0 } else { 6.0 };
        job.append(&in_line(&run.words), space, format);
        if !told.is_empty() {
            told.push(' ');
        }
        told += mark;
        told += &run.words;
    }
    let galley = ui.painter().layout_job(job);
    put(ui, galley, &told, Ink::Ink, 0.0);
}

/// Height that words take in a room.
#[must_use]
pub fn height(ui: &Ui, words: &str, is_bold: bool, points: f32, room: f32) -> f32 {
    if words.is_empty() {
        return 0.0;
    }
    let font = if is_bold {
        bold(ui, points)
    } else {
        regular(ui, points)
    };
    let color = theme::color(Ink::Ink, theme::current(ui));
    let galley = ui.painter().layout(in_line(words), font, color, room);
    galley.size().y
}

fn bold(ui: &Ui, points: f32) -> FontId {
    theme::bold(theme::sized(ui, points))
}

fn regular(ui: &Ui, points: f32) -> FontId {
    theme::regular(theme::sized(ui, points))
}

/// Sets words; gives the upper left corner.
fn set(ui: &mut Ui, words: &str, font: FontId, ink: Ink, indent: f32) -> egui::Pos2 {
    let color = theme::color(ink, theme::current(ui));
    let room = (ui.available_width() - indent).max(font.size);
    let galley = ui.painter().layout(in_line(words), font, color, room);
    put(ui, galley, words, ink, indent)
}

fn put(ui: &mut Ui, galley: Arc<Galley>, words: &str, ink: Ink, indent: f32) -> egui::Pos2 {
    let room = vec2(ui.available_width(), galley.size().y);
    let (rect, response) = ui.allocate_exact_size(room, Sense::hover());
    let name = words.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let color = theme::color(ink, theme::current(ui));
    ui.painter()
        .galley(rect.min + vec2(indent, 0.0), galley, color);
    rect.min
}

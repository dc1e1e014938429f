//! One day on site: what is done, and what must be there in the morning.

use egui::{Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use crate::canvas::lettering;
use crate::theme::{self, Ink, size};
use crate::widgets::words::{Face, Words};

/// One day on site.
#[derive(Clone, Debug)]
pub struct DayRow {
    /// Counted from 1.
    pub number: usize,
    /// What is done, with the hours of the whole crew.
    pub stages: Vec<(String, String)>,
    /// What must be there in the morning, and what else is to be known.
    pub notes: Vec<String>,
}

/// Left edge of the words, behind the day's number.
const INDENT: f32 = 48.0;

/// Shows a day.
pub(super) fn day_ui(ui: &mut Ui, day: &DayRow) {
    let line = theme::tall(ui, 25.0);
    let room = ui.available_width() - INDENT - 12.0;
    let stages: Vec<(Words, Words)> = day
        .stages
        .iter()
        .map(|(stage, hours)| {
            let hours = Words::broken(ui, hours, Face::bold(size::LABEL), room, Anchor::Right);
            let face = Face::regular(size::LABEL);
            let stage_room = room - hours.width() - 12.0;
            let stage = Words::broken(ui, stage, face, stage_room, Anchor::Left);
            (stage, hours)
        })
        .collect();
    let notes: Vec<Words> = day
        .notes
        .iter()
        .map(|note| Words::broken(ui, note, Face::regular(size::NOTE), room, Anchor::Left))
        .collect();
    let height = stages
        .iter()
        .map(|(stage, _)| line + stage.more())
        .chain(notes.iter().map(|note| line + note.more()))
        .sum::<f32>()
        + 16.0;
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), height.max(theme::tall(ui, 48.0))),
        Sense::hover(),
    );
    let name = std::iter::once(format!("Day {}", day.number))
        .chain(
            day.stages
                .iter()
                .map(|(stage, hours)| format!("{stage} {hours}")),
        )
        .chain(day.notes.iter().cloned())
        .collect::<Vec<_>>()
        .join(", ");
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    if !ui.is_rect_visible(rect) {
        return;
    }
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let painter = ui.painter();
    painter.rect(
        rect,
        size::CORNER,
        ink(Ink::Panel),
        Stroke::new(1.0, ink(Ink::Hairline)),
        StrokeKind::Inside,
    );
    let mut middle = rect.min.y + 8.0 + line / 2.0;
    let number = Text::bold(day.number.to_string());
    let at = pos2(rect.min.x + INDENT / 2.0, middle);
    let points = theme::sized(ui, size::TITLE);
    lettering::paint(painter, at, Anchor::Middle, &number, points, ink(Ink::Line));
    let (left, right) = (rect.min.x + INDENT, rect.max.x - 12.0);
    for (stage, hours) in &stages {
        stage.paint(painter, pos2(left, middle), ink(Ink::Ink));
        hours.paint(painter, pos2(right, middle), ink(Ink::Ink));
        middle += line + stage.more();
    }
    for note in &notes {
        note.paint(painter, pos2(left, middle), ink(Ink::SecondInk));
        middle += line + note.more();
    }
}

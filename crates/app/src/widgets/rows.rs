//! Rows of entries: a big label, a bigger value, and one line that says how it was got or what is wrong with it.

use egui::{Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::findings::{Finding, Weight};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::book::{BookPart, book_ui};
use super::cause_row::{CauseRow, cause_ui};
use super::key::{Key, cells};
use super::mark::Mark;
use super::offer_card::{OfferCard, offer_ui};
use crate::canvas::lettering;
use crate::edit::Edit;
use crate::theme::{self, Ink, size};

/// One row of a stop.
#[derive(Clone, Debug)]
pub enum Row {
    /// A title over the rows that follow, with a note at its right.
    Heading {
        /// The title.
        title: String,
        /// The note.
        note: String,
    },
    /// A value that can be set.
    Value(ValueRow),
    /// A thing whose rows are shown or folded away.
    Fold {
        /// Its name.
        name: String,
        /// What is known of it.
        note: String,
        /// Whether its rows follow.
        is_open: bool,
        /// What it is.
        thing: Place,
    },
    /// One of a few.
    Choice {
        /// What is chosen.
        label: String,
        /// Word, what it asks for, whether it is the chosen one.
        options: Vec<(String, Edit, bool)>,
    },
    /// Wide keys that add or take away.
    Acts(Vec<(String, Edit)>),
    /// A figure that follows from the others.
    Figure {
        /// What it is.
        label: String,
        /// How much, with its unit.
        value: String,
        /// How it is got.
        note: String,
    },
    /// A part of the level book.
    Book(BookPart),
    /// A check or a finding, in words.
    Said {
        /// Its state.
        mark: Mark,
        /// What was found.
        text: String,
        /// Remedy and rule.
        under: String,
    },
    /// A cause with the readings that it stands on.
    Cause(CauseRow),
    /// A card that is taken with one tap.
    Offer(OfferCard),
}

/// A value that can be set.
#[derive(Clone, Debug)]
pub struct ValueRow {
    /// Where it stands in the record.
    pub place: Place,
    /// What the left part opens, where that is something else: the material of a layer.
    pub left_place: Option<Place>,
    /// Its name.
    pub label: String,
    /// The value as it is shown; empty when nothing was written down.
    pub value: String,
    /// Its state.
    pub state: ValueState,
    /// One line under the name.
    pub note: String,
}

/// The state of a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValueState {
    /// Written down and taken.
    Known,
    /// Written down, and a check says that it is right.
    Right,
    /// Nothing written down; a default is taken.
    Default,
    /// Nothing written down.
    Missing,
    /// Something is wrong with it.
    Wrong,
}

impl Row {
    /// The row that says a finding.
    #[must_use]
    pub fn said(finding: &Finding) -> Self {
        let under = [finding.remedy.as_str(), finding.source.words()]
            .iter()
            .filter(|part| !part.is_empty())
            .copied()
            .collect::<Vec<_>>()
            .join(" · ");
        Self::Said {
            mark: Mark::of(finding.weight),
            text: finding.text.clone(),
            under,
        }
    }
}

impl ValueState {
    const fn ink(self) -> Ink {
        match self {
            Self::Known => Ink::Ink,
            Self::Right => Ink::Right,
            Self::Default => Ink::SecondInk,
            Self::Missing => Ink::NotKnown,
            Self::Wrong => Ink::Wrong,
        }
    }
}

/// What a person did among the rows.
#[derive(Clone, Debug, Default)]
pub struct RowsAnswer {
    /// A value was tapped.
    pub tapped: Option<Place>,
    /// A reading behind a finding was tapped: go to where it is written down.
    pub jump: Option<Place>,
    /// What was asked for.
    pub edits: Vec<Edit>,
}

/// Shows rows from top to bottom. The one at `set` is drawn as being set, and scrolled to when `scroll` says so.
pub fn rows_ui(ui: &mut Ui, rows: &[Row], set: Option<Place>, scroll: bool) -> RowsAnswer {
    let mut answer = RowsAnswer::default();
    for (nth, row) in rows.iter().enumerate() {
        match row {
            Row::Heading { title, note } => heading(ui, title, note),
            Row::Value(row) => value(ui, row, set, scroll, &mut answer),
            Row::Fold {
                name,
                note,
                is_open,
                thing,
            } => {
                if fold(ui, name, note, *is_open) {
                    answer.tapped = Some(*thing);
                }
            }
            Row::Choice { label, options } => choice(ui, label, options, &mut answer),
            Row::Acts(acts) => keys(ui, acts, &mut answer),
            Row::Figure { label, value, note } => figure(ui, label, value, note),
            Row::Book(part) => book_ui(ui, part, set, scroll, &mut answer),
            Row::Said { mark, text, under } => said(ui, *mark, text, under),
            Row::Cause(row) => answer.jump = cause_ui(ui, nth, row).or(answer.jump),
            Row::Offer(card) => {
                if offer_ui(ui, nth, card) {
                    answer.edits.push(card.edit.clone());
                }
            }
        }
    }
    answer
}

fn heading(ui: &mut Ui, title: &str, note: &str) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 40.0), Sense::hover());
    let words = title.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Heading, true, words.clone()));
    let theme = theme::current(ui);
    lettering::paint(
        ui.painter(),
        pos2(rect.min.x + 4.0, rect.max.y - 16.0),
        Anchor::Left,
        &Text::bold(title),
        size::LABEL,
        theme::color(Ink::Ink, theme),
    );
    lettering::paint(
        ui.painter(),
        pos2(rect.max.x - 4.0, rect.max.y - 16.0),
        Anchor::Right,
        &Text::regular(note),
        size::NOTE,
        theme::color(Ink::SecondInk, theme),
    );
}

fn fold(ui: &mut Ui, name: &str, note: &str, is_open: bool) -> bool {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), size::KEY), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("fold", name)), Sense::click());
    let words = name.to_owned();
    response.widget_info(move || WidgetInfo::selected(Role::Button, true, is_open, words.clone()));
    let theme = theme::current(ui);
    let painter = ui.painter();
    let ink = theme::color(Ink::Ink, theme);
    painter.rect(
        rect,
        size::CORNER,
        theme::color(Ink::Pad, theme),
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        StrokeKind::Inside,
    );
    let hub = pos2(rect.min.x + 20.0, rect.center().y);
    let arrow = if is_open {
        [vec2(-6.0, -4.0), vec2(6.0, -4.0), vec2(0.0, 6.0)]
    } else {
        [vec2(-4.0, -6.0), vec2(6.0, 0.0), vec2(-4.0, 6.0)]
    };
    painter.add(egui::Shape::convex_polygon(
        arrow.map(|corner| hub + corner).to_vec(),
        ink,
        Stroke::NONE,
    ));
    lettering::paint(
        painter,
        pos2(rect.min.x + 38.0, rect.center().y),
        Anchor::Left,
        &Text::bold(name),
        size::LABEL,
        ink,
    );
    lettering::paint(
        painter,
        pos2(rect.max.x - 14.0, rect.center().y),
        Anchor::Right,
        &Text::regular(note),
        size::NOTE,
        theme::color(Ink::SecondInk, theme),
    );
    response.clicked()
}

fn value(ui: &mut Ui, row: &ValueRow, set: Option<Place>, scroll: bool, answer: &mut RowsAnswer) {
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), size::ROW), Sense::hover());
    let is_set = set == Some(row.place);
    let left_is_set = set.is_some() && set == row.left_place;
    if scroll && (is_set || left_is_set) {
        response.scroll_to_me(None);
    }
    let split = rect.min.x + rect.width() * 0.55;
    let right_rect = if row.left_place.is_some() {
        Rect::from_min_max(pos2(split, rect.min.y), rect.max)
    } else {
        rect
    };
    let tapped = touch(ui, right_rect, row, row.place);
    if tapped.clicked() {
        answer.tapped = Some(row.place);
    }
    if let Some(place) = row.left_place {
        let left_rect = Rect::from_min_max(rect.min, pos2(split, rect.max.y));
        let id = ui.scope_id().with(("row left", place));
        let left = ui.interact(left_rect, id, Sense::click());
        let name = format!("{}, what it is", row.label);
        left.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
        if left.clicked() {
            answer.tapped = Some(place);
        }
    }
    if ui.is_rect_visible(rect) {
        paint_value(ui, rect, row, is_set, left_is_set, split);
    }
}

fn touch(ui: &mut Ui, rect: Rect, row: &ValueRow, place: Place) -> Response {
    let id = ui.scope_id().with(("row", place));
    let response = ui.interact(rect, id, Sense::click());
    let name = row.label.clone();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    response
}

fn paint_value(ui: &Ui, rect: Rect, row: &ValueRow, is_set: bool, left_is_set: bool, split: f32) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let any_set = is_set || left_is_set;
    let (ground, border) = if any_set {
        (
            Ink::LineGround,
            Stroke::new(2.5, theme::color(Ink::Line, theme)),
        )
    } else {
        (
            Ink::Key,
            Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        )
    };
    painter.rect(
        rect,
        size::CORNER,
        theme::color(ground, theme),
        border,
        StrokeKind::Inside,
    );
    if row.left_place.is_some() {
        painter.line_segment(
            [
                pos2(split, rect.min.y + 10.0),
                pos2(split, rect.max.y - 10.0),
            ],
            Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        );
    }
    let shown = if row.value.is_empty() {
        if row.state == ValueState::Default {
            "—".to_owned()
        } else {
            "not measured".to_owned()
        }
    } else {
        row.value.clone()
    };
    let ink = if is_set { Ink::Line } else { row.state.ink() };
    let room = rect.width() * 0.56;
    let mut value_size = if row.value.is_empty() {
        size::LABEL
    } else {
        size::VALUE
    };
    let text = Text::bold(&shown);
    while lettering::width(&text, value_size) > room && value_size > size::NOTE {
        value_size -= 1.0;
    }
    let value_width = lettering::width(&text, value_size).min(room);
    let shown = elided(&shown, true, value_size, room);
    let middle_right = pos2(rect.max.x - 14.0, rect.center().y);
    lettering::paint(
        painter,
        middle_right,
        Anchor::Right,
        &Text::bold(shown),
        value_size,
        theme::color(ink, theme),
    );
    if row.value.is_empty() && row.state == ValueState::Missing {
        let y = rect.center().y + 15.0;
        let line = [
            pos2(middle_right.x - value_width, y),
            pos2(middle_right.x, y),
        ];
        painter.extend(egui::Shape::dashed_line(
            &line,
            Stroke::new(1.5, theme::color(Ink::NotKnown, theme)),
            6.0,
            4.0,
        ));
    }
    let label_room = rect.width() - value_width - 40.0;
    let label = elided(&row.label, false, size::LABEL, label_room);
    let label_y = if row.note.is_empty() {
        rect.center().y
    } else {
        rect.min.y + 23.0
    };
    lettering::paint(
        painter,
        pos2(rect.min.x + 14.0, label_y),
        Anchor::Left,
        &Text::regular(label),
        size::LABEL,
        theme::color(Ink::Ink, theme),
    );
    if !row.note.is_empty() {
        let (note_ink, mark) = match row.state {
            ValueState::Wrong => (Ink::Wrong, Some(Mark::Wrong)),
            ValueState::Missing => (Ink::NotKnown, Some(Mark::NotKnown)),
            ValueState::Right => (Ink::Right, Some(Mark::Right)),
            ValueState::Known | ValueState::Default => (Ink::SecondInk, None),
        };
        let note_y = rect.min.y + 49.0;
        let mut left = rect.min.x + 14.0;
        if let Some(mark) = mark {
            mark.paint(painter, pos2(left + 7.0, note_y), 13.0, theme);
            left += 20.0;
        }
        let room = rect.width() - value_width - 40.0 - (left - rect.min.x - 14.0);
        let note = elided(&row.note, false, size::NOTE, room);
        lettering::paint(
            painter,
            pos2(left, note_y),
            Anchor::Left,
            &Text::regular(note),
            size::NOTE,
            theme::color(note_ink, theme),
        );
    }
}

/// The text, cut with an ellipsis where it is wider than `room`.
#[must_use]
pub fn elided(text: &str, bold: bool, points: f32, room: f32) -> String {
    let wide = |text: &str| {
        lettering::width(
            &if bold {
                Text::bold(text)
            } else {
                Text::regular(text)
            },
            points,
        )
    };
    if wide(text) <= room {
        return text.to_owned();
    }
    let mut kept: Vec<char> = text.chars().collect();
    while kept.pop().is_some() {
        let cut: String = kept.iter().collect::<String>().trim_end().to_owned() + "…";
        if wide(&cut) <= room {
            return cut;
        }
    }
    String::new()
}

/// Six words of which one is longer stand in twos.
const LONG_WORD: usize = 12;

fn choice(ui: &mut Ui, label: &str, options: &[(String, Edit, bool)], answer: &mut RowsAnswer) {
    let theme = theme::current(ui);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), 26.0), Sense::hover());
    lettering::paint(
        ui.painter(),
        pos2(rect.min.x + 4.0, rect.center().y + 2.0),
        Anchor::Left,
        &Text::regular(label),
        size::NOTE,
        theme::color(Ink::SecondInk, theme),
    );
    let is_long = options
        .iter()
        .any(|(word, _, _)| word.chars().count() > LONG_WORD);
    let in_twos = options.len() == 4 || (options.len() == 6 && is_long);
    for chunk in options.chunks(if in_twos { 2 } else { 3 }) {
        let (rect, _) =
            ui.allocate_exact_size(vec2(ui.available_width(), size::KEY), Sense::hover());
        for ((word, edit, chosen), cell) in chunk.iter().zip(cells(rect, chunk.len())) {
            let response = ui
                .push_id(label, |ui| {
                    Key::new(word.as_str()).chosen(*chosen).show(ui, cell)
                })
                .inner;
            if response.clicked() && !chosen {
                answer.edits.push(edit.clone());
            }
        }
    }
}

fn keys(ui: &mut Ui, acts: &[(String, Edit)], answer: &mut RowsAnswer) {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), size::KEY), Sense::hover());
    for ((word, edit), cell) in acts.iter().zip(cells(rect, acts.len())) {
        if Key::new(word.as_str())
            .on(Ink::Panel, Ink::Line)
            .show(ui, cell)
            .clicked()
        {
            answer.edits.push(edit.clone());
        }
    }
}

fn figure(ui: &mut Ui, label: &str, value: &str, note: &str) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 52.0), Sense::hover());
    let name = format!("{label} {value}");
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let theme = theme::current(ui);
    let painter = ui.painter();
    let text = Text::bold(value);
    let width = lettering::width(&text, size::LABEL);
    lettering::paint(
        painter,
        pos2(rect.max.x - 14.0, rect.center().y),
        Anchor::Right,
        &text,
        size::LABEL,
        theme::color(Ink::Ink, theme),
    );
    let room = rect.width() - width - 32.0;
    lettering::paint(
        painter,
        pos2(rect.min.x + 14.0, rect.min.y + 17.0),
        Anchor::Left,
        &Text::regular(elided(label, false, size::LABEL, room)),
        size::LABEL,
        theme::color(Ink::Ink, theme),
    );
    lettering::paint(
        painter,
        pos2(rect.min.x + 14.0, rect.min.y + 38.0),
        Anchor::Left,
        &Text::regular(elided(note, false, size::NOTE, room)),
        size::NOTE,
        theme::color(Ink::SecondInk, theme),
    );
    painter.line_segment(
        [rect.left_bottom(), rect.right_bottom()],
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
    );
}

fn said(ui: &mut Ui, mark: Mark, text: &str, under: &str) {
    let theme = theme::current(ui);
    let room = ui.available_width() - 44.0;
    let upper = ui.painter().layout(
        lettering::in_line(text),
        theme::regular(size::NOTE + 1.0),
        mark.color(theme),
        room,
    );
    let lower = ui.painter().layout(
        lettering::in_line(under),
        theme::regular(size::NOTE),
        theme::color(Ink::SecondInk, theme),
        room,
    );
    let height = upper.size().y
        + if under.is_empty() {
            0.0
        } else {
            lower.size().y + 2.0
        }
        + 14.0;
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let name = text.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    mark.paint(
        ui.painter(),
        pos2(rect.min.x + 17.0, rect.min.y + 17.0),
        15.0,
        theme,
    );
    let upper_height = upper.size().y;
    ui.painter().galley(
        pos2(rect.min.x + 34.0, rect.min.y + 7.0),
        upper,
        mark.color(theme),
    );
    if !under.is_empty() {
        ui.painter().galley(
            pos2(rect.min.x + 34.0, rect.min.y + 9.0 + upper_height),
            lower,
            theme::color(Ink::SecondInk, theme),
        );
    }
}

/// The heavier of two states, for a value with several findings.
#[must_use]
pub fn state_of(weight: Weight) -> Option<ValueState> {
    match weight {
        Weight::Right => Some(ValueState::Right),
        Weight::Note => None,
        Weight::Warning | Weight::Stop => Some(ValueState::Wrong),
    }
}

//! Rows of entries: a big label, a bigger value, and one line that says how it was got or what is wrong with it.

use egui::{
    Painter, Pos2, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};
use underbrick_calc::findings::{Finding, Weight};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::book::{BookPart, book_ui};
use super::build::{BuildBit, build_ui};
use super::cause_row::{CauseRow, CauseTap, cause_ui};
use super::key::{Key, cells};
use super::mark::Mark;
use super::offer_card::{OfferCard, offer_ui};
use super::order::{OrderBit, order_ui};
use super::pictures::{Tile, tiles_ui};
use super::words::{Face, Words};
use crate::canvas::lettering;
use crate::edit::Edit;
use crate::stops::opened::{Copies, Part};
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
    /// What a folded thing holds: not shown, but asked for and counted.
    Folded(Vec<Row>),
    /// A wide key that shows more of a list, or less again.
    More {
        /// What it does.
        words: String,
        /// Of what.
        part: Part,
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
    /// A part of the order.
    Order(OrderBit),
    /// A part of the building.
    Build(BuildBit),
    /// Pictures, side by side.
    Pictures(Vec<Tile>),
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
    pub(super) const fn mark(self) -> Option<Mark> {
        match self {
            Self::Wrong => Some(Mark::Wrong),
            Self::Missing => Some(Mark::NotKnown),
            Self::Right => Some(Mark::Right),
            Self::Known | Self::Default => None,
        }
    }

    pub(super) const fn ink(self) -> Ink {
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
    /// What is to be shown in full, or folded again.
    pub opened: Option<Part>,
    /// What was asked for.
    pub edits: Vec<Edit>,
    /// A text to copy.
    pub copies: Option<Copies>,
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
            Row::Folded(_) => {}
            Row::More { words, part } => {
                if more(ui, words) {
                    answer.opened = Some(part.clone());
                }
            }
            Row::Choice { label, options } => {
                let is_looked_at = set.is_some() && set == chosen_at(options);
                choice(ui, label, options, is_looked_at, scroll, &mut answer);
            }
            Row::Acts(acts) => keys(ui, acts, &mut answer),
            Row::Figure { label, value, note } => figure(ui, label, value, note),
            Row::Book(part) => book_ui(ui, part, set, scroll, &mut answer),
            Row::Said { mark, text, under } => said(ui, *mark, text, under),
            Row::Cause(row) => match cause_ui(ui, nth, row) {
                Some(CauseTap::Reading(place)) => answer.jump = Some(place),
                Some(CauseTap::More(part)) => answer.opened = Some(part),
                None => {}
            },
            Row::Offer(card) => {
                if offer_ui(ui, nth, card) {
                    answer.edits.push(card.edit.clone());
                }
            }
            Row::Order(bit) => order_ui(ui, nth, bit, (set, scroll), &mut answer),
            Row::Build(bit) => build_ui(ui, nth, bit, (set, scroll), &mut answer),
            Row::Pictures(tiles) => {
                if let Some(part) = tiles_ui(ui, nth, tiles) {
                    answer.opened = Some(part);
                }
            }
        }
    }
    answer
}

fn heading(ui: &mut Ui, title: &str, note: &str) {
    let title_text = Text::bold(title);
    let title_width = lettering::width(&title_text, theme::sized(ui, size::LABEL));
    let room = ui.available_width() - 8.0;
    let face = Face::regular(size::NOTE);
    let beside = Words::broken(ui, note, face, room, Anchor::Right);
    // With large type the note stands under the title.
    let is_under = title_width + 12.0 + beside.width() > room;
    let note_height = if is_under {
        theme::tall(ui, 22.0) + beside.more()
    } else {
        0.0
    };
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), theme::tall(ui, 40.0) + note_height),
        Sense::hover(),
    );
    let words = title.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Heading, true, words.clone()));
    let theme = theme::current(ui);
    let y = rect.min.y + theme::tall(ui, 24.0);
    lettering::paint(
        ui.painter(),
        pos2(rect.min.x + 4.0, y),
        Anchor::Left,
        &title_text,
        theme::sized(ui, size::LABEL),
        theme::color(Ink::Ink, theme),
    );
    let second = theme::color(Ink::SecondInk, theme);
    if is_under {
        let under = Words::broken(ui, note, face, room, Anchor::Left);
        let at = pos2(rect.min.x + 4.0, y + theme::tall(ui, 24.0));
        under.paint(ui.painter(), at, second);
    } else {
        beside.paint(ui.painter(), pos2(rect.max.x - 4.0, y), second);
    }
}

fn fold(ui: &mut Ui, name: &str, note: &str, is_open: bool) -> bool {
    let theme = theme::current(ui);
    let second = theme::color(Ink::SecondInk, theme);
    let mut job = egui::text::LayoutJob::simple(
        lettering::in_line(note),
        theme::regular(theme::sized(ui, size::NOTE)),
        second,
        ui.available_width() - 52.0,
    );
    job.wrap.max_rows = 4;
    let galley = ui.painter().layout_job(job);
    let height = (galley.size().y + theme::tall(ui, 42.0)).max(size::KEY);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let response = ui.interact(rect, ui.scope_id().with(("fold", name)), Sense::click());
    let words = name.to_owned();
    response.widget_info(move || WidgetInfo::selected(Role::Button, true, is_open, words.clone()));
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
        pos2(rect.min.x + 38.0, rect.min.y + theme::tall(ui, 20.0)),
        Anchor::Left,
        &Text::bold(name),
        theme::sized(ui, size::LABEL),
        ink,
    );
    painter.galley(
        pos2(rect.min.x + 38.0, rect.min.y + theme::tall(ui, 33.0)),
        galley,
        second,
    );
    response.clicked()
}

fn more(ui: &mut Ui, words: &str) -> bool {
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), size::KEY), Sense::hover());
    Key::new(words)
        .on(Ink::Panel, Ink::Line)
        .show(ui, rect)
        .clicked()
}

fn value(ui: &mut Ui, row: &ValueRow, set: Option<Place>, scroll: bool, answer: &mut RowsAnswer) {
    let lines = Lines::of(ui, row, ui.available_width());
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), lines.height), Sense::hover());
    let is_set = set == Some(row.place);
    let left_is_set = set.is_some() && set == row.left_place;
    if scroll && (is_set || left_is_set) {
        response.scroll_to_me(None);
    }
    let split = rect.min.x + rect.width() * SPLIT;
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
        paint_value(ui, rect, row, &lines, (is_set, left_is_set), split);
    }
}

fn touch(ui: &mut Ui, rect: Rect, row: &ValueRow, place: Place) -> Response {
    let id = ui.scope_id().with(("row", place));
    let response = ui.interact(rect, id, Sense::click());
    let name = row.label.clone();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, name.clone()));
    response
}

/// A value row set in type: its value, and its name and note on as many lines as they need.
struct Lines {
    value: Value,
    value_width: f32,
    label: Words,
    note: Option<Words>,
    height: f32,
}

/// A value on one line, made smaller where it is long; or broken where the type is large.
enum Value {
    Line(Text, f32),
    Broken(Words),
}

/// Where a row with two parts is divided, as a share of its width.
const SPLIT: f32 = 0.55;

/// Room that the mark before a note takes.
const MARK_ROOM: f32 = 20.0;

impl Lines {
    fn of(ui: &Ui, row: &ValueRow, width: f32) -> Self {
        let shown = match (row.value.as_str(), row.state) {
            ("", ValueState::Default) => "—",
            ("", _) => "not measured",
            (value, _) => value,
        };
        let value = Value::of(ui, shown, !row.value.is_empty(), width * 0.56);
        let value_width = value.width().min(width * 0.56);
        let mut room = width - value_width - 40.0;
        if row.left_place.is_some() && theme::text_size(ui) > 100 {
            // Large type keeps to its side of the dividing line.
            room = room.min(width * SPLIT - 24.0);
        }
        let label = Words::of(ui, &row.label, Face::regular(size::LABEL), room);
        let note = (!row.note.is_empty()).then(|| {
            let mark_room = if row.state.mark().is_some() {
                MARK_ROOM
            } else {
                0.0
            };
            let face = Face::regular(size::NOTE);
            Words::of(ui, &row.note, face, room - mark_room)
        });
        let more = label.more() + note.as_ref().map_or(0.0, Words::more);
        Self {
            height: theme::tall(ui, size::ROW) + more.max(value.more() - theme::tall(ui, 16.0)),
            value,
            value_width,
            label,
            note,
        }
    }
}

impl Value {
    fn of(ui: &Ui, shown: &str, is_value: bool, room: f32) -> Self {
        let is_large = theme::text_size(ui) > 100;
        let (most, least) = match (is_value, is_large) {
            (true, false) => (size::VALUE, size::NOTE),
            (true, true) => (size::VALUE, theme::sized(ui, size::LABEL)),
            (false, false) => (size::LABEL, size::NOTE),
            (false, true) => (size::LABEL, theme::sized(ui, size::NOTE)),
        };
        let mut points = theme::sized(ui, most);
        let text = Text::bold(shown);
        while lettering::width(&text, points) > room && points > least {
            points -= 1.0;
        }
        if is_large && lettering::width(&text, points) > room {
            let face = Face::bold(size::LABEL);
            return Self::Broken(Words::broken(ui, shown, face, room, Anchor::Right));
        }
        Self::Line(Text::bold(elided(shown, true, points, room)), points)
    }

    fn width(&self) -> f32 {
        match self {
            Self::Line(text, points) => lettering::width(text, *points),
            Self::Broken(words) => words.width(),
        }
    }

    fn more(&self) -> f32 {
        match self {
            Self::Line(..) => 0.0,
            Self::Broken(words) => words.more(),
        }
    }

    /// Its right end and its middle stand at `at`.
    fn paint(&self, painter: &Painter, at: Pos2, color: egui::Color32) {
        match self {
            Self::Line(text, points) => {
                lettering::paint(painter, at, Anchor::Right, text, *points, color);
            }
            Self::Broken(words) => words.paint(painter, at - vec2(0.0, words.more() / 2.0), color),
        }
    }
}

fn paint_value(
    ui: &Ui,
    rect: Rect,
    row: &ValueRow,
    lines: &Lines,
    (is_set, left_is_set): (bool, bool),
    split: f32,
) {
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
    let ink = if is_set { Ink::Line } else { row.state.ink() };
    let middle_right = pos2(rect.max.x - 14.0, rect.center().y);
    lines
        .value
        .paint(painter, middle_right, theme::color(ink, theme));
    if row.value.is_empty() && row.state == ValueState::Missing {
        let y = rect.center().y + theme::tall(ui, 15.0);
        let line = [
            pos2(middle_right.x - lines.value_width, y),
            pos2(middle_right.x, y),
        ];
        painter.extend(egui::Shape::dashed_line(
            &line,
            Stroke::new(1.5, theme::color(Ink::NotKnown, theme)),
            6.0,
            4.0,
        ));
    }
    let left = rect.min.x + 14.0;
    let more = lines.label.more();
    let label_y = if lines.note.is_some() {
        rect.min.y + theme::tall(ui, 23.0)
    } else {
        rect.center().y - more / 2.0
    };
    lines
        .label
        .paint(painter, pos2(left, label_y), theme::color(Ink::Ink, theme));
    if let Some(note) = &lines.note {
        let note_y = rect.min.y + theme::tall(ui, 49.0) + more;
        let mut left = left;
        if let Some(mark) = row.state.mark() {
            mark.paint(painter, pos2(left + 7.0, note_y), 13.0, theme);
            left += MARK_ROOM;
        }
        let ink = match row.state {
            ValueState::Known | ValueState::Default => Ink::SecondInk,
            other => other.ink(),
        };
        note.paint(painter, pos2(left, note_y), theme::color(ink, theme));
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

/// The place that a choice decides, where a reading can lead to it.
fn chosen_at(options: &[(String, Edit, bool)]) -> Option<Place> {
    match options.first() {
        Some((_, Edit::Fabric(_), _)) => Some(Place::Fabric),
        Some((_, Edit::Restraint(_), _)) => Some(Place::Restraint),
        _ => None,
    }
}

fn choice(
    ui: &mut Ui,
    label: &str,
    options: &[(String, Edit, bool)],
    is_looked_at: bool,
    scroll: bool,
    answer: &mut RowsAnswer,
) {
    let theme = theme::current(ui);
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), theme::tall(ui, 26.0)),
        Sense::hover(),
    );
    if is_looked_at && scroll {
        response.scroll_to_me(Some(egui::Align::Center));
    }
    let (title, ink) = if is_looked_at {
        (Text::bold(label), Ink::Line)
    } else {
        (Text::regular(label), Ink::SecondInk)
    };
    lettering::paint(
        ui.painter(),
        pos2(rect.min.x + 4.0, rect.center().y + 2.0),
        Anchor::Left,
        &title,
        theme::sized(ui, size::NOTE),
        theme::color(ink, theme),
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
    let width = ui.available_width();
    let value_words = Words::broken(
        ui,
        value,
        Face::bold(size::LABEL),
        width * 0.6,
        Anchor::Right,
    );
    let room = width - value_words.width() - 32.0;
    let label_words = Words::of(ui, label, Face::regular(size::LABEL), room);
    let note_words = Words::of(ui, note, Face::regular(size::NOTE), room);
    let more = (label_words.more() + note_words.more()).max(value_words.more());
    let (rect, response) =
        ui.allocate_exact_size(vec2(width, theme::tall(ui, 52.0) + more), Sense::hover());
    let name = [label, value, note].join(" ");
    let name = name.trim_end().to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let theme = theme::current(ui);
    let painter = ui.painter();
    let ink = theme::color(Ink::Ink, theme);
    let middle = rect.center().y - value_words.more() / 2.0;
    value_words.paint(painter, pos2(rect.max.x - 14.0, middle), ink);
    let left = rect.min.x + 14.0;
    let label_y = rect.min.y + theme::tall(ui, 17.0);
    label_words.paint(painter, pos2(left, label_y), ink);
    let note_y = rect.min.y + theme::tall(ui, 38.0) + label_words.more();
    let second = theme::color(Ink::SecondInk, theme);
    note_words.paint(painter, pos2(left, note_y), second);
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
        theme::regular(theme::sized(ui, size::NOTE) + 1.0),
        mark.color(theme),
        room,
    );
    let lower = ui.painter().layout(
        lettering::in_line(under),
        theme::regular(theme::sized(ui, size::NOTE)),
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
    let name = [text, under].join(" ").trim_end().to_owned();
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

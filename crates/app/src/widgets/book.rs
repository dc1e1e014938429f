//! A page of a level book: its head, its lines with a cell for every reading, and the sums at its foot.

use egui::{Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_calc::place::Place;
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::mark::Mark;
use super::rows::{RowsAnswer, ValueState, elided};
use crate::canvas::lettering;
use crate::theme::{self, Ink, size};

/// A part of the page.
#[derive(Clone, Debug)]
pub enum BookPart {
    /// The names of the columns.
    Head,
    /// One point.
    Line(Box<BookLine>),
    /// The sums and the three-way check.
    Foot(BookFoot),
}

/// One point of the page.
#[derive(Clone, Debug)]
pub struct BookLine {
    /// What the rod stands on.
    pub point: String,
    /// Said under it.
    pub under: String,
    /// What a tap on it sets.
    pub point_place: Place,
    /// Its name for a screen reader.
    pub point_name: String,
    /// What a tap on the point asks for is still missing.
    pub point_missing: bool,
    /// Backsight, intermediate sight, foresight, where the line has one.
    pub readings: [Option<BookCell>; 3],
    /// Height of collimation above the datum, of a backsight.
    pub collimation: String,
    /// Level of the point, as a drop below the datum.
    pub level: String,
    /// Rise or fall from the sight before.
    pub step: String,
}

/// One reading.
#[derive(Clone, Debug)]
pub struct BookCell {
    /// Where it stands in the record.
    pub place: Place,
    /// Its name for a screen reader.
    pub name: String,
    /// As the site shows it; empty when it was not written down.
    pub text: String,
    /// Its state.
    pub state: ValueState,
}

/// What stands at the foot.
#[derive(Clone, Debug)]
pub struct BookFoot {
    /// The three differences: what, and the sum.
    pub sums: Vec<(String, String)>,
    /// State of the check.
    pub mark: Mark,
    /// The check in words.
    pub words: String,
}

impl BookLine {
    /// Values in the order in which they are asked for: where it stands where that is missing, foresight, then backsight.
    pub(crate) fn places(&self) -> impl Iterator<Item = Place> {
        let [back, between, fore] = &self.readings;
        let point = self.point_missing.then_some(self.point_place);
        let readings = [between, fore, back].into_iter().flatten();
        point
            .into_iter()
            .chain(readings.map(|cell| cell.place))
            .collect::<Vec<_>>()
            .into_iter()
    }

    /// The state of every value of the line.
    pub(crate) fn states(&self) -> impl Iterator<Item = ValueState> {
        let point = self.point_missing.then_some(ValueState::Missing);
        let readings = self.readings.iter().flatten();
        point.into_iter().chain(readings.map(|cell| cell.state))
    }
}

/// Where the columns end, as shares of the width: point, backsight, intermediate sight, foresight, level.
const ENDS: [f32; 5] = [0.225, 0.415, 0.6, 0.79, 1.0];
/// Height of the head.
const HEAD: f32 = 30.0;
/// Height of a line of the foot.
const FOOT_LINE: f32 = 26.0;

/// Shows a part of the page.
pub(super) fn book_ui(
    ui: &mut Ui,
    part: &BookPart,
    set: Option<Place>,
    scroll: bool,
    answer: &mut RowsAnswer,
) {
    match part {
        BookPart::Head => head(ui),
        BookPart::Line(line) => line_ui(ui, line, set, scroll, answer),
        BookPart::Foot(foot) => foot_ui(ui, foot),
    }
}

fn columns(rect: Rect) -> [Rect; 5] {
    let mut left = 0.0;
    ENDS.map(|end| {
        let from = rect.min.x + rect.width() * left;
        left = end;
        Rect::from_min_max(
            pos2(from, rect.min.y),
            pos2(rect.min.x + rect.width() * end, rect.max.y),
        )
    })
}

fn head(ui: &mut Ui) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEAD), Sense::hover());
    response.widget_info(|| {
        let name =
            "Level book: point, backsight, intermediate sight, foresight, level below the sill";
        WidgetInfo::labeled(Role::Label, true, name)
    });
    let theme = theme::current(ui);
    let words = ["stands on", "BS", "IS", "FS", "below sill"];
    for (nth, (word, cell)) in words.into_iter().zip(columns(rect)).enumerate() {
        let (at, anchor) = match nth {
            0 => (pos2(cell.min.x + 8.0, cell.center().y), Anchor::Left),
            4 => (pos2(cell.max.x - 8.0, cell.center().y), Anchor::Right),
            _ => (cell.center(), Anchor::Middle),
        };
        lettering::paint(
            ui.painter(),
            at,
            anchor,
            &Text::regular(word),
            theme::sized(ui, size::NOTE),
            theme::color(Ink::SecondInk, theme),
        );
    }
}

fn line_ui(
    ui: &mut Ui,
    line: &BookLine,
    set: Option<Place>,
    scroll: bool,
    answer: &mut RowsAnswer,
) {
    let (rect, response) = ui.allocate_exact_size(
        vec2(ui.available_width(), theme::tall(ui, size::ROW)),
        Sense::hover(),
    );
    let is_here = set.is_some_and(|set| {
        set == line.point_place || line.readings.iter().flatten().any(|cell| cell.place == set)
    });
    if scroll && is_here {
        response.scroll_to_me(None);
    }
    let [point, back, between, fore, level] = columns(rect);
    let theme = theme::current(ui);
    let painter = ui.painter().clone();
    painter.rect(
        rect,
        size::CORNER,
        theme::color(Ink::Panel, theme),
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
        StrokeKind::Inside,
    );
    if tapped(ui, point, &line.point_name, line.point_place) {
        answer.tapped = Some(line.point_place);
    }
    point_words(
        ui,
        point,
        line,
        set == Some(line.point_place) && is_station(line),
    );
    for (cell, column) in line.readings.iter().zip([back, between, fore]) {
        if let Some(cell) = cell {
            if tapped(ui, column, &cell.name, cell.place) {
                answer.tapped = Some(cell.place);
            }
            let under = if matches!(cell.place, Place::BookReading(_)) && column == back {
                line.collimation.as_str()
            } else {
                ""
            };
            reading(ui, column, cell, under, set == Some(cell.place));
        }
    }
    let right = level.max.x - 8.0;
    let room = level.width() - 10.0;
    let drop = if line.level.is_empty() {
        "—"
    } else {
        &line.level
    };
    fitted(
        ui,
        pos2(right, rect.min.y + theme::tall(ui, 23.0)),
        Anchor::Right,
        (drop, true, theme::sized(ui, size::LABEL)),
        room,
        Ink::Ink,
    );
    fitted(
        ui,
        pos2(right, rect.min.y + theme::tall(ui, 49.0)),
        Anchor::Right,
        (&line.step, false, theme::sized(ui, size::NOTE)),
        room,
        Ink::SecondInk,
    );
}

const fn is_station(line: &BookLine) -> bool {
    matches!(line.point_place, Place::BookStation(_))
}

fn tapped(ui: &Ui, rect: Rect, name: &str, place: Place) -> bool {
    let id = ui.scope_id().with(("book", name, place));
    let response = ui.interact(rect, id, Sense::click());
    let words = name.to_owned();
    response.widget_info(move || WidgetInfo::labeled(Role::Button, true, words.clone()));
    response.clicked()
}

fn point_words(ui: &Ui, rect: Rect, line: &BookLine, is_set: bool) {
    if is_station(line) {
        cell_ground(ui, rect, is_set);
    }
    let ink = match (line.point_missing, is_set) {
        (_, true) => Ink::Line,
        (true, false) => Ink::NotKnown,
        (false, false) => Ink::Ink,
    };
    let room = rect.width() - 14.0;
    let left = rect.min.x + 8.0;
    fitted(
        ui,
        pos2(left, rect.min.y + theme::tall(ui, 23.0)),
        Anchor::Left,
        (&line.point, true, theme::sized(ui, size::LABEL)),
        room,
        ink,
    );
    fitted(
        ui,
        pos2(left, rect.min.y + theme::tall(ui, 49.0)),
        Anchor::Left,
        (&line.under, false, theme::sized(ui, size::NOTE)),
        room,
        Ink::SecondInk,
    );
}

fn reading(ui: &Ui, rect: Rect, cell: &BookCell, under: &str, is_set: bool) {
    cell_ground(ui, rect, is_set);
    let ink = match (is_set, cell.state) {
        (true, _) => Ink::Line,
        (false, ValueState::Wrong) => Ink::Wrong,
        (false, ValueState::Missing) => Ink::NotKnown,
        (false, ValueState::Right) => Ink::Right,
        (false, ValueState::Known | ValueState::Default) => Ink::Ink,
    };
    let mark = match cell.state {
        ValueState::Wrong => Some(Mark::Wrong),
        ValueState::Missing => Some(Mark::NotKnown),
        ValueState::Right => Some(Mark::Right),
        ValueState::Known | ValueState::Default => None,
    };
    let text = if cell.text.is_empty() {
        "read?"
    } else {
        &cell.text
    };
    let middle = rect.center().x;
    let room = rect.width() - 10.0;
    let y = if under.is_empty() && mark.is_none() {
        rect.center().y
    } else {
        rect.min.y + theme::tall(ui, 23.0)
    };
    fitted(
        ui,
        pos2(middle, y),
        Anchor::Middle,
        (text, true, theme::sized(ui, size::LABEL)),
        room,
        ink,
    );
    if under.is_empty() {
        if let Some(mark) = mark {
            mark.paint(
                ui.painter(),
                pos2(middle, rect.min.y + theme::tall(ui, 50.0)),
                13.0,
                theme::current(ui),
            );
        }
    } else {
        fitted(
            ui,
            pos2(middle, rect.min.y + theme::tall(ui, 49.0)),
            Anchor::Middle,
            (under, false, theme::sized(ui, size::NOTE)),
            room,
            Ink::SecondInk,
        );
    }
}

fn cell_ground(ui: &Ui, rect: Rect, is_set: bool) {
    let theme = theme::current(ui);
    let (ground, border) = if is_set {
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
    ui.painter().rect(
        rect.shrink(2.0),
        size::CORNER,
        theme::color(ground, theme),
        border,
        StrokeKind::Inside,
    );
}

/// One line of type (text, whether bold, size), made smaller down to the note size and then cut where it is wider than `room`.
fn fitted(
    ui: &Ui,
    at: egui::Pos2,
    anchor: Anchor,
    (words, bold, points): (&str, bool, f32),
    room: f32,
    ink: Ink,
) {
    let lettered = |words: &str| {
        if bold {
            Text::bold(words)
        } else {
            Text::regular(words)
        }
    };
    let mut points = points;
    while lettering::width(&lettered(words), points) > room && points > size::TICK {
        points -= 1.0;
    }
    let words = elided(words, bold, points, room);
    let color = theme::color(ink, theme::current(ui));
    lettering::paint(ui.painter(), at, anchor, &lettered(&words), points, color);
}

fn foot_ui(ui: &mut Ui, foot: &BookFoot) {
    let n_lines = foot.sums.len() + 1;
    let foot_line = theme::tall(ui, FOOT_LINE);
    let height = foot_line * n_lines as f32 + 10.0;
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    let name = foot.words.clone();
    response.widget_info(move || WidgetInfo::labeled(Role::Label, true, name.clone()));
    let theme = theme::current(ui);
    let top = |nth: usize| rect.min.y + 5.0 + foot_line * (nth as f32 + 0.5);
    for (nth, (label, sum)) in foot.sums.iter().enumerate() {
        let sum_text = Text::bold(sum.as_str());
        let sum_width = lettering::width(&sum_text, theme::sized(ui, size::NOTE));
        lettering::paint(
            ui.painter(),
            pos2(rect.max.x - 8.0, top(nth)),
            Anchor::Right,
            &sum_text,
            theme::sized(ui, size::NOTE),
            theme::color(Ink::Ink, theme),
        );
        let left = pos2(rect.min.x + 8.0, top(nth));
        let room = rect.width() - sum_width - 24.0;
        fitted(
            ui,
            left,
            Anchor::Left,
            (label, false, theme::sized(ui, size::NOTE)),
            room,
            Ink::SecondInk,
        );
    }
    let y = top(foot.sums.len());
    foot.mark
        .paint(ui.painter(), pos2(rect.min.x + 16.0, y), 15.0, theme);
    let color = foot.mark.color(theme);
    let words = elided(
        &foot.words,
        true,
        theme::sized(ui, size::NOTE),
        rect.width() - 40.0,
    );
    lettering::paint(
        ui.painter(),
        pos2(rect.min.x + 32.0, y),
        Anchor::Left,
        &Text::bold(words),
        theme::sized(ui, size::NOTE),
        color,
    );
    ui.painter().line_segment(
        [rect.left_top(), rect.right_top()],
        Stroke::new(1.0, theme::color(Ink::Hairline, theme)),
    );
}

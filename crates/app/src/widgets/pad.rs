//! The pad: one set of big keys for feet, inches, fractions and millimetres, for falls, turns, words and short lists.

mod keys;
mod typing;

pub use typing::Typing;

use egui::{Key as KeyCode, Rect, Ui, pos2, vec2};
use underbrick_calc::field::{Kind, field};
use underbrick_calc::measure::amount::{AmountUnit, read_amount, write_amount};
use underbrick_calc::measure::slope::{SlopeStyle, read_fall, write_fall};
use underbrick_calc::measure::written::{LengthStyle, Nearest, read_length, write_length};
use underbrick_calc::order::Item;
use underbrick_calc::place::Place;
use underbrick_calc::site::{ShownIn, SignKind};
use underbrick_drawing::item::Anchor;
use underbrick_drawing::text::Text;

use super::key::Key;
use super::mark::Mark;
use crate::areas::help_height;
use crate::canvas::lettering;
use crate::edit::Edit;
use crate::theme::{self, Ink, size};
use crate::visit::Visit;

/// How long an unreadable text may stand on the pad before it is written down as typed, in seconds.
const UNSAID_S: f64 = 0.7;

/// The pad's own state: what is being set, and the text on it.
#[derive(Clone, Debug, Default)]
pub struct Pad {
    place: Option<Place>,
    typing: Typing,
    unsaid_since: Option<f64>,
}

/// What the pad asks for.
#[derive(Clone, Debug, Default)]
pub struct PadAnswer {
    /// Edits, in order.
    pub edits: Vec<Edit>,
    /// Go on to the next value.
    pub next: bool,
}

impl Pad {
    /// What is being set.
    #[must_use]
    pub const fn place(&self) -> Option<Place> {
        self.place
    }

    /// Starts setting `place`. What was left unreadable at the place before is written down as typed.
    pub fn set(&mut self, place: Option<Place>, visit: &Visit) -> Vec<Edit> {
        let left = self.leave();
        self.place = place;
        self.typing = place
            .map(|place| {
                Typing::new(
                    place,
                    visit.record().text(place).unwrap_or_default(),
                    visit.site().shown_in,
                )
            })
            .unwrap_or_default();
        left
    }

    /// What was typed and not yet written down.
    pub fn leave(&mut self) -> Vec<Edit> {
        match (self.unsaid_since.take(), self.place) {
            (Some(_), Some(place)) => vec![Edit::Text {
                place,
                typed: self.typing.text().to_owned(),
            }],
            _ => Vec::new(),
        }
    }

    /// Takes the text again from the record, after an undo.
    pub fn read_again(&mut self, visit: &Visit) {
        self.unsaid_since = None;
        if let Some(place) = self.place {
            match visit.record().text(place) {
                Some(text) => self.typing = Typing::new(place, text, visit.site().shown_in),
                None => self.place = None,
            }
        }
    }
}

/// Shows the pad in `rect`.
pub fn pad_ui(ui: &mut Ui, rect: Rect, pad: &mut Pad, visit: &Visit) -> PadAnswer {
    let mut answer = PadAnswer::default();
    let theme = theme::current(ui);
    ui.painter()
        .rect_filled(rect, 0, theme::color(Ink::Pad, theme));
    let inner = rect.shrink2(vec2(size::MARGIN, 8.0));
    let Some(place) = pad.place else {
        let words = "Tap a value, or a part of the drawing, to set it.";
        let galley = ui.painter().layout(
            words.to_owned(),
            theme::regular(theme::sized(ui, size::LABEL)),
            theme::color(Ink::SecondInk, theme),
            inner.width(),
        );
        ui.painter().galley(
            inner.min + vec2(0.0, 14.0),
            galley,
            theme::color(Ink::SecondInk, theme),
        );
        return answer;
    };
    let kind = field(place).kind;
    // A field for words is as tall as a key.
    let head_height = if kind == Kind::Text { size::KEY } else { 50.0 };
    let head = Rect::from_min_size(inner.min, vec2(inner.width(), head_height));
    let how = Rect::from_min_size(
        pos2(inner.min.x, head.max.y),
        vec2(inner.width(), help_height(theme::text_scale(ui))),
    );
    let grid = Rect::from_min_max(pos2(inner.min.x, how.max.y + 4.0), inner.max);
    let before = pad.typing.text().to_owned();
    match kind {
        Kind::Text => words_ui(ui, head, grid, pad, &mut answer),
        Kind::Choice => choices_ui(ui, grid, place, visit, &mut answer),
        Kind::Length { .. }
        | Kind::Fall { .. }
        | Kind::Turn { .. }
        | Kind::Number { .. }
        | Kind::Count { .. }
        | Kind::Decimal { .. } => {
            keyboard(ui, pad, &mut answer);
            keys::grid_ui(ui, grid, &mut pad.typing, &mut answer.next);
            reading(ui, head, &pad.typing);
        }
        Kind::Thing => {}
    }
    help(ui, how, place, visit, kind);
    say(ui, pad, place, &before, kind, &mut answer);
    answer
}

/// Writes down what was typed: at once where it can be read, else when the finger has rested.
fn say(ui: &Ui, pad: &mut Pad, place: Place, before: &str, kind: Kind, answer: &mut PadAnswer) {
    let now = ui.input(|input| input.time);
    let text = pad.typing.text().to_owned();
    if text != before {
        pad.unsaid_since = Some(now);
    }
    let Some(since) = pad.unsaid_since else {
        return;
    };
    let readable = kind == Kind::Text || pad.typing.is_readable();
    if readable || now - since >= UNSAID_S || answer.next {
        pad.unsaid_since = None;
        answer.edits.push(Edit::Text { place, typed: text });
    } else {
        ui.request_repaint_after(std::time::Duration::from_secs_f64(UNSAID_S));
    }
}

/// The keyboard of a desk writes on the pad as its keys do.
fn keyboard(ui: &Ui, pad: &mut Pad, answer: &mut PadAnswer) {
    if ui.memory(|memory| memory.focused().is_some()) {
        return;
    }
    ui.input(|input| {
        for event in &input.events {
            match event {
                egui::Event::Text(text) => pad.typing.write(text),
                egui::Event::Key {
                    key: KeyCode::Backspace,
                    pressed: true,
                    ..
                } => pad.typing.erase(),
                egui::Event::Key {
                    key: KeyCode::Enter | KeyCode::Tab,
                    pressed: true,
                    ..
                } => answer.next = true,
                _ => {}
            }
        }
    });
}

fn reading(ui: &Ui, rect: Rect, typing: &Typing) {
    let theme = theme::current(ui);
    let painter = ui.painter();
    let from_list = typing
        .place()
        .map(field)
        .filter(|field| matches!(field.kind, Kind::Decimal { .. }))
        .and_then(|field| field.when_empty);
    let (text, ink) = if typing.text().is_empty() {
        // What a price list has is not missing.
        from_list.map_or(("not measured".to_owned(), Ink::NotKnown), |words| {
            (words.to_owned(), Ink::SecondInk)
        })
    } else {
        (
            typing.text().to_owned(),
            if typing.is_readable() {
                Ink::Line
            } else {
                Ink::Wrong
            },
        )
    };
    let echo = echo(typing);
    let echo_width = lettering::width(&Text::regular(echo.as_str()), theme::sized(ui, size::NOTE));
    let room = rect.width() - echo_width - 16.0;
    let set = Text::bold(text.as_str());
    let mut points = if typing.text().is_empty() {
        theme::sized(ui, size::TITLE)
    } else {
        theme::sized(ui, size::READING)
    };
    while (lettering::width(&set, points) > room || points > rect.height()) && points > size::NOTE {
        points -= 1.0;
    }
    lettering::paint(
        painter,
        pos2(rect.min.x, rect.center().y),
        Anchor::Left,
        &set,
        points,
        theme::color(ink, theme),
    );
    lettering::paint(
        painter,
        pos2(rect.max.x, rect.center().y + 6.0),
        Anchor::Right,
        &Text::regular(echo),
        theme::sized(ui, size::NOTE),
        theme::color(Ink::SecondInk, theme),
    );
}

/// The same value in the other measure: a slip of ten is seen at once.
fn echo(typing: &Typing) -> String {
    let Some(place) = typing.place() else {
        return String::new();
    };
    match field(place).kind {
        Kind::Length { .. } => read_length(typing.text(), typing.bare()).map_or_else(
            |_| String::new(),
            |length| match typing.shown_in() {
                ShownIn::FeetInches => {
                    format!("= {}", write_length(length, LengthStyle::Millimetres))
                }
                ShownIn::Metric => format!(
                    "= {}",
                    write_length(length, LengthStyle::FeetInches(Nearest::Sixteenth))
                ),
            },
        ),
        Kind::Fall { .. } => read_fall(typing.text()).map_or_else(
            |_| String::new(),
            |fall| {
                format!(
                    "= {}, {}",
                    write_fall(fall, SlopeStyle::Percent),
                    write_fall(fall, SlopeStyle::OneIn)
                )
            },
        ),
        Kind::Number { unit, .. } => in_the_other_unit(typing, unit),
        Kind::Turn { .. }
        | Kind::Count { .. }
        | Kind::Decimal { .. }
        | Kind::Text
        | Kind::Choice
        | Kind::Thing => String::new(),
    }
}

/// An amount in its second unit; empty where it has but one.
fn in_the_other_unit(typing: &Typing, unit: AmountUnit) -> String {
    let other = match typing.shown_in() {
        ShownIn::FeetInches => ShownIn::Metric,
        ShownIn::Metric => ShownIn::FeetInches,
    };
    if unit.symbols().count() < 2 {
        return String::new();
    }
    read_amount(typing.text(), unit).map_or_else(
        |_| String::new(),
        |amount| format!("= {}", write_amount(amount, other)),
    )
}

/// One line or two: what is wrong, else how it is measured.
fn help(ui: &Ui, rect: Rect, place: Place, visit: &Visit, kind: Kind) {
    let theme = theme::current(ui);
    let wrong = visit
        .findings_at(place)
        .find(|finding| Mark::of(finding.weight) == Mark::Wrong);
    let (words, color) = match (wrong, kind) {
        (Some(finding), _) => (finding.text.clone(), Mark::Wrong.color(theme)),
        (None, _) => (
            field(place).how.to_owned(),
            theme::color(Ink::SecondInk, theme),
        ),
    };
    let most_rows = if theme::text_size(ui) > 100 { 3 } else { 2 };
    let mut points = theme::sized(ui, size::NOTE);
    let galley = loop {
        let mut job = egui::text::LayoutJob::simple(
            lettering::in_line(&words),
            theme::regular(points),
            color,
            rect.width(),
        );
        job.wrap.max_rows = most_rows;
        let galley = ui.painter().layout_job(job);
        let fits = !galley.elided && galley.size().y <= rect.height() + 2.0;
        if fits || points <= size::NOTE {
            break galley;
        }
        points -= 1.0;
    };
    ui.painter().galley(rect.min, galley, color);
}

fn words_ui(ui: &mut Ui, head: Rect, grid: Rect, pad: &mut Pad, answer: &mut PadAnswer) {
    let Some(place) = pad.place else { return };
    let mut text = pad.typing.text().to_owned();
    let edit = egui::TextEdit::singleline(&mut text)
        .font(theme::bold(theme::sized(ui, size::TITLE)))
        .desired_width(head.width())
        .char_limit(80)
        .align(egui::Align2::LEFT_CENTER);
    let id = ui.scope_id().with(("words", place));
    let response = ui.put(head, edit.id(id)).on_hover_text(field(place).name);
    response.widget_info(|| {
        egui::WidgetInfo::labeled(
            egui::Role::TextInput,
            true,
            format!("{}, typed", field(place).name),
        )
    });
    if response.changed() {
        pad.typing.replace(&text);
    }
    let enter = response.lost_focus() && ui.input(|input| input.key_pressed(KeyCode::Enter));
    let next = Rect::from_min_size(pos2(grid.max.x - 110.0, grid.min.y), vec2(110.0, size::KEY));
    let type_it = Rect::from_min_max(
        grid.min,
        pos2(next.min.x - size::GAP, grid.min.y + size::KEY),
    );
    if Key::new("type").show(ui, type_it).clicked() {
        response.request_focus();
    }
    if Key::new("next")
        .on(Ink::Line, Ink::Paper)
        .show(ui, next)
        .clicked()
        || enter
    {
        answer.next = true;
    }
}

/// What may be chosen at a place: what is stored for it, and its name.
fn offered(place: Place, visit: &Visit) -> Vec<(String, String)> {
    if matches!(place, Place::Sign(_)) {
        return SignKind::ALL
            .map(|kind| (kind.key().to_owned(), kind.name().to_owned()))
            .to_vec();
    }
    if matches!(place, Place::DeliveryItem(..)) {
        return Item::ALL
            .map(|item| (item.key().to_owned(), item.name().to_owned()))
            .to_vec();
    }
    let base_only = matches!(place, Place::BaseMaterial);
    visit
        .catalogue()
        .materials
        .iter()
        .filter(|material| !base_only || material.as_base.is_some())
        .map(|material| (material.key.0.clone(), material.name.clone()))
        .collect()
}

fn choices_ui(ui: &mut Ui, grid: Rect, place: Place, visit: &Visit, answer: &mut PadAnswer) {
    let now = visit.record().text(place).unwrap_or_default().to_owned();
    let offered = offered(place, visit);
    let inner = grid;
    ui.scope_builder(
        egui::UiBuilder::new().max_rect(inner).id_salt("choices"),
        |ui| {
            egui::ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| {
                    for row in offered.chunks(3) {
                        let (rect, _) = ui.allocate_exact_size(
                            vec2(ui.available_width(), size::KEY),
                            egui::Sense::hover(),
                        );
                        for ((key, name), cell) in row.iter().zip(super::key::cells(rect, 3)) {
                            if Key::new(name.as_str())
                                .chosen(*key == now)
                                .show(ui, cell)
                                .clicked()
                            {
                                answer.edits.push(Edit::Text {
                                    place,
                                    typed: key.clone(),
                                });
                                answer.next = true;
                            }
                        }
                    }
                });
        },
    );
}

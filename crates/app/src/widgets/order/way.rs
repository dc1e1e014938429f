//! Ways of rebuilding as cards: what each costs, how long it takes, what it cures and what not.

use egui::{Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use underbrick_drawing::item::Anchor;

use crate::edit::Edit;
use crate::theme::{self, Ink, size};
use crate::widgets::key::cells;
use crate::widgets::mark::Mark;
use crate::widgets::words::{Face, Words};

/// A way of rebuilding.
#[derive(Clone, Debug)]
pub struct WayCard {
    /// In a few words.
    pub name: String,
    /// What it costs, from likely to worst.
    pub price: String,
    /// How long it takes, and how many causes it cures.
    pub note: String,
    /// What is left of the causes; empty where it cures all that were found.
    pub left: Vec<(Mark, String)>,
    /// Whether it is the one that is ordered.
    pub is_chosen: bool,
    /// What taking it asks for.
    pub edit: Edit,
}

/// A card set in type for its width.
struct SetCard {
    name: Words,
    price: Words,
    /// The price stands beside the name.
    is_beside: bool,
    note: Words,
    left: Vec<(Mark, Words)>,
    height: f32,
}

/// Room of the mark at the left.
const INDENT: f32 = 34.0;
/// Least width of a card beside others, at the design's text size.
const LEAST_WIDTH: f32 = 230.0;

/// Shows cards, side by side where each has room. Gives what was tapped and is not chosen already.
pub(super) fn ways_ui(ui: &mut Ui, cards: &[WayCard]) -> Option<Edit> {
    let width = ui.available_width();
    let n_beside = if width >= cards.len() as f32 * theme::sized(ui, LEAST_WIDTH) {
        cards.len().max(1)
    } else {
        1
    };
    let cell_width = (width - size::GAP * (n_beside as f32 - 1.0)) / n_beside as f32;
    let mut taken = None;
    for row in cards.chunks(n_beside) {
        let set: Vec<SetCard> = row
            .iter()
            .map(|card| SetCard::of(ui, card, cell_width))
            .collect();
        let height = set.iter().map(|set| set.height).fold(size::ROW, f32::max);
        let (rect, _) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
        for ((card, set), cell) in row.iter().zip(&set).zip(cells(rect, n_beside)) {
            if way_ui(ui, cell, card, set) {
                taken = Some(card.edit.clone());
            }
        }
    }
    taken
}

impl SetCard {
    fn of(ui: &Ui, card: &WayCard, width: f32) -> Self {
        let tall = |points: f32| theme::tall(ui, points);
        let room = width - INDENT - 14.0;
        let set = |words: &str, face: Face, room: f32, anchor: Anchor| {
            Words::broken(ui, words, face, room, anchor)
        };
        let note = Face::regular(size::NOTE);
        let name = set(&card.name, Face::bold(size::LABEL), room, Anchor::Left);
        let mut price = set(
            &card.price,
            Face::bold(size::LABEL + 2.0),
            room,
            Anchor::Right,
        );
        let is_beside = name.width() + price.width() + 14.0 <= room;
        if !is_beside {
            let face = Face::bold(size::LABEL + 2.0);
            price = set(&card.price, face, room, Anchor::Left);
        }
        let note_words = set(&card.note, note, room, Anchor::Left);
        let left: Vec<(Mark, Words)> = card
            .left
            .iter()
            .map(|(mark, words)| (*mark, set(words, note, room - 20.0, Anchor::Left)))
            .collect();
        let price_height = if is_beside {
            0.0
        } else {
            tall(27.0) + price.more()
        };
        let left_height: f32 = left
            .iter()
            .map(|(_, words)| tall(23.0) + words.more())
            .sum();
        let height = tall(30.0)
            + name.more()
            + price_height
            + tall(25.0)
            + note_words.more()
            + left_height
            + 12.0;
        Self {
            name,
            price,
            is_beside,
            note: note_words,
            left,
            height,
        }
    }
}

fn way_ui(ui: &Ui, rect: Rect, card: &WayCard, set: &SetCard) -> bool {
    let id = ui.scope_id().with(("way", card.name.as_str()));
    let response = ui.interact(rect, id, Sense::click());
    let said = [&card.name, &card.price, &card.note]
        .into_iter()
        .chain(card.left.iter().map(|(_, words)| words))
        .cloned()
        .collect::<Vec<_>>()
        .join(", ");
    let is_chosen = card.is_chosen;
    response.widget_info(move || WidgetInfo::selected(Role::Button, true, is_chosen, said.clone()));
    let is_taken = response.clicked() && !is_chosen;
    if !ui.is_rect_visible(rect) {
        return is_taken;
    }
    let tall = |points: f32| theme::tall(ui, points);
    let theme = theme::current(ui);
    let ink = |ink: Ink| theme::color(ink, theme);
    let painter = ui.painter();
    let (ground, border) = if is_chosen || response.is_pointer_button_down_on() {
        (Ink::LineGround, Stroke::new(2.5, ink(Ink::Line)))
    } else {
        (Ink::Key, Stroke::new(1.0, ink(Ink::Line)))
    };
    painter.rect(rect, size::CORNER, ink(ground), border, StrokeKind::Inside);
    let mut middle = rect.min.y + 6.0 + tall(15.0);
    let hub = pos2(rect.min.x + 18.0, middle);
    if is_chosen {
        Mark::Right.paint(painter, hub, 17.0, theme);
    } else {
        painter.circle_stroke(hub, 7.5, Stroke::new(1.5, ink(Ink::Line)));
    }
    let (left, right) = (rect.min.x + INDENT, rect.max.x - 14.0);
    set.name.paint(painter, pos2(left, middle), ink(Ink::Ink));
    if set.is_beside {
        set.price
            .paint(painter, pos2(right, middle), ink(Ink::Line));
        middle += set.name.more();
    } else {
        middle += set.name.more() + tall(27.0);
        set.price.paint(painter, pos2(left, middle), ink(Ink::Line));
        middle += set.price.more();
    }
    middle += tall(25.0);
    set.note
        .paint(painter, pos2(left, middle), ink(Ink::SecondInk));
    middle += set.note.more();
    for (mark, words) in &set.left {
        middle += tall(23.0);
        mark.paint(painter, pos2(left + 7.0, middle), 13.0, theme);
        words.paint(painter, pos2(left + 20.0, middle), mark.color(theme));
        middle += words.more();
    }
    is_taken
}

//! What stop Order is made of: the price, ways side by side, lines with what stands behind them, days, sums, and keys that copy.

mod day;
mod go;
mod line;
mod price;
mod steps;
mod sum;
mod way;

pub use day::DayRow;
pub use line::LineRow;
pub use price::PriceHead;
pub use sum::Sum;
pub use way::WayCard;

use egui::{Sense, Ui, vec2};
use underbrick_calc::place::Place;

use super::key::Key;
use super::rows::RowsAnswer;
use crate::stops::opened::{Copies, Part};
use crate::theme::{self, Ink, size};

/// One part of the order on screen.
#[derive(Clone, Debug)]
pub enum OrderBit {
    /// What the homeowner asks: how much, how long.
    Price(PriceHead),
    /// Ways of rebuilding, each taken with one tap: side by side where there is room.
    Ways(Vec<WayCard>),
    /// A line of the order, or a stage of the work: a tap opens it and lights where its number comes from.
    Line(LineRow),
    /// How a number comes about, step by step.
    Steps(Vec<String>),
    /// A key that leads to where something is measured.
    Go(String, Place),
    /// One day on site.
    Day(DayRow),
    /// What it comes to, one under the other.
    Sums(Vec<Sum>),
    /// A key that copies a text.
    Copy {
        /// What it does.
        words: String,
        /// Of what.
        copies: Copies,
        /// Whether that is what was copied last.
        is_done: bool,
    },
}

/// Shows a part of the order. `set` is what is set or looked at; it is scrolled to when `scroll` says so.
pub(super) fn order_ui(
    ui: &mut Ui,
    nth: usize,
    bit: &OrderBit,
    (set, scroll): (Option<Place>, bool),
    answer: &mut RowsAnswer,
) {
    match bit {
        OrderBit::Price(head) => price::price_ui(ui, head),
        OrderBit::Ways(cards) => answer.edits.extend(way::ways_ui(ui, cards)),
        OrderBit::Line(row) => {
            if line::line_ui(ui, row, (set, scroll)) {
                answer.opened = Some(Part::Order(row.part));
            }
        }
        OrderBit::Steps(steps) => steps::steps_ui(ui, steps),
        OrderBit::Go(words, place) => {
            if go::go_ui(ui, nth, words, *place) {
                answer.jump = Some(*place);
            }
        }
        OrderBit::Day(day) => day::day_ui(ui, day),
        OrderBit::Sums(sums) => sum::sums_ui(ui, sums),
        OrderBit::Copy {
            words,
            copies,
            is_done,
        } => {
            let height = theme::tall(ui, size::KEY);
            let (rect, _) =
                ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
            let key = if *is_done {
                Key::new(format!("✓ copied: {words}")).on(Ink::Key, Ink::Right)
            } else {
                Key::new(format!("copy {words}")).on(Ink::Key, Ink::Line)
            };
            if key.show(ui, rect).clicked() {
                answer.copies = Some(copies.clone());
            }
        }
    }
}

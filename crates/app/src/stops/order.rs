//! Stop Order: how much and how long, three ways side by side, every line with what stands behind it, hours, days, sums, and what is
//! sent to suppliers.

mod behind;
mod cards;
mod days;
pub(crate) mod light;
mod lines;
mod missing;
mod price;
pub(crate) mod send;
mod work;

use underbrick_calc::order::{Decimal, Order, Priced};
use underbrick_calc::place::Place;
use underbrick_sheets::order::words::{plain_money as plain, way_price_words as price_words};

use super::opened::Opened;
use super::{Stop, findings, heading};
use crate::visit::Visit;
use crate::widgets::mark::Mark;
use crate::widgets::order::OrderBit;
use crate::widgets::rows::{Row, ValueRow, ValueState};

pub(super) fn rows(visit: &Visit, opened: &Opened) -> Vec<Row> {
    let mut rows = Vec::new();
    let found = visit.results().order.as_ref();
    match found.and_then(|order| Some((order, order.chosen()?))) {
        Some((order, priced)) => order_rows(visit, order, priced, opened, &mut rows),
        None => rows.push(Row::Said {
            mark: Mark::NotKnown,
            text: "There is no order yet.".to_owned(),
            under: "Measure the walk at stop Line first.".to_owned(),
        }),
    }
    rows.extend(findings(visit, Stop::Order));
    rows
}

fn order_rows(visit: &Visit, order: &Order, priced: &Priced, opened: &Opened, rows: &mut Vec<Row>) {
    price::rows(visit, order, priced, rows);
    cards::rows(order, rows);
    price::missing_rows(visit, priced, rows);
    lines::rows(visit, order, priced, opened, rows);
    work::rows(visit, order, priced, opened, rows);
    days::rows(priced, rows);
    days::sum_rows(visit, order, priced, rows);
    send::rows(visit, order, opened, rows);
}

fn bit(bit: OrderBit) -> Row {
    Row::Order(bit)
}

/// The row of a value that goes before the price list's; empty it shows what the list has.
fn wish(visit: &Visit, place: Place, label: &str, shown: String, note: &str) -> Row {
    let typed = visit.record().text(place).unwrap_or_default().trim();
    let is_empty = typed.is_empty();
    let row = super::named(visit, place, None, label, note);
    let Row::Value(row) = row else { return row };
    // What cannot be used stands as it was typed.
    let is_wrong = row.state == ValueState::Wrong && !is_empty;
    Row::Value(ValueRow {
        value: if is_wrong || shown.is_empty() {
            row.value
        } else {
            shown
        },
        ..row
    })
}

fn at_least(is_least: bool, words: String) -> String {
    if is_least {
        format!("at least {words}")
    } else {
        words
    }
}

/// Hours to a tenth.
fn hours(hours: Decimal) -> String {
    format!("{} h", hours.round_dp(1).normalize())
}

fn days_words(priced: &Priced) -> String {
    match priced.programme.days.len() {
        0 => "days not known".to_owned(),
        1 => "1 day".to_owned(),
        n => format!("{n} days"),
    }
}

fn title(title: &str, note: impl Into<String>) -> Row {
    heading(title, note)
}

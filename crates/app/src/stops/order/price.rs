//! At the top of the stop: what the homeowner asks in that minute, and what must be measured before it can be said for certain.

use underbrick_calc::order::{Order, Priced};
use underbrick_calc::place::Place;

use super::missing::missing;
use super::{bit, days_words, hours, price_words, title};
use crate::visit::Visit;
use crate::widgets::order::{OrderBit, PriceHead};
use crate::widgets::rows::Row;

/// Most keys that lead to what is missing.
const MOST_MISSING: usize = 4;

pub(super) fn rows(visit: &Visit, order: &Order, priced: &Priced, rows: &mut Vec<Row>) {
    let people = match priced.programme.n_crew {
        1 => "1 person".to_owned(),
        n => format!("{n} people"),
    };
    let range = match &priced.worst {
        Some(worst) if worst.total > priced.price.total => {
            "the upper figure if the worst pit holds everywhere"
        }
        _ => "",
    };
    rows.push(bit(OrderBit::Price(PriceHead {
        price: price_words(order.currency, priced),
        range: range.to_owned(),
        under: format!(
            "{}, {people}, {}",
            days_words(priced),
            hours(priced.price.hours)
        ),
        least: least(visit, priced),
    })));
}

/// Which lines make it the least.
fn least(visit: &Visit, priced: &Priced) -> String {
    if !priced.price.is_least {
        return String::new();
    }
    let count = |n: usize, one: &str, more: &str| match n {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {more}")),
    };
    let lines = || priced.lines.iter();
    let n_unknown = lines()
        .filter(|line| missing(visit, line).is_some())
        .count();
    let n_least = lines()
        .filter(|line| line.need.amount.is_some() && line.need.is_least)
        .count();
    let n_unpriced = lines()
        .filter(|line| line.need.amount.is_some() && line.sold.is_none())
        .count();
    let parts: Vec<String> = [
        count(n_unknown, "line is not known", "lines are not known"),
        count(n_least, "line is the least", "lines are the least"),
        count(n_unpriced, "line has no price", "lines have no price"),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() {
        "not all hours are known".to_owned()
    } else {
        parts.join(", ")
    }
}

/// Keys that lead to what is missing, each place once.
pub(super) fn missing_rows(visit: &Visit, priced: &Priced, rows: &mut Vec<Row>) {
    let mut asked: Vec<(String, Place)> = Vec::new();
    for line in &priced.lines {
        if let Some((words, Some(place))) = missing(visit, line)
            && asked.iter().all(|(_, at)| *at != place)
        {
            asked.push((words, place));
        }
    }
    if asked.is_empty() {
        return;
    }
    rows.push(title("To be measured first", ""));
    rows.extend(
        asked
            .into_iter()
            .take(MOST_MISSING)
            .map(|(words, place)| bit(OrderBit::Go(words, place))),
    );
}

//! What is bought, taken away and hired: a row each, and behind the open one how it comes about.

use underbrick_calc::findings::Weight;
use underbrick_calc::order::{Comes, Currency, ItemGroup, Order, OrderLine, Priced, Sold};
use underbrick_calc::place::Place;
use underbrick_sheets::order::words::{count_words, need_words, round_up_words};

use super::missing::missing;
use super::{at_least, behind, bit, plain, title};
use crate::stops::figure;
use crate::stops::opened::{Opened, OrderPart, Part};
use crate::visit::Visit;
use crate::widgets::order::{LineRow, OrderBit};
use crate::widgets::rows::{Row, ValueState};

pub(super) fn rows(
    visit: &Visit,
    order: &Order,
    priced: &Priced,
    opened: &Opened,
    rows: &mut Vec<Row>,
) {
    for group in ItemGroup::ALL {
        let lines: Vec<&OrderLine> = priced
            .lines
            .iter()
            .filter(|line| line.item.group() == group)
            .collect();
        if lines.is_empty() {
            continue;
        }
        let note = match group {
            ItemGroup::Material => format!("at the prices of {}", order.list),
            ItemGroup::TakenAway | ItemGroup::Hire => String::new(),
        };
        rows.push(title(group.name(), note));
        for line in lines {
            let is_open = opened.shows(&Part::Order(OrderPart::Line(line.item)));
            rows.push(line_row(visit, line, order.currency, is_open));
            if is_open {
                behind::rows(visit, order, line, rows);
            }
        }
    }
    trip_rows(order, priced, rows);
}

/// What is wrong with a line, as elsewhere: the heaviest finding at one of its places, without the name that stands over it.
fn wrong(visit: &Visit, line: &OrderLine) -> Option<String> {
    let item = line.item;
    let found = [
        Place::OrderLine(item),
        Place::OrderRate(item),
        Place::OrderCount(item),
    ]
    .into_iter()
    .flat_map(|place| visit.findings_at(place))
    .filter(|finding| finding.weight >= Weight::Warning)
    .max_by_key(|finding| finding.weight)?;
    Some(without_name(&found.text, &line.need.name))
}

fn without_name(text: &str, name: &str) -> String {
    let rest = text
        .strip_prefix(name)
        .and_then(|rest| rest.strip_prefix(": "));
    rest.unwrap_or(text).to_owned()
}

fn line_row(visit: &Visit, line: &OrderLine, currency: Currency, is_open: bool) -> Row {
    let shown = visit.site().shown_in;
    let (mut state, mut note) = how(visit, line, currency);
    if let Some(words) = wrong(visit, line)
        && !matches!(state, ValueState::Missing | ValueState::Wrong)
    {
        state = ValueState::Wrong;
        note = words;
    }
    let count = line
        .sold
        .as_ref()
        .and_then(|sold| Some(count_words(sold.count?, sold.unit)));
    let value = match count {
        Some(count) => at_least(line.need.is_least && !is_locked(line), count),
        None if line.need.amount.is_some() => need_words(&line.need, shown),
        None => "not known".to_owned(),
    };
    let amount = match line.sold.as_ref().map(|sold| sold.amount) {
        Some(Some(amount)) => currency.written(amount),
        Some(None) => String::new(),
        None => "no price".to_owned(),
    };
    bit(OrderBit::Line(LineRow {
        part: OrderPart::Line(line.item),
        name: line.need.name.clone(),
        value,
        amount,
        note,
        state,
        is_open,
    }))
}

fn is_locked(line: &OrderLine) -> bool {
    line.sold.as_ref().is_some_and(|sold| sold.is_locked)
}

/// How a line was got, or what is wrong with it.
fn how(visit: &Visit, line: &OrderLine, currency: Currency) -> (ValueState, String) {
    let shown = visit.site().shown_in;
    if let Some((words, _)) = missing(visit, line) {
        return (ValueState::Missing, words);
    }
    let Some(sold) = &line.sold else {
        let why = line.said.first().map_or_else(
            || "nobody of the price list sells it".to_owned(),
            |said| without_name(said, &line.need.name),
        );
        return (ValueState::Missing, why);
    };
    if let Some(count) = sold.count.filter(|_| sold.is_locked) {
        let locked = format!("locked at {}", count_words(count, sold.unit));
        return match sold.asked_now {
            Some(now) if now != count => {
                let state = if now > count {
                    ValueState::Wrong
                } else {
                    ValueState::Known
                };
                let now = count_words(now, sold.unit);
                (state, format!("{locked}; the readings now ask {now}"))
            }
            _ => (
                ValueState::Known,
                format!("{locked}; {}", comes(line, sold, currency)),
            ),
        };
    }
    let needed = match round_up_words(sold) {
        words if words.is_empty() => need_words(&line.need, shown),
        words => words,
    };
    let waste = if line.waste.is_zero() {
        String::new()
    } else {
        format!(" with {} % waste", line.waste.normalize())
    };
    let needed = match needed.split_once(" needed") {
        Some((number, rest)) => format!("{number} needed{waste}{rest}"),
        None => format!("{needed}{waste}"),
    };
    (
        ValueState::Known,
        format!("{needed}; {}", comes(line, sold, currency)),
    )
}

/// Who sells it and how it comes, in few words.
pub(super) fn comes(line: &OrderLine, sold: &Sold, currency: Currency) -> String {
    let is_taken_away = line.item.group() == ItemGroup::TakenAway;
    let how = match (&sold.comes, is_taken_away) {
        (Comes::PickedUp, false) => "fetched",
        (Comes::PickedUp, true) => "with your own truck",
        (Comes::Delivered { .. }, false) => "delivered",
        (Comes::Delivered { .. }, true) => "taken away",
    };
    let loads = match sold.n_loads {
        0 | 1 => String::new(),
        n => format!(" in {n} loads"),
    };
    let cost = if sold.delivery.0.is_zero() {
        String::new()
    } else {
        format!(" for {}", plain(currency, sold.delivery))
    };
    format!("{}, {how}{loads}{cost}", sold.supplier)
}

/// Trips with one's own truck, and the barrow's.
fn trip_rows(order: &Order, priced: &Priced, rows: &mut Vec<Row>) {
    let trips = priced.own_trips;
    let barrow = priced.n_barrow_trips.filter(|n| *n > 0);
    if trips.n == 0 && barrow.is_none() {
        return;
    }
    rows.push(title("Carried", ""));
    if trips.n > 0 {
        rows.push(figure(
            "Trips with your own truck",
            trips.n.to_string(),
            format!(
                "{} and {}",
                order.currency.written(trips.cost),
                super::hours(trips.hours)
            ),
        ));
    }
    if let Some(n) = barrow {
        rows.push(figure(
            "Barrow trips",
            n.to_string(),
            "in and out, as tipped",
        ));
    }
}

//! Work: the crew, and hours and money by stage.

use underbrick_calc::order::{Labour, Order, Priced};
use underbrick_calc::place::Place;
use underbrick_sheets::order::words::work_words;

use super::behind::own;
use super::{at_least, bit, hours, title, wish};
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
    let wishes = &visit.site().order;
    rows.push(title(
        "Work",
        at_least(
            priced.labour.iter().any(|labour| labour.hours.is_none()),
            hours(priced.price.hours),
        ),
    ));
    rows.push(wish(
        visit,
        Place::CrewSize,
        "People on this job",
        priced.programme.n_crew.to_string(),
        own(wishes.n_crew.is_some()),
    ));
    let rate = priced
        .crew_rate
        .map_or_else(String::new, |rate| order.currency.written(rate));
    rows.push(wish(
        visit,
        Place::CrewRate,
        "Hour of one person",
        rate,
        own(wishes.crew_rate.is_some()),
    ));
    for labour in &priced.labour {
        let is_open = opened.shows(&Part::Order(OrderPart::Stage(labour.work.stage)));
        rows.push(stage_row(visit, order, labour, is_open));
        if is_open {
            behind(visit, order, priced, labour, rows);
        }
    }
}

fn stage_row(visit: &Visit, order: &Order, labour: &Labour, is_open: bool) -> Row {
    let shown = visit.site().shown_in;
    let is_known = labour.hours.is_some();
    let note = match labour.said.first() {
        Some(said) if !is_known => said.clone(),
        _ => match work_words(labour, shown) {
            words if words.is_empty() => "for the whole job".to_owned(),
            words => words,
        },
    };
    bit(OrderBit::Line(LineRow {
        part: OrderPart::Stage(labour.work.stage),
        name: labour.work.stage.name().to_owned(),
        value: labour.hours.map_or_else(
            || "not known".to_owned(),
            |all| at_least(labour.work.is_least, hours(all)),
        ),
        amount: labour
            .amount_paid
            .map_or_else(String::new, |paid| order.currency.written(paid)),
        note,
        state: if is_known {
            ValueState::Known
        } else {
            ValueState::Missing
        },
        is_open,
    }))
}

/// Behind the open stage: how its hours come about, and the hours of one unit as an entry.
fn behind(visit: &Visit, order: &Order, priced: &Priced, labour: &Labour, rows: &mut Vec<Row>) {
    let unit = labour.per.map_or("job", |per| per.symbol(true));
    let mut steps = Vec::new();
    match labour.amount {
        Some(amount) if labour.per.is_some() => {
            steps.push(format!("work: {} {unit}", amount.round_dp(2).normalize()));
        }
        _ => steps.push(format!(
            "work: {}",
            match work_words(labour, visit.site().shown_in) {
                words if words.is_empty() => "the job as a whole".to_owned(),
                words => words,
            }
        )),
    }
    if let (Some(each), Some(all)) = (labour.hours_each, labour.hours) {
        let each = each.normalize();
        let all = hours(all);
        steps.push(format!("× {each} h per {unit} = {all} of one person"));
    }
    if let (Some(paid), Some(rate)) = (labour.amount_paid, priced.crew_rate) {
        steps.push(format!(
            "× {} an hour = {}",
            order.currency.written(rate),
            order.currency.written(paid)
        ));
    }
    steps.extend(labour.said.iter().cloned());
    rows.push(bit(OrderBit::Steps(steps)));
    rows.push(wish(
        visit,
        Place::StageHours(labour.work.stage),
        "Hours a unit",
        labour.hours_each.map_or_else(String::new, |each| {
            format!("{} per {unit}", each.normalize())
        }),
        own(labour.is_own),
    ));
}

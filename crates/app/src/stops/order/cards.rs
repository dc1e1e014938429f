//! The three ways side by side: what each costs, how long it takes, what it cures and what not.

use underbrick_calc::order::{Cured, Order, Priced};

use super::{bit, days_words, price_words, title};
use crate::edit::Edit;
use crate::widgets::mark::Mark;
use crate::widgets::order::{OrderBit, WayCard};
use crate::widgets::rows::Row;

pub(super) fn rows(order: &Order, rows: &mut Vec<Row>) {
    rows.push(title("Three ways", "from the same readings"));
    let cards = order.ways.iter().map(|priced| {
        let is_chosen = priced.way == order.chosen;
        let chosen = if is_chosen { "ordered, " } else { "" };
        WayCard {
            name: priced.way.name().to_owned(),
            price: price_words(order.currency, priced),
            note: format!("{chosen}{}, {}", days_words(priced), cures(priced)),
            left: left(priced),
            is_chosen,
            edit: Edit::OrderWay(priced.way),
        }
    });
    rows.push(bit(OrderBit::Ways(cards.collect())));
}

fn cures(priced: &Priced) -> String {
    let n_all = priced.cures.len();
    let n_cured = priced
        .cures
        .iter()
        .filter(|cure| cure.cured == Cured::Yes)
        .count();
    match (n_cured, n_all) {
        (_, 0) => "no cause was found".to_owned(),
        (1, 1) => "cures the cause".to_owned(),
        (n, all) if n == all => format!("cures all {all} causes"),
        (n, all) => format!("cures {n} of {all} causes"),
    }
}

/// What is left of the causes, each named once.
fn left(priced: &Priced) -> Vec<(Mark, String)> {
    let named = |mark: Mark, cured: Cured, before: &str| {
        let mut causes: Vec<&str> = Vec::new();
        for cure in priced.cures.iter().filter(|cure| cure.cured == cured) {
            if !causes.contains(&cure.cause) {
                causes.push(cure.cause);
            }
        }
        (!causes.is_empty()).then(|| (mark, format!("{before}: {}", causes.join(", "))))
    };
    [
        named(Mark::Wrong, Cured::No, "not"),
        named(Mark::Wrong, Cured::OtherWork, "only with other work"),
        named(Mark::NotKnown, Cured::NotSaid, "not said"),
    ]
    .into_iter()
    .flatten()
    .collect()
}

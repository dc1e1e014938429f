//! The order as text for people.

use super::words::{comes_words, count_words, how_it_comes, rate_words, work_words};
use super::{OrderSheet, cured_words};
use crate::columns::{columns, paragraph};
use crate::wording::on_one_line;
use underbrick_calc::order::{Currency, ItemGroup, Money, Order, OrderLine, Price, Priced};
use underbrick_calc::site::{ShownIn, Site};

/// The order: the three ways side by side, then the way that is ordered, line by line. With `why`, each line says how it comes about.
#[must_use]
pub fn order_text(site: &Site, order: &Order, sheet: &OrderSheet, why: bool) -> String {
    let mut text = format!("{}\n", sheet.address);
    if !sheet.walk.is_empty() {
        text += &format!("{}\n", sheet.walk);
    }
    text += &format!("Prices: {}, {}\n", sheet.price_list, sheet.currency);
    text += "\nThree ways, from the same readings\n";
    text += &columns(&ways(order));
    for priced in &order.ways {
        text += &cures(priced);
    }
    if let Some(priced) = order.chosen() {
        text += &format!("\nOrdered: {}\n", priced.way.name());
        for group in ItemGroup::ALL {
            text += &lines(site, order, priced, group, why);
        }
        text += &labour(priced, site.shown_in, order.currency);
        text += &trips(priced, order.currency);
        text += &sum(&priced.price, order.currency);
        text += &days(priced);
    }
    text += "\nBefore work starts\n";
    for caution in &sheet.cautions {
        text += &paragraph("  - ", caution);
    }
    text
}

fn at_least(is_least: bool, words: String) -> String {
    if is_least {
        format!("at least {words}")
    } else {
        words
    }
}

fn ways(order: &Order) -> Vec<Vec<String>> {
    let money = |price: &Price| at_least(price.is_least, order.currency.written(price.total));
    order
        .ways
        .iter()
        .map(|priced| {
            let mark = if priced.way == order.chosen {
                "✓"
            } else {
                " "
            };
            let worst = priced.worst.as_ref().map_or_else(String::new, |worst| {
                format!("to {} if the worst pit holds everywhere", money(worst))
            });
            vec![
                mark.to_owned(),
                priced.way.name().to_owned(),
                money(&priced.price),
                worst,
                days_in_words(priced.programme.days.len()),
            ]
        })
        .collect()
}

fn days_in_words(n: usize) -> String {
    if n == 1 {
        "1 day".to_owned()
    } else {
        format!("{n} days")
    }
}

fn cures(priced: &Priced) -> String {
    if priced.cures.is_empty() {
        return String::new();
    }
    let mut text = format!("\n  {}:\n", priced.way.name());
    let mut told = Vec::new();
    for cure in &priced.cures {
        // Two rules may have found one cause.
        if !told.contains(&(cure.cause, cure.cured)) {
            text += &format!("    {}: {}\n", cure.cause, cured_words(cure.cured));
            told.push((cure.cause, cure.cured));
        }
    }
    text
}

fn lines(site: &Site, order: &Order, priced: &Priced, group: ItemGroup, why: bool) -> String {
    let of_group: Vec<&OrderLine> = priced
        .lines
        .iter()
        .filter(|line| line.item.group() == group)
        .collect();
    if of_group.is_empty() {
        return String::new();
    }
    let mut text = format!("\n{}\n", group.name());
    let rows: Vec<Vec<String>> = of_group
        .iter()
        .map(|line| line_row(line, order.currency))
        .collect();
    if !why {
        return text + &columns(&rows);
    }
    let written = columns(&rows);
    for (row, line) in written.lines().zip(of_group) {
        text += &format!("{row}\n");
        for step in how_it_comes(line, order.currency, site.shown_in) {
            text += &paragraph("        ", &on_one_line(&step));
        }
    }
    text
}

fn line_row(line: &OrderLine, currency: Currency) -> Vec<String> {
    let name = on_one_line(&line.need.name);
    let Some(sold) = &line.sold else {
        return vec![name, "no price".to_owned()];
    };
    let count = sold.count.map_or_else(
        || "not known".to_owned(),
        |count| count_words(count, sold.unit),
    );
    let amount = sold
        .amount
        .map_or_else(|| "not known".to_owned(), |amount| currency.written(amount));
    vec![
        name,
        at_least(line.need.is_least && sold.count.is_some(), count),
        rate_words(sold, currency),
        amount,
        on_one_line(&sold.supplier),
        comes_words(sold, line.item.group() == ItemGroup::TakenAway, currency),
        if sold.is_locked { "locked" } else { "" }.to_owned(),
    ]
}

fn labour(priced: &Priced, shown: ShownIn, currency: Currency) -> String {
    let rows: Vec<Vec<String>> = priced
        .labour
        .iter()
        .map(|labour| {
            vec![
                labour.work.stage.name().to_owned(),
                work_words(labour, shown),
                labour.hours.map_or_else(
                    || "hours not known".to_owned(),
                    |hours| format!("{} h", hours.round_dp(1).normalize()),
                ),
                labour
                    .amount_paid
                    .map_or_else(String::new, |amount| currency.written(amount)),
            ]
        })
        .collect();
    format!("\nWork\n{}", columns(&rows))
}

fn trips(priced: &Priced, currency: Currency) -> String {
    let mut rows = Vec::new();
    if priced.own_trips.n > 0 {
        rows.push(vec![
            "Own trips".to_owned(),
            priced.own_trips.n.to_string(),
            currency.written(priced.own_trips.cost),
        ]);
    }
    if let Some(n) = priced.n_barrow_trips {
        rows.push(vec!["Barrow trips".to_owned(), n.to_string()]);
    }
    columns(&rows)
}

fn sum(price: &Price, currency: Currency) -> String {
    let rows: Vec<Vec<String>> = [
        ("Material", price.material),
        ("Delivery and trips", price.delivery),
        ("Taken away", price.taken_away),
        ("Hire", price.hire),
        ("Labour", price.labour),
        ("Cost", price.cost),
        ("Contingency", price.contingency),
        ("Mark-up or margin", price.gain),
        ("Tax", price.tax),
        ("Rounding", price.rounding),
    ]
    .into_iter()
    .filter(|(name, amount)| *name == "Cost" || *amount != Money::default())
    .map(|(name, amount)| vec![name.to_owned(), currency.written(amount)])
    .chain(std::iter::once(vec![
        "Price".to_owned(),
        at_least(price.is_least, currency.written(price.total)),
    ]))
    .collect();
    format!("\nSum\n{}", columns(&rows))
}

fn days(priced: &Priced) -> String {
    let n_crew = priced.programme.n_crew;
    let people = if n_crew == 1 { "person" } else { "people" };
    let mut text = format!("\nDays, {n_crew} {people}\n");
    for (day, number) in priced.programme.days.iter().zip(1..) {
        let stages: Vec<String> = day
            .stages
            .iter()
            .map(|(stage, hours)| format!("{} {} h", stage.name(), hours.round_dp(1).normalize()))
            .collect();
        text += &paragraph(&format!("  Day {number}: "), &stages.join(", "));
        if !day.on_site.is_empty() {
            let items: Vec<&str> = day.on_site.iter().map(|item| item.name()).collect();
            text += &paragraph("         on site: ", &items.join(", "));
        }
        for said in &day.said {
            text += &paragraph("         ", said);
        }
    }
    text
}

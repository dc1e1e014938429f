//! What it costs, and what is taken away for it.

use super::Design;
use super::plain::listed;
use crate::order::words::way_price_words;
use crate::wording::on_one_line;
use underbrick_calc::order::{Currency, Item, ItemGroup, Money, NeedAmount, OrderLine, Priced};
use underbrick_drawing::plain::material_in_plain_words;

pub(super) fn price(design: Design<'_>) -> Vec<String> {
    let Some(order) = &design.results.order else {
        return vec!["No price is given yet.".to_owned()];
    };
    let Some(priced) = order.chosen() else {
        return vec!["No price is given yet.".to_owned()];
    };
    let mut lines = vec![price_sentence(order.currency, priced)];
    let missing = not_priced(priced);
    if !missing.is_empty() && priced.price.total != Money::default() {
        lines.push(format!(
            "Not in it, because it is not known or not priced yet: {}.",
            listed(&missing)
        ));
    }
    if priced.price.total != Money::default() {
        let tax = if priced.price.tax == Money::default() {
            "No sales tax is in it."
        } else {
            "Sales tax is in it."
        };
        lines.push(format!(
            "It covers material, delivery, what is taken away, hired machines and the work. {tax}"
        ));
    }
    lines
}

/// The price in a sentence, as stop Order shows it.
fn price_sentence(currency: Currency, priced: &Priced) -> String {
    let total = priced.price.total;
    if total == Money::default() {
        return "No price is given yet.".to_owned();
    }
    let words = way_price_words(currency, priced);
    match &priced.worst {
        Some(worst) if worst.total > total => format!(
            "The price is {words}: the lower figure if the ground is everywhere as the holes showed it, the higher if it is everywhere as bad as in the worst of them."
        ),
        _ => format!("The price is {words}."),
    }
}

/// Lines whose amount is not known, by their names.
fn not_priced(priced: &Priced) -> Vec<String> {
    let lines = priced.lines.iter();
    let open = lines.filter(|line| line.sold.as_ref().is_none_or(|sold| sold.amount.is_none()));
    let mut names: Vec<String> = open.map(|line| plain_item(line).to_owned()).collect();
    let open_work = priced
        .labour
        .iter()
        .any(|labour| labour.amount_paid.is_none());
    if open_work {
        names.push("part of the work".to_owned());
    }
    let mut told: Vec<String> = Vec::new();
    for name in names {
        if !told.contains(&name) {
            told.push(name);
        }
    }
    told
}

/// What an item of the order is to a homeowner.
fn plain_item(line: &OrderLine) -> &'static str {
    match line.item {
        Item::Brick | Item::SecondBrick => "brick in the place of what is broken",
        Item::Base => "stone",
        Item::SettingBed => "sand for the bed",
        Item::Jointing => "sand for the gaps",
        Item::Fabric => "cloth under the stone",
        Item::HaunchConcrete => "concrete behind the edges",
        Item::EdgingStrip | Item::EdgingSpike => "edging strip and spikes",
        Item::FormBoard | Item::FormStake | Item::FormScrew | Item::Spacer | Item::String => {
            "boards and string to work by"
        }
        Item::UnsuitableSpoil | Item::TrimSpoil | Item::OldBedSpoil => "taking away what is dug",
        Item::OldBrick => "taking away old brick",
        Item::Plate | Item::Saw => "hire of machines",
    }
}

/// What leaves the site, as the order counts it.
pub(super) fn taken_away(design: Design<'_>) -> Vec<String> {
    let Some(priced) = design.chosen() else {
        return Vec::new();
    };
    let shown = design.shown();
    let lines = priced.lines.iter();
    let away = lines.filter(|line| line.item.group() == ItemGroup::TakenAway);
    let things: Vec<String> = away
        .filter_map(|line| {
            let what = match line.item {
                Item::OldBrick => "old brick that is not laid again".to_owned(),
                Item::OldBedSpoil => "the old sand under the brick".to_owned(),
                Item::UnsuitableSpoil => {
                    let material = line.need.material.as_ref();
                    material.map_or_else(
                        || "ground that is too weak".to_owned(),
                        |key| material_in_plain_words(design.catalogue, key),
                    )
                }
                _ => "soil dug out to make room".to_owned(),
            };
            let amount = match line.need.amount? {
                NeedAmount::Bulk { loose, .. } => shown.volume(loose),
                NeedAmount::Pieces { n, .. } => format!("{n} pieces"),
                NeedAmount::Mixed(_)
                | NeedAmount::Length(_)
                | NeedAmount::Area(_)
                | NeedAmount::Days(_) => return None,
            };
            let least = if line.need.is_least {
                "at least "
            } else {
                "about "
            };
            Some(format!("{what} ({least}{amount})"))
        })
        .map(|line| on_one_line(&line))
        .collect();
    if things.is_empty() {
        return Vec::new();
    }
    let mut text = format!("Taken away, measured as it is loaded: {}.", listed(&things));
    if priced.needs.n_over > 0 {
        text += &format!(
            " About {} whole bricks are left over; they stay with you.",
            priced.needs.n_over
        );
    }
    vec![text]
}

//! The owner sheet as a message: plain text that can be pasted anywhere.

use super::place_in_words;
use crate::agreement::{
    Design, Standing, lead, rest_of_the_causes, standing, terms, way_in_plain_words,
};
use crate::order::words::way_price_words;
use crate::wording::on_one_line;

/// What a homeowner is sent: the finding, what can be chosen with its price, what will be done, when, and what it is not. Lines are as
/// long as they come: a message breaks them itself.
#[must_use]
pub fn owner_message(design: Design<'_>) -> String {
    let now = terms(design);
    let place = match place_in_words(design) {
        place if place.is_empty() => "no address yet".to_owned(),
        place => place,
    };
    let mut text = format!("Your walk: {place}\n\n");
    text += &format!("{}\n", lead(design));
    for line in rest_of_the_causes(design) {
        text += &format!("{line}\n");
    }
    if let Some(order) = &design.results.order {
        text += "\nWhat can be chosen:\n";
        for priced in &order.ways {
            let chosen = if priced.way == order.chosen {
                " (chosen)"
            } else {
                ""
            };
            text += &format!(
                "- {}{chosen}: {}\n",
                way_in_plain_words(priced.way),
                way_price_words(order.currency, priced)
            );
        }
    }
    let parts = [
        ("What will be done", SCOPE),
        ("Price", &["price"][..]),
        ("When", &["dates"]),
        ("Not mended by this", &["not-cured"]),
        ("Not known yet", &["open"]),
        ("Not part of this", &["excluded"]),
    ];
    for (title, keys) in parts {
        let lines: Vec<&str> = keys.iter().flat_map(|key| now.text(key).lines()).collect();
        if lines.is_empty() {
            continue;
        }
        text += &format!("\n{title}:\n");
        for line in lines {
            text += &format!("- {line}\n");
        }
    }
    text += &match standing(design.site, &now) {
        Standing::NotAgreed => "\nNothing is agreed until it is signed.\n".to_owned(),
        stands => format!("\n{}\n", stands.words()),
    };
    if let Some(letterhead) = design.letterhead {
        text += &format!("\n{}\n", on_one_line(&letterhead.name));
        if !letterhead.phone.is_empty() {
            text += &format!("{}\n", on_one_line(&letterhead.phone));
        }
    }
    text
}

/// Clauses of what is done.
const SCOPE: &[&str] = &[
    "way",
    "scope-size",
    "scope-brick-up",
    "scope-dig",
    "scope-base",
    "scope-edge",
    "scope-bed",
    "scope-brick",
    "scope-fall",
    "scope-away",
];

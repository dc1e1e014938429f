//! What is sent to a supplier: what, how much, where to. No prices: those he knows.

use super::words::{count_words, day_needed};
use crate::dates::{in_words, working_day};
use crate::wording::on_one_line;
use std::collections::BTreeMap;
use underbrick_calc::order::{Comes, ItemGroup, Order, OrderLine, Sold};
use underbrick_calc::site::Site;

/// What one supplier is asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// Who.
    pub supplier: String,
    /// Plain text, to be put on the clipboard or into a letter.
    pub text: String,
}

/// One message for each supplier of the way that is ordered, by name. What one fetches oneself is asked to be put ready; what is taken
/// away with one's own truck is asked of nobody.
#[must_use]
pub fn messages(site: &Site, order: &Order) -> Vec<Message> {
    let mut asked: BTreeMap<&str, Vec<(&OrderLine, &Sold)>> = BTreeMap::new();
    let lines = order.chosen().into_iter().flat_map(|priced| &priced.lines);
    for line in lines {
        let Some(sold) = &line.sold else { continue };
        let is_own_trip =
            line.item.group() == ItemGroup::TakenAway && matches!(sold.comes, Comes::PickedUp);
        if !is_own_trip && sold.count.is_some_and(|count| !count.is_zero()) {
            asked.entry(&sold.supplier).or_default().push((line, sold));
        }
    }
    asked
        .into_iter()
        .map(|(supplier, lines)| Message {
            supplier: supplier.to_owned(),
            text: message(site, order, supplier, &lines),
        })
        .collect()
}

fn message(site: &Site, order: &Order, supplier: &str, lines: &[(&OrderLine, &Sold)]) -> String {
    let mut text = format!("To {}\n\n", on_one_line(supplier));
    let place = on_one_line(site.address.trim());
    let place = if place.is_empty() {
        "the address that we give you".to_owned()
    } else {
        place
    };
    let mut is_dated = true;
    for part in Part::ALL {
        let of_part: Vec<&(&OrderLine, &Sold)> = lines
            .iter()
            .filter(|(line, sold)| Part::of(line, sold) == part)
            .collect();
        if of_part.is_empty() {
            continue;
        }
        text += &match part {
            Part::Brought => format!("Please deliver to {place}:\n"),
            Part::Fetched => "Please have ready for us to fetch:\n".to_owned(),
            Part::TakenAway => format!("Please take away from {place}:\n"),
            Part::Hired => "Please have ready for hire:\n".to_owned(),
        };
        for (line, sold) in of_part {
            let Some(count) = sold.count else { continue };
            let count = count_words(count, sold.unit);
            let name = on_one_line(&line.need.name);
            // Taken away is said above.
            let name = name.strip_suffix(" away").unwrap_or(&name);
            let loads = if sold.n_loads > 1 {
                format!(", in {} loads", sold.n_loads)
            } else {
                String::new()
            };
            let day = day(site, order, line);
            is_dated = is_dated && day.is_some();
            let on = match part {
                Part::Hired => "from",
                Part::Brought | Part::Fetched | Part::TakenAway => "on",
            };
            let on = day.map_or_else(String::new, |day| format!(", {on} {day}"));
            text += &format!("- {name}: {count}{loads}{on}\n");
        }
        text.push('\n');
    }
    text += if is_dated {
        "Please confirm.\n"
    } else {
        "Please confirm the day.\n"
    };
    text
}

/// The date on which a line must be there or is taken away; `None` where the work has no first day yet.
fn day(site: &Site, order: &Order, line: &OrderLine) -> Option<String> {
    let nth = day_needed(order.chosen()?, line.item)?;
    let (year, month, day) = working_day(site.show.start?, nth)?;
    Some(in_words(year, month, day))
}

/// What a supplier is asked to do.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Brought,
    Fetched,
    TakenAway,
    Hired,
}

impl Part {
    const ALL: [Self; 4] = [Self::Brought, Self::Fetched, Self::TakenAway, Self::Hired];

    fn of(line: &OrderLine, sold: &Sold) -> Self {
        match (line.item.group(), &sold.comes) {
            (ItemGroup::TakenAway, _) => Self::TakenAway,
            (ItemGroup::Hire, _) => Self::Hired,
            (ItemGroup::Material, Comes::Delivered { .. }) => Self::Brought,
            (ItemGroup::Material, Comes::PickedUp) => Self::Fetched,
        }
    }
}

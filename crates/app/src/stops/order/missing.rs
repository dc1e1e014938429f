//! Where to go for a line that is not known: the first reading that it waits for.

use underbrick_calc::order::{Item, ItemGroup, OrderLine};
use underbrick_calc::place::Place;
use underbrick_calc::site::{LegShape, Site};
use underbrick_sheets::order::words::step_words;

use crate::stops::{Stop, entry_behind};
use crate::visit::Visit;

/// What is missing, in words, and where it is measured; `None` for a line that is known.
pub(super) fn missing(visit: &Visit, line: &OrderLine) -> Option<(String, Option<Place>)> {
    if line.need.amount.is_some() || is_counted(line) {
        return None;
    }
    let words = line.need.steps.last().map_or_else(
        || "a reading is missing".to_owned(),
        |step| step_words(step, visit.site().shown_in),
    );
    let place = place(visit, line)
        .map(|place| entry_behind(place, visit))
        .filter(|place| Stop::of(*place) != Stop::Order);
    Some((words, place))
}

/// Locked: whatever is not known, so many were ordered.
fn is_counted(line: &OrderLine) -> bool {
    line.sold.as_ref().is_some_and(|sold| sold.count.is_some())
}

fn place(visit: &Visit, line: &OrderLine) -> Option<Place> {
    let (site, results) = (visit.site(), visit.results());
    if results.line.is_none() {
        return of_run(site);
    }
    let is_spoil = matches!(
        line.item,
        Item::UnsuitableSpoil | Item::TrimSpoil | Item::OldBedSpoil
    );
    if is_spoil && site.pits.is_empty() {
        return Some(Place::Pit(0));
    }
    let is_dug = results
        .bed
        .as_ref()
        .is_some_and(|bed| bed.earthwork.dig_bank.is_some());
    match line.item {
        Item::Brick | Item::SecondBrick | Item::OldBrick => Some(Place::BricksOnSite),
        Item::Base if results.bed.is_none() => Some(Place::BaseMaterial),
        item if item.group() == ItemGroup::TakenAway && !is_dug => Some(Place::OldBelowSill),
        _ => line.need.from.first().copied(),
    }
}

/// The first length that the run lacks.
fn of_run(site: &Site) -> Option<Place> {
    if site.line.legs.is_empty() {
        return Some(Place::Leg(0));
    }
    let of_legs = site
        .line
        .legs
        .iter()
        .enumerate()
        .find_map(|(leg_idx, leg)| match leg.shape {
            LegShape::Straight { length: None } => Some(Place::LegLength(leg_idx)),
            LegShape::Curve { radius: None, .. } => Some(Place::LegRadius(leg_idx)),
            LegShape::Curve { turn: None, .. } => Some(Place::LegTurn(leg_idx)),
            LegShape::Straight { .. } | LegShape::Curve { .. } => None,
        });
    of_legs.or_else(|| site.line.width.is_none().then_some(Place::Width))
}

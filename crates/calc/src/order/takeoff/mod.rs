//! What the section and the plan need, item by item: nothing is typed twice, and nothing is rounded but what is counted.
//!
//! Where the walk is laid again on its old base, the old setting bed comes off and a new one goes down, and brick, joints, edge, restraint
//! and forms are as designed; there is no dig, no base and no fabric, and the old edge's trench serves the new edge.

mod base;
mod bed;
mod brick;
mod bulk;
mod concrete;
mod draft;
mod edge;
mod fabric;
mod forms;
mod jointing;
mod missing;
mod old_bed;
mod spoil;
mod work;

use super::Found;
use super::item::{Item, Way};
use super::need::{Need, NeedAmount, Needs};
use super::price_list::Offer;
use crate::bed::Bed;
use crate::catalogue::Catalogue;
use crate::lay::{Lay, LayNote};
use crate::quantity::{Volume, cubic_metres};
use crate::site::{MaterialKey, Site};

/// What one way of rebuilding needs.
#[must_use]
pub fn needs(site: &Site, catalogue: &Catalogue, found: Found<'_>, way: Way) -> Needs {
    let job = &Job {
        site,
        catalogue,
        found,
        way,
    };
    let mut items = brick::bricks(job);
    if way.digs() {
        items.push(base::base(job));
    }
    items.push(bed::setting_bed(job));
    items.push(jointing::jointing(job));
    if way.digs() {
        items.extend(fabric::fabric(job));
    }
    items.extend(concrete::haunch(job));
    items.extend(edge::edging(job));
    items.extend(forms::forms(job));
    if way.digs() {
        items.extend(spoil::dug(job));
    } else {
        items.push(old_bed::old_bed(job));
    }
    items.extend(brick::old_brick(job));
    let brick = brick::Count::of(job);
    Needs {
        work: work::work(job, &items),
        barrowed: barrowed(&items),
        n_reused: brick.n_reused(way),
        n_over: brick.n_over(way),
        items,
    }
}

/// What a take-off is made from.
#[derive(Clone, Copy, Debug)]
struct Job<'a> {
    site: &'a Site,
    catalogue: &'a Catalogue,
    found: Found<'a>,
    way: Way,
}

impl<'a> Job<'a> {
    fn bed(&self) -> Option<&'a Bed> {
        self.found.bed
    }

    /// Every brick, where it could be laid out.
    fn lay(&self) -> Option<&'a Lay> {
        let is_not_laid =
            |note: &LayNote| matches!(note, LayNote::TooMany { .. } | LayNote::WiderThanTheWalk);
        self.found
            .lay
            .filter(|lay| !lay.notes.iter().any(is_not_laid))
    }

    /// Whose goods are taken: the supplier that was named for the line, else the first of the list.
    fn offer(&self, item: Item, material: Option<&MaterialKey>) -> Option<&'a Offer> {
        let offers = &self.catalogue.prices.price(item, material)?.offers;
        let wish = self.site.order.line(item);
        let named = wish.and_then(|wish| wish.supplier.as_deref());
        offers
            .iter()
            .find(|offer| Some(offer.supplier.as_str()) == named)
            .or(offers.first())
    }
}

/// Loose stone, sand and ground, in and out.
fn barrowed(items: &[Need]) -> Volume {
    let loose = |need: &Need| match (need.item, need.amount) {
        (
            Item::Base
            | Item::SettingBed
            | Item::UnsuitableSpoil
            | Item::TrimSpoil
            | Item::OldBedSpoil,
            Some(NeedAmount::Bulk { loose, .. }),
        ) => Some(loose),
        _ => None,
    };
    items
        .iter()
        .filter_map(loose)
        .fold(cubic_metres(0.0), |sum, loose| sum + loose)
}

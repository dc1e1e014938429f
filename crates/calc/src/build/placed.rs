//! Base placed so far against base ordered, and whether the rest will do.

use super::Placed;
use super::lifts_placed::{as_tipped, entry};
use super::stage::HoldStage;
use super::stages::is_closed;
use crate::bed::{Bed, Lift};
use crate::order::{Decimal, Item, NeedAmount, Order, SaleUnit, Sold};
use crate::quantity::{Length, cubic_metres, in_cubic_metres, in_metres};
use crate::site::Site;

/// Volumes nearer than this are the same: a thousandth of a litre.
const SAME_M3: f64 = 1e-6;

/// What was placed, by the lifts that are closed; `None` where no base is built.
///
/// A lift counts as far as it stays: without the trench of the edge, as the order counts it. By readings, a lift whose thickness was read at its thickest counts in the ratio of what was read to what was designed there. What is
/// left of the order will do where what was bought, as tipped, less what was placed, is not less than the lifts to come.
pub(super) fn placed(site: &Site, bed: &Bed, order: Option<&Order>) -> Option<Placed> {
    if !site.order.way.digs() {
        return None;
    }
    let (closed, open): (Vec<&Lift>, Vec<&Lift>) = bed
        .lifts
        .each
        .iter()
        .partition(|lift| is_closed(site, HoldStage::Lift(lift.number)));
    let share = share_bought(bed, order);
    let loose_m3 = |lift: &Lift| in_cubic_metres(lift.loose_volume) * share;
    let by_design_m3: f64 = closed.iter().map(|lift| loose_m3(lift)).sum();
    let read: Vec<(f64, Option<f64>)> = closed
        .iter()
        .map(|lift| (loose_m3(lift), ratio_read(site, bed, lift)))
        .collect();
    let by_readings_m3 = read.iter().any(|(_, ratio)| ratio.is_some()).then(|| {
        read.iter()
            .map(|(m3, ratio)| m3 * ratio.unwrap_or(1.0))
            .sum::<f64>()
    });
    let to_come_m3: f64 = open.iter().map(|lift| loose_m3(lift)).sum();
    let bought_m3 = sold(order, Item::Base)
        .and_then(|sold| sold.volume)
        .map(in_cubic_metres);
    let placed_m3 = by_readings_m3.unwrap_or(by_design_m3);
    Some(Placed {
        by_design: cubic_metres(by_design_m3),
        by_readings: by_readings_m3.map(cubic_metres),
        to_come: cubic_metres(to_come_m3),
        delivered: delivered(site, order),
        will_do: bought_m3.map(|bought_m3| bought_m3 - placed_m3 >= to_come_m3 - SAME_M3),
    })
}

/// Which share of the lifts stays: the trench of the edge takes the rest, and the order does not count it. All of them without an order.
fn share_bought(bed: &Bed, order: Option<&Order>) -> f64 {
    let lifts = bed.lifts.each.iter();
    let whole_m3: f64 = lifts.map(|lift| in_cubic_metres(lift.loose_volume)).sum();
    let base = order
        .and_then(Order::chosen)
        .and_then(|priced| priced.line(Item::Base));
    match base.and_then(|line| line.need.amount.as_ref()) {
        Some(NeedAmount::Bulk { loose, .. }) if whole_m3 > 0.0 => {
            in_cubic_metres(*loose) / whole_m3
        }
        _ => 1.0,
    }
}

/// What was read of a lift's thickness by what it was designed as, both as tipped.
fn ratio_read(site: &Site, bed: &Bed, lift: &Lift) -> Option<f64> {
    let read: Length = as_tipped(bed, &entry(site, lift.number)?)?;
    let ratio = in_metres(read) / in_metres(lift.loose);
    (ratio.is_finite() && ratio >= 0.0).then_some(ratio)
}

fn sold(order: Option<&Order>, item: Item) -> Option<&Sold> {
    order?.chosen()?.line(item)?.sold.as_ref()
}

/// Base, and whatever else came, in the order in which items are listed. An item that the list does not price has no unit and is left
/// out.
fn delivered(
    site: &Site,
    order: Option<&Order>,
) -> Vec<(Item, Decimal, Option<Decimal>, SaleUnit)> {
    let came = |item: Item| -> Vec<Decimal> {
        site.build
            .days
            .iter()
            .flat_map(|day| &day.deliveries)
            .filter(|delivery| delivery.item == item)
            .filter_map(|delivery| delivery.count)
            .collect()
    };
    Item::ALL
        .into_iter()
        .filter_map(|item| {
            let counts = came(item);
            if counts.is_empty() && item != Item::Base {
                return None;
            }
            let sold = sold(order, item)?;
            let total = counts
                .into_iter()
                .try_fold(Decimal::ZERO, |total, count| total.checked_add(count))?;
            Some((item, total, sold.count, sold.unit))
        })
        .collect()
}

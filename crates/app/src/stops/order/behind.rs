//! Behind the open line: how it comes about, what it is asked for, who else sells it, whether it is locked.

use underbrick_calc::order::{Currency, Decimal, Money, Order, OrderLine, PriceList, Sold};
use underbrick_calc::place::Place;
use underbrick_sheets::order::words::{count_words, how_it_comes, rate_words};

use super::lines::comes;
use super::missing::missing;
use super::{bit, plain, wish};
use crate::edit::Edit;
use crate::visit::Visit;
use crate::widgets::offer_card::OfferCard;
use crate::widgets::order::OrderBit;
use crate::widgets::rows::Row;

pub(super) fn rows(visit: &Visit, order: &Order, line: &OrderLine, rows: &mut Vec<Row>) {
    let shown = visit.site().shown_in;
    let mut steps = how_it_comes(line, order.currency, shown);
    if let Some(sold) = &line.sold {
        steps.push(comes(line, sold, order.currency));
    }
    rows.push(bit(OrderBit::Steps(steps)));
    if let Some((words, Some(place))) = missing(visit, line) {
        rows.push(bit(OrderBit::Go(words, place)));
    }
    if let Some(sold) = &line.sold {
        let rate = rate_words(sold, order.currency);
        rows.push(wish(
            visit,
            Place::OrderRate(line.item),
            "Rate",
            rate,
            own(sold.is_own_rate),
        ));
    }
    supplier_rows(&visit.catalogue().prices, order.currency, line, rows);
    lock_rows(visit, line, rows);
}

/// Where a value comes from.
pub(super) const fn own(is_own: bool) -> &'static str {
    if is_own {
        "set for this job"
    } else {
        "from the list"
    }
}

/// Suppliers as cards, in the order of the list, so that a tap moves none of them.
fn supplier_rows(list: &PriceList, currency: Currency, line: &OrderLine, rows: &mut Vec<Row>) {
    let Some(sold) = &line.sold else { return };
    if line.others.is_empty() {
        return;
    }
    let offers = list
        .price(line.item, line.need.material.as_ref())
        .map_or(&[][..], |price| price.offers.as_slice());
    let at = |one: &Sold| {
        offers
            .iter()
            .position(|offer| offer.supplier == one.supplier && offer.unit == one.unit)
    };
    let mut all: Vec<&Sold> = std::iter::once(sold).chain(&line.others).collect();
    all.sort_by_key(|one| at(one));
    for one in all {
        rows.push(card(line, one, sold, currency));
    }
}

fn card(line: &OrderLine, one: &Sold, now: &Sold, currency: Currency) -> Row {
    let is_now = std::ptr::eq(one, now);
    let rate = rate_words(one, currency);
    let note = one.count.map_or_else(
        || rate.clone(),
        |count| format!("{} at {rate}", count_words(count, one.unit)),
    );
    let difference = match (total(one), total(now)) {
        _ if is_now => "ordered here".to_owned(),
        (Some(one), Some(now)) => difference(currency, one, now),
        _ => String::new(),
    };
    // Who it is stands in the title.
    let comes = comes(line, one, currency);
    let comes = comes
        .strip_prefix(&one.supplier)
        .map_or(comes.as_str(), |how| how.trim_start_matches(", "));
    Row::Offer(OfferCard {
        title: one.supplier.clone(),
        value: total(one).map_or_else(String::new, |total| plain(currency, Money(total))),
        note,
        more: [comes, &difference]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join("; "),
        is_now,
        edit: Edit::Supplier(line.item, Some(one.supplier.clone())),
    })
}

/// With delivery.
fn total(sold: &Sold) -> Option<Decimal> {
    sold.amount?.plus(sold.delivery).map(|total| total.0)
}

fn difference(currency: Currency, one: Decimal, now: Decimal) -> String {
    if one == now {
        "the same".to_owned()
    } else if one < now {
        format!("{} less", plain(currency, Money(now - one)))
    } else {
        format!("{} more", plain(currency, Money(one - now)))
    }
}

fn lock_rows(visit: &Visit, line: &OrderLine, rows: &mut Vec<Row>) {
    let Some(sold) = &line.sold else { return };
    if sold.is_locked {
        let count = sold
            .count
            .map_or_else(String::new, |count| count_words(count, sold.unit));
        rows.push(wish(
            visit,
            Place::OrderCount(line.item),
            "Locked at",
            count,
            "ordered: it stays",
        ));
        rows.push(Row::Acts(vec![(
            "unlock: the readings decide".to_owned(),
            Edit::Lock(line.item, None),
        )]));
    } else if let Some(count) = sold.count {
        rows.push(Row::Acts(vec![(
            format!("lock at {}", count_words(count, sold.unit)),
            Edit::Lock(line.item, Some(count)),
        )]));
    } else {
        rows.push(wish(
            visit,
            Place::OrderCount(line.item),
            "Locked at",
            String::new(),
            "",
        ));
    }
}

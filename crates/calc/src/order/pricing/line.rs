//! One line: who sells it, how many units, at which rate.

use super::super::need::{Figure, Need, Step};
use super::super::price_list::{Comes, ItemPrice, Offer, PriceList};
use super::super::priced::{OrderLine, Remark, Sold};
use super::bought::{self, Misfit};
use super::carried::{self, Carried, Loads};
use super::said::{Said, misfit_words};
use crate::field::check_decimal;
use crate::order::{Item, Money};
use crate::place::Place;
use crate::site::{LineWish, ShownIn, Site};
use rust_decimal::Decimal;

/// A line with what is to be said of it.
#[derive(Clone, Debug)]
pub(super) struct Lined {
    pub line: OrderLine,
    /// Whether its amount is the least, or not known.
    pub is_least: bool,
    pub remarks: Vec<Remark>,
}

/// The line of a need.
pub(super) fn line(site: &Site, list: &PriceList, need: &Need) -> Lined {
    written(site, list, need.clone(), Asked::ByReadings)
}

/// The line of an item that was ordered and locked, and that the design does not need.
pub(super) fn not_needed(site: &Site, list: &PriceList, item: Item) -> Lined {
    let need = Need {
        item,
        material: (item == Item::Base).then(|| site.bed.base_material.clone()),
        name: item.name().to_owned(),
        amount: None,
        is_least: false,
        from: Vec::new(),
        steps: vec![Step::new(
            "what the design needs",
            Figure::Words("nothing".to_owned()),
        )],
    };
    written(site, list, need, Asked::Nothing)
}

/// What asks for a line.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Asked {
    /// The readings, as far as they go.
    ByReadings,
    /// Nothing: it is only locked.
    Nothing,
}

/// What was decided for a line of this job, as far as it can be true.
#[derive(Clone, Copy, Default)]
struct Terms {
    rate: Option<Money>,
    locked: Option<Decimal>,
}

fn written(site: &Site, list: &PriceList, need: Need, asked: Asked) -> Lined {
    let mut said = Said::of(&need);
    let wish = site.order.line(need.item);
    let terms = terms(need.item, wish, &mut said);
    let price = list.price(need.item, need.material.as_ref()).or_else(|| {
        // Which material was ordered is not known any more.
        let of_item = list.items.iter().find(|price| price.item == need.item);
        of_item.filter(|_| asked == Asked::Nothing)
    });
    let mut sold = None;
    let mut others = Vec::new();
    match price.and_then(|price| Some((price, chosen(price, wish, &mut said)?))) {
        Some((price, chosen_idx)) => {
            let seller = Seller {
                list,
                price,
                need: &need,
                asked,
            };
            for (offer_idx, offer) in price.offers.iter().enumerate() {
                if offer_idx == chosen_idx {
                    sold = seller.sells(offer, terms, &mut said);
                } else {
                    let mut unheard = Said::of(&need);
                    others.extend(seller.sells(offer, Terms::default(), &mut unheard));
                }
            }
        }
        // A list without any item is no list: there is nothing to look up in it.
        None if list.items.is_empty() => {}
        None => said.warn(
            Place::OrderLine(need.item),
            "the price list does not have it",
            "Add it to the list, with unit and rate.",
        ),
    }
    lock_differs(sold.as_ref(), &mut said);
    let is_least = need.is_least
        || said.is_least
        || sold.as_ref().is_none_or(|sold| sold.amount.is_none())
        || (asked == Asked::ByReadings && need.amount.is_none());
    Lined {
        is_least,
        line: OrderLine {
            item: need.item,
            waste: price.map_or(Decimal::ZERO, |price| price.waste.max(Decimal::ZERO)),
            sold,
            others,
            said: said.remarks.iter().map(|it| it.text.clone()).collect(),
            need,
        },
        remarks: said.remarks,
    }
}

/// Which offer: of the supplier that was chosen for this job, else the first. `None` where nobody offers it.
fn chosen(price: &ItemPrice, wish: Option<&LineWish>, said: &mut Said) -> Option<usize> {
    let first = price.offers.first()?;
    let Some(supplier) = wish.and_then(|wish| wish.supplier.as_deref()) else {
        return Some(0);
    };
    let position = price
        .offers
        .iter()
        .position(|offer| offer.supplier == supplier);
    if position.is_none() {
        said.note(
            Place::OrderLine(price.item),
            &format!(
                "“{supplier}” does not offer it in the price list: taken from {}",
                first.supplier
            ),
            "Choose a supplier of the list, or add the offer to it.",
        );
    }
    Some(position.unwrap_or(0))
}

fn terms(item: Item, wish: Option<&LineWish>, said: &mut Said) -> Terms {
    let Some(wish) = wish else {
        return Terms::default();
    };
    let mut taken = |place: Place, number: Option<Decimal>, remedy: &'static str| {
        let number = number?;
        match check_decimal(place, number) {
            Ok(number) => Some(number),
            Err(error) => {
                said.refuse(place, &error.words(ShownIn::default()), remedy);
                None
            }
        }
    };
    Terms {
        rate: taken(
            Place::OrderRate(item),
            wish.rate.map(|rate| rate.0),
            "The rate of the price list is taken.",
        )
        .map(Money),
        locked: taken(
            Place::OrderCount(item),
            wish.locked,
            "The count that the readings ask is taken.",
        ),
    }
}

/// Who offers one item for one need.
struct Seller<'a> {
    list: &'a PriceList,
    price: &'a ItemPrice,
    need: &'a Need,
    asked: Asked,
}

impl Seller<'_> {
    /// The line as one supplier sells it; `None` where his unit does not fit, or he asks nothing for it.
    fn sells(&self, offer: &Offer, terms: Terms, said: &mut Said) -> Option<Sold> {
        let amount = self.need.amount.as_ref();
        let place = Place::OrderLine(self.need.item);
        let currency = self.list.currency;
        let rate = terms.rate.unwrap_or(offer.rate);
        if rate.0 <= Decimal::ZERO {
            said.warn(
                place,
                &format!(
                    "the rate of {}, {}, is not above zero",
                    offer.supplier,
                    currency.written(rate)
                ),
                "Set a rate for this job, or in the price list.",
            );
            return None;
        }
        let exact = match self.exact(offer) {
            Ok(exact) => exact,
            Err(misfit) => {
                said.warn(
                    place,
                    &misfit_words(misfit, amount, offer),
                    "Set a unit that fits in the price list.",
                );
                // What was ordered was ordered, whatever the list says now.
                terms.locked?;
                None
            }
        };
        let asked = exact.and_then(|exact| bought::rounded_up(exact, offer));
        let count = terms.locked.or(asked);
        let carried = count.map_or(Carried::default(), |count| {
            carried::carried(amount, offer, count)
        });
        let brought = count.map_or(Some(Brought::default()), |count| {
            self.brought(offer, count, carried, said)
        });
        let amount = count.and_then(|count| Some(currency.rounded(rate.times(count)?)));
        if exact.is_some() && (asked.is_none() || amount.is_none()) || brought.is_none() {
            said.warn(
                place,
                "it comes to more than can be reckoned",
                "Look at the rate, the step and what a unit holds.",
            );
            said.is_least = true;
        }
        let brought = brought.unwrap_or_default();
        Some(Sold {
            supplier: offer.supplier.clone(),
            unit: offer.unit,
            exact,
            count,
            is_locked: terms.locked.is_some(),
            asked_now: asked.filter(|asked| terms.locked.is_some_and(|locked| locked != *asked)),
            rate,
            is_own_rate: terms.rate.is_some(),
            amount,
            comes: offer.comes.clone(),
            n_loads: brought.n_loads,
            delivery: brought.delivery,
            weighs: carried.mass,
            volume: carried.volume,
            is_taxed: self.price.is_taxed,
        })
    }

    /// Units with waste, before rounding up; `None` where the need is not known.
    fn exact(&self, offer: &Offer) -> Result<Option<Decimal>, Misfit> {
        match (self.asked, &self.need.amount) {
            (Asked::Nothing, _) => Ok(Some(Decimal::ZERO)),
            (Asked::ByReadings, None) => Ok(None),
            (Asked::ByReadings, Some(amount)) => {
                let units = bought::units(amount, offer)?;
                let exact = bought::with_waste(units, self.price.waste);
                exact.map(Some).ok_or(Misfit::TooMuch)
            }
        }
    }

    /// Loads of the supplier and what they cost; `None` past what can be counted.
    fn brought(
        &self,
        offer: &Offer,
        count: Decimal,
        carried: Carried,
        said: &mut Said,
    ) -> Option<Brought> {
        let Comes::Delivered { per_load, most } = &offer.comes else {
            return Some(Brought::default());
        };
        let n_loads = match carried::loads(self.need.amount.as_ref(), offer, count, *most, carried)
        {
            Loads::Known(n_loads) => n_loads,
            Loads::AtLeastOne => {
                said.is_least = true;
                said.warn(
                    Place::OrderLine(self.need.item),
                    &format!(
                        "what a load of {} carries is given in a measure in which this is not known: one load is reckoned",
                        offer.supplier
                    ),
                    "Give the load in the price list in a measure that fits.",
                );
                1
            }
            Loads::TooMany => return None,
        };
        Some(Brought {
            n_loads,
            delivery: carried::delivery(self.list, n_loads, *per_load)?,
        })
    }
}

/// What a supplier brings.
#[derive(Clone, Copy, Default)]
struct Brought {
    n_loads: u32,
    delivery: Money,
}

fn lock_differs(sold: Option<&Sold>, said: &mut Said) {
    let Some((sold, locked, asked)) =
        sold.and_then(|sold| Some((sold, sold.count?, sold.asked_now?)))
    else {
        return;
    };
    let written = |number: Decimal| {
        let number = number.normalize();
        format!("{number} {}", sold.unit.symbol(number == Decimal::ONE))
    };
    let text = if asked.is_zero() {
        format!("locked at {}; the design does not need it", written(locked))
    } else {
        let (by, way) = if asked > locked {
            (asked.checked_sub(locked), "more")
        } else {
            (locked.checked_sub(asked), "less")
        };
        let by = by.map_or(String::new(), |by| format!(", {} {way}", written(by)));
        format!(
            "locked at {}; the readings ask {} now{by}",
            written(locked),
            written(asked)
        )
    };
    said.warn(
        Place::OrderCount(said.item),
        &text,
        "Order the difference, or unlock the line.",
    );
}

//! What a way comes to: sums of rounded amounts, contingency, gain, tax, a friendly figure.

use super::super::item::ItemGroup;
use super::super::money::{Currency, Money};
use super::super::price_list::{Gain, PriceList};
use super::super::priced::{Labour, Price, Trips};
use super::hours::paid;
use super::line::Lined;
use rust_decimal::Decimal;

/// The price. Every amount is rounded to the minor unit before it is added, halves away from zero. Tax is put on what the homeowner
/// pays for the taxed lines: their share of contingency and gain is in it. Own trips are taxed as labour is. What leaves 28 digits is
/// left out, and the price is the least.
pub(super) fn price(
    list: &PriceList,
    lines: &[Lined],
    labour: &[Labour],
    trips: Option<Trips>,
    crew_rate: Option<Money>,
) -> Price {
    let mut sums = Sums {
        currency: list.currency,
        is_least: trips.is_none() || lines.iter().any(|line| line.is_least),
    };
    let of_group = |group: ItemGroup| {
        lines
            .iter()
            .filter(move |line| line.line.item.group() == group)
            .filter_map(|line| line.line.sold.as_ref()?.amount)
            .collect::<Vec<_>>()
    };
    let material = sums.sum(&of_group(ItemGroup::Material));
    let taken_away = sums.sum(&of_group(ItemGroup::TakenAway));
    let hire = sums.sum(&of_group(ItemGroup::Hire));
    let trips = trips.unwrap_or_default();
    let mut brought: Vec<Money> = lines
        .iter()
        .filter_map(|line| Some(line.line.sold.as_ref()?.delivery))
        .collect();
    brought.push(trips.cost);
    let delivery = sums.sum(&brought);

    let mut wages: Vec<Money> = labour.iter().filter_map(|it| it.amount_paid).collect();
    sums.is_least |= labour
        .iter()
        .any(|it| it.amount_paid.is_none() || it.work.is_least);
    if trips.hours > Decimal::ZERO {
        let on_the_road = crew_rate.and_then(|rate| paid(list, trips.hours, rate));
        sums.is_least |= on_the_road.is_none();
        wages.extend(on_the_road);
    }
    let labour_paid = sums.sum(&wages);
    let hours = sums.hours(labour, trips);

    let cost = sums.sum(&[material, delivery, taken_away, hire, labour_paid]);
    let contingency = sums.part(cost, list.contingency);
    let before_gain = sums.sum(&[cost, contingency]);
    let gain = sums.gain(before_gain, list.gain);
    let selling = sums.sum(&[before_gain, gain]);

    let mut taxed: Vec<Money> = lines
        .iter()
        .filter_map(|line| line.line.sold.as_ref())
        .filter(|sold| sold.is_taxed)
        .flat_map(|sold| [sold.amount.unwrap_or_default(), sold.delivery])
        .collect();
    if list.labour_taxed {
        taxed.extend([labour_paid, trips.cost]);
    }
    let taxed = sums.sum(&taxed);
    let tax = sums.tax(taxed, selling, cost, list.tax);
    let due = sums.sum(&[selling, tax]);
    let rounding = sums.up_to_a_multiple(due, list.round_to);
    let total = sums.sum(&[due, rounding]);
    Price {
        material,
        delivery,
        taken_away,
        hire,
        labour: labour_paid,
        hours,
        cost,
        contingency,
        gain,
        tax,
        rounding,
        total,
        is_least: sums.is_least,
    }
}

/// Sums that notice what they had to leave out.
struct Sums {
    currency: Currency,
    is_least: bool,
}

impl Sums {
    fn sum(&mut self, amounts: &[Money]) -> Money {
        amounts.iter().fold(Money::default(), |sum, amount| {
            self.known(sum.plus(*amount)).unwrap_or(sum)
        })
    }

    fn hours(&mut self, labour: &[Labour], trips: Trips) -> Decimal {
        let all = labour.iter().filter_map(|it| it.hours);
        all.fold(trips.hours, |sum, hours| {
            self.known(sum.checked_add(hours)).unwrap_or(sum)
        })
    }

    /// So many percent of an amount.
    fn part(&mut self, amount: Money, percent: Decimal) -> Money {
        let part = amount
            .times(percent)
            .and_then(|times| times.0.checked_div(Decimal::ONE_HUNDRED));
        self.rounded(part)
    }

    /// A mark-up is a share of the cost; a margin is a share of the price: cost ÷ (1 − margin) − cost.
    fn gain(&mut self, cost: Money, gain: Gain) -> Money {
        match gain {
            Gain::MarkUp(percent) => self.part(cost, percent),
            Gain::Margin(percent) => {
                let price = Decimal::ONE_HUNDRED
                    .checked_sub(percent)
                    .filter(|left| *left > Decimal::ZERO)
                    .and_then(|left| cost.times(Decimal::ONE_HUNDRED)?.0.checked_div(left));
                self.rounded(price.and_then(|price| price.checked_sub(cost.0)))
            }
        }
    }

    fn tax(&mut self, taxed: Money, selling: Money, cost: Money, percent: Decimal) -> Money {
        if cost.0.is_zero() || percent.is_zero() {
            return Money::default();
        }
        let parts = cost.times(Decimal::ONE_HUNDRED);
        let at_once = parts.and_then(|parts| {
            taxed
                .times(selling.0)?
                .times(percent)?
                .0
                .checked_div(parts.0)
        });
        // Where the product leaves 28 digits the share is divided first.
        let tax = at_once.or_else(|| {
            taxed
                .0
                .checked_div(cost.0)?
                .checked_mul(selling.0)?
                .checked_div(Decimal::ONE_HUNDRED)?
                .checked_mul(percent)
        });
        self.rounded(tax)
    }

    /// What is missing to the next multiple.
    fn up_to_a_multiple(&mut self, amount: Money, multiple: Decimal) -> Money {
        if multiple <= Decimal::ZERO {
            return Money::default();
        }
        let missing = amount.0.checked_rem(multiple).map(|past| {
            if past.is_zero() {
                Decimal::ZERO
            } else {
                multiple - past
            }
        });
        Money(self.known(missing).unwrap_or_default())
    }

    fn rounded(&mut self, amount: Option<Decimal>) -> Money {
        let amount = self.known(amount).unwrap_or_default();
        self.currency.rounded(Money(amount))
    }

    fn known<T>(&mut self, amount: Option<T>) -> Option<T> {
        self.is_least |= amount.is_none();
        amount
    }
}

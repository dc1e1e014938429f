//! What holds for every need and every list, against exact rational arithmetic.

use crate::lists::{dec, line, list, money, need, needs, offer, price, sells, sold};
use num_rational::Ratio;
use proptest::prelude::*;
use underbrick_calc::order::{
    Comes, Decimal, Gain, Holds, Item, ItemPrice, Money, NeedAmount, Offer, PriceList, SaleUnit,
};
use underbrick_calc::quantity::{CUBIC_YARD_M3, cubic_metres, feet, square_metres};

type Exact = Ratio<i128>;

fn exact(number: Decimal) -> Exact {
    Ratio::new(number.mantissa(), 10_i128.pow(number.scale()))
}

/// `number` / 1000.
fn thousandths(number: u32) -> Decimal {
    Decimal::new(i64::from(number), 3)
}

fn bulk_of(loose_thousandths: u32) -> NeedAmount {
    let loose = cubic_metres(f64::from(loose_thousandths) / 1000.0 * CUBIC_YARD_M3);
    NeedAmount::Bulk {
        in_place: loose / 1.25,
        loose,
        dry_mass: loose * underbrick_calc::quantity::kilograms_per_cubic_metre(1600.0),
    }
}

fn priced_bulk(loose_thousandths: u32, step: u32, minimum: u32, waste: u32) -> Exact {
    let mut offer = offer(SaleUnit::CubicYard, None);
    offer.step = thousandths(step);
    offer.minimum = thousandths(minimum);
    let mut price = sells(Item::Base, vec![offer]);
    price.waste = thousandths(waste);
    let line = line(price, bulk_of(loose_thousandths));
    exact(sold(&line).count.unwrap())
}

fn ratio(number: u32) -> Exact {
    Ratio::new(i128::from(number), 1000)
}

proptest! {
    /// What is bought is exactly what rational arithmetic buys.
    #[test]
    fn bought_as_rational_arithmetic_buys(
        loose in 1_u32..5_000_000,
        step in 1_u32..5000,
        minimum in 0_u32..20_000,
        waste in 0_u32..40_000,
    ) {
        let wanted = ratio(loose) * (Ratio::from_integer(1) + ratio(waste) / 100);
        let least = wanted.max(ratio(minimum));
        let expected = (least / ratio(step)).ceil() * ratio(step);
        prop_assert_eq!(priced_bulk(loose, step, minimum, waste), expected);
    }

    /// So it is with thirds and sevenths: pieces in packs.
    #[test]
    fn packs_as_rational_arithmetic_buys(n in 1_u32..5000, each in 1_u32..600, waste in 0_u32..40_000) {
        let mut price = sells(Item::FormStake, vec![offer(SaleUnit::Box, Some(Holds::Pieces(each)))]);
        price.waste = thousandths(waste);
        let line = line(price, crate::lists::pieces(n));
        let wanted = Exact::from_integer(i128::from(n)) * (Ratio::from_integer(1) + ratio(waste) / 100);
        let expected = (wanted / i128::from(each)).ceil();
        prop_assert_eq!(exact(sold(&line).count.unwrap()), expected);
    }

    /// Never below the need, and not a step above need or minimum. The needs are any binary fractions.
    #[test]
    fn never_below_the_need(
        area_m2 in 0.0_f64..1e5,
        roll_m2 in 1e-2_f64..1e3,
        step in 1_u32..5000,
        minimum in 0_u32..20_000,
    ) {
        let mut offer = offer(SaleUnit::Roll, Some(Holds::Area(square_metres(roll_m2))));
        offer.step = thousandths(step);
        offer.minimum = thousandths(minimum);
        let line = line(sells(Item::Fabric, vec![offer]), NeedAmount::Area(square_metres(area_m2)));
        let bought = f64::try_from(sold(&line).count.unwrap()).unwrap();
        let wanted = area_m2 / roll_m2;
        let (step, minimum) = (f64::from(step) / 1000.0, f64::from(minimum) / 1000.0);
        prop_assert!(bought >= wanted - 1e-9);
        prop_assert!(bought - step < wanted.max(minimum) + 1e-9);
    }

    /// Twice the need buys at most twice as much and a step, and never less.
    #[test]
    fn twice_the_need(loose in 1_u32..2_500_000, step in 1_u32..5000, minimum in 0_u32..20_000, waste in 0_u32..40_000) {
        let once = priced_bulk(loose, step, minimum, waste);
        let twice = priced_bulk(loose * 2, step, minimum, waste);
        prop_assert!(twice <= once * 2 + ratio(step));
        prop_assert!(twice >= once);
    }

    /// A line is the same wherever the others stand; suppliers keep their terms in whichever order.
    #[test]
    fn order_of_items_and_offers_does_not_matter(all in lists_of_prices(), seed in any::<u64>()) {
        let wanted = wanted();
        let first = price(&all, needs(wanted.clone()));
        let mut shuffled = all.clone();
        let n_items = shuffled.items.len();
        for idx in 0..n_items {
            let other = usize::try_from(seed.rotate_left(u32::try_from(idx).unwrap() * 7)).unwrap() % n_items;
            shuffled.items.swap(idx, other);
        }
        let second = price(&shuffled, needs(wanted.clone()));
        prop_assert_eq!(&first, &second);
        // The other supplier first, and the first chosen for the job.
        let mut site = crate::lists::site();
        let mut reversed = all;
        for item in &mut reversed.items {
            item.offers.reverse();
            site.order.lines.push(underbrick_calc::site::LineWish {
                item: item.item,
                supplier: Some("first".to_owned()),
                rate: None,
                locked: None,
            });
        }
        let third = crate::lists::price_at(&site, &reversed, needs(wanted));
        prop_assert_eq!(&first.price, &third.price);
        for (one, other) in first.lines.iter().zip(&third.lines) {
            prop_assert_eq!(&one.sold, &other.sold);
        }
    }

    /// Sums are exact, every amount is in whole minor units, and tax and gain are what rational arithmetic makes of them.
    #[test]
    fn sums_are_exact(all in lists_of_prices()) {
        let found = price(&all, needs(wanted()));
        let of = |money: Money| exact(money.0);
        let mut lines = Exact::from_integer(0);
        let mut taxed = Exact::from_integer(0);
        for line in &found.lines {
            let sold = sold(line);
            let amount = cents(exact(sold.count.unwrap()) * exact(sold.rate.0));
            prop_assert_eq!(of(sold.amount.unwrap()), amount);
            let both = amount + of(sold.delivery);
            lines += both;
            if sold.is_taxed {
                taxed += both;
            }
        }
        let cost = of(found.price.cost);
        prop_assert_eq!(cost, lines + of(found.own_trips.cost));
        let hundred = Exact::from_integer(100);
        let contingency = cents(cost * exact(all.contingency) / hundred);
        prop_assert_eq!(of(found.price.contingency), contingency);
        let base = cost + contingency;
        let gain = cents(match all.gain {
            Gain::MarkUp(percent) => base * exact(percent) / hundred,
            Gain::Margin(percent) => base * hundred / (hundred - exact(percent)) - base,
        });
        prop_assert_eq!(of(found.price.gain), gain);
        let selling = base + gain;
        let tax = if cost == Exact::from_integer(0) {
            cost
        } else {
            cents(taxed * selling / cost * exact(all.tax) / hundred)
        };
        prop_assert_eq!(of(found.price.tax), tax);
        let due = selling + tax;
        let friendly = exact(all.round_to);
        prop_assert_eq!(of(found.price.total), (due / friendly).ceil() * friendly);
        prop_assert_eq!(of(found.price.rounding), of(found.price.total) - due);
        prop_assert!(!found.price.is_least);
    }
}

/// To the cent, halves up: for amounts from zero up.
fn cents(amount: Exact) -> Exact {
    let half = Ratio::new(1, 2);
    (amount * 100 + half).floor() / 100
}

fn wanted() -> Vec<underbrick_calc::order::Need> {
    vec![
        need(Item::Base, bulk_of(7_300)),
        need(Item::SettingBed, bulk_of(1_111)),
        need(Item::FormBoard, NeedAmount::Length(feet(95.0))),
        need(Item::UnsuitableSpoil, bulk_of(9_050)),
    ]
}

prop_compose! {
    fn an_offer(unit: SaleUnit, holds: Option<Holds>)(
        rate in 1_u32..200_000,
        step in prop::sample::select(vec!["1", "0.5", "0.25", "0.1", "3"]),
        minimum in 0_u32..5,
        per_load in 0_u32..200_000,
        is_delivered in any::<bool>(),
    ) -> Offer {
        Offer {
            rate: Money(thousandths(rate)),
            step: dec(step),
            minimum: Decimal::from(minimum),
            comes: if is_delivered {
                Comes::Delivered {
                    per_load: Money(thousandths(per_load)),
                    most: Some(Holds::Volume(cubic_metres(2.0 * CUBIC_YARD_M3))).filter(|_| unit != SaleUnit::Piece),
                }
            } else {
                Comes::PickedUp
            },
            ..offer(unit, holds)
        }
    }
}

prop_compose! {
    fn an_item(item: Item, unit: SaleUnit, holds: Option<Holds>)(
        first in an_offer(unit, holds),
        second in an_offer(unit, holds),
        waste in 0_u32..20_000,
        is_taxed in any::<bool>(),
    ) -> ItemPrice {
        let first = Offer { supplier: "first".to_owned(), ..first };
        let second = Offer { supplier: "second".to_owned(), ..second };
        ItemPrice { waste: thousandths(waste), is_taxed, ..sells(item, vec![first, second]) }
    }
}

prop_compose! {
    fn lists_of_prices()(
        items in (
            an_item(Item::Base, SaleUnit::CubicYard, None),
            an_item(Item::SettingBed, SaleUnit::Ton, None),
            an_item(Item::FormBoard, SaleUnit::Piece, Some(Holds::Length(feet(12.0)))),
            an_item(Item::UnsuitableSpoil, SaleUnit::CubicMetre, None),
        ),
        contingency in 0_u32..20_000,
        gain in 0_u32..60_000,
        is_margin in any::<bool>(),
        tax in 0_u32..25_000,
        round_to in prop::sample::select(vec!["0.01", "1", "10", "25", "99"]),
    ) -> PriceList {
        let (base, bed, board, spoil) = items;
        let gain = thousandths(gain);
        let mut list = list(vec![base, bed, board, spoil]);
        list.contingency = thousandths(contingency);
        list.gain = if is_margin { Gain::Margin(gain) } else { Gain::MarkUp(gain) };
        list.tax = thousandths(tax);
        list.round_to = dec(round_to);
        list.carry.per_trip = money("17.35");
        list
    }
}

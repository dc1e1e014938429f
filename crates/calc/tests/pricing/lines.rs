//! Whose offer, at which rate, and what a lock holds.

use crate::lists::{
    bulk, cubic_yards, dec, line_at, list, money, need, needs, offer, pieces, price_at, sells,
    site, sold,
};
use underbrick_calc::findings::Weight;
use underbrick_calc::order::{Comes, Item, ItemPrice, Money, Need, Offer, PriceList, SaleUnit};
use underbrick_calc::place::Place;
use underbrick_calc::site::{LineWish, MaterialKey, Site};

fn wish(item: Item) -> LineWish {
    LineWish {
        item,
        supplier: None,
        rate: None,
        locked: None,
    }
}

fn wished(line: LineWish) -> Site {
    let mut site = site();
    site.order.lines.push(line);
    site
}

/// By the yard at 40.00 and brought for 85.00; by the ton at 31.00, fetched.
fn two_suppliers() -> ItemPrice {
    let yard = Offer {
        rate: money("40"),
        comes: Comes::Delivered {
            per_load: money("85"),
            most: None,
        },
        ..offer(SaleUnit::CubicYard, None)
    };
    let quarry = Offer {
        supplier: "Quarry".to_owned(),
        rate: money("31"),
        ..offer(SaleUnit::Ton, None)
    };
    sells(Item::Base, vec![yard, quarry])
}

/// 10 yd³ loose at 100 lb/ft³ are 270 ft³, 27,000 lb, 13.5 tons.
#[test]
fn every_supplier_rounds_and_delivers_for_himself() {
    let amount = bulk(cubic_yards(10.0), 100.0);
    let first = line_at(&site(), two_suppliers(), amount);
    let (yard, quarry) = (sold(&first), &first.others[0]);
    assert_eq!(yard.supplier, "Stone Yard");
    assert_eq!(
        (yard.count, yard.amount, yard.delivery, yard.n_loads),
        (Some(dec("10")), Some(money("400")), money("85"), 1)
    );
    assert_eq!(
        (quarry.count, quarry.amount, quarry.delivery, quarry.n_loads),
        (Some(dec("14")), Some(money("434")), money("0"), 0)
    );
    let chosen = wished(LineWish {
        supplier: Some("Quarry".to_owned()),
        ..wish(Item::Base)
    });
    let second = line_at(&chosen, two_suppliers(), amount);
    assert_eq!(sold(&second), quarry);
    assert_eq!(second.others, std::slice::from_ref(yard));
    assert!(second.said.is_empty());
}

#[test]
fn a_supplier_who_is_not_in_the_list_is_told() {
    let gone = wished(LineWish {
        supplier: Some("Gone".to_owned()),
        ..wish(Item::Base)
    });
    let line = line_at(&gone, two_suppliers(), bulk(cubic_yards(10.0), 100.0));
    assert_eq!(sold(&line).supplier, "Stone Yard");
    assert!(line.said[0].contains("Gone") && line.said[0].contains("Stone Yard"));
}

#[test]
fn the_rate_of_the_job_goes_first_and_only_for_its_supplier() {
    let own = wished(LineWish {
        rate: Some(money("42.55")),
        ..wish(Item::Base)
    });
    let line = line_at(&own, two_suppliers(), bulk(cubic_yards(10.0), 100.0));
    assert!(sold(&line).is_own_rate);
    assert_eq!(sold(&line).amount, Some(money("425.50")));
    assert_eq!(line.others[0].rate, money("31"));
    assert!(!line.others[0].is_own_rate);
}

#[track_caller]
fn check_refused(line: LineWish, place: Place) {
    let site = wished(line);
    let needs = needs(vec![need(Item::Base, bulk(cubic_yards(10.0), 100.0))]);
    let priced = price_at(&site, &list(vec![two_suppliers()]), needs);
    let of_it = priced.line(Item::Base).unwrap();
    assert_eq!(sold(of_it).amount, Some(money("400")));
    assert!(!sold(of_it).is_own_rate && !sold(of_it).is_locked);
    let [remark] = &priced.remarks[..] else {
        panic!("{:?}", priced.remarks);
    };
    assert_eq!((remark.place, remark.weight), (place, Weight::Warning));
    assert_eq!(of_it.said, std::slice::from_ref(&remark.text));
}

#[test]
fn what_cannot_be_true_is_refused_with_words() {
    for rate in ["0", "-3", "100001"] {
        let line = LineWish {
            rate: Some(money(rate)),
            ..wish(Item::Base)
        };
        check_refused(line, Place::OrderRate(Item::Base));
    }
    for locked in ["-1", "1000001"] {
        let line = LineWish {
            locked: Some(dec(locked)),
            ..wish(Item::Base)
        };
        check_refused(line, Place::OrderCount(Item::Base));
    }
}

#[test]
fn a_rate_of_the_list_that_is_not_above_zero_leaves_no_price() {
    for rate in ["0", "-2"] {
        let mut free = two_suppliers();
        free.offers[0].rate = money(rate);
        let amount = bulk(cubic_yards(10.0), 100.0);
        let of_it = line_at(&site(), free.clone(), amount);
        assert!(of_it.sold.is_none());
        assert!(of_it.said[0].contains("not above zero"));
        assert_eq!(of_it.others.len(), 1, "the other supplier is there");
        let own = wished(LineWish {
            rate: Some(money("39")),
            ..wish(Item::Base)
        });
        let of_it = line_at(&own, free, amount);
        assert_eq!(sold(&of_it).amount, Some(money("390")));
    }
}

fn locked(item: Item, count: &str) -> Site {
    wished(LineWish {
        locked: Some(dec(count)),
        ..wish(item)
    })
}

#[test]
fn a_lock_holds_whatever_the_readings_ask() {
    let mut price = two_suppliers();
    price.offers[0].step = dec("0.5");
    for (loose_yd3, asked_now, words) in [
        (12.0, None, ""),
        (14.2, Some("14.5"), "2.5 yd³ more"),
        (9.4, Some("9.5"), "2.5 yd³ less"),
    ] {
        let amount = bulk(cubic_yards(loose_yd3), 100.0);
        let line = line_at(&locked(Item::Base, "12"), price.clone(), amount);
        let sold = sold(&line);
        assert!(sold.is_locked);
        assert_eq!(sold.count, Some(dec("12")));
        assert_eq!(sold.amount, Some(money("480")));
        assert_eq!(sold.asked_now, asked_now.map(dec));
        assert_eq!(line.said.is_empty(), asked_now.is_none());
        assert!(line.said.concat().contains(words), "{:?}", line.said);
        assert!(!line.others[0].is_locked);
    }
}

#[test]
fn a_locked_line_outlives_its_need() {
    let priced = price_at(
        &locked(Item::Base, "12"),
        &list(vec![two_suppliers()]),
        needs(Vec::new()),
    );
    let line = &priced.lines[0];
    assert_eq!(sold(line).amount, Some(money("480")));
    assert_eq!(sold(line).asked_now, Some(dec("0")));
    assert!(line.said[0].contains("does not need it"));
    assert_eq!(
        priced.price.total,
        money("565"),
        "and it is paid, with its load"
    );
    assert!(!priced.price.is_least, "nothing about it is unknown");
}

/// The base of the site is crusher run: its rate, and not the one for any material; of what has no entry for any, the first is taken.
#[test]
fn a_locked_line_without_a_need_keeps_the_rate_of_its_material() {
    let of_material = |item: Item, name: &str, rate: &str| ItemPrice {
        material: Some(MaterialKey(name.to_owned())),
        ..sells(
            item,
            vec![Offer {
                rate: money(rate),
                ..offer(SaleUnit::CubicYard, None)
            }],
        )
    };
    let list = list(vec![
        sells(Item::Base, vec![offer(SaleUnit::CubicYard, None)]),
        of_material(Item::Base, "crusher_run", "44"),
        of_material(Item::TrimSpoil, "clay", "31"),
        of_material(Item::TrimSpoil, "loam", "29"),
    ]);
    for (item, rate) in [(Item::Base, "44"), (Item::TrimSpoil, "31")] {
        let priced = price_at(&locked(item, "3"), &list, needs(Vec::new()));
        assert_eq!(sold(priced.line(item).unwrap()).rate, money(rate));
    }
}

#[test]
fn what_was_ordered_in_a_unit_that_no_longer_fits_is_still_paid() {
    let brick = sells(Item::Brick, vec![offer(SaleUnit::Pallet, None)]);
    let of_it = line_at(&locked(Item::Brick, "2"), brick, pieces(900));
    assert_eq!(sold(&of_it).amount, Some(money("20")));
    assert!(of_it.said[0].contains("what one pallet"));
}

#[test]
fn a_need_that_is_not_known_keeps_its_rate_and_makes_the_price_the_least() {
    let unknown = Need {
        amount: None,
        ..need(Item::Base, pieces(0))
    };
    let priced = price_at(&site(), &list(vec![two_suppliers()]), needs(vec![unknown]));
    let sold = sold(&priced.lines[0]);
    assert_eq!(
        (sold.rate, sold.count, sold.amount),
        (money("40"), None, None)
    );
    assert_eq!(sold.delivery, Money::default());
    assert!(priced.price.is_least);
}

#[test]
fn an_entry_for_the_material_goes_before_the_one_for_any() {
    let of_material = |name: &str, rate: &str| ItemPrice {
        material: Some(MaterialKey(name.to_owned())),
        ..sells(
            Item::Base,
            vec![Offer {
                rate: money(rate),
                ..offer(SaleUnit::CubicYard, None)
            }],
        )
    };
    let any = sells(Item::Base, vec![offer(SaleUnit::CubicYard, None)]);
    let list = list(vec![
        any,
        of_material("clean", "50"),
        of_material("dense", "44"),
    ]);
    for (material, rate) in [(Some("dense"), "44"), (Some("slag"), "10"), (None, "10")] {
        let need = Need {
            material: material.map(|name| MaterialKey(name.to_owned())),
            ..need(Item::Base, bulk(cubic_yards(1.0), 100.0))
        };
        let priced = price_at(&site(), &list, needs(vec![need]));
        assert_eq!(sold(&priced.lines[0]).rate, money(rate));
    }
}

#[test]
fn without_a_list_lines_have_no_price_and_nothing_is_said() {
    let all = needs(vec![need(Item::Brick, pieces(10))]);
    let priced = price_at(&site(), &PriceList::default(), all.clone());
    assert!(priced.lines[0].sold.is_none() && priced.remarks.is_empty());
    assert!(priced.price.is_least);
    let another = list(vec![two_suppliers()]);
    let priced = price_at(&site(), &another, all);
    assert_eq!(priced.remarks[0].place, Place::OrderLine(Item::Brick));
    assert!(priced.remarks[0].text.starts_with("Brick: the price list"));
}

#[test]
fn what_cannot_be_reckoned_is_the_least_and_does_not_panic() {
    let most = "79228162514264337593543950335";
    let mut huge = two_suppliers();
    huge.offers[0].rate = money(most);
    huge.offers[0].step = dec(most);
    huge.offers[0].minimum = dec(most);
    let mut list = list(vec![huge]);
    list.contingency = dec(most);
    list.tax = dec(most);
    list.round_to = dec(most);
    list.carry.per_trip = money(most);
    list.crew.rate = money(most);
    list.crew.hours_a_day = dec(most);
    let all = needs(vec![need(Item::Base, bulk(cubic_yards(1e9), 100.0))]);
    let priced = price_at(&site(), &list, all);
    assert!(priced.price.is_least);
    assert!(sold(&priced.lines[0]).amount.is_none());
    assert!(!priced.lines[0].said.is_empty());
}

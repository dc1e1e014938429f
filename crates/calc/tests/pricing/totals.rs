//! Sums, contingency, gain, tax, rounding: worked by hand, in decimals.

use crate::lists::{
    dec, list, money, need, needs, offer, pieces, price, sells, site, stage_hours, work,
};
use underbrick_calc::order::{
    CURRENCIES, Comes, Currency, Decimal, Gain, Item, ItemPrice, Money, Needs, Offer, Price,
    PriceList, SaleUnit, Stage, Way, WorkAmount, priced,
};

fn at(item: Item, rate: &str, is_taxed: bool) -> ItemPrice {
    let offer = Offer {
        rate: money(rate),
        ..offer(SaleUnit::Piece, None)
    };
    ItemPrice {
        is_taxed,
        ..sells(item, vec![offer])
    }
}

/// 120 bricks at 1.25 (150.00, taxed), old brick away 100 at 0.40 (40.00), 10 h at 50.00 (500.00): 690.00.
fn plain() -> (PriceList, Needs) {
    let mut list = list(vec![
        at(Item::Brick, "1.25", true),
        at(Item::OldBrick, "0.40", false),
    ]);
    list.crew.rate = money("50");
    list.hours = vec![stage_hours(Stage::HandOver, "10", None)];
    let needs = Needs {
        work: vec![work(Stage::HandOver, WorkAmount::Job)],
        ..needs(vec![
            need(Item::Brick, pieces(120)),
            need(Item::OldBrick, pieces(100)),
        ])
    };
    (list, needs)
}

fn plain_price(change: impl FnOnce(&mut PriceList)) -> Price {
    let (mut list, needs) = plain();
    change(&mut list);
    price(&list, needs).price
}

#[test]
fn the_parts_are_kept_apart() {
    let found = plain_price(|_| {});
    assert_eq!(
        found,
        Price {
            material: money("150.00"),
            delivery: money("0"),
            taken_away: money("40.00"),
            hire: money("0"),
            labour: money("500.00"),
            hours: dec("10"),
            cost: money("690.00"),
            contingency: money("0"),
            gain: money("0"),
            tax: money("0"),
            rounding: money("0"),
            total: money("690.00"),
            is_least: false,
        }
    );
}

/// Contingency 10 % of 690.00 is 69.00; mark-up 20 % of 759.00 is 151.80: 910.80.
#[test]
fn mark_up_is_a_share_of_the_cost() {
    let found = plain_price(|list| {
        list.contingency = dec("10");
        list.gain = Gain::MarkUp(dec("20"));
    });
    assert_eq!(found.contingency, money("69.00"));
    assert_eq!(found.gain, money("151.80"));
    assert_eq!(found.total, money("910.80"));
}

/// Margin 20 % of the price: 759.00 ÷ 0.8 = 948.75, of which 189.75 are 20 %.
#[test]
fn margin_is_a_share_of_the_price() {
    let found = plain_price(|list| {
        list.contingency = dec("10");
        list.gain = Gain::Margin(dec("20"));
    });
    assert_eq!(found.gain, money("189.75"));
    assert_eq!(found.total, money("948.75"));
    assert_eq!(found.gain.0 / found.total.0, dec("0.2"));
}

#[test]
fn a_margin_of_the_whole_price_is_none() {
    for percent in ["100", "250"] {
        let found = plain_price(|list| list.gain = Gain::Margin(dec(percent)));
        assert_eq!(found.total, money("690.00"));
        assert!(found.is_least);
    }
}

/// Taxed are 150.00 of a cost of 690.00, sold for 910.80: 198.00 of it. 8.875 % are 17.5725, so 17.57. With labour 650.00, sold for
/// 858.00: 76.1475, so 76.15.
#[test]
fn tax_is_put_on_what_taxed_lines_are_sold_for() {
    let with = |labour_taxed| {
        plain_price(|list| {
            list.contingency = dec("10");
            list.gain = Gain::MarkUp(dec("20"));
            list.tax = dec("8.875");
            list.labour_taxed = labour_taxed;
        })
    };
    assert_eq!(with(false).tax, money("17.57"));
    assert_eq!(with(false).total, money("928.37"));
    assert_eq!(with(true).tax, money("76.15"));
    assert_eq!(with(true).total, money("986.95"));
}

/// 690.00 up to a multiple of 50 is 700.00; of 10 it is itself.
#[test]
fn the_price_is_rounded_up_to_a_friendly_figure() {
    for (round_to, rounding) in [
        ("50", "10.00"),
        ("10", "0"),
        ("0", "0"),
        ("-5", "0"),
        ("0.99", "0.03"),
    ] {
        let found = plain_price(|list| list.round_to = dec(round_to));
        assert_eq!(found.rounding, money(rounding), "to {round_to}");
        assert_eq!(found.total.0, dec("690") + dec(rounding));
    }
}

/// 3 at 0.335 are 1.005: 1.01, and not 1.00 as in binary fractions or by halves to even.
#[test]
fn halves_go_away_from_zero() {
    let list = list(vec![at(Item::Brick, "0.335", false)]);
    let found = price(&list, needs(vec![need(Item::Brick, pieces(3))])).price;
    assert_eq!(found.total, money("1.01"));
    let usd = Currency::default();
    assert_eq!(usd.rounded(money("-1.005")), money("-1.01"));
    assert_eq!(usd.rounded(money("2.675")), money("2.68"));
}

/// Amounts are rounded before they are added: three lines of 0.335 are 0.34 each, so 1.02.
#[test]
fn sums_are_of_what_is_shown() {
    let items = [Item::Brick, Item::SecondBrick, Item::FormStake];
    let list = list(items.iter().map(|item| at(*item, "0.335", false)).collect());
    let all = needs(items.iter().map(|item| need(*item, pieces(1))).collect());
    assert_eq!(price(&list, all).price.total, money("1.02"));
}

#[test]
fn delivery_of_a_taxed_line_is_taxed_with_it() {
    let mut brick = at(Item::Brick, "1", true);
    brick.offers[0].comes = Comes::Delivered {
        per_load: money("50"),
        most: None,
    };
    let mut list = list(vec![brick]);
    list.tax = dec("10");
    let found = price(&list, needs(vec![need(Item::Brick, pieces(100))])).price;
    assert_eq!((found.delivery, found.tax), (money("50"), money("15.00")));
}

#[test]
fn a_stage_without_hours_makes_the_price_the_least() {
    let (list, mut all) = plain();
    all.work.push(work(Stage::Cut, WorkAmount::Pieces(10)));
    let found = price(&list, all);
    assert!(found.price.is_least);
    assert_eq!(found.price.labour, money("500.00"));
    assert!(found.labour[1].said[0].contains("no hours"));
    assert!(found.labour[1].hours_each.is_none());
}

#[test]
fn a_need_that_is_the_least_makes_the_price_the_least() {
    let (list, mut all) = plain();
    all.items[0].is_least = true;
    assert!(price(&list, all).price.is_least);
    let (list, mut all) = plain();
    all.work[0].is_least = true;
    assert!(price(&list, all).price.is_least);
}

#[test]
fn the_worst_ground_is_told_where_it_costs_another_price() {
    let (list, likely) = plain();
    let mut worst = likely.clone();
    let of = |worst: &Needs| {
        let likely = likely.clone();
        priced(&site(), &list, Way::NewBase, likely, Some(worst), &[])
    };
    assert_eq!(of(&worst).worst, None);
    worst.items[1] = need(Item::OldBrick, pieces(300));
    let found = of(&worst);
    assert_eq!(found.price.total, money("690.00"));
    assert_eq!(found.worst.unwrap().total, money("770.00")); // 200 more at 0.40
}

#[test]
fn what_is_set_for_the_job_goes_before_the_list() {
    let (list, all) = plain();
    let mut site = site();
    site.order.crew_rate = Some(money("62.50"));
    site.order.n_crew = Some(3);
    site.order.stages = vec![underbrick_calc::site::StageWish {
        stage: Stage::HandOver,
        hours: Some(dec("12")),
    }];
    let found = priced(&site, &list, Way::NewBase, all, None, &[]);
    assert_eq!(found.price.labour, money("750.00"));
    assert_eq!(found.crew_rate, Some(money("62.50")));
    assert_eq!(found.programme.n_crew, 3);
    assert!(found.labour[0].is_own);
    assert!(found.remarks.is_empty());
}

/// 333.3 ft² at 0.013 h are 4.3329 h: 4.33 h, and 4.33 × 50.00 = 216.50 is paid. 100 ft² at 0.04335 h are 4.335 h: 4.34 h, 217.00.
#[test]
fn the_hours_that_are_shown_are_paid() {
    for (area_ft2, each, amount, hours, paid) in [
        (333.3, "0.013", "333.3", "4.33", "216.50"),
        (100.0, "0.04335", "100", "4.34", "217.00"),
    ] {
        let (mut list, _) = plain();
        list.hours = vec![stage_hours(Stage::Screed, each, Some(SaleUnit::SquareFoot))];
        let area = underbrick_calc::quantity::square_metres(area_ft2 * 0.3048 * 0.3048);
        let all = Needs {
            work: vec![work(Stage::Screed, WorkAmount::Area(area))],
            ..Needs::default()
        };
        let found = price(&list, all);
        assert_eq!(found.labour[0].amount, Some(dec(amount)));
        assert_eq!(found.labour[0].hours, Some(dec(hours)));
        assert_eq!(found.labour[0].amount_paid, Some(money(paid)));
    }
}

#[test]
fn hours_by_a_unit_that_does_not_measure_the_work_are_told() {
    let (mut list, _) = plain();
    list.hours = vec![stage_hours(
        Stage::Screed,
        "0.013",
        Some(SaleUnit::CubicYard),
    )];
    let area = underbrick_calc::quantity::square_metres(30.0);
    let all = Needs {
        work: vec![work(Stage::Screed, WorkAmount::Area(area))],
        ..Needs::default()
    };
    let found = price(&list, all);
    assert_eq!(found.labour[0].hours, None);
    assert!(found.labour[0].said[0].contains("yd3"));
    assert!(found.price.is_least);
}

/// Minor units: ISO 4217, list one, as the data set “currency-codes” gives it.
#[test]
fn minor_units_are_the_published_ones() {
    const LIST_ONE: [(&str, u32); 9] = [
        ("AUD", 2),
        ("CAD", 2),
        ("CHF", 2),
        ("EUR", 2),
        ("GBP", 2),
        ("MXN", 2),
        ("NZD", 2),
        ("USD", 2),
        ("ZAR", 2),
    ];
    let mut ours = CURRENCIES.map(|currency| (currency.code, currency.decimals));
    ours.sort_unstable();
    assert_eq!(ours, LIST_ONE);
    for currency in CURRENCIES {
        let cent = Money(Decimal::new(1, currency.decimals));
        assert_eq!(currency.rounded(cent), cent, "a minor unit stays");
        let half = Money(Decimal::new(5, currency.decimals + 1));
        assert_eq!(currency.rounded(half), cent);
        assert_eq!(Currency::of(&currency.code.to_lowercase()), Some(currency));
    }
    assert_eq!(Currency::of("XAU"), None);
}

//! Loads of a supplier, trips of one's own, barrow trips.

use crate::lists::{
    bulk, cubic_feet, cubic_yards, dec, line, list, money, need, needs, offer, pieces, pounds,
    price, sells, sold, stage_hours, work,
};
use underbrick_calc::order::{
    Comes, Holds, Item, ItemPrice, NeedAmount, Needs, Offer, PriceList, SaleUnit, Stage, WorkAmount,
};
use underbrick_calc::quantity::feet;

fn delivered(unit: SaleUnit, most: Option<Holds>) -> Offer {
    Offer {
        comes: Comes::Delivered {
            per_load: money("95.50"),
            most,
        },
        ..offer(unit, None)
    }
}

/// Row E20: 1,000 bank yd³ at 30 % swell are 1,300 loose yd³, 185.71 and so 186 loads of 7 yd³ (a textbook's haul example).
#[test]
fn a_textbooks_haul() {
    let amount = NeedAmount::Bulk {
        in_place: cubic_yards(1000.0),
        loose: cubic_yards(1000.0) * 1.30,
        dry_mass: pounds(2_700_000.0),
    };
    let offer = delivered(SaleUnit::CubicYard, Some(Holds::Volume(cubic_yards(7.0))));
    let line = line(sells(Item::UnsuitableSpoil, vec![offer]), amount);
    let sold = sold(&line);
    assert_eq!(sold.count, Some(dec("1300")));
    assert_eq!(sold.n_loads, 186);
    assert_eq!(sold.delivery, money("17763.00")); // 186 × 95.50
}

#[track_caller]
fn check_loads(unit: SaleUnit, amount: NeedAmount, most: Option<Holds>, n_loads: u32) {
    let line = line(sells(Item::Base, vec![delivered(unit, most)]), amount);
    assert_eq!(sold(&line).n_loads, n_loads);
}

/// 14 yd³ at 100 lb/ft³ are 37,800 lb: two loads of 10 tons, four of 4 yd³.
#[test]
fn loads_by_weight_and_by_volume() {
    let amount = bulk(cubic_yards(14.0), 100.0);
    let by_weight = Some(Holds::Mass(pounds(20_000.0)));
    let by_volume = Some(Holds::Volume(cubic_yards(4.0)));
    for unit in [SaleUnit::CubicYard, SaleUnit::Ton] {
        check_loads(unit, amount, by_weight, 2);
        check_loads(unit, amount, by_volume, 4);
        check_loads(unit, amount, None, 1);
        check_loads(unit, bulk(cubic_yards(0.0), 100.0), by_weight, 0);
    }
    // Seven times two yards are fourteen, and not a hair more.
    check_loads(
        SaleUnit::CubicYard,
        amount,
        Some(Holds::Volume(cubic_yards(2.0))),
        7,
    );
    check_loads(SaleUnit::Piece, pieces(1000), Some(Holds::Pieces(450)), 3);
}

#[test]
fn a_load_in_a_measure_that_is_not_known_is_one_at_the_least() {
    let offer = delivered(SaleUnit::Piece, Some(Holds::Mass(pounds(2000.0))));
    let priced = price(
        &list(vec![sells(Item::Brick, vec![offer])]),
        needs(vec![need(Item::Brick, pieces(1000))]),
    );
    assert_eq!(sold(&priced.lines[0]).n_loads, 1);
    assert!(priced.lines[0].said[0].contains("one load"));
    assert!(priced.price.is_least);
}

/// A trailer for 2,000 lb and 2 yd³ at 15.00 and an hour and a half for a trip.
fn with_a_trailer(items: Vec<ItemPrice>) -> PriceList {
    let mut list = list(items);
    list.carry.payload = pounds(2000.0);
    list.carry.holds = cubic_yards(2.0);
    list.carry.per_trip = money("15");
    list.carry.hours_a_trip = dec("1.5");
    list.crew.rate = money("40");
    list
}

fn from(supplier: &str, item: Item, unit: SaleUnit) -> ItemPrice {
    let offer = Offer {
        supplier: supplier.to_owned(),
        ..offer(unit, None)
    };
    sells(item, vec![offer])
}

/// Base 3 yd³ at 100 lb/ft³ is 8,100 lb, sand 1 yd³ at 90 is 2,430 lb: together 10,530 lb from one yard, 6 trips by weight and 2 by
/// volume. Spoil 5 yd³ at 20 lb/ft³ is 2,700 lb: 2 trips by weight and 3 by volume. 9 trips, 135.00, 13.5 h.
#[test]
fn own_trips_by_payload_and_box() {
    let list = with_a_trailer(vec![
        from("Yard", Item::Base, SaleUnit::CubicYard),
        from("Yard", Item::SettingBed, SaleUnit::CubicYard),
        from("Tip", Item::UnsuitableSpoil, SaleUnit::CubicYard),
    ]);
    let all = needs(vec![
        need(Item::Base, bulk(cubic_yards(3.0), 100.0)),
        need(Item::SettingBed, bulk(cubic_yards(1.0), 90.0)),
        need(Item::UnsuitableSpoil, bulk(cubic_yards(5.0), 20.0)),
    ]);
    let priced = price(&list, all);
    let trips = priced.own_trips;
    assert_eq!(
        (trips.n, trips.cost, trips.hours),
        (9, money("135.00"), dec("13.5"))
    );
    assert_eq!(priced.price.delivery, money("135.00"));
    assert_eq!(priced.price.labour, money("540.00")); // 13.5 h × 40.00
    assert_eq!(priced.price.hours, dec("13.5"));
    assert_eq!(priced.price.material, money("40.00")); // 3 + 1 yd³ at 10.00
    assert_eq!(priced.price.taken_away, money("50.00")); // the tip's fee
}

/// A yard that also takes spoil: 0.5 trips there and 0.5 trips back are two, spoil does not lie on the base.
#[test]
fn what_is_fetched_and_what_is_taken_away_are_not_mixed() {
    let list = with_a_trailer(vec![
        from("Yard", Item::Base, SaleUnit::CubicYard),
        from("Yard", Item::TrimSpoil, SaleUnit::CubicYard),
    ]);
    let half_a_load = bulk(cubic_yards(1.0), 1000.0 / 27.0);
    let all = needs(vec![
        need(Item::Base, half_a_load),
        need(Item::TrimSpoil, half_a_load),
    ]);
    assert_eq!(price(&list, all).own_trips.n, 2);
}

#[test]
fn what_weighs_little_still_takes_a_trip() {
    let list = with_a_trailer(vec![from("Store", Item::FormStake, SaleUnit::Piece)]);
    let priced = price(&list, needs(vec![need(Item::FormStake, pieces(12))]));
    assert_eq!(priced.own_trips.n, 1);
    let priced = price(&list, needs(vec![need(Item::FormStake, pieces(0))]));
    assert_eq!(priced.own_trips.n, 0, "and nothing takes none");
}

/// What is hired is fetched and brought back, however many machines stand in the same yard; a day says what trips take.
#[test]
fn hired_machines_are_fetched_and_brought_back() {
    let mut list = with_a_trailer(vec![
        from("Hire shop", Item::Plate, SaleUnit::Day),
        from("Hire shop", Item::Saw, SaleUnit::Day),
        from("Hire shop", Item::Base, SaleUnit::CubicYard),
    ]);
    list.hours = vec![
        stage_hours(Stage::Cut, "0.1", Some(SaleUnit::Piece)),
        stage_hours(Stage::Jointing, "1", Some(SaleUnit::SquareFoot)),
    ];
    let all = Needs {
        work: vec![
            work(Stage::Cut, WorkAmount::Pieces(10)),
            work(Stage::Jointing, WorkAmount::Area(feet(1.0) * feet(1.0))),
        ],
        // 1 yd³ is bought: 1,350 lb.
        ..needs(vec![need(Item::Base, bulk(cubic_yards(0.5), 50.0))])
    };
    let priced = price(&list, all);
    assert_eq!(
        priced.own_trips.n, 3,
        "two for the machines, one for the base"
    );
    let said = priced.programme.days[0].said.concat();
    assert!(
        said.contains("3 trips with your own truck take 4.5 h"),
        "{said}"
    );
}

/// 100 ft³ in a barrow of 6 ft³ are 16.7 trips, so 17; 60 ft³ are 10, whatever binary fractions make of a cubic foot.
#[test]
fn barrow_trips_are_rounded_up() {
    let mut list = list(Vec::new());
    list.carry.barrow = cubic_feet(6.0);
    for (barrowed_ft3, n_trips) in [(100.0, 17), (60.0, 10), (0.0, 0)] {
        let all = Needs {
            barrowed: cubic_feet(barrowed_ft3),
            ..Needs::default()
        };
        assert_eq!(price(&list, all).n_barrow_trips, Some(n_trips));
    }
    let mut unknown = need(Item::Base, pieces(0));
    unknown.amount = None;
    assert_eq!(price(&list, needs(vec![unknown])).n_barrow_trips, None);
}

/// Two kinds of spoil, 6 and 3 yd³, go on one load of 10 yd³; a third of 4 yd³ opens another: 13 ÷ 10, rounded up.
#[test]
fn lines_of_one_haulier_share_his_loads() {
    let most = Some(Holds::Volume(cubic_yards(10.0)));
    let spoil = [
        (Item::UnsuitableSpoil, 6.0, 1),
        (Item::TrimSpoil, 3.0, 0),
        (Item::OldBrick, 4.0, 1),
    ];
    let list = list(
        spoil
            .map(|(item, _, _)| sells(item, vec![delivered(SaleUnit::CubicYard, most)]))
            .to_vec(),
    );
    let needs = needs(
        spoil
            .map(|(item, loose_yd3, _)| need(item, bulk(cubic_yards(loose_yd3), 100.0)))
            .to_vec(),
    );
    let priced = price(&list, needs);
    for (line, (item, _, n_loads)) in priced.lines.iter().zip(spoil) {
        assert_eq!((line.item, sold(line).n_loads), (item, n_loads));
    }
    let goes = &priced.lines[1].said;
    assert!(goes[0].contains(Item::UnsuitableSpoil.name()), "{goes:?}");
    assert_eq!(priced.price.delivery, money("191.00")); // 2 × 95.50
}

/// Another price for a load, or another supplier, is another truck.
#[test]
fn other_terms_are_another_truck() {
    let most = Some(Holds::Volume(cubic_yards(10.0)));
    let mut dearer = delivered(SaleUnit::CubicYard, most);
    dearer.comes = Comes::Delivered {
        per_load: money("99"),
        most,
    };
    let list = list(vec![
        sells(
            Item::UnsuitableSpoil,
            vec![delivered(SaleUnit::CubicYard, most)],
        ),
        sells(Item::TrimSpoil, vec![dearer]),
    ]);
    let needs = needs(vec![
        need(Item::UnsuitableSpoil, bulk(cubic_yards(1.0), 100.0)),
        need(Item::TrimSpoil, bulk(cubic_yards(1.0), 100.0)),
    ]);
    let priced = price(&list, needs);
    assert!(priced.lines.iter().all(|line| sold(line).n_loads == 1));
}

//! What a need is in a unit of sale.

use crate::lists::{
    bulk, cubic_feet, cubic_yards, dec, line, need, offer, pieces, pounds, sells, sold,
};
use underbrick_calc::order::{Holds, Item, NeedAmount, SaleUnit};
use underbrick_calc::quantity::{
    Area, CUBIC_FOOT_M3, CUBIC_YARD_M3, POUND_KG, cubic_metres, feet, inches,
    kilograms_per_cubic_metre, metres, square_metres, unit,
};

fn square_feet(number: f64) -> Area {
    Area::new::<unit::square_foot>(number)
}

/// Exact and as bought, in whole units.
#[track_caller]
fn check(
    item: Item,
    amount: NeedAmount,
    unit: SaleUnit,
    holds: Option<Holds>,
    exact: &str,
    bought: &str,
) {
    let line = line(sells(item, vec![offer(unit, holds)]), amount);
    let sold = sold(&line);
    assert_eq!(sold.exact, Some(dec(exact)), "before rounding up");
    assert_eq!(sold.count, Some(dec(bought)), "as bought");
}

fn bag_of(pounds: u32) -> Option<Holds> {
    // Row C1: 40, 60, 80 lb yield 0.30, 0.45, 0.60 ft³ (constructionwork.com, 411answers; nominal).
    let yields_ft3 = match pounds {
        40 => 0.30,
        60 => 0.45,
        _ => 0.60,
    };
    Some(Holds::Volume(cubic_feet(yields_ft3)))
}

/// Rows C1 and C2: 27 ft³ ÷ yield.
#[test]
fn bags_for_a_cubic_yard() {
    for (pounds, bags) in [(40, "90"), (60, "60"), (80, "45")] {
        check(
            Item::HaunchConcrete,
            NeedAmount::Mixed(cubic_yards(1.0)),
            SaleUnit::Bag,
            bag_of(pounds),
            bags,
            bags,
        );
    }
}

/// Row C3: what a yielded cubic foot weighs dry, 80 lb ÷ 0.60 ft³ = 133.33 lb, so 45 bags weigh 45 × 80 lb = 3,600 lb.
#[test]
fn bags_weigh_what_is_printed_on_them() {
    for (pounds_a_bag, n) in [(40, 90.0), (60, 60.0), (80, 45.0)] {
        let offer = offer(SaleUnit::Bag, bag_of(pounds_a_bag));
        let line = line(
            sells(Item::HaunchConcrete, vec![offer]),
            NeedAmount::Mixed(cubic_yards(1.0)),
        );
        let weighs = sold(&line).weighs.unwrap();
        let expected = pounds(f64::from(pounds_a_bag) * n);
        assert!(((weighs - expected) / expected).value.abs() < 1e-9);
    }
}

/// Row C4: a haunch of 6 × 6 in, 60 ft, + 10 %: 15.0 ft³, 16.5 ft³, 27.5 and so 28 bags of 80 lb.
#[test]
fn haunch_with_waste() {
    let mut price = sells(Item::HaunchConcrete, vec![offer(SaleUnit::Bag, bag_of(80))]);
    price.waste = dec("10");
    let haunch = inches(6.0) * inches(6.0) * feet(60.0);
    let line = line(price, NeedAmount::Mixed(haunch));
    assert_eq!(sold(&line).exact, Some(dec("27.5")));
    assert_eq!(sold(&line).count, Some(dec("28")));
    assert_eq!(line.waste, dec("10"));
}

/// Row C5: a triangle of 4 × 4 in, 60 ft: 3.333 ft³, 5.56 and so 6 bags of 80 lb.
#[test]
fn triangular_haunch() {
    check(
        Item::HaunchConcrete,
        NeedAmount::Mixed(inches(4.0) * inches(4.0) * feet(60.0) / 2.0),
        SaleUnit::Bag,
        bag_of(80),
        "5.555555556",
        "6",
    );
}

/// Row C6: 2.1 / 0.30 is 7.000000000000001 and 100 × 1.10 is 110.00000000000001 in binary fractions.
#[test]
fn binary_fractions_buy_nothing() {
    check(
        Item::HaunchConcrete,
        NeedAmount::Mixed(cubic_feet(2.1)),
        SaleUnit::Bag,
        bag_of(40),
        "7",
        "7",
    );
    let mut price = sells(Item::Brick, vec![offer(SaleUnit::Piece, None)]);
    price.waste = dec("10");
    assert_eq!(sold(&line(price, pieces(100))).count, Some(dec("110")));
    // 20 in packs of 3 are 6.67; with 5 % they are 21, 7 packs: a third is no whole number in any fractions, and 7 is.
    let mut price = sells(
        Item::FormStake,
        vec![offer(SaleUnit::Box, Some(Holds::Pieces(3)))],
    );
    price.waste = dec("5");
    let of_it = line(price, pieces(20));
    assert_eq!(sold(&of_it).exact, Some(dec("7")));
    assert_eq!(sold(&of_it).count, Some(dec("7")));
    // What is truly more is rounded up.
    check(
        Item::HaunchConcrete,
        NeedAmount::Mixed(cubic_feet(2.100_001)),
        SaleUnit::Bag,
        bag_of(40),
        "7.000003333",
        "8",
    );
}

/// Rows U1 to U4, exact factors (NIST SP 811): one unit in another.
#[test]
fn units_are_the_published_ones() {
    let yard = bulk(cubic_yards(1.0), 100.0);
    check(Item::Base, yard, SaleUnit::CubicFoot, None, "27", "27");
    check(
        Item::Base,
        yard,
        SaleUnit::CubicMetre,
        None,
        "0.764554858",
        "1",
    );
    let metre = bulk(cubic_metres(1.0), 100.0);
    check(
        Item::Base,
        metre,
        SaleUnit::CubicFoot,
        None,
        "35.314666721",
        "36",
    );
    check(
        Item::Base,
        metre,
        SaleUnit::CubicYard,
        None,
        "1.307950619",
        "2",
    );
    // 27 ft³ × 100 lb.
    check(Item::Base, yard, SaleUnit::Pound, None, "2700", "2700");
    check(Item::Base, yard, SaleUnit::Ton, None, "1.35", "2");
    check(
        Item::Base,
        yard,
        SaleUnit::Kilogram,
        None,
        "1224.699399",
        "1225",
    );
    check(Item::Base, yard, SaleUnit::Tonne, None, "1.224699399", "2");
    let yard_long = NeedAmount::Length(feet(3.0));
    check(Item::String, yard_long, SaleUnit::Foot, None, "3", "3");
    check(
        Item::String,
        yard_long,
        SaleUnit::Metre,
        None,
        "0.9144",
        "1",
    );
    let square = NeedAmount::Area(square_feet(100.0));
    check(
        Item::Fabric,
        square,
        SaleUnit::SquareMetre,
        None,
        "9.290304",
        "10",
    );
    check(
        Item::Fabric,
        square,
        SaleUnit::SquareYard,
        None,
        "11.111111111",
        "12",
    );
    check(
        Item::Fabric,
        square,
        SaleUnit::SquareFoot,
        None,
        "100",
        "100",
    );
}

/// Rows U7 and U8: a cubic yard at one short ton to the yard weighs one; so it does at 1186.5528 kg/m³, and at 2000 / 27 lb/ft³.
#[test]
fn densities_are_the_published_ones() {
    for (density_kg_m3, tolerance) in [(1186.5528, 1e-6), (16.018_463_373_96 * 2000.0 / 27.0, 1e-8)]
    {
        let amount = NeedAmount::Bulk {
            in_place: cubic_yards(1.0),
            loose: cubic_yards(1.0),
            dry_mass: cubic_yards(1.0) * kilograms_per_cubic_metre(density_kg_m3),
        };
        let line = line(sells(Item::Base, vec![offer(SaleUnit::Ton, None)]), amount);
        let tons = f64::try_from(sold(&line).exact.unwrap()).unwrap();
        assert!((tons - 1.0).abs() < tolerance, "{tons}");
    }
}

/// Row E33: 4 ft × 30 ft × 4 in at 135 lb/ft³ compacted are 5,400 lb, 2.70 short tons. Row E34: sand 1 in over 120 ft² at 100 lb/ft³ is
/// 10 ft³, 0.37037 yd³, 1,000 lb, 0.50 short ton.
#[test]
fn weights_read_as_in_a_handbook() {
    let base = feet(4.0) * feet(30.0) * inches(4.0);
    let compacted = kilograms_per_cubic_metre(135.0 * POUND_KG / CUBIC_FOOT_M3);
    let amount = NeedAmount::Bulk {
        in_place: base,
        loose: base * 1.25,
        dry_mass: base * compacted,
    };
    check(Item::Base, amount, SaleUnit::Ton, None, "2.7", "3");
    check(Item::Base, amount, SaleUnit::Pound, None, "5400", "5400");
    let sand = square_feet(120.0) * inches(1.0);
    let amount = bulk(sand, 100.0);
    check(
        Item::SettingBed,
        amount,
        SaleUnit::CubicYard,
        None,
        "0.37037037",
        "1",
    );
    check(Item::SettingBed, amount, SaleUnit::Ton, None, "0.5", "1");
    // A load of the supplier that holds a weight, and one that holds a volume.
    let of_half_a_ton = Some(Holds::Mass(pounds(1000.0)));
    check(
        Item::SettingBed,
        amount,
        SaleUnit::Load,
        of_half_a_ton,
        "1",
        "1",
    );
    let of_five_feet = Some(Holds::Volume(cubic_feet(5.0)));
    check(
        Item::SettingBed,
        amount,
        SaleUnit::Bag,
        of_five_feet,
        "2",
        "2",
    );
}

/// Row E35: 130 lb/ft³ dry with 5 % water weigh 136.5 lb/ft³ (pavementinteractive). By volume nothing changes.
#[test]
fn moisture_is_bought_by_weight_only() {
    let mut moist = offer(SaleUnit::Pound, None);
    moist.moisture = Some(5.0);
    let amount = bulk(cubic_feet(1.0), 130.0);
    let of_it = line(sells(Item::Base, vec![moist.clone()]), amount);
    assert_eq!(sold(&of_it).exact, Some(dec("136.5")));
    assert_eq!(sold(&of_it).count, Some(dec("137")));
    moist.unit = SaleUnit::CubicFoot;
    let of_it = line(sells(Item::Base, vec![moist]), amount);
    assert_eq!(sold(&of_it).exact, Some(dec("1")));
    let weighs = sold(&of_it).weighs.unwrap();
    assert!(((weighs - pounds(136.5)) / weighs).value.abs() < 1e-12);
}

/// Unit weights of section 4, kg/m³ and lb/yd³, from a handbook table (b12981-45): a yard of it by the kilogram and by the pound.
/// Both columns of the table are rounded to whole numbers: ±2 lb.
#[test]
fn unit_weights_agree_with_a_handbook() {
    const PAIRS: [(f64, f64); 14] = [
        (1602.0, 2700.0),
        (1831.0, 3086.0),
        (1650.0, 2781.0),
        (2020.0, 3404.0),
        (1682.0, 2835.0),
        (2002.0, 3374.0),
        (1554.0, 2619.0),
        (1438.0, 2423.0),
        (1249.0, 2105.0),
        (1442.0, 2430.0),
        (1602.0, 2700.0),
        (1073.0, 1808.0),
        (1602.0, 2700.0),
        (1746.0, 2942.0),
    ];
    for (kg_m3, lb_yd3) in PAIRS {
        let mut by_weight = offer(SaleUnit::Pound, None);
        by_weight.step = dec("0.001");
        by_weight.loose_density = Some(kilograms_per_cubic_metre(kg_m3));
        // The catalogue's weight is another: the supplier's goes before it.
        let amount = bulk(cubic_yards(1.0), 20.0);
        let line = line(sells(Item::Base, vec![by_weight]), amount);
        let pounds = f64::try_from(sold(&line).exact.unwrap()).unwrap();
        assert!((pounds - lb_yd3).abs() <= 2.0, "{kg_m3}: {pounds}");
    }
}

/// A supplier's ratio of loose to compacted goes before the catalogue: 1.25 of the catalogue, 1.30 of the supplier, 10 yd³ in place.
#[test]
fn the_suppliers_bulking_goes_first() {
    let mut own = offer(SaleUnit::CubicYard, None);
    let amount = NeedAmount::Bulk {
        in_place: cubic_yards(10.0),
        loose: cubic_yards(12.5),
        dry_mass: pounds(27_000.0),
    };
    let of_it = line(sells(Item::Base, vec![own.clone()]), amount);
    assert_eq!(sold(&of_it).exact, Some(dec("12.5")));
    own.loose_to_compacted = Some(1.30);
    let of_it = line(sells(Item::Base, vec![own.clone()]), amount);
    assert_eq!(sold(&of_it).exact, Some(dec("13")));
    // What lies compacted in place weighs as much however it is tipped.
    own.unit = SaleUnit::Pound;
    let of_it = line(sells(Item::Base, vec![own]), amount);
    assert_eq!(sold(&of_it).exact, Some(dec("27000")));
}

/// Brick by the piece, the pallet, the square foot (row B11: 4.5 of 4 × 8 in to the square foot) and the ton.
#[test]
fn brick_by_piece_pallet_area_and_weight() {
    let amount = NeedAmount::Pieces {
        n: 1000,
        each_covers: Some(square_metres(0.3048 * 0.3048 / 4.5)),
        each_weighs: Some(pounds(5.0)),
    };
    check(Item::Brick, amount, SaleUnit::Piece, None, "1000", "1000");
    let pallet = Some(Holds::Pieces(450));
    check(
        Item::Brick,
        amount,
        SaleUnit::Pallet,
        pallet,
        "2.222222222",
        "3",
    );
    check(
        Item::Brick,
        amount,
        SaleUnit::SquareFoot,
        None,
        "222.222222222",
        "223",
    );
    let pallet_by_area = Some(Holds::Area(square_feet(100.0)));
    check(
        Item::Brick,
        amount,
        SaleUnit::Pallet,
        pallet_by_area,
        "2.222222222",
        "3",
    );
    check(Item::Brick, amount, SaleUnit::Ton, None, "2.5", "3");
}

/// Boards of 12 ft for 100 ft are 8.33, so 9; a roll of 12.5 × 432 ft is 5,400 ft².
#[test]
fn lengths_and_areas_in_packs() {
    let board = Some(Holds::Length(feet(12.0)));
    let boards = NeedAmount::Length(feet(100.0));
    check(
        Item::FormBoard,
        boards,
        SaleUnit::Piece,
        board,
        "8.333333333",
        "9",
    );
    let exactly = NeedAmount::Length(metres(0.3048) * 96.0);
    check(Item::FormBoard, exactly, SaleUnit::Piece, board, "8", "8");
    let roll = Some(Holds::Area(feet(12.5) * feet(432.0)));
    let fabric = NeedAmount::Area(square_feet(200.0));
    check(
        Item::Fabric,
        fabric,
        SaleUnit::Roll,
        roll,
        "0.037037037",
        "1",
    );
    let hire = NeedAmount::Days(3);
    check(Item::Plate, hire, SaleUnit::Day, None, "3", "3");
}

/// Steps and minimum: half yards from 2 yd³ on.
#[test]
fn rounded_up_once_to_step_and_minimum() {
    for (loose_yd3, bought) in [
        (0.0, "0"),
        (0.3, "2"),
        (2.0, "2"),
        (2.01, "2.5"),
        (2.5, "2.5"),
        (3.6, "4"),
    ] {
        let mut by_halves = offer(SaleUnit::CubicYard, None);
        by_halves.step = dec("0.5");
        by_halves.minimum = dec("2");
        let line = line(
            sells(Item::Base, vec![by_halves]),
            bulk(cubic_yards(loose_yd3), 100.0),
        );
        assert_eq!(sold(&line).count, Some(dec(bought)), "{loose_yd3} yd³");
    }
}

/// A unit that does not fit leaves the line without a price; it says item, unit and which units fit.
#[test]
fn units_that_do_not_fit_are_told() {
    let cases: [(Item, NeedAmount, SaleUnit, Option<Holds>, &str); 8] = [
        (Item::Brick, pieces(10), SaleUnit::CubicYard, None, "piece"),
        (
            Item::Fabric,
            NeedAmount::Area(square_feet(9.0)),
            SaleUnit::Ton,
            None,
            "ft2",
        ),
        (
            Item::Base,
            bulk(cubic_yards(1.0), 90.0),
            SaleUnit::Bag,
            None,
            "yd3",
        ),
        (
            Item::Base,
            bulk(cubic_yards(1.0), 90.0),
            SaleUnit::Piece,
            None,
            "tonne",
        ),
        (
            Item::HaunchConcrete,
            NeedAmount::Mixed(cubic_yards(1.0)),
            SaleUnit::Bag,
            Some(Holds::Mass(pounds(80.0))),
            "ft3",
        ),
        (
            Item::FormBoard,
            NeedAmount::Length(feet(9.0)),
            SaleUnit::Piece,
            None,
            "ft",
        ),
        (
            Item::Plate,
            NeedAmount::Days(2),
            SaleUnit::Piece,
            None,
            "day",
        ),
        (Item::Brick, pieces(10), SaleUnit::SquareFoot, None, "piece"),
    ];
    for (item, amount, unit, holds, fits) in cases {
        let line = line(sells(item, vec![offer(unit, holds)]), amount);
        assert!(line.sold.is_none(), "{item:?} by {unit:?}");
        let said = line.said.join(" ");
        for word in [item.name(), unit.key(), fits] {
            assert!(said.contains(word), "“{word}” is not in: {said}");
        }
        assert_eq!(line.need, need(item, amount), "the need is not lost");
    }
}

/// The cubic yard of a list is the cubic yard of a need.
#[test]
fn a_yard_is_a_yard() {
    assert_eq!(SaleUnit::CubicYard.in_si(), CUBIC_YARD_M3);
}

//! Base, setting bed, jointing: from in place to loose and to weight.

use crate::sites::{curve, key, plain, straight};
use crate::walk::{
    bulk, catalogue, check, computed, cubic_feet, measured, need, needs, needs_with, pounds,
    square_feet, work,
};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::order::{
    Comes, Decimal, Figure, Item, ItemPrice, Money, Offer, SaleUnit, Stage, Way, WorkAmount,
};
use underbrick_calc::quantity::{
    CUBIC_FOOT_M3, POUND_KG, feet, in_cubic_metres, in_cubic_yards, in_short_tons, inches,
    kilograms_per_cubic_metre, metres,
};
use underbrick_calc::site::{Bond, EdgeStands, Hand, LineWish, MaterialKey, Opening, Site};

#[test]
fn base_as_tipped_and_as_weighed() {
    // Row E31: 4 ft x 30 ft x 4 in: 40 ft³ = 1.4815 yd³; row E33: at 135 lb/ft³ 5400 lb = 2.70 short ton. Loose 40 x 1.25 = 50 ft³.
    let mut narrow = plain();
    narrow.bed.side_extension = Some(inches(0.0));
    let (in_place, loose, mass) = bulk(&needs(&narrow, Way::NewBase), Item::Base);
    check(cubic_feet(in_place), 40.0, 1e-9);
    check(in_cubic_yards(in_place), 1.4815, 1e-4);
    check(cubic_feet(loose), 50.0, 1e-9);
    check(pounds(mass), 5400.0, 1e-6);
    check(in_short_tons(mass), 2.70, 1e-9);

    // Row E32: widened 6 in on each long side: 50 ft³ = 1.8519 yd³.
    let (in_place, ..) = bulk(&needs(&plain(), Way::NewBrick), Item::Base);
    check(cubic_feet(in_place), 50.0, 1e-9);
    check(in_cubic_yards(in_place), 1.8519, 1e-4);

    // Row E29: 100 ft² x 4 in: 33.3333 ft³ = 1.2346 yd³.
    narrow.line.legs = vec![straight(feet(25.0))];
    let (in_place, ..) = bulk(&needs(&narrow, Way::NewBase), Item::Base);
    check(cubic_feet(in_place), 33.3333, 1e-4);
    check(in_cubic_yards(in_place), 1.2346, 1e-4);
}

#[test]
fn each_lift_is_a_step_and_they_make_the_base() {
    // No trench: a header edge is shallower than brick and bed.
    let needs = needs(&measured(), Way::NewBase);
    let base = need(&needs, Item::Base);
    let lifts = base.steps.iter().filter_map(|step| match step.figure {
        Figure::Volume(volume) if step.what == "in one lift, loose" => Some(volume),
        _ => None,
    });
    let (_, loose, _) = bulk(&needs, Item::Base);
    let sum: f64 = lifts.map(in_cubic_metres).sum();
    check(sum, in_cubic_metres(loose), 1e-12);
}

/// A walk of so many square feet between edges that stand on end, 1 in of bed.
fn sand_on(feet_long: f64) -> Site {
    let mut site = plain();
    site.line.legs = vec![straight(feet(feet_long))];
    site.line.width = Some(feet(4.0));
    site.bed.setting_bed = Some(inches(1.0));
    site.edge.stands = EdgeStands::Sailor;
    site
}

#[test]
fn setting_bed_compacted_and_loose() {
    // Row E30: 100 ft² x 1 in: 8.3333 ft³ = 0.30864 yd³ in place; row E25: compacted to loose 1.17, within 0.005.
    for way in Way::ALL {
        let (in_place, loose, _) = bulk(&needs(&sand_on(25.0), way), Item::SettingBed);
        check(cubic_feet(in_place), 8.3333, 1e-4);
        check(in_cubic_yards(in_place), 0.30864, 1e-5);
        check((loose / in_place).value, 1.17, 0.005);
        // Row E28: bank to loose to compacted to bank: 1.11, ÷ 1.11 x 0.95, ÷ 0.95.
        check((loose / in_place).value * 0.95 / 1.11, 1.0, 1e-12);
    }
}

#[test]
fn a_flat_edge_brick_lies_on_the_bed_too() {
    // Header edges of 8 in, 2 1/4 in deep, on 3/4 in of bed: 4 ft in all x 30 ft x 3/4 in = 7.5 ft³.
    let (in_place, ..) = bulk(&needs(&plain(), Way::NewBase), Item::SettingBed);
    check(cubic_feet(in_place), 7.5, 1e-9);
    // On edge it is 4 in deep and stands in a trench: 2 ft 8 in x 30 ft x 3/4 in = 5 ft³.
    let mut rowlock = plain();
    rowlock.edge.stands = EdgeStands::Rowlock;
    let (in_place, ..) = bulk(&needs(&rowlock, Way::NewBase), Item::SettingBed);
    check(cubic_feet(in_place), 5.0, 1e-9);
}

#[test]
fn the_hollows_of_an_old_base_are_not_known() {
    let site = measured();
    assert!(need(&needs(&site, Way::Relay), Item::SettingBed).is_least);
    assert!(!need(&needs(&site, Way::NewBase), Item::SettingBed).is_least);
}

fn offer(supplier: &str, loose_density: Option<f64>, loose_to_compacted: Option<f64>) -> Offer {
    Offer {
        supplier: supplier.to_owned(),
        rate: Money(Decimal::ONE),
        unit: SaleUnit::Ton,
        holds: None,
        step: Decimal::ONE,
        minimum: Decimal::ZERO,
        loose_density: loose_density
            .map(|density| kilograms_per_cubic_metre(density * POUND_KG / CUBIC_FOOT_M3)),
        loose_to_compacted,
        moisture: None,
        comes: Comes::PickedUp,
    }
}

fn priced(item: Item, material: Option<MaterialKey>, offers: Vec<Offer>) -> Catalogue {
    let mut catalogue = catalogue();
    catalogue.prices.items.push(ItemPrice {
        item,
        material,
        waste: Decimal::ZERO,
        is_taxed: false,
        offers,
    });
    catalogue
}

#[test]
fn a_suppliers_density_goes_before_the_catalogues() {
    // Row E34: sand 1 in over 120 ft² at 100 lb/ft³: 10 ft³ = 0.37037 yd³ = 1000 lb = 0.50 short ton; taken as it lies, ratio 1.
    let catalogue = priced(
        Item::SettingBed,
        Some(key("sand")),
        vec![offer("Invented Sands", Some(100.0), Some(1.0))],
    );
    let needs = needs_with(&sand_on(30.0), &catalogue, Way::NewBase);
    let (in_place, loose, mass) = bulk(&needs, Item::SettingBed);
    check(cubic_feet(in_place), 10.0, 1e-9);
    check(in_cubic_yards(loose), 0.37037, 1e-5);
    check(pounds(mass), 1000.0, 1e-6);
    check(in_short_tons(mass), 0.50, 1e-9);
    let said = need(&needs, Item::SettingBed)
        .steps
        .iter()
        .filter(|step| step.source.as_deref() == Some("supplier's figure: Invented Sands"));
    assert_eq!(said.count(), 2, "ratio and density say whose they are");
}

#[test]
fn a_suppliers_ratio_alone_changes_the_volume_and_not_the_weight() {
    // 40 ft³ x 1.4 = 56 ft³ loose; what lies compacted weighs 5400 lb all the same.
    let catalogue = priced(
        Item::Base,
        None,
        vec![offer("Invented Stone", None, Some(1.4))],
    );
    let mut narrow = plain();
    narrow.bed.side_extension = Some(inches(0.0));
    let (_, loose, mass) = bulk(&needs_with(&narrow, &catalogue, Way::NewBase), Item::Base);
    check(cubic_feet(loose), 56.0, 1e-9);
    check(pounds(mass), 5400.0, 1e-6);
}

#[test]
fn the_supplier_named_for_the_line_counts() {
    let catalogue = priced(
        Item::Base,
        None,
        vec![
            offer("First", None, Some(1.4)),
            offer("Second", None, Some(1.5)),
            offer("Out of reason", None, Some(f64::NAN)),
        ],
    );
    let mut site = plain();
    site.bed.side_extension = Some(inches(0.0));
    for (supplier, cubic_feet_loose) in [
        (None, 56.0),
        (Some("Second"), 60.0),
        (Some("Nobody"), 56.0),
        (Some("Out of reason"), 50.0),
    ] {
        site.order.lines = vec![LineWish {
            item: Item::Base,
            supplier: supplier.map(str::to_owned),
            rate: None,
            locked: None,
        }];
        let (_, loose, _) = bulk(&needs_with(&site, &catalogue, Way::NewBase), Item::Base);
        check(cubic_feet(loose), cubic_feet_loose, 1e-9);
    }
}

#[test]
fn a_ring_by_pappus() {
    // Centreline 4 m x 1.2 rad, everything symmetrical about it: areas are widths x 4.8 m.
    let mut site = plain();
    site.bed.fabric = true;
    for hand in [Hand::Left, Hand::Right] {
        site.line.legs = vec![curve(4.0, 1.2, hand)];
        let needs = needs(&site, Way::NewBase);
        let foot = 0.3048;
        let (in_place, ..) = bulk(&needs, Item::Base);
        check(
            in_cubic_metres(in_place),
            5.0 * foot * 4.8 * 4.0 * 0.0254,
            1e-12,
        );
        let (in_place, ..) = bulk(&needs, Item::SettingBed);
        check(
            in_cubic_metres(in_place),
            4.0 * foot * 4.8 * 0.75 * 0.0254,
            1e-12,
        );
        let area = |stage| match work(&needs, stage) {
            WorkAmount::Area(area) => area.value,
            other => panic!("{other:?}"),
        };
        check(area(Stage::LiftBrick), 4.0 * foot * 4.8, 1e-12);
        check(area(Stage::Screed), 32.0 * 0.0254 * 4.8, 1e-12);
        check(area(Stage::TrimBottom), 5.0 * foot * 4.8, 1e-12);
        check(area(Stage::LayFabric), 5.0 * foot * 4.8, 1e-12);
        // 4 in of base in two lifts that are the same everywhere.
        check(area(Stage::Lifts), 2.0 * 5.0 * foot * 4.8, 1e-12);
    }
}

#[test]
fn joints_are_what_brick_leaves() {
    // Stack bond, whole brick only: clear area less brick, 2 1/4 in deep.
    let mut site = plain();
    site.lay.bond = Bond::Stack;
    // Nine widths and ten joints across; 44 bricks and 44 joints along, less what the ends ask.
    site.line.width = Some(inches(9.0 * 4.0 + 10.0 / 8.0));
    site.line.legs = vec![straight(inches(44.0 * 8.125))];
    site.edge.stands = EdgeStands::Sailor;
    let results = computed(&site);
    let lay = results.lay.unwrap();
    let brick_m2: f64 = lay
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.part == underbrick_calc::lay::Part::Field)
        .map(|piece| in_m(piece.length) * in_m(piece.width))
        .sum();
    let clear_m2 = 37.25 * 44.0 * 8.125 * 0.0254 * 0.0254;
    let sailors_m2: f64 = lay
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.part != underbrick_calc::lay::Part::Field)
        .map(|piece| lay.pieces.area(piece).value)
        .sum();
    let edges_m2 = 2.0 * 2.25 * 44.0 * 8.125 * 0.0254 * 0.0254;
    let (in_place, loose, _) = bulk(&needs(&site, Way::NewBase), Item::Jointing);
    let expected = (clear_m2 - brick_m2) * 2.25 * 0.0254 + (edges_m2 - sailors_m2) * 8.0 * 0.0254;
    check(in_cubic_metres(in_place), expected, 1e-9);
    // Row B20: 4 x 8 in with 1/8 in of joint: 4.522 % of the area is joint; ten joints for nine bricks make it a little more.
    let share = (clear_m2 - brick_m2) / clear_m2;
    assert!((0.045..0.050).contains(&share), "{share}");
    check((loose / in_place).value, 1.11 / 0.95, 1e-12);
}

fn in_m(length: underbrick_calc::quantity::Length) -> f64 {
    underbrick_calc::quantity::in_metres(length)
}

#[test]
fn an_opening_is_no_joint() {
    let mut site = plain();
    site.lay.openings = vec![Opening {
        station: Some(feet(10.0)),
        offset: Some(metres(0.0)),
        along: Some(feet(1.0)),
        across: Some(feet(1.0)),
    }];
    let with = needs(&site, Way::NewBase);
    let jointing = need(&with, Item::Jointing);
    let left_free = jointing.steps.iter().find_map(|step| match step.figure {
        Figure::Area(area) if step.what == "less openings" => Some(square_feet(area)),
        _ => None,
    });
    check(left_free.unwrap(), 1.0, 1e-9);
    // The joint area stays about what it was: a square foot would be 12 x 12 x 2 1/4 in = 0.1875 ft³ more.
    site.lay.openings.clear();
    let (before, ..) = bulk(&needs(&site, Way::NewBase), Item::Jointing);
    let (after, ..) = bulk(&with, Item::Jointing);
    assert!((cubic_feet(after) - cubic_feet(before)).abs() < 0.02);
}

#[test]
fn all_loose_stone_and_sand_goes_by_the_barrow() {
    let site = measured();
    for (way, items) in [
        (Way::Relay, &[Item::SettingBed, Item::OldBedSpoil][..]),
        (
            Way::NewBase,
            &[
                Item::Base,
                Item::SettingBed,
                Item::UnsuitableSpoil,
                Item::TrimSpoil,
            ][..],
        ),
    ] {
        let needs = needs(&site, way);
        let loose: f64 = items
            .iter()
            .map(|item| in_cubic_metres(bulk(&needs, *item).1))
            .sum();
        check(in_cubic_metres(needs.barrowed), loose, 1e-12);
    }
}

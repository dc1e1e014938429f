//! What is taken away: swell, weight, the old bed and the old brick.

use crate::sites::{key, pit};
use crate::walk::{
    bulk, catalogue, check, cubic_feet, measured, need, needs, needs_with, pounds, square_feet,
    work,
};
use underbrick_calc::order::{Item, Stage, Way, WorkAmount};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{
    CUBIC_YARD_M3, POUND_KG, in_cubic_metres, in_cubic_yards, inches, kilograms_per_cubic_metre,
    metres,
};

#[track_caller]
fn swells(percent: f64, voids_percent: f64, load_factor: f64) {
    let mut catalogue = catalogue();
    for material in &mut catalogue.materials {
        if material.key == key("sand") {
            material.swell = percent / 100.0;
        }
    }
    let needs = needs_with(&measured(), &catalogue, Way::NewBase);
    let (bank, loose, mass) = bulk(&needs, Item::UnsuitableSpoil);
    let factor = (bank / loose).value;
    check(factor, load_factor, 0.0005);
    check((1.0 - factor) * 100.0, voids_percent, 0.05);
    // However it swells it weighs the same.
    check(mass.value, in_cubic_metres(bank) * 1600.0, 1e-9);
}

#[test]
fn swell_voids_and_load_factor() {
    // Rows E8 to E19: Caterpillar Performance Handbook, edition 44, p. 30-1. Row E17's 40.1 % is 67 % ÷ 167 %.
    for (swell, voids, factor) in [
        (5.0, 4.8, 0.952),
        (10.0, 9.1, 0.909),
        (15.0, 13.0, 0.870),
        (20.0, 16.7, 0.833),
        (25.0, 20.0, 0.800),
        (30.0, 23.1, 0.769),
        (35.0, 25.9, 0.741),
        (40.0, 28.6, 0.714),
        (50.0, 33.3, 0.667),
        (67.0, 40.1, 0.599),
        (75.0, 42.9, 0.571),
        (100.0, 50.0, 0.500),
    ] {
        swells(swell, voids, factor);
    }
}

#[test]
fn clay_from_the_bank() {
    // Row E22: 3000 lb per bank yd³, 2310 lb loose: swell 29.87 %. Row E20: 30 % makes 1300 of 1000.
    let mut catalogue = catalogue();
    for material in &mut catalogue.materials {
        if material.key == key("clay") {
            material.swell = 0.2987;
            material.bank_density = kilograms_per_cubic_metre(3000.0 * POUND_KG / CUBIC_YARD_M3);
        }
    }
    let needs = needs_with(&measured(), &catalogue, Way::NewBase);
    let (bank, loose, mass) = bulk(&needs, Item::TrimSpoil);
    check(pounds(mass) / in_cubic_yards(bank), 3000.0, 1e-6);
    check(pounds(mass) / in_cubic_yards(loose), 2310.0, 0.1);
    assert_eq!(need(&needs, Item::TrimSpoil).material, Some(key("clay")));
    let swollen = self::needs(&measured(), Way::NewBase); // clay of 30 %
    let (bank, loose, _) = bulk(&swollen, Item::TrimSpoil);
    check((loose / bank).value * 1000.0, 1300.0, 1e-9);
}

#[test]
fn what_comes_out_and_what_makes_room_are_kept_apart() {
    // As in the earthwork: 30 ft; paved 4 ft, dig 5 ft; old surface 20 mm, bottom of the dig 177.8 mm below the sill. Sand 40 mm x 4 ft
    // + 100 mm x 1 ft beside the walk; clay 57.8 mm x 5 ft.
    let needs = needs(&measured(), Way::NewBase);
    let (foot, run) = (0.3048, 30.0 * 0.3048);
    let unsuitable = (0.04 * 4.0 + 0.1) * foot * run;
    let trim = 0.0578 * 5.0 * foot * run;
    let (bank, loose, mass) = bulk(&needs, Item::UnsuitableSpoil);
    check(in_cubic_metres(bank), unsuitable, 1e-12);
    check(in_cubic_metres(loose), unsuitable * 1.12, 1e-12);
    check(mass.value, unsuitable * 1600.0, 1e-9);
    let (bank, ..) = bulk(&needs, Item::TrimSpoil);
    check(in_cubic_metres(bank), trim, 1e-12);
    let (WorkAmount::Volume(dug), WorkAmount::Volume(loaded)) =
        (work(&needs, Stage::Dig), work(&needs, Stage::LoadSpoil))
    else {
        panic!("{:?}", needs.work);
    };
    check(in_cubic_metres(dug), unsuitable + trim, 1e-12);
    check(
        in_cubic_metres(loaded),
        unsuitable * 1.12 + trim * 1.3,
        1e-12,
    );
    // The pit shows the sand, and lights it.
    let lights = &need(&needs, Item::UnsuitableSpoil).from;
    assert!(lights.contains(&Place::LayerMaterial(0, 1)) && lights[0] == Place::DigBottom);
}

#[test]
fn good_ground_that_was_met_but_not_dug_weighs_as_itself() {
    // The clay goes on down without a thickness: it swells by its own 30 %, not by the most in the catalogue.
    let mut site = measured();
    site.pits[0].layers[2].thickness = None;
    let mut catalogue = catalogue();
    let mut rock = catalogue.materials[2].clone();
    rock.key = key("rock");
    rock.swell = 0.65;
    catalogue.materials.push(rock);
    let (bank, loose, _) = bulk(
        &needs_with(&site, &catalogue, Way::NewBase),
        Item::TrimSpoil,
    );
    check((loose / bank).value, 1.3, 1e-12);
}

#[track_caller]
fn old_bed(sand: underbrick_calc::quantity::Length, expected: f64) {
    // Paved 4 ft x 30 ft = 120 ft².
    let mut site = measured();
    site.pits = vec![pit(5.0, metres(0.06), sand)];
    let needs = needs(&site, Way::Relay);
    let (in_place, loose, _) = bulk(&needs, Item::OldBedSpoil);
    check(cubic_feet(in_place), expected, 1e-9);
    check((loose / in_place).value, 1.12, 1e-12);
    let WorkAmount::Volume(dug) = work(&needs, Stage::Dig) else {
        panic!("{:?}", needs.work);
    };
    check(cubic_feet(dug), expected, 1e-9);
}

#[test]
fn the_old_bed_comes_off_as_thick_as_the_pits_show_it() {
    old_bed(inches(1.0), 10.0); // 120 ft² x 1 in, row E34's volume
    old_bed(inches(2.0), 20.0);
    old_bed(inches(3.0), 7.5); // fill: only as much as the new bed needs, 3/4 in
}

#[test]
fn the_old_bed_is_the_mean_of_the_pits_or_else_the_new_ones() {
    let mut site = measured();
    site.pits = vec![
        pit(2.0, metres(0.06), inches(1.0)),
        pit(7.0, metres(0.06), inches(2.0)),
    ];
    let (in_place, ..) = bulk(&needs(&site, Way::Relay), Item::OldBedSpoil);
    check(cubic_feet(in_place), 15.0, 1e-9);
    site.pits.clear();
    let needs = needs(&site, Way::Relay);
    let (in_place, ..) = bulk(&needs, Item::OldBedSpoil);
    check(cubic_feet(in_place), 7.5, 1e-9);
    assert!(need(&needs, Item::OldBedSpoil).is_least);
}

#[test]
fn all_old_brick_goes_where_the_brick_is_new() {
    // 60 mm over 4 ft x 30 ft; the catalogue's old brick: 2000 kg/m³, no swell.
    let needs = needs(&measured(), Way::NewBrick);
    let (in_place, loose, mass) = bulk(&needs, Item::OldBrick);
    let expected = 0.06 * 120.0 * 0.3048 * 0.3048;
    check(in_cubic_metres(in_place), expected, 1e-12);
    check(in_cubic_metres(loose), expected, 1e-12);
    check(mass.value, expected * 2000.0, 1e-9);
    let WorkAmount::Area(lifted) = work(&needs, Stage::LiftBrick) else {
        panic!("{:?}", needs.work);
    };
    check(square_feet(lifted), 120.0, 1e-9);
}

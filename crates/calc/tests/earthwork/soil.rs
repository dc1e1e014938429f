//! What tests of the soil do to the base.

use super::sites::{catalogue, pit, plain, shot};
use super::thickness::{check, clay, driven};
use underbrick_calc::measure::amount::{Amount, AmountUnit};
use underbrick_calc::place::Place;
use underbrick_calc::quantity::inches;
use underbrick_calc::site::{Firmness, Grit, Ribbon, Site};

fn percent(number: f64) -> Option<Amount> {
    Amount::new(number, AmountUnit::Percent)
}

/// A walk with one pit into ground that says nothing by itself; nobody asked for a base.
fn untested() -> Site {
    let mut site = plain();
    site.bed.least_base = None;
    site.line.shots = vec![shot(1.0, 0.0, 0.05)];
    site.pits = vec![pit(2.0, inches(2.25), inches(4.0))];
    site
}

/// With limits and fines tested: row S8 (CL), S9 (CH), S10 (MH) and S15 (SM) of the published soils.
fn tested(site: Site, liquid: f64, plastic: f64, fines: f64, sand: f64) -> Site {
    let mut site = site;
    site.soil.liquid_limit = percent(liquid);
    site.soil.plastic_limit = percent(plastic);
    site.soil.fines = percent(fines);
    site.soil.sieve_sand = percent(sand);
    site
}

fn lean_clay(site: Site) -> Site {
    tested(site, 27.5, 13.8, 54.23, 45.69)
}

/// FHWA-NHI-05-037, table 5-28: CL 5 to 15, CH 3 to 5, MH 4 to 8, SM 20 to 40; classes by UFC 3-250-01, table 4-1; added inches by row
/// P26, second-hand. Frost groups by UFC 3-250-01, tables 19-2 and 20-2.
#[test]
fn a_symbol_decides_where_nothing_was_driven() {
    let any = catalogue();
    // CL: class C, 2 in. F3c as its plasticity index is 13.7; no water was seen, and the same clay is not counted twice.
    let found = check(&lean_clay(untested()), &any, 6.0, &[4.0, 2.0, 0.0]);
    assert_eq!(found[1].name, "Weak ground by its symbol, class C");
    assert_eq!(found[1].because, "CL by index tests, CBR 5 to 15");
    assert_eq!(found[1].place, Place::Soil);
    assert!(found[1].source.words().contains("table 5-28"));
    assert!(found[2].source.words().contains("UFC 3-250-01"));
    assert!(
        found[2].because.starts_with("frost group F3c"),
        "{}",
        found[2].because
    );
    // CH and MH: class D, 4 in.
    check(
        &tested(untested(), 64.1, 29.0, 57.17, 42.58),
        &any,
        8.0,
        &[4.0, 4.0, 0.0],
    );
    check(
        &tested(untested(), 56.0, 32.4, 51.11, 46.87),
        &any,
        8.0,
        &[4.0, 4.0, 0.0],
    );
    // SM: class A, nothing, and said; its frost group is not known without the share finer than 0.02 mm.
    let silty_sand = tested(untested(), 49.93, 37.22, 49.4, 35.98);
    let found = check(&silty_sand, &any, 4.0, &[4.0, 0.0]);
    assert_eq!(found[1].name, "Ground by its symbol, class A");
}

#[test]
fn a_symbol_goes_before_the_material_of_a_pit() {
    // The pit's clay holds water and would take class C; silty sand with 4 % finer than 0.02 mm is class A and S2, which heaves.
    let mut site = tested(untested(), 49.93, 37.22, 49.4, 35.98);
    check(&site, &clay(), 4.0, &[4.0, 0.0]);
    site.soil.finer_than_002 = percent(4.0);
    let found = check(&site, &clay(), 6.0, &[4.0, 0.0, 2.0]);
    assert!(
        found[2].because.starts_with("frost group S2"),
        "{}",
        found[2].because
    );
    // A thumb that goes into fine soil says class D, whatever the tests were.
    let mut soft = lean_clay(untested());
    soft.pits[0].layers[2].firmness = Some(Firmness::Soft);
    let found = check(&soft, &catalogue(), 8.0, &[4.0, 4.0, 0.0]);
    assert!(
        found[1].because.ends_with(", soft under the thumb, pit 1"),
        "{}",
        found[1].because
    );
}

/// CBR by rows D8 and D10: 20 mm a blow 10.19, class B; 30 mm 6.47, class C.
#[test]
fn what_was_driven_goes_before_the_symbol() {
    // Measured, so that the frost group counts by itself.
    let found = check(
        &lean_clay(driven(30.0)),
        &catalogue(),
        8.0,
        &[4.0, 2.0, 2.0],
    );
    assert_eq!(
        found[1].because,
        "CBR 6.5 by penetrometer, pit 1; before CL, CBR 5 to 15"
    );
    let found = check(
        &lean_clay(driven(20.0)),
        &catalogue(),
        6.0,
        &[4.0, 0.0, 2.0],
    );
    assert_eq!(found[1].name, "Ground of class B");
}

#[test]
fn a_frost_group_goes_before_the_material() {
    // Water seen and clay that heaves: both, held to 4 in together.
    let mut wet = lean_clay(untested());
    wet.pits[0].seep = Some(inches(7.0));
    let found = check(&wet, &catalogue(), 8.0, &[4.0, 2.0, 2.0]);
    assert_eq!(found[2].place, Place::PitSeep(0));
    assert!(
        found[2].because.contains("7\" down") && found[2].because.contains("F3c"),
        "{}",
        found[2].because
    );
    // Row Z1, sand with 2.5 % finer than 0.02 mm is NFS: no heave, though water stands in it.
    let mut sand = untested();
    sand.pits[0].seep = Some(inches(7.0));
    check(&sand, &catalogue(), 6.0, &[4.0, 2.0]);
    sand.soil.sand = percent(90.0);
    sand.soil.silt = percent(5.0);
    sand.soil.clay = percent(5.0); // row X1, sand
    sand.soil.finer_than_002 = percent(2.5);
    let found = check(&sand, &catalogue(), 4.0, &[4.0, 0.0]);
    assert_eq!(found[1].name, "Does not heave in frost");
    sand.soil.finer_than_002 = percent(8.0); // S2 ends at 6, F2b and PFS fit: the worse counts
    let found = check(&sand, &catalogue(), 6.0, &[4.0, 2.0]);
    assert!(found[1].because.contains("frost group F2b"), "{found:#?}");
}

#[test]
fn soil_by_feel_counts_where_a_pit_says_nothing_of_it() {
    // A long ribbon, neither gritty nor smooth: clay by the guide of Thien (1979). As fine soil class C, common practice.
    let mut site = untested();
    site.soil.ribbon = Some(Ribbon::Long);
    site.soil.grit = Some(Grit::Neither);
    let found = check(&site, &catalogue(), 6.0, &[4.0, 2.0, 0.0]);
    assert!(
        found[1].because.starts_with("clay by feel"),
        "{}",
        found[1].because
    );
    // Where the pit's own material is fine it is named instead, with its pit.
    let found = check(&site, &clay(), 6.0, &[4.0, 2.0, 0.0]);
    assert_eq!(found[1].place, Place::LayerMaterial(0, 2));
}

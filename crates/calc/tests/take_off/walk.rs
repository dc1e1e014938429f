//! Walks for the take-off, and how their needs are read.

use crate::sites;
use underbrick_calc::Results;
use underbrick_calc::catalogue::{Bedding, Catalogue, FiredClay, Hatch};
use underbrick_calc::compute;
use underbrick_calc::order::{Item, Need, NeedAmount, Needs, Stage, Way, WorkAmount};
use underbrick_calc::quantity::{
    Area, CUBIC_FOOT_M3, Mass, POUND_KG, Volume, in_cubic_feet, kilograms_per_cubic_metre, unit,
};
use underbrick_calc::site::Site;

/// The invented materials; sand is what is bought for setting bed and joints (rows E23 and E25: 1.11 ÷ 0.95 loose to compacted), brick
/// of 130 lb/ft³ (row B23, from memory).
pub fn catalogue() -> Catalogue {
    let mut catalogue = sites::catalogue();
    for material in &mut catalogue.materials {
        if material.key == sites::key("sand") {
            material.hatch = Hatch::Sand;
        }
    }
    Catalogue {
        bedding: Some(Bedding {
            key: sites::key("sand"),
            loose_to_compacted: 1.11 / 0.95,
            source: "rows E23 and E25".to_owned(),
        }),
        fired_clay: Some(FiredClay {
            density: kilograms_per_cubic_metre(130.0 * POUND_KG / CUBIC_FOOT_M3),
            source: "row B23".to_owned(),
        }),
        ..catalogue
    }
}

/// A straight level walk as [`sites::plain`], its surface read at both ends 20 mm below the sill, one pit: 60 mm of brick, 40 mm of
/// sand, clay.
pub fn measured() -> Site {
    let mut site = sites::plain();
    site.line.old_below_sill = Some(underbrick_calc::quantity::metres(0.02));
    site.line.shots = vec![sites::shot(9.0, 0.0, 0.02)];
    site.pits = vec![sites::pit(
        5.0,
        underbrick_calc::quantity::metres(0.06),
        underbrick_calc::quantity::metres(0.04),
    )];
    site
}

pub fn computed(site: &Site) -> Results {
    compute(site, &catalogue())
}

pub fn needs_with(site: &Site, catalogue: &Catalogue, way: Way) -> Needs {
    let order = compute(site, catalogue).order.unwrap();
    order.way(way).unwrap().needs.clone()
}

pub fn needs(site: &Site, way: Way) -> Needs {
    needs_with(site, &catalogue(), way)
}

#[track_caller]
pub fn need(needs: &Needs, item: Item) -> &Need {
    needs
        .of(item)
        .unwrap_or_else(|| panic!("no {item:?} in {needs:#?}"))
}

/// In place, loose, dry mass.
#[track_caller]
pub fn bulk(needs: &Needs, item: Item) -> (Volume, Volume, Mass) {
    match need(needs, item).amount {
        Some(NeedAmount::Bulk {
            in_place,
            loose,
            dry_mass,
        }) => (in_place, loose, dry_mass),
        other => panic!("{item:?} is {other:?}"),
    }
}

#[track_caller]
pub fn pieces(needs: &Needs, item: Item) -> u32 {
    match need(needs, item).amount {
        Some(NeedAmount::Pieces { n, .. }) => n,
        other => panic!("{item:?} is {other:?}"),
    }
}

#[track_caller]
pub fn work(needs: &Needs, stage: Stage) -> WorkAmount {
    let found = needs.work.iter().find(|work| work.stage == stage);
    found
        .and_then(|work| work.amount)
        .unwrap_or_else(|| panic!("no {stage:?} in {:#?}", needs.work))
}

pub fn cubic_feet(volume: Volume) -> f64 {
    in_cubic_feet(volume)
}

pub fn pounds(mass: Mass) -> f64 {
    mass.get::<unit::kilogram>() / POUND_KG
}

pub fn square_feet(area: Area) -> f64 {
    area.get::<unit::square_foot>()
}

#[track_caller]
pub fn check(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value} is not {expected}"
    );
}

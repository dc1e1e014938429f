//! What is not known is never zero.

use crate::walk::{catalogue, measured, need, needs, needs_with};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::order::{Figure, Item, Need, NeedAmount, Stage, Way};
use underbrick_calc::site::{MaterialKey, RestraintInput, Site};

/// The last step says what is missing.
#[track_caller]
fn misses(need: &Need, what: &str) {
    assert!(need.amount.is_none() && need.is_least, "{need:?}");
    let last = need.steps.last().unwrap();
    let Figure::Words(words) = &last.figure else {
        panic!("{need:?}");
    };
    assert!(words.contains(what), "{words:?} does not say {what:?}");
}

/// Nothing known is nothing, and whatever is unknown says why.
#[track_caller]
fn no_zero_for_unknown(site: &Site, catalogue: &Catalogue) {
    for way in Way::ALL {
        let needs = needs_with(site, catalogue, way);
        for need in &needs.items {
            match need.amount {
                None => misses(need, ""),
                Some(NeedAmount::Bulk {
                    in_place, dry_mass, ..
                }) => assert!(in_place.value > 0.0 && dry_mass.value > 0.0, "{need:?}"),
                Some(NeedAmount::Pieces { n, .. }) => assert!(n > 0, "{need:?}"),
                Some(NeedAmount::Mixed(volume)) => assert!(volume.value > 0.0, "{need:?}"),
                Some(NeedAmount::Length(length)) => assert!(length.value > 0.0, "{need:?}"),
                Some(NeedAmount::Area(area)) => assert!(area.value > 0.0, "{need:?}"),
                Some(NeedAmount::Days(_)) => panic!("hire is not taken off"),
            }
        }
        assert!(
            needs
                .work
                .iter()
                .all(|work| work.amount.is_some() || work.is_least)
        );
    }
}

#[test]
fn a_walk_without_a_run() {
    let mut site = measured();
    site.bed.fabric = true;
    site.edge.restraint = RestraintInput::Spiked { spacing: None };
    site.line.legs.clear();
    site.line.width = None;
    no_zero_for_unknown(&site, &catalogue());
    let needs = needs(&site, Way::NewBase);
    for need in &needs.items {
        misses(need, "the run, leg by leg, Width between edge bricks");
    }
    assert_eq!(needs.items.len(), 15);
    // An edge of the second brick is missed too.
    site.lay.edge_of_second = true;
    site.lay.second_brick = Some(site.brick);
    misses(
        need(&self::needs(&site, Way::NewBrick), Item::SecondBrick),
        "the run",
    );
    assert!(
        needs
            .work
            .iter()
            .all(|work| work.amount.is_none() || work.stage == Stage::HandOver)
    );
}

#[test]
fn a_walk_without_a_pit() {
    let mut site = measured();
    site.pits.clear();
    no_zero_for_unknown(&site, &catalogue());
    let needs = needs(&site, Way::NewBase);
    misses(need(&needs, Item::UnsuitableSpoil), "a test pit");
    assert!(need(&needs, Item::TrimSpoil).is_least);
    assert!(need(&needs, Item::Base).is_least);
    assert!(!need(&needs, Item::SettingBed).is_least);
    let dig = needs.work.iter().find(|work| work.stage == Stage::Dig);
    assert!(dig.unwrap().is_least);
}

#[test]
fn a_walk_without_a_level_of_the_old_surface() {
    let mut site = measured();
    site.line.old_below_sill = None;
    site.line.shots.clear();
    no_zero_for_unknown(&site, &catalogue());
    let needs = needs(&site, Way::NewBrick);
    for item in [Item::UnsuitableSpoil, Item::TrimSpoil, Item::OldBrick] {
        misses(need(&needs, item), "a reading of the old surface");
    }
    for stage in [Stage::Dig, Stage::LoadSpoil] {
        let work = needs.work.iter().find(|work| work.stage == stage).unwrap();
        assert!(work.amount.is_none() && work.is_least, "{work:?}");
    }
}

#[test]
fn a_pit_that_did_not_find_the_bottom() {
    let mut site = measured();
    site.pits[0].layers.truncate(2);
    no_zero_for_unknown(&site, &catalogue());
    let needs = needs(&site, Way::NewBase);
    for item in [Item::Base, Item::UnsuitableSpoil] {
        let need = need(&needs, item);
        assert!(need.amount.is_some() && need.is_least, "{need:?}");
    }
}

#[test]
fn a_base_or_a_sand_that_the_catalogue_does_not_know() {
    let mut site = measured();
    site.bed.base_material = MaterialKey("sand".to_owned());
    misses(
        need(&needs(&site, Way::NewBase), Item::Base),
        "sand cannot be bought as base",
    );
    site.bed.base_material = MaterialKey("moon_dust".to_owned());
    no_zero_for_unknown(&site, &catalogue());
    misses(
        need(&needs(&site, Way::NewBase), Item::Base),
        "does not know \"moon_dust\"",
    );
    let bare = Catalogue {
        bedding: None,
        fired_clay: None,
        ..catalogue()
    };
    let needs = needs_with(&measured(), &bare, Way::Relay);
    misses(need(&needs, Item::SettingBed), "a sand");
    misses(need(&needs, Item::Jointing), "a sand");
}

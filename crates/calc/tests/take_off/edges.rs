//! Concrete, edging, forms, fabric, and what each way asks for.

use crate::sites::{plain, straight};
use crate::walk::{check, cubic_feet, measured, need, needs, pieces, square_feet, work};
use underbrick_calc::order::{Item, NeedAmount, Stage, Way, WorkAmount};
use underbrick_calc::quantity::{Length, feet, inches, unit};
use underbrick_calc::site::{EdgeStands, RestraintInput, Site};

fn haunched(height_in: f64, width_in: f64, top_width_in: f64) -> Site {
    let mut site = plain();
    site.edge.stands = EdgeStands::Sailor;
    site.edge.restraint = RestraintInput::Haunch {
        height: Some(inches(height_in)),
        width: Some(inches(width_in)),
        top_width: Some(inches(top_width_in)),
    };
    site
}

#[test]
fn concrete_of_the_haunch() {
    // Rows C4 and C5: 60 ft of edge (30 ft, both sides): 6 x 6 in 15.0 ft³; triangle 4 x 4 in 3.333 ft³.
    for (site, expected) in [
        (haunched(6.0, 6.0, 6.0), 15.0),
        (haunched(4.0, 4.0, 0.0), 10.0 / 3.0),
    ] {
        for way in Way::ALL {
            let needs = needs(&site, way);
            let Some(NeedAmount::Mixed(concrete)) = need(&needs, Item::HaunchConcrete).amount
            else {
                panic!("{needs:#?}");
            };
            check(cubic_feet(concrete), expected, 1e-9);
            check(length_ft(work(&needs, Stage::Restraint)), 60.0, 1e-9);
        }
    }
}

#[track_caller]
fn length_ft(amount: WorkAmount) -> f64 {
    match amount {
        WorkAmount::Length(length) => length.get::<unit::foot>(),
        other => panic!("{other:?}"),
    }
}

#[track_caller]
fn need_ft(needs: &underbrick_calc::order::Needs, item: Item) -> f64 {
    match need(needs, item).amount {
        Some(NeedAmount::Length(length)) => length.get::<unit::foot>(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn edging_forms_and_string_of_thirty_feet() {
    let mut site = plain();
    site.edge.restraint = RestraintInput::Spiked {
        spacing: Some(inches(12.0)),
    };
    let needs = needs(&site, Way::NewBase);
    check(need_ft(&needs, Item::EdgingStrip), 60.0, 1e-9);
    // 30 bays and one more, each side.
    assert_eq!(pieces(&needs, Item::EdgingSpike), 62);
    check(need_ft(&needs, Item::FormBoard), 60.0, 1e-9);
    // Every 3 ft and one at the door, each side: 22. Boards of 12 ft: 5, spliced 3 times. Screws 2 x 22 + 4 x 3.
    assert_eq!(pieces(&needs, Item::FormStake), 22);
    assert_eq!(pieces(&needs, Item::FormScrew), 56);
    // Every 6 ft and one at the door.
    assert_eq!(pieces(&needs, Item::Spacer), 6);
    // Twice the run and 5 ft at each of four ends.
    check(need_ft(&needs, Item::String), 80.0, 1e-9);
    check(length_ft(work(&needs, Stage::Forms)), 60.0, 1e-9);
    check(length_ft(work(&needs, Stage::EdgeBrick)), 60.0, 1e-9);
}

#[test]
fn rows_across_are_edge_brick_too() {
    let mut site = plain();
    site.lay.return_at_door = true;
    site.lay.return_at_end = true;
    // 60 ft and twice the clear 2 ft 8 in.
    let needs = needs(&site, Way::NewBase);
    check(
        length_ft(work(&needs, Stage::EdgeBrick)),
        60.0 + 64.0 / 12.0,
        1e-9,
    );
}

#[test]
fn fabric_laps_where_legs_meet_and_at_the_ends() {
    // Dig 5 ft x 30 ft = 150 ft²; a lap of 1 ft across at both ends: 160 ft²; two legs: 165 ft².
    let mut site = plain();
    site.bed.fabric = true;
    let mut fabric = |legs: Vec<Length>| {
        site.line.legs = legs.into_iter().map(straight).collect();
        match need(&needs(&site, Way::NewBase), Item::Fabric).amount {
            Some(NeedAmount::Area(area)) => square_feet(area),
            other => panic!("{other:?}"),
        }
    };
    check(fabric(vec![feet(30.0)]), 160.0, 1e-9);
    check(fabric(vec![feet(10.0), feet(20.0)]), 165.0, 1e-9);
}

/// Which items and stages a way asks for.
#[track_caller]
fn asks(site: &Site, way: Way, items: &[Item], stages: &[Stage]) {
    let needs = needs(site, way);
    let found: Vec<Item> = needs.items.iter().map(|need| need.item).collect();
    assert_eq!(found, items, "{way:?}");
    let found: Vec<Stage> = needs.work.iter().map(|work| work.stage).collect();
    assert_eq!(found, stages, "{way:?}");
}

#[test]
fn each_way_asks_for_its_own() {
    let mut site = measured();
    site.bed.fabric = true;
    site.lay.n_on_site = Some(0);
    asks(
        &site,
        Way::Relay,
        &[
            Item::Brick,
            Item::SettingBed,
            Item::Jointing,
            Item::FormBoard,
            Item::FormStake,
            Item::FormScrew,
            Item::Spacer,
            Item::String,
            Item::OldBedSpoil,
            Item::OldBrick,
        ],
        &[
            Stage::LiftBrick,
            Stage::Dig,
            Stage::LoadSpoil,
            Stage::Forms,
            Stage::EdgeBrick,
            Stage::Screed,
            Stage::LayField,
            Stage::Cut,
            Stage::Jointing,
            Stage::HandOver,
        ],
    );
    for way in [Way::NewBase, Way::NewBrick] {
        asks(
            &site,
            way,
            &[
                Item::Brick,
                Item::Base,
                Item::SettingBed,
                Item::Jointing,
                Item::Fabric,
                Item::FormBoard,
                Item::FormStake,
                Item::FormScrew,
                Item::Spacer,
                Item::String,
                Item::UnsuitableSpoil,
                Item::TrimSpoil,
                Item::OldBrick,
            ],
            &[
                Stage::LiftBrick,
                Stage::Dig,
                Stage::LoadSpoil,
                Stage::TrimBottom,
                Stage::LayFabric,
                Stage::Lifts,
                Stage::Forms,
                Stage::EdgeBrick,
                Stage::Screed,
                Stage::LayField,
                Stage::Cut,
                Stage::Jointing,
                Stage::HandOver,
            ],
        );
    }
}

use super::*;
use crate::line::tests::{site as plain_site, straight};
use crate::measure::amount::{Amount, AmountUnit};
use crate::quantity::{feet, inches};

/// A walk 20 ft long and 4 ft wide.
fn walk() -> Site {
    plain_site(vec![straight(feet(20.0))])
}

fn found(site: &Site) -> Findings {
    let mut findings = Findings::default();
    let wishes = LayWishes::checked(site, &mut findings);
    let run = crate::line::line(site, &mut Findings::default())
        .unwrap()
        .run;
    in_the_walk(site, &wishes, &run, &mut findings);
    findings
}

/// One finding at that place, with those words in it.
#[track_caller]
fn named(site: &Site, place: Place, words: &[&str]) {
    let findings = found(site);
    let texts: Vec<&str> = findings
        .at(place)
        .map(|found| found.text.as_str())
        .collect();
    assert_eq!(texts.len(), 1, "{findings:?}");
    for word in words {
        assert!(texts[0].contains(word), "{word:?} in {:?}", texts[0]);
    }
}

#[test]
fn a_usual_walk_is_not_found_fault_with() {
    assert_eq!(found(&walk()).iter().count(), 0);
}

#[test]
fn joints_are_held_against_each_other_and_the_brick() {
    let mut site = walk();
    site.lay.least_joint = Some(inches(0.25));
    named(
        &site,
        Place::LeastJoint,
        &["Least joint: 1/4\"", "widest joint, 3/16\""],
    );
    assert_eq!(LayWishes::of(&site).least_joint, inches(1.0 / 16.0));
    let mut site = walk();
    site.lay.widest_joint = Some(inches(1.0 / 32.0));
    // The default of the least joint gives way to a widest joint that was written down.
    assert_eq!(LayWishes::of(&site).least_joint, inches(1.0 / 32.0));
    named(
        &site,
        Place::Joint,
        &["Joint: 1/8\"", "above the widest joint"],
    );
    let mut site = walk();
    site.brick.width = Some(inches(1.0));
    site.brick.joint = Some(inches(1.0));
    site.lay.widest_joint = Some(inches(1.0));
    named(
        &site,
        Place::Joint,
        &["1\" is not below the brick's width, 1\""],
    );
}

#[test]
fn pieces_and_laps_are_held_against_the_brick() {
    let mut site = walk();
    site.lay.least_piece = Some(inches(9.0));
    named(&site, Place::LeastPiece, &["Least piece: 9\"", "8\""]);
    assert_eq!(LayWishes::of(&site).least_piece, inches(8.0) / 3.0);
    site.lay.least_piece = None;
    site.lay.least_lap = Some(inches(5.0));
    named(
        &site,
        Place::LeastLap,
        &["Least lap: 5\"", "half the brick, 4\""],
    );
    assert_eq!(LayWishes::of(&site).least_lap, inches(8.0) * 0.25);
}

#[test]
fn a_lap_that_is_a_stack_bond_takes_the_half_lap() {
    let mut site = walk();
    site.lay.lap = Amount::new(100.0, AmountUnit::Percent);
    named(&site, Place::LapShare, &["Lap: 100 %", "stack bond"]);
    assert!((LayWishes::of(&site).lap_share - 0.5).abs() < 1e-15);
}

#[test]
fn a_brick_wider_than_the_walk_is_named() {
    let mut site = walk();
    site.line.width = Some(inches(12.0));
    site.brick.width = Some(inches(13.0));
    named(&site, Place::BrickWidth, &["Brick width: 13\"", "12\""]);
    let mut site = walk();
    site.line.width = Some(inches(12.0));
    site.brick.length = Some(inches(16.0));
    assert_eq!(found(&site).iter().count(), 0);
    site.lay.courses = CourseWay::Across;
    named(&site, Place::BrickLength, &["Brick length"]);
}

#[test]
fn an_opening_outside_the_walk_is_named() {
    let opening = |station_ft: f64, offset_in: f64| Opening {
        station: Some(feet(station_ft)),
        offset: Some(inches(offset_in)),
        along: Some(inches(12.0)),
        across: Some(inches(12.0)),
    };
    let mut site = walk();
    // Half of 4 ft less half of 12 in: 18 in is the farthest that is wholly inside.
    site.lay.openings = vec![opening(0.5, 18.0), opening(19.5, -18.0)];
    assert_eq!(found(&site).iter().count(), 0);
    site.lay.openings = vec![opening(19.75, 0.0)];
    named(
        &site,
        Place::OpeningStation(0),
        &["Opening 1", "20'-3\"", "20'-0\" long"],
    );
    site.lay.openings = vec![opening(2.0, 0.0), opening(10.0, -19.0)];
    named(
        &site,
        Place::OpeningOffset(1),
        &["Opening 2", "2'-1\"", "2'-0\""],
    );
    site.lay.openings = vec![Opening::default()];
    named(
        &site,
        Place::OpeningAcross(0),
        &["Opening 1 across is missing"],
    );
}

#[test]
fn a_target_without_a_field_is_named() {
    let mut site = walk();
    site.brick.thickness = Some(inches(7.0));
    site.lay.target_width = Some(inches(14.0));
    named(&site, Place::TargetWidth, &["14\"", "7\""]);
}

//! Grade lines, the rules that they are held to, and what is offered instead.

use super::*;
use crate::measure::slope::Fall;
use crate::quantity::{in_metres, metres};
use proptest::prelude::*;

#[test]
fn a_free_walk_falls_as_wanted() {
    // Row B28: 1/4 in per ft over 12 ft is 3 in.
    let (line, findings) = line_of(&site(vec![straight(feet(12.0))]));
    assert!((in_metres(line.grade.end + inches(3.0))).abs() < 1e-12);
    assert!(!line.grade.end_is_fixed);
    assert!(line.offers.is_empty());
    assert!(
        findings
            .iter()
            .all(|finding| finding.weight == Weight::Right),
        "{findings:#?}"
    );
    // Row A23: 2 % over 10 ft is 2.4 in.
    let mut at_two_percent = site(vec![straight(feet(10.0))]);
    at_two_percent.line.fall = Some(Fall::percent(2.0));
    let (line, findings) = line_of(&at_two_percent);
    assert!((in_metres(line.grade.end + inches(2.4))).abs() < 1e-9 * 0.0254);
    check_found(
        &findings,
        Place::Fall,
        Weight::Right,
        "2 3/8\" over the first 10'-0\" away from the house",
    );
    assert!(line.offers.is_empty());
}

#[test]
fn a_cross_fall_drops_one_side() {
    // Row A16: 4 ft wide at 1/4 in per ft across, 1 in from edge to edge, at the limit of 1:48 with nothing to spare.
    let mut crossed = site(vec![straight(feet(12.0))]);
    crossed.line.cross_fall = Some(Fall::inches_per_foot(0.25));
    let (line, findings) = line_of(&crossed);
    let across = line.grade.level(feet(5.0), feet(-2.0)) - line.grade.level(feet(5.0), feet(2.0));
    assert!((in_metres(across - inches(1.0))).abs() < 1e-9 * 0.0254);
    check_found(
        &findings,
        Place::CrossFall,
        Weight::Right,
        "Level enough across",
    );
    crossed.line.cross_fall = Some(Fall::percent(2.09));
    let (_, findings) = line_of(&crossed);
    check_found(
        &findings,
        Place::CrossFall,
        Weight::Warning,
        "accessible option",
    );
}

#[test]
fn a_fixed_end_without_a_level_behaves_as_free() {
    let mut open = site(vec![straight(feet(12.0))]);
    open.line.far_end = FarEnd::Fixed { below_sill: None };
    let (line, findings) = line_of(&open);
    assert!(!line.grade.end_is_fixed);
    check_found(
        &findings,
        Place::FarEndBelowSill,
        Weight::Warning,
        "Far end below sill is missing",
    );
}

#[test]
fn falls_out_of_all_reason_are_not_used() {
    let mut steep = site(vec![straight(feet(12.0))]);
    steep.line.fall = Some(Fall::inches_per_foot(6.0));
    let (line, findings) = line_of(&steep);
    assert_eq!(line.grade.fall, Fall::inches_per_foot(0.25));
    check_found(
        &findings,
        Place::Fall,
        Weight::Stop,
        "Fall: 6 in/ft is above the most that can be true, 3 in/ft.",
    );
}

#[test]
fn a_steep_walk_is_a_ramp_or_has_steps() {
    // Row A18: 30 ft long, 20 in down: 5.556 %, a ramp whose 20 in rise needs handrails.
    let (line, findings) = line_of(&fixed(site(vec![straight(feet(30.0))]), inches(20.0)));
    assert!((line.grade.fall.as_percent() - 5.556).abs() < 1e-3);
    check_found(
        &findings,
        Place::FarEndBelowSill,
        Weight::Warning,
        "1:18 (5.56 %) along, steeper than 1:20, rising 1'-8\", so that it needs handrails.",
    );
    let titles: Vec<&str> = line
        .offers
        .iter()
        .map(|offer| offer.title.as_str())
        .collect();
    // Ramp: two landings of 5 ft drop 2 1/2 in, 17 1/2 in over 20 ft = 0.875 in per ft, under 1 in per ft (1:12).
    // Steps at 1/4 in per ft: n = 2, (20 - (360 - 10)/48) / 2 = 6.354 in; n = 3, (20 - 340/48) / 3 = 4.306 in.
    assert_eq!(
        titles,
        [
            "ramp at 7/8 in/ft",
            // 30 ft at 1:20 drop 18 in, 2 in less than 20 in.
            "far end 2\" higher",
            "2 risers of 6 3/8\"",
            "3 risers of 4 5/16\"",
            "one fall of 5.56 %, as it is"
        ]
    );
    assert_eq!(line.offers[0].breaks, Vec::<String>::new());
    check_offers(&line);
}

#[test]
fn a_walk_towards_the_house_stops_the_job_and_is_offered_a_way_out() {
    let (line, findings) = line_of(&fixed(site(vec![straight(feet(24.0))]), inches(-2.0)));
    check_found(
        &findings,
        Place::FarEndBelowSill,
        Weight::Stop,
        "falls towards the house",
    );
    let titles: Vec<&str> = line
        .offers
        .iter()
        .map(|offer| offer.title.as_str())
        .collect();
    // Lower by 6 + 2 in. Drain: (24 + (-2 ÷ 1/4)) ÷ 2 = 8 ft, but no nearer than 10 ft; from there 2 1/2 + 2 in up over 14 ft.
    assert_eq!(
        titles,
        [
            "drain across the walk at 10'-0\" from the door",
            "far end 8\" lower",
            "one fall of 0.69 % towards the house, as it is"
        ]
    );
    assert!(line.offers[0].breaks.is_empty() && line.offers[1].breaks.is_empty());
    check_offers(&line);
}

#[test]
fn a_flat_walk_is_offered_a_cross_fall() {
    let (line, findings) = line_of(&fixed(site(vec![straight(feet(24.0))]), inches(3.0)));
    check_found(
        &findings,
        Place::FarEndBelowSill,
        Weight::Warning,
        "less than 2 %",
    );
    let crossed = line
        .offers
        .iter()
        .find(|offer| offer.title.starts_with("cross-fall"))
        .unwrap();
    assert_eq!(crossed.title, "cross-fall of 1/4 in/ft to the right");
    // The house rule is about the fall away from it: it stays broken, and is named.
    assert_eq!(crossed.breaks, [rules::HOUSE.words()]);
    check_offers(&line);
}

/// Every offer arrives at the far end that it names, fewest broken rules first.
#[track_caller]
fn check_offers(line: &Line) {
    let counts: Vec<usize> = line.offers.iter().map(|offer| offer.breaks.len()).collect();
    assert!(counts.is_sorted(), "{counts:?}");
    for offer in &line.offers {
        if let Some((n_risers, riser)) = offer.risers {
            let treads = inches(10.0) * f64::from(n_risers - 1);
            let down =
                riser * f64::from(n_risers) + (line.run.length() - treads) * offer.fall.ratio();
            assert!(
                in_metres(line.grade.start - down + offer.far_end_below_sill).abs() < 1e-9,
                "{offer:?}"
            );
            assert!(riser <= inches(7.75) && riser >= inches(4.0));
        }
        let across = offer.cross_fall.ratio().abs();
        let along = offer.fall.ratio();
        let is_named = |word: &str| offer.breaks.iter().any(|rule| rule.contains(word));
        assert!(along >= 0.02 || is_named("R401.3"), "{offer:?}");
        assert!(
            across <= 1.0 / 48.0 + 1e-12 || is_named("across"),
            "{offer:?}"
        );
        assert!(
            along.abs() <= 0.05 + 1e-12
                || offer.title.starts_with("ramp")
                || is_named("403.3")
                || is_named("405"),
            "{offer:?}"
        );
        assert!(
            along.abs() <= 1.0 / 12.0 + 1e-12 || is_named("405"),
            "{offer:?}"
        );
    }
}

proptest! {
    /// The grade line goes through both ends where the far one is fixed, whatever the run.
    #[test]
    fn the_grade_line_goes_through_both_fixed_ends(
        length_ft in 1.0..200.0_f64,
        radius_ft in 4.0..50.0_f64,
        turn_degrees in 1.0..170.0_f64,
        start_in in -1.0..12.0_f64,
        end_in in -60.0..120.0_f64,
    ) {
        let mut site = fixed(site(vec![straight(feet(length_ft)), curve(feet(radius_ft), turn_degrees, Hand::Left)]), inches(end_in));
        site.line.first_brick_below_sill = Some(inches(start_in));
        let (line, _) = line_of(&site);
        let level_m = |station| in_metres(line.grade.level(station, metres(0.0)));
        prop_assert!((level_m(metres(0.0)) + in_metres(inches(start_in))).abs() < 1e-12);
        prop_assert!((level_m(line.run.length()) + in_metres(inches(end_in))).abs() < 1e-12);
        prop_assert!((in_metres(line.grade.end) + in_metres(inches(end_in))).abs() < 1e-12);
        check_offers(&line);
    }
}

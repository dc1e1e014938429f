//! Lifts: how many, how thick, where, and what becomes of thin rests.

use crate::sites::{bed_of, computed, key, pit, plain, shot};
use underbrick_calc::bed::Bed;
use underbrick_calc::findings::Weight;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::unit::{foot, inch};
use underbrick_calc::quantity::{Length, feet, in_cubic_feet, in_metres, inches};
use underbrick_calc::site::Site;

#[track_caller]
fn check(value: f64, expected: f64) {
    assert!(
        (value - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{value} is not {expected}"
    );
}

fn in_feet(feet_: f64) -> f64 {
    feet_ * 0.3048
}

/// The plain walk, its old surface at sill level, with sand down to these depths below the sill, in inches, at these feet.
fn with_sand(depths: &[(f64, f64)]) -> Site {
    let mut site = plain();
    site.line.old_below_sill = Some(inches(0.0));
    site.line.shots = vec![shot(in_feet(30.0), 0.0, 0.0)];
    site.pits = depths
        .iter()
        .map(|&(at_ft, depth_in)| pit(in_feet(at_ft), inches(2.0), inches(depth_in - 2.0)))
        .collect();
    site
}

fn base_in(bed: &Bed, at_ft: f64) -> f64 {
    bed.dig.base_thickness(feet(at_ft), feet(0.0)).get::<inch>()
}

#[test]
fn common_practice() {
    // Common practice, no source: 2 1/4 in brick on 3/4 in bed: base top 3 in down. 7 in of 1.25 ratio: three lifts of 2 1/3 in.
    let mut site = plain();
    site.bed.least_base = Some(inches(7.0));
    let bed = bed_of(&site);
    check(bed.base_top_below_grade.get::<inch>(), 3.0);
    check(bed.lifts.full_compacted.get::<inch>(), 7.0 / 3.0);
    check(bed.lifts.compacted_limit.get::<inch>(), 2.4);
    let tops: Vec<f64> = bed
        .lifts
        .each
        .iter()
        .map(|lift| lift.top_below_grade.get::<inch>())
        .collect();
    assert_eq!(
        bed.lifts
            .each
            .iter()
            .map(|lift| lift.number)
            .collect::<Vec<_>>(),
        [1, 2, 3]
    );
    for (top, expected) in tops
        .into_iter()
        .zip([3.0 + 14.0 / 3.0, 3.0 + 7.0 / 3.0, 3.0])
    {
        check(top, expected);
    }
    for lift in &bed.lifts.each {
        check(lift.compacted.get::<inch>(), 7.0 / 3.0);
        check(lift.loose.get::<inch>(), 7.0 / 3.0 * 1.25);
        assert!(lift.loose <= bed.lifts.loose_limit);
    }
}

#[test]
fn a_base_at_the_limit_gains_no_lift() {
    // 7.2 in of 1.25 ratio under 3 in loose: three lifts of 2.4 in exactly; 4.8 in: two.
    for (thickness_in, n_lifts) in [(2.4, 1), (4.8, 2), (7.2, 3), (7.201, 4), (12.0, 5)] {
        let mut site = plain();
        site.bed.least_base = Some(inches(thickness_in));
        assert_eq!(bed_of(&site).lifts.each.len(), n_lifts, "{thickness_in} in");
    }
}

#[test]
fn deepest_places_are_filled_first() {
    // Sand to 7 in below the sill at the door (base 4 in) and to 10 in at the far end (7 in): level to 10 ft, then 3 in over 20 ft.
    // Three lifts of 2 1/3 in; the spare under the limit is 2.4 - 2 1/3 = 1/15 in; thinnest partial lift 1.5 x 3/4 = 1 1/8 in.
    let site = with_sand(&[(10.0, 7.0), (30.0, 10.0)]);
    let bed = bed_of(&site);
    check(bed.thickest_base.get::<inch>(), 7.0);
    check(bed.thinnest_base.get::<inch>(), 4.0);
    check(bed.lifts.thinnest_partial.get::<inch>(), 1.125);
    // 4 in = one full lift and 1 2/3 in: stays. 14/3 + 1/15 is merged. From there to 14/3 + 1 1/8 the dig is trimmed to the latter.
    let at_ft = |thickness_in: f64| 10.0 + (thickness_in - 4.0) / 3.0 * 20.0;
    check(base_in(&bed, 5.0), 4.0);
    check(base_in(&bed, at_ft(4.5)), 4.5);
    check(base_in(&bed, at_ft(14.0 / 3.0 + 0.06)), 14.0 / 3.0 + 0.06);
    check(base_in(&bed, at_ft(14.0 / 3.0 + 0.07)), 14.0 / 3.0 + 1.125);
    check(base_in(&bed, at_ft(14.0 / 3.0 + 1.1)), 14.0 / 3.0 + 1.125);
    check(base_in(&bed, at_ft(6.0)), 6.0);
    // The lowest lift starts where the dig is trimmed; the middle and the top one run from end to end.
    let runs: Vec<Vec<(f64, f64)>> = bed
        .lifts
        .each
        .iter()
        .map(|lift| {
            lift.runs
                .iter()
                .map(|(from, to)| (from.get::<foot>(), to.get::<foot>()))
                .collect()
        })
        .collect();
    assert_eq!(runs.iter().map(Vec::len).collect::<Vec<_>>(), [1, 1, 1]);
    assert!(
        (runs[0][0].0 - at_ft(14.0 / 3.0 + 1.0 / 15.0)).abs() < 1e-5
            && (runs[0][0].1 - 30.0).abs() < 1e-9,
        "{runs:?}"
    );
    check(runs[1][0].0, 0.0);
    check(runs[2][0].1, 30.0);
    // The middle lift is thickest where the rest is merged into it: at the limit.
    assert!((bed.lifts.each[1].compacted.get::<inch>() - 2.4).abs() < 1e-6);
    assert!((bed.lifts.each[1].loose.get::<inch>() - 3.0).abs() < 1e-6);
    // Trimming is told: from 1 1/8 - 1/15 in at its start to nothing.
    let results = computed(&site);
    let told: Vec<_> = results.findings.at(Place::DigBottom).collect();
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(
        told[0].weight == Weight::Note && told[0].text.contains("1 1/16"),
        "{}",
        told[0].text
    );
}

#[test]
fn a_base_thinner_than_its_stone_is_made_thicker() {
    // Least base 1 in, stone 3/4 in: 1 1/8 in, one lift.
    let mut site = plain();
    site.bed.least_base = Some(inches(1.0));
    let bed = bed_of(&site);
    check(bed.thinnest_base.get::<inch>(), 1.125);
    assert_eq!(bed.lifts.each.len(), 1);
}

#[test]
fn an_undercut_limit_leaves_ground_in_and_says_so() {
    // Sand to 13 in below the sill; dig limited to 10 in below the grade line: base 7 in, 3 in of sand stay.
    let mut site = with_sand(&[(15.0, 13.0)]);
    site.bed.undercut_limit = Some(inches(10.0));
    let results = computed(&site);
    let bed = results.bed.unwrap();
    check(bed.thickest_base.get::<inch>(), 7.0);
    let told: Vec<_> = results.findings.at(Place::UndercutLimit).collect();
    assert!(
        told.len() == 1 && told[0].text.contains("3\"") && told[0].remedy.contains("fabric"),
        "{told:?}"
    );
    // A limit that leaves no room for the least base does not make the base thinner.
    site.bed.undercut_limit = Some(inches(5.0));
    let results = computed(&site);
    check(results.bed.unwrap().thinnest_base.get::<inch>(), 4.0);
    assert_eq!(results.findings.at(Place::UndercutLimit).count(), 2);
}

#[test]
fn your_own_least_base_is_noted_against_the_published_one() {
    // Row P1: least base for walks 4 in.
    let mut site = plain();
    assert_eq!(computed(&site).findings.at(Place::LeastBase).count(), 0);
    site.bed.least_base = Some(inches(3.0));
    let results = computed(&site);
    let told: Vec<_> = results.findings.at(Place::LeastBase).collect();
    assert!(
        told.len() == 1 && told[0].weight == Weight::Note && told[0].text.contains("your own"),
        "{told:?}"
    );
}

#[test]
fn an_unknown_base_material_stops_the_bed() {
    let mut site = plain();
    site.bed.base_material = key("moon_dust");
    let results = computed(&site);
    assert!(results.bed.is_none() && results.findings.stop_the_job());
    site.bed.base_material = key("clay");
    assert!(computed(&site).bed.is_none());
}

#[test]
fn lifts_add_up_to_the_base() {
    let bed = bed_of(&with_sand(&[
        (4.0, 12.0),
        (10.0, 7.0),
        (18.0, 9.5),
        (30.0, 10.0),
    ]));
    let sum: f64 = bed
        .lifts
        .each
        .iter()
        .map(|lift| in_cubic_feet(lift.compacted_volume))
        .sum();
    // Header edge: no trench.
    check(sum, in_cubic_feet(bed.earthwork.base_compacted));
    for lift in &bed.lifts.each {
        check(
            in_cubic_feet(lift.loose_volume),
            in_cubic_feet(lift.compacted_volume) * 1.25,
        );
        assert!(in_metres(lift.compacted) <= in_metres(bed.lifts.compacted_limit) + 1e-8);
    }
}

#[test]
fn spots_outside_the_dig_take_the_nearest_inside() {
    let bed = bed_of(&with_sand(&[(10.0, 7.0), (30.0, 10.0)]));
    let thickness =
        |station: Length, offset: Length| bed.dig.base_thickness(station, offset).get::<inch>();
    check(thickness(feet(-3.0), feet(0.0)), 4.0);
    check(thickness(feet(99.0), feet(50.0)), 7.0);
}

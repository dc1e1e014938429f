//! Cross-sections and long sections, spot by spot.

use crate::sites::{computed, pit, plain, shot};
use underbrick_calc::bed::{Section, Spot, along, section_at};
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::unit::inch;
use underbrick_calc::quantity::{feet, inches, metres};
use underbrick_calc::site::{EdgeStands, RestraintInput, Site};

fn section(site: &Site, at_ft: f64) -> Section {
    let results = computed(site);
    section_at(
        site,
        &results.line.unwrap(),
        &results.ground.unwrap(),
        &results.bed.unwrap(),
        feet(at_ft),
    )
}

/// An outline against (offset, level) in inches.
#[track_caller]
fn check(outline: &[Spot], expected: &[(f64, f64)]) {
    let found: Vec<(f64, f64)> = outline
        .iter()
        .map(|spot| (spot.across.get::<inch>(), spot.level.get::<inch>()))
        .collect();
    let same = |one: &(f64, f64), other: &(f64, f64)| {
        (one.0 - other.0).abs() < 1e-9 && (one.1 - other.1).abs() < 1e-9
    };
    assert!(
        found.len() == expected.len()
            && found
                .iter()
                .zip(expected)
                .all(|(one, other)| same(one, other)),
        "{found:?}"
    );
}

#[test]
fn a_level_section_with_sailors_and_a_haunch() {
    // Clear 32 in: joints of 1/8 in and bricks of 4 in: seven whole, then 32 - 7 x 4 1/8 - 2/8 = 2 7/8 in. Sailors 2 1/4 in; dig 6 in
    // past them: 24 1/4 in each side. Base top 3 in down, base 4 in. Trench from 16 to 22 1/4 in, 3 to 8 in down.
    let mut site = plain();
    site.edge.stands = EdgeStands::Sailor;
    site.edge.restraint = RestraintInput::Haunch {
        height: Some(inches(4.0)),
        width: Some(inches(4.0)),
        top_width: Some(inches(0.0)),
    };
    let cut = section(&site, 15.0);
    check(&cut.grade, &[(-18.25, 0.0), (18.25, 0.0)]);
    assert_eq!(cut.bricks.len(), 8);
    check(
        &cut.bricks[0],
        &[
            (-15.875, 0.0),
            (-11.875, 0.0),
            (-11.875, -2.25),
            (-15.875, -2.25),
        ],
    );
    check(
        &cut.bricks[7],
        &[(13.0, 0.0), (15.875, 0.0), (15.875, -2.25), (13.0, -2.25)],
    );
    check(
        &cut.setting_bed,
        &[(-16.0, -2.25), (16.0, -2.25), (16.0, -3.0), (-16.0, -3.0)],
    );
    check(&cut.base_top, &[(-24.25, -3.0), (24.25, -3.0)]);
    check(&cut.dig_bottom, &[(-24.25, -7.0), (24.25, -7.0)]);
    assert_eq!(
        cut.lifts.iter().map(|lift| lift.number).collect::<Vec<_>>(),
        [1, 2]
    );
    check(
        &cut.lifts[0].outlines[0],
        &[(-24.25, -5.0), (24.25, -5.0), (24.25, -7.0), (-24.25, -7.0)],
    );
    let [left, right] = &cut.edges;
    check(
        &left.brick,
        &[(-18.25, 0.0), (-16.0, 0.0), (-16.0, -8.0), (-18.25, -8.0)],
    );
    check(
        left.haunch.as_ref().unwrap(),
        &[(-18.25, -4.0), (-18.25, -8.0), (-22.25, -8.0)],
    );
    check(
        right.haunch.as_ref().unwrap(),
        &[(18.25, -4.0), (22.25, -8.0), (18.25, -8.0)],
    );
    check(
        &left.trench,
        &[(-22.25, -3.0), (-16.0, -3.0), (-16.0, -8.0), (-22.25, -8.0)],
    );
    check(
        &right.trench,
        &[(16.0, -3.0), (22.25, -3.0), (22.25, -8.0), (16.0, -8.0)],
    );
    check(
        &right.form,
        &[(18.25, 0.0), (19.75, 0.0), (19.75, -8.0), (18.25, -8.0)],
    );
    assert!(
        cut.old_surface.is_empty() && !cut.old_surface_known && cut.unsuitable_bottom.is_none()
    );
}

#[test]
fn bricks_that_fit_are_all_whole() {
    // 8 bricks and 9 joints: 33 1/8 in.
    let mut site = plain();
    site.line.width = Some(inches(33.125));
    let cut = section(&site, 0.0);
    assert_eq!(cut.bricks.len(), 8);
    check(
        &cut.bricks[7],
        &[
            (12.4375, 0.0),
            (16.4375, 0.0),
            (16.4375, -2.25),
            (12.4375, -2.25),
        ],
    );
}

#[test]
fn lifts_thin_out_where_the_ground_rises_across() {
    // Cross-fall 1 in 10 down to the right, dig 30 in each side: grade +3 in left, -3 in right. Sand level 11 in below the sill: base
    // 8 + 3 = 11 in on the left, 5 in on the right: limit 2.4 in, five lifts of 2.2 in from the left; spare 0.2 in; thinnest partial
    // 1.125 in. Base top at d is -3 - d/10, so thickness is 8 - d/10.
    let mut site = plain();
    site.line.cross_fall = Fall::from_ratio(0.1);
    site.line.old_below_sill = Some(inches(0.0));
    site.line.shots = vec![shot(9.144, 0.0, 0.0)];
    site.pits = vec![pit(3.0, inches(2.0), inches(9.0))];
    let cut = section(&site, 10.0);
    // Full lifts at 6.6 and 8.8 in: d = 14 and -8. Merged up to 6.8 (d = 12) and 9 (-10); trimmed up to 7.725 (2.75) and 9.925 (-19.25).
    // 4.6 in would be merged up to; 5.525 (24.75) is the first whole partial lift on the right; from 24.75 on it is trimmed.
    let at = |offset: f64, thickness: f64| (offset, -3.0 - offset / 10.0 - thickness);
    check(
        &cut.dig_bottom,
        &[
            at(-30.0, 11.0),
            at(-19.25, 9.925),
            at(-10.0, 9.925),
            at(-10.0, 9.0),
            at(2.75, 7.725),
            at(12.0, 7.725),
            at(12.0, 6.8),
            at(24.75, 5.525),
            at(30.0, 5.525),
        ],
    );
    // The lowest lift is 9.925 - 8.8 = 1 1/8 in where it is trimmed, and ends there.
    let lowest = &cut.lifts[0];
    assert_eq!((lowest.number, lowest.outlines.len()), (1, 1));
    check(
        &lowest.outlines[0],
        &[
            at(-30.0, 8.8),
            at(-10.0, 8.8),
            at(-10.0, 9.925),
            at(-19.25, 9.925),
            at(-30.0, 11.0),
        ],
    );
    // The old surface is level; a foot past the dig.
    check(&cut.old_surface, &[(-42.0, 0.0), (42.0, 0.0)]);
    assert!(cut.old_surface_known);
    assert!((cut.unsuitable_bottom.unwrap().level.get::<inch>() + 11.0).abs() < 1e-9);
}

#[test]
fn the_old_surface_bends_at_its_readings() {
    let mut site = plain();
    site.line.shots = vec![
        shot(0.0, -0.3, 0.0),
        shot(0.0, 0.3, 0.06),
        shot(4.0, -0.3, 0.0),
        shot(4.0, 0.3, 0.06),
    ];
    let cut = section(&site, 0.0);
    let half = 30.0 * 0.0254 + 0.3048;
    let found: Vec<(f64, f64)> = cut
        .old_surface
        .iter()
        .map(|spot| {
            (
                spot.across.get::<inch>() * 0.0254,
                spot.level.get::<inch>() * 0.0254,
            )
        })
        .collect();
    let expected = [(-half, 0.0), (-0.3, 0.0), (0.3, -0.06), (half, -0.06)];
    assert_eq!(found.len(), 4, "{found:?}");
    for (one, other) in found.iter().zip(expected) {
        assert!(
            (one.0 - other.0).abs() < 1e-9 && (one.1 - other.1).abs() < 1e-9,
            "{found:?}"
        );
    }
}

#[test]
fn stations_beyond_the_ends_are_moved_to_them() {
    let site = plain();
    assert_eq!(section(&site, -5.0), section(&site, 0.0));
    assert_eq!(section(&site, 500.0), section(&site, 30.0));
    assert_eq!(section(&site, f64::NAN), section(&site, 0.0));
}

#[test]
fn a_step_of_the_dig_has_two_spots_at_one_station() {
    // Base from 4 in at 10 ft to 7 in at 30 ft: trimmed from 14/3 + 1/15 in to 14/3 + 1 1/8 in.
    let mut site = plain();
    site.line.old_below_sill = Some(inches(0.0));
    site.line.shots = vec![shot(9.144, 0.0, 0.0)];
    site.pits = vec![
        pit(3.048, inches(2.0), inches(5.0)),
        pit(9.144, inches(2.0), inches(8.0)),
    ];
    let results = computed(&site);
    let along = along(
        &results.line.unwrap(),
        &results.ground.unwrap(),
        &results.bed.unwrap(),
        metres(0.0),
    );
    let steps: Vec<f64> = along
        .spots
        .windows(2)
        .filter(|pair| (pair[0].station - pair[1].station).abs() < metres(1e-9))
        .map(|pair| (pair[0].dig_bottom - pair[1].dig_bottom).get::<inch>())
        .collect();
    assert_eq!(steps.len(), 1, "{:?}", along.spots);
    assert!((steps[0] - (1.125 - 1.0 / 15.0)).abs() < 1e-5, "{steps:?}");
    // The lowest lift exists from the step on, in one piece; the others all along.
    assert_eq!(
        along
            .lifts
            .iter()
            .map(|lift| (lift.number, lift.outlines.len()))
            .collect::<Vec<_>>(),
        [(1, 1), (2, 1), (3, 1)]
    );
}

//! The stake table: worked by hand, against published levelling, against the sections, and by property.

use crate::sites::{any_site, computed, curve, pit, plain, shot, straight};
use proptest::prelude::*;
use underbrick_calc::Results;
use underbrick_calc::bed::{along, section_at};
use underbrick_calc::build::{Stake, StakeRow, StakeWhy, Surface, stakes};
use underbrick_calc::measure::levels::HeightOfCollimation;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{Length, feet, in_metres, inches, metres};
use underbrick_calc::site::{FarEnd, GradeShape, Hand, SetUp, Site};

fn stakes_of(site: &Site) -> Vec<Stake> {
    computed(site).build.unwrap().stakes
}

fn row(stake: &Stake, surface: Surface) -> StakeRow {
    let mut rows = stake.rows.iter().filter(|row| row.surface == surface);
    let row = *rows.next().unwrap_or_else(|| panic!("no {surface:?}"));
    assert_eq!(rows.next(), None, "{surface:?} twice");
    row
}

fn in_inches(length: Length) -> f64 {
    in_metres(length) / 0.0254
}

#[track_caller]
fn near(got: Length, expected_in: f64) {
    let got_in = in_inches(got);
    assert!(
        (got_in - expected_in).abs() < 1e-9,
        "{got_in} in, expected {expected_in} in"
    );
}

fn set_up(rod_at_sill: Length) -> SetUp {
    SetUp {
        rod_at_sill: Some(rod_at_sill),
        ..SetUp::default()
    }
}

#[test]
fn a_metric_walk_is_staked_in_whole_metres() {
    let mut site = plain();
    site.shown_in = underbrick_calc::site::ShownIn::Metric;
    let stations: Vec<f64> = stakes_of(&site)
        .iter()
        .map(|stake| in_metres(stake.station))
        .collect();
    // 30 ft are 9.144 m.
    for (station_m, expected_m) in stations.iter().zip([0.0, 3.0, 6.0, 9.0, 9.144]) {
        assert!((station_m - expected_m).abs() < 1e-12, "{stations:?}");
    }
    assert_eq!(stations.len(), 5);
}

/// The stations of a table in inches, with why.
fn stations(site: &Site) -> Vec<(f64, Vec<StakeWhy>)> {
    stakes_of(site)
        .into_iter()
        .map(|stake| ((in_inches(stake.station) * 1e6).round() / 1e6, stake.why))
        .collect()
}

#[test]
fn a_level_walk_by_hand() {
    // Brick 2 1/4, bed 3/4, base 4 in: base top at 3 in, bottom of the dig at 7 in. The plate takes 1/8 in down, so the bed is screeded at
    // 2 1/4 − 1/8 = 2 1/8 in. Lifts of at most 3 ÷ 1.25 = 2.4 in: two of 2 in, the lower one's top at 3 + 2 = 5 in.
    let mut site = plain();
    site.line.old_below_sill = Some(inches(1.5));
    for string_in in [0.0, 6.0] {
        site.build.string_above_grade = Some(inches(string_in));
        let stakes = stakes_of(&site);
        assert_eq!(stakes.len(), 4); // 0, 10, 20, 30 ft
        for stake in &stakes {
            let surfaces: Vec<Surface> = stake.rows.iter().map(|row| row.surface).collect();
            assert_eq!(
                surfaces,
                [
                    Surface::FormTop,
                    Surface::EdgeTop,
                    Surface::BrickTop,
                    Surface::SettingBed,
                    Surface::LiftTop(2),
                    Surface::LiftTop(1),
                    Surface::DigBottom
                ]
            );
            for (row, below_in) in stake.rows.iter().zip([0.0, 0.0, 0.0, 2.125, 3.0, 5.0, 7.0]) {
                near(row.drop, string_in + below_in);
                near(row.level, -below_in);
                assert_eq!(row.rod, None);
            }
            near(stake.string, string_in);
            near(stake.dig.unwrap(), 5.5); // 7 − 1 1/2
            // 16 in of half the clear width, 8 in of header, 6 in beyond it.
            for (edge, sign) in stake.edges.iter().zip([-1.0, 1.0]) {
                near(edge.form_offset, sign * 24.0);
                near(edge.dig_offset, sign * 30.0);
                near(edge.form_top, 0.0);
                near(edge.dig_bottom, -7.0);
                assert_eq!(edge.trench_bottom, None);
            }
        }
    }
}

#[test]
fn where_the_ground_lies_lower_than_the_dig_it_is_filled() {
    let mut site = plain();
    site.line.old_below_sill = Some(inches(9.0));
    let stakes = stakes_of(&site);
    near(stakes[0].dig.unwrap(), -2.0); // 7 − 9
    assert!(stakes[0].old_surface.unwrap().known);
    assert!(!stakes[1].old_surface.unwrap().known);
    site.line.old_below_sill = None;
    assert_eq!(stakes_of(&site)[0].dig, None);
}

#[test]
fn cross_fall_reaches_both_edges() {
    let mut site = plain();
    site.line.cross_fall = Fall::from_ratio(0.02);
    let [left, right] = stakes_of(&site)[1].edges;
    near(left.form_top, 0.48); // 24 in × 0.02
    near(right.form_top, -0.48);
    near(left.dig_bottom, 0.6 - 7.0); // 30 in × 0.02
    near(right.dig_bottom, -0.6 - 7.0);
}

#[test]
fn a_deep_edge_brick_stands_in_its_trench() {
    let mut site = plain();
    site.edge.stands = underbrick_calc::site::EdgeStands::Sailor;
    let edge = stakes_of(&site)[0].edges[1];
    near(edge.form_offset, 16.0 + 2.25);
    near(edge.trench_bottom.unwrap(), -8.0); // the brick is 8 in deep
}

#[test]
fn a_riser_has_a_stake_before_it_and_one_behind() {
    let mut site = plain();
    site.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(24.0)),
    };
    site.line.shape = GradeShape::Steps {
        n_risers: 3,
        first_at: Some(feet(10.0)),
        tread: Some(inches(12.0)),
    };
    // 28 ft fall the proper 1/4 in per ft, 7 in; risers of (24 − 7) ÷ 3 = 5 2/3 in.
    let riser = 17.0 / 3.0;
    let expected = [
        (0.0, 0.0),
        (120.0, -2.5),
        (120.0, -2.5 - riser),
        (132.0, -2.5 - riser),
        (132.0, -2.5 - 2.0 * riser),
        (144.0, -2.5 - 2.0 * riser),
        (144.0, -2.5 - 3.0 * riser),
        (240.0, -2.5 - 3.0 * riser - 2.0), // 8 ft of 1/4 in per ft
        (360.0, -24.0),
    ];
    let stakes = stakes_of(&site);
    assert_eq!(stakes.len(), expected.len());
    for (stake, (station_in, level_in)) in stakes.iter().zip(expected) {
        near(stake.station, station_in);
        near(stake.grade, level_in);
        near(row(stake, Surface::DigBottom).level, level_in - 7.0);
        near(stake.edges[0].form_top, level_in);
        near(stake.edges[0].dig_bottom, level_in - 7.0);
    }
    assert_eq!(stakes[1].why, [StakeWhy::BeforeRiser]);
    assert_eq!(stakes[2].why, [StakeWhy::Spacing, StakeWhy::BehindRiser]);
}

#[test]
fn before_and_behind_a_riser_the_dig_reaches_the_same_soft_ground() {
    // Sand to a level bottom 30 in below the sill; the base is as much thinner behind the riser as the riser is high.
    let mut site = plain();
    site.bed.base_material = crate::sites::key("fine_base");
    site.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(12.0)),
    };
    site.line.shape = GradeShape::Steps {
        n_risers: 1,
        first_at: Some(feet(15.0)),
        tread: None,
    };
    site.line.shots = vec![shot(0.0, 0.0, 0.0), shot(9.144, 0.0, 0.0)];
    site.pits = vec![pit(1.0, inches(2.0), inches(28.0))];
    let stakes = stakes_of(&site);
    let at_riser: Vec<&Stake> = stakes
        .iter()
        .filter(|stake| (in_inches(stake.station) - 180.0).abs() < 1e-9)
        .collect();
    assert_eq!(at_riser.len(), 2);
    assert!(at_riser[0].grade - at_riser[1].grade > inches(1.0));
    for stake in at_riser {
        near(row(stake, Surface::DigBottom).level, -30.0);
        near(stake.edges[1].dig_bottom, -30.0);
    }
}

#[test]
fn ramps_and_two_falls_have_a_stake_at_every_break() {
    let mut site = plain();
    site.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(18.0)),
    };
    for shape in [
        GradeShape::Ramp,
        GradeShape::Break {
            at: Some(feet(12.0)),
            below_sill: Some(inches(9.0)),
        },
    ] {
        site.line.shape = shape;
        let results = computed(&site);
        let line = results.line.unwrap();
        assert!(!line.grade.breaks().is_empty(), "{shape:?}");
        let stakes = results.build.unwrap().stakes;
        for station in line.grade.breaks() {
            let at: Vec<&Stake> = stakes
                .iter()
                .filter(|stake| stake.station == station)
                .collect();
            assert_eq!(at.len(), 1, "{shape:?}");
            assert!(at[0].why.contains(&StakeWhy::Break));
            assert_eq!(at[0].grade, line.grade.level(station, metres(0.0)));
        }
    }
}

#[test]
fn stakes_nearer_than_an_inch_are_one_with_all_reasons() {
    let mut site = plain();
    site.line.legs = vec![
        straight(feet(20.0)),
        curve(in_metres(feet(20.0)), 0.5, Hand::Left),
    ];
    site.line.old_below_sill = Some(metres(0.0));
    let at = |station_in: f64| pit(station_in * 0.0254, inches(2.0), inches(3.0));
    site.pits = vec![at(119.25), at(360.0), at(239.5), at(121.5), at(0.5)];
    // Pits 1, 2, 3 and 5 lie within an inch of 10 ft, of the far end at 30 ft, of the leg's end at 20 ft, of the door. Pit 4 is 1 1/2 in
    // from 10 ft, and 2 1/4 in from pit 1.
    use StakeWhy::{Door, FarEnd, LegEnd, Pit, Spacing};
    assert_eq!(
        stations(&site),
        [
            (0.0, vec![Door, Pit(4)]),
            (119.25, vec![Spacing, Pit(0)]),
            (121.5, vec![Pit(3)]),
            (240.0, vec![Spacing, LegEnd(0), Pit(2)]),
            (360.0, vec![Pit(1), FarEnd]),
        ]
    );
    site.build.spacing = Some(feet(15.0));
    assert_eq!(
        stations(&site)
            .iter()
            .map(|stake| stake.0)
            .collect::<Vec<_>>(),
        [0.0, 119.25, 121.5, 180.0, 240.0, 360.0]
    );
}

#[test]
fn a_spacing_that_cannot_be_is_told_and_the_default_is_taken() {
    let mut site = plain();
    site.build.spacing = Some(inches(0.001));
    site.build.string_above_grade = Some(feet(100.0));
    site.build.set_ups = vec![set_up(feet(5.0)), set_up(feet(500.0))];
    let results = computed(&site);
    use underbrick_calc::place::Place;
    for place in [
        Place::BuildSpacing,
        Place::StringAboveGrade,
        Place::SetUpRod(1),
    ] {
        assert_eq!(results.findings.at(place).count(), 1, "{place:?}");
    }
    let stakes = results.build.unwrap().stakes;
    assert_eq!(stakes.len(), 4);
    near(row(&stakes[0], Surface::BrickTop).drop, 0.0);
    near(row(&stakes[0], Surface::BrickTop).rod.unwrap(), 60.0);
}

/// Rows L1 (NPTEL, module 4, example 13-1), in metres, and L2, in feet: what was read on the known point and on the next, and the step
/// down between them.
#[test]
fn rods_read_as_in_published_levelling() {
    const FOOT: f64 = 0.3048;
    for (backsight_m, foresight_m, step_down_m, tolerance_m) in [
        (1.205, 1.860, 0.655, 0.0005),
        (0.125, 1.915, 1.790, 0.0005),
        (0.395, 2.615, 2.220, 0.0005),
        (0.880, 1.760, 0.880, 0.0005),
        (1.960, 0.920, -1.040, 0.0005),
        (2.595, 0.915, -1.680, 0.0005),
        (
            3.10 * FOOT,
            9.82 * FOOT,
            (100.00 - 93.28) * FOOT,
            0.005 * FOOT,
        ),
        (
            6.44 * FOOT,
            6.96 * FOOT,
            (93.28 - 92.76) * FOOT,
            0.005 * FOOT,
        ),
        (
            8.76 * FOOT,
            3.27 * FOOT,
            (92.76 - 98.25) * FOOT,
            0.005 * FOOT,
        ),
        (
            7.12 * FOOT,
            10.42 * FOOT,
            (98.25 - 94.95) * FOOT,
            0.005 * FOOT,
        ),
    ] {
        let mut site = plain();
        site.line.legs = vec![straight(feet(60.0))];
        site.line.far_end = FarEnd::Fixed {
            below_sill: Some(metres(step_down_m)),
        };
        site.build.set_ups = vec![set_up(metres(backsight_m))];
        let stakes = stakes_of(&site);
        let rod = row(stakes.last().unwrap(), Surface::BrickTop).rod.unwrap();
        assert!(
            (in_metres(rod) - foresight_m).abs() < tolerance_m,
            "{rod:?} and {foresight_m} m"
        );
    }
}

#[test]
fn the_last_set_up_with_a_rod_on_the_sill_is_todays() {
    let mut site = plain();
    site.build.set_ups = vec![set_up(feet(4.0)), set_up(feet(5.0)), SetUp::default()];
    let stakes = stakes_of(&site);
    near(row(&stakes[0], Surface::BrickTop).rod.unwrap(), 60.0);
    near(row(&stakes[0], Surface::DigBottom).rod.unwrap(), 67.0); // 5 ft + 7 in
}

/// Every stake of a walk, against what must hold of any.
fn check_table(site: &Site, results: &Results) -> Result<(), TestCaseError> {
    let (line, ground, bed) = (
        results.line.as_ref().unwrap(),
        results.ground.as_ref().unwrap(),
        results.bed.as_ref().unwrap(),
    );
    let build = results.build.as_ref().unwrap();
    let stakes = &build.stakes;
    prop_assert_eq!(stakes[0].station, metres(0.0));
    prop_assert_eq!(stakes.last().unwrap().station, line.run.length());
    for pair in stakes.windows(2) {
        prop_assert!(pair[0].station < pair[1].station);
    }
    for found in &ground.pits {
        let why = StakeWhy::Pit(found.pit_idx);
        let stake = stakes.iter().find(|stake| stake.why.contains(&why));
        prop_assert!((stake.unwrap().station - found.station).abs() < inches(1.0));
    }
    let long_section = along(line, ground, bed, metres(0.0));
    let last_lift = Surface::LiftTop(bed.lifts.each.len());
    for stake in stakes {
        prop_assert!(!stake.why.is_empty());
        for row in &stake.rows {
            prop_assert!((in_metres(row.drop + row.level - stake.string)).abs() < 1e-12);
        }
        for pair in stake.rows.windows(2) {
            prop_assert!(pair[1].drop >= pair[0].drop, "{:?}", stake);
        }
        let (base_top, dig_bottom) = (row(stake, last_lift), row(stake, Surface::DigBottom));
        prop_assert!(dig_bottom.level < base_top.level);
        let base_top_drop = bed.base_top_below_grade + (stake.string - stake.grade);
        prop_assert!(in_metres(base_top.drop - base_top_drop).abs() < 1e-12);
        for edge in &stake.edges {
            prop_assert!(edge.dig_bottom < edge.form_top - bed.base_top_below_grade);
            prop_assert!(edge.dig_offset.abs() > edge.form_offset.abs());
        }
        // The sections are cut by another way through the dig: the bottom must lie between what they show at this station.
        let shown: Vec<f64> = long_section
            .spots
            .iter()
            .filter(|spot| (in_metres(spot.station - stake.station)).abs() < 1e-9)
            .map(|spot| in_metres(spot.dig_bottom))
            .collect();
        if !shown.is_empty() {
            let level_m = in_metres(dig_bottom.level);
            let deepest = shown.iter().copied().fold(f64::INFINITY, f64::min);
            let highest = shown.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            prop_assert!(level_m > deepest - 1e-9 && level_m < highest + 1e-9);
        }
        let section = section_at(site, line, ground, bed, stake.station);
        for slice in &section.lifts {
            let has_row = stake
                .rows
                .iter()
                .any(|row| row.surface == Surface::LiftTop(slice.number));
            let reaches = |beyond_m: f64| {
                slice.outlines.iter().any(|outline| {
                    let across = || outline.iter().map(|spot| in_metres(spot.across));
                    across().any(|across_m| across_m < -beyond_m)
                        && across().any(|across_m| across_m > beyond_m)
                })
            };
            // A centimetre either side of the centreline, so that rounding at a lift's end does not decide.
            if reaches(0.01) {
                prop_assert!(has_row, "lift {} at {:?}", slice.number, stake.station);
            }
            if has_row {
                prop_assert!(
                    reaches(-0.01),
                    "lift {} at {:?}",
                    slice.number,
                    stake.station
                );
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn every_table_holds_together(site in any_site(), string_in in 0.0..24.0_f64) {
        let mut site = site;
        site.build.string_above_grade = Some(inches(string_in));
        check_table(&site, &computed(&site))?;
    }

    #[test]
    fn twice_the_spacing_gives_fewer_of_the_same_stakes(site in any_site(), spacing_ft in 0.5..12.0_f64) {
        let results = computed(&site);
        let (line, ground, bed) = (results.line.unwrap(), results.ground.unwrap(), results.bed.unwrap());
        let spaced = |spacing: Length| {
            let mut site = site.clone();
            site.build.spacing = Some(spacing);
            stakes(&site, &line, &bed, &ground)
        };
        let (close, wide) = (spaced(feet(spacing_ft)), spaced(feet(2.0 * spacing_ft)));
        prop_assert!(wide.len() <= close.len());
        for stake in &wide {
            let same = close.iter().find(|other| other.station == stake.station);
            prop_assert!(same.is_some(), "{:?}", stake.station);
            let same = same.unwrap();
            prop_assert_eq!((&same.rows, &same.edges), (&stake.rows, &stake.edges));
        }
        for pair in close.windows(2) {
            prop_assert!(pair[1].station - pair[0].station < feet(spacing_ft) + inches(1.0));
        }
    }

    #[test]
    fn moving_the_instrument_changes_no_level(site in any_site(), first_m in -1.0..4.0_f64, second_m in -1.0..4.0_f64) {
        let mut site = site;
        site.build.set_ups = vec![set_up(metres(first_m))];
        let first = stakes_of(&site);
        site.build.set_ups.push(set_up(metres(second_m)));
        let second = stakes_of(&site);
        prop_assert_eq!(first.len(), second.len());
        for (before, after) in first.iter().zip(&second) {
            for (before, after) in before.rows.iter().zip(&after.rows) {
                // The point on which the rod was held before the move carries the level over.
                let old = HeightOfCollimation::from_backsight(metres(0.0), metres(first_m));
                let level = old.level_by_rod(before.rod.unwrap());
                let moved = HeightOfCollimation::from_backsight(level, after.rod.unwrap());
                prop_assert!((in_metres(level - after.level)).abs() < 1e-12);
                prop_assert!((in_metres(moved.rod_for(metres(0.0))) - second_m).abs() < 1e-12);
                prop_assert_eq!((before.level, before.drop), (after.level, after.drop));
            }
        }
    }
}

//! A bed under steps: volumes in closed form, and the long section at a riser.

use crate::sites::{bed_of, computed, pit, plain, shot};
use underbrick_calc::bed::along;
use underbrick_calc::quantity::{feet, in_cubic_feet, in_metres, inches, metres};
use underbrick_calc::site::{FarEnd, GradeShape, Site};

/// 30 ft, 5 ft of dig width, fixed far end 24 in down, three risers at 10 ft, treads of 12 in.
fn stepped() -> Site {
    let mut site = plain();
    site.line.far_end = FarEnd::Fixed {
        below_sill: Some(inches(24.0)),
    };
    site.line.shape = GradeShape::Steps {
        n_risers: 3,
        first_at: Some(feet(10.0)),
        tread: Some(inches(12.0)),
    };
    site
}

#[test]
fn the_base_keeps_its_thickness_under_steps() {
    let bed = bed_of(&stepped());
    // 5 ft × 30 ft × 4 in: a step moves the base, it does not thicken it.
    assert!((in_cubic_feet(bed.earthwork.base_compacted) - 50.0).abs() < 1e-9);
    let of_lifts: f64 = bed
        .lifts
        .each
        .iter()
        .map(|lift| in_cubic_feet(lift.compacted_volume))
        .sum();
    assert!((of_lifts - 50.0).abs() < 1e-9);
}

#[test]
fn the_dig_follows_the_steps() {
    let mut site = stepped();
    site.line.shots = vec![shot(0.0, 0.0, 0.0), shot(30.0 * 0.3048, 0.0, 0.0)];
    let bed = bed_of(&site);
    // The wanted fall of the plain site is level, so the slope between the treads falls the proper 1/4 in per ft: 28 ft of it, 7 in in
    // all; risers of (24 − 7) ÷ 3 = 5 2/3 in. Below a level old surface the dig goes 7 in (brick, bed and base) deeper than the grade:
    //   first 10 ft:  mean drop 1.25 in                → 8.25 in × 10 ft
    //   tread 1, 1 ft: 2.5 + 5 2/3 = 8.1667 in         → 15.1667 in × 1 ft
    //   tread 2, 1 ft: 8.1667 + 5 2/3 = 13.8333 in     → 20.8333 in × 1 ft
    //   last 18 ft:   19.5 in to 24 in, mean 21.75 in  → 28.75 in × 18 ft
    let section_in_ft = 8.25 * 10.0 + 15.0 + 1.0 / 6.0 + 20.0 + 5.0 / 6.0 + 28.75 * 18.0;
    let dug = bed.earthwork.dig_bank.unwrap();
    let in_all = in_cubic_feet(dug.old_pavement + dug.unsuitable + dug.trim);
    let expected = section_in_ft / 12.0 * 5.0;
    assert!((in_all - expected).abs() < 1e-6, "{in_all} and {expected}");
}

#[test]
fn the_long_section_shows_both_levels_at_a_riser() {
    let results = computed(&stepped());
    let (line, ground, bed) = (
        results.line.unwrap(),
        results.ground.unwrap(),
        results.bed.unwrap(),
    );
    let along = along(&line, &ground, &bed, metres(0.0));
    for riser in line.grade.risers() {
        let levels: Vec<f64> = along
            .spots
            .iter()
            .filter(|spot| (in_metres(spot.station - riser.station)).abs() < 1e-9)
            .map(|spot| in_metres(spot.grade))
            .collect();
        assert_eq!(levels.len(), 2, "{riser:?}");
        assert!((levels[0] - levels[1] - in_metres(riser.height)).abs() < 1e-9);
    }
    // Every spot is exactly brick, bed and base above the bottom of the dig: 7 in.
    for spot in &along.spots {
        assert!(
            (in_metres(spot.grade - spot.dig_bottom) - 7.0 * 0.0254).abs() < 1e-9,
            "{spot:?}"
        );
    }
}

/// Two pits within a millimetre count as one in their middle: the long section bends there, not at either of them.
#[test]
fn two_pits_side_by_side_bend_the_long_section_once() {
    let mut site = plain();
    site.line.shots = vec![shot(0.0, 0.0, 0.05), shot(30.0 * 0.3048, 0.0, 0.05)];
    site.pits = [(1.0, 4.0), (4.0, 8.0), (4.0003, 14.0), (7.0, 3.0)]
        .map(|(station_m, sand_in)| pit(station_m, inches(2.25), inches(sand_in)))
        .to_vec();
    let results = computed(&site);
    let (line, ground, bed) = (
        results.line.unwrap(),
        results.ground.unwrap(),
        results.bed.unwrap(),
    );
    let along = along(&line, &ground, &bed, metres(0.0));
    for pair in along.spots.windows(2) {
        let middle = (pair[0].station + pair[1].station) / 2.0;
        let levels = pair
            .iter()
            .map(|spot| spot.unsuitable_bottom.unwrap().level);
        let straight_m = levels.map(in_metres).sum::<f64>() / 2.0;
        let bottom_m = in_metres(ground.unsuitable_bottom(middle).unwrap().level);
        assert!((straight_m - bottom_m).abs() < 1e-8, "{middle:?}");
    }
}

use super::super::pieces::{PlanPoint, area_m2};
use super::super::walks::{any_run, polygon, rectangle, run_of, shared_m2, whole_band};
use super::*;
use geo::{Area as _, BooleanOps as _, Validation as _};
use proptest::prelude::*;

fn spot(right_m: f64, away_m: f64) -> PlanPoint {
    PlanPoint { right_m, away_m }
}

fn turns_left(outline: &[PlanPoint]) -> bool {
    polygon(outline).signed_area() > 0.0
}

/// Area of what is left, every part simple and counter-clockwise.
#[track_caller]
fn left_m2(placed: Placed, piece: &[PlanPoint], parts: &Parts) -> f64 {
    match placed {
        Placed::Inside => area_m2(piece),
        Placed::Outside => 0.0,
        Placed::Cut => parts
            .iter()
            .map(|outline| {
                assert!(turns_left(outline), "{outline:?}");
                assert!(polygon(outline).is_valid(), "{outline:?}");
                area_m2(outline)
            })
            .sum(),
    }
}

#[track_caller]
fn check(field: &[PlanPoint], brick: &[PlanPoint], n_parts: usize, expected_m2: f64) {
    let mut parts = Parts::default();
    let placed = Clipper::new(field).place(brick, &mut parts);
    let found_m2 = left_m2(placed, brick, &parts);
    let n_found = match placed {
        Placed::Inside => 1,
        Placed::Outside => 0,
        Placed::Cut => parts.len(),
    };
    assert_eq!(n_found, n_parts, "{placed:?}");
    assert!((found_m2 - expected_m2).abs() < 1e-12, "{found_m2} m²");
}

/// A field of 3 m by 2 m with a bay of 1 m by 1 m in its far side.
fn bay() -> Vec<PlanPoint> {
    [
        (0.0, 0.0),
        (3.0, 0.0),
        (3.0, 2.0),
        (2.0, 2.0),
        (2.0, 1.0),
        (1.0, 1.0),
        (1.0, 2.0),
        (0.0, 2.0),
    ]
    .map(|(right_m, away_m)| spot(right_m, away_m))
    .to_vec()
}

fn upright(left_m: f64, near_m: f64, length_m: f64, width_m: f64) -> [PlanPoint; 4] {
    let middle = (left_m + 0.5 * length_m, near_m + 0.5 * width_m);
    rectangle(middle, (length_m, width_m), 0.0)
}

#[test]
fn bricks_at_a_bay() {
    let field = bay();
    check(&field, &upright(0.2, 0.2, 0.2, 0.1), 1, 0.02);
    check(&field, &upright(1.4, 1.4, 0.2, 0.1), 0, 0.0);
    // Half over the near side: 0.2 x 0.05.
    check(&field, &upright(0.2, -0.05, 0.2, 0.1), 1, 0.01);
    // Across the bay, in two: 1.6 x 0.1 less 1 x 0.1.
    check(&field, &upright(0.7, 1.5, 1.6, 0.1), 2, 0.06);
    // Over both of the bay's inner corners, in one: 1.6 x 0.4 less 1 x 0.2.
    check(&field, &upright(0.7, 0.8, 1.6, 0.4), 1, 0.44);
    // Around all of it: 3 x 2 less 1 x 1.
    check(&field, &upright(-1.0, -1.0, 5.0, 4.0), 1, 5.0);
}

#[test]
fn bricks_that_only_touch() {
    let field = bay();
    // Side on side, within and without, and corner on corner.
    check(&field, &upright(0.0, 0.0, 0.25, 0.125), 1, 0.031_25);
    check(&field, &upright(-0.25, 0.0, 0.25, 0.125), 0, 0.0);
    check(&field, &upright(0.0, -0.125, 0.25, 0.125), 0, 0.0);
    check(&field, &upright(1.0, 1.0, 0.25, 0.125), 0, 0.0);
    check(&field, &upright(0.75, 1.0, 0.25, 0.125), 1, 0.031_25);
    check(&field, &upright(1.25, 0.875, 0.25, 0.125), 1, 0.031_25);
    check(&field, &upright(3.0, 2.0, 0.25, 0.125), 0, 0.0);
    // A side along the bay's and over it: the half below its inner corner stays.
    check(&field, &upright(1.0, 0.9375, 0.25, 0.125), 1, 0.015_625);
    // The same size as the field's left arm.
    check(&field, &upright(0.0, 1.0, 1.0, 1.0), 1, 1.0);
    check(&field, &upright(1.0, 1.0, 1.0, 1.0), 0, 0.0);
}

#[test]
fn a_corner_that_touches_a_side_from_within_parts_nothing() {
    // A field whose reflex corner lies on the brick's near side.
    let field = [(0.0, 0.0), (1.0, 1.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]
        .map(|(right_m, away_m)| spot(right_m, away_m));
    check(&field, &upright(0.75, 1.0, 0.5, 0.25), 1, 0.125);
}

/// A field whose corner lies on the brick's near side but for rounding: the brick was taken to lie outside.
#[test]
fn a_corner_of_the_field_on_a_side_of_the_brick() {
    let near_m = 0.062_373_963_430_411_8;
    let field = [(0.464, near_m), (0.9, 2.0), (-0.9, 2.0), (-0.464, near_m)]
        .map(|(right_m, away_m)| spot(right_m, away_m));
    for off_m in [-1e-15, -1e-17, 0.0, 1e-17, 1e-15] {
        let brick = upright(-0.6, near_m + off_m, 0.2, 0.1);
        let mut parts = Parts::default();
        let placed = Clipper::new(&field).place(&brick, &mut parts);
        let found_m2 = left_m2(placed, &brick, &parts);
        // Right of the field's left side: from 0.064 m wide to 0.1 m higher.
        let widens_m = 0.1 * (0.9 - 0.464) / (2.0 - near_m);
        let expected_m2 = 0.1 * (0.064 + 0.5 * widens_m);
        assert!((found_m2 - expected_m2).abs() < 1e-12, "{found_m2} m²");
    }
}

#[test]
fn openings_in_bricks() {
    let brick = upright(0.0, 0.0, 4.0, 2.0);
    let check = |opening: &[PlanPoint], n_parts: usize, expected_m2: f64| {
        let mut parts = Parts::default();
        let placed = without(&brick, opening, 0.0, &mut parts);
        let found_m2 = left_m2(placed, &brick, &parts);
        let n_found = match placed {
            Placed::Inside => 1,
            Placed::Outside => 0,
            Placed::Cut => parts.len(),
        };
        assert_eq!(n_found, n_parts, "{placed:?} {opening:?}");
        // The opening is taken 2 nm larger all round, by some metres here.
        assert!((found_m2 - expected_m2).abs() < 2e-8, "{found_m2} m²");
    };
    check(&upright(5.0, 0.0, 1.0, 1.0), 1, 8.0);
    check(&upright(4.0, 0.0, 1.0, 2.0), 1, 8.0);
    check(&upright(-1.0, -1.0, 9.0, 9.0), 0, 0.0);
    check(&upright(0.0, 0.0, 4.0, 2.0), 0, 0.0);
    // A corner: an L.
    check(&upright(3.0, 1.0, 2.0, 2.0), 1, 7.0);
    // A side: a bay.
    check(&upright(1.0, 1.0, 1.0, 2.0), 1, 7.0);
    // Across: two pieces. Along a side: one, narrower.
    check(&upright(1.0, -1.0, 1.0, 4.0), 2, 6.0);
    check(&upright(0.0, 1.5, 4.0, 0.5), 1, 6.0);
    // A hole: parted in two across the brick.
    check(&upright(1.0, 0.5, 1.0, 1.0), 2, 7.0);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(96) })]

    /// On any walk the parts of any rectangle are simple and have the area that the library finds, to its grid.
    #[test]
    fn parts_agree_with_a_registry_library(
        run in any_run(),
        at in prop::collection::vec((0.0..1.0_f64, -1.2..1.2_f64, 0.0..3.2_f64, 0.05..0.9_f64, 0.05..0.9_f64), 40),
    ) {
        let field = whole_band(&run);
        prop_assert!(turns_left(&field) && polygon(&field).is_valid());
        let clipper = Clipper::new(&field);
        let mut parts = Parts::default();
        for (part, across, turned_rad, length_m, width_m) in at {
            let station = run.length() * part;
            let (right, away) = run.in_plan(station, run.clear_width_at(station) * (0.5 * across));
            let middle = (crate::quantity::in_metres(right), crate::quantity::in_metres(away));
            let brick = rectangle(middle, (length_m, width_m), turned_rad);
            let placed = clipper.place(&brick, &mut parts);
            let found_m2 = left_m2(placed, &brick, &parts);
            let expected_m2 = shared_m2(&field, &brick);
            prop_assert!((found_m2 - expected_m2).abs() < 1e-6, "{placed:?}: {found_m2} instead of {expected_m2} m², {brick:?}");
        }
    }

    /// A piece of a walk without a rectangle, likewise.
    #[test]
    fn openings_agree_with_a_registry_library(
        run in any_run(),
        at in (0.0..1.0_f64, -1.1..1.1_f64, 0.0..3.2_f64, 0.1..2.0_f64, 0.1..2.0_f64),
        opening in (-0.5..0.5_f64, -0.5..0.5_f64, 0.0..3.2_f64, 0.05..1.0_f64, 0.05..1.0_f64),
    ) {
        let station = run.length() * at.0;
        let (right, away) = run.in_plan(station, run.clear_width_at(station) * (0.5 * at.1));
        let middle = (crate::quantity::in_metres(right), crate::quantity::in_metres(away));
        let brick = rectangle(middle, (at.3, at.4), at.2);
        let opening = rectangle((middle.0 + opening.0, middle.1 + opening.1), (opening.3, opening.4), opening.2);
        let mut parts = Parts::default();
        let pieces: Vec<Vec<PlanPoint>> = match Clipper::new(&whole_band(&run)).place(&brick, &mut parts) {
            Placed::Inside => vec![brick.to_vec()],
            Placed::Outside => Vec::new(),
            Placed::Cut => parts.iter().map(<[PlanPoint]>::to_vec).collect(),
        };
        for piece in pieces {
            let placed = without(&piece, &opening, 0.0, &mut parts);
            let found_m2 = left_m2(placed, &piece, &parts);
            let expected_m2 = polygon(&piece).difference(&polygon(&opening)).unsigned_area();
            prop_assert!((found_m2 - expected_m2).abs() < 1e-6, "{placed:?}: {found_m2} instead of {expected_m2} m²");
        }
    }
}

#[test]
fn ranges_hold_all_of_a_walk_that_comes_back() {
    // Ahead, a half circle to the right, back: two ranges across at half the way, one around the turn.
    let run = run_of(
        1.0,
        &[
            (5.0, 0.0, 1.0),
            (4.0 * std::f64::consts::PI, std::f64::consts::PI, 1.0),
            (5.0, 0.0, 1.0),
        ],
    );
    let clipper = Clipper::new(&whole_band(&run));
    let ranges = clipper.ranges(2.0, 2.1);
    assert_eq!(ranges.len(), 2);
    for ((left_m, right_m), middle_m) in ranges.into_iter().zip([0.0, 8.0]) {
        assert!(left_m <= middle_m - 0.5 && left_m > middle_m - 1.0);
        assert!(right_m >= middle_m + 0.5 && right_m < middle_m + 1.0);
    }
    assert_eq!(clipper.ranges(8.9, 9.1).len(), 1);
    assert!(clipper.is_inside(spot(0.2, 2.0)) && clipper.is_inside(spot(8.2, 2.0)));
    assert!(!clipper.is_inside(spot(4.0, 2.0)) && !clipper.is_inside(spot(-20.0, 2.0)));
}

//! Runs that can be built, and runs that are refused.

use super::*;
use crate::quantity::{in_metres, metres};
use proptest::prelude::*;

#[test]
fn a_run_that_is_not_known_is_refused_by_name() {
    check_refused(
        &site(vec![]),
        Place::Site,
        "The run has no leg: its length is not known.",
    );
    let no_length = Leg {
        shape: LegShape::Straight { length: None },
        width_at_end: None,
    };
    check_refused(
        &site(vec![straight(feet(3.0)), no_length]),
        Place::LegLength(1),
        "Leg 2 length is missing.",
    );
    let no_turn = Leg {
        shape: LegShape::Curve {
            radius: Some(feet(9.0)),
            turn: None,
            hand: Hand::Left,
        },
        width_at_end: None,
    };
    check_refused(
        &site(vec![no_turn]),
        Place::LegTurn(0),
        "Leg 1 turn is missing.",
    );
    let no_radius = LegShape::Curve {
        radius: None,
        turn: Some(Angle::new::<unit::degree>(90.0)),
        hand: Hand::Left,
    };
    check_refused(
        &site(vec![Leg {
            shape: no_radius,
            width_at_end: None,
        }]),
        Place::LegRadius(0),
        "Leg 1 radius is missing.",
    );
    let mut no_width = site(vec![straight(feet(9.0))]);
    no_width.line.width = None;
    check_refused(
        &no_width,
        Place::Width,
        "Width between edge bricks is missing.",
    );
}

#[test]
fn a_run_that_cannot_be_is_refused_with_value_and_limit() {
    let below = "Leg 1 length: -1'-0\" is below the least that can be true, 1\".";
    check_refused(
        &site(vec![straight(feet(-1.0))]),
        Place::LegLength(0),
        below,
    );
    let zero = "Leg 1 length: 0\" is below the least that can be true, 1\".";
    check_refused(&site(vec![straight(feet(0.0))]), Place::LegLength(0), zero);
    let above = "Leg 1 length: 900'-0\" is above the most that can be true, 500'-0\".";
    check_refused(
        &site(vec![straight(feet(900.0))]),
        Place::LegLength(0),
        above,
    );
    check_refused(
        &site(vec![straight(metres(f64::NAN))]),
        Place::LegLength(0),
        "Leg 1 length is not a number that can be measured.",
    );
    check_refused(
        &site(vec![straight(metres(f64::INFINITY))]),
        Place::LegLength(0),
        "Leg 1 length is not a number that can be measured.",
    );
    let turned = site(vec![curve(feet(9.0), 400.0, Hand::Right)]);
    check_refused(
        &turned,
        Place::LegTurn(0),
        "Leg 1 turn: 400° is above the most that can be true, 360°.",
    );
    let unturned = site(vec![curve(feet(9.0), -90.0, Hand::Right)]);
    check_refused(
        &unturned,
        Place::LegTurn(0),
        "Leg 1 turn: -90° is not above zero.",
    );
    let mut wide = site(vec![straight(feet(9.0))]);
    wide.line.width = Some(inches(-48.0));
    check_refused(
        &wide,
        Place::Width,
        "Width between edge bricks: -4'-0\" is below the least that can be true, 1'-0\".",
    );
}

#[test]
fn a_curve_tighter_than_half_the_width_and_the_edge_is_refused() {
    // Half of 4 ft and a sailor of 2 1/4 in: 26 1/4 in.
    let text =
        "Leg 2 radius: 2'-2 1/4\" is not above half the width plus the edge brick, 2'-2 1/4\".";
    let tight = |radius| site(vec![straight(feet(5.0)), curve(radius, 90.0, Hand::Left)]);
    check_refused(&tight(inches(26.25)), Place::LegRadius(1), text);
    assert!(line(&tight(inches(26.3125)), &mut Findings::default()).is_some());
    // Where the leg widens to 6 ft its larger width counts: 36 + 2 1/4 in.
    let mut widening = curve(inches(38.0), 90.0, Hand::Right);
    widening.width_at_end = Some(feet(6.0));
    let text = "Leg 1 radius: 3'-2\" is not above half the width plus the edge brick, 3'-2 1/4\".";
    check_refused(&site(vec![widening]), Place::LegRadius(0), text);
    // Headers are 8 in wide: 24 + 8 in.
    let mut headers = tight(inches(32.0));
    headers.edge.stands = EdgeStands::Header;
    let text = "Leg 2 radius: 2'-8\" is not above half the width plus the edge brick, 2'-8\".";
    check_refused(&headers, Place::LegRadius(1), text);
}

#[test]
fn a_walk_that_crosses_itself_is_refused() {
    let whole_circle = site(vec![curve(feet(10.0), 360.0, Hand::Right)]);
    check_refused(
        &whole_circle,
        Place::Leg(0),
        "Leg 1: the walk crosses itself within this leg.",
    );
    // A loop: 20 ft out, three quarters round to the right, back across the first leg.
    let looped = site(vec![
        straight(feet(20.0)),
        curve(feet(6.0), 270.0, Hand::Right),
        straight(feet(20.0)),
    ]);
    check_refused(
        &looped,
        Place::Leg(2),
        "Leg 3: the walk crosses itself, it meets leg 1 again.",
    );
    // Two half turns, right and left: an S that keeps clear. Edges 5 ft - 26 1/4 in each side of the centres.
    let s_shape = site(vec![
        curve(feet(5.0), 180.0, Hand::Right),
        curve(feet(5.0), 180.0, Hand::Left),
    ]);
    assert!(line(&s_shape, &mut Findings::default()).is_some());
    // A hairpin: out 20 ft, back beside itself. Centrelines 2 × 26 3/8 in apart leave 1/4 in between the edges.
    let hairpin = site(vec![
        straight(feet(20.0)),
        curve(inches(26.375), 180.0, Hand::Right),
        straight(feet(20.0)),
    ]);
    assert!(line(&hairpin, &mut Findings::default()).is_some());
    // The same, its way back widening from 4 to 5 ft, runs into the way out.
    let mut widening = hairpin;
    widening.line.legs[2].width_at_end = Some(feet(5.0));
    check_refused(
        &widening,
        Place::Leg(2),
        "Leg 3: the walk crosses itself, it meets leg 1 again.",
    );
}

#[test]
fn widths_taper_within_a_leg_and_are_kept_after_it() {
    let mut tapering = straight(feet(10.0));
    tapering.width_at_end = Some(feet(6.0));
    let (line, _) = line_of(&site(vec![
        straight(feet(5.0)),
        tapering,
        straight(feet(5.0)),
    ]));
    let check = |station_ft, width_ft| {
        let width = line.run.clear_width_at(feet(station_ft));
        assert!(
            (in_metres(width - feet(width_ft))).abs() < 1e-12,
            "{station_ft} ft"
        );
    };
    for (station_ft, width_ft) in [
        (-1.0, 4.0),
        (0.0, 4.0),
        (5.0, 4.0),
        (7.5, 4.5),
        (15.0, 6.0),
        (18.0, 6.0),
        (25.0, 6.0),
    ] {
        check(station_ft, width_ft);
    }
    let breaks_ft: Vec<f64> = line
        .run
        .breaks()
        .iter()
        .map(|at| at.get::<unit::foot>().round())
        .collect();
    assert_eq!(breaks_ft, [0.0, 5.0, 15.0, 20.0]);
}

#[test]
fn spots_lie_in_plan_where_the_circle_says() {
    // 6 ft out, a quarter circle of 10 ft to the left, 4 ft on: the far end lies 14 ft left, 16 ft away, and its left edge towards the door.
    let (line, _) = line_of(&site(vec![
        straight(feet(6.0)),
        curve(feet(10.0), 90.0, Hand::Left),
        straight(feet(4.0)),
    ]));
    let check = |station: Length, offset: Length, right_ft: f64, away_ft: f64| {
        let (right, away) = line.run.in_plan(station, offset);
        assert!(in_metres(right - feet(right_ft)).abs() < 1e-9, "{right:?}");
        assert!(in_metres(away - feet(away_ft)).abs() < 1e-9, "{away:?}");
    };
    let quarter = feet(10.0) * std::f64::consts::FRAC_PI_2;
    check(feet(0.0), feet(2.0), 2.0, 0.0);
    check(feet(-1.0), feet(0.0), 0.0, -1.0);
    check(feet(6.0) + quarter, feet(0.0), -10.0, 16.0);
    check(feet(6.0) + quarter, feet(-2.0), -10.0, 14.0);
    check(feet(10.0) + quarter, feet(0.0), -14.0, 16.0);
    check(feet(11.0) + quarter, feet(2.0), -15.0, 18.0);
    // 45° round: the centre of the circle is 10 ft left, 6 ft away.
    let half = std::f64::consts::FRAC_1_SQRT_2;
    check(
        feet(6.0) + quarter * 0.5,
        feet(0.0),
        -10.0 + 10.0 * half,
        6.0 + 10.0 * half,
    );
    assert!((line.run.curvature_per_m_at(feet(7.0)) + 1.0 / 3.048).abs() < 1e-12);
    assert!(line.run.curvature_per_m_at(feet(0.0)).abs() < f64::EPSILON);
    // Edges of the quarter: inner 8 ft × π/2, outer 12 ft × π/2, with 10 ft of straight each.
    let expected = |radius_ft: f64| feet(10.0 + radius_ft * std::f64::consts::FRAC_PI_2);
    assert!(in_metres(line.run.edge_length(feet(-2.0)) - expected(8.0)).abs() < 1e-12);
    assert!(in_metres(line.run.edge_length(feet(2.0)) - expected(12.0)).abs() < 1e-12);
}

proptest! {
    /// A run never jumps in plan, and a step along it is as long as it says.
    #[test]
    fn the_run_is_one_line_in_plan(
        length_ft in 1.0..20.0_f64,
        radius_ft in 5.0..50.0_f64,
        turn_degrees in 1.0..80.0_f64,
        part in 0.0..1.0_f64,
    ) {
        let legs = vec![straight(feet(length_ft)), curve(feet(radius_ft), turn_degrees, Hand::Right), straight(feet(3.0))];
        let (line, _) = line_of(&site(legs));
        let borders = line.run.breaks();
        let spots = borders.into_iter().chain([line.run.length() * part]);
        for station in spots {
            let step = metres(1e-4);
            let (from, to) = (line.run.in_plan(station - step, metres(0.0)), line.run.in_plan(station + step, metres(0.0)));
            let walked_m = libm::hypot(in_metres(to.0 - from.0), in_metres(to.1 - from.1));
            prop_assert!((walked_m - 2e-4).abs() < 1e-9);
        }
    }

    /// No input makes it panic or give a number that is none.
    #[test]
    fn nothing_that_is_written_makes_nonsense(
        values in proptest::collection::vec(proptest::num::f64::ANY, 8),
        degrees in proptest::num::f64::ANY,
    ) {
        let length = |idx: usize| Some(metres(values[idx]));
        let mut site = fixed(site(vec![straight(metres(values[0])), curve(metres(values[1]), degrees, Hand::Right)]), metres(values[2]));
        site.line.width = length(3);
        site.line.old_below_sill = length(4);
        site.line.string_above_sill = length(5);
        site.line.shots = vec![shot(metres(values[6]), ShotBy::String, metres(values[7]))];
        let mut findings = Findings::default();
        if let Some(line) = line(&site, &mut findings) {
            prop_assert!(in_metres(line.grade.end).is_finite() && line.grade.fall.ratio().is_finite());
        } else {
            prop_assert!(findings.stop_the_job());
        }
    }
}

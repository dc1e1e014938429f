//! Setting out curves: exact triangles, closed forms, and points measured by another geometry library.

use crate::sites::{computed, curve, plain, straight};
use geo::{Distance as _, Euclidean, Length as _, LineString, Point};
use proptest::prelude::*;
use underbrick_calc::build::CurveSetOut;
use underbrick_calc::quantity::{Length, feet, in_metres, inches, metres};
use underbrick_calc::site::{Hand, ShownIn, Site};

/// Clear width 32 in and headers of 8 in: the outer faces stand 2 ft from the centreline.
const FACE_FT: f64 = 2.0;

fn curves_of(site: &Site) -> Vec<CurveSetOut> {
    computed(site).build.unwrap().curves
}

fn curved(radius_ft: f64, turn_rad: f64, hand: Hand) -> Site {
    let mut site = plain();
    site.line.legs = vec![
        straight(feet(10.0)),
        curve(in_metres(feet(radius_ft)), turn_rad, hand),
    ];
    site
}

fn in_feet(length: Length) -> f64 {
    in_metres(length) / 0.3048
}

#[track_caller]
fn near(got: Length, expected_ft: f64) {
    let got_ft = in_feet(got);
    assert!(
        (got_ft - expected_ft).abs() < 1e-8,
        "{got_ft} ft, expected {expected_ft} ft"
    );
}

#[track_caller]
fn offset_at(curve: &CurveSetOut, along_ft: f64, offset_ft: f64) {
    let (_, offset) = curve
        .offsets
        .iter()
        .find(|(along, _)| (in_feet(*along) - along_ft).abs() < 1e-8)
        .unwrap_or_else(|| panic!("no offset at {along_ft} ft"));
    near(*offset, offset_ft);
}

/// Right triangles with whole sides on one circle: of radius 65 ft with (39, 52), (25, 60), (33, 56); of radius 25 ft with (15, 20),
/// (7, 24); of radius 85 ft with (51, 68), (13, 84). A chord of twice the first side lies as far from the centre as the second;
/// an offset is the other triangle's second side less that.
#[test]
fn offsets_of_whole_triangles() {
    let three_four_five = 2.0 * libm::asin(0.6);
    for hand in [Hand::Left, Hand::Right] {
        let outside = usize::from(hand == Hand::Left); // the right face, index 1, is outside a curve to the left
        let check = |face_ft: f64, chord_ft: f64, offsets: &[(f64, f64)]| {
            // Outside.
            let curves = curves_of(&curved(face_ft - FACE_FT, three_four_five, hand));
            let curve = &curves[outside];
            near(curve.chord, chord_ft);
            near(curve.swing.unwrap().radius, face_ft);
            offsets.iter().for_each(|(x, y)| offset_at(curve, *x, *y));
            // And inside of a curve as much wider.
            let curves = curves_of(&curved(face_ft + FACE_FT, three_four_five, hand));
            let curve = &curves[1 - outside];
            near(curve.chord, chord_ft);
            near(curve.swing.unwrap().radius, face_ft);
            near(curve.swing.unwrap().from_start, face_ft + FACE_FT);
            offsets.iter().for_each(|(x, y)| offset_at(curve, *x, *y));
        };
        // Middle at 39 ft: 65 − 52; 25 ft from it: 60 − 52; 33 ft from it: 56 − 52.
        check(
            65.0,
            78.0,
            &[
                (6.0, 4.0),
                (14.0, 8.0),
                (39.0, 13.0),
                (64.0, 8.0),
                (72.0, 4.0),
            ],
        );
        // Middle at 15 ft: 25 − 20; 7 ft from it: 24 − 20.
        check(25.0, 30.0, &[(8.0, 4.0), (15.0, 5.0), (22.0, 4.0)]);
        // Middle at 51 ft: 85 − 68; 13 ft from it: 84 − 68.
        check(85.0, 102.0, &[(38.0, 16.0), (51.0, 17.0), (64.0, 16.0)]);
    }
}

/// Table I of a surveyor's field book, tangents T and externals E to a curve of 1 degree, R = 5729.65 ft, by the angle I that it turns
/// (seen in scans of field books at planning.countyofdane.com/Weblink8Planning/0/doc/972061, 964218, 964046). Chord and middle ordinate
/// follow: C = 2 T cos ½I, M = E cos ½I. A curve of 10 degrees has a tenth of each.
#[test]
fn chords_and_middle_ordinates_of_a_field_book() {
    for (turn_degrees, tangent_ft, external_ft) in [
        (15.0_f64, 754.32, 49.44),
        (43.0, 2257.0, 428.5),
        (50.0, 2671.8, 592.3),
        (86.0, 5343.0, 2104.7),
    ] {
        let turn_rad = turn_degrees.to_radians();
        let cosine = libm::cos(turn_rad / 2.0);
        let curves = curves_of(&curved(572.965 - FACE_FT, turn_rad, Hand::Left));
        let chord_ft = in_feet(curves[1].chord);
        // The table has a tenth of a foot, or half of it either way; so has a tenth of it a hundredth.
        assert!(
            (chord_ft - 0.2 * tangent_ft * cosine).abs() < 0.01,
            "{turn_degrees}: {chord_ft} ft"
        );
        let highest = curves[1].offsets.iter().map(|(_, offset)| in_feet(*offset));
        let middle_ft = highest.fold(0.0, f64::max);
        assert!(
            (middle_ft - 0.1 * external_ft * cosine).abs() < 0.005,
            "{turn_degrees}: {middle_ft} ft"
        );
    }
}

#[test]
fn offsets_stand_at_handy_places() {
    // Chord 30 ft: 2, 4 … 28 ft, and 15 ft in the middle.
    let mut site = curved(25.0 - FACE_FT, 2.0 * libm::asin(0.6), Hand::Left);
    let along = |site: &Site| -> Vec<f64> {
        let curves = curves_of(site);
        let offsets = curves[1].offsets.iter();
        offsets
            .map(|(along, _)| (in_metres(*along) * 1e6).round() / 1e6)
            .collect()
    };
    let feet: Vec<f64> = along(&site)
        .iter()
        .map(|x_m| (x_m / 0.3048 * 1e3).round() / 1e3)
        .collect();
    assert_eq!(
        feet,
        [
            2.0, 4.0, 6.0, 8.0, 10.0, 12.0, 14.0, 15.0, 16.0, 18.0, 20.0, 22.0, 24.0, 26.0, 28.0
        ]
    );
    // Metric: 9.144 m; 0.5, 1.0 … 9.0, and 4.572 in the middle. 4.5 is more than an inch from it.
    site.shown_in = ShownIn::Metric;
    assert_eq!(along(&site).len(), 19);
    // A chord of 20 ft has its middle at 10 ft, once.
    let site = curved(50.0 / 3.0 - FACE_FT, 2.0 * libm::asin(0.6), Hand::Left);
    assert_eq!(along(&site).len(), 9);
}

#[test]
fn a_curve_that_turns_far_is_set_out_in_parts() {
    use std::f64::consts::PI;
    for (turn_rad, n_parts) in [
        (PI / 2.0, 1),
        (PI / 2.0 + 0.01, 2),
        (PI, 2),
        (1.4 * PI, 3),
        (1.9 * PI, 4),
    ] {
        let mut site = curved(8.0, turn_rad, Hand::Right);
        site.line.legs.remove(0);
        let results = computed(&site);
        let curves = results.build.unwrap().curves;
        assert_eq!(curves.len(), 2 * n_parts, "{turn_rad}");
        for side in curves.chunks(n_parts) {
            for pair in side.windows(2) {
                assert_eq!(pair[0].stations[1], pair[1].stations[0]);
                assert_eq!(pair[0].ends[1], pair[1].ends[0]);
            }
            let arc: f64 = side.iter().map(|part| in_feet(part.arc)).sum();
            let radius_ft = if side[0].is_right {
                8.0 - FACE_FT
            } else {
                8.0 + FACE_FT
            };
            assert!((arc - radius_ft * turn_rad).abs() < 1e-9);
        }
    }
}

#[test]
fn a_straight_walk_has_no_curve_and_a_taper_no_centre() {
    assert_eq!(curves_of(&plain()), []);
    let mut site = curved(12.0, 1.0, Hand::Right);
    site.line.legs[1].width_at_end = Some(inches(44.0));
    let curves = curves_of(&site);
    assert!(curves.iter().all(|curve| curve.swing.is_none()));
}

/// The spot so far along the chord and so far off it.
fn spot(curve: &CurveSetOut, hand: Hand, along: Length, offset: Length) -> Point {
    let [start, end] = curve
        .ends
        .map(|(right, away)| (in_metres(right), in_metres(away)));
    let chord_m = in_metres(curve.chord);
    let (right, away) = ((end.0 - start.0) / chord_m, (end.1 - start.1) / chord_m);
    // A curve to the right bows to the left of its chord.
    let to_right_m = match hand {
        Hand::Left => in_metres(offset),
        Hand::Right => -in_metres(offset),
    };
    let along_m = in_metres(along);
    Point::new(
        start.0 + right * along_m + away * to_right_m,
        start.1 + away * along_m - right * to_right_m,
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn every_spot_lies_on_the_circle(
        radius_ft in 6.0..80.0_f64,
        turn_rad in 0.1..3.0_f64,
        is_left in any::<bool>(),
    ) {
        let hand = if is_left { Hand::Left } else { Hand::Right };
        for curve in curves_of(&curved(radius_ft, turn_rad, hand)) {
            let swing = curve.swing.unwrap();
            let centre = Point::new(in_metres(swing.centre.0), in_metres(swing.centre.1));
            let radius_m = in_metres(swing.radius);
            let is_outside = curve.is_right == is_left;
            let face_ft = if is_outside { radius_ft + FACE_FT } else { radius_ft - FACE_FT };
            prop_assert!((radius_m / 0.3048 - face_ft).abs() < 1e-9);
            // The centre lies square to the run at the leg's start, 10 ft from the door.
            let sign = if is_left { -1.0 } else { 1.0 };
            let square = Point::new(sign * radius_ft * 0.3048, feet(10.0).value);
            prop_assert!(Euclidean.distance(centre, square) < 1e-9);
            let half_m = in_metres(curve.chord) / 2.0;
            for (along, offset) in &curve.offsets {
                let at = spot(&curve, hand, *along, *offset);
                prop_assert!((Euclidean.distance(at, centre) - radius_m).abs() < 1e-8);
                // The closed form.
                let from_middle_m = in_metres(*along) - half_m;
                let expected_m = (radius_m * radius_m - from_middle_m * from_middle_m).sqrt()
                    - (radius_m * radius_m - half_m * half_m).sqrt();
                prop_assert!((in_metres(*offset) - expected_m).abs() < 1e-8);
                prop_assert!(*offset > metres(0.0));
            }
            for end in curve.ends {
                let end = Point::new(in_metres(end.0), in_metres(end.1));
                prop_assert!((Euclidean.distance(end, centre) - radius_m).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn where_the_walk_tapers_every_spot_lies_on_its_edge(
        radius_ft in 6.0..40.0_f64,
        turn_rad in 0.2..1.5_f64,
        is_left in any::<bool>(),
        width_at_end_in in 24.0..60.0_f64,
    ) {
        let hand = if is_left { Hand::Left } else { Hand::Right };
        let mut site = curved(radius_ft, turn_rad, hand);
        site.line.legs[1].width_at_end = Some(inches(width_at_end_in));
        let results = computed(&site);
        let run = results.line.unwrap().run;
        let leg = run.legs()[1];
        for curve in results.build.unwrap().curves {
            let sign = if curve.is_right { 1.0 } else { -1.0 };
            let n = 4000;
            let edge: LineString = (0..=n)
                .map(|i| {
                    let part = f64::from(i) / f64::from(n);
                    let width_in = 32.0 + (width_at_end_in - 32.0) * part;
                    let offset = inches(sign * (width_in / 2.0 + 8.0));
                    let (right, away) = run.in_plan(leg.start + leg.length * part, offset);
                    (in_metres(right), in_metres(away))
                })
                .collect();
            // 4000 chords of a curve leave it by less than a thousandth of a millimetre.
            for (along, offset) in &curve.offsets {
                let at = spot(&curve, hand, *along, *offset);
                prop_assert!(Euclidean.distance(&at, &edge) < 1e-6);
            }
            prop_assert!((Euclidean.length(&edge) - in_metres(curve.arc)).abs() < 1e-5);
        }
    }
}

#[test]
fn the_screed_board_spans_the_widest_and_dips_into_the_narrowest() {
    let mut site = curved(12.0, 1.0, Hand::Right);
    site.line.legs[1].width_at_end = Some(inches(44.0));
    let screed = computed(&site).build.unwrap().screed;
    // 44 + 2 × (8 of header + 1 1/2 of form); 2 1/4 − 1/8.
    for (length, expected_in) in [
        (screed.length, 63.0),
        (screed.between, 32.0),
        (screed.notch, 2.125),
        (screed.proud, 0.125),
    ] {
        near(length, expected_in / 12.0);
    }
}

//! Readings of the old surface, by string and by rod.

use super::*;
use crate::quantity::{in_metres, metres};

#[test]
fn readings_by_string_and_by_rod_give_levels() {
    let mut site = site(vec![straight(feet(20.0))]);
    site.line.string_above_sill = Some(inches(6.0));
    // Row L3 in the trade's frame: the sill reads 8.42 ft, the spot 1.20 ft, so that it lies 7.22 ft above the sill.
    site.line.rod_at_sill = Some(feet(8.42));
    site.line.shots = vec![
        shot(feet(10.0), ShotBy::String, inches(11.0)),
        shot(feet(20.0), ShotBy::Rod, feet(1.20)),
    ];
    let (line, findings) = line_of(&site);
    let check = |station_ft, level_in: f64| {
        let level = line
            .old_surface
            .at(feet(station_ft), metres(0.0))
            .unwrap()
            .level;
        assert!(
            (in_metres(level - inches(level_in))).abs() < 1e-12,
            "{station_ft} ft: {level:?}"
        );
    };
    check(0.0, -3.0);
    check(10.0, -5.0); // 11 in of tape less 6 in
    check(20.0, 7.22 * 12.0);
    check(5.0, -4.0);
    assert!(findings.at(Place::ShotReading(0)).next().is_none());
}

#[test]
fn readings_that_cannot_be_used_are_named_and_left_out() {
    let mut site = site(vec![straight(feet(20.0))]);
    site.line.old_below_sill = Some(feet(900.0));
    site.line.string_above_sill = Some(inches(0.0));
    site.line.shots = vec![
        shot(feet(21.0), ShotBy::String, inches(5.0)),
        Shot {
            station: None,
            ..shot(feet(1.0), ShotBy::String, inches(5.0))
        },
        Shot {
            reading: None,
            ..shot(feet(1.0), ShotBy::String, inches(5.0))
        },
        shot(feet(2.0), ShotBy::Rod, inches(50.0)),
        shot(feet(3.0), ShotBy::String, metres(f64::NAN)),
        shot(feet(4.0), ShotBy::String, inches(-3.0)),
    ];
    let (line, findings) = line_of(&site);
    assert_eq!(line.old_surface, OldSurface::default());
    let text = "Sill above old brick: 900'-0\" is above the most that can be true, 10'-0\".";
    check_found(&findings, Place::OldBelowSill, Weight::Stop, text);
    let text = "Level 1 station: 21'-0\" lies beyond the run, which goes from 0 to 20'-0\".";
    check_found(&findings, Place::ShotStation(0), Weight::Warning, text);
    check_found(
        &findings,
        Place::ShotStation(1),
        Weight::Warning,
        "Level 2 station is missing.",
    );
    check_found(
        &findings,
        Place::ShotReading(2),
        Weight::Warning,
        "Level 3 reading is missing.",
    );
    check_found(
        &findings,
        Place::ShotReading(3),
        Weight::Warning,
        "\"Rod at sill\" is missing",
    );
    check_found(
        &findings,
        Place::ShotReading(4),
        Weight::Warning,
        "Level 5 reading is not a number",
    );
    check_found(
        &findings,
        Place::ShotReading(5),
        Weight::Warning,
        "is below the least that can be true, 0\"",
    );
    check_found(
        &findings,
        Place::OldSurface,
        Weight::Warning,
        "No level of the old surface",
    );
}

#[test]
fn a_reading_at_the_far_end_may_be_rounded() {
    // A quarter circle of 10 ft is 15.70796 ft = 188.4956 in long, written 188 1/2 in.
    let mut site = site(vec![curve(feet(10.0), 90.0, Hand::Right)]);
    site.line.string_above_sill = Some(inches(0.0));
    site.line.shots = vec![shot(inches(188.5), ShotBy::String, inches(5.0))];
    let (line, findings) = line_of(&site);
    assert!(findings.at(Place::ShotStation(0)).next().is_none());
    assert_eq!(
        line.old_surface.station_breaks(),
        [metres(0.0), line.run.length()]
    );
    // Written 188 7/16 in it is 0.06 in short, and still the far end.
    site.line.shots = vec![shot(inches(188.4375), ShotBy::String, inches(5.0))];
    let (line, _) = line_of(&site);
    assert_eq!(
        line.old_surface.station_breaks(),
        [metres(0.0), line.run.length()]
    );
}

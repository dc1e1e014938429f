//! Readings of levels, worked by hand.

use super::sites::{Job, check_found, mid, plain, rod, set_up, stamp, stepped, tape};
use underbrick_calc::build::{ReadingFound, Surface, Verdict, string_line};
use underbrick_calc::findings::Weight;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, feet, inches, unit};
use underbrick_calc::site::{BuildReading, ShownIn};

use Surface::{BrickTop, DigBottom, EdgeTop, FormTop, LiftTop, SettingBed};
use Verdict::{High, Low, NotKnown, Right};

#[track_caller]
fn check(found: &ReadingFound, off_in: f64, verdict: Verdict) {
    let got_in = found.off.unwrap().get::<unit::inch>();
    assert!((got_in - off_in).abs() < 1e-9, "{got_in} in: {found:#?}");
    assert_eq!(found.verdict, verdict, "{found:#?}");
    assert_eq!(found.advice.is_empty(), verdict == Right, "{found:#?}");
}

fn at_12_ft(surface: Surface, tape_in: f64) -> BuildReading {
    tape(surface, feet(12.0), mid(), inches(tape_in))
}

/// Off the design and verdict at the published limits. From the string on the grade line the design is: bottom of dig 3 + 4 = 7 in,
/// lift 1 7 − 2 = 5 in, base top 2 1/4 + 3/4 = 3 in, setting bed as screeded 2 1/4 − 1/8 = 2 1/8 in, tops 0.
#[test]
fn tape_readings_against_the_design() {
    let job = Job::of(plain());
    let check = |surface, tape_in, off_in, verdict| {
        check(&job.alone(at_12_ft(surface, tape_in)), off_in, verdict);
    };
    // Row P8, base thickness +3/4, −1/2 in: the bottom may lie 1/2 in high and 3/4 in low.
    check(DigBottom, 7.0, 0.0, Right);
    check(DigBottom, 6.5, 0.5, Right);
    check(DigBottom, 6.4375, 0.5625, High);
    check(DigBottom, 7.75, -0.75, Right);
    check(DigBottom, 7.8125, -0.8125, Low);
    // Common practice, no source: lifts under the last 1/2 in.
    check(LiftTop(1), 4.5, 0.5, Right);
    check(LiftTop(1), 5.5625, -0.5625, Low);
    // Row P7: base top 3/8 in.
    check(LiftTop(2), 2.625, 0.375, Right);
    check(LiftTop(2), 2.5625, 0.4375, High);
    check(LiftTop(2), 3.4375, -0.4375, Low);
    // Common practice, no source: forms, edge and setting bed 1/8 in.
    check(SettingBed, 2.125, 0.0, Right);
    check(SettingBed, 2.0, 0.125, Right);
    check(SettingBed, 1.9375, 0.1875, High);
    check(FormTop, -0.125, 0.125, Right);
    check(FormTop, 0.1875, -0.1875, Low);
    check(EdgeTop, -0.1875, 0.1875, High);
    // Row P6: surface 3/8 in.
    check(BrickTop, 0.375, -0.375, Right);
    check(BrickTop, 0.4375, -0.4375, Low);
}

/// The string a foot above the grade line: every tape reads a foot more.
#[test]
fn a_string_above_the_grade_line() {
    let mut site = plain();
    site.build.string_above_grade = Some(inches(12.0));
    let job = Job::of(site);
    check(&job.alone(at_12_ft(DigBottom, 19.0)), 0.0, Right);
}

/// Cross-fall 1/4 in per ft down to the right: 2 ft to the right everything lies 1/2 in lower under a straightedge held level across at
/// the string, 2 ft to the left 1/2 in higher.
#[test]
fn the_tape_beside_the_centreline_hangs_from_a_level_straightedge() {
    let mut site = plain();
    site.line.cross_fall = Some(Fall::inches_per_foot(0.25));
    let job = Job::of(site);
    let check = |offset_ft: f64, tape_in: f64| {
        let reading = tape(DigBottom, feet(12.0), feet(offset_ft), inches(tape_in));
        check(&job.alone(reading), 0.0, Right);
    };
    check(0.0, 7.0);
    check(2.0, 7.5);
    check(-2.0, 6.5);
}

/// Rod on the sill 4'-0". At 12 ft the grade line is 3 in down, the bottom of the dig 10 in: the rod must read 4'-10".
#[test]
fn rod_readings_hang_on_their_set_up() {
    let mut site = plain();
    site.build.set_ups = vec![
        set_up(Some(feet(4.0))),
        set_up(Some(feet(5.5))),
        set_up(None),
    ];
    let mut job = Job::of(site);
    let at = |reading: Length, set_up_idx| rod(DigBottom, feet(12.0), mid(), reading, set_up_idx);
    check(&job.alone(at(inches(58.0), 0)), 0.0, Right);
    check(&job.alone(at(inches(57.0), 0)), 1.0, High); // reads less: it stands higher
    check(&job.alone(at(inches(76.0), 1)), 0.0, Right); // 5'-6" + 10"
    for set_up_idx in [2, 3] {
        let found = job.alone(at(inches(58.0), set_up_idx));
        assert_eq!(
            (found.level, found.off, found.verdict),
            (None, None, NotKnown)
        );
    }
    let without = job.read(at(inches(58.0), 3));
    let not_read = job.read(at(inches(58.0), 2));
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildValue(without),
        Weight::Warning,
        "A rod reading without a set-up: its level is not known.",
    );
    check_found(
        &findings,
        Place::BuildValue(not_read),
        Weight::Warning,
        "A rod reading in set-up 3, in which the rod was not read on the sill: its level is not known.",
    );
}

#[test]
fn a_slip_of_a_foot_is_asked_about_once() {
    let mut job = Job::of(plain());
    // 7 in was to be read, 1'-7 1/8" was typed: 1'-0 1/8" low.
    let idx = job.read(at_12_ft(DigBottom, 19.125));
    let (checked, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildValue(idx),
        Weight::Warning,
        "Bottom of dig at 12'-0\": 1'-0 1/8\" low: a slip of a foot?",
    );
    assert!(checked.readings[0].is_questioned);
    assert_eq!(
        checked.readings[0].advice,
        "Read it again before anything is moved."
    );

    job.site.build.readings[idx].is_confirmed = true;
    let (checked, findings) = job.checked();
    assert_eq!(findings.iter().count(), 0, "{findings:#?}");
    assert!(!checked.readings[0].is_questioned);
    check(&checked.readings[0], -12.125, Low);

    // 8 in is no whole foot: asked about in other words. 6 in is not asked about.
    job.site.build.readings = vec![at_12_ft(DigBottom, 15.0)];
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildValue(0),
        Weight::Warning,
        "Bottom of dig at 12'-0\": 8\" low: is it read right?",
    );
    job.site.build.readings = vec![at_12_ft(DigBottom, 13.0)];
    let (checked, findings) = job.checked();
    assert_eq!(findings.iter().count(), 0, "{findings:#?}");
    assert!(!checked.readings[0].is_questioned);
}

#[test]
fn in_millimetres_a_slip_is_one_of_ten_centimetres() {
    let mut site = plain();
    site.shown_in = ShownIn::Metric;
    let mut job = Job::of(site);
    // 7 in is 177.8 mm; 377.8 mm is 200 mm low.
    let idx = job.read(tape(
        DigBottom,
        feet(10.0),
        mid(),
        Length::new::<unit::millimeter>(377.8),
    ));
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildValue(idx),
        Weight::Warning,
        "Bottom of dig at 3.048 m: 200 mm low: a slip of 10 cm?",
    );
}

#[test]
fn advice_says_how_much_and_over_which_length() {
    let mut job = Job::of(plain());
    let check = |job: &Job, idx: usize, advice: &str| {
        let (checked, _) = job.checked();
        assert_eq!(checked.readings[idx].advice, advice);
    };
    // 3 − 2 1/2 = 1/2 in high, over the 10 ft to the next stake, as none was read behind it.
    let high = job.read(tape(LiftTop(2), feet(12.0), mid(), inches(2.5)));
    check(
        &job,
        high,
        "Take off 1/2\" over the next 10'-0\", compact, then read again.",
    );
    // A reading 4 ft on bounds it.
    job.read(tape(LiftTop(2), feet(16.0), mid(), inches(2.875)));
    check(
        &job,
        high,
        "Take off 1/2\" over the next 4'-0\", compact, then read again.",
    );
    // Near the far end: as far as the walk goes. At it: backwards, to the reading before it.
    let near = job.read(tape(DigBottom, feet(26.0), mid(), inches(8.0)));
    check(
        &job,
        near,
        "Fill 1\" over the next 4'-0\" with base, not with what was dug, compact, then read again.",
    );
    let last = job.read(tape(DigBottom, feet(30.0), mid(), inches(6.0)));
    check(
        &job,
        last,
        "Dig off 1\" over the last 4'-0\", compact, then read again.",
    );
    let edge = job.read(tape(EdgeTop, feet(2.0), feet(2.1), inches(-0.25)));
    check(
        &job,
        edge,
        "Tap the edge brick down 1/4\" over the next 10'-0\", then read again.",
    );
    let form = job.read(tape(FormTop, feet(2.0), feet(2.1), inches(0.25)));
    check(
        &job,
        form,
        "Raise the form 1/4\", screw it to its stakes, sight along it over the next 10'-0\", then read again.",
    );
    let bed = job.read(tape(SettingBed, feet(2.0), mid(), inches(2.375)));
    check(
        &job,
        bed,
        "Fill 1/4\" over the next 10'-0\", screed again without treading on it, then read again.",
    );
}

/// Rows P6 and P7: 3/8 in over 10 ft, not cumulative. Each reading lies in its tolerance; together they are wavy.
#[test]
fn neighbours_within_ten_feet_are_flat_with_each_other() {
    let mut job = Job::of(plain());
    let at =
        |station_ft: f64, off_in: f64| tape(BrickTop, feet(station_ft), mid(), inches(-off_in));
    let verdicts = |job: &Job| -> Vec<(Verdict, Option<usize>)> {
        let (checked, _) = job.checked();
        checked
            .readings
            .iter()
            .map(|found| (found.verdict, found.uneven_with))
            .collect()
    };
    // +1/4 and −1/8 in: 3/8 in apart is right.
    job.site.build.readings = vec![at(5.0, 0.25), at(15.0, -0.125)];
    assert_eq!(verdicts(&job), [(Right, None), (Right, None)]);
    // +1/4 and −3/16 in: 7/16 in apart; the one farther off is high.
    job.site.build.readings = vec![at(5.0, 0.25), at(15.0, -0.1875)];
    assert_eq!(verdicts(&job), [(High, Some(1)), (Right, None)]);
    let (checked, _) = job.checked();
    assert_eq!(
        checked.readings[0].advice,
        "7/16\" off the line from 15'-0\", more than 3/8\" over 10'-0\": tap the brick down 1/4\" over the next 10'-0\"; where it does not go, lift it and screed the bed lower, then read again."
    );
    // As far off as each other: both.
    job.site.build.readings = vec![at(5.0, 0.25), at(15.0, -0.25)];
    assert_eq!(verdicts(&job), [(High, Some(1)), (Low, Some(0))]);
    // Two that differ as much: the nearer one, whichever was read first; as near, the one first along the walk.
    for (low, partner) in [([11.0, 22.0], 1), ([22.0, 11.0], 2), ([19.0, 11.0], 2)] {
        job.site.build.readings = vec![at(15.0, 0.25), at(low[0], -0.1875), at(low[1], -0.1875)];
        assert_eq!(verdicts(&job)[0], (High, Some(partner)), "{low:?}");
    }
    // 10 ft and 1 in apart they are not compared: not cumulative.
    job.site.build.readings = vec![at(5.0, 0.25), at(15.0 + 1.0 / 12.0, -0.25)];
    assert_eq!(verdicts(&job), [(Right, None), (Right, None)]);
    // The base top is judged so, a lift under it is not.
    let lift = |number, station_ft: f64, tape_in: f64| {
        tape(LiftTop(number), feet(station_ft), mid(), inches(tape_in))
    };
    job.site.build.readings = vec![lift(2, 5.0, 2.75), lift(2, 10.0, 3.25)];
    assert_eq!(verdicts(&job), [(High, Some(1)), (Low, Some(0))]);
    job.site.build.readings = vec![lift(1, 5.0, 4.75), lift(1, 10.0, 5.25)];
    assert_eq!(verdicts(&job), [(Right, None), (Right, None)]);
}

#[test]
fn a_spot_that_was_mended_is_read_again() {
    let mut job = Job::of(plain());
    job.site.build.readings = vec![at_12_ft(DigBottom, 6.0), at_12_ft(DigBottom, 7.0)];
    let (checked, findings) = job.checked();
    let said: Vec<_> = checked
        .readings
        .iter()
        .map(|found| (found.verdict, found.is_read_again))
        .collect();
    assert_eq!(said, [(High, true), (Right, false)]);
    assert_eq!(findings.iter().count(), 0, "one person: {findings:#?}");
}

#[test]
fn two_people_at_one_place_are_both_named() {
    let mut job = Job::of(plain());
    let by = |initials: &str, at_s, tape_in, station_ft: f64| BuildReading {
        stamp: stamp(at_s, initials),
        ..tape(DigBottom, feet(station_ft), mid(), inches(tape_in))
    };
    // 7 − 6 1/2 = 1/2 in high and 7 − 7 5/8 = 5/8 in low: 1 1/8 in apart, more than the 3/4 in.
    job.site.build.readings = vec![by("AB", 10, 6.5, 12.0), by("KM", 20, 7.625, 12.25)];
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildValue(1),
        Weight::Warning,
        "Bottom of dig at 12'-3\": AB read it 1/2\" high, KM 5/8\" low.",
    );
    // Off, then right: it may have been mended.
    job.site.build.readings = vec![by("AB", 10, 6.0, 12.0), by("KM", 20, 7.0, 12.0)];
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildValue(1),
        Weight::Note,
        "Bottom of dig at 12'-0\": AB read it 1\" high, KM on its level.",
    );
    // 7 in apart along the run, or the same person, or within the tolerance: nothing.
    for readings in [
        vec![by("AB", 10, 6.5, 12.0), by("KM", 20, 7.625, 12.6)],
        vec![by("AB", 10, 6.5, 12.0), by("AB", 20, 7.625, 12.0)],
        vec![by("AB", 10, 6.75, 12.0), by("KM", 20, 7.5, 12.0)],
    ] {
        job.site.build.readings = readings;
        let (_, findings) = job.checked();
        assert_eq!(findings.iter().count(), 0, "{findings:#?}");
    }
}

#[test]
fn a_clock_that_was_set_back_is_noted_and_nothing_is_lost() {
    let mut job = Job::of(plain());
    let at = |at_s, station_ft| BuildReading {
        stamp: stamp(at_s, "AB"),
        ..tape(DigBottom, feet(station_ft), mid(), inches(7.0))
    };
    job.site.build.readings = vec![at(100, 0.0), at(40, 10.0), at(50, 20.0)];
    let (checked, findings) = job.checked();
    assert_eq!(checked.readings.len(), 3);
    assert_eq!(findings.iter().count(), 1, "{findings:#?}");
    check_found(
        &findings,
        Place::BuildReading(1),
        Weight::Note,
        "Written down after the one before it, but its time is earlier: the clock of the device was set back.",
    );
    job.site.build.readings[1].stamp.device = "phone".to_owned();
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildReading(1),
        Weight::Note,
        "Written down after the one before it, but its time is earlier: the clocks of \"tablet\" and \"phone\" differ.",
    );
}

#[test]
fn readings_off_the_walk_are_kept_and_named() {
    let mut job = Job::of(plain());
    job.site.build.readings = vec![
        tape(DigBottom, feet(31.0), mid(), inches(7.0)),
        // Half of 4 ft, 2 1/4 in of sailor, 6 in of extension: 2'-8 1/4".
        tape(DigBottom, feet(12.0), feet(2.75), inches(7.0)),
        tape(LiftTop(3), feet(12.0), mid(), inches(7.0)),
    ];
    let (checked, findings) = job.checked();
    for found in &checked.readings {
        assert_eq!((found.design, found.verdict), (None, NotKnown));
    }
    check_found(
        &findings,
        Place::BuildStation(0),
        Weight::Warning,
        "Check 1 station: 31'-0\" lies beyond the run, which goes from 0 to 30'-0\".",
    );
    check_found(
        &findings,
        Place::BuildOffset(1),
        Weight::Warning,
        "2'-9\" from the centreline lies outside the dig, which reaches 2'-8 1/4\" at 12'-0\".",
    );
    check_found(
        &findings,
        Place::BuildReading(2),
        Weight::Warning,
        "There is no lift 3 at 12'-0\": the base does not reach down to it there.",
    );
}

/// A riser of 6 in or so stands at 14 ft: a rod reading there is held to the head or the foot, whichever it is nearer to.
#[test]
fn at_a_riser_a_reading_is_held_to_the_nearer_side() {
    let mut site = stepped();
    site.build.set_ups = vec![set_up(Some(feet(0.0)))];
    let job = Job::of(site);
    let risers = job.line.grade.risers();
    assert_eq!(risers.len(), 2);
    let head = job
        .line
        .grade
        .level(risers[0].station - inches(0.01), mid());
    let foot = job.line.grade.level(risers[0].station, mid());
    assert!(head - foot > inches(4.0));
    for (level, off_in) in [(head - inches(0.1), -0.1), (foot + inches(0.1), 0.1)] {
        let found = job.alone(rod(EdgeTop, risers[0].station, mid(), -level, 0));
        let got_in = found.off.unwrap().get::<unit::inch>();
        assert!((got_in - off_in).abs() < 1e-3, "{got_in} in");
        assert_eq!(found.verdict, Right);
    }
}

/// 30 ft between stakes: 0.0221 N/m × 9.144² ÷ (8 × 44.48 N) = 5.2 mm, 3/16 in.
#[test]
fn a_string_over_too_long_a_span_is_noted() {
    let mut job = Job::of(plain());
    let string = string_line(&job.site, &job.line);
    assert!(string.sag < inches(1.0 / 32.0));
    job.site.build.spacing = Some(feet(30.0));
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::BuildSpacing,
        Weight::Note,
        "A string pulled with 10 lb (45 N) sags 3/16\" over the 30'-0\" between stakes.",
    );
}

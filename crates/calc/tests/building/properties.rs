//! What holds for any reading.

use super::sites::{Job, curved, rod, set_up, tape};
use proptest::prelude::*;
use std::sync::LazyLock;
use underbrick_calc::build::{ReadingFound, Surface, Verdict};
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{Length, feet, in_metres, inches, metres};
use underbrick_calc::site::BuildReading;

/// The curved walk with a fall across, worked out once.
static JOB: LazyLock<Job> = LazyLock::new(|| {
    let mut site = curved();
    site.line.cross_fall = Some(Fall::inches_per_foot(0.125));
    site.build.string_above_grade = Some(inches(9.0));
    Job::of(site)
});

fn surfaces() -> impl Strategy<Value = Surface> {
    let top = JOB.bed.lifts.each.len();
    prop_oneof![
        Just(Surface::DigBottom),
        Just(Surface::LiftTop(top - 1)),
        Just(Surface::LiftTop(top)),
        Just(Surface::FormTop),
        Just(Surface::EdgeTop),
        Just(Surface::SettingBed),
        Just(Surface::BrickTop),
    ]
}

/// Station along the run and offset across the walk.
fn spots() -> impl Strategy<Value = (Length, Length)> {
    (0.0..38.0_f64, -1.3..1.3_f64)
        .prop_map(|(station_ft, offset_ft)| (feet(station_ft), feet(offset_ft)))
}

fn found(set_ups_m: &[f64], readings: Vec<BuildReading>) -> Vec<ReadingFound> {
    let mut site = JOB.site.clone();
    site.build.set_ups = set_ups_m
        .iter()
        .map(|rod_m| set_up(Some(metres(*rod_m))))
        .collect();
    site.build.readings = readings;
    let job = Job {
        site,
        line: JOB.line.clone(),
        bed: JOB.bed.clone(),
    };
    job.checked().0.readings
}

/// In sixteenths of an inch, from 1 3/4 in low to 1 3/4 in high.
fn sixteenths() -> impl Strategy<Value = f64> {
    (-28_i32..=28).prop_map(|n| f64::from(n) / 16.0)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Level is level, whether by tape or by rod, wherever the instrument stands.
    #[test]
    fn moving_the_instrument_changes_nothing(
        surface in surfaces(),
        (station, offset) in spots(),
        off_in in sixteenths(),
        first_m in 0.5..2.0_f64,
        moved_m in -3.0..3.0_f64,
    ) {
        let design = JOB.alone(tape(surface, station, offset, metres(0.0))).design.unwrap();
        let by_tape = JOB.off_by(surface, station, offset, inches(off_in));
        let rod_m = first_m - in_metres(design + inches(off_in));
        let found = found(&[first_m, first_m + moved_m], vec![
            by_tape,
            rod(surface, station, offset, metres(rod_m), 0),
            rod(surface, station, offset, metres(rod_m + moved_m), 1),
        ]);
        // All three stand on one spot: only their own tolerance speaks, but for the last, which counts.
        for reading in &found {
            let one = JOB.alone(JOB.off_by(surface, station, offset, inches(off_in)));
            prop_assert_eq!(reading.verdict, one.verdict);
            prop_assert!((in_metres(reading.off.unwrap()) - in_metres(inches(off_in))).abs() < 1e-9);
        }
    }

    /// On its design it is right; at its tolerance it is right; a hundredth of a millimetre past it, it is not.
    #[test]
    fn it_flips_at_its_tolerance(surface in surfaces(), (station, offset) in spots()) {
        let verdict = |off: Length| JOB.alone(JOB.off_by(surface, station, offset, off)).verdict;
        let tolerance = JOB.alone(tape(surface, station, offset, metres(0.0))).tolerance;
        let hair = metres(1e-5);
        let nothing = metres(0.0);
        prop_assert_eq!(verdict(nothing), Verdict::Right);
        prop_assert_eq!(verdict(tolerance.high), Verdict::Right);
        prop_assert_eq!(verdict(tolerance.high + hair), Verdict::High);
        prop_assert_eq!(verdict(nothing - tolerance.low), Verdict::Right);
        prop_assert_eq!(verdict(nothing - tolerance.low - hair), Verdict::Low);
    }

    /// A lift that is there is one that runs there, and from the lowest one up the tops leave no base over or short: the thickness of
    /// the base lies between the tops of the lifts below and above its lowest.
    #[test]
    fn lifts_are_read_only_where_they_run((station, offset) in spots()) {
        let bed = &JOB.bed;
        let lowest = bed.dig.base_at(station, offset).lowest_lift;
        let lift = &bed.lifts.each[lowest - 1];
        let near = inches(0.01);
        let runs_here = lift
            .runs
            .iter()
            .any(|(from, to)| *from <= station + near && *to >= station - near);
        prop_assert!(runs_here);
        let thickness = bed.dig.base_thickness(station, offset);
        let above = lift.top_below_grade - bed.base_top_below_grade;
        prop_assert!(thickness > above);
        prop_assert!(thickness - above <= bed.lifts.compacted_limit + metres(1e-9));
        for number in 1..=bed.lifts.each.len() {
            let found = JOB.alone(tape(Surface::LiftTop(number), station, offset, metres(0.0)));
            prop_assert_eq!(found.design.is_some(), number >= lowest);
        }
    }

    /// What was read first does not matter, as long as no spot is read twice.
    #[test]
    fn the_order_of_readings_does_not_matter(
        read in proptest::collection::vec((surfaces(), -1.3..1.3_f64, sixteenths()), 2..12),
        order in proptest::collection::vec(any::<u32>(), 12),
    ) {
        let readings: Vec<BuildReading> = read.iter().enumerate().map(|(n, (surface, offset_ft, off_in))| {
            JOB.off_by(*surface, feet(3.0 * n as f64), feet(*offset_ft), inches(*off_in))
        }).collect();
        let mut shuffled: Vec<(u32, BuildReading)> = order.iter().copied().zip(readings.clone()).collect();
        shuffled.sort_by_key(|(key, _)| *key);
        let said = |found: Vec<ReadingFound>| {
            let mut said: Vec<_> = found.into_iter().map(|found| {
                (in_metres(found.station), found.verdict, found.advice)
            }).collect();
            said.sort_by(|one, other| one.0.total_cmp(&other.0));
            said
        };
        let one = said(found(&[], readings));
        let other = said(found(&[], shuffled.into_iter().map(|(_, reading)| reading).collect()));
        prop_assert_eq!(one, other);
    }
}

/// Else the property above would say little: the curved walk has places with one lift more and one less.
#[test]
fn the_curved_walk_is_deep_in_some_places_only() {
    let lowest = |station_ft: f64| {
        JOB.bed
            .dig
            .base_at(feet(station_ft), metres(0.0))
            .lowest_lift
    };
    assert!(
        lowest(4.0) < lowest(34.0),
        "{} {}",
        lowest(4.0),
        lowest(34.0)
    );
}

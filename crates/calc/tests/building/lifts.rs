//! The lift record, and base placed against base ordered.

use super::sites::{Job, curved, plain};
use underbrick_calc::build::{HoldStage, LiftFound, Verdict};
use underbrick_calc::quantity::{in_cubic_metres, inches};
use underbrick_calc::site::{LiftPlaced, StageClosed, Stamp};

fn placed(number: usize, loose_in: Option<f64>, n_passes: Option<u32>) -> LiftPlaced {
    LiftPlaced {
        number,
        loose: loose_in.map(inches),
        n_passes,
        ..LiftPlaced::default()
    }
}

fn closed(stage: HoldStage) -> StageClosed {
    StageClosed {
        stage,
        reason: String::new(),
        stamp: Stamp::default(),
    }
}

#[test]
fn a_lift_tipped_too_thick_is_caught() {
    let mut job = Job::of(plain());
    let mut check = |placed: LiftPlaced, verdict: Verdict, advice: &str| {
        job.site.build.lifts = vec![placed];
        let lifts: Vec<LiftFound> = job.checked().0.lifts;
        assert_eq!(lifts.len(), 2);
        assert_eq!(lifts[0].verdict, verdict);
        assert_eq!(lifts[0].advice, advice);
        assert_eq!(lifts[1].verdict, Verdict::NotKnown);
    };
    check(placed(1, Some(3.0), Some(4)), Verdict::Right, "");
    check(placed(1, Some(3.0), None), Verdict::NotKnown, "");
    check(
        placed(1, Some(4.0), Some(4)),
        Verdict::High,
        "1\" too thick: rake it off to 3\" before it is compacted; if it is compacted already, loosen it, take off 1\" and compact again.",
    );
    // Row K7, Maryland SHA: 6 in loose is the most for hand tampers and small plant.
    check(
        placed(1, Some(7.0), Some(4)),
        Verdict::High,
        "4\" too thick, and over the 6\" loose that is the most published for hand tampers and small plant: rake it off to 3\", compact, and place the rest as a lift of its own.",
    );
    check(
        placed(1, Some(3.0), Some(0)),
        Verdict::Low,
        "Not compacted: pass over every spot as often as the plate's own rule says.",
    );
    // 2 1/2 in compacted was 2.5 × 1.25 = 3 1/8 in as tipped.
    let thick = LiftPlaced {
        compacted: Some(inches(2.5)),
        ..placed(1, None, Some(4))
    };
    check(
        thick,
        Verdict::High,
        "1/8\" too thick: rake it off to 3\" before it is compacted; if it is compacted already, loosen it, take off 1/8\" and compact again.",
    );
}

/// Two lifts of 2 in over 30 ft by 4 ft + 2 (2 1/4 + 6) in = 5.375 ft: 26.875 ft³ compacted each, 33.59375 ft³ as tipped.
#[test]
fn what_was_placed_and_what_is_to_come() {
    let mut job = Job::of(plain());
    let near = |volume, expected_ft3: f64| {
        let got_ft3 = in_cubic_metres(volume) / 0.028_316_846_592;
        assert!((got_ft3 - expected_ft3).abs() < 1e-6, "{got_ft3} ft³");
    };
    let nothing = job.checked().0.placed.unwrap();
    near(nothing.by_design, 0.0);
    near(nothing.to_come, 67.1875);
    assert_eq!(nothing.by_readings, None);
    assert_eq!(nothing.will_do, None);
    job.site.build.closed = vec![closed(HoldStage::Lift(1))];
    job.site.build.lifts = vec![placed(1, Some(3.0), Some(4))];
    let one = job.checked().0.placed.unwrap();
    near(one.by_design, 33.59375);
    near(one.to_come, 33.59375);
    near(one.by_readings.unwrap(), 33.59375 * 3.0 / 2.5); // 3 in read, 2 1/2 in designed, as tipped
}

#[test]
fn the_lifts_of_a_deep_walk_come_to_the_whole_base() {
    let mut job = Job::of(curved());
    let whole: f64 = job
        .bed
        .lifts
        .each
        .iter()
        .map(|lift| in_cubic_metres(lift.loose_volume))
        .sum();
    assert!(job.bed.lifts.each.len() > 2);
    job.site.build.closed = vec![
        closed(HoldStage::Lift(1)),
        closed(HoldStage::Lift(2)),
        closed(HoldStage::Lift(2)),
    ];
    let found = job.checked().0.placed.unwrap();
    let sum = in_cubic_metres(found.by_design) + in_cubic_metres(found.to_come);
    assert!((sum - whole).abs() < 1e-9);
    assert!(found.by_design > Default::default());
}

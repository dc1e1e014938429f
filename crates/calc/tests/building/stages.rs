//! Stages with hold points: the curved walk built from end to end.

use super::sites::{Job, check_found, curved, mid, plain, stamp, stepped};
use underbrick_calc::build::{Asks, HoldStage, SpotKind, StageFound, StageState, Surface, Verdict};
use underbrick_calc::findings::Weight;
use underbrick_calc::order::Way;
use underbrick_calc::place::Place;
use underbrick_calc::quantity::{Length, feet, inches, metres};
use underbrick_calc::site::{LiftPlaced, SpotReading, StageClosed, Stamp};

fn close(job: &mut Job, stage: HoldStage, reason: &str, stamp: Stamp) {
    job.site.build.closed.push(StageClosed {
        stage,
        reason: reason.to_owned(),
        stamp,
    });
}

fn found(job: &Job, stage: HoldStage) -> StageFound {
    let (checked, _) = job.checked();
    checked
        .stages
        .into_iter()
        .find(|found| found.stage == stage)
        .unwrap()
}

fn names(job: &Job) -> Vec<String> {
    let (checked, _) = job.checked();
    checked
        .stages
        .iter()
        .map(|found| found.stage.key())
        .collect()
}

fn spot(kind: SpotKind, size_in: f64) -> SpotReading {
    SpotReading {
        kind: Some(kind),
        station: Some(feet(5.0)),
        size: Some(inches(size_in)),
        stamp: Stamp::default(),
    }
}

/// Reads everything that a stage asks for and does not have, levels so far off their design, as a crew would: tap by tap on the list.
fn read_all(job: &mut Job, stage: HoldStage, off: Length) {
    for check in found(job, stage).required {
        if check.verdict != Verdict::NotKnown {
            continue;
        }
        match check.asks {
            Asks::Level {
                surface,
                station,
                offset,
            } => {
                let reading = job.off_by(surface, station, offset, off);
                job.read(reading);
            }
            Asks::Spot(kind) => job.site.build.spots.push(spot(kind, 0.0625)),
            Asks::LiftLoose(number) | Asks::LiftPasses(number) => {
                job.site.build.lifts.push(LiftPlaced {
                    number,
                    loose: Some(inches(2.5)),
                    n_passes: Some(4),
                    ..LiftPlaced::default()
                });
            }
            Asks::StageBefore(_) => {}
        }
    }
}

#[test]
fn stages_are_made_from_the_design() {
    let job = Job::of(plain());
    assert_eq!(
        names(&job),
        [
            "lift-brick",
            "dig",
            "lift-1",
            "lift-2",
            "forms",
            "edge",
            "setting-bed",
            "field",
            "jointing",
            "hand-over"
        ]
    );
    let job = Job::of(curved());
    let names_of_curved = names(&job);
    assert!(names_of_curved.contains(&"restraint".to_owned()));
    let n_lifts = names_of_curved
        .iter()
        .filter(|name| HoldStage::of(name).is_some_and(|stage| matches!(stage, HoldStage::Lift(_))))
        .count();
    assert_eq!(n_lifts, job.bed.lifts.each.len());

    let mut site = stepped();
    site.bed.fabric = true;
    let job = Job::of(site);
    let names_of_stepped = names(&job);
    for name in ["fabric", "riser-1", "riser-2"] {
        assert!(names_of_stepped.contains(&name.to_owned()), "{name}");
    }

    // Laid again on the old base: no dig, no lifts.
    let mut site = plain();
    site.order.way = Way::Relay;
    let job = Job::of(site);
    assert!(
        !names(&job)
            .iter()
            .any(|name| name == "dig" || name.starts_with("lift-1"))
    );
    assert_eq!(job.checked().0.placed, None);
}

/// 30 ft: door, 10 ft, 20 ft, far end.
#[test]
fn the_dig_asks_for_door_stakes_and_far_end() {
    let mut job = Job::of(plain());
    let dig = found(&job, HoldStage::Dig);
    assert_eq!(dig.required[4].what, "\"Lift the brick\" closed before it");
    assert_eq!(
        dig.required[4].asks,
        Asks::StageBefore(HoldStage::LiftBrick)
    );
    close(&mut job, HoldStage::LiftBrick, "", stamp(1, "AB"));
    let dig = found(&job, HoldStage::Dig);
    let what: Vec<&str> = dig
        .required
        .iter()
        .map(|check| check.what.as_str())
        .collect();
    assert_eq!(
        what,
        [
            "bottom of dig at the door",
            "bottom of dig at 10'-0\"",
            "bottom of dig at 20'-0\"",
            "bottom of dig at 30'-0\""
        ]
    );
    assert_eq!(dig.state, StageState::Open);
    // A reading 1'-11" from where it was asked for serves; one 2'-1" off does not.
    let near = job.off_by(
        Surface::DigBottom,
        feet(10.0) - inches(23.0),
        mid(),
        inches(0.0),
    );
    let near = job.read(near);
    let far = job.off_by(
        Surface::DigBottom,
        feet(20.0) - inches(25.0),
        mid(),
        inches(0.0),
    );
    job.read(far);
    let dig = found(&job, HoldStage::Dig);
    assert_eq!(dig.required[1].place, Place::BuildValue(near));
    assert_eq!(dig.required[1].verdict, Verdict::Right);
    assert_eq!(dig.required[2].place, Place::HoldStage(HoldStage::Dig));
    assert_eq!(dig.required[2].verdict, Verdict::NotKnown);
    assert_eq!(dig.required.len(), 4);
    // Off where nobody asked: it counts all the same.
    let stray = job.off_by(Surface::DigBottom, feet(15.0), feet(1.0), inches(1.0));
    job.read(stray);
    let dig = found(&job, HoldStage::Dig);
    assert_eq!(
        dig.required[4].what,
        "bottom of dig at 15'-0\", 1'-0\" right"
    );
    assert_eq!(dig.state, StageState::Failed);
}

/// Each lift is read along all of where it runs: at its ends, half a foot in where it thins out, and no more than a stake's spacing and
/// the 2 ft of reach apart.
#[test]
fn a_lift_is_asked_for_where_it_runs() {
    let job = Job::of(curved());
    let end = job.line.run.length();
    let mut n_thinning = 0;
    for lift in &job.bed.lifts.each {
        let stations: Vec<Length> = found(&job, HoldStage::Lift(lift.number))
            .required
            .iter()
            .filter_map(|check| match check.asks {
                Asks::Level { station, .. } => Some(station),
                _ => None,
            })
            .collect();
        for (from, to) in &lift.runs {
            let here: Vec<Length> = stations
                .iter()
                .copied()
                .filter(|station| station >= from && station <= to)
                .collect();
            assert!(!here.is_empty(), "lift {}", lift.number);
            let thins_out = [*from > inches(0.1), *to < end - inches(0.1)];
            n_thinning += thins_out.iter().filter(|thins| **thins).count();
            for station in &here {
                assert!(!thins_out[0] || *station - *from >= inches(5.99));
                assert!(!thins_out[1] || *to - *station >= inches(5.99));
            }
            for pair in here.windows(2) {
                assert!(pair[1] - pair[0] <= feet(12.0));
            }
        }
    }
    assert!(n_thinning > 0);
}

/// Both edges are asked for, by their side.
#[test]
fn forms_are_asked_for_on_both_sides() {
    let mut job = Job::of(plain());
    let said = |job: &Job| -> Vec<(String, Verdict)> {
        found(job, HoldStage::Forms)
            .required
            .into_iter()
            .take(2)
            .map(|check| (check.what, check.verdict))
            .collect()
    };
    let both = |left, right| {
        [
            ("form top at the door, left".to_owned(), left),
            ("form top at the door, right".to_owned(), right),
        ]
    };
    assert_eq!(said(&job), both(Verdict::NotKnown, Verdict::NotKnown));
    let left = job.off_by(Surface::FormTop, feet(0.0), feet(-2.1), inches(0.0));
    job.read(left);
    assert_eq!(said(&job), both(Verdict::Right, Verdict::NotKnown));
    // A straightedge across both, read on the centreline, serves the other.
    let across = job.off_by(Surface::FormTop, feet(0.0), mid(), inches(0.25));
    job.read(across);
    assert_eq!(said(&job), both(Verdict::High, Verdict::High));
}

/// Built from end to end: every stage of the walk closes on readings in tolerance; before that, with one reading out of tolerance, it is
/// failed and says what to do.
#[track_caller]
fn build(job: &mut Job) {
    let stages: Vec<HoldStage> = job
        .checked()
        .0
        .stages
        .iter()
        .map(|found| found.stage)
        .collect();
    for stage in stages.iter().copied() {
        let before = found(job, stage);
        let is_by_hand = matches!(
            stage,
            HoldStage::LiftBrick | HoldStage::Fabric | HoldStage::Restraint | HoldStage::HandOver
        );
        let expected = if is_by_hand {
            StageState::Ready
        } else {
            StageState::Open
        };
        assert_eq!(before.state, expected, "{before:#?}");
        read_all(job, stage, inches(0.0625));
        let ready = found(job, stage);
        assert_eq!(ready.state, StageState::Ready, "{ready:#?}");

        // Each reading of the stage in turn a sixteenth beyond its tolerance, up and down.
        let levels: Vec<usize> = ready
            .required
            .iter()
            .filter_map(|check| match check.place {
                Place::BuildValue(idx) => Some(idx),
                _ => None,
            })
            .collect();
        for idx in levels {
            let right = job.site.build.readings[idx].clone();
            let tolerance = job
                .checked()
                .0
                .readings
                .iter()
                .find(|found| found.reading_idx == idx)
                .unwrap()
                .tolerance
                .clone();
            for off in [
                tolerance.high + inches(0.0625),
                metres(0.0) - tolerance.low - inches(0.0625),
            ] {
                let surface = right.surface.unwrap();
                let wrong = job.off_by(surface, right.station.unwrap(), right.offset.unwrap(), off);
                job.site.build.readings[idx] = wrong;
                assert_eq!(found(job, stage).state, StageState::Failed, "{stage:?}");
                let (checked, _) = job.checked();
                let reading = checked
                    .readings
                    .iter()
                    .find(|found| found.reading_idx == idx)
                    .unwrap();
                assert!(reading.advice.ends_with("then read again."), "{reading:#?}");
            }
            job.site.build.readings[idx] = right;
        }
        close(job, stage, "", stamp(1, "AB"));
        assert_eq!(found(job, stage).state, StageState::Closed, "{stage:?}");
    }
    let (checked, findings) = job.checked();
    assert!(
        checked
            .stages
            .iter()
            .all(|found| found.state == StageState::Closed)
    );
    assert_eq!(findings.iter().count(), 0, "{findings:#?}");
}

#[test]
fn the_curved_walk_is_built_from_end_to_end() {
    build(&mut Job::of(curved()));
}

#[test]
fn a_walk_with_steps_and_fabric_is_built_from_end_to_end() {
    let mut site = stepped();
    site.bed.fabric = true;
    site.build.spacing = Some(feet(6.0));
    build(&mut Job::of(site));
}

/// Row A9, International Residential Code R311.7: rises differ by no more than 3/8 in. The two risers are of one height by design. Head 1
/// 1/8 in high, head 2 1/8 in low: rise 1 is 1/4 in more. The foot of riser 2 3/16 in low: rise 2 is −1/8 + 3/16 = 1/16 in more: 3/16 in
/// apart. With the foot 1/4 in high rise 2 is 3/8 in less: 5/8 in apart, and riser 2 is the farther off.
#[test]
fn rises_of_one_flight_are_alike() {
    let mut job = Job::of(stepped());
    let risers = job.line.grade.risers();
    assert_eq!(risers.len(), 2);
    for (riser, off_in) in [(0, 0.125), (1, -0.125)] {
        let head = job.head_off_by(risers[riser].station, inches(off_in));
        job.read(head);
    }
    let is_off = |job: &Job, number| {
        let required = found(job, HoldStage::Riser(number)).required;
        required
            .into_iter()
            .find(|check| matches!(check.verdict, Verdict::High | Verdict::Low))
            .map(|check| check.what)
    };
    // One rise alone has nothing to differ from.
    assert_eq!((is_off(&job, 1), is_off(&job, 2)), (None, None));
    let behind = risers[1].station + inches(3.0);
    let foot = |job: &Job, off_in| job.off_by(Surface::BrickTop, behind, mid(), inches(off_in));
    let low = foot(&job, -0.1875);
    let idx = job.read(low);
    assert_eq!((is_off(&job, 1), is_off(&job, 2)), (None, None));
    job.site.build.readings[idx] = foot(&job, 0.25);
    assert_eq!(is_off(&job, 1), None);
    let said = is_off(&job, 2).unwrap();
    assert!(
        said.ends_with("in a flight whose rises differ by 5/8\": no more than 3/8\""),
        "{said}"
    );
}

#[test]
fn a_check_at_a_spot_that_is_off_fails_its_stage() {
    let mut job = Job::of(plain());
    for (stage, kind) in [
        (HoldStage::Lift(2), SpotKind::StraightedgeOnBase),
        (HoldStage::Field, SpotKind::StraightedgeOnBrick),
        (HoldStage::Field, SpotKind::Lippage),
        (HoldStage::Field, SpotKind::JointWidth),
        (HoldStage::Field, SpotKind::BondLine),
        (HoldStage::Jointing, SpotKind::JointFill),
    ] {
        job.site.build.spots = vec![spot(kind, 2.0)];
        let failed = found(&job, stage);
        assert_eq!(failed.state, StageState::Failed, "{kind:?}");
        assert!(
            failed
                .required
                .iter()
                .any(|check| check.place == Place::SpotSize(0))
        );
    }
    // A lift tipped too thick fails it too.
    job.site.build.lifts = vec![LiftPlaced {
        number: 1,
        loose: Some(inches(4.0)),
        ..LiftPlaced::default()
    }];
    assert_eq!(found(&job, HoldStage::Lift(1)).state, StageState::Failed);
}

#[test]
fn a_stage_closed_out_of_order_is_doubtful() {
    let mut job = Job::of(plain());
    close(&mut job, HoldStage::LiftBrick, "", stamp(1, "AB"));
    read_all(&mut job, HoldStage::Lift(1), inches(0.0));
    close(&mut job, HoldStage::Lift(1), "", stamp(2, "AB"));
    assert_eq!(found(&job, HoldStage::Lift(1)).state, StageState::Doubtful);
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::HoldStage(HoldStage::Lift(1)),
        Weight::Warning,
        "Lift 1: closed out of order: \"Dig, trim, compact the bottom\" comes before it and is not closed.",
    );
    // Closed afterwards: both stand, and that it was late stays noted.
    read_all(&mut job, HoldStage::Dig, inches(0.0));
    close(&mut job, HoldStage::Dig, "", stamp(3, "AB"));
    assert_eq!(found(&job, HoldStage::Lift(1)).state, StageState::Closed);
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::HoldStage(HoldStage::Dig),
        Weight::Note,
        "Dig, trim, compact the bottom: closed after \"Lift 1\", which comes behind it.",
    );
}

#[test]
fn a_reading_after_the_closing_makes_it_doubtful() {
    let mut job = Job::of(plain());
    close(&mut job, HoldStage::LiftBrick, "", stamp(1, "AB"));
    read_all(&mut job, HoldStage::Dig, inches(0.0));
    close(&mut job, HoldStage::Dig, "", stamp(2, "AB"));
    let mut later = job.off_by(Surface::DigBottom, feet(10.0), mid(), inches(-2.0));
    later.stamp = stamp(3, "KM");
    job.read(later.clone());
    assert_eq!(found(&job, HoldStage::Dig).state, StageState::Doubtful);
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::HoldStage(HoldStage::Dig),
        Weight::Warning,
        "Dig, trim, compact the bottom: closed, but bottom of dig at 10'-0\" is off.",
    );
    // Closed again for a reason, with initials: it stands, until it is read once more and is off.
    close(
        &mut job,
        HoldStage::Dig,
        "filled with base in lift 1",
        stamp(4, "AB"),
    );
    assert_eq!(
        found(&job, HoldStage::Dig).state,
        StageState::ClosedWithReason
    );
    later.stamp = stamp(5, "KM");
    job.read(later);
    assert_eq!(found(&job, HoldStage::Dig).state, StageState::Doubtful);
}

#[test]
fn a_reason_needs_initials() {
    let mut job = Job::of(plain());
    close(&mut job, HoldStage::LiftBrick, "", stamp(1, "AB"));
    close(
        &mut job,
        HoldStage::Dig,
        "rain; read from photographs",
        stamp(2, " "),
    );
    assert_eq!(found(&job, HoldStage::Dig).state, StageState::Doubtful);
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::StageInitials(HoldStage::Dig),
        Weight::Warning,
        "Dig, trim, compact the bottom: closed for a reason, but nobody put their initials to it.",
    );
    job.site.build.closed[1].stamp.initials = "AB".to_owned();
    assert_eq!(
        found(&job, HoldStage::Dig).state,
        StageState::ClosedWithReason
    );
    // Without either, over checks that were never read.
    job.site.build.closed[1].reason.clear();
    assert_eq!(found(&job, HoldStage::Dig).state, StageState::Doubtful);
}

#[test]
fn a_closed_stage_that_the_design_no_longer_has_is_named() {
    let mut job = Job::of(plain());
    close(&mut job, HoldStage::Lift(7), "", stamp(1, "AB"));
    let (_, findings) = job.checked();
    check_found(
        &findings,
        Place::HoldStage(HoldStage::Lift(7)),
        Weight::Note,
        "Lift 7: closed, but the design does not ask for it any more.",
    );
}

#[test]
fn cautions_stand_where_the_hazard_arises() {
    let job = Job::of(curved());
    let says = |stage, word: &str| {
        let cautions = found(&job, stage).cautions;
        assert!(
            cautions
                .iter()
                .any(|caution| caution.words().contains(word)),
            "{stage:?}: {word}"
        );
        assert!(cautions.last().unwrap().words().contains("Local code"));
    };
    says(HoldStage::Dig, "services");
    // Rows H5 and H6: 5 ft, a way out within 25 ft from 4 ft, spoil 2 ft back.
    says(HoldStage::Dig, "5 ft deep");
    says(HoldStage::Dig, "25 ft");
    says(HoldStage::Dig, "2 ft back");
    says(HoldStage::LiftBrick, "legs");
    says(HoldStage::Lift(1), "hearing");
    says(HoldStage::Restraint, "burns");
    says(HoldStage::Field, "silica");
    says(HoldStage::HandOver, "professional");
}

//! Checks at spots, against published limits.

use super::sites::{Job, plain};
use underbrick_calc::build::{SpotFound, SpotKind, Verdict};
use underbrick_calc::findings::Source;
use underbrick_calc::quantity::{Length, feet, inches, millimetres};
use underbrick_calc::site::{SpotReading, Stamp};

use SpotKind::{
    AboveInlet, BondLine, JointFill, JointWidth, Lippage, StraightedgeOnBase, StraightedgeOnBrick,
};
use Verdict::{High, Low, NotKnown, Right};

fn spot(kind: SpotKind, size: Length) -> SpotReading {
    SpotReading {
        kind: Some(kind),
        station: Some(feet(12.0)),
        size: Some(size),
        stamp: Stamp::default(),
    }
}

fn found(job: &mut Job, spots: Vec<SpotReading>) -> Vec<SpotFound> {
    job.site.build.spots = spots;
    job.checked().0.spots
}

#[test]
fn published_limits_just_inside_and_just_outside() {
    let mut job = Job::of(plain());
    let mut check = |kind, size_in: f64, verdict| {
        let spots = found(&mut job, vec![spot(kind, inches(size_in))]);
        assert_eq!(spots[0].verdict, verdict, "{kind:?} {size_in} in");
        assert_eq!(spots[0].advice.is_empty(), verdict == Right);
    };
    // Rows P6 and P7, ICPI: 3/8 in over 10 ft.
    check(StraightedgeOnBase, 0.375, Right);
    check(StraightedgeOnBase, 0.4375, High);
    check(StraightedgeOnBrick, 0.375, Right);
    check(StraightedgeOnBrick, 0.4375, High);
    // Row P9, ICPI: 1/8 in.
    check(Lippage, 0.125, Right);
    check(Lippage, 0.1875, High);
    // Row P4, ICPI and BIA TN 14A: 1/16 to 3/16 in.
    check(JointWidth, 0.0625, Right);
    check(JointWidth, 0.1875, Right);
    check(JointWidth, 0.03125, Low);
    check(JointWidth, 0.25, High);
    // Row P17, ICPI: within 1/2 in.
    check(JointFill, 0.0, Right);
    check(JointFill, 0.5, Right);
    check(JointFill, 0.5625, High);
    // Row P14, ICPI: 1/2 in over 50 ft.
    check(BondLine, 0.5, Right);
    check(BondLine, 0.5625, High);
    // Row P10, ICPI: 1/8 to 3/8 in above a drain inlet or channel.
    check(AboveInlet, 0.125, Right);
    check(AboveInlet, 0.375, Right);
    check(AboveInlet, 0.0625, Low);
    check(AboveInlet, 0.4375, High);
}

#[test]
fn joints_are_held_to_the_limits_of_this_job_where_it_has_its_own() {
    let mut site = plain();
    site.lay.widest_joint = Some(inches(0.375));
    let mut job = Job::of(site);
    let spots = found(&mut job, vec![spot(JointWidth, inches(0.3125))]);
    assert_eq!(spots[0].verdict, Right);
    assert_eq!(spots[0].source, Source::Readings);
    assert_eq!(
        (spots[0].least, spots[0].most),
        (inches(0.0625), inches(0.375))
    );
    let spots = found(&mut job, vec![spot(JointWidth, inches(0.4375))]);
    assert_eq!(
        spots[0].advice,
        "1/16\" too wide: knock the course up and share it out, or set in a wider brick, before the joints are filled."
    );
}

/// Row P20: 10 mm under 3 m, 2 mm from paver to paver. They stand beside, and do not decide: 3 mm is under 1/8 in.
#[test]
fn what_the_united_kingdom_asks_stands_beside() {
    let mut job = Job::of(plain());
    let spots = found(
        &mut job,
        vec![
            spot(StraightedgeOnBrick, inches(0.25)),
            spot(Lippage, millimetres(3.0)),
        ],
    );
    assert!(spots[0].beside.contains("10 mm") && spots[0].beside.contains("3 m"));
    assert!(spots[1].beside.contains("2 mm"));
    assert_eq!(spots[1].verdict, Right);
}

#[test]
fn a_check_without_a_size_is_not_known_and_one_done_again_counts() {
    let mut job = Job::of(plain());
    let unread = SpotReading {
        size: None,
        ..spot(Lippage, inches(0.0))
    };
    let spots = found(
        &mut job,
        vec![
            spot(Lippage, inches(0.25)),
            unread,
            spot(Lippage, inches(0.0625)),
            SpotReading::default(),
        ],
    );
    let said: Vec<_> = spots
        .iter()
        .map(|spot| (spot.verdict, spot.is_read_again))
        .collect();
    assert_eq!(said, [(High, true), (NotKnown, true), (Right, false)]);
}

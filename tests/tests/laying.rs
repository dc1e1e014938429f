//! Every sample laid out brick by brick, and a mason's curve from three bricks measured with a tape.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a panic in a test is the failure report"
)]

use std::path::PathBuf;

use underbrick_calc::lay::{Kind, Lay, LayNote, OtherWay, Part, Stock, compared};
use underbrick_calc::quantity::{in_metres, inches, metres};
use underbrick_calc::site::{Bond, BrickReading, CourseWay, Hand, Leg, LegShape, Site};
use underbrick_calc::{Results, compute, compute_after};
use underbrick_records::OpenSite;

fn sample(name: &str) -> Site {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the tests package stands in the root")
        .join("sample-sites");
    let catalogue = underbrick_records::catalogue().unwrap();
    let open = OpenSite::open(root.join(name)).unwrap();
    open.site().checked(&catalogue).0
}

fn results(site: &Site) -> Results {
    compute(site, &underbrick_records::catalogue().unwrap())
}

const SAMPLES: [&str; 7] = [
    "clay-seep-falls-to-house",
    "clay-with-frost",
    "curved-to-a-drive",
    "half-measured",
    "metric",
    "short-straight-sunk-on-sand",
    "steep-with-steps",
];

const WAYS: [(Bond, CourseWay); 8] = [
    (Bond::Running, CourseWay::Along),
    (Bond::Running, CourseWay::Across),
    (Bond::Stack, CourseWay::Along),
    (Bond::Stack, CourseWay::Across),
    (Bond::BasketTwoOnTwo, CourseWay::Along),
    (Bond::BasketTwoOnOne, CourseWay::Along),
    (Bond::Herringbone90, CourseWay::Along),
    (Bond::Herringbone45, CourseWay::Along),
];

#[test]
fn bricks_for_each_sample_are_within_two_percent_of_the_bound() {
    for name in SAMPLES {
        for (bond, courses) in WAYS {
            let mut site = sample(name);
            site.lay.bond = bond;
            site.lay.courses = courses;
            let lay = results(&site).lay.expect(name);
            let (bricks, bound) = (lay.cuts.n_bricks(), lay.cuts.lower_bound());
            assert!(bound > 0 && bricks >= bound, "{name} {bond:?}");
            assert!(
                f64::from(bricks) <= 1.02 * f64::from(bound),
                "{name} {bond:?} {courses:?}: {bricks} bricks, bound {bound}"
            );
            // Every cut piece comes out of a brick, and every whole one is one.
            let sawn = |stock: &Stock| -> usize {
                let patterns = stock.patterns.iter();
                patterns
                    .map(|pattern| pattern.sizes.len() * usize::try_from(pattern.n_bricks).unwrap())
                    .sum()
            };
            let n_sawn = sawn(&lay.cuts.first.to_length) + sawn(&lay.cuts.first.to_width);
            assert_eq!(n_sawn + lay.n_whole(), lay.pieces.all().len(), "{name}");
        }
    }
}

#[test]
fn pieces_and_joints_make_the_area_between_the_edges() {
    for name in SAMPLES {
        let lay = results(&sample(name)).lay.expect(name);
        // 4 x 8 in with 1/8 in joints has 4.5 % of joint (row B20: 2.302 % at 1/16, 4.522 % at 1/8); cuts and closing joints add to it.
        let share = lay.areas.joints.value / lay.areas.clear.value;
        assert!((0.01..0.18).contains(&share), "{name}: {share}");
        assert!(lay.areas.edge_joints < lay.areas.edges * 0.2, "{name}");
    }
}

/// Three bricks with a tape, a 9 ft curve to the left after 6 ft: what a mason would lay.
fn nine_feet() -> Site {
    let mut site = sample("curved-to-a-drive");
    site.brick.length = None;
    site.brick.width = None;
    site.brick.thickness = None;
    site.lay.sample = [(7.625, 3.625), (7.5625, 3.5625), (7.6875, 3.6875)]
        .map(|(length_in, width_in)| BrickReading {
            length: Some(inches(length_in)),
            width: Some(inches(width_in)),
            thickness: Some(inches(2.25)),
            of_second: false,
        })
        .to_vec();
    let straight = Leg {
        shape: LegShape::Straight {
            length: Some(inches(72.0)),
        },
        width_at_end: None,
    };
    let curve = Leg {
        shape: LegShape::Curve {
            radius: Some(inches(108.0)),
            turn: Some(underbrick_calc::quantity::Angle::new::<
                underbrick_calc::quantity::unit::radian,
            >(1.0)),
            hand: Hand::Left,
        },
        width_at_end: None,
    };
    site.line.legs = vec![straight, curve];
    // Nine courses of 3 5/8 in and ten joints of 1/8 in.
    site.line.width = Some(inches(9.0 * 3.625 + 10.0 * 0.125));
    site.pits.clear();
    site.line.shots.clear();
    site
}

#[test]
fn three_bricks_and_a_curve_of_nine_feet() {
    let site = nine_feet();
    let lay = results(&site).lay.expect("a plan");
    // The mean of the three.
    assert!((in_metres(lay.wishes.brick_length) - in_metres(inches(7.625))).abs() < 1e-9);
    let n_courses = lay
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.part == Part::Field)
        .map(|piece| piece.course)
        .max();
    assert_eq!(n_courses, Some(9));
    every_joint_is_as_wide_as_said(&lay);
    // The straight is whole brick but for halves at the door and what closes it.
    let before_curve = metres(0.0254 * 60.0);
    for piece in lay.pieces.all() {
        if piece.part == Part::Field && piece.station < before_curve {
            assert!(matches!(piece.kind, Kind::Whole | Kind::Half), "{piece:?}");
        }
    }
    assert!(
        lay.notes.iter().any(|note| matches!(
            note,
            LayNote::HalvesOnCurve { .. } | LayNote::TaperedOnCurve { .. }
        )),
        "whole brick cannot follow 9 ft: {:?}",
        lay.notes
    );
}

/// Measures the gap between neighbours of each course at their nearest corners, from the outlines alone.
fn every_joint_is_as_wide_as_said(lay: &Lay) {
    let (Some(narrowest), Some(widest)) = (lay.narrowest_joint, lay.widest_joint) else {
        unreachable!("joints are known");
    };
    let pieces: Vec<_> = lay
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.part == Part::Field)
        .collect();
    let mut n_measured = 0;
    for pair in pieces.windows(2) {
        let &[one, other] = pair else { continue };
        if one.course != other.course {
            continue;
        }
        let gaps = lay.pieces.outline(one).iter().flat_map(|from| {
            lay.pieces
                .outline(other)
                .iter()
                .map(move |to| libm::hypot(from.right_m - to.right_m, from.away_m - to.away_m))
        });
        let gap_m = gaps.fold(f64::INFINITY, f64::min);
        assert!(
            gap_m >= in_metres(narrowest.length) - 1e-9 && gap_m <= in_metres(widest.length) + 1e-9,
            "{gap_m} between {one:?} and {other:?}"
        );
        n_measured += 1;
    }
    assert!(n_measured > 100, "{n_measured}");
}

#[test]
fn a_bond_beside_another_is_what_it_comes_to_when_it_is_taken() {
    let mut site = sample("metric");
    let said = compared(&site, OtherWay::Bond(Bond::Herringbone45, CourseWay::Along)).unwrap();
    site.lay.bond = Bond::Herringbone45;
    let lay = results(&site).lay.unwrap();
    assert_eq!(said.n_pieces, lay.pieces.all().len());
    assert_eq!(said.n_bricks, lay.cuts.n_bricks());
    let clear = inches(33.125);
    let wider = compared(
        &site,
        OtherWay::Width {
            clear,
            joint: inches(0.125),
        },
    );
    assert!(wider.is_some_and(|wider| wider.n_pieces != said.n_pieces));
}

#[test]
fn a_slip_of_the_finger_is_said_and_does_not_fill_the_memory() {
    let mut site = sample("short-straight-sunk-on-sand");
    site.line.width = Some(metres(5.0));
    site.brick.length = Some(inches(2.0));
    site.brick.width = Some(inches(1.0));
    site.line.far_end = underbrick_calc::site::FarEnd::Free;
    site.line.legs = vec![Leg {
        shape: LegShape::Straight {
            length: Some(metres(150.0)),
        },
        width_at_end: None,
    }];
    let results = results(&site);
    let lay = results.lay.as_ref().expect("the run is known");
    assert!(lay.pieces.all().is_empty());
    let is_said = |words: &str| {
        results
            .findings
            .iter()
            .any(|finding| finding.text.contains(words))
    };
    assert!(is_said("laid out one by one"));
}

/// Each edit after another: what is computed with the layout from before is what is computed without.
#[test]
fn a_layout_is_taken_over_only_where_nothing_that_it_follows_from_changed() {
    let catalogue = underbrick_records::catalogue().unwrap();
    let edits: [fn(&mut Site); 14] = [
        |_| {},
        |site| site.line.fall = None,
        |site| site.line.old_below_sill = Some(inches(3.0)),
        |site| site.line.width = Some(inches(33.125)),
        |site| site.brick.joint = Some(inches(0.1)),
        |site| site.brick.thickness = Some(inches(2.5)),
        |site| site.lay.bond = Bond::Herringbone45,
        |site| site.lay.kerf = Some(inches(0.25)),
        |site| site.edge.stands = underbrick_calc::site::EdgeStands::Soldier,
        |site| site.lay.return_at_end = true,
        |site| site.lay.n_on_site = Some(300),
        |site| site.shown_in = underbrick_calc::site::ShownIn::Metric,
        |site| {
            site.line.legs.pop();
        },
        |site| site.line.legs.clear(),
    ];
    let mut site = sample("curved-to-a-drive");
    let mut before = compute(&site, &catalogue);
    for (nth, edit) in edits.into_iter().enumerate() {
        edit(&mut site);
        let after = compute_after(&site, &catalogue, before.lay.take());
        assert_eq!(after, compute(&site, &catalogue), "edit {nth}");
        before = after;
    }
}

//! Wishes that cannot be met end in a note, not in a loop.

use super::geometry::deepest_overlap;
use super::runs::{Shape, run_of, wishes};
use crate::lay::{Laid, LayNote, LayWishes, across, along, edges};
use crate::quantity::{in_metres, inches, metres};
use crate::site::Bond;

#[track_caller]
fn check(wishes: &LayWishes, width_in: f64, shapes: &[Shape]) -> [Laid; 2] {
    let run = run_of(shapes, inches(width_in));
    let fields = [along(&run, wishes), across(&run, wishes)];
    for laid in fields.iter().chain([&edges(&run, wishes)]) {
        for piece in laid.pieces.all() {
            for corner in laid.pieces.outline(piece) {
                assert!(
                    corner.right_m.is_finite() && corner.away_m.is_finite(),
                    "{piece:?}"
                );
            }
        }
    }
    fields
}

const BEND: [Shape; 3] = [
    Shape::Straight(1.0),
    Shape::Curve(3.0, 60.0, false),
    Shape::Straight(1.0),
];

#[test]
fn brick_wider_than_the_walk() {
    let [along, across] = check(&wishes(), 3.0, &BEND);
    assert!(
        along.notes.contains(&LayNote::WiderThanTheWalk),
        "{:?}",
        along.notes
    );
    assert!(
        across.notes.contains(&LayNote::WiderThanTheWalk),
        "{:?}",
        across.notes
    );
}

#[test]
fn joint_wider_than_the_brick() {
    let joint = inches(9.0);
    check(
        &LayWishes {
            joint,
            least_joint: joint,
            widest_joint: joint,
            ..wishes()
        },
        48.0,
        &BEND,
    );
}

#[test]
fn lap_of_nought_or_one_is_a_stack() {
    let run = run_of(&BEND, inches(48.0));
    let stack = along(
        &run,
        &LayWishes {
            bond: Bond::Stack,
            ..wishes()
        },
    );
    for lap_share in [0.0, 1.0, -0.5, 2.0] {
        let laid = along(
            &run,
            &LayWishes {
                lap_share,
                ..wishes()
            },
        );
        assert_eq!(laid, stack);
        assert_eq!(laid.least_lap, None);
    }
}

#[test]
fn limits_that_leave_nothing() {
    let least_piece = wishes().brick_length * 1.5;
    check(
        &LayWishes {
            least_piece,
            ..wishes()
        },
        48.0,
        &BEND,
    );
    let least_lap = wishes().brick_length * 3.0;
    let [laid, _] = check(
        &LayWishes {
            least_lap,
            ..wishes()
        },
        48.0,
        &BEND,
    );
    assert!(
        laid.notes
            .iter()
            .any(|note| matches!(note, LayNote::LapNotKept(_)))
    );
    // No play: no curve but a tapered one.
    let joint = wishes().joint;
    let [laid, _] = check(
        &LayWishes {
            least_joint: joint,
            widest_joint: joint,
            ..wishes()
        },
        49.625,
        &BEND,
    );
    assert!(
        laid.notes
            .iter()
            .any(|note| matches!(note, LayNote::TaperedOnCurve { leg_idx: 1, .. }))
    );
}

#[test]
fn walks_shorter_than_a_brick() {
    for length_m in [0.001, 0.01, 0.05, 0.15] {
        let [laid, _] = check(
            &LayWishes {
                return_at_door: true,
                return_at_end: true,
                ..wishes()
            },
            48.0,
            &[Shape::Straight(length_m)],
        );
        if let Some((deep_m, one, other)) = deepest_overlap(&laid.pieces) {
            assert!(deep_m < 1e-9, "{one:?} {other:?}");
        }
        for piece in laid.pieces.all() {
            assert!(
                in_metres(piece.length) > 0.0 && piece.length <= metres(length_m),
                "{piece:?}"
            );
        }
    }
}

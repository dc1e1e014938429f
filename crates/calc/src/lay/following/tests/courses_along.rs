//! Courses along the run.

use super::geometry::{band, beyond_ends_m, beyond_m, deepest_overlap, uncovered_m2};
use super::runs::{Shape, least_radius_m, run_of, shapes, wishes};
use crate::lay::{Kind, Laid, LayNote, LayWishes, Part, along};
use crate::line::Run;
use crate::quantity::{Length, feet, in_metres, inches, metres};
use crate::site::Bond;
use proptest::prelude::*;

#[track_caller]
fn check_field(run: &Run, wishes: &LayWishes, width: Length) -> Laid {
    let laid = along(run, wishes);
    check_laid(run, wishes, width, &laid);
    laid
}

/// No overlap, nothing beyond the band, limits kept or said, areas balanced.
#[track_caller]
pub(crate) fn check_laid(run: &Run, wishes: &LayWishes, width: Length, laid: &Laid) {
    if let Some((deep_m, one, other)) = deepest_overlap(&laid.pieces) {
        assert!(deep_m < 1e-9, "{deep_m} m: {one:?} {other:?}");
    }
    let half_m = in_metres(width) / 2.0;
    let beyond = beyond_m(run, &laid.pieces, Part::Field, half_m);
    assert!(beyond < 1e-9, "{beyond} m beyond the band");
    let beyond = beyond_ends_m(run, &laid.pieces);
    assert!(beyond < 1e-9, "{beyond} m beyond the ends");
    let said = |of: fn(&LayNote) -> bool| laid.notes.iter().any(of);
    let limits_kept = laid
        .narrowest_joint
        .is_none_or(|joint| joint.length >= wishes.least_joint - metres(1e-9))
        && laid
            .widest_joint
            .is_none_or(|joint| joint.length <= wishes.widest_joint + metres(1e-9));
    assert!(
        limits_kept || said(|note| matches!(note, LayNote::JointNotKept(_))),
        "{:?} {:?}",
        laid.narrowest_joint,
        laid.widest_joint
    );
    if wishes.bond == Bond::Running {
        let kept = laid
            .least_lap
            .is_none_or(|lap| lap.length >= wishes.least_lap - metres(1e-9));
        // Among halves and tapered pieces the least lap is less by as much as they are shorter, and that they are is said.
        assert!(
            kept || said(|note| matches!(
                note,
                LayNote::LapNotKept(_)
                    | LayNote::HalvesOnCurve { .. }
                    | LayNote::TaperedOnCurve { .. }
            )),
            "{:?}",
            laid.least_lap
        );
    }
    for piece in laid.pieces.all() {
        assert!(
            piece.length <= wishes.brick_length + metres(1e-9),
            "{piece:?}"
        );
    }
    let (left, difference) = uncovered_m2(&band(run, half_m), &laid.pieces);
    assert!(
        (left - difference).abs() < 1e-5,
        "{left} m² uncovered, {difference} m² by areas"
    );
}

fn count(laid: &Laid, of: Kind) -> usize {
    laid.pieces
        .all()
        .iter()
        .filter(|piece| piece.kind == of)
        .count()
}

#[test]
fn a_straight_walk_by_hand() {
    // 12 courses of 4 in and 13 joints of 1/8 in: 49 5/8 in. 10 bricks and 11 joints: 81 3/8 in.
    let width = inches(49.625);
    let run = run_of(&[Shape::Straight(81.375 * 0.0254)], width);
    let laid = check_field(&run, &wishes(), width);
    assert_eq!(laid.notes, []);
    // Six courses of 10 wholes, six of 9 wholes between two halves.
    assert_eq!(
        (count(&laid, Kind::Whole), count(&laid, Kind::Half)),
        (6 * 10 + 6 * 9, 12)
    );
    assert_eq!(laid.pieces.all().len(), 126);
    // Lap: half of 8 1/8 in.
    let lap_in = in_metres(laid.least_lap.unwrap().length) / 0.0254;
    assert!((lap_in - 4.0625).abs() < 1e-9, "{lap_in} in");
    let joint = |joint: Option<crate::lay::Measured>| in_metres(joint.unwrap().length) / 0.0254;
    assert!((joint(laid.narrowest_joint) - 0.125).abs() < 1e-9);
    assert!((joint(laid.widest_joint) - 0.125).abs() < 1e-9);
}

/// A quarter turn between two straights of 2 m, 12 courses; its radius to the centreline.
#[track_caller]
fn quarter_turn(radius_ft: f64) -> Laid {
    let width = inches(49.625);
    let shapes = [
        Shape::Straight(2.0),
        Shape::Curve(radius_ft * 0.3048, 90.0, true),
        Shape::Straight(2.0),
    ];
    let laid = check_field(&run_of(&shapes, width), &wishes(), width);
    let lap_kept = laid
        .notes
        .iter()
        .all(|note| !matches!(note, LayNote::LapNotKept(_)));
    assert!(lap_kept, "{:?}", laid.notes);
    laid
}

#[test]
fn whole_brick_on_a_wide_curve() {
    // Whole brick down to 23.6 ft. The lap of two courses drifts by a quarter turn of 4 1/8 in, 6.5 in, in a window of 8.1 - 2 x 2 in:
    // one or two pieces set in for each course, one to close it, and six halves to start with.
    for radius_ft in [60.0, 30.0, 24.0] {
        let laid = quarter_turn(radius_ft);
        let n_cut = laid.pieces.all().len() - count(&laid, Kind::Whole);
        assert!((12..=48).contains(&n_cut), "{n_cut} cut");
        assert!(
            laid.notes
                .iter()
                .all(|note| matches!(note, LayNote::PieceMerged { .. })),
            "{:?}",
            laid.notes
        );
    }
}

#[test]
fn halves_then_tapers_on_tighter_curves() {
    let halves = quarter_turn(20.0);
    assert!(
        matches!(halves.notes[0], LayNote::HalvesOnCurve { leg_idx: 1, least_radius } if (in_metres(least_radius) / 0.3048 - 23.557).abs() < 1e-2),
        "{:?}",
        halves.notes[0]
    );
    assert_eq!(count(&halves, Kind::Tapered), 0);
    // 9 ft: of whole brick, as on the outside, 128 3/4 in from the centre, it bows by 64 / (8 x 128.75) = 0.0621 in, within 1/16.
    let tapered = quarter_turn(9.0);
    assert!(matches!(
        tapered.notes[0],
        LayNote::TaperedOnCurve { leg_idx: 1, .. }
    ));
    let longest = tapered
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.kind == Kind::Tapered)
        .map(|piece| in_metres(piece.length))
        .fold(0.0, f64::max);
    assert!((longest - 0.2032).abs() < 1e-9, "{longest} m");
    // 4 ft: of halves.
    let tight = quarter_turn(4.0);
    assert!(count(&tight, Kind::Tapered) * 2 > count(&tapered, Kind::Tapered));
}

proptest! {
    #![proptest_config(crate::lay::walks::random_walks(200))]

    #[test]
    fn any_run_is_covered(
        (width_in, shapes) in (8.0..60.0_f64).prop_flat_map(|width_in| (Just(width_in), shapes(least_radius_m(inches(width_in), &wishes())))),
        lap_share in prop_oneof![3 => Just(0.5), 1 => 0.0..1.0_f64],
        returns in any::<(bool, bool)>(),
    ) {
        let width = inches(width_in);
        let run = run_of(&shapes, width);
        let wishes = LayWishes { lap_share, return_at_door: returns.0, return_at_end: returns.1, ..wishes() };
        check_field(&run, &wishes, width);
    }

    #[test]
    fn stack_and_wide_limits(
        (width_ft, shapes) in (2.0..5.0_f64).prop_flat_map(|width_ft| (Just(width_ft), shapes(least_radius_m(feet(width_ft), &wishes())))),
        is_stack in any::<bool>(),
    ) {
        let width = feet(width_ft);
        let run = run_of(&shapes, width);
        let bond = if is_stack { Bond::Stack } else { Bond::Running };
        let wishes = LayWishes { bond, joint: inches(0.375), least_joint: inches(0.25), widest_joint: inches(0.625), ..wishes() };
        check_field(&run, &wishes, width);
    }
}

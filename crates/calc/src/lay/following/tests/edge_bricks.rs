//! Edge bricks in plan, with and without the rows across.

use super::geometry::{beyond_ends_m, beyond_m, deepest_overlap};
use super::runs::{Shape, least_radius_m, run_of, shapes, tapered_run_of, wishes};
use crate::bed::EdgeBrick;
use crate::lay::layout::field;
use crate::lay::walks::shared_m2;
use crate::lay::{Kind, Laid, LayNote, LayWishes, Part, Piece, along, edges};
use crate::quantity::{in_metres, inches, metres};
use crate::site::{EdgeStands, Hand};
use proptest::prelude::*;

const STANDS: [EdgeStands; 5] = [
    EdgeStands::Sailor,
    EdgeStands::Soldier,
    EdgeStands::Header,
    EdgeStands::Stretcher,
    EdgeStands::Rowlock,
];

fn standing(stands: EdgeStands) -> LayWishes {
    let plain = wishes();
    LayWishes {
        edge_brick: EdgeBrick::of(
            stands,
            plain.brick_length,
            plain.brick_width,
            plain.brick_thickness,
        ),
        ..plain
    }
}

/// Pieces of a part, as (kind, length, width) in inches.
fn of_part(laid: &Laid, part: Part) -> Vec<(Kind, f64, f64)> {
    let inch = |length| in_metres(length) / 0.0254;
    laid.pieces
        .all()
        .iter()
        .filter(|piece| piece.part == part)
        .map(|piece| (piece.kind, inch(piece.length), inch(piece.width)))
        .collect()
}

#[track_caller]
fn check(pieces: &[(Kind, f64, f64)], expected: &[(Kind, f64, f64)]) {
    let is_same = pieces.len() == expected.len()
        && pieces.iter().zip(expected).all(|(one, other)| {
            one.0 == other.0 && (one.1 - other.1).abs() < 1e-9 && (one.2 - other.2).abs() < 1e-9
        });
    assert!(is_same, "{pieces:?}");
}

#[test]
fn the_last_bricks_of_a_straight_side() {
    // Stretchers of 8 in over 30 in: three and two joints are 24 1/4, and 5 5/8 in after a third joint.
    let whole = (Kind::Whole, 8.0, 4.0);
    let run = run_of(&[Shape::Straight(30.0 * 0.0254)], inches(24.0));
    let laid = edges(&run, &standing(EdgeStands::Stretcher));
    check(
        &of_part(&laid, Part::Edge(Hand::Left)),
        &[whole, whole, whole, (Kind::Cut, 5.625, 4.0)],
    );
    // Over 25 in the fourth would be 5/8 in: the last two share 8 + 1/8 + 5/8 less a joint.
    let run = run_of(&[Shape::Straight(25.0 * 0.0254)], inches(24.0));
    let laid = edges(&run, &standing(EdgeStands::Stretcher));
    let shared = (Kind::Cut, 4.3125, 4.0);
    check(
        &of_part(&laid, Part::Edge(Hand::Right)),
        &[whole, whole, shared, shared],
    );
    assert!(matches!(
        laid.notes.as_slice(),
        [LayNote::PieceMerged { .. }, LayNote::PieceMerged { .. }]
    ));
    // Sailors take 4 in of it and are 8 in deep: one of 3 in is a brick cut along its length.
    let run = run_of(&[Shape::Straight(7.125 * 0.0254)], inches(24.0));
    let laid = edges(&run, &standing(EdgeStands::Sailor));
    check(
        &of_part(&laid, Part::Edge(Hand::Left)),
        &[whole, (Kind::Ripped, 8.0, 3.0)],
    );
}

#[test]
fn a_row_across_at_the_door() {
    let row = |width_in: f64| {
        let run = run_of(&[Shape::Straight(2.0)], inches(width_in));
        let wishes = LayWishes {
            return_at_door: true,
            ..standing(EdgeStands::Header)
        };
        of_part(&edges(&run, &wishes), Part::AtDoor)
    };
    // Headers take 4 in: five and six joints are 20 3/4 in; with 21 in the joints are 1/6 in.
    let whole = (Kind::Whole, 8.0, 4.0);
    check(&row(20.75), &[whole; 5]);
    check(&row(21.0), &[whole; 5]);
    // 23 in: five, and 23 - 20 - 8 joints = 2 in for two pieces, which would be 1 in each: four and two of 3 1/16 in.
    let cut = (Kind::Ripped, 8.0, 3.0625);
    check(&row(23.0), &[cut, whole, whole, whole, whole, cut]);
}

/// A walk found at random: a rowlock is turned where the taper meets the curve, and corner lies clear of corner while brick lies on brick.
#[test]
fn a_rowlock_turned_at_the_end_of_a_taper_keeps_clear() {
    let (from, to) = (inches(46.187_633_335_895_07), inches(26.035_296_432_231_01));
    let run = tapered_run_of(
        &[
            (Shape::Straight(3.0), to),
            (Shape::Curve(4.0, 40.0, true), from),
        ],
        from,
    );
    let laid = edges(&run, &standing(EdgeStands::Rowlock));
    let (deep_m, one, other) = deepest_overlap(&laid.pieces).unwrap();
    assert!(deep_m < 1e-9, "{deep_m} m: {one:?} {other:?}");
}

#[test]
fn at_the_corner_of_a_taper_one_edge_brick_ends_and_the_next_begins() {
    // Each side leaves the run by 5.7 degrees and comes back by as much: 11.4 in all. A brick of 4 in across that corner would stand
    // 2 in x tan 5.7 degrees = 0.2 in in the field, more than the joint of 1/8 in beside it.
    let shapes = [
        (Shape::Straight(2.0), inches(24.0) + metres(0.4)),
        (Shape::Straight(2.0), inches(24.0)),
    ];
    let run = tapered_run_of(&shapes, inches(24.0));
    let laid = edges(&run, &wishes());
    let corner_m = 0.5 * (24.0 * 0.0254 + 0.4);
    for piece in laid.pieces.all() {
        for spot in laid.pieces.outline(piece) {
            // A face's ends lie on the border, which at the corner is this far out.
            let border_m = corner_m - 0.1 * (spot.away_m - 2.0).abs();
            assert!(
                spot.right_m.abs() - border_m > -1e-9,
                "{spot:?} of {piece:?}"
            );
        }
    }
    let shared_m2 = stand_in_m2(&laid, &field(&run, &wishes(), &[]));
    assert!(shared_m2 < 1e-9, "{shared_m2} m2");
}

/// What edge bricks and the pieces of a field share, by the registry library.
fn stand_in_m2(edges: &Laid, field: &Laid) -> f64 {
    let near = |one: &Piece, other: &Piece| (one.station - other.station).abs() < metres(0.4);
    edges
        .pieces
        .all()
        .iter()
        .flat_map(|edge| {
            let beside = field.pieces.all().iter().filter(|piece| near(edge, piece));
            beside.map(|piece| shared_m2(edges.pieces.outline(edge), field.pieces.outline(piece)))
        })
        .sum()
}

proptest! {
    #![proptest_config(crate::lay::walks::random_walks(200))]

    /// Edge bricks, rows across and field keep clear of each other on curves that are not tighter than six brick lengths.
    #[test]
    fn nothing_overlaps(
        (width_in, shapes) in (16.0..60.0_f64).prop_flat_map(|width_in| (Just(width_in), shapes(least_radius_m(inches(width_in), &wishes()) + 1.2))),
        which in 0..5_usize,
        returns in any::<(bool, bool)>(),
    ) {
        let width = inches(width_in);
        let run = run_of(&shapes, width);
        let wishes = LayWishes { return_at_door: returns.0, return_at_end: returns.1, ..standing(STANDS[which]) };
        let mut laid = edges(&run, &wishes);
        let half_m = in_metres(width) / 2.0;
        let across_m = in_metres(wishes.edge_brick.across);
        for hand in [Hand::Left, Hand::Right] {
            prop_assert!(beyond_m(&run, &laid.pieces, Part::Edge(hand), half_m + across_m) < 5e-3);
        }
        prop_assert!(beyond_ends_m(&run, &laid.pieces) < 1e-9);
        laid.pieces.append(&along(&run, &wishes).pieces);
        if let Some((deep_m, one, other)) = deepest_overlap(&laid.pieces) {
            prop_assert!(deep_m < 1e-9, "{} m: {:?} {:?}", deep_m, one, other);
        }
    }

    #[test]
    fn edges_of_a_taper_meet_its_lines(from_in in 24.0..48.0_f64, to_in in 24.0..48.0_f64, radius_m in 4.0..20.0_f64, which in 0..5_usize) {
        let run = tapered_run_of(&[(Shape::Straight(3.0), inches(to_in)), (Shape::Curve(radius_m, 40.0, true), inches(from_in))], inches(from_in));
        let wishes = standing(STANDS[which]);
        let laid = edges(&run, &wishes);
        if let Some((deep_m, one, other)) = deepest_overlap(&laid.pieces) {
            prop_assert!(deep_m < 1e-9, "{} m: {:?} {:?}", deep_m, one, other);
        }
        // The inner corners lie on the border of the clear width: on a straight exactly.
        for piece in laid.pieces.all().iter().filter(|piece| piece.station < metres(2.5)) {
            let outline = laid.pieces.outline(piece);
            let inner = if piece.part == Part::Edge(Hand::Left) { [outline[1], outline[2]] } else { [outline[0], outline[3]] };
            for corner in inner {
                let half_m = in_metres(run.clear_width_at(metres(corner.away_m))) / 2.0;
                prop_assert!((corner.right_m.abs() - half_m).abs() < 1e-9, "{:?}", piece);
            }
        }
        // Nor do they stand in the field, whose pieces need not be convex beside a corner.
        let shared_m2 = stand_in_m2(&laid, &field(&run, &wishes, &[]));
        prop_assert!(shared_m2 < 1e-9, "{} m2", shared_m2);
    }
}

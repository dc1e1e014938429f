//! Courses from side to side.

use super::courses_along::check_laid;
use super::runs::{Shape, least_radius_m, run_of, shapes, wishes};
use crate::lay::layout::field;
use crate::lay::walks::{polygon, whole_band};
use crate::lay::{Kind, LayWishes, across};
use crate::quantity::{in_metres, inches};
use crate::site::{CourseWay, Hand};
use geo::{Area as _, BooleanOps as _};
use proptest::prelude::*;

#[test]
fn a_straight_walk_by_hand() {
    // 5 bricks of 8 in and 6 joints: 40 3/4 in. 20 rows of 4 in and 21 joints: 82 5/8 in.
    let width = inches(40.75);
    let run = run_of(&[Shape::Straight(82.625 * 0.0254)], width);
    let laid = across(&run, &wishes());
    check_laid(&run, &wishes(), width, &laid);
    assert_eq!(laid.notes, []);
    let count = |of: Kind| {
        laid.pieces
            .all()
            .iter()
            .filter(|piece| piece.kind == of)
            .count()
    };
    // Ten rows of 5, ten of 4 between two halves.
    assert_eq!((count(Kind::Whole), count(Kind::Half)), (90, 20));
    assert!((in_metres(laid.least_lap.unwrap().length) / 0.0254 - 4.0625).abs() < 1e-9);
}

#[test]
fn few_rows_are_cut_to_a_wedge() {
    // A quarter turn at 20 ft: a joint turns by 1/8 in and a row by 2 2/3 in over 40 3/4 in. On the outside, 260 3/8 in from the centre,
    // 409 in hold rows of 4 and 3/16 in: 97.7. Together they must turn by 1.5708 × 40.75 = 64.0 in, of which the joints take
    // 97.7 / 8 = 12.2, and the wedges 51.8 / 2.667 = 19.4.
    let width = inches(40.75);
    let run = run_of(&[Shape::Curve(6.096, 90.0, true)], width);
    let laid = across(&run, &wishes());
    check_laid(&run, &wishes(), width, &laid);
    let mut tapered: Vec<u32> = laid
        .pieces
        .all()
        .iter()
        .filter(|piece| piece.kind == Kind::Tapered)
        .map(|piece| piece.course)
        .collect();
    tapered.dedup();
    let rows = laid.pieces.all().last().unwrap().course;
    assert!((97..=99).contains(&rows), "{rows} rows");
    assert!((19..=21).contains(&tapered.len()), "{tapered:?}");
    // Evenly: every fifth or sixth.
    for pair in tapered.windows(2).take(tapered.len() - 2) {
        assert!((4..=6).contains(&(pair[1] - pair[0])), "{tapered:?}");
    }
}

proptest! {
    #![proptest_config(crate::lay::walks::random_walks(200))]

    /// The inner edge turns on at least a brick's width and an edge brick.
    #[test]
    fn any_run_is_covered(
        (width_in, shapes) in (8.0..60.0_f64).prop_flat_map(|width_in| (Just(width_in), shapes(least_radius_m(inches(width_in), &wishes()) + 0.1))),
        lap_share in prop_oneof![3 => Just(0.5), 1 => 0.0..1.0_f64],
        returns in any::<(bool, bool)>(),
        is_right in any::<bool>(),
    ) {
        let width = inches(width_in);
        let run = run_of(&shapes, width);
        let start = if is_right { Hand::Right } else { Hand::Left };
        let wishes = LayWishes { lap_share, start, return_at_door: returns.0, return_at_end: returns.1, ..wishes() };
        check_laid(&run, &wishes, width, &across(&run, &wishes));
    }

    /// Tighter still, down to an edge brick: what stands out is cut off. The oracle is the registry library, whose own grid keeps areas
    /// to 1e-5 m².
    #[test]
    fn inside_the_tightest_curves_nothing_leaves_the_walk_or_lies_twice(
        (width_in, shapes) in (8.0..60.0_f64).prop_flat_map(|width_in| (Just(width_in), shapes(least_radius_m(inches(width_in), &wishes())))),
    ) {
        let run = run_of(&shapes, inches(width_in));
        let wishes = LayWishes { courses: CourseWay::Across, ..wishes() };
        let laid = field(&run, &wishes, &[]);
        let pieces: Vec<_> = laid.pieces.all().iter().map(|piece| polygon(laid.pieces.outline(piece))).collect();
        let sum_m2: f64 = pieces.iter().map(geo::Area::unsigned_area).sum();
        let together = geo::unary_union(&pieces);
        prop_assert!((sum_m2 - together.unsigned_area()).abs() < 1e-5, "{} m2 lie twice", sum_m2 - together.unsigned_area());
        let beyond_m2 = together.difference(&polygon(&whole_band(&run))).unsigned_area();
        prop_assert!(beyond_m2 < 1e-5, "{} m2 beyond the band", beyond_m2);
    }
}

use super::super::openings::openings;
use super::super::pieces::{Kind, Piece, PlanPoint, area_m2};
use super::super::walks::{any_run, polygon, run_of, wishes};
use super::*;
use crate::quantity::{inches, millimetres};
use crate::site::{Bond, Hand, Opening};
use geo::{Area as _, BooleanOps as _, MultiPolygon, Polygon, Validation as _};
use proptest::prelude::*;

const GRIDS: [Bond; 4] = [
    Bond::BasketTwoOnTwo,
    Bond::BasketTwoOnOne,
    Bond::Herringbone90,
    Bond::Herringbone45,
];

/// 4 x 8 in with 1/8 in.
fn four_by_eight(bond: Bond) -> LayWishes {
    wishes(bond, inches(8.0), inches(4.0), inches(0.125))
}

/// 3 3/4 x 7 5/8 in with 1/8 in: closes.
fn closing(bond: Bond) -> LayWishes {
    wishes(bond, inches(7.625), inches(3.75), inches(0.125))
}

fn total_m2(laid: &Laid) -> f64 {
    laid.pieces
        .all()
        .iter()
        .map(|piece| area_m2(laid.pieces.outline(piece)))
        .sum()
}

fn polygons(laid: &Laid) -> Vec<Polygon<f64>> {
    laid.pieces
        .all()
        .iter()
        .map(|piece| polygon(laid.pieces.outline(piece)))
        .collect()
}

/// Pieces are simple, none overlaps another or leaves the clear width, each fits in one brick.
#[track_caller]
fn check_sound(run: &Run, wishes: &LayWishes, laid: &Laid, openings: &[PlacedOpening]) {
    let all = polygons(laid);
    for (piece, outline) in laid.pieces.all().iter().zip(&all) {
        assert!(outline.is_valid(), "{piece:?} {outline:?}");
        assert!(outline.signed_area() > 0.0, "{piece:?}");
        assert!(
            piece.length <= wishes.brick_length + millimetres(0.11),
            "{piece:?}"
        );
        assert!(
            piece.width <= wishes.brick_width + millimetres(0.11),
            "{piece:?}"
        );
    }
    let pieces_m2 = total_m2(laid);
    let together = geo::algorithm::unary_union(&all);
    let overlap_m2 = pieces_m2 - together.unsigned_area();
    assert!(overlap_m2.abs() < 1e-5, "{overlap_m2} m² lie twice");
    let band = polygon(&field_outline(run, Within::default()));
    let beyond_m2 = together
        .difference(&MultiPolygon::from(band))
        .unsigned_area();
    assert!(beyond_m2 < 1e-5, "{beyond_m2} m² beyond the walk");
    for opening in openings {
        let free = MultiPolygon::from(polygon(&opening.outline));
        let in_it_m2 = together.intersection(&free).unsigned_area();
        assert!(in_it_m2 < 1e-5, "{in_it_m2} m² in an opening");
    }
}

/// The share of a large square that brick covers against the whole plane's: L W times bricks per area. The rim shares in joints and lacks
/// the last of them, less than a joint's width all round.
#[track_caller]
fn check_density(wishes: &LayWishes, bricks_per_m2: f64) {
    let side_m = 12.0;
    let laid = grid(&run_of(side_m, &[(side_m, 0.0, side_m)]), wishes, &[]);
    let brick_m2 = in_metres(wishes.brick_length) * in_metres(wishes.brick_width);
    let share = total_m2(&laid) / (side_m * side_m);
    let expected = brick_m2 * bricks_per_m2;
    let rim = 4.0 * 2.0 * in_metres(wishes.joint) / side_m;
    assert!(
        (share - expected).abs() < rim,
        "{share} instead of {expected}"
    );
}

#[test]
fn density_tends_to_that_of_the_whole_plane() {
    for bond in GRIDS {
        let wishes = closing(bond);
        let per_m2 = 1.0
            / (in_metres(wishes.brick_length + wishes.joint)
                * in_metres(wishes.brick_width + wishes.joint));
        check_density(&wishes, per_m2);
        let pattern = Pattern::of(&wishes, 6.0, 0.0);
        if bond != Bond::BasketTwoOnOne {
            assert!((pattern.per_square_metre() / per_m2 - 1.0).abs() < 1e-12);
        }
        // A brick that does not close.
        let wishes = four_by_eight(bond);
        let pattern = Pattern::of(&wishes, 6.0, 0.0);
        check_density(&wishes, pattern.per_square_metre());
        let wishes = wishes_of_long(bond);
        let pattern = Pattern::of(&wishes, 6.0, 0.0);
        check_density(&wishes, pattern.per_square_metre());
    }
}

fn wishes_of_long(bond: Bond) -> LayWishes {
    wishes(
        bond,
        millimetres(240.0),
        millimetres(71.0),
        millimetres(5.0),
    )
}

/// Check value B22: L = 2 W + j closes; 4 x 8 in with 1/8 in is off by 1/8 in a unit.
#[test]
fn bricks_that_close_and_bricks_that_do_not() {
    let over_m = |wishes: &LayWishes| Pattern::of(wishes, 0.6, 0.0).over_m();
    let widest = |wishes: &LayWishes| {
        grid(&run_of(1.2, &[(2.0, 0.0, 1.2)]), wishes, &[])
            .widest_joint
            .unwrap()
            .length
    };
    for bond in GRIDS {
        assert!(over_m(&closing(bond)).abs() < 1e-12);
        assert!((widest(&closing(bond)) - inches(0.125)).abs() < inches(1e-9));
        assert!((over_m(&four_by_eight(bond)) - 0.125 * 0.0254).abs() < 1e-12);
        assert!(over_m(&wishes(bond, inches(8.0), inches(4.0), inches(0.0))).abs() < 1e-12);
    }
    // Basket weave, and herringbone that is to stand square: half the lack at each end, 1/8 + 1/16 in. Herringbone at 45 degrees keeps
    // its joint.
    for (bond, widest_in) in GRIDS.into_iter().zip([0.1875, 0.1875, 0.1875, 0.125]) {
        let found = widest(&four_by_eight(bond));
        assert!(
            (found - inches(widest_in)).abs() < inches(1e-9),
            "{bond:?} {found:?}"
        );
    }
}

#[test]
fn herringbone_that_cannot_stand_square_says_how_it_leans() {
    // 2 x (71 + 5) against 240 + 5: 93 mm short.
    let laid = grid(
        &run_of(1.2, &[(2.0, 0.0, 1.2)]),
        &wishes_of_long(Bond::Herringbone90),
        &[],
    );
    let leans = laid.notes.iter().find_map(|note| match note {
        LayNote::Leans(by) => Some(*by),
        _ => None,
    });
    assert!((leans.unwrap() - millimetres(-93.0)).abs() < millimetres(1e-6));
}

/// Where bricks of the whole plane are neighbours, no joint is narrower than the joint that was asked for.
#[test]
fn no_joint_is_narrower_than_asked() {
    for bond in GRIDS {
        for wishes in [closing(bond), four_by_eight(bond), wishes_of_long(bond)] {
            let laid = grid(&run_of(2.0, &[(2.0, 0.0, 2.0)]), &wishes, &[]);
            // Grown by just under half a joint, bricks still do not meet; by just over half of the widest, they leave no hole.
            let wholes: Vec<[PlanPoint; 4]> = laid
                .pieces
                .all()
                .iter()
                .filter(|piece| piece.kind == Kind::Whole)
                .map(|piece| <[PlanPoint; 4]>::try_from(laid.pieces.outline(piece)).unwrap())
                .collect();
            let joint_m = in_metres(wishes.joint);
            let apart: Vec<Polygon<f64>> = wholes
                .iter()
                .map(|outline| polygon(&grown(outline, 0.499 * joint_m)))
                .collect();
            let sum_m2: f64 = apart.iter().map(geo::Area::unsigned_area).sum();
            let union_m2 = geo::algorithm::unary_union(&apart).unsigned_area();
            assert!((sum_m2 - union_m2).abs() < 1e-5, "{bond:?}");
            let widest_m = in_metres(laid.widest_joint.unwrap().length);
            // Where an uneven basket weave has its squares' corners, four bricks leave more between them than a joint.
            if bond == Bond::BasketTwoOnTwo || bond == Bond::BasketTwoOnOne {
                continue;
            }
            let closed: Vec<Polygon<f64>> = wholes
                .iter()
                .map(|outline| polygon(&grown(outline, 0.501 * widest_m)))
                .collect();
            let closed = geo::algorithm::unary_union(&closed);
            let n_holes: usize = closed.iter().map(|part| part.interiors().len()).sum();
            assert_eq!(n_holes, 0, "{bond:?} {widest_m}");
        }
    }
}

/// A rectangle with every side moved outwards.
fn grown(outline: &[PlanPoint; 4], by_m: f64) -> [PlanPoint; 4] {
    std::array::from_fn(|idx| {
        let (before, corner, after) =
            (outline[(idx + 3) % 4], outline[idx], outline[(idx + 1) % 4]);
        let towards = |from: PlanPoint| {
            let (right_m, away_m) = (corner.right_m - from.right_m, corner.away_m - from.away_m);
            let length_m = libm::hypot(right_m, away_m);
            (right_m / length_m * by_m, away_m / length_m * by_m)
        };
        let (one, other) = (towards(before), towards(after));
        PlanPoint {
            right_m: corner.right_m + one.0 + other.0,
            away_m: corner.away_m + one.1 + other.1,
        }
    })
}

#[test]
fn basket_weave_starts_with_whole_brick_at_the_start_edge() {
    // 4 squares of 7 5/8 in with joints: 4 x 7 3/4 + 1/8 = 31 1/8 in wide, 8 squares long: 62 1/8 in. All whole.
    let width = in_metres(inches(31.125));
    let length = in_metres(inches(62.125));
    for start in [Hand::Left, Hand::Right] {
        let wishes = LayWishes {
            start,
            ..closing(Bond::BasketTwoOnTwo)
        };
        let run = run_of(width, &[(length, 0.0, width)]);
        let laid = grid(&run, &wishes, &[]);
        assert_eq!(laid.pieces.all().len(), 64);
        assert!(
            laid.pieces
                .all()
                .iter()
                .all(|piece| piece.kind == Kind::Whole)
        );
        assert_eq!(laid.notes, []);
        // The first piece lies in the near corner of that side.
        let first = &laid.pieces.all()[0];
        assert_eq!((first.course, first.nth), (1, 1));
        let middle_m: f64 = laid
            .pieces
            .outline(first)
            .iter()
            .map(|spot| spot.right_m)
            .sum();
        assert_eq!(middle_m < 0.0, start == Hand::Left);
        let last = laid.pieces.all().last().unwrap();
        assert_eq!((last.course, last.nth), (8, 8));
    }
}

#[test]
fn a_start_on_the_right_mirrors_the_grid() {
    for bond in GRIDS {
        let run = run_of(1.3, &[(3.0, 0.0, 1.3)]);
        let from = |start| {
            let wishes = LayWishes {
                start,
                least_piece: metres(0.0),
                ..four_by_eight(bond)
            };
            grid(&run, &wishes, &[])
        };
        let (left, right) = (from(Hand::Left), from(Hand::Right));
        assert_eq!(
            left.pieces.all().len(),
            right.pieces.all().len(),
            "{bond:?}"
        );
        for (one, other) in left.pieces.all().iter().zip(right.pieces.all()) {
            assert_eq!(
                (one.course, one.nth, one.kind),
                (other.course, other.nth, other.kind)
            );
            let middle_m = |laid: &Laid, piece| {
                let outline = laid.pieces.outline(piece);
                let spots = f64::from(u32::try_from(outline.len()).unwrap());
                outline.iter().map(|spot| spot.right_m).sum::<f64>() / spots
            };
            assert!(
                (middle_m(&left, one) + middle_m(&right, other)).abs() < 1e-9,
                "{bond:?}"
            );
        }
    }
}

#[test]
fn rows_and_numbers_start_at_one_and_leave_none_out() {
    for bond in GRIDS {
        let run = run_of(1.3, &[(3.0, 0.0, 1.3), (2.0, 0.6, 1.3)]);
        let laid = grid(&run, &four_by_eight(bond), &[]);
        let mut before = (1, 0);
        for piece in laid.pieces.all() {
            let now = (piece.course, piece.nth);
            assert!(
                now == (before.0, before.1 + 1) || now == (before.0 + 1, 1),
                "{before:?} {now:?}"
            );
            before = now;
        }
    }
}

/// Longer side below a third of the brick, or shorter side below a third of its width.
fn is_small(piece: &Piece, wishes: &LayWishes) -> bool {
    let (longer, shorter) = if piece.length > piece.width {
        (piece.length, piece.width)
    } else {
        (piece.width, piece.length)
    };
    longer < wishes.least_piece - millimetres(0.2)
        || shorter < wishes.brick_width / 3.0 - millimetres(0.2)
}

#[test]
fn small_pieces_are_seen_to() {
    for bond in GRIDS {
        for width_m in [1.0, 1.13, 1.2192, 1.37] {
            let run = run_of(width_m, &[(4.0, 0.0, width_m)]);
            let wishes = four_by_eight(bond);
            let laid = grid(&run, &wishes, &[]);
            check_sound(&run, &wishes, &laid, &[]);
            let n_kept = laid
                .notes
                .iter()
                .filter(|note| matches!(note, LayNote::SmallPieceKept(_)))
                .count();
            let n_small = laid
                .pieces
                .all()
                .iter()
                .filter(|piece| is_small(piece, &wishes))
                .count();
            assert_eq!(n_small, n_kept, "{bond:?} {width_m}");
        }
    }
}

#[test]
fn a_bond_that_follows_the_run_is_no_grid() {
    assert_eq!(
        grid(
            &run_of(1.2, &[(2.0, 0.0, 1.2)]),
            &four_by_eight(Bond::Running),
            &[]
        ),
        Laid::default()
    );
}

#[test]
fn a_brick_wider_than_the_walk_is_said() {
    let run = run_of(0.1, &[(2.0, 0.0, 0.1)]);
    let laid = grid(&run, &four_by_eight(Bond::Herringbone45), &[]);
    assert!(laid.notes.contains(&LayNote::WiderThanTheWalk));
    check_sound(&run, &four_by_eight(Bond::Herringbone45), &laid, &[]);
}

/// A post of 3 x 3 cm within a brick: the brick is parted, and no piece covers the post again.
#[test]
fn a_post_within_a_brick_stays_free() {
    for bond in GRIDS {
        let run = run_of(1.2, &[(2.0, 0.0, 1.2)]);
        let posts: Vec<Opening> = [(0.52, 0.05), (0.8, 0.31), (1.2, -0.22), (1.5, 0.0)]
            .map(|(station_m, offset_m)| Opening {
                station: Some(metres(station_m)),
                offset: Some(metres(offset_m)),
                along: Some(metres(0.03)),
                across: Some(metres(0.03)),
            })
            .to_vec();
        let (openings, faults) = openings(&run, &posts);
        assert_eq!(faults, []);
        let wishes = four_by_eight(bond);
        check_sound(&run, &wishes, &grid(&run, &wishes, &openings), &openings);
    }
}

/// Brick far from closing leaves joints of 5 cm, in which a thin piece may lie: two pieces were joined across one.
#[test]
fn no_pieces_are_joined_across_a_third() {
    let run = run_of(
        1.386_414_386_296_104,
        &[(
            3.141_028_891_775_675_5,
            3.141_028_891_775_675_5 * 0.463_580_172_149_053_9,
            1.386_414_386_296_104,
        )],
    );
    let wishes = LayWishes {
        start: Hand::Right,
        return_at_end: true,
        ..wishes(
            Bond::BasketTwoOnOne,
            millimetres(259.213_570_815_973_85),
            millimetres(77.799_199_689_191_6),
            millimetres(4.363_534_456_728_76),
        )
    };
    check_sound(&run, &wishes, &grid(&run, &wishes, &[]), &[]);
}

fn any_opening() -> impl Strategy<Value = Opening> {
    (0.0..8.0_f64, -1.0..1.0_f64, 0.03..0.9_f64, 0.03..0.9_f64).prop_map(
        |(station_m, offset_m, along_m, across_m)| Opening {
            station: Some(metres(station_m)),
            offset: Some(metres(offset_m)),
            along: Some(metres(along_m)),
            across: Some(metres(across_m)),
        },
    )
}

fn any_wishes() -> impl Strategy<Value = LayWishes> {
    (
        prop::sample::select(GRIDS.to_vec()),
        180.0..260.0_f64,
        60.0..130.0_f64,
        1.0..10.0_f64,
        any::<(bool, bool, bool)>(),
    )
        .prop_map(
            |(bond, length_mm, width_mm, joint_mm, (is_right, at_door, at_end))| LayWishes {
                start: if is_right { Hand::Right } else { Hand::Left },
                return_at_door: at_door,
                return_at_end: at_end,
                ..wishes(
                    bond,
                    millimetres(length_mm),
                    millimetres(width_mm),
                    millimetres(joint_mm),
                )
            },
        )
}

proptest! {
    #![proptest_config(crate::lay::walks::random_walks(96))]

    /// Cut only, with no least piece, the pieces are the whole plane's bricks within the field: every one of them, by a registry library.
    #[test]
    fn pieces_are_the_bricks_of_the_plane_within_the_field(run in any_run(), wishes in any_wishes()) {
        let wishes = LayWishes { least_piece: metres(0.0), ..wishes };
        let laid = grid(&run, &wishes, &[]);
        let within = Within::of(&wishes);
        let half_width = run.clear_width_at(metres(0.0)) * 0.5 - wishes.joint;
        let pattern = Pattern::of(&wishes, in_metres(half_width), in_metres(within.at_door + wishes.joint));
        let outline = field_outline(&run, within);
        let bounds = Clipper::new(&outline).bounds().unwrap().grown(1.0);
        let around = [
            (bounds.left_m, bounds.near_m),
            (bounds.right_m, bounds.near_m),
            (bounds.right_m, bounds.far_m),
            (bounds.left_m, bounds.far_m),
        ].map(|(right_m, away_m)| PlanPoint { right_m, away_m });
        let mut bricks = Vec::new();
        pattern.lay(&Clipper::new(&around), |brick| bricks.push(polygon(&brick.outline)));
        let shared = MultiPolygon::new(bricks).intersection(&MultiPolygon::from(polygon(&outline)));
        prop_assert!((shared.unsigned_area() - total_m2(&laid)).abs() < 1e-5, "{} m² instead of {} m²", total_m2(&laid), shared.unsigned_area());
    }

    #[test]
    fn grids_are_sound_on_any_walk(run in any_run(), wishes in any_wishes(), written in prop::collection::vec(any_opening(), 0..3)) {
        let (openings, _) = openings(&run, &written);
        let laid = grid(&run, &wishes, &openings);
        check_sound(&run, &wishes, &laid, &openings);
    }
}

//! Walks whose width changes: courses cover the widest place and are to be cut along the edges.

use super::geometry::{beside_run, deepest_overlap};
use super::runs::{Shape, tapered_run_of, wishes};
use crate::lay::{Laid, PlanPoint, across, along, needs_clipping};
use crate::line::Run;
use crate::quantity::{in_metres, inches, metres};
use crate::site::CourseWay;
use proptest::prelude::*;

/// Every spot of the walk is within a joint's reach of some piece.
fn uncovered(run: &Run, laid: &Laid) -> Option<(f64, f64)> {
    let outlines: Vec<&[PlanPoint]> = laid
        .pieces
        .all()
        .iter()
        .map(|piece| laid.pieces.outline(piece))
        .collect();
    let length_m = in_metres(run.length());
    for nth in 1..20 {
        let station_m = length_m * f64::from(nth) / 20.0;
        let half_m = in_metres(run.clear_width_at(metres(station_m))) / 2.0 - 0.012;
        for part in -6..=6 {
            let (right, away) =
                run.in_plan(metres(station_m), metres(half_m * f64::from(part) / 6.0));
            let spot = PlanPoint {
                right_m: in_metres(right),
                away_m: in_metres(away),
            };
            let is_near = outlines.iter().any(|outline| off_m(outline, spot) < 0.012);
            if !is_near {
                return Some(beside_run(run, spot));
            }
        }
    }
    None
}

/// How far a spot is outside a convex outline, by its sides.
fn off_m(outline: &[PlanPoint], spot: PlanPoint) -> f64 {
    let sides = (0..outline.len()).map(|nth| {
        let (from, to) = (outline[nth], outline[(nth + 1) % outline.len()]);
        let (x, y) = (to.right_m - from.right_m, to.away_m - from.away_m);
        (x * (spot.away_m - from.away_m) - y * (spot.right_m - from.right_m)) / libm::hypot(x, y)
    });
    let (low, high) = sides.fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(low, high), at: f64| (low.min(at), high.max(at)),
    );
    high.min(-low)
}

proptest! {
    #![proptest_config(crate::lay::walks::random_walks(60))]

    #[test]
    fn the_widest_place_is_covered(widths_in in proptest::collection::vec(24.0..72.0_f64, 4), radius_m in 2.5..12.0_f64, turn in 20.0..80.0_f64, is_right in any::<bool>()) {
        let run = tapered_run_of(
            &[
                (Shape::Straight(2.0), inches(widths_in[1])),
                (Shape::Curve(radius_m, turn, is_right), inches(widths_in[2])),
                (Shape::Straight(2.5), inches(widths_in[3])),
            ],
            inches(widths_in[0]),
        );
        prop_assert!(needs_clipping(&run, CourseWay::Along));
        for (name, laid) in [("along", along(&run, &wishes())), ("across", across(&run, &wishes()))] {
            prop_assert_eq!(uncovered(&run, &laid), None, "{}", name);
            if let Some((deep_m, one, other)) = deepest_overlap(&laid.pieces) {
                prop_assert!(deep_m < 1e-9, "{} {} m: {:?} {:?}", name, deep_m, one, other);
            }
        }
    }
}

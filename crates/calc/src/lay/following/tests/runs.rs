//! Runs and wishes to lay.

use crate::bed::EdgeBrick;
use crate::defaults;
use crate::lay::LayWishes;
use crate::line::{Run, RunLeg};
use crate::quantity::{Length, in_metres, inches, metres};
use crate::site::{Bond, CourseWay, EdgeStands, Hand};
use proptest::prelude::*;

/// Length and curvature of a leg.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Shape {
    Straight(f64),
    /// Radius of the centreline in m, turn in degrees, whether to the right.
    Curve(f64, f64, bool),
}

pub(crate) fn run_of(shapes: &[Shape], width: Length) -> Run {
    tapered_run_of(
        &shapes
            .iter()
            .map(|&shape| (shape, width))
            .collect::<Vec<_>>(),
        width,
    )
}

/// Legs with the width at the end of each.
pub(crate) fn tapered_run_of(shapes: &[(Shape, Length)], width_at_door: Length) -> Run {
    let mut start = metres(0.0);
    let mut width = width_at_door;
    let legs = shapes
        .iter()
        .map(|&(shape, width_at_end)| {
            let (length, curvature_per_m) = match shape {
                Shape::Straight(length_m) => (metres(length_m), 0.0),
                Shape::Curve(radius_m, turn_deg, is_right) => (
                    metres(radius_m * turn_deg.to_radians()),
                    if is_right { 1.0 } else { -1.0 } / radius_m,
                ),
            };
            let leg = RunLeg {
                start,
                length,
                curvature_per_m,
                width_at_start: width,
                width_at_end,
            };
            start += length;
            width = width_at_end;
            leg
        })
        .collect();
    Run::from_legs(legs)
}

/// Brick of 8 x 4 x 2 1/4 in, joint of 1/8 in, sailor edge, no returns.
pub(crate) fn wishes() -> LayWishes {
    let (length, width, thickness) = (inches(8.0), inches(4.0), inches(2.25));
    LayWishes {
        bond: Bond::Running,
        courses: CourseWay::Along,
        start: Hand::Left,
        brick_length: length,
        brick_width: width,
        brick_thickness: thickness,
        joint: defaults::joint(),
        least_joint: defaults::least_joint(),
        widest_joint: defaults::widest_joint(),
        lap_share: 0.5,
        least_lap: length * 0.25,
        least_piece: length / 3.0,
        kerf: defaults::kerf(),
        edge_brick: EdgeBrick::of(EdgeStands::Sailor, length, width, thickness),
        return_at_door: false,
        return_at_end: false,
    }
}

/// Chains of one to four legs that turn by less than a half circle in all, so that none runs into itself.
pub(crate) fn shapes(least_radius_m: f64) -> impl Strategy<Value = Vec<Shape>> {
    let leg = prop_oneof![
        (0.5..6.0_f64).prop_map(Shape::Straight),
        (0.0..1.0_f64, 5.0..44.0_f64, any::<bool>()).prop_map(move |(part, turn, is_right)| {
            // From the limit up to 40 m, small ones more often.
            Shape::Curve(
                least_radius_m + 0.01 + (40.0 - least_radius_m) * part * part * part,
                turn,
                is_right,
            )
        }),
    ];
    proptest::collection::vec(leg, 1..=4)
}

pub(crate) fn least_radius_m(width: Length, wishes: &LayWishes) -> f64 {
    in_metres(width * 0.5 + wishes.edge_brick.across)
}

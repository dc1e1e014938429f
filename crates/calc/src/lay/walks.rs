//! Walks for the tests of bands, cuts and grids, and the areas that a registry library finds.

use super::band::{Within, field_outline};
use super::pieces::PlanPoint;
use super::wishes::LayWishes;
use crate::bed::EdgeBrick;
use crate::defaults;
use crate::line::{Run, RunLeg};
use crate::quantity::{Length, inches, metres};
use crate::site::{Bond, CourseWay, EdgeStands, Hand};
use geo::{Area as _, BooleanOps as _, Coord, LineString, Polygon};
use proptest::prelude::*;

/// So many random walks for a property, or as many as `UNDERBRICK_WALKS` says: 10,000 of each are a matter of minutes in release.
pub fn random_walks(usual: u32) -> ProptestConfig {
    let asked = std::env::var("UNDERBRICK_WALKS").ok();
    ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::with_cases(asked.and_then(|n| n.parse().ok()).unwrap_or(usual))
    }
}

/// A leg: length along the centreline and turn to the right, in metres and radians, and the clear width at its end.
pub type LegSketch = (f64, f64, f64);

/// A run of such legs, all in metres.
pub fn run_of(width_m: f64, legs: &[LegSketch]) -> Run {
    let mut start = metres(0.0);
    let mut width_at_start = metres(width_m);
    let mut placed = Vec::new();
    for &(length_m, turn_rad, width_at_end_m) in legs {
        let leg = RunLeg {
            start,
            length: metres(length_m),
            curvature_per_m: turn_rad / length_m,
            width_at_start,
            width_at_end: metres(width_at_end_m),
        };
        start = leg.end();
        width_at_start = leg.width_at_end;
        placed.push(leg);
    }
    Run::from_legs(placed)
}

/// Walks of one to four legs that do not come back on themselves, straight or curved, of constant width or tapered.
pub fn any_run() -> impl Strategy<Value = Run> {
    let leg = (
        1.0..6.0_f64,
        -1.0..1.0_f64,
        0.9..2.4_f64,
        any::<(bool, bool)>(),
    );
    (0.9..2.4_f64, prop::collection::vec(leg, 1..5)).prop_map(|(width_m, legs)| {
        let mut width_before_m = width_m;
        let mut heading_rad: f64 = 0.0;
        let sketches: Vec<LegSketch> = legs
            .iter()
            .map(
                |&(length_m, turn, own_width_m, (is_straight, keeps_width))| {
                    let width_at_end_m = if keeps_width {
                        width_before_m
                    } else {
                        own_width_m
                    };
                    let widest_m = width_at_end_m.max(width_before_m);
                    // The radius stays above half the width and an edge brick.
                    let most_rad = length_m / (0.5 * widest_m + 0.25);
                    let mut turn_rad = if is_straight {
                        0.0
                    } else {
                        (turn * 2.0).clamp(-most_rad, most_rad)
                    };
                    // Never turned by more than a right angle from straight ahead, so that no leg meets another.
                    if (heading_rad + turn_rad).abs() > 1.5 {
                        turn_rad = -turn_rad;
                    }
                    if (heading_rad + turn_rad).abs() > 1.5 {
                        turn_rad = 0.0;
                    }
                    heading_rad += turn_rad;
                    width_before_m = width_at_end_m;
                    (length_m, turn_rad, width_at_end_m)
                },
            )
            .collect();
        run_of(width_m, &sketches)
    })
}

/// All of the clear width.
pub fn whole_band(run: &Run) -> Vec<PlanPoint> {
    field_outline(run, Within::default())
}

/// A rectangle turned about its middle, counter-clockwise.
pub fn rectangle(
    middle: (f64, f64),
    (length_m, width_m): (f64, f64),
    turned_rad: f64,
) -> [PlanPoint; 4] {
    let (sin, cos) = libm::sincos(turned_rad);
    [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)].map(|(along, across)| {
        let (along_m, across_m) = (along * length_m, across * width_m);
        PlanPoint {
            right_m: middle.0 + along_m * cos - across_m * sin,
            away_m: middle.1 + along_m * sin + across_m * cos,
        }
    })
}

/// An outline as the registry library knows it.
pub fn polygon(outline: &[PlanPoint]) -> Polygon<f64> {
    let ring = outline.iter().map(|spot| Coord {
        x: spot.right_m,
        y: spot.away_m,
    });
    Polygon::new(LineString::from_iter(ring), Vec::new())
}

/// What the library finds two outlines to share.
pub fn shared_m2(one: &[PlanPoint], other: &[PlanPoint]) -> f64 {
    polygon(one).intersection(&polygon(other)).unsigned_area()
}

/// That brick and joint, no returns, a third of the brick as the least piece.
pub fn wishes(bond: Bond, length: Length, width: Length, joint: Length) -> LayWishes {
    let thickness = inches(2.25);
    LayWishes {
        bond,
        courses: CourseWay::Along,
        start: Hand::Left,
        brick_length: length,
        brick_width: width,
        brick_thickness: thickness,
        joint,
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

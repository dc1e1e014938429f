//! The field in plan, as one outline of straight pieces.

use super::pieces::{PlanPoint, apart_m};
use super::wishes::LayWishes;
use crate::line::{Run, RunLeg};
use crate::quantity::{Length, in_metres, metres};

/// An arc is drawn in chords that leave it by no more than this: 0.05 mm.
pub const SAGITTA_M: f64 = 0.000_05;
/// Corners nearer to each other than this are one.
const SAME_M: f64 = 1e-9;

/// What of the clear width belongs to the field.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Within {
    /// Left free along both edges, the door and the far end, square to them: zero for all of the clear width, a joint for its bricks.
    pub margin: Length,
    /// Depth of the row across at the door; zero without one. The row is straight, square to the run at the door.
    pub at_door: Length,
    /// Depth of the row across at the far end.
    pub at_end: Length,
}

impl Within {
    /// The field lies within a joint of the edges, the door, the far end and the rows across.
    #[must_use]
    pub fn of(wishes: &LayWishes) -> Self {
        let depth = |is_wished: bool| {
            if is_wished {
                wishes.edge_brick.across
            } else {
                metres(0.0)
            }
        };
        Self {
            margin: wishes.joint,
            at_door: depth(wishes.return_at_door),
            at_end: depth(wishes.return_at_end),
        }
    }
}

/// The field's outline in plan, counter-clockwise as seen from above: along the right edge away from the door, back along the left.
/// Arcs are chords between spots on them, [`SAGITTA_M`] at most from the arc. Empty where nothing is left of the field.
#[must_use]
pub fn field_outline(run: &Run, within: Within) -> Vec<PlanPoint> {
    let margin_m = in_metres(within.margin);
    let length_m = in_metres(run.length());
    let from_m = in_metres(within.at_door) + margin_m;
    let to_m = in_metres(within.at_end) + margin_m;
    let narrowest_m = run
        .legs()
        .iter()
        .flat_map(|leg| [leg.width_at_start, leg.width_at_end])
        .map(in_metres)
        .fold(f64::INFINITY, f64::min);
    if from_m + to_m >= length_m || narrowest_m <= 2.0 * margin_m {
        return Vec::new();
    }
    let stations = chord_stations(run);
    let side = |sign: f64| -> Vec<PlanPoint> {
        let spots = stations.iter().map(|&(leg, part)| {
            let width = leg.width_at_start * (1.0 - part) + leg.width_at_end * part;
            let offset = (width * 0.5 - within.margin) * sign;
            in_plan(run, leg.start + leg.length * part, offset)
        });
        let ahead = ahead_of(spots.collect(), &Across::at(run, 0.0, from_m, 1.0));
        let mut back = ahead;
        back.reverse();
        ahead_of(back, &Across::at(run, length_m, to_m, -1.0))
    };
    let mut outline = side(1.0);
    outline.reverse();
    outline.extend(side(-1.0));
    without_doubles(outline)
}

/// A spot of the run in plan.
pub(super) fn in_plan(run: &Run, station: Length, offset: Length) -> PlanPoint {
    let (right, away) = run.in_plan(station, offset);
    PlanPoint {
        right_m: in_metres(right),
        away_m: in_metres(away),
    }
}

/// Leg by leg the parts of it, from 0 to 1, at which its edges have a corner. A leg's first spot is the last of the leg before, except
/// that of the first.
fn chord_stations(run: &Run) -> Vec<(&RunLeg, f64)> {
    let mut stations = Vec::new();
    for (leg_idx, leg) in run.legs().iter().enumerate() {
        let n_chords = n_chords(leg);
        let mut nth = if leg_idx == 0 { 0.0 } else { 1.0 };
        while nth <= n_chords {
            stations.push((leg, nth / n_chords));
            nth += 1.0;
        }
    }
    stations
}

/// Chords of both edges of a leg, as many as the outer needs: a chord that turns by θ on a radius r leaves its arc by r (1 − cos θ/2).
fn n_chords(leg: &RunLeg) -> f64 {
    let curvature_per_m = leg.curvature_per_m.abs();
    if curvature_per_m == 0.0 {
        return 1.0;
    }
    let widest = in_metres(leg.width_at_start).max(in_metres(leg.width_at_end));
    let outer_m = 1.0 / curvature_per_m + 0.5 * widest;
    let chord_turn_rad = 2.0 * libm::acos((1.0 - SAGITTA_M / outer_m).max(0.0));
    libm::ceil(in_metres(leg.length) * curvature_per_m / chord_turn_rad).clamp(1.0, 100_000.0)
}

/// A line across the run.
struct Across {
    at: PlanPoint,
    /// Towards the field.
    towards: (f64, f64),
}

impl Across {
    /// Square to the run at a station, moved towards the field as a whole; `sign` is 1 where the field lies along the run, -1 where it
    /// lies back.
    fn at(run: &Run, station_m: f64, by_m: f64, sign: f64) -> Self {
        let station = metres(station_m);
        let middle = in_plan(run, station, metres(0.0));
        let beside = in_plan(run, station, metres(1.0));
        let towards = (
            -(beside.away_m - middle.away_m) * sign,
            (beside.right_m - middle.right_m) * sign,
        );
        Self {
            at: PlanPoint {
                right_m: middle.right_m + towards.0 * by_m,
                away_m: middle.away_m + towards.1 * by_m,
            },
            towards,
        }
    }

    fn ahead_m(&self, spot: PlanPoint) -> f64 {
        (spot.right_m - self.at.right_m) * self.towards.0
            + (spot.away_m - self.at.away_m) * self.towards.1
    }
}

/// A chain of spots from where it first gets over the line. Only its start is looked at, because a walk may come back past its door.
fn ahead_of(chain: Vec<PlanPoint>, line: &Across) -> Vec<PlanPoint> {
    let Some(first_ahead) = chain.iter().position(|spot| line.ahead_m(*spot) > 0.0) else {
        return Vec::new();
    };
    let after = chain.get(first_ahead..).unwrap_or_default();
    let (Some(&to), Some(&from)) = (
        after.first(),
        chain.get(first_ahead.wrapping_sub(1)).or(after.first()),
    ) else {
        return Vec::new();
    };
    let (from_m, to_m) = (line.ahead_m(from), line.ahead_m(to));
    if from_m > 0.0 {
        return chain;
    }
    let part = from_m / (from_m - to_m);
    let crossing = PlanPoint {
        right_m: from.right_m + (to.right_m - from.right_m) * part,
        away_m: from.away_m + (to.away_m - from.away_m) * part,
    };
    std::iter::once(crossing)
        .chain(after.iter().copied())
        .collect()
}

fn without_doubles(mut outline: Vec<PlanPoint>) -> Vec<PlanPoint> {
    let is_same = |one: &PlanPoint, other: &PlanPoint| apart_m(*one, *other) < SAME_M;
    outline.dedup_by(|one, other| is_same(one, other));
    while outline.len() > 1
        && let (Some(first), Some(last)) = (outline.first(), outline.last())
        && is_same(first, last)
    {
        outline.pop();
    }
    if outline.len() < 3 {
        outline.clear();
    }
    outline
}

#[cfg(test)]
mod tests {
    use super::super::pieces::area_m2;
    use super::super::walks::{any_run, polygon, run_of, whole_band};
    use super::*;
    use crate::quantity::inches;
    use geo::{Area as _, Validation as _};
    use proptest::prelude::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    /// A band has the area of its centreline times its width; chords on the outer arc lie within it, those on the inner reach beyond it,
    /// each by two thirds of the sagitta in the mean.
    #[track_caller]
    fn check(width_m: f64, legs: &[(f64, f64, f64)], expected_m2: f64) {
        let run = run_of(width_m, legs);
        let found_m2 = area_m2(&whole_band(&run));
        let length_m: f64 = legs.iter().map(|leg| leg.0).sum();
        let chords_m2 = 2.0 * length_m * SAGITTA_M;
        assert!(
            (found_m2 - expected_m2).abs() < chords_m2,
            "{found_m2} m² instead of {expected_m2} m²"
        );
    }

    #[test]
    fn areas_of_bands() {
        // 6 x 1.2 m.
        check(1.2, &[(6.0, 0.0, 1.2)], 7.2);
        // A quarter ring of 3 m radius: 3 π/2 x 1.2 m, to either side.
        check(
            1.2,
            &[(3.0 * FRAC_PI_2, FRAC_PI_2, 1.2)],
            3.0 * FRAC_PI_2 * 1.2,
        );
        check(
            1.2,
            &[(3.0 * FRAC_PI_2, -FRAC_PI_2, 1.2)],
            3.0 * FRAC_PI_2 * 1.2,
        );
        // From 1 to 2 m over 4 m: 6 m². The same bent: the centroid stays on the centreline.
        check(1.0, &[(4.0, 0.0, 2.0)], 6.0);
        check(1.0, &[(4.0, 1.0, 2.0)], 6.0);
    }

    #[test]
    fn corners_of_arcs_lie_on_them_and_chords_near_them() {
        let run = run_of(1.2, &[(3.0 * PI, PI, 1.2)]);
        let outline = whole_band(&run);
        let from_centre = |spot: &PlanPoint| libm::hypot(spot.right_m - 3.0, spot.away_m);
        for pair in outline.windows(2) {
            let radius_m = from_centre(&pair[0]);
            assert!((radius_m - 3.6).abs() < 1e-12 || (radius_m - 2.4).abs() < 1e-12);
            let middle = PlanPoint {
                right_m: 0.5 * (pair[0].right_m + pair[1].right_m),
                away_m: 0.5 * (pair[0].away_m + pair[1].away_m),
            };
            if (from_centre(&pair[1]) - radius_m).abs() < 1e-9 {
                assert!(radius_m - from_centre(&middle) < SAGITTA_M);
                assert!(radius_m - from_centre(&middle) > 0.1 * SAGITTA_M);
            }
        }
    }

    #[test]
    fn returns_and_margins_are_left_out() {
        // 6 x 1.2 m, a row of 4 in at the door, one of 8 in at the end, margins of 1/8 in.
        let within = Within {
            margin: inches(0.125),
            at_door: inches(4.0),
            at_end: inches(8.0),
        };
        let outline = field_outline(&run_of(1.2, &[(6.0, 0.0, 1.2)]), within);
        let expected_m2 = (6.0 - 12.25 * 0.0254) * (1.2 - 0.25 * 0.0254);
        assert!((area_m2(&outline) - expected_m2).abs() < 1e-12);
        // On a curve the row at the door stays straight: no corner lies before it.
        let run = run_of(1.2, &[(3.0, 1.0, 1.2)]);
        let least_m = field_outline(&run, within)
            .iter()
            .map(|spot| spot.away_m)
            .fold(f64::INFINITY, f64::min);
        assert!((least_m - 4.125 * 0.0254).abs() < 1e-12);
    }

    #[test]
    fn nothing_is_left_of_a_walk_shorter_than_its_returns() {
        let run = run_of(1.2, &[(0.25, 0.0, 1.2)]);
        let within = Within {
            margin: inches(0.125),
            at_door: inches(8.0),
            at_end: inches(8.0),
        };
        assert_eq!(field_outline(&run, within), []);
        let narrow = run_of(0.005, &[(2.0, 0.0, 0.005)]);
        assert_eq!(field_outline(&narrow, within), []);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(128) })]

        #[test]
        fn outlines_are_simple_and_turn_left(run in any_run(), at_door_in in 0.0..6.0_f64, at_end_in in 0.0..6.0_f64) {
            let outline = field_outline(&run, Within { margin: inches(0.125), at_door: inches(at_door_in), at_end: inches(at_end_in) });
            let found = polygon(&outline);
            prop_assert!(found.is_valid());
            prop_assert!(found.signed_area() > 0.0);
        }
    }
}

//! Ends and outline of a piece on its line.

use super::super::super::pieces::{PlanPoint, apart_m};
use super::super::super::radius::bow_m;
use super::super::super::track::{Along, Face, between};
use super::{CourseLine, Set};

/// Spots in which the sides of a piece that lies over a border are looked at; between them a bow of the whole piece is missed by less
/// than one in 50 of it.
const SPOTS_OVER_A_BORDER: f64 = 8.0;

impl CourseLine {
    /// Its two ends.
    pub(in crate::lay) fn faces(&self, set: &Set) -> (Face, Face) {
        if !set.is_radial {
            return self.track.faces(&set.seat, self.body);
        }
        let face = |along: Along, sign: f64| {
            let spot = self.track.spot(along);
            let mut face = self.track.square_face(along, self.body);
            if let Some(leg) = self.leg(along)
                && leg.curvature_per_m != 0.0
            {
                // Square to the line in the middle of the joint.
                let radius_m = 1.0 / leg.curvature_per_m.abs();
                let half_gap_m = radius_m * libm::asin((0.5 * leg.joint_m / radius_m).min(1.0));
                let middle = self
                    .track
                    .square_face(along.moved(sign * half_gap_m), self.body);
                let middle_spot = self.track.spot(along.moved(sign * half_gap_m));
                let (right_m, away_m) = (
                    spot.at.right_m - middle_spot.at.right_m,
                    spot.at.away_m - middle_spot.at.away_m,
                );
                let shifted = |corner: PlanPoint| PlanPoint {
                    right_m: corner.right_m + right_m,
                    away_m: corner.away_m + away_m,
                };
                face = Face {
                    left: shifted(middle.left),
                    right: shifted(middle.right),
                };
            }
            face
        };
        (face(set.seat.from, -1.0), face(set.seat.to, 1.0))
    }

    /// Its corners in plan: a tapered piece that would bow too far into a joint beside it is cut back there. `None` where the ends cross,
    /// so that there is no room for a piece.
    pub(in crate::lay) fn outline(&self, set: &Set) -> Option<[PlanPoint; 4]> {
        let (start, end) = self.faces(set);
        self.outline_between(set, start, end)
    }

    /// The same, from its two ends.
    pub(in crate::lay) fn outline_between(
        &self,
        set: &Set,
        mut start: Face,
        mut end: Face,
    ) -> Option<[PlanPoint; 4]> {
        let (right_m, away_m) = between(
            self.track.spot(set.seat.from).at,
            self.track.spot(set.seat.to).at,
        );
        let goes_on = |from, to| {
            let (side_right_m, side_away_m) = between(from, to);
            side_right_m * right_m + side_away_m * away_m > 0.0
        };
        if !(goes_on(start.left, end.left) && goes_on(start.right, end.right)) {
            return None;
        }
        if set.is_radial {
            let (left_m, right_m) = self.over_m(set, &start, &end);
            let share = |over_m: f64| (over_m / self.width_m).min(0.9);
            let (left, right) = (share(left_m), share(right_m));
            if left > 0.0 {
                start.left = towards(start.left, start.right, left);
                end.left = towards(end.left, end.right, left);
            }
            if right > 0.0 {
                start.right = towards(start.right, start.left, right);
                end.right = towards(end.right, end.left, right);
            }
        }
        Some([start.left, start.right, end.right, end.left])
    }

    /// How much further than it may each side of a tapered piece bows out of the course: left, right.
    fn over_m(&self, set: &Set, start: &Face, end: &Face) -> (f64, f64) {
        let Some(leg) = self.leg(set.seat.from) else {
            return (0.0, 0.0);
        };
        if set.seat.from.leg_idx == set.seat.to.leg_idx && leg.curvature_per_m != 0.0 {
            let inner_m = 1.0 / leg.curvature_per_m.abs() - 0.5 * self.width_m;
            let is_right = leg.curvature_per_m > 0.0;
            let side_m = if is_right {
                apart_m(start.right, end.right)
            } else {
                apart_m(start.left, end.left)
            };
            let over_m = bow_m(inner_m.max(0.5 * side_m), side_m) - leg.most_bow_m;
            return if is_right {
                (0.0, over_m)
            } else {
                (over_m, 0.0)
            };
        }
        // Over a border: the sides are held against the lines beside the course in a row of spots.
        let (mut left_m, mut right_m) = (0.0_f64, 0.0_f64);
        let most_bow_m = self
            .legs
            .iter()
            .map(|leg| leg.most_bow_m)
            .fold(f64::INFINITY, f64::min);
        let step_m = (set.seat.to.m - set.seat.from.m) / SPOTS_OVER_A_BORDER;
        let mut nth = 1.0;
        while nth < SPOTS_OVER_A_BORDER {
            let along = self.track.on_its_leg(set.seat.from.moved(nth * step_m));
            let beside = self.track.square_face(along, self.body);
            left_m = left_m.max(off_line_m(beside.left, start.left, end.left));
            right_m = right_m.max(-off_line_m(beside.right, start.right, end.right));
            nth += 1.0;
        }
        let over_m = |bow_m: f64| 1.02 * bow_m - most_bow_m;
        (over_m(left_m), over_m(right_m))
    }
}

/// How far a spot lies to the right of the line from one spot to another.
fn off_line_m(spot: PlanPoint, from: PlanPoint, to: PlanPoint) -> f64 {
    let (right_m, away_m) = between(from, to);
    let (spot_right_m, spot_away_m) = between(from, spot);
    (spot_right_m * away_m - spot_away_m * right_m) / libm::hypot(right_m, away_m)
}

fn towards(from: PlanPoint, to: PlanPoint, share: f64) -> PlanPoint {
    PlanPoint {
        right_m: from.right_m + (to.right_m - from.right_m) * share,
        away_m: from.away_m + (to.away_m - from.away_m) * share,
    }
}

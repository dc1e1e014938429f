//! The piece of which each leg of a course is laid, and the step from one to the next.

use super::super::super::radius::{bow_m, tight_joint_m};
use super::super::super::track::{Along, Body, Track};
use super::super::super::wishes::LayWishes;
use super::super::arc::Arc;
use super::super::courses::CourseAt;
use super::super::stock::{EXACT_M, Stock};
use super::{CourseLine, LaidOf, LineLeg};
use crate::line::Run;

impl CourseLine {
    /// `None` where a curve leaves no room for the course.
    pub(in crate::lay) fn of(
        run: &Run,
        course: &CourseAt,
        transverse_joint_m: f64,
        laid_of: &[LaidOf],
        wishes: &LayWishes,
        stock: Stock,
    ) -> Option<Self> {
        let track = Track::at_offset(run, course.offset_m)?;
        let most_bow_m = (transverse_joint_m - stock.least_joint_m).max(0.0);
        let legs = track
            .legs()
            .iter()
            .map(|leg| {
                let laid_of = laid_of
                    .get(leg.run_leg_idx)
                    .copied()
                    .unwrap_or(LaidOf::Whole);
                if leg.curvature_per_m == 0.0 {
                    return LineLeg {
                        laid_of: LaidOf::Whole,
                        unit_m: stock.length_m,
                        joint_m: stock.joint_m,
                        gap_m: stock.joint_m,
                        chord_m: stock.length_m,
                        most_bow_m,
                        curvature_per_m: 0.0,
                    };
                }
                let radius_m = 1.0 / leg.curvature_per_m.abs();
                let tight_m = |unit_m| tight_joint_m(wishes, radius_m, unit_m, course.width_m);
                let (unit_m, joint_m) = match laid_of {
                    LaidOf::Whole => (stock.length_m, tight_m(stock.length_m)),
                    LaidOf::Halves { turn_rad } => {
                        let joint_m = tight_m(stock.half_m);
                        let arc = Arc {
                            radius_m,
                            width_m: course.width_m,
                            joint_m,
                        };
                        let unit_m = of_step(&stock, turn_rad, |turn_rad| arc.rigid_m(turn_rad));
                        (unit_m, joint_m)
                    }
                    LaidOf::Tapered { turn_rad } => {
                        let arc = Arc {
                            radius_m,
                            width_m: course.width_m,
                            joint_m: stock.joint_m,
                        };
                        let unit_m = of_step(&stock, turn_rad, |turn_rad| arc.tapered_m(turn_rad));
                        (unit_m, stock.joint_m)
                    }
                };
                LineLeg {
                    laid_of,
                    unit_m,
                    joint_m,
                    gap_m: joint_m,
                    chord_m: f64::NAN,
                    most_bow_m,
                    curvature_per_m: leg.curvature_per_m,
                }
            })
            .collect();
        let mut line = Self {
            track,
            legs,
            width_m: course.width_m,
            body: Body::centred(course.width_m),
            stock,
            has_short_units: laid_of.iter().any(|laid_of| *laid_of != LaidOf::Whole),
        };
        line.measure_units();
        Some(line)
    }

    /// The line of an edge, the joint kept at the tighter side. Where its brick would bow further into the joint beside it than the least
    /// joint, it is laid of halves, thirds or quarters.
    pub(in crate::lay) fn of_edge(track: Track, body: Body, stock: Stock) -> Self {
        let legs = track
            .legs()
            .iter()
            .map(|leg| {
                let reaches_in_m = if leg.curvature_per_m > 0.0 {
                    body.right_m
                } else {
                    body.left_m
                };
                let mut unit_m = stock.length_m;
                let mut n = 1.0;
                // Where the brick lies towards the centre its inner face bows away from the field.
                while reaches_in_m == 0.0
                    && leg.curvature_per_m != 0.0
                    && bow_m(1.0 / leg.curvature_per_m.abs(), unit_m) > stock.least_joint_m
                    && n < MOST_PARTS
                {
                    n += 1.0;
                    unit_m = ((stock.length_m + stock.joint_m) / n - stock.joint_m)
                        .max(stock.length_m / MOST_PARTS);
                }
                LineLeg {
                    laid_of: LaidOf::Whole,
                    unit_m,
                    joint_m: stock.joint_m,
                    gap_m: stock.joint_m,
                    chord_m: unit_m,
                    most_bow_m: f64::INFINITY,
                    curvature_per_m: leg.curvature_per_m,
                }
            })
            .collect();
        let mut line = Self {
            track,
            legs,
            width_m: body.left_m + body.right_m,
            body,
            stock,
            has_short_units: false,
        };
        line.measure_units();
        line
    }

    /// The step from unit to unit on each curve, so that it need not be worked out piece by piece.
    fn measure_units(&mut self) {
        for leg_idx in 0..self.legs.len() {
            let (Some(leg), Some(&at)) = (self.track.legs().get(leg_idx), self.legs.get(leg_idx))
            else {
                continue;
            };
            if leg.curvature_per_m == 0.0 {
                continue;
            }
            // An arc that never ends, so that no border comes between.
            let radius_m = 1.0 / leg.curvature_per_m.abs();
            let (gap_m, chord_m) = if at.laid_of.is_tapered() {
                let gap_m = 2.0 * radius_m * libm::asin((0.5 * at.joint_m / radius_m).min(1.0));
                (
                    gap_m,
                    Arc {
                        radius_m,
                        width_m: self.width_m,
                        joint_m: at.joint_m,
                    }
                    .tapered_chord_m(at.unit_m),
                )
            } else {
                let from = Along {
                    leg_idx,
                    m: leg.from_m,
                };
                let endless = Track::endless(leg);
                let from = Along { leg_idx: 0, ..from };
                let one = endless.chord(from, at.unit_m);
                let next = endless.after(&one, at.unit_m, self.body, at.joint_m);
                (next.from.m - one.to.m, one.to.m - one.from.m)
            };
            if let Some(at) = self.legs.get_mut(leg_idx) {
                (at.gap_m, at.chord_m) = (gap_m, chord_m);
            }
        }
    }

    /// The piece of which the line is laid there; where it reaches over borders, the shortest of all legs that it touches. Where one of
    /// them has a step of its own, it takes its share of each leg's own step, so that the courses stay in step.
    pub(in crate::lay) fn unit_m(&self, from: Along) -> f64 {
        let unit_m = |leg: &LineLeg| leg.unit_m;
        let mut least_m = self.leg(from).map_or(self.stock.length_m, unit_m);
        let mut has_own_step = self.leg(from).is_some_and(|leg| leg.laid_of.has_own_step());
        let mut reaches_over = false;
        for leg_idx in from.leg_idx + 1..self.legs.len() {
            let (Some(leg), Some(on_track)) =
                (self.legs.get(leg_idx), self.track.legs().get(leg_idx))
            else {
                break;
            };
            if on_track.from_m > from.m + self.stock.joint_m + least_m {
                break;
            }
            reaches_over = true;
            has_own_step |= leg.laid_of.has_own_step();
            least_m = least_m.min(leg.unit_m);
        }
        if reaches_over && has_own_step {
            self.step_over_m(from)
                .clamp(self.stock.least_piece_m.min(least_m), self.stock.length_m)
        } else {
            least_m
        }
    }

    /// Along the line, the piece whose parts on each leg are together one step.
    fn step_over_m(&self, from: Along) -> f64 {
        let mut left = 1.0;
        let mut along_m = 0.0;
        let gap_at = |idx: usize| self.legs.get(idx).map_or(0.0, |leg| leg.gap_m);
        let mut at_m = from.m - 0.5 * gap_at(from.leg_idx);
        for leg_idx in from.leg_idx..self.legs.len() {
            let (Some(leg), Some(on_track)) =
                (self.legs.get(leg_idx), self.track.legs().get(leg_idx))
            else {
                break;
            };
            let step_m = leg.chord_m + leg.gap_m;
            let here_m = on_track.end_m() - at_m;
            if here_m >= left * step_m || leg_idx + 1 == self.legs.len() {
                return along_m + left * step_m - 0.5 * (gap_at(from.leg_idx) + leg.gap_m);
            }
            left -= here_m / step_m;
            along_m += here_m;
            at_m = on_track.end_m();
        }
        along_m
    }
}

/// Parts of a brick of which an edge is laid at most.
const MOST_PARTS: f64 = 4.0;

/// Steps that one piece takes at most; more only occur where a brick is shorter than a joint.
const MOST_STEPS_A_PIECE: f64 = 8.0;

/// The piece that takes so many equal angles at the centre, from joint to joint, that it is not below the least.
fn of_step(stock: &Stock, turn_rad: f64, piece_m: impl Fn(f64) -> f64) -> f64 {
    let mut n = 1.0;
    while piece_m(n * turn_rad) < stock.least_piece_m - EXACT_M && n < MOST_STEPS_A_PIECE {
        n += 1.0;
    }
    piece_m(n * turn_rad).min(stock.length_m)
}

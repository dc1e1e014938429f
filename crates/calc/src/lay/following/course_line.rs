//! One course's line, and pieces set on it: rigid with square ends, or with ends that point to the centre of a curve too tight for
//! rigid pieces.

use super::super::pieces::{Kind, PlanPoint};
use super::super::radius::{bow_m, tight_joint_m};
use super::super::track::{Along, Body, Face, Seat, Spot, Track, between, gap_m, gaps_m};
use super::super::wishes::LayWishes;
use super::arc::Arc;
use super::courses::CourseAt;
use super::stock::{EXACT_M, SAME_M, Stock};
use crate::line::Run;

/// A place is found to this.
const FOUND_M: f64 = 1e-12;
/// Steps after which it is taken as it is.
const MOST_STEPS: usize = 60;

/// Spots in which the sides of a piece that lies over a border are looked at; between them a bow of the whole piece is missed by less
/// than one in 50 of it.
const SPOTS_OVER_A_BORDER: f64 = 8.0;

/// What a leg is laid of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::lay) enum LaidOf {
    Whole,
    /// Halves in the outermost course. As each piece is cut anyway, those of the others take the same angle at the centre, so that the
    /// lap does not drift.
    Halves {
        turn_rad: f64,
    },
    /// The same with ends that point to the centre.
    Tapered {
        turn_rad: f64,
    },
}

impl LaidOf {
    pub(in crate::lay) const fn is_tapered(self) -> bool {
        matches!(self, Self::Tapered { .. })
    }

    const fn has_own_step(self) -> bool {
        !matches!(self, Self::Whole)
    }
}

/// The line of one course.
pub(in crate::lay) struct CourseLine {
    pub track: Track,
    pub legs: Vec<LineLeg>,
    pub width_m: f64,
    body: Body,
    pub stock: Stock,
    /// Whether some leg is laid of less than whole brick.
    has_short_units: bool,
}

/// One leg of it.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct LineLeg {
    pub laid_of: LaidOf,
    /// The piece of which this leg is laid.
    pub unit_m: f64,
    /// Joint at the tight side.
    pub joint_m: f64,
    /// Along the line, from the end of one unit to the start of the next.
    pub gap_m: f64,
    /// Along the line, from the start of a unit to its end.
    chord_m: f64,
    /// How far a face may bow into the joint beside it; what bows further is cut off.
    pub most_bow_m: f64,
    /// Of the line; zero when straight.
    pub curvature_per_m: f64,
}

/// A piece set on a line.
#[derive(Clone, Copy, Debug)]
pub(in crate::lay) struct Set {
    pub seat: Seat,
    /// Whether its ends point to the centre where it lies on a curve.
    pub is_radial: bool,
    pub kind: Kind,
}

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

    /// The line of an edge: whole brick on every leg, the joint kept at the tighter side.
    pub(in crate::lay) fn of_edge(track: Track, body: Body, stock: Stock) -> Self {
        let legs = track
            .legs()
            .iter()
            .map(|leg| LineLeg {
                laid_of: LaidOf::Whole,
                unit_m: stock.length_m,
                joint_m: stock.joint_m,
                gap_m: stock.joint_m,
                chord_m: stock.length_m,
                most_bow_m: f64::INFINITY,
                curvature_per_m: leg.curvature_per_m,
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

    pub(in crate::lay) fn leg(&self, along: Along) -> Option<&LineLeg> {
        self.legs.get(along.leg_idx)
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

    /// How much of the least lap is asked for there: among halves a half, and among tapered pieces by their step. Within a brick of such
    /// a leg the same holds.
    pub(in crate::lay) fn lap_share(&self, along: Along) -> f64 {
        if !self.has_short_units {
            return 1.0;
        }
        let whole_m = self.stock.length_m + self.stock.joint_m;
        let share_at = |by_m: f64| {
            let along = self.track.on_its_leg(along.moved(by_m));
            self.leg(along)
                .map_or(1.0, |leg| (leg.chord_m + leg.gap_m) / whole_m)
        };
        share_at(0.0)
            .min(share_at(whole_m))
            .min(share_at(-whole_m))
            .min(1.0)
    }

    /// Joint at the tight side after a piece that ends there.
    pub(in crate::lay) fn joint_m(&self, to: Along) -> f64 {
        self.leg(to).map_or(self.stock.joint_m, |leg| leg.joint_m)
    }

    /// A piece from there on; `length_m` along its middle line, or along its longer side where its ends point to the centre.
    pub(in crate::lay) fn from(&self, from: Along, length_m: f64) -> Set {
        let seat = self.track.chord(from, length_m);
        let touched = self.legs.get(seat.from.leg_idx..=seat.to.leg_idx);
        let is_tapered = |leg: &LineLeg| leg.laid_of.is_tapered();
        if touched.is_some_and(|legs| legs.iter().any(is_tapered)) {
            return self.radial(from, length_m);
        }
        Set {
            seat,
            is_radial: false,
            kind: self.kind(length_m),
        }
    }

    fn radial(&self, from: Along, length_m: f64) -> Set {
        let set = |to: Along| Set {
            seat: Seat { from, to, length_m },
            is_radial: true,
            kind: Kind::Tapered,
        };
        let mut to = self.track.on_its_leg(from.moved(length_m));
        if let (Some(leg), Some(on_track)) = (self.leg(from), self.track.legs().get(from.leg_idx))
            && leg.curvature_per_m != 0.0
        {
            let radius_m = 1.0 / leg.curvature_per_m.abs();
            let to_m = from.m
                + Arc {
                    radius_m,
                    width_m: self.width_m,
                    joint_m: leg.joint_m,
                }
                .tapered_chord_m(length_m);
            if to_m <= on_track.end_m() || from.leg_idx + 1 == self.legs.len() {
                return set(from.moved(to_m - from.m));
            }
        }
        for _ in 0..MOST_STEPS {
            let (start, end) = self.faces(&set(to));
            let short_m =
                length_m - apart_m(start.left, end.left).max(apart_m(start.right, end.right));
            to = self.track.on_its_leg(to.moved(0.7 * short_m));
            if short_m.abs() < FOUND_M {
                break;
            }
        }
        set(to)
    }

    /// The next piece after another.
    pub(in crate::lay) fn after(&self, before: &Set, length_m: f64) -> Set {
        let to = before.seat.to;
        if let (Some(leg), Some(on_track)) = (self.leg(to), self.track.legs().get(to.leg_idx))
            && before.seat.from.leg_idx == to.leg_idx
        {
            let is_tapered = leg.laid_of.is_tapered();
            let is_unit = length_m == leg.unit_m;
            let from = to.moved(leg.gap_m);
            if is_unit
                && (is_tapered || before.seat.length_m == leg.unit_m)
                && before.is_radial == is_tapered
            {
                let end = from.moved(leg.chord_m);
                if end.m <= on_track.end_m() || to.leg_idx + 1 == self.legs.len() {
                    return Set {
                        seat: Seat {
                            from,
                            to: end,
                            length_m,
                        },
                        is_radial: is_tapered,
                        kind: if is_tapered {
                            Kind::Tapered
                        } else {
                            self.kind(length_m)
                        },
                    };
                }
            }
            if is_tapered && before.is_radial && from.m < on_track.end_m() {
                return self.from(from, length_m);
            }
            if !is_tapered && !before.is_radial {
                let seat = self
                    .track
                    .after(&before.seat, length_m, self.body, leg.joint_m);
                let set = self.from(seat.from, length_m);
                if !set.is_radial {
                    return set;
                }
            }
        }
        let end = self.faces(before).1;
        let heading = self.track.spot(to);
        let with_joint = |joint_m: f64| {
            self.placed(to.moved(joint_m), length_m, |start| {
                joint_m - gap_m(&end, start, heading)
            })
        };
        // Over a border the joint may open more than within a leg: it is taken as much tighter, down to the least.
        let joint_m = self.joint_m(to);
        let set = with_joint(joint_m);
        let (left_m, right_m) = gaps_m(&end, &self.faces(&set).0, heading);
        let over_m = left_m.max(right_m) - self.stock.widest_joint_m;
        let least_m = self.stock.least_joint_m;
        if over_m > 0.0 && joint_m > least_m {
            with_joint((joint_m - over_m).max(least_m))
        } else {
            set
        }
    }

    /// The first piece after a line across.
    pub(in crate::lay) fn first(
        &self,
        across: Spot,
        at: Along,
        joint_m: f64,
        length_m: f64,
    ) -> Set {
        self.placed(at.moved(joint_m), length_m, |start| {
            joint_m + clearance_m(start, across, f64::max)
        })
    }

    /// The piece from `from` on, moved along until nothing is missing.
    fn placed(&self, from: Along, length_m: f64, missing_m: impl Fn(&Face) -> f64) -> Set {
        let mut set = self.from(self.track.on_its_leg(from), length_m);
        for _ in 0..MOST_STEPS {
            let short_m = missing_m(&self.faces(&set).0);
            let from = self.track.on_its_leg(set.seat.from.moved(short_m));
            set = self.from(from, length_m);
            if short_m.abs() < FOUND_M {
                break;
            }
        }
        set
    }

    /// The piece after another, or the first, as long as reaches to `joint_m` before a line across. Its length may be nought or below.
    pub(in crate::lay) fn up_to(
        &self,
        across: Spot,
        joint_m: f64,
        guess_m: f64,
        of_length: impl Fn(f64) -> Set,
    ) -> (Set, f64) {
        let mut length_m = guess_m;
        let mut set = of_length(length_m);
        for _ in 0..MOST_STEPS {
            let over_m = clearance_m(&self.faces(&set).1, across, f64::min) - joint_m;
            length_m += over_m;
            if length_m < SAME_M {
                break;
            }
            set = of_length(length_m);
            if over_m.abs() < FOUND_M {
                break;
            }
        }
        (set, length_m)
    }

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
        let (mut start, mut end) = self.faces(set);
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

    /// How far the faces of a unit bow there.
    pub(in crate::lay) fn bow_m(&self, leg: &LineLeg) -> f64 {
        if leg.curvature_per_m == 0.0 {
            0.0
        } else {
            bow_m(1.0 / leg.curvature_per_m.abs(), leg.unit_m)
        }
    }

    fn kind(&self, length_m: f64) -> Kind {
        let stock = &self.stock;
        if self.width_m < stock.width_m - EXACT_M {
            Kind::Ripped
        } else if Stock::is_same(length_m, stock.length_m) {
            Kind::Whole
        } else if Stock::is_same(length_m, stock.half_m) {
            Kind::Half
        } else if Stock::is_same(length_m, stock.three_quarters_m) {
            Kind::ThreeQuarter
        } else {
            Kind::Cut
        }
    }
}

/// The piece that takes so many equal angles at the centre, from joint to joint, that it is not below the least.
fn of_step(stock: &Stock, turn_rad: f64, piece_m: impl Fn(f64) -> f64) -> f64 {
    let mut n = 1.0;
    while piece_m(n * turn_rad) < stock.least_piece_m - EXACT_M && n * turn_rad < 1.0 {
        n += 1.0;
    }
    piece_m(n * turn_rad).min(stock.length_m)
}

/// From the corners of an end to a line across, positive where the line is ahead; the corner is chosen by `of`.
pub(in crate::lay) fn clearance_m(face: &Face, across: Spot, of: impl Fn(f64, f64) -> f64) -> f64 {
    let to_line_m = |corner: PlanPoint| {
        (across.at.right_m - corner.right_m) * across.sin
            + (across.at.away_m - corner.away_m) * across.cos
    };
    of(to_line_m(face.left), to_line_m(face.right))
}

fn apart_m(one: PlanPoint, other: PlanPoint) -> f64 {
    libm::hypot(one.right_m - other.right_m, one.away_m - other.away_m)
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

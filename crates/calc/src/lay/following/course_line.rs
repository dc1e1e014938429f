//! One course's line, and pieces set on it: rigid with square ends, or with ends that point to the centre of a curve too tight for
//! rigid pieces.

use super::super::pieces::{Kind, PlanPoint};
use super::super::radius::{bow_m, tight_joint_m};
use super::super::track::{Along, Face, Seat, Spot, Track, between, gap_m};
use super::super::wishes::LayWishes;
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
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LaidOf {
    Whole,
    Halves,
    Tapered,
}

/// The line of one course.
pub(super) struct CourseLine {
    pub track: Track,
    pub legs: Vec<LineLeg>,
    pub width_m: f64,
    pub stock: Stock,
}

/// One leg of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct LineLeg {
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
pub(super) struct Set {
    pub seat: Seat,
    /// Whether its ends point to the centre where it lies on a curve.
    pub is_radial: bool,
    pub kind: Kind,
}

impl CourseLine {
    /// `None` where a curve leaves no room for the course.
    pub(super) fn of(
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
                let laid_of = laid_of.get(leg.run_leg_idx).copied().unwrap_or(LaidOf::Whole);
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
                let unit_m = match laid_of {
                    LaidOf::Whole => stock.length_m,
                    LaidOf::Halves => stock.half_m,
                    LaidOf::Tapered if bow_m(radius_m, stock.length_m) <= most_bow_m => {
                        stock.length_m
                    }
                    LaidOf::Tapered => stock.half_m,
                };
                let joint_m = match laid_of {
                    LaidOf::Whole | LaidOf::Halves => {
                        tight_joint_m(wishes, radius_m, unit_m, course.width_m)
                    }
                    LaidOf::Tapered => stock.joint_m,
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
            stock,
        };
        line.measure_units();
        Some(line)
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
            let (gap_m, chord_m) = if at.laid_of == LaidOf::Tapered {
                let gap_m = 2.0 * radius_m * libm::asin((0.5 * at.joint_m / radius_m).min(1.0));
                (gap_m, radial_chord_m(radius_m, self.width_m, at.joint_m, at.unit_m))
            } else {
                let from = Along {
                    leg_idx,
                    m: leg.from_m,
                };
                let endless = Track::endless(leg);
                let from = Along { leg_idx: 0, ..from };
                let one = endless.chord(from, at.unit_m);
                let next = endless.after(&one, at.unit_m, self.width_m, at.joint_m);
                (next.from.m - one.to.m, one.to.m - one.from.m)
            };
            if let Some(at) = self.legs.get_mut(leg_idx) {
                (at.gap_m, at.chord_m) = (gap_m, chord_m);
            }
        }
    }

    pub(super) fn leg(&self, along: Along) -> Option<&LineLeg> {
        self.legs.get(along.leg_idx)
    }

    /// The piece of which the line is laid there; where it reaches over borders, the shortest of all legs that it touches.
    pub(super) fn unit_m(&self, from: Along) -> f64 {
        let unit_m = |leg: &LineLeg| leg.unit_m;
        let mut least_m = self.leg(from).map_or(self.stock.length_m, unit_m);
        for leg_idx in from.leg_idx + 1..self.legs.len() {
            let (Some(leg), Some(on_track)) =
                (self.legs.get(leg_idx), self.track.legs().get(leg_idx))
            else {
                break;
            };
            if on_track.from_m > from.m + self.stock.joint_m + least_m {
                break;
            }
            least_m = least_m.min(leg.unit_m);
        }
        least_m
    }

    /// Joint at the tight side after a piece that ends there.
    pub(super) fn joint_m(&self, to: Along) -> f64 {
        self.leg(to).map_or(self.stock.joint_m, |leg| leg.joint_m)
    }

    /// A piece from there on; `length_m` along its middle line, or along its longer side where its ends point to the centre.
    pub(super) fn from(&self, from: Along, length_m: f64) -> Set {
        let seat = self.track.chord(from, length_m);
        let touched = self.legs.get(seat.from.leg_idx..=seat.to.leg_idx);
        let is_tapered = |leg: &LineLeg| leg.laid_of == LaidOf::Tapered;
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
            let to_m = from.m + radial_chord_m(radius_m, self.width_m, leg.joint_m, length_m);
            if to_m <= on_track.end_m() || from.leg_idx + 1 == self.legs.len() {
                return set(from.moved(to_m - from.m));
            }
        }
        for _ in 0..MOST_STEPS {
            let (start, end) = self.faces(&set(to));
            let short_m = length_m - apart_m(start.left, end.left).max(apart_m(start.right, end.right));
            to = self.track.on_its_leg(to.moved(0.7 * short_m));
            if short_m.abs() < FOUND_M {
                break;
            }
        }
        set(to)
    }

    /// The next piece after another.
    pub(super) fn after(&self, before: &Set, length_m: f64) -> Set {
        let to = before.seat.to;
        if let (Some(leg), Some(on_track)) = (self.leg(to), self.track.legs().get(to.leg_idx))
            && before.seat.from.leg_idx == to.leg_idx
        {
            let is_tapered = leg.laid_of == LaidOf::Tapered;
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
                        kind: if is_tapered { Kind::Tapered } else { self.kind(length_m) },
                    };
                }
            }
            if is_tapered && before.is_radial && from.m < on_track.end_m() {
                return self.from(from, length_m);
            }
            if !is_tapered && !before.is_radial {
                let seat = self
                    .track
                    .after(&before.seat, length_m, self.width_m, leg.joint_m);
                let set = self.from(seat.from, length_m);
                if !set.is_radial {
                    return set;
                }
            }
        }
        let end = self.faces(before).1;
        let heading = self.track.spot(to);
        let joint_m = self.joint_m(to);
        self.placed(to.moved(joint_m), length_m, |start| {
            joint_m - gap_m(&end, start, heading)
        })
    }

    /// The first piece after a line across.
    pub(super) fn first(&self, across: Spot, at: Along, joint_m: f64, length_m: f64) -> Set {
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
    pub(super) fn up_to(
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
    pub(super) fn faces(&self, set: &Set) -> (Face, Face) {
        if !set.is_radial {
            return self.track.faces(&set.seat, self.width_m);
        }
        let face = |along: Along, sign: f64| {
            let spot = self.track.spot(along);
            let mut face = self.track.square_face(along, self.width_m);
            if let Some(leg) = self.leg(along)
                && leg.curvature_per_m != 0.0
            {
                // Square to the line in the middle of the joint.
                let radius_m = 1.0 / leg.curvature_per_m.abs();
                let half_gap_m = radius_m * libm::asin((0.5 * leg.joint_m / radius_m).min(1.0));
                let middle = self.track.square_face(along.moved(sign * half_gap_m), self.width_m);
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

    /// Its corners in plan: a tapered piece that would bow too far into a joint beside it is cut back there.
    pub(super) fn outline(&self, set: &Set) -> [PlanPoint; 4] {
        let (mut start, mut end) = self.faces(set);
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
        [start.left, start.right, end.right, end.left]
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
            return if is_right { (0.0, over_m) } else { (over_m, 0.0) };
        }
        // Over a border: the sides are held against the lines beside the course in a row of spots.
        let (mut left_m, mut right_m) = (0.0_f64, 0.0_f64);
        let most_bow_m = self.legs.iter().map(|leg| leg.most_bow_m).fold(f64::INFINITY, f64::min);
        let step_m = (set.seat.to.m - set.seat.from.m) / SPOTS_OVER_A_BORDER;
        let mut nth = 1.0;
        while nth < SPOTS_OVER_A_BORDER {
            let along = self.track.on_its_leg(set.seat.from.moved(nth * step_m));
            let beside = self.track.square_face(along, self.width_m);
            left_m = left_m.max(off_line_m(beside.left, start.left, end.left));
            right_m = right_m.max(-off_line_m(beside.right, start.right, end.right));
            nth += 1.0;
        }
        let over_m = |bow_m: f64| 1.02 * bow_m - most_bow_m;
        (over_m(left_m), over_m(right_m))
    }

    /// How far the faces of a unit bow there.
    pub(super) fn bow_m(&self, leg: &LineLeg) -> f64 {
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

/// Along the middle line, a piece whose outer side is `side_m` and whose ends are parallel to the line from the centre to the middle
/// of the joint beside them.
///
/// With 2 t the angle from joint to joint, the outer side is 2 (A sin t − j/2 cos t), A from the centre to its corner.
fn radial_chord_m(radius_m: f64, width_m: f64, joint_m: f64, side_m: f64) -> f64 {
    let half_joint_m = 0.5 * joint_m;
    let outer_m = (radius_m * radius_m - half_joint_m * half_joint_m).max(0.0).sqrt() + 0.5 * width_m;
    let half_turn_rad = libm::asin((0.5 * side_m / libm::hypot(outer_m, half_joint_m)).min(1.0))
        + libm::atan2(half_joint_m, outer_m);
    2.0 * radius_m * (half_turn_rad - libm::asin((half_joint_m / radius_m).min(1.0)))
}

/// From the corners of an end to a line across, positive where the line is ahead; the corner is chosen by `of`.
pub(super) fn clearance_m(face: &Face, across: Spot, of: impl Fn(f64, f64) -> f64) -> f64 {
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

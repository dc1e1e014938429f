//! A line beside the run, and rigid pieces set on it one after another.
//!
//! A piece is set with both ends of one of its lines on the track (a course's brick with its middle line, an edge brick with its inner
//! face), so that on a curve it is a chord: its corners stay as near to the track as they are to that line, and one face bows towards
//! the centre. The joint to the piece before is measured from corner to corner at the
//! side where it is tighter.

use super::pieces::PlanPoint;
use crate::line::Run;
use crate::quantity::{in_metres, metres};

/// Largest turn of one chord where a curve tapers, so that the line beside it is no arc: a quarter of a degree leaves a line of 3 m
/// radius by 7 µm.
const CHORD_TURN_RAD: f64 = std::f64::consts::PI / 720.0;
/// A seat is found to this.
const EXACT_M: f64 = 1e-12;
/// Steps after which a seat is taken as it is; each gains at least one figure.
const MOST_STEPS: usize = 60;

/// A line beside the run.
#[derive(Clone, Debug)]
pub(super) struct Track {
    legs: Vec<TrackLeg>,
}

/// A straight or an arc of a track.
#[derive(Clone, Copy, Debug)]
pub(super) struct TrackLeg {
    /// Along the track, from its start to where this leg starts.
    pub from_m: f64,
    /// Along the track.
    pub length_m: f64,
    /// One over its own radius, positive to the right.
    pub curvature_per_m: f64,
    /// Station where it starts.
    station_m: f64,
    /// Stations per metre of track.
    station_rate: f64,
    /// The leg of the run that it lies beside.
    pub run_leg_idx: usize,
    start: PlanPoint,
    heading_rad: f64,
    sin: f64,
    cos: f64,
}

/// A spot on the track, with sine and cosine of the heading there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spot {
    pub at: PlanPoint,
    pub sin: f64,
    pub cos: f64,
}

/// A place along the track, with the leg that it is on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Along {
    pub leg_idx: usize,
    pub m: f64,
}

/// How far pieces reach to the left and to the right of the track.
#[derive(Clone, Copy, Debug)]
pub(super) struct Body {
    pub left_m: f64,
    pub right_m: f64,
}

/// A piece on the track.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seat {
    /// Where its line starts.
    pub from: Along,
    /// Where its line ends.
    pub to: Along,
    /// Along its line.
    pub length_m: f64,
}

/// The two corners of an end, left and right as seen along the track.
#[derive(Clone, Copy, Debug)]
pub(super) struct Face {
    pub left: PlanPoint,
    pub right: PlanPoint,
}

/// What is the same for all pieces of one length on one arc.
#[derive(Clone, Copy, Debug)]
pub(super) struct OnArc {
    /// How much further the corner on the inside reaches than the middle line, as an angle at the centre.
    beyond_rad: f64,
    /// From the centre to that corner.
    corner_m: f64,
}

impl Body {
    /// As far on both sides.
    pub(super) const fn centred(width_m: f64) -> Self {
        Self {
            left_m: 0.5 * width_m,
            right_m: 0.5 * width_m,
        }
    }
}

impl Along {
    pub(super) fn moved(self, by_m: f64) -> Self {
        Self {
            m: self.m + by_m,
            ..self
        }
    }
}

impl TrackLeg {
    pub(super) fn end_m(&self) -> f64 {
        self.from_m + self.length_m
    }

    fn spot(&self, along_m: f64) -> Spot {
        let on_leg_m = along_m - self.from_m;
        if self.curvature_per_m == 0.0 {
            return Spot {
                at: moved(self.start, self.sin, self.cos, on_leg_m),
                sin: self.sin,
                cos: self.cos,
            };
        }
        let (sin, cos) = libm::sincos(self.heading_rad + self.curvature_per_m * on_leg_m);
        Spot {
            at: PlanPoint {
                right_m: self.start.right_m + (self.cos - cos) / self.curvature_per_m,
                away_m: self.start.away_m + (sin - self.sin) / self.curvature_per_m,
            },
            sin,
            cos,
        }
    }
}

impl OnArc {
    /// For a piece of that length on an arc, reaching `inside_m` towards the centre; `None` where it has no room before the centre.
    fn of(radius_m: f64, length_m: f64, inside_m: f64) -> Option<Self> {
        let half_m = 0.5 * length_m;
        let chord_off_m = (radius_m * radius_m - half_m * half_m).sqrt();
        let face_m = chord_off_m - inside_m;
        // The comparison is false for the root of a negative number, too.
        let has_room = face_m > 0.0;
        has_room.then(|| Self {
            beyond_rad: libm::atan2(half_m, face_m) - libm::atan2(half_m, chord_off_m),
            corner_m: libm::hypot(half_m, face_m),
        })
    }

    /// Angle at the centre from the end of one middle line to the start of the next, for this joint on the inside.
    ///
    /// The two corners lie at distances p and q from the centre; by the law of cosines the angle between them is
    /// 2 asin √((joint² − (p − q)²) / (4 p q)).
    fn gap_rad(&self, next: &Self, joint_m: f64) -> f64 {
        let apart_m = self.corner_m - next.corner_m;
        let share = (joint_m * joint_m - apart_m * apart_m) / (4.0 * self.corner_m * next.corner_m);
        self.beyond_rad + next.beyond_rad + 2.0 * libm::asin(share.max(0.0).sqrt().min(1.0))
    }
}

impl Track {
    /// The line at a constant offset, right positive. `None` where a curve is so tight that there is no such line.
    pub(super) fn at_offset(run: &Run, offset_m: f64) -> Option<Self> {
        Self::beside(run, |_| (offset_m, offset_m))
    }

    /// The line whose offset, right positive, changes evenly along each leg between the two that are given for it. `None` where a
    /// curve is so tight that there is no such line.
    pub(super) fn beside(run: &Run, offsets_m: impl Fn(usize) -> (f64, f64)) -> Option<Self> {
        let mut legs: Vec<TrackLeg> = Vec::with_capacity(run.legs().len());
        let mut from_m = 0.0;
        for (run_leg_idx, leg) in run.legs().iter().enumerate() {
            let (length_m, station_m) = (in_metres(leg.length), in_metres(leg.start));
            let (offset_m, offset_at_end_m) = offsets_m(run_leg_idx);
            let speed = |offset_m: f64| 1.0 - leg.curvature_per_m * offset_m;
            if !(speed(offset_m) > 0.0 && speed(offset_at_end_m) > 0.0) {
                return None;
            }
            if offset_m == offset_at_end_m && leg.curvature_per_m != 0.0 {
                let heading_rad = heading_rad(run, station_m);
                let (sin, cos) = libm::sincos(heading_rad);
                legs.push(TrackLeg {
                    from_m,
                    length_m: length_m * speed(offset_m),
                    curvature_per_m: leg.curvature_per_m / speed(offset_m),
                    station_m,
                    station_rate: 1.0 / speed(offset_m),
                    run_leg_idx,
                    start: in_plan(run, station_m, offset_m),
                    heading_rad,
                    sin,
                    cos,
                });
                from_m += length_m * speed(offset_m);
                continue;
            }
            let n_chords =
                libm::ceil(length_m * leg.curvature_per_m.abs() / CHORD_TURN_RAD).max(1.0);
            let mut nth = 0.0;
            while nth < n_chords {
                let spot = |nth: f64| {
                    let part = nth / n_chords;
                    let offset_m = offset_m * (1.0 - part) + offset_at_end_m * part;
                    in_plan(run, station_m + length_m * part, offset_m)
                };
                let (start, end) = (spot(nth), spot(nth + 1.0));
                let (right_m, away_m) = between(start, end);
                let chord_m = libm::hypot(right_m, away_m);
                legs.push(TrackLeg {
                    from_m,
                    length_m: chord_m,
                    curvature_per_m: 0.0,
                    station_m: station_m + length_m * nth / n_chords,
                    station_rate: length_m / n_chords / chord_m,
                    run_leg_idx,
                    start,
                    heading_rad: libm::atan2(right_m, away_m),
                    sin: right_m / chord_m,
                    cos: away_m / chord_m,
                });
                from_m += chord_m;
                nth += 1.0;
            }
        }
        (!legs.is_empty()).then_some(Self { legs })
    }

    /// One leg by itself, going on for ever.
    pub(super) fn endless(leg: &TrackLeg) -> Self {
        Self {
            legs: vec![TrackLeg {
                length_m: f64::INFINITY,
                ..*leg
            }],
        }
    }

    pub(super) fn legs(&self) -> &[TrackLeg] {
        &self.legs
    }

    /// The same place, on the leg where it lies; before the start and after the end the nearest.
    pub(super) fn on_its_leg(&self, mut along: Along) -> Along {
        while self
            .legs
            .get(along.leg_idx)
            .is_some_and(|leg| along.m > leg.end_m())
            && along.leg_idx + 1 < self.legs.len()
        {
            along.leg_idx += 1;
        }
        while along.leg_idx > 0
            && self
                .legs
                .get(along.leg_idx)
                .is_none_or(|leg| along.m < leg.from_m)
        {
            along.leg_idx -= 1;
        }
        along
    }

    pub(super) fn spot(&self, along: Along) -> Spot {
        self.legs.get(along.leg_idx).map_or(
            Spot {
                at: PlanPoint::default(),
                sin: 0.0,
                cos: 1.0,
            },
            |leg| leg.spot(along.m),
        )
    }

    /// Which way it heads at a place, from straight ahead, positive to the right.
    pub(super) fn heading_rad(&self, along: Along) -> f64 {
        self.legs.get(along.leg_idx).map_or(0.0, |leg| {
            leg.heading_rad + (along.m - leg.from_m) * leg.curvature_per_m
        })
    }

    /// Station beside a place.
    pub(super) fn station_m(&self, along: Along) -> f64 {
        self.legs.get(along.leg_idx).map_or(0.0, |leg| {
            leg.station_m + (along.m - leg.from_m) * leg.station_rate
        })
    }

    /// The place beside a station of the run.
    pub(super) fn beside_station(&self, station_m: f64) -> Along {
        let leg_idx = self
            .legs
            .partition_point(|leg| leg.station_m <= station_m)
            .saturating_sub(1);
        self.beside_station_of(leg_idx, station_m)
    }

    /// The place beside a station that is on a known leg.
    pub(super) fn beside_station_of(&self, leg_idx: usize, station_m: f64) -> Along {
        let m = self.legs.get(leg_idx).map_or(0.0, |leg| {
            leg.from_m + (station_m - leg.station_m) / leg.station_rate
        });
        Along { leg_idx, m }
    }

    /// A piece whose line starts there.
    pub(super) fn chord(&self, from: Along, length_m: f64) -> Seat {
        let seat = |to: Along| Seat { from, to, length_m };
        if let Some(leg) = self.legs.get(from.leg_idx) {
            let to_m = from.m
                + if leg.curvature_per_m == 0.0 {
                    length_m
                } else {
                    let radius_m = 1.0 / leg.curvature_per_m.abs();
                    2.0 * radius_m * libm::asin((0.5 * length_m / radius_m).min(1.0))
                };
            if to_m <= leg.end_m() || from.leg_idx + 1 == self.legs.len() {
                return seat(from.moved(to_m - from.m));
            }
        }
        let start = self.spot(from).at;
        let mut to = self.on_its_leg(from.moved(length_m));
        for _ in 0..MOST_STEPS {
            let (right_m, away_m) = between(start, self.spot(to).at);
            let short_m = length_m - libm::hypot(right_m, away_m);
            to = self.on_its_leg(to.moved(short_m));
            if short_m.abs() < EXACT_M {
                break;
            }
        }
        seat(to)
    }

    /// The next piece, whose joint to the one before is `joint_m` where it is tightest.
    pub(super) fn after(&self, before: &Seat, length_m: f64, body: Body, joint_m: f64) -> Seat {
        if let Some(leg) = self.legs.get(before.from.leg_idx)
            && before.from.leg_idx == before.to.leg_idx
        {
            let gap_m = if leg.curvature_per_m == 0.0 {
                Some(joint_m)
            } else {
                let radius_m = 1.0 / leg.curvature_per_m.abs();
                let inside_m = if leg.curvature_per_m > 0.0 {
                    body.right_m
                } else {
                    body.left_m
                };
                let one = OnArc::of(radius_m, before.length_m, inside_m);
                let next = OnArc::of(radius_m, length_m, inside_m);
                one.zip(next)
                    .map(|(one, next)| radius_m * one.gap_rad(&next, joint_m))
            };
            if let Some(gap_m) = gap_m {
                let seat = self.chord(before.to.moved(gap_m), length_m);
                if seat.to.m <= leg.end_m() {
                    return seat;
                }
            }
        }
        let end = self.end_face(before, body);
        let spot = self.spot(before.to);
        self.after_face(&end, spot, before.to, length_m, body, joint_m)
    }

    /// The next piece after a face: `joint_m` from it where they are nearest.
    pub(super) fn after_face(
        &self,
        face: &Face,
        heading: Spot,
        from: Along,
        length_m: f64,
        body: Body,
        joint_m: f64,
    ) -> Seat {
        let mut seat = self.chord(self.on_its_leg(from.moved(joint_m)), length_m);
        // Over a kink the steps may swing to and fro: then the nearest place that is far enough is kept.
        let mut kept: Option<Seat> = None;
        for _ in 0..MOST_STEPS {
            let short_m = joint_m - gap_m(face, &self.start_face(&seat, body), heading);
            if short_m <= EXACT_M && kept.is_none_or(|kept| seat.from.m < kept.from.m) {
                kept = Some(seat);
            }
            seat = self.chord(self.on_its_leg(seat.from.moved(short_m)), length_m);
            if short_m.abs() < EXACT_M {
                return seat;
            }
        }
        kept.unwrap_or(seat)
    }

    /// The end at which a piece starts.
    fn start_face(&self, seat: &Seat, body: Body) -> Face {
        self.faces(seat, body).0
    }

    /// The end at which it ends.
    fn end_face(&self, seat: &Seat, body: Body) -> Face {
        self.faces(seat, body).1
    }

    /// Both.
    pub(super) fn faces(&self, seat: &Seat, body: Body) -> (Face, Face) {
        let (start, end) = (self.spot(seat.from).at, self.spot(seat.to).at);
        let (right_m, away_m) = between(start, end);
        let long_m = libm::hypot(right_m, away_m);
        let across = (away_m / long_m, -right_m / long_m);
        (face(start, across, body), face(end, across, body))
    }

    /// A face square to the track.
    pub(super) fn square_face(&self, along: Along, body: Body) -> Face {
        let spot = self.spot(along);
        face(spot.at, (spot.cos, -spot.sin), body)
    }
}

/// From corner to corner where it is less; below zero where one is past the other.
pub(super) fn gap_m(one: &Face, next: &Face, heading: Spot) -> f64 {
    let (left_m, right_m) = gaps_m(one, next, heading);
    left_m.min(right_m)
}

/// From corner to corner on the left and on the right; below zero where one is past the other.
pub(super) fn gaps_m(one: &Face, next: &Face, heading: Spot) -> (f64, f64) {
    let apart_m = |from: PlanPoint, to: PlanPoint| {
        let (right_m, away_m) = between(from, to);
        let ahead_m = right_m * heading.sin + away_m * heading.cos;
        libm::copysign(libm::hypot(right_m, away_m), ahead_m)
    };
    (apart_m(one.left, next.left), apart_m(one.right, next.right))
}

/// How far the line of one face keeps two pieces apart, whichever line keeps them further; below zero where neither does, and they overlap.
/// Corners may be apart and pieces overlap all the same where one is turned against the other.
pub(super) fn kept_apart_m(one: &Face, next: &Face) -> f64 {
    let ahead_m = |face: &Face, spot: PlanPoint| {
        let (right_m, away_m) = between(face.left, face.right);
        let (spot_right_m, spot_away_m) = between(face.left, spot);
        (spot_away_m * right_m - spot_right_m * away_m) / libm::hypot(right_m, away_m)
    };
    let before_m = ahead_m(one, next.left).min(ahead_m(one, next.right));
    let behind_m = (-ahead_m(next, one.left)).min(-ahead_m(next, one.right));
    before_m.max(behind_m)
}

pub(super) fn between(from: PlanPoint, to: PlanPoint) -> (f64, f64) {
    (to.right_m - from.right_m, to.away_m - from.away_m)
}

fn face(on_line: PlanPoint, (right, away): (f64, f64), body: Body) -> Face {
    Face {
        left: PlanPoint {
            right_m: on_line.right_m - right * body.left_m,
            away_m: on_line.away_m - away * body.left_m,
        },
        right: PlanPoint {
            right_m: on_line.right_m + right * body.right_m,
            away_m: on_line.away_m + away * body.right_m,
        },
    }
}

fn moved(from: PlanPoint, sin: f64, cos: f64, by_m: f64) -> PlanPoint {
    PlanPoint {
        right_m: from.right_m + sin * by_m,
        away_m: from.away_m + cos * by_m,
    }
}

/// A spot of the run in plan.
pub(super) fn in_plan(run: &Run, station_m: f64, offset_m: f64) -> PlanPoint {
    super::band::in_plan(run, metres(station_m), metres(offset_m))
}

/// Which way the run heads at a station, from straight ahead, positive to the right.
pub(super) fn heading_rad(run: &Run, station_m: f64) -> f64 {
    let (right_m, away_m) = between(in_plan(run, station_m, 0.0), in_plan(run, station_m, 1.0));
    libm::atan2(-away_m, right_m)
}

#[cfg(test)]
mod tests {
    use super::super::following::tests::runs::{Shape, run_of, shapes};
    use super::*;
    use crate::quantity::inches;
    use proptest::prelude::*;
    use std::f64::consts::FRAC_PI_2;

    const WIDTH_M: f64 = 0.1;

    fn start() -> Along {
        Along { leg_idx: 0, m: 0.0 }
    }

    #[test]
    fn joints_on_an_arc_have_a_closed_form() {
        // Quarter circle of 3 m: with f from the centre to the inner face and t the turn from piece to piece, the joint on the inside is
        // 2 f sin (t/2) - L cos (t/2).
        for is_right in [true, false] {
            let run = run_of(&[Shape::Curve(3.0, 90.0, is_right)], inches(40.0));
            let track = Track::at_offset(&run, 0.0).unwrap();
            let one = track.chord(start(), 0.2);
            let next = track.after(&one, 0.2, Body::centred(WIDTH_M), 0.003);
            let half_turn_rad = 0.5 * (next.from.m - one.from.m) / 3.0;
            let face_m = (9.0_f64 - 0.01).sqrt() - 0.5 * WIDTH_M;
            let joint_m = 2.0 * face_m * libm::sin(half_turn_rad) - 0.2 * libm::cos(half_turn_rad);
            assert!((joint_m - 0.003).abs() < 1e-12, "{joint_m} m");
        }
    }

    #[test]
    fn places_on_a_quarter_circle() {
        let run = run_of(&[Shape::Curve(3.0, 90.0, true)], inches(40.0));
        // Half a metre to the right of it the radius is 2.5 m: at its end 3 m to the right and 2.5 m away.
        let track = Track::at_offset(&run, 0.5).unwrap();
        let end = track.on_its_leg(Along {
            leg_idx: 0,
            m: 2.5 * FRAC_PI_2,
        });
        let spot = track.spot(end);
        assert!((spot.at.right_m - 3.0).abs() < 1e-12 && (spot.at.away_m - 2.5).abs() < 1e-12);
        assert!((spot.sin - 1.0).abs() < 1e-12, "it heads to the right");
        assert!((track.station_m(end) - 3.0 * FRAC_PI_2).abs() < 1e-12);
        // Beyond the centre there is no such line.
        assert!(Track::at_offset(&run, 3.0).is_none());
    }

    proptest! {
        /// On any chain of legs, whatever the lengths: both ends on the line, as long as asked, the joint as asked where it is tighter.
        #[test]
        fn pieces_follow_each_other(
            shapes in shapes(0.9),
            lengths_m in proptest::collection::vec(0.06..0.24_f64, 2..60),
            offset_m in -0.5..0.5_f64,
        ) {
            let run = run_of(&shapes, inches(40.0));
            let track = Track::at_offset(&run, offset_m).unwrap();
            let body = Body::centred(WIDTH_M);
            let mut before = track.chord(start(), 0.2);
            for length_m in lengths_m {
                let next = track.after(&before, length_m, body, 0.003);
                if next.to.m > track.legs().last().unwrap().end_m() {
                    break;
                }
                let (right_m, away_m) = between(track.spot(next.from).at, track.spot(next.to).at);
                prop_assert!((libm::hypot(right_m, away_m) - length_m).abs() < 1e-11);
                let (end, start) = (track.faces(&before, body).1, track.faces(&next, body).0);
                let (left_m, right_m) = gaps_m(&end, &start, track.spot(before.to));
                prop_assert!((left_m.min(right_m) - 0.003).abs() < 1e-11, "{left_m} m, {right_m} m");
                before = next;
            }
        }
    }
}

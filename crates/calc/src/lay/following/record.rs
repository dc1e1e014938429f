//! A laid stretch taken into the list: pieces, joints, laps, and what was not kept.

use super::super::laid::{Laid, LayNote, Measured};
use super::super::pieces::{Kind, Label, Part};
use super::super::radius::bow_m;
use super::super::track::{Along, Face, gaps_m};
use super::bond::{Bounds, Stretch};
use super::course_line::{CourseLine, Set, clearance_m};
use super::courses::CourseAt;
use super::neighbour::Neighbour;
use super::stock::{EXACT_M, Stock};
use crate::quantity::{Length, metres};

/// What one course came to.
pub(super) struct CourseRecord<'a> {
    laid: &'a mut Laid,
    course: CourseAt,
    stock: Stock,
    /// Least lap that was wished for; none in a stack.
    least_lap_m: Option<f64>,
    nth: u32,
    worst_joint: Option<(f64, Measured)>,
    worst_lap: Option<Measured>,
}

impl<'a> CourseRecord<'a> {
    pub(super) fn of(
        laid: &'a mut Laid,
        course: CourseAt,
        stock: Stock,
        least_lap_m: Option<f64>,
    ) -> Self {
        Self {
            laid,
            course,
            stock,
            least_lap_m,
            nth: 0,
            worst_joint: None,
            worst_lap: None,
        }
    }

    /// Takes a stretch in; stations of its joints go into `joint_stations_m`.
    pub(super) fn take(
        &mut self,
        line: &CourseLine,
        neighbour: Option<&Neighbour>,
        bounds: &Bounds,
        stretch: &Stretch,
        joint_stations_m: &mut Vec<f64>,
    ) {
        let mut cursor = 0;
        let mut before: Option<Set> = None;
        let mut end_before = None;
        for (idx, set) in stretch.sets.iter().enumerate() {
            let (start, end) = line.faces(set);
            if let (Some(before), Some(end_before)) = (before, end_before) {
                let middle = line.track.on_its_leg(
                    before
                        .seat
                        .to
                        .moved(0.5 * (set.seat.from.m - before.seat.to.m)),
                );
                let station_m = line.track.station_m(middle);
                let (left_m, right_m) =
                    gaps_m(&end_before, &start, line.track.spot(before.seat.to));
                self.joint(left_m, station_m);
                self.joint(right_m, station_m);
                if let Some(neighbour) = neighbour {
                    let at_m = neighbour.at_m(line, middle);
                    let lap_m = neighbour.lap_m(at_m, &mut cursor);
                    if lap_m.is_finite() {
                        let share = line.lap_share(middle);
                        self.lap(lap_m, share, station_m);
                    }
                }
                joint_stations_m.push(station_m);
            } else if bounds.start_joint_m > 0.0 {
                let station_m = line.track.station_m(set.seat.from);
                self.joint(-clearance_m(&start, bounds.start, f64::max), station_m);
                self.joint(-clearance_m(&start, bounds.start, f64::min), station_m);
            }
            self.piece(line, set, start, end);
            if stretch.shared_idx == Some(idx) {
                self.laid.notes.push(LayNote::PieceMerged {
                    course: self.course.number,
                    station: self.station(line, set),
                });
            }
            before = Some(*set);
            end_before = Some(end);
        }
        if let (Some(end), Some(last), Some(face)) = (bounds.end, before, end_before) {
            let station_m = line.track.station_m(last.seat.to);
            self.joint(clearance_m(&face, end, f64::min), station_m);
            self.joint(clearance_m(&face, end, f64::max), station_m);
        }
    }

    /// The joint beside the course: as wide as planned, less and more by what the faces bow on each curve.
    pub(super) fn beside(&mut self, line: &CourseLine, joint_m: f64, from: Along, to: Along) {
        for leg_idx in from.leg_idx..=to.leg_idx {
            let (Some(leg), Some(on_track)) =
                (line.legs.get(leg_idx), line.track.legs().get(leg_idx))
            else {
                continue;
            };
            let at = Along {
                leg_idx,
                m: on_track.from_m,
            };
            let station_m = line.track.station_m(at);
            if leg.curvature_per_m == 0.0 {
                self.joint(joint_m, station_m);
                continue;
            }
            let radius_m = 1.0 / leg.curvature_per_m.abs();
            let (inner_m, outer_m) = if leg.laid_of.is_tapered() {
                let outside_m = radius_m + 0.5 * line.width_m;
                let inside_m = radius_m - 0.5 * line.width_m;
                let inner_side_m = leg.unit_m * inside_m / outside_m;
                (
                    bow_m(inside_m, inner_side_m).min(leg.most_bow_m),
                    bow_m(outside_m, leg.unit_m),
                )
            } else {
                let bow_m = line.bow_m(leg);
                (bow_m, bow_m)
            };
            self.joint(joint_m - inner_m, station_m);
            self.joint(joint_m + outer_m, station_m);
        }
    }

    fn piece(&mut self, line: &CourseLine, set: &Set, start: Face, end: Face) {
        let Some(outline) = line.outline_between(set, start, end) else {
            return;
        };
        self.nth = self.nth.saturating_add(1);
        let kind = if self.course.is_ripped && set.kind != Kind::Tapered {
            Kind::Ripped
        } else {
            set.kind
        };
        let label = Label {
            part: Part::Field,
            course: self.course.number,
            nth: self.nth,
            kind,
            length: metres(set.seat.length_m),
            width: metres(line.width_m),
            station: self.station(line, set),
        };
        self.laid.pieces.add(label, &outline);
    }

    fn station(&self, line: &CourseLine, set: &Set) -> Length {
        let half_m = 0.5 * (set.seat.to.m - set.seat.from.m);
        let middle = line.track.on_its_leg(set.seat.from.moved(half_m));
        metres(line.track.station_m(middle))
    }

    fn measured(&self, length_m: f64, station_m: f64) -> Measured {
        Measured {
            length: metres(length_m),
            course: self.course.number,
            station: metres(station_m),
        }
    }

    fn joint(&mut self, joint_m: f64, station_m: f64) {
        let joint = self.measured(joint_m, station_m);
        self.laid.note_joint(joint);
        let off_m = (self.stock.least_joint_m - joint_m).max(joint_m - self.stock.widest_joint_m);
        if off_m > EXACT_M && self.worst_joint.is_none_or(|(worst_m, _)| off_m > worst_m) {
            self.worst_joint = Some((off_m, joint));
        }
    }

    fn lap(&mut self, lap_m: f64, share: f64, station_m: f64) {
        let lap = self.measured(lap_m, station_m);
        self.laid.note_lap(lap);
        let is_short = self
            .least_lap_m
            .is_some_and(|least_m| lap_m < share * least_m - EXACT_M);
        if is_short && self.worst_lap.is_none_or(|worst| lap.length < worst.length) {
            self.worst_lap = Some(lap);
        }
    }

    /// Says what was not kept, once for the course.
    pub(super) fn close(self) {
        if let Some(lap) = self.worst_lap {
            self.laid.notes.push(LayNote::LapNotKept(lap));
        }
        if let Some((_, joint)) = self.worst_joint {
            self.laid.notes.push(LayNote::JointNotKept(joint));
        }
    }
}

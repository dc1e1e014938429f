//! The course that was laid before: where its joints are, seen from the next one.

use super::super::track::Along;
use super::course_line::CourseLine;
use crate::line::Run;
use crate::quantity::in_metres;

/// Joints of the neighbour, measured along the line midway between both courses.
#[derive(Clone, Debug)]
pub(in crate::lay) struct Neighbour {
    /// From the door on.
    joints_m: Vec<f64>,
    legs: Vec<MidLeg>,
}

#[derive(Clone, Copy, Debug)]
struct MidLeg {
    station_m: f64,
    from_m: f64,
    /// Along the line midway, per metre of station.
    speed: f64,
}

impl Neighbour {
    /// From the stations of its joints, in order from the door.
    pub(in crate::lay) fn of(run: &Run, midway_m: f64, joint_stations_m: &[f64]) -> Self {
        let mut from_m = 0.0;
        let legs: Vec<MidLeg> = run
            .legs()
            .iter()
            .map(|leg| {
                let speed = 1.0 - leg.curvature_per_m * midway_m;
                let mid_leg = MidLeg {
                    station_m: in_metres(leg.start),
                    from_m,
                    speed,
                };
                from_m += speed * in_metres(leg.length);
                mid_leg
            })
            .collect();
        let mut neighbour = Self {
            joints_m: Vec::with_capacity(joint_stations_m.len()),
            legs,
        };
        let mut leg_idx = 0;
        for &station_m in joint_stations_m {
            while neighbour
                .legs
                .get(leg_idx + 1)
                .is_some_and(|next| next.station_m <= station_m)
            {
                leg_idx += 1;
            }
            let at_m = neighbour.midway_m(leg_idx, station_m);
            neighbour.joints_m.push(at_m);
        }
        neighbour
    }

    fn midway_m(&self, leg_idx: usize, station_m: f64) -> f64 {
        self.legs.get(leg_idx).map_or(station_m, |leg| {
            leg.from_m + (station_m - leg.station_m) * leg.speed
        })
    }

    /// A place on the line of a course at constant offset, as measured midway.
    pub(in crate::lay) fn at_m(&self, line: &CourseLine, along: Along) -> f64 {
        self.midway_m(along.leg_idx, line.track.station_m(along))
    }

    /// The other way about. `near` is a place not far from it.
    pub(in crate::lay) fn along(&self, line: &CourseLine, near: Along, at_m: f64) -> Along {
        let mut leg_idx = near.leg_idx;
        while self
            .legs
            .get(leg_idx + 1)
            .is_some_and(|next| next.from_m <= at_m)
        {
            leg_idx += 1;
        }
        let station_m = self
            .legs
            .get(leg_idx)
            .map_or(at_m, |leg| leg.station_m + (at_m - leg.from_m) / leg.speed);
        line.track.beside_station_of(leg_idx, station_m)
    }

    /// The joints before and after a place. `cursor` is kept from place to place, so that no search is needed.
    pub(in crate::lay) fn beside(
        &self,
        at_m: f64,
        cursor: &mut usize,
    ) -> (Option<f64>, Option<f64>) {
        while self
            .joints_m
            .get(*cursor)
            .is_some_and(|&joint_m| joint_m < at_m)
        {
            *cursor += 1;
        }
        while let Some(&before_m) = cursor.checked_sub(1).and_then(|idx| self.joints_m.get(idx))
            && before_m >= at_m
        {
            *cursor -= 1;
        }
        let before = cursor
            .checked_sub(1)
            .and_then(|idx| self.joints_m.get(idx))
            .copied();
        (before, self.joints_m.get(*cursor).copied())
    }

    /// From a place to the nearest joint.
    pub(in crate::lay) fn lap_m(&self, at_m: f64, cursor: &mut usize) -> f64 {
        let (before, after) = self.beside(at_m, cursor);
        before
            .map_or(f64::INFINITY, |before_m| at_m - before_m)
            .min(after.map_or(f64::INFINITY, |after_m| after_m - at_m))
    }
}

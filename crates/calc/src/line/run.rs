//! The centreline: straight and curved legs, each tangent to the one before.

use super::legs::legs;
use super::plan::{Pose, offset_line_length_m};
use crate::findings::Findings;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// The centreline from the door to the far end, with its clear width.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    legs: Vec<RunLeg>,
    /// Where each leg starts in plan, and where the last one ends.
    poses: Vec<Pose>,
}

/// One leg, placed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunLeg {
    /// Station at which it starts.
    pub start: Length,
    /// Length along the centreline.
    pub length: Length,
    /// One over the radius, per metre, positive to the right; zero when straight.
    pub curvature_per_m: f64,
    /// Clear width at its start.
    pub width_at_start: Length,
    /// Clear width at its end.
    pub width_at_end: Length,
}

/// A reading taken at an end and written to the nearest sixteenth or millimetre lies this near to it: 1/16 in.
const ROUNDING_AT_THE_END_M: f64 = 0.001_587_5;

impl RunLeg {
    /// Station at which it ends.
    #[must_use]
    pub fn end(&self) -> Length {
        self.start + self.length
    }

    /// Clear width at a station of this leg.
    fn clear_width_at(&self, station: Length) -> Length {
        let part = (in_metres(station - self.start) / in_metres(self.length)).clamp(0.0, 1.0);
        self.width_at_start * (1.0 - part) + self.width_at_end * part
    }
}

impl Run {
    pub(crate) fn from_legs(legs: Vec<RunLeg>) -> Self {
        let mut pose = Pose::AT_THE_DOOR;
        let mut poses = vec![pose];
        for leg in &legs {
            pose = pose.moved(in_metres(leg.length), leg.curvature_per_m);
            poses.push(pose);
        }
        Self { legs, poses }
    }

    /// From the door to the far end, along the centreline.
    #[must_use]
    pub fn length(&self) -> Length {
        self.legs.last().map_or_else(|| metres(0.0), RunLeg::end)
    }

    /// The legs in order.
    #[must_use]
    pub fn legs(&self) -> &[RunLeg] {
        &self.legs
    }

    /// Stations at which curvature or taper may change: the door, the end of every leg, the far end among them.
    #[must_use]
    pub fn breaks(&self) -> Vec<Length> {
        std::iter::once(metres(0.0))
            .chain(self.legs.iter().map(RunLeg::end))
            .collect()
    }

    /// Clear width between the edge bricks. Stations beyond the ends take the width of that end.
    #[must_use]
    pub fn clear_width_at(&self, station: Length) -> Length {
        self.leg_at(station)
            .map_or_else(|| metres(0.0), |(_, leg)| leg.clear_width_at(station))
    }

    /// One over the radius, per metre, positive to the right. At a leg's end it is that of the leg that starts there.
    #[must_use]
    pub fn curvature_per_m_at(&self, station: Length) -> f64 {
        self.leg_at(station)
            .map_or(0.0, |(_, leg)| leg.curvature_per_m)
    }

    /// Where a spot lies in plan: (to the right, away from the door), from the middle of the door. Beyond the ends the run
    /// goes straight on.
    #[must_use]
    pub fn in_plan(&self, station: Length, offset: Length) -> (Length, Length) {
        let (right_m, away_m) = self.pose_at(in_metres(station)).beside(in_metres(offset));
        (metres(right_m), metres(away_m))
    }

    /// How the run heads at a station, turned from straight away from the door, positive to the right; more than half a turn where it
    /// turns further.
    pub(crate) fn heading_rad(&self, station: Length) -> f64 {
        self.pose_at(in_metres(station)).heading_rad()
    }

    /// Length of a line at a constant offset along the whole run, right positive.
    #[must_use]
    pub fn edge_length(&self, offset: Length) -> Length {
        (0..self.legs.len())
            .map(|leg_idx| self.offset_line_length(leg_idx, offset, offset))
            .sum()
    }

    /// Length of a line along one leg whose offset changes evenly from start to end, as an edge does where the width tapers.
    /// Zero for a leg that is not there.
    ///
    /// On a straight it is the hypotenuse; on a curve the speed along the line is √((1 − k d)² + d′²), which has a closed integral.
    #[must_use]
    pub fn offset_line_length(
        &self,
        leg_idx: usize,
        offset_at_start: Length,
        offset_at_end: Length,
    ) -> Length {
        let Some(leg) = self.legs.get(leg_idx) else {
            return metres(0.0);
        };
        metres(offset_line_length_m(
            in_metres(leg.length),
            leg.curvature_per_m,
            in_metres(offset_at_start),
            in_metres(offset_at_end),
        ))
    }

    /// The station itself where it lies on the run; as near to an end as a reading is rounded, that end. `None` beyond.
    pub(crate) fn station_on_run(&self, station: Length) -> Option<Length> {
        let (station_m, length_m) = (in_metres(station), in_metres(self.length()));
        if station_m.abs() <= ROUNDING_AT_THE_END_M {
            Some(metres(0.0))
        } else if (station_m - length_m).abs() <= ROUNDING_AT_THE_END_M {
            Some(metres(length_m))
        } else {
            (station_m > 0.0 && station_m < length_m).then_some(station)
        }
    }

    /// The leg at a station: at a border the one that starts there, beyond the ends the nearest.
    fn leg_at(&self, station: Length) -> Option<(usize, &RunLeg)> {
        let leg_idx = self
            .legs
            .partition_point(|leg| leg.start <= station)
            .saturating_sub(1);
        self.legs.get(leg_idx).map(|leg| (leg_idx, leg))
    }

    fn pose_at(&self, station_m: f64) -> Pose {
        if station_m <= 0.0 {
            return Pose::AT_THE_DOOR.moved(station_m, 0.0);
        }
        let length_m = in_metres(self.length());
        if let (true, Some(end)) = (station_m > length_m, self.poses.last()) {
            return end.moved(station_m - length_m, 0.0);
        }
        match self.leg_at(metres(station_m)) {
            Some((leg_idx, leg)) => {
                let start = self
                    .poses
                    .get(leg_idx)
                    .copied()
                    .unwrap_or(Pose::AT_THE_DOOR);
                start.moved(station_m - in_metres(leg.start), leg.curvature_per_m)
            }
            None => Pose::AT_THE_DOOR,
        }
    }
}

/// The run of a site; `None` where it is not known or cannot be built: a finding names the field.
pub(super) fn run(site: &Site, findings: &mut Findings) -> Option<Run> {
    let edge_across = crate::line::legs::edge_across(site);
    let run = Run::from_legs(legs(site, edge_across, findings)?);
    let no_crossing = super::crossing::refuse_crossing(&run, edge_across, findings);
    no_crossing.then_some(run)
}

//! The station beside a spot in plan.

use super::band::in_plan;
use super::pieces::PlanPoint;
use crate::line::Run;
use crate::quantity::{Length, in_metres, metres};
use std::f64::consts::PI;

/// A run, ready to be asked for stations.
#[derive(Clone, Debug)]
pub(super) struct Stations {
    legs: Vec<PlacedLeg>,
    /// The leg that was found last: spots mostly come in order.
    last_idx: usize,
}

#[derive(Clone, Copy, Debug)]
struct PlacedLeg {
    start_m: f64,
    length_m: f64,
    curvature_per_m: f64,
    half_width_m: f64,
    at: PlanPoint,
    /// The way to the right at its start, of length 1.
    right: (f64, f64),
}

impl Stations {
    pub fn of(run: &Run) -> Self {
        let legs = run.legs().iter().map(|leg| {
            let at = in_plan(run, leg.start, metres(0.0));
            let beside = in_plan(run, leg.start, metres(1.0));
            let widest_m = in_metres(leg.width_at_start).max(in_metres(leg.width_at_end));
            PlacedLeg {
                start_m: in_metres(leg.start),
                length_m: in_metres(leg.length),
                curvature_per_m: leg.curvature_per_m,
                half_width_m: 0.5 * widest_m,
                at,
                right: (beside.right_m - at.right_m, beside.away_m - at.away_m),
            }
        });
        Self {
            legs: legs.collect(),
            last_idx: 0,
        }
    }

    /// Station beside a spot of the walk; of a spot off the walk, that of the nearest leg.
    pub fn beside(&mut self, spot: PlanPoint) -> Length {
        if let Some((station_m, off_m)) = self.legs.get(self.last_idx).map(|leg| leg.beside(spot))
            && off_m <= 0.0
        {
            return metres(station_m);
        }
        let nearest = self
            .legs
            .iter()
            .map(|leg| leg.beside(spot))
            .enumerate()
            .min_by(|one, other| one.1.1.total_cmp(&other.1.1));
        let Some((leg_idx, (station_m, _))) = nearest else {
            return metres(0.0);
        };
        self.last_idx = leg_idx;
        metres(station_m)
    }
}

impl PlacedLeg {
    /// Station of this leg beside a spot, and how far off the leg the spot lies; zero on it.
    fn beside(&self, spot: PlanPoint) -> (f64, f64) {
        let (to_right, to_away) = (spot.right_m - self.at.right_m, spot.away_m - self.at.away_m);
        // In the frame of the leg's start: across to the right, along ahead.
        let across_m = to_right * self.right.0 + to_away * self.right.1;
        let ahead_m = to_away * self.right.0 - to_right * self.right.1;
        let (along_m, offset_m) = if self.curvature_per_m == 0.0 {
            (ahead_m, across_m)
        } else {
            let radius_m = 1.0 / self.curvature_per_m.abs();
            let inwards_m = across_m * self.curvature_per_m.signum();
            let from_centre_m = libm::hypot(radius_m - inwards_m, ahead_m);
            let mut turned_rad = libm::atan2(ahead_m, radius_m - inwards_m);
            // An arc may turn by more than half a circle: what lies behind its start by more than what is open belongs to its end.
            if turned_rad < 0.5 * self.length_m / radius_m - PI {
                turned_rad += 2.0 * PI;
            }
            (turned_rad * radius_m, radius_m - from_centre_m)
        };
        let clamped_m = along_m.clamp(0.0, self.length_m);
        let off_m = (along_m - clamped_m).abs() + (offset_m.abs() - self.half_width_m).max(0.0);
        (self.start_m + clamped_m, off_m)
    }
}

#[cfg(test)]
mod tests {
    use super::super::walks::{any_run, run_of};
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn around_three_quarters_of_a_circle() {
        let run = run_of(1.0, &[(3.0 * 1.5 * PI, -1.5 * PI, 1.0)]);
        let mut stations = Stations::of(&run);
        for part in [0.0, 0.3, 0.7, 0.999] {
            let station = run.length() * part;
            let found = stations.beside(in_plan(&run, station, metres(0.3)));
            assert!((found - station).abs() < metres(1e-9));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(128) })]

        #[test]
        fn stations_are_found_again(run in any_run(), at in prop::collection::vec((0.0..1.0_f64, -0.99..0.99_f64), 20)) {
            let mut stations = Stations::of(&run);
            for (part, across) in at {
                let station = run.length() * part;
                let offset = run.clear_width_at(station) * (0.5 * across);
                let spot = in_plan(&run, station, offset);
                let found = stations.beside(spot);
                // Where legs meet, a spot may belong to either: the same to rounding.
                prop_assert!((found - station).abs() < metres(1e-9), "{found:?} {station:?}");
            }
        }
    }
}

//! The dig in plan: a strip along the run, cut into stretches on which every width and every surface is straight along.

use super::patch::{Patch, PlanSpot, Plane};
use crate::line::{Run, RunLeg};
use crate::quantity::in_metres;

/// Stations closer than this, in metres, are one station: a millionth of a millimetre.
pub(super) const SAME_M: f64 = 1e-9;

/// A stretch of the run within one leg, between two stations at which something changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stretch {
    pub from_m: f64,
    pub to_m: f64,
    /// Of the centreline, per metre, positive to the right.
    pub curvature_per_m: f64,
    /// Half the clear width, as it changes along the stretch.
    pub half_clear: Plane,
}

impl Stretch {
    /// The strip of the walk whose sides run `beyond_m` outside the clear width, but not past the centre of a curve.
    pub(super) fn patch(&self, beyond_m: f64) -> Patch {
        let half_m = |station_m: f64| {
            self.half_clear.at(PlanSpot {
                station_m,
                offset_m: 0.0,
            }) + beyond_m
        };
        let corner = |station_m: f64, sign: f64| PlanSpot {
            station_m,
            offset_m: sign * half_m(station_m),
        };
        let strip = Patch {
            corners: vec![
                corner(self.from_m, -1.0),
                corner(self.from_m, 1.0),
                corner(self.to_m, 1.0),
                corner(self.to_m, -1.0),
            ],
            curvature_per_m: self.curvature_per_m,
        };
        strip.clipped(Plane {
            level: 1.0,
            along: 0.0,
            across: -self.curvature_per_m,
        })
    }

    /// The plane that takes these values along the stretch, where `value_at` is linear between its ends. It is asked inside the
    /// stretch, so that a step at an end does no harm.
    pub(super) fn linear(&self, value_at: impl Fn(f64) -> f64) -> Plane {
        let quarter_m = (self.to_m - self.from_m) / 4.0;
        let (first_m, last_m) = (self.from_m + quarter_m, self.to_m - quarter_m);
        Plane::between(first_m, value_at(first_m), last_m, value_at(last_m))
    }
}

/// The run from the door to the far end, cut at every leg's end and at `breaks_m`.
pub(super) fn stretches(run: &Run, breaks_m: &[f64]) -> Vec<Stretch> {
    let mut breaks_m: Vec<f64> = breaks_m
        .iter()
        .copied()
        .filter(|station_m| station_m.is_finite())
        .collect();
    breaks_m.sort_by(f64::total_cmp);
    let mut stretches = Vec::with_capacity(breaks_m.len() + run.legs().len());
    for leg in run.legs() {
        let (start_m, end_m) = (in_metres(leg.start), in_metres(leg.start + leg.length));
        let mut from_m = start_m;
        let inside = breaks_m
            .iter()
            .copied()
            .filter(|station_m| *station_m > start_m + SAME_M && *station_m < end_m - SAME_M);
        for to_m in inside.chain([end_m]) {
            if to_m - from_m > SAME_M {
                stretches.push(stretch(leg, from_m, to_m));
                from_m = to_m;
            }
        }
    }
    stretches
}

fn stretch(leg: &RunLeg, from_m: f64, to_m: f64) -> Stretch {
    let (start_m, end_m) = (in_metres(leg.start), in_metres(leg.start + leg.length));
    let half_clear = Plane::between(
        start_m,
        in_metres(leg.width_at_start) / 2.0,
        end_m,
        in_metres(leg.width_at_end) / 2.0,
    );
    Stretch {
        from_m,
        to_m,
        curvature_per_m: leg.curvature_per_m,
        half_clear,
    }
}

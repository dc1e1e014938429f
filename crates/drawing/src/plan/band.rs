//! The walk as a band between its edges, as far as it is seen.

use super::view::{Bounds, PlanView};
use crate::item::Sheet;
use underbrick_calc::lay::{LayWishes, PlanPoint};
use underbrick_calc::line::{Run, RunLeg};
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::{Hand, Site};

/// How far a chord may stand off its arc, in dots.
const OFF_THE_ARC: f64 = 0.2;
/// Stations at which it is asked whether the walk is seen, at the most.
const MOST_STEPS: f64 = 4_000.0;

/// The walk with its edge brick.
pub(crate) struct Band<'a> {
    pub run: &'a Run,
    /// Width of the edge brick.
    pub edge_m: f64,
    pub length_m: f64,
    /// What is seen of it, from the door.
    pub stretches: Vec<Stretch>,
}

/// A part of the walk, as stations from the door that follow its curves closely.
#[derive(Clone, Debug)]
pub(crate) struct Stretch {
    pub stations: Vec<f64>,
}

impl<'a> Band<'a> {
    /// All of it, coarsely.
    pub fn whole(site: &Site, run: &'a Run) -> Self {
        let mut band = Self::unseen(site, run);
        let length_m = band.length_m;
        band.stretches.extend(band.stretch(0.0, length_m, 0.005));
        band
    }

    /// What a view shows of it.
    pub fn seen(site: &Site, run: &'a Run, view: PlanView, sheet: Sheet) -> Self {
        let mut band = Self::unseen(site, run);
        let seen = Bounds::seen(view, sheet, 80.0);
        let step_m = (band.length_m / MOST_STEPS).max(0.25);
        let off_m = OFF_THE_ARC / view.dots_per_metre;
        let mut from: Option<f64> = None;
        let mut station_m = 0.0;
        while station_m < band.length_m {
            let end_m = (station_m + step_m).min(band.length_m);
            let over = |station_m: f64| {
                let half_m = band.half_m(station_m) + band.edge_m;
                [band.spot(station_m, -half_m), band.spot(station_m, half_m)]
            };
            let middle_m = f64::midpoint(station_m, end_m);
            let about = Bounds::NOTHING
                .with(&over(station_m))
                .with(&over(middle_m))
                .with(&over(end_m));
            match (seen.meets(about), from) {
                (true, None) => from = Some(station_m),
                (false, Some(start_m)) => {
                    band.stretches
                        .extend(band.stretch(start_m, station_m, off_m));
                    from = None;
                }
                (true, Some(_)) | (false, None) => {}
            }
            station_m = end_m;
        }
        if let Some(start_m) = from {
            let length_m = band.length_m;
            band.stretches
                .extend(band.stretch(start_m, length_m, off_m));
        }
        band
    }

    /// The same, of which no more is seen than from one station to another.
    pub fn between(mut self, (from_m, to_m): (f64, f64)) -> Self {
        for stretch in &mut self.stretches {
            let ends = stretch.stations.first().zip(stretch.stations.last());
            let Some((first_m, last_m)) = ends.map(|(first, last)| (*first, *last)) else {
                continue;
            };
            let (first_m, last_m) = (first_m.max(from_m), last_m.min(to_m));
            let inside = |station_m: &f64| *station_m > first_m && *station_m < last_m;
            let mut stations = vec![first_m];
            stations.extend(stretch.stations.iter().copied().filter(inside));
            stations.push(last_m);
            if last_m <= first_m {
                stations.clear();
            }
            stretch.stations = stations;
        }
        self.stretches
            .retain(|stretch| !stretch.stations.is_empty());
        self
    }

    /// Nothing of it is seen.
    pub fn unseen(site: &Site, run: &'a Run) -> Self {
        let length_m = in_metres(run.length());
        Self {
            run,
            edge_m: in_metres(LayWishes::of(site).edge_brick.across),
            length_m: if length_m.is_finite() { length_m } else { 0.0 },
            stretches: Vec::new(),
        }
    }

    fn stretch(&self, from_m: f64, to_m: f64, off_m: f64) -> Option<Stretch> {
        if to_m <= from_m {
            return None;
        }
        let mut stations = vec![from_m];
        for leg in self.run.legs() {
            let (start_m, end_m) = (in_metres(leg.start), in_metres(leg.end()));
            let (first_m, last_m) = (start_m.max(from_m), end_m.min(to_m));
            if last_m <= first_m {
                continue;
            }
            let step_m = self.step_on(leg, off_m);
            let n_steps = ((last_m - first_m) / step_m).ceil().clamp(1.0, 20_000.0);
            let mut nth = 1.0;
            while nth <= n_steps {
                stations.push(first_m + (last_m - first_m) * nth / n_steps);
                nth += 1.0;
            }
        }
        Some(Stretch { stations })
    }

    /// How far apart stations may be so that chords stay near an arc: the bow of a chord c on a radius r is c² ÷ 8 r.
    fn step_on(&self, leg: &RunLeg, off_m: f64) -> f64 {
        let curvature = leg.curvature_per_m.abs();
        if curvature > 0.0 {
            (8.0 * off_m / curvature).sqrt() * 0.8
        } else {
            f64::INFINITY
        }
    }

    /// Half the clear width.
    pub fn half_m(&self, station_m: f64) -> f64 {
        in_metres(self.run.clear_width_at(metres(station_m))) / 2.0
    }

    /// From the centreline to the outer face of the edge brick.
    pub fn over_m(&self, station_m: f64) -> f64 {
        self.half_m(station_m) + self.edge_m
    }

    /// Square to the centreline by an offset, right positive.
    pub fn spot(&self, station_m: f64, offset_m: f64) -> PlanPoint {
        let (right, away) = self.run.in_plan(metres(station_m), metres(offset_m));
        PlanPoint {
            right_m: in_metres(right),
            away_m: in_metres(away),
        }
    }

    /// The outline of a stretch, its sides moved outwards from the clear width.
    pub fn outline(&self, stretch: &Stretch, out_m: f64) -> Vec<PlanPoint> {
        let side = |station_m: &f64, sign: f64| {
            self.spot(*station_m, sign * (self.half_m(*station_m) + out_m))
        };
        let left = stretch
            .stations
            .iter()
            .map(|station_m| side(station_m, -1.0));
        let right = stretch
            .stations
            .iter()
            .rev()
            .map(|station_m| side(station_m, 1.0));
        left.chain(right).collect()
    }

    /// Stations of one leg that are seen, part by part.
    pub fn seen_on(&self, leg: &RunLeg) -> Vec<Vec<f64>> {
        let (start_m, end_m) = (in_metres(leg.start), in_metres(leg.end()));
        let parts = self.stretches.iter().filter_map(|stretch| {
            let (first, last) = (stretch.stations.first()?, stretch.stations.last()?);
            let (from_m, to_m) = (first.max(start_m), last.min(end_m));
            if to_m <= from_m {
                return None;
            }
            let between = stretch.stations.iter().copied();
            let mut stations = vec![from_m];
            stations.extend(between.filter(|station_m| *station_m > from_m && *station_m < to_m));
            stations.push(to_m);
            Some(stations)
        });
        parts.collect()
    }
}

/// The side on which the lengths of the run are written at a station; on the other stand the stations.
#[must_use]
pub fn measured_on(run: &Run, station: Length) -> Hand {
    let is_before = |leg: &RunLeg| in_metres(leg.end()) < in_metres(station);
    let leg_idx = run.legs().iter().take_while(|leg| is_before(leg)).count();
    let sides = outer_sides(run);
    match sides.get(leg_idx).or(sides.last()) {
        Some(side) if *side < 0.0 => Hand::Left,
        _ => Hand::Right,
    }
}

/// On which side of each leg its length is written, right positive: outside its curve; a straight goes with the curve after it, else
/// with the one before it, else right.
pub(crate) fn outer_sides(run: &Run) -> Vec<f64> {
    let own = |leg: &RunLeg| (leg.curvature_per_m != 0.0).then(|| -leg.curvature_per_m.signum());
    let legs = run.legs();
    (0..legs.len())
        .map(|leg_idx| {
            let after = legs.iter().skip(leg_idx).find_map(own);
            let before = || legs.iter().take(leg_idx).rev().find_map(own);
            after.or_else(before).unwrap_or(1.0)
        })
        .collect()
}

//! What a long section shows, gathered from the results.

use underbrick_calc::Results;
use underbrick_calc::bed::{Along, along};
use underbrick_calc::catalogue::Catalogue;
use underbrick_calc::findings::rules::CauseFound;
use underbrick_calc::ground::soil::FrostFound;
use underbrick_calc::ground::{Penetrometer, PitFound};
use underbrick_calc::line::Riser;
use underbrick_calc::measure::slope::Fall;
use underbrick_calc::quantity::{Length, in_metres, metres};
use underbrick_calc::site::Site;

/// A walk lengthwise and what stands behind its figures.
pub(crate) struct Lengthwise<'a> {
    pub site: &'a Site,
    pub catalogue: &'a Catalogue,
    pub along: Along,
    pub pits: &'a [PitFound],
    pub penetrometers: &'a [Penetrometer],
    pub causes: &'a [CauseFound],
    pub bends: Vec<Bend>,
    pub fall: Fall,
    /// Risers across the walk, where it has steps.
    pub risers: Vec<Riser>,
    pub end_is_fixed: bool,
    /// Where frost ends, below the grade line; `None` where that is not known.
    pub frost: Option<&'a FrostFound>,
    /// Length of the run, in metres.
    pub run_m: f64,
    /// Station of the marker, within the run.
    pub marker: Length,
}

/// A leg that curves. Stations in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bend {
    pub leg_idx: usize,
    pub from: f64,
    pub to: f64,
    pub to_the_right: bool,
}

impl<'a> Lengthwise<'a> {
    /// `None` where line, ground or bed have no results.
    pub fn new(
        site: &'a Site,
        catalogue: &'a Catalogue,
        results: &'a Results,
        marker: Length,
    ) -> Option<Self> {
        let (Some(line), Some(ground), Some(bed)) = (&results.line, &results.ground, &results.bed)
        else {
            return None;
        };
        let along = along(line, ground, bed, Length::default());
        let run_m = in_metres(line.run.length());
        if along.spots.len() < 2 || !run_m.is_finite() || run_m <= 0.0 {
            return None;
        }
        let bends = line
            .run
            .legs()
            .iter()
            .enumerate()
            .filter(|(_, leg)| leg.curvature_per_m != 0.0)
            .map(|(leg_idx, leg)| {
                let from = in_metres(leg.start);
                Bend {
                    leg_idx,
                    from,
                    to: from + in_metres(leg.length),
                    to_the_right: leg.curvature_per_m > 0.0,
                }
            });
        let marker_m = in_metres(marker);
        Some(Self {
            site,
            catalogue,
            bends: bends.collect(),
            along,
            pits: &ground.pits,
            penetrometers: &results.penetrometers,
            causes: &results.causes,
            fall: line.grade.fall,
            risers: line.grade.risers(),
            end_is_fixed: line.grade.end_is_fixed,
            frost: results.soil.as_ref().and_then(|soil| soil.frost.as_ref()),
            run_m,
            marker: metres(if marker_m.is_finite() {
                marker_m.clamp(0.0, run_m)
            } else {
                0.0
            }),
        })
    }

    /// Highest and lowest level that is drawn, in metres; the sill is always among them.
    pub fn levels(&self) -> (f64, f64) {
        let mut levels = vec![0.0];
        for spot in &self.along.spots {
            levels.extend([spot.grade, spot.dig_bottom].map(in_metres));
            levels.extend(spot.old_surface.map(|old| in_metres(old.level)));
            levels.extend(spot.unsuitable_bottom.map(|bottom| in_metres(bottom.level)));
        }
        for pit in self.pits {
            levels.extend([pit.top, pit.dug_to].map(in_metres));
        }
        levels.retain(|level| level.is_finite());
        let high = levels.iter().copied().fold(0.0, f64::max);
        (high, levels.iter().copied().fold(0.0, f64::min))
    }

    /// The weakest ground that a penetrometer met near the bottom of a pit: `CBR 4.6`.
    pub fn strength_words(&self, pit_idx: usize) -> Option<String> {
        let found = self.penetrometers.iter();
        let weakest = found
            .filter(|found| found.pit_idx == pit_idx)
            .find_map(Penetrometer::weakest)?;
        Some(format!("CBR {}", weakest.strength.cbr))
    }

    /// A level that changes along the run, at a station, both in metres; `None` where it is not known.
    pub fn level_at(
        &self,
        station_m: f64,
        level: impl Fn(&underbrick_calc::bed::AlongSpot) -> Option<Length>,
    ) -> Option<f64> {
        for pair in self.along.spots.windows(2) {
            let [from, to] = pair else { continue };
            let (start, end) = (in_metres(from.station), in_metres(to.station));
            if station_m >= start && station_m <= end && end > start {
                let (from, to) = (in_metres(level(from)?), in_metres(level(to)?));
                return Some(from + (station_m - start) / (end - start) * (to - from));
            }
        }
        None
    }
}

//! The old surface, from the readings.

use super::Run;
use super::shots::{Reading, readings};
use crate::findings::Findings;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Site;

/// The surface as found: flat facets between the readings, held flat beyond them.
///
/// Readings at one station, within a millimetre, make a profile: straight from reading to reading across, flat beyond the
/// outermost. Between two profiles that follow each other the ground is cut at every offset at which either was read
/// ([`offsets_between`](Self::offsets_between)); each four-cornered piece is folded along its diagonal from the nearer left corner
/// to the farther right one, so that both halves are flat. Left of the leftmost and right of the rightmost offset a strip is
/// level across, and flat without a fold.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OldSurface {
    /// In order of station.
    profiles: Vec<Profile>,
}

/// A level of the old surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfaceLevel {
    /// Above the datum, up positive.
    pub level: Length,
    /// Whether readings stand on both sides along the run; if not it is held flat and drawn as not known.
    pub known: bool,
}

/// A fold of the surface that runs slanting: a straight from one spot to another, each (station, offset).
pub type Fold = ((Length, Length), (Length, Length));

/// The surface across at one station.
#[derive(Clone, Debug, PartialEq)]
struct Profile {
    station_m: f64,
    /// (offset, level) in metres, from left to right, each offset once, never empty.
    spots: Vec<(f64, f64)>,
}

/// Readings nearer to the next than this along the run make one profile in their middle, and nearer than this across, one spot.
const SAME_SPOT_M: f64 = 0.001;

impl OldSurface {
    /// Level at a spot; `None` where there is no reading at all.
    #[must_use]
    pub fn at(&self, station: Length, offset: Length) -> Option<SurfaceLevel> {
        let (station_m, offset_m) = (in_metres(station), in_metres(offset));
        let (first, last) = (self.profiles.first()?, self.profiles.last()?);
        let known = station_m >= first.station_m && station_m <= last.station_m;
        let level_m = match self.span(station_m) {
            Some((near, far)) => level_between(near, far, station_m, offset_m),
            None if station_m <= first.station_m => first.level_m(offset_m),
            None => last.level_m(offset_m),
        };
        Some(SurfaceLevel {
            level: metres(level_m),
            known,
        })
    }

    /// Stations at which readings stand, in order: between two that follow each other the surface folds only at
    /// [`offsets_between`](Self::offsets_between) and [`folds_between`](Self::folds_between).
    #[must_use]
    pub fn station_breaks(&self) -> Vec<Length> {
        self.profiles
            .iter()
            .map(|profile| metres(profile.station_m))
            .collect()
    }

    /// Every offset at which the surface may fold between two stations, from left to right.
    #[must_use]
    pub fn offsets_between(&self, from: Length, to: Length) -> Vec<Length> {
        let (from_m, to_m) = (in_metres(from), in_metres(to));
        let mut offsets_m: Vec<f64> = Vec::new();
        for (near, far) in self.spans_between(from_m, to_m) {
            offsets_m.extend(creases_m(near, far));
        }
        offsets_m.sort_by(f64::total_cmp);
        offsets_m.dedup();
        offsets_m.into_iter().map(metres).collect()
    }

    /// The slanting folds between two stations, whole: each from the nearer left corner of a piece to its farther right corner.
    #[must_use]
    pub fn folds_between(&self, from: Length, to: Length) -> Vec<Fold> {
        let mut folds = Vec::new();
        for (near, far) in self.spans_between(in_metres(from), in_metres(to)) {
            if near.station_m < far.station_m {
                let creases_m = creases_m(near, far);
                for (left_m, right_m) in creases_m.iter().zip(creases_m.iter().skip(1)) {
                    folds.push((
                        (metres(near.station_m), metres(*left_m)),
                        (metres(far.station_m), metres(*right_m)),
                    ));
                }
            }
        }
        folds
    }

    fn from_readings(mut readings: Vec<Reading>) -> Self {
        readings.sort_by(|one, other| one.station_m.total_cmp(&other.station_m));
        let groups = readings.chunk_by(|one, next| next.station_m - one.station_m <= SAME_SPOT_M);
        Self {
            profiles: groups.filter_map(Profile::new).collect(),
        }
    }

    /// The two profiles around a station.
    fn span(&self, station_m: f64) -> Option<(&Profile, &Profile)> {
        let n_before = self
            .profiles
            .partition_point(|profile| profile.station_m <= station_m);
        Some((
            self.profiles.get(n_before.checked_sub(1)?)?,
            self.profiles.get(n_before)?,
        ))
    }

    /// Pairs of profiles that shape the surface between two stations; a profile by itself, paired with itself, beyond the last.
    fn spans_between(&self, from_m: f64, to_m: f64) -> Vec<(&Profile, &Profile)> {
        let (Some(first), Some(last)) = (self.profiles.first(), self.profiles.last()) else {
            return Vec::new();
        };
        let mut spans = Vec::new();
        if from_m < first.station_m {
            spans.push((first, first));
        }
        // A single station still lies in a span, on its border in both.
        let is_one_station = from_m >= to_m;
        for (near, far) in self.profiles.iter().zip(self.profiles.iter().skip(1)) {
            let is_inside = near.station_m < to_m && far.station_m > from_m;
            let is_touched = is_one_station && near.station_m <= to_m && far.station_m >= from_m;
            if is_inside || is_touched {
                spans.push((near, far));
            }
        }
        if to_m > last.station_m || spans.is_empty() {
            spans.push((last, last));
        }
        spans
    }
}

impl Profile {
    /// Readings at one station, in order along the run; several at one spot count by their mean. `None` without any.
    fn new(readings: &[Reading]) -> Option<Self> {
        let station_m = 0.5 * (readings.first()?.station_m + readings.last()?.station_m);
        let mut across: Vec<(f64, f64)> = readings
            .iter()
            .map(|reading| (reading.offset_m, reading.level_m))
            .collect();
        across.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
        let groups = across.chunk_by(|one, next| next.0 - one.0 <= SAME_SPOT_M);
        let spots = groups.filter_map(|same| {
            let offset_m = 0.5 * (same.first()?.0 + same.last()?.0);
            let (sum_m, n_readings) = same
                .iter()
                .fold((0.0, 0.0), |(sum_m, n), spot| (sum_m + spot.1, n + 1.0));
            Some((offset_m, sum_m / n_readings))
        });
        Some(Self {
            station_m,
            spots: spots.collect(),
        })
    }

    /// Level at an offset: straight between two spots, flat beyond the outermost.
    fn level_m(&self, offset_m: f64) -> f64 {
        let n_left = self.spots.partition_point(|spot| spot.0 <= offset_m);
        match (
            n_left.checked_sub(1).and_then(|idx| self.spots.get(idx)),
            self.spots.get(n_left),
        ) {
            (Some(left), Some(right)) => {
                left.1 + (offset_m - left.0) / (right.0 - left.0) * (right.1 - left.1)
            }
            (Some(only), None) | (None, Some(only)) => only.1,
            (None, None) => 0.0,
        }
    }
}

/// Offsets at which the ground is cut between two profiles, from left to right, each once.
fn creases_m(near: &Profile, far: &Profile) -> Vec<f64> {
    let mut creases_m: Vec<f64> = near
        .spots
        .iter()
        .chain(&far.spots)
        .map(|spot| spot.0)
        .collect();
    creases_m.sort_by(f64::total_cmp);
    creases_m.dedup();
    creases_m
}

/// Level at a spot between two profiles, on the flat facet in which it lies.
fn level_between(near: &Profile, far: &Profile, station_m: f64, offset_m: f64) -> f64 {
    let along = (station_m - near.station_m) / (far.station_m - near.station_m);
    let creases_m = creases_m(near, far);
    let n_left = creases_m.partition_point(|crease_m| *crease_m <= offset_m);
    let left_m = n_left
        .checked_sub(1)
        .and_then(|idx| creases_m.get(idx))
        .copied();
    let (Some(left_m), Some(right_m)) = (left_m, creases_m.get(n_left).copied()) else {
        let (near_m, far_m) = (near.level_m(offset_m), far.level_m(offset_m));
        return near_m + along * (far_m - near_m);
    };
    let across = (offset_m - left_m) / (right_m - left_m);
    let (near_left_m, far_right_m) = (near.level_m(left_m), far.level_m(right_m));
    if across >= along {
        let near_right_m = near.level_m(right_m);
        near_left_m + across * (near_right_m - near_left_m) + along * (far_right_m - near_right_m)
    } else {
        let far_left_m = far.level_m(left_m);
        near_left_m + along * (far_left_m - near_left_m) + across * (far_right_m - far_left_m)
    }
}

/// The old surface of a site; readings that cannot be used are named in the findings and left out.
pub(super) fn old_surface(site: &Site, run: &Run, findings: &mut Findings) -> OldSurface {
    OldSurface::from_readings(readings(site, run, findings))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn surface(readings: &[(f64, f64, f64)]) -> OldSurface {
        let reading = |&(station_m, offset_m, level_m): &(f64, f64, f64)| Reading {
            station_m,
            offset_m,
            level_m,
        };
        OldSurface::from_readings(readings.iter().map(reading).collect())
    }

    #[track_caller]
    fn check(surface: &OldSurface, station_m: f64, offset_m: f64, level_m: f64, known: bool) {
        let found = surface.at(metres(station_m), metres(offset_m)).unwrap();
        assert!(
            (in_metres(found.level) - level_m).abs() < 1e-12,
            "{} m",
            in_metres(found.level)
        );
        assert_eq!(found.known, known);
    }

    #[test]
    fn one_reading_is_held_flat_and_known_only_where_it_stands() {
        let surface = surface(&[(2.0, 0.0, -0.1)]);
        check(&surface, 2.0, 3.0, -0.1, true);
        check(&surface, 0.0, 0.0, -0.1, false);
        check(&surface, 9.0, -1.0, -0.1, false);
        assert!(
            super::OldSurface::default()
                .at(metres(1.0), metres(0.0))
                .is_none()
        );
    }

    #[test]
    fn centre_readings_are_straight_along() {
        let surface = surface(&[(0.0, 0.0, -0.1), (4.0, 0.0, -0.3), (10.0, 0.0, -0.3)]);
        check(&surface, 1.0, 0.7, -0.15, true); // a quarter of the way down 0.2 m
        check(&surface, 7.0, 0.0, -0.3, true);
        check(&surface, 10.5, 0.0, -0.3, false);
    }

    #[test]
    fn a_piece_is_folded_from_near_left_to_far_right() {
        // Corners: near 0 and 0, far left 0, far right 1 m high.
        let surface = surface(&[
            (0.0, 0.0, 0.0),
            (0.0, 1.0, 0.0),
            (2.0, 0.0, 0.0),
            (2.0, 1.0, 1.0),
        ]);
        check(&surface, 1.0, 0.5, 0.5, true); // on the fold, half way: (0 + 1) ÷ 2, where the other diagonal would give 0
        check(&surface, 1.0, 0.25, 0.25, true);
        check(&surface, 1.0, 0.75, 0.5, true);
        check(&surface, 1.0, 2.0, 0.5, true); // right of the readings: level across
        let folds = surface.folds_between(metres(0.5), metres(1.0));
        assert_eq!(
            folds,
            [((metres(0.0), metres(0.0)), (metres(2.0), metres(1.0)))]
        );
    }

    #[test]
    fn readings_at_one_spot_count_by_their_mean() {
        let surface = surface(&[(1.0, 0.0, -0.1), (1.000_488_281_25, 0.000_488_281_25, -0.2)]);
        check(&surface, 1.000_244_140_625, 0.0, -0.15, true);
        assert_eq!(surface.station_breaks(), [metres(1.000_244_140_625)]);
    }

    #[test]
    fn offsets_come_from_both_profiles() {
        let surface = surface(&[
            (0.0, -0.5, 0.0),
            (0.0, 0.5, 0.1),
            (3.0, 0.0, 0.2),
            (5.0, 0.0, 0.0),
        ]);
        let offsets = |from_m, to_m| surface.offsets_between(metres(from_m), metres(to_m));
        assert_eq!(offsets(0.0, 3.0), [metres(-0.5), metres(0.0), metres(0.5)]);
        assert_eq!(offsets(3.0, 5.0), [metres(0.0)]);
        assert_eq!(offsets(6.0, 7.0), [metres(0.0)]);
        // At one station, on the border of two spans, the folds of both.
        assert_eq!(offsets(3.0, 3.0), [metres(-0.5), metres(0.0), metres(0.5)]);
    }

    proptest! {
        /// The level never jumps: two spots near each other, whatever border lies between, differ no more than the steepest facet allows.
        #[test]
        fn the_surface_has_no_steps(
            levels_m in proptest::collection::vec(-0.5..0.5_f64, 9),
            station_m in -1.0..7.0_f64,
            offset_m in -2.0..2.0_f64,
            (aside_m, along_m) in (-1e-6..1e-6_f64, -1e-6..1e-6_f64),
        ) {
            let spots = [(0.0, -0.6), (0.0, 0.0), (0.0, 0.6), (2.0, 0.0), (3.5, -0.3), (3.5, 0.7), (6.0, -0.6), (6.0, 0.1), (6.0, 0.6)];
            let readings: Vec<_> = spots.iter().zip(&levels_m).map(|(spot, level_m)| (spot.0, spot.1, *level_m)).collect();
            let surface = surface(&readings);
            let level_m = |station_m: f64, offset_m: f64| in_metres(surface.at(metres(station_m), metres(offset_m)).unwrap().level);
            let here_m = level_m(station_m, offset_m);
            // Levels differ by at most 1 m over facets that are at least 0.1 m wide and 1.5 m long: slopes below 1 ÷ 0.1 + 2 ÷ 1.5 < 12.
            prop_assert!((level_m(station_m + along_m, offset_m + aside_m) - here_m).abs() <= 12.0 * (aside_m.abs() + along_m.abs()) + 1e-12);
            // On every border itself, from both sides.
            for border_m in [-0.6, -0.3, 0.0, 0.1, 0.6, 0.7] {
                prop_assert!((level_m(station_m, border_m + 1e-9) - level_m(station_m, border_m - 1e-9)).abs() < 3e-8);
            }
            for border_m in [0.0, 2.0, 3.5, 6.0] {
                prop_assert!((level_m(border_m + 1e-9, offset_m) - level_m(border_m - 1e-9, offset_m)).abs() < 3e-8);
            }
        }

        /// On every triangle between two profiles the surface is a plane: anywhere in it the level is the mean of its corners', weighted.
        #[test]
        fn the_surface_is_flat_on_every_facet(
            levels_m in proptest::collection::vec(-0.5..0.5_f64, 5),
            weights in proptest::collection::vec(0.001..1.0_f64, 3),
        ) {
            let spots = [(0.0, -0.6), (0.0, 0.6), (2.0, -0.3), (2.0, 0.1), (2.0, 0.7)];
            let readings: Vec<_> = spots.iter().zip(&levels_m).map(|(spot, level_m)| (spot.0, spot.1, *level_m)).collect();
            let surface = surface(&readings);
            let level_m = |spot: (f64, f64)| in_metres(surface.at(metres(spot.0), metres(spot.1)).unwrap().level);
            let folds = surface.folds_between(metres(0.0), metres(2.0));
            prop_assert_eq!(folds.len(), 4); // between the five offsets
            for (near_left, far_right) in folds {
                let (left_m, right_m) = (in_metres(near_left.1), in_metres(far_right.1));
                for third in [(0.0, right_m), (2.0, left_m)] {
                    let corners = [(0.0, left_m), (2.0, right_m), third];
                    let sum: f64 = weights.iter().sum();
                    let weighted = |value: &dyn Fn((f64, f64)) -> f64| -> f64 {
                        corners.iter().zip(&weights).map(|(corner, weight)| weight / sum * value(*corner)).sum()
                    };
                    let spot = (weighted(&|corner| corner.0), weighted(&|corner| corner.1));
                    prop_assert!((level_m(spot) - weighted(&level_m)).abs() < 1e-12);
                }
            }
        }

        /// The surface goes through every reading.
        #[test]
        fn the_surface_goes_through_its_readings(levels_m in proptest::collection::vec(-0.5..0.5_f64, 5)) {
            let spots = [(0.0, -0.6), (0.0, 0.6), (2.0, 0.0), (3.5, -0.3), (3.5, 0.7)];
            let readings: Vec<_> = spots.iter().zip(&levels_m).map(|(spot, level_m)| (spot.0, spot.1, *level_m)).collect();
            let surface = surface(&readings);
            for (station_m, offset_m, level_m) in readings {
                let found = surface.at(metres(station_m), metres(offset_m)).unwrap();
                prop_assert!((in_metres(found.level) - level_m).abs() < 1e-12);
            }
        }
    }
}

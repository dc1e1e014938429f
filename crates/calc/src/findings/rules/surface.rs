//! What the old surface tells.

use super::look::{Facts, Reading, some};
use crate::line::{NearTheHouse, OldSurface};
use crate::measure::slope::Fall;
use crate::place::Place;
use crate::quantity::{Length, feet, in_metres, metres};

pub(super) fn falls_to_house(facts: &Facts<'_>) -> Option<Vec<Reading>> {
    let near = near_the_house(facts).filter(|near| near.falls_to_house())?;
    some(readings_of(facts, near.reach))
}

/// Less fall than that from the door to the far reading, a fall to the house among them. A walk without length falls nowhere.
pub(super) fn fall_below(facts: &Facts<'_>, limit: Fall) -> Option<Vec<Reading>> {
    let near = near_the_house(facts)?;
    let reach_m = in_metres(near.reach);
    let falls_m = -in_metres(near.towards_house);
    let is_less = reach_m > 0.0 && falls_m + 1e-9 < limit.ratio() * reach_m;
    is_less
        .then(|| readings_of(facts, near.reach))
        .and_then(some)
}

/// Readings on the centreline under a straightedge of 10 ft that touches the surface on both sides.
///
/// # Source
/// A straightedge of 10 ft is that of the Interlocking Concrete Pavement Institute's tolerance of flatness.
pub(super) fn low_spots(facts: &Facts<'_>, depth: Length) -> Option<Vec<Reading>> {
    let old = &facts.line?.old_surface;
    let profile = centreline(old);
    let mut deepest_m = vec![0.0_f64; profile.len()];
    for (start, (from_m, _)) in profile.iter().enumerate() {
        let reach = profile
            .iter()
            .skip(start)
            .take_while(|(station_m, _)| station_m - from_m <= in_metres(feet(10.0)) + 1e-9);
        let under: Vec<(f64, f64)> = reach.copied().collect();
        let hung = hollows(&under);
        for (deepest_m, hollow_m) in deepest_m.iter_mut().skip(start).zip(hung) {
            *deepest_m = deepest_m.max(hollow_m);
        }
    }
    let low = profile.iter().zip(&deepest_m);
    some(
        low.filter(|(_, hollow_m)| **hollow_m > in_metres(depth) + 1e-9)
            .flat_map(|((station_m, _), _)| shots_at(facts, *station_m))
            .collect(),
    )
}

fn near_the_house(facts: &Facts<'_>) -> Option<NearTheHouse> {
    let line = facts.line?;
    NearTheHouse::of(&line.run, &line.old_surface)
}

/// (station, level) of the centreline wherever there is a reading, in metres.
fn centreline(old: &OldSurface) -> Vec<(f64, f64)> {
    let stations = old.station_breaks().into_iter();
    stations
        .filter_map(|station| {
            let level = old.at(station, metres(0.0))?.level;
            Some((in_metres(station), in_metres(level)))
        })
        .collect()
}

/// How far each point hangs below the upper hull of all; in order of station.
fn hollows(points: &[(f64, f64)]) -> Vec<f64> {
    let mut hull: Vec<(f64, f64)> = Vec::new();
    for point in points {
        while let [.., before, last] = hull.as_slice() {
            let turn = (last.0 - before.0) * (point.1 - before.1)
                - (last.1 - before.1) * (point.0 - before.0);
            if turn < 0.0 {
                break;
            }
            hull.pop();
        }
        hull.push(*point);
    }
    let mut spans = hull.iter().zip(hull.iter().skip(1)).peekable();
    points
        .iter()
        .map(|(station_m, level_m)| {
            while spans.peek().is_some_and(|(_, to)| to.0 < *station_m) {
                spans.next();
            }
            match spans.peek() {
                Some((from, to)) if to.0 > from.0 => {
                    let share = (station_m - from.0) / (to.0 - from.0);
                    from.1 + share * (to.1 - from.1) - level_m
                }
                _ => 0.0,
            }
        })
        .collect()
}

/// The readings of a fall: at the door, and those around the far one.
fn readings_of(facts: &Facts<'_>, reach: Length) -> Vec<Reading> {
    let zero = metres(0.0);
    let mut readings: Vec<Reading> = facts
        .site
        .line
        .old_below_sill
        .map(|_| Reading::measured(Place::OldBelowSill, Some(zero)))
        .into_iter()
        .collect();
    readings.extend(shots_at(facts, 0.0));
    let Some(line) = facts.line else {
        return readings;
    };
    let stations = line.old_surface.station_breaks();
    let before = stations.iter().rev().find(|station| **station <= reach);
    let after = stations.iter().find(|station| **station >= reach);
    for station in [before, after].into_iter().flatten() {
        if in_metres(*station) > 0.0 {
            readings.extend(shots_at(facts, in_metres(*station)));
        }
    }
    readings
}

/// The reading nearest to the centreline at a station.
fn shots_at(facts: &Facts<'_>, station_m: f64) -> Option<Reading> {
    let shots = facts.site.line.shots.iter().enumerate();
    let off_centre = |offset: Option<Length>| in_metres(offset.unwrap_or_default()).abs();
    shots
        .filter(|(_, shot)| {
            shot.reading.is_some()
                && shot
                    .station
                    .is_some_and(|station| (in_metres(station) - station_m).abs() <= SAME_STATION_M)
        })
        .min_by(|(_, one), (_, other)| off_centre(one.offset).total_cmp(&off_centre(other.offset)))
        .map(|(shot_idx, shot)| Reading::measured(Place::ShotReading(shot_idx), shot.station))
}

/// Readings nearer to one another than this count as one station.
const SAME_STATION_M: f64 = 0.001_5;

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(points: &[(f64, f64)], expected: &[f64]) {
        let found = hollows(points);
        assert_eq!(found.len(), expected.len());
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-12, "{found} not {expected}");
        }
    }

    #[test]
    fn a_straightedge_rests_on_the_high_spots() {
        // An even slope is hollow nowhere, however steep.
        check(&[(0.0, 0.0), (1.0, -1.0), (2.0, -2.0)], &[0.0, 0.0, 0.0]);
        // One spot 3 below the middle of its neighbours, which stand 1 apart in level.
        check(&[(0.0, 0.0), (1.0, -3.5), (2.0, -1.0)], &[0.0, 3.0, 0.0]);
        // A hump: the straightedge rests on it, and each side hangs from there.
        check(
            &[(0.0, 0.0), (1.0, -1.0), (2.0, 2.0), (3.0, 0.0), (4.0, 0.0)],
            &[0.0, 2.0, 0.0, 1.0, 0.0],
        );
        check(&[(0.0, 5.0)], &[0.0]);
        check(&[], &[]);
    }
}

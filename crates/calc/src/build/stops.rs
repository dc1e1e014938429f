//! Where stakes stand, and why.

use super::stake::StakeWhy;
use crate::ground::Ground;
use crate::line::{GradeLine, Line};
use crate::quantity::{Length, inches, metres};

/// A station at which a stake stands.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stop {
    pub station: Length,
    pub side: Side,
    /// Never empty, in order.
    pub why: Vec<StakeWhy>,
}

/// From which side a station is looked at, where the grade line jumps there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Side {
    /// On what ends there.
    Before,
    /// On what starts there.
    Behind,
}

/// The stops from the door to the far end: ends, risers, leg ends, breaks, pits, then the spacing. One that is nearer than an inch to
/// a stop of those before it is the same stop; so a spacing of twice as much gives no other stations, only fewer.
pub(super) fn stops(line: &Line, ground: &Ground, spacing: Length) -> Vec<Stop> {
    let length = line.run.length();
    let mut fixed: Vec<Stop> = Vec::new();
    for riser in line.grade.risers() {
        fixed.push(Stop::new(
            riser.station,
            Side::Before,
            StakeWhy::BeforeRiser,
        ));
        fixed.push(Stop::new(
            riser.station,
            Side::Behind,
            StakeWhy::BehindRiser,
        ));
    }
    let ends = [(metres(0.0), StakeWhy::Door), (length, StakeWhy::FarEnd)];
    // The end of the last leg is the far end.
    let leg_ends = line.run.legs().iter().enumerate();
    let leg_ends = leg_ends.map(|(leg_idx, leg)| (leg.end(), StakeWhy::LegEnd(leg_idx)));
    let n_before_last = line.run.legs().len().saturating_sub(1);
    let breaks = breaks(&line.grade).map(|station| (station, StakeWhy::Break));
    let pits = ground.pits.iter();
    let pits = pits.map(|pit| (pit.station, StakeWhy::Pit(pit.pit_idx)));
    for (station, why) in ends
        .into_iter()
        .chain(leg_ends.take(n_before_last))
        .chain(breaks)
        .chain(pits)
    {
        match same_stop(&mut fixed, station, why) {
            Some(stop) => stop.why.push(why),
            None => fixed.push(Stop::new(station, Side::Behind, why)),
        }
    }
    let mut spaced = Vec::new();
    for station in multiples(spacing, length) {
        match same_stop(&mut fixed, station, StakeWhy::Spacing) {
            Some(stop) => stop.why.push(StakeWhy::Spacing),
            None => spaced.push(Stop::new(station, Side::Behind, StakeWhy::Spacing)),
        }
    }
    let mut stops = fixed;
    stops.append(&mut spaced);
    stops.sort_by(|one, other| {
        let by_station = one.station.value.total_cmp(&other.station.value);
        by_station.then(one.side.cmp(&other.side))
    });
    for stop in &mut stops {
        stop.why.sort();
        stop.why.dedup();
    }
    stops
}

impl Stop {
    fn new(station: Length, side: Side, why: StakeWhy) -> Self {
        Self {
            station,
            side,
            why: vec![why],
        }
    }
}

/// The stop that this station is counted to, nearer than an inch; at a riser the one on its side of it.
fn same_stop(stops: &mut [Stop], station: Length, why: StakeWhy) -> Option<&mut Stop> {
    let side_of = |riser: Length| {
        let is_before = station < riser || (station == riser && why == StakeWhy::Door);
        if is_before {
            Side::Before
        } else {
            Side::Behind
        }
    };
    let away = |stop: &Stop| (stop.station - station).abs();
    stops
        .iter_mut()
        .filter(|stop| away(stop) < inches(1.0))
        .min_by(|one, other| {
            let by_distance = away(one).value.total_cmp(&away(other).value);
            let is_other_side = |stop: &Stop| stop.side != side_of(stop.station);
            by_distance.then(is_other_side(one).cmp(&is_other_side(other)))
        })
}

/// Stations at which the fall changes and no riser stands.
fn breaks(grade: &GradeLine) -> impl Iterator<Item = Length> {
    let risers = grade.risers();
    grade
        .breaks()
        .into_iter()
        .filter(move |station| risers.iter().all(|riser| riser.station != *station))
}

/// The multiples of the spacing that lie within the run.
fn multiples(spacing: Length, length: Length) -> impl Iterator<Item = Length> {
    (1_u32..)
        .map(move |n| spacing * f64::from(n))
        .take_while(move |station| *station < length)
}

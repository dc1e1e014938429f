//! The rules that a grade line is held to, each with its source. Ratios are compared as such, never as rounded percents.

use crate::findings::Source;
use crate::measure::slope::Fall;
use crate::quantity::{Length, feet, inches};

/// Least fall away from the house near it: 2 %.
pub(super) const LEAST_AWAY_FROM_HOUSE: f64 = 1.0 / 50.0;
/// Least slope that drains a brick pavement: 1/4 in per ft.
pub(super) const LEAST_TO_DRAIN: f64 = 1.0 / 48.0;
/// Steepest walking surface.
pub(super) const STEEPEST_WALK: f64 = 1.0 / 20.0;
/// Steepest ramp.
pub(super) const STEEPEST_RAMP: f64 = 1.0 / 12.0;
/// Steepest cross slope of walk and ramp.
pub(super) const STEEPEST_ACROSS: f64 = 1.0 / 48.0;

/// Fall away from the house. Rows A8, A23.
pub(super) const HOUSE: Source = Source::Published(
    "International Residential Code R401.3: paving within 10 ft of the house falls 2 % away from it",
);
/// Slope that drains. Row P15.
pub(super) const DRAINS: Source = Source::Published(
    "Brick Industry Association, Technical Note 14A: at least 1/4 in per ft of slope",
);
/// Walking surface. Row A1.
pub(super) const WALK: Source = Source::Published(
    "2010 ADA Standards 403.3 (accessible option): a walk is no steeper than 1:20 along",
);
/// Cross slope. Row A1.
pub(super) const ACROSS: Source =
    Source::Published("2010 ADA Standards 403.3 (accessible option): no steeper than 1:48 across");
/// Ramp. Row A2: landings of 60 in, 30 in of rise between them, 36 in of clear width, handrails where it rises more than 6 in.
pub(super) const RAMP: Source = Source::Published(
    "2010 ADA Standards 405 (accessible option): a ramp is no steeper than 1:12, with landings and handrails",
);
/// Change in level. Row A3: up to 1/4 in upright, up to 1/2 in bevelled 1:2.
pub(super) const LEVEL_CHANGE: Source = Source::Published(
    "2010 ADA Standards 303 (accessible option): no step above 1/4 in, or 1/2 in bevelled 1:2",
);
/// Stair. Row A9.
pub(super) const STAIR: Source = Source::Published(
    "International Residential Code R311.7: risers up to 7 3/4 in, treads from 10 in",
);

/// How far from the house its rule reaches.
pub(super) fn near_the_house() -> Length {
    feet(10.0)
}

/// Highest riser, row A9.
pub(super) fn highest_riser() -> Length {
    inches(7.75)
}

/// Lowest riser: the International Building Code's, from memory (row A10); the residential code has none.
pub(super) fn lowest_riser() -> Length {
    inches(4.0)
}

/// Shortest tread, row A9.
pub(super) fn shortest_tread() -> Length {
    inches(10.0)
}

/// Landing at the door and beyond steps, along the walk: International Residential Code R311.3 and R311.7.6, from memory.
pub(super) fn step_landing() -> Length {
    inches(36.0)
}

/// Highest rise of a ramp from landing to landing, row A2.
pub(super) fn highest_ramp_run() -> Length {
    inches(30.0)
}

/// Landing of a ramp, along it, row A2.
pub(super) fn ramp_landing() -> Length {
    inches(60.0)
}

/// Narrowest ramp, row A2.
pub(super) fn narrowest_ramp() -> Length {
    inches(36.0)
}

/// Whether a value keeps an upper limit; a limit that is met exactly is kept, whatever the last figure of a quotient.
pub(super) fn at_most(value: f64, limit: f64) -> bool {
    value <= limit * (1.0 + 1e-12)
}

/// Whether a value keeps a lower limit above zero.
pub(super) fn at_least(value: f64, limit: f64) -> bool {
    value >= limit * (1.0 - 1e-12)
}

/// The rules that a uniform fall breaks by itself, each named with its source.
pub(super) fn broken_by(fall: Fall, cross_fall: Fall, is_ramp: bool) -> Vec<String> {
    let mut broken = Vec::new();
    let along = fall.ratio();
    if !at_least(along, LEAST_AWAY_FROM_HOUSE) {
        broken.push(HOUSE.words().to_owned());
    }
    if !at_least(fall.steepest_with(cross_fall).ratio(), LEAST_TO_DRAIN) {
        broken.push(DRAINS.words().to_owned());
    }
    if !is_ramp && !at_most(along.abs(), STEEPEST_WALK) {
        broken.push(WALK.words().to_owned());
    }
    if !at_most(along.abs(), STEEPEST_RAMP) {
        broken.push(RAMP.words().to_owned());
    }
    if !at_most(cross_fall.ratio().abs(), STEEPEST_ACROSS) {
        broken.push(ACROSS.words().to_owned());
    }
    broken
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::in_metres;

    #[track_caller]
    fn check(along: f64, across: f64, broken: &[&Source]) {
        let (fall, cross_fall) = (
            Fall::from_ratio(along).unwrap(),
            Fall::from_ratio(across).unwrap(),
        );
        let expected: Vec<&str> = broken.iter().map(|source| source.words()).collect();
        assert_eq!(broken_by(fall, cross_fall, false), expected);
    }

    #[test]
    fn running_slopes_are_compared_as_ratios() {
        // Rows A6 and A14, steeper than 1:20 is a ramp: 5.000 % walk, 5.01 % ramp, 8.333 % ramp, 8.34 % fails.
        check(0.05, 0.0, &[]);
        check(0.050_1, 0.0, &[&WALK]);
        check(0.083_33, 0.0, &[&WALK]);
        check(1.0 / 12.0, 0.0, &[&WALK]);
        check(0.083_4, 0.0, &[&WALK, &RAMP]);
        // 1 ft over 20 ft, worked out from lengths in metres.
        check(in_metres(feet(1.0)) / in_metres(feet(20.0)), 0.0, &[]);
        check(
            in_metres(feet(3.0)) / in_metres(feet(36.0)) * 0.999,
            0.0,
            &[&WALK],
        );
    }

    #[test]
    fn cross_slopes_are_compared_as_ratios() {
        // Row A15: 1/48 passes, 2.09 % and 2.5 % fail. Row A16: 1/4 in per ft is 1/48 exactly.
        check(0.03, 1.0 / 48.0, &[]);
        check(0.03, Fall::inches_per_foot(0.25).ratio(), &[]);
        check(0.03, 0.020_9, &[&ACROSS]);
        check(0.03, -0.025, &[&ACROSS]);
    }

    #[test]
    fn what_drains_is_the_slope_of_both_together() {
        // Row A22: 2 % along and 1.5 % across are 2.5 % together, more than 1/4 in per ft.
        let both = Fall::percent(2.0).steepest_with(Fall::percent(1.5));
        assert!((both.ratio() - 0.025).abs() < 1e-9);
        check(0.02, 0.015, &[]);
        check(0.02, 0.0, &[&DRAINS]);
        check(0.01, 1.0 / 48.0, &[&HOUSE]);
        check(-0.01, 0.0, &[&HOUSE, &DRAINS]);
    }
}

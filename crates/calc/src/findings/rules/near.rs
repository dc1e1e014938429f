//! Readings that lie near one another along the run.

use super::look::{Reading, some};
use crate::quantity::{Length, in_metres};

/// Those of both that have one of the other no further away than `within`; a reading without a station is near everything.
pub(super) fn both(one: &[Reading], other: &[Reading], within: Length) -> Option<Vec<Reading>> {
    let has_near = |reading: &Reading, among: &[Reading]| {
        among
            .iter()
            .any(|candidate| match (reading.station, candidate.station) {
                (Some(here), Some(there)) => {
                    in_metres(here - there).abs() <= in_metres(within) + 1e-9
                }
                (None, _) | (_, None) => true,
            })
    };
    some(
        one.iter()
            .filter(|reading| has_near(reading, other))
            .chain(other.iter().filter(|reading| has_near(reading, one)))
            .copied()
            .collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::place::Place;
    use crate::quantity::feet;

    fn at(sign_idx: usize, station_ft: Option<f64>) -> Reading {
        Reading::measured(Place::Sign(sign_idx), station_ft.map(feet))
    }

    #[track_caller]
    fn check(one: &[Reading], other: &[Reading], expected: &[usize]) {
        let places: Vec<Place> = both(one, other, feet(3.0))
            .unwrap_or_default()
            .iter()
            .map(|reading| reading.place)
            .collect();
        let expected: Vec<Place> = expected.iter().map(|idx| Place::Sign(*idx)).collect();
        assert_eq!(places, expected);
    }

    #[test]
    fn only_what_lies_near_something_of_the_other_is_kept() {
        let here = [at(0, Some(2.0)), at(1, Some(12.0))];
        check(&here, &[at(2, Some(5.0))], &[0, 2]);
        check(&here, &[at(2, Some(5.1))], &[]);
        check(&here, &[at(2, None)], &[0, 1, 2]);
        check(&here, &[], &[]);
    }
}

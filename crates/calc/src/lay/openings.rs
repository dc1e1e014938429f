//! Places that the brick leaves free: where they lie in plan, and which of them cannot be.

use super::band::in_plan;
use super::pieces::PlanPoint;
use crate::line::Run;
use crate::quantity::{Length, in_metres, metres};
use crate::site::Opening;

/// Openings nearer to each other or beyond an edge by no more than this are not yet faults: 1/16 in, as a tape is read.
const AS_READ_M: f64 = 0.001_587_5;

/// An opening in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlacedOpening {
    /// Which opening of the site.
    pub opening_idx: usize,
    /// Station of its middle.
    pub station: Length,
    /// Its four corners, counter-clockwise as seen from above: two sides run as the run does at its middle.
    pub outline: [PlanPoint; 4],
}

/// Why an opening cannot be as written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OpeningFault {
    /// Station, offset or a size of it is missing, or a size is zero or less.
    NotKnown,
    /// Its middle lies before the door, beyond the far end or beside the clear width: nothing is left free there.
    OutsideTheWalk,
    /// It reaches over an edge of the clear width, the door or the far end.
    OverAnEdge,
    /// It is as wide as the clear width, so that the walk is cut in two.
    WiderThanTheWalk,
    /// It overlaps that opening, which comes before it in the list.
    Overlaps(usize),
}

/// The openings that lie in the walk, and all faults with the number of their opening. One that reaches over an edge or overlaps another
/// is left free all the same.
#[must_use]
pub fn openings(
    run: &Run,
    written: &[Opening],
) -> (Vec<PlacedOpening>, Vec<(usize, OpeningFault)>) {
    let mut placed: Vec<PlacedOpening> = Vec::new();
    let mut faults = Vec::new();
    for (opening_idx, opening) in written.iter().enumerate() {
        let Some(known) = Known::of(opening) else {
            faults.push((opening_idx, OpeningFault::NotKnown));
            continue;
        };
        if let Some(fault) = known.fault(run) {
            faults.push((opening_idx, fault));
            if fault == OpeningFault::OutsideTheWalk {
                continue;
            }
        }
        let outline = known.outline(run);
        let overlapped = placed
            .iter()
            .find(|other| overlap(&other.outline, &outline));
        if let Some(other) = overlapped {
            faults.push((opening_idx, OpeningFault::Overlaps(other.opening_idx)));
        }
        placed.push(PlacedOpening {
            opening_idx,
            station: known.station,
            outline,
        });
    }
    (placed, faults)
}

impl PlacedOpening {
    /// Its corners moved outwards, so that a joint stays between it and the brick.
    #[must_use]
    pub fn with_joint(&self, joint: Length) -> [PlanPoint; 4] {
        let [near_left, near_right, far_right, far_left] = self.outline;
        let by_m = in_metres(joint);
        let (across, along) = (
            towards(near_left, near_right),
            towards(near_right, far_right),
        );
        let moved = |corner: PlanPoint, across_sign: f64, along_sign: f64| PlanPoint {
            right_m: corner.right_m + by_m * (across_sign * across.0 + along_sign * along.0),
            away_m: corner.away_m + by_m * (across_sign * across.1 + along_sign * along.1),
        };
        [
            moved(near_left, -1.0, -1.0),
            moved(near_right, 1.0, -1.0),
            moved(far_right, 1.0, 1.0),
            moved(far_left, -1.0, 1.0),
        ]
    }
}

/// An opening of which everything is known.
struct Known {
    station: Length,
    offset: Length,
    along: Length,
    across: Length,
}

impl Known {
    fn of(opening: &Opening) -> Option<Self> {
        let is_a_size = |size: &Length| in_metres(*size) > 0.0;
        Some(Self {
            station: opening.station?,
            offset: opening.offset.unwrap_or_else(|| metres(0.0)),
            along: opening.along.filter(is_a_size)?,
            across: opening.across.filter(is_a_size)?,
        })
    }

    fn fault(&self, run: &Run) -> Option<OpeningFault> {
        let half_clear_m = 0.5 * in_metres(run.clear_width_at(self.station));
        let (station_m, offset_m) = (in_metres(self.station), in_metres(self.offset));
        let (half_along_m, half_across_m) =
            (0.5 * in_metres(self.along), 0.5 * in_metres(self.across));
        let length_m = in_metres(run.length());
        if station_m < 0.0 || station_m > length_m || offset_m.abs() >= half_clear_m {
            return Some(OpeningFault::OutsideTheWalk);
        }
        if half_across_m >= half_clear_m - AS_READ_M {
            return Some(OpeningFault::WiderThanTheWalk);
        }
        let is_over = station_m - half_along_m < -AS_READ_M
            || station_m + half_along_m > length_m + AS_READ_M
            || offset_m.abs() + half_across_m > half_clear_m + AS_READ_M;
        is_over.then_some(OpeningFault::OverAnEdge)
    }

    fn outline(&self, run: &Run) -> [PlanPoint; 4] {
        let middle = in_plan(run, self.station, self.offset);
        let beside = in_plan(run, self.station, self.offset + metres(1.0));
        let across = (
            beside.right_m - middle.right_m,
            beside.away_m - middle.away_m,
        );
        let half_along_m = in_metres(self.along * 0.5);
        let half_across_m = in_metres(self.across * 0.5);
        [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(across_sign, along_sign)| {
            let (across_m, along_m) = (across_sign * half_across_m, along_sign * half_along_m);
            // A quarter turn to the left of the way across leads along.
            PlanPoint {
                right_m: middle.right_m + across.0 * across_m - across.1 * along_m,
                away_m: middle.away_m + across.1 * across_m + across.0 * along_m,
            }
        })
    }
}

fn towards(from: PlanPoint, to: PlanPoint) -> (f64, f64) {
    let (right_m, away_m) = (to.right_m - from.right_m, to.away_m - from.away_m);
    let length_m = libm::hypot(right_m, away_m);
    (right_m / length_m, away_m / length_m)
}

/// Whether two rectangles share ground: no side of either keeps the other all on its outside.
fn overlap(one: &[PlanPoint; 4], other: &[PlanPoint; 4]) -> bool {
    !keeps_out(one, other) && !keeps_out(other, one)
}

fn keeps_out(one: &[PlanPoint; 4], other: &[PlanPoint; 4]) -> bool {
    let ends = one.iter().cycle().skip(1);
    one.iter().zip(ends).any(|(&from, &to)| {
        let (along_right, along_away) = towards(from, to);
        other.iter().all(|corner| {
            let inside_m = along_right * (corner.away_m - from.away_m)
                - along_away * (corner.right_m - from.right_m);
            inside_m <= AS_READ_M
        })
    })
}

#[cfg(test)]
mod tests {
    use super::super::pieces::area_m2;
    use super::super::walks::run_of;
    use super::*;
    use std::f64::consts::FRAC_PI_2;

    fn opening(station_m: f64, offset_m: f64, along_m: f64, across_m: f64) -> Opening {
        Opening {
            station: Some(metres(station_m)),
            offset: Some(metres(offset_m)),
            along: Some(metres(along_m)),
            across: Some(metres(across_m)),
        }
    }

    #[track_caller]
    fn check(written: &[Opening], n_placed: usize, expected: &[(usize, OpeningFault)]) {
        // Straight, 6 m long, 1.2 m wide.
        let (placed, faults) = openings(&run_of(1.2, &[(6.0, 0.0, 1.2)]), written);
        assert_eq!(placed.len(), n_placed);
        assert_eq!(faults, expected);
    }

    #[test]
    fn what_cannot_be_is_said() {
        check(&[opening(3.0, 0.0, 0.3, 0.3)], 1, &[]);
        check(
            &[opening(-0.1, 0.0, 0.3, 0.3)],
            0,
            &[(0, OpeningFault::OutsideTheWalk)],
        );
        check(
            &[opening(6.1, 0.0, 0.3, 0.3)],
            0,
            &[(0, OpeningFault::OutsideTheWalk)],
        );
        check(
            &[opening(3.0, 0.6, 0.3, 0.3)],
            0,
            &[(0, OpeningFault::OutsideTheWalk)],
        );
        check(
            &[opening(3.0, 0.5, 0.3, 0.3)],
            1,
            &[(0, OpeningFault::OverAnEdge)],
        );
        // 0.45 + 0.15 = 0.6: up to the edge.
        check(&[opening(3.0, 0.45, 0.3, 0.3)], 1, &[]);
        check(
            &[opening(0.1, 0.0, 0.3, 0.3)],
            1,
            &[(0, OpeningFault::OverAnEdge)],
        );
        check(
            &[opening(3.0, 0.0, 0.1, 1.2)],
            1,
            &[(0, OpeningFault::WiderThanTheWalk)],
        );
        check(
            &[opening(3.0, 0.0, 0.0, 0.3)],
            0,
            &[(0, OpeningFault::NotKnown)],
        );
        check(&[Opening::default()], 0, &[(0, OpeningFault::NotKnown)]);
        // 3.0 + 0.15 against 3.2 - 0.1: overlapping; against 3.3 - 0.15: side by side.
        check(
            &[opening(3.0, 0.0, 0.3, 0.3), opening(3.2, 0.1, 0.2, 0.2)],
            2,
            &[(1, OpeningFault::Overlaps(0))],
        );
        check(
            &[opening(3.0, 0.0, 0.3, 0.3), opening(3.3, 0.1, 0.3, 0.2)],
            2,
            &[],
        );
    }

    #[test]
    fn an_opening_on_a_curve_stands_square_to_it() {
        // A quarter circle of 3 m to the right: its end heads right. 0.4 along is to the right there, 0.2 across is away and back.
        let run = run_of(1.2, &[(3.0 * FRAC_PI_2, FRAC_PI_2, 1.2)]);
        let station_m = 3.0 * FRAC_PI_2;
        let (placed, faults) = openings(&run, &[opening(station_m, 0.1, 0.4, 0.2)]);
        assert_eq!(faults, [(0, OpeningFault::OverAnEdge)]);
        let outline = placed[0].outline;
        let expected = [(2.8, 3.0), (2.8, 2.8), (3.2, 2.8), (3.2, 3.0)];
        for (corner, (right_m, away_m)) in outline.iter().zip(expected) {
            assert!((corner.right_m - right_m).abs() < 1e-12, "{outline:?}");
            assert!((corner.away_m - away_m).abs() < 1e-12, "{outline:?}");
        }
        // With a joint of 1 cm all round: 0.42 x 0.22.
        let with_joint = placed[0].with_joint(metres(0.01));
        assert!((area_m2(&with_joint) - 0.42 * 0.22).abs() < 1e-12);
    }
}

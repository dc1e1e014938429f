//! Where a walk that widens or narrows gains or loses a course.

use crate::line::{Run, RunLeg};
use crate::quantity::{Length, in_metres};

/// A station at which the clear width passes that of a whole number of courses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunsOut {
    /// Where.
    pub station: Length,
    /// Whole courses before it.
    pub n_before: u32,
    /// Whole courses after it.
    pub n_after: u32,
}

/// Stations at which a course runs out or comes in, from the door on: where the clear width is n units and n + 1 joints. On each leg
/// the width changes evenly, so each is a straight-line share of the leg.
pub(super) fn runs_out(run: &Run, unit: Length, joint: Length) -> Vec<RunsOut> {
    run.legs()
        .iter()
        .flat_map(|leg| on_leg(leg, in_metres(unit), in_metres(joint)))
        .collect()
}

/// A width that is that of whole courses to a rounding counts as whole.
const ROUNDING: f64 = 1e-9;

fn on_leg(leg: &RunLeg, unit_m: f64, joint_m: f64) -> Vec<RunsOut> {
    let pitch_m = unit_m + joint_m;
    if pitch_m <= 0.0 {
        return Vec::new();
    }
    let courses = |clear: Length| ((in_metres(clear) - joint_m) / pitch_m).max(0.0);
    let (start, end) = (courses(leg.width_at_start), courses(leg.width_at_end));
    let (least, most) = (start.min(end), start.max(end));
    let mut found: Vec<RunsOut> = (1..=u32::from(u16::MAX))
        .skip_while(|n_courses| f64::from(*n_courses) <= least + ROUNDING)
        .take_while(|n_courses| f64::from(*n_courses) <= most - ROUNDING)
        .map(|n_courses| {
            let share = (f64::from(n_courses) - start) / (end - start);
            let station = leg.start + leg.length * share;
            let (n_before, n_after) = if end > start {
                (n_courses - 1, n_courses)
            } else {
                (n_courses, n_courses - 1)
            };
            RunsOut {
                station,
                n_before,
                n_after,
            }
        })
        .collect();
    if end < start {
        found.reverse();
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::Findings;
    use crate::line::tests::{site, straight};
    use crate::quantity::{feet, inches, metres};

    #[track_caller]
    fn check(width_in: f64, end_in: f64, expected: &[(f64, u32, u32)]) {
        let mut leg = straight(feet(20.0));
        leg.width_at_end = Some(inches(end_in));
        let mut site = site(vec![leg]);
        site.line.width = Some(inches(width_in));
        let run = crate::line::line(&site, &mut Findings::default())
            .unwrap()
            .run;
        let found = runs_out(&run, inches(4.0), inches(0.125));
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (found, (station_ft, n_before, n_after)) in found.iter().zip(expected) {
            assert!(
                (in_metres(found.station) - station_ft * 0.3048).abs() < 1e-9,
                "{found:?}"
            );
            assert_eq!((found.n_before, found.n_after), (*n_before, *n_after));
        }
    }

    #[test]
    fn a_course_comes_in_where_the_width_allows_it() {
        // Courses of 4 1/8 in and one joint of 1/8: 9 take 37 1/4 in, 10 take 41 3/8, 11 take 45 1/2. From 36 to 48 in over 20 ft:
        // (37.25 − 36) ÷ 12 × 20 = 2.08333 ft, 8.95833 ft, 15.83333 ft.
        check(
            36.0,
            48.0,
            &[
                (1.25 / 12.0 * 20.0, 8, 9),
                (5.375 / 12.0 * 20.0, 9, 10),
                (9.5 / 12.0 * 20.0, 10, 11),
            ],
        );
        // The other way the same stations from the other end.
        check(
            48.0,
            36.0,
            &[
                (2.5 / 12.0 * 20.0, 11, 10),
                (6.625 / 12.0 * 20.0, 10, 9),
                (10.75 / 12.0 * 20.0, 9, 8),
            ],
        );
        check(36.0, 36.0, &[]);
        // From whole courses to whole courses: none runs out in between.
        check(37.25, 41.375, &[]);
    }

    #[test]
    fn a_course_of_no_width_never_runs_out() {
        assert!(
            on_leg(
                &RunLeg {
                    start: metres(0.0),
                    length: metres(1.0),
                    curvature_per_m: 0.0,
                    width_at_start: metres(1.0),
                    width_at_end: metres(2.0),
                },
                0.0,
                0.0
            )
            .is_empty()
        );
    }
}

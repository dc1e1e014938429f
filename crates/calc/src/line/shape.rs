//! A grade line in pieces: steps, a break, a ramp with its landings.

use super::offers::proper_fall;
use super::rules::{LEAST_TO_DRAIN, shortest_tread};
use super::steeper::RampPlan;
use super::{GradeLine, GradePiece, Run};
use crate::field::{full_name, take_length};
use crate::findings::{Findings, Source, Weight};
use crate::measure::slope::Fall;
use crate::place::Place;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{GradeShape, Site};

/// More risers than this are no steps on a walk.
const MOST_RISERS: u32 = 60;

/// The grade line in the shape that is asked for; as one fall, with a finding, where that cannot be.
pub(super) fn shaped(
    site: &Site,
    run: &Run,
    uniform: GradeLine,
    findings: &mut Findings,
) -> GradeLine {
    let pieces = match site.line.shape {
        GradeShape::Uniform => return uniform,
        GradeShape::Steps {
            n_risers,
            first_at,
            tread,
        } => {
            let first_at = take_length(site, Place::StepsAt, first_at, Weight::Stop, findings);
            let tread = take_length(site, Place::StepTread, tread, Weight::Stop, findings);
            steps(site, run, &uniform, n_risers, first_at, tread)
        }
        GradeShape::Break { at, below_sill } => {
            let at = take_length(site, Place::BreakAt, at, Weight::Stop, findings);
            let below_sill = take_length(
                site,
                Place::BreakBelowSill,
                below_sill,
                Weight::Stop,
                findings,
            );
            two_falls(site, run, &uniform, at, below_sill)
        }
        GradeShape::Ramp => ramp(run, &uniform).map_err(|why| (Place::FarEndBelowSill, why)),
    };
    match pieces {
        Ok(pieces) => uniform.in_pieces(pieces).unwrap_or(uniform),
        Err((place, why)) => {
            findings.note(
                place,
                Weight::Warning,
                Source::Readings,
                format!("{why}; the walk is drawn with one fall."),
                "",
            );
            uniform
        }
    }
}

/// Pieces, or where and why they cannot be.
type Pieces = Result<Vec<GradePiece>, (Place, String)>;

/// With n risers there are n − 1 treads, laid level; what is left of the run falls properly, and a riser is what is then left of the
/// drop, ÷ n.
fn steps(
    site: &Site,
    run: &Run,
    uniform: &GradeLine,
    n_risers: u32,
    first_at: Option<Length>,
    tread: Option<Length>,
) -> Pieces {
    if !uniform.end_is_fixed {
        return Err((
            Place::StepsAt,
            "Steps need a fixed far end to step down to".to_owned(),
        ));
    }
    if !(1..=MOST_RISERS).contains(&n_risers) {
        return Err((
            Place::StepsAt,
            format!("{n_risers} risers are not from 1 to {MOST_RISERS}"),
        ));
    }
    let shown = |length: Length| site.shown_in.length(length);
    let length = run.length();
    let tread = tread.unwrap_or_else(shortest_tread);
    let flight = tread * f64::from(n_risers - 1);
    let first_at = first_at.unwrap_or((length - flight) / 2.0);
    if first_at < metres(0.0) || first_at + flight > length {
        let text = format!(
            "{} is {}, and {n_risers} risers with treads of {} end {} from the door, beyond the walk of {}",
            full_name(Place::StepsAt),
            shown(first_at),
            shown(tread),
            shown(first_at + flight),
            shown(length)
        );
        return Err((Place::StepsAt, text));
    }
    let fall = proper_fall(site);
    let drop_m = in_metres(uniform.start - uniform.end);
    let riser_m = (drop_m - fall.ratio() * in_metres(length - flight)) / f64::from(n_risers);
    if riser_m <= 0.0 {
        let text = format!(
            "The walk falls {} to the far end, no more than its slope of {} takes: nothing is left for steps",
            shown(metres(drop_m)),
            site.shown_in.fall(fall)
        );
        return Err((Place::StepsAt, text));
    }
    let mut pieces = Vec::new();
    let (mut from, mut level) = (metres(0.0), uniform.start);
    let mut lay = |to: Length, fall: Fall, is_tread: bool| {
        let piece = GradePiece {
            from,
            to,
            level,
            fall,
            is_tread,
        };
        from = to;
        level = piece.level_at(to) - metres(riser_m);
        pieces.push(piece);
    };
    lay(first_at, fall, false);
    for nth in 1..n_risers {
        lay(first_at + tread * f64::from(nth), Fall::default(), true);
    }
    lay(length, fall, false);
    Ok(pieces)
}

fn two_falls(
    site: &Site,
    run: &Run,
    uniform: &GradeLine,
    at: Option<Length>,
    below_sill: Option<Length>,
) -> Pieces {
    let missing = |place: Place| (place, format!("{} is missing", full_name(place)));
    let at = at.ok_or_else(|| missing(Place::BreakAt))?;
    let below_sill = below_sill.ok_or_else(|| missing(Place::BreakBelowSill))?;
    let length = run.length();
    if at <= metres(0.0) || at >= length {
        let text = format!(
            "{} is {}, not between the door and the end of the walk, {}",
            full_name(Place::BreakAt),
            site.shown_in.length(at),
            site.shown_in.length(length)
        );
        return Err((Place::BreakAt, text));
    }
    let level = metres(0.0) - below_sill;
    let no_fall = || {
        (
            Place::BreakAt,
            "The falls to the break cannot be worked out".to_owned(),
        )
    };
    let fall =
        Fall::from_ratio(in_metres(uniform.start - level) / in_metres(at)).ok_or_else(no_fall)?;
    let beyond = if uniform.end_is_fixed {
        Fall::from_ratio(in_metres(level - uniform.end) / in_metres(length - at))
            .ok_or_else(no_fall)?
    } else {
        proper_fall(site)
    };
    Ok(vec![
        GradePiece {
            from: metres(0.0),
            to: at,
            level: uniform.start,
            fall,
            is_tread: false,
        },
        GradePiece {
            from: at,
            to: length,
            level,
            fall: beyond,
            is_tread: false,
        },
    ])
}

fn ramp(run: &Run, uniform: &GradeLine) -> Result<Vec<GradePiece>, String> {
    if !uniform.end_is_fixed {
        return Err("A ramp needs a fixed far end to lead to".to_owned());
    }
    let drop_m = in_metres(uniform.start - uniform.end);
    let plan = RampPlan::new(in_metres(run.length()), drop_m)
        .filter(|plan| plan.slope > 0.0)
        .ok_or("No ramp of 1:12 or flatter with its landings fits into the walk")?;
    let (slope, landing) = Fall::from_ratio(plan.slope)
        .zip(Fall::from_ratio(LEAST_TO_DRAIN))
        .ok_or("The ramp cannot be worked out")?;
    let mut pieces = Vec::new();
    let (mut from, mut level) = (metres(0.0), uniform.start);
    let mut lay = |length: Length, fall: Fall| {
        let piece = GradePiece {
            from,
            to: from + length,
            level,
            fall,
            is_tread: false,
        };
        from = piece.to;
        level = piece.level_at(piece.to);
        pieces.push(piece);
    };
    for _ in 0..plan.n_runs {
        lay(super::rules::ramp_landing(), landing);
        lay(metres(plan.run_length_m), slope);
    }
    lay(super::rules::ramp_landing(), landing);
    Ok(pieces)
}

#[cfg(test)]
mod tests {
    use crate::findings::Weight;
    use crate::line::tests::{fixed, line_of, site, straight};
    use crate::line::{GradeLine, Riser};
    use crate::place::Place;
    use crate::quantity::{Length, feet, in_metres, inches, metres};
    use crate::site::{GradeShape, Site};
    use proptest::prelude::*;

    fn shaped(length: Length, drop: Length, shape: GradeShape) -> Site {
        let mut site = fixed(site(vec![straight(length)]), drop);
        site.line.shape = shape;
        site
    }

    fn grade_of(site: &Site) -> GradeLine {
        line_of(site).0.grade
    }

    #[track_caller]
    fn near(one: Length, other: Length) {
        assert!(
            (in_metres(one) - in_metres(other)).abs() < 1e-9,
            "{one:?} and {other:?}"
        );
    }

    #[test]
    fn four_risers_in_a_20_ft_walk() {
        // 20 ft, 30 in down, 1/4 in per ft: L′ = 240 − 3 × 10 = 210 in falls 4.375 in; (30 − 4.375) ÷ 4 = 6.40625 in a riser.
        let shape = GradeShape::Steps {
            n_risers: 4,
            first_at: Some(feet(6.0)),
            tread: Some(inches(10.0)),
        };
        let grade = grade_of(&shaped(feet(20.0), inches(30.0), shape));
        let risers = grade.risers();
        assert_eq!(risers.len(), 4);
        for (nth, Riser { station, height }) in risers.into_iter().enumerate() {
            near(station, inches(72.0 + 10.0 * nth as f64));
            near(height, inches(6.40625));
        }
        // 6 ft at 1/4 in: 1.5 in down at the head of the flight, 7.90625 in at the first tread, which is level.
        near(
            grade.level(inches(71.999_999_999), metres(0.0)),
            inches(-1.5),
        );
        near(grade.level(feet(6.0), metres(0.0)), inches(-7.90625));
        near(grade.level(inches(81.0), metres(0.0)), inches(-7.90625));
        near(grade.end, inches(-30.0));
    }

    #[test]
    fn a_drain_part_way_is_a_break() {
        // 24 ft, far end level with the door, drain half way and 3 in down: 1/4 in per ft to it from both sides.
        let shape = GradeShape::Break {
            at: Some(feet(12.0)),
            below_sill: Some(inches(3.0)),
        };
        let grade = grade_of(&shaped(feet(24.0), inches(0.0), shape));
        let falls: Vec<f64> = grade
            .pieces()
            .iter()
            .map(|piece| piece.fall.as_inches_per_foot())
            .collect();
        assert!(
            (falls[0] - 0.25).abs() < 1e-12 && (falls[1] + 0.25).abs() < 1e-12,
            "{falls:?}"
        );
        assert_eq!(grade.risers(), []);
        near(grade.end, inches(0.0));
    }

    #[test]
    fn a_ramp_has_its_landings() {
        // Row A19 with landings, as in the plan's own test: 47 ft, 35.75 in down, two runs of 16 ft at 1:12 and three landings of 5 ft.
        let grade = grade_of(&shaped(feet(47.0), inches(35.75), GradeShape::Ramp));
        let stations: Vec<f64> = grade
            .breaks()
            .iter()
            .map(|station| in_metres(*station) / 0.3048)
            .collect();
        let expected = [5.0, 21.0, 26.0, 42.0];
        assert!(
            stations
                .iter()
                .zip(expected)
                .all(|(one, other)| (one - other).abs() < 1e-9),
            "{stations:?}"
        );
        near(grade.end, inches(-35.75));
    }

    #[test]
    fn what_cannot_be_is_said_and_drawn_as_one_fall() {
        let steps = |n_risers, first_ft: f64| GradeShape::Steps {
            n_risers,
            first_at: Some(feet(first_ft)),
            tread: None,
        };
        let cases = [
            (
                shaped(feet(20.0), inches(30.0), steps(4, 19.0)),
                Place::StepsAt,
                "beyond the walk",
            ),
            (
                shaped(feet(20.0), inches(3.0), steps(2, 9.0)),
                Place::StepsAt,
                "nothing is left for steps",
            ),
            (
                shaped(feet(20.0), inches(30.0), steps(0, 9.0)),
                Place::StepsAt,
                "0 risers",
            ),
            (
                shaped(
                    feet(20.0),
                    inches(30.0),
                    GradeShape::Break {
                        at: Some(feet(25.0)),
                        below_sill: Some(inches(3.0)),
                    },
                ),
                Place::BreakAt,
                "not between",
            ),
            (
                shaped(
                    feet(20.0),
                    inches(30.0),
                    GradeShape::Break {
                        at: None,
                        below_sill: None,
                    },
                ),
                Place::BreakAt,
                "missing",
            ),
            (
                shaped(feet(20.0), inches(60.0), GradeShape::Ramp),
                Place::FarEndBelowSill,
                "No ramp",
            ),
        ];
        for (site, place, text) in cases {
            let (line, findings) = line_of(&site);
            assert_eq!(line.grade.pieces().len(), 1, "{text}");
            let said = findings
                .at(place)
                .any(|finding| finding.weight == Weight::Warning && finding.text.contains(text));
            assert!(said, "{text}: {findings:?}");
        }
    }

    proptest! {
        /// Whatever the flight, it starts at the door, ends at what is fixed, and its risers are equal.
        #[test]
        fn steps_meet_both_ends(length_ft in 8.0..80.0_f64, drop_in in 12.0..90.0_f64, n_risers in 1_u32..12, part in 0.0..1.0_f64) {
            let flight_ft = f64::from(n_risers - 1) * 10.0 / 12.0;
            prop_assume!(flight_ft < length_ft);
            let first_at = feet((length_ft - flight_ft) * part);
            let site = shaped(feet(length_ft), inches(drop_in), GradeShape::Steps { n_risers, first_at: Some(first_at), tread: Some(inches(10.0)) });
            let grade = grade_of(&site);
            prop_assert!((in_metres(grade.level(feet(length_ft), metres(0.0))) + drop_in * 0.0254).abs() < 1e-9);
            if grade.pieces().len() > 1 {
                let risers = grade.risers();
                prop_assert_eq!(risers.len(), n_risers as usize);
                for riser in &risers {
                    prop_assert!((in_metres(riser.height - risers[0].height)).abs() < 1e-9);
                }
            }
        }
    }
}

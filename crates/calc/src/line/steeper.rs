//! What can be done where the far end is too low for a walk: steps, or a ramp.

use super::checks::narrowest;
use super::offers::{Offer, Taking, proper_fall};
use super::rules::{
    LEAST_TO_DRAIN, LEVEL_CHANGE, RAMP, STEEPEST_RAMP, STEEPEST_WALK, at_least, at_most, broken_by,
    highest_ramp_run, highest_riser, lowest_riser, narrowest_ramp, ramp_landing, shortest_tread,
    step_landing,
};
use super::wording::from_sill;
use super::{GradeLine, Run};
use crate::measure::slope::Fall;
use crate::quantity::{in_metres, inches, metres};
use crate::site::{GradeShape, Site};

pub(super) fn offers(site: &Site, run: &Run, grade: &GradeLine) -> Vec<Offer> {
    if !grade.end_is_fixed {
        return Vec::new();
    }
    let mut offers: Vec<Offer> = ramp(site, run, grade).into_iter().collect();
    offers.extend(raise_far_end(site, run, grade));
    offers.extend(steps(site, run, grade));
    offers
}

/// Raise what the walk meets, until a walk leads to it.
fn raise_far_end(site: &Site, run: &Run, grade: &GradeLine) -> Option<Offer> {
    let fall = Fall::from_ratio(STEEPEST_WALK)?;
    let end = grade.level_down(fall.drop_over(run.length()));
    let higher = site.shown_in.length(end - grade.end);
    Some(Offer {
        title: format!("far end {higher} higher"),
        words: format!(
            "Raise what the walk meets by {higher}, to {}: the walk then falls {} all along.",
            from_sill(end, site.shown_in),
            site.shown_in.fall(fall)
        ),
        fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - end,
        risers: None,
        breaks: broken_by(fall, grade.cross_fall, false),
        take: Some(Taking::FarEndBelowSill(metres(0.0) - end)),
    })
}

/// A ramp over the whole run: landings at the door, at the far end and between runs, all at the least slope that drains.
fn ramp(site: &Site, run: &Run, grade: &GradeLine) -> Option<Offer> {
    let drop_m = in_metres(grade.start - grade.end);
    let plan = RampPlan::new(in_metres(run.length()), drop_m)?;
    let fall = Fall::from_ratio(plan.slope)?;
    let mut breaks = broken_by(fall, grade.cross_fall, true);
    let width = narrowest(run);
    if !at_least(in_metres(width), in_metres(narrowest_ramp())) {
        breaks.push(format!(
            "{}: it is only {} wide",
            RAMP.words(),
            site.shown_in.length(width)
        ));
    }
    let (runs, landings) = match plan.n_runs {
        1 => (
            "one run".to_owned(),
            "two landings, one at each end".to_owned(),
        ),
        n_runs => (
            format!("{n_runs} runs"),
            format!("{} landings, at both ends and between the runs", n_runs + 1),
        ),
    };
    let rise = metres(plan.rise_per_run_m);
    let each = if plan.n_runs == 1 { "" } else { "each " };
    let handrails = if rise > inches(6.0) {
        " It needs handrails on both sides."
    } else {
        ""
    };
    Some(Offer {
        title: format!("ramp at {}", site.shown_in.fall(fall)),
        words: format!(
            "Build a ramp: {runs} of {} at {}, {each}dropping {}, with {landings}, each {} long and falling 1/4 in per ft.{handrails}",
            site.shown_in.length(metres(plan.run_length_m)),
            site.shown_in.fall(fall),
            site.shown_in.length(rise),
            site.shown_in.length(ramp_landing())
        ),
        fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - grade.end,
        risers: None,
        breaks,
        take: Some(Taking::Shape(GradeShape::Ramp)),
    })
}

/// A ramp with as few runs as the rise from landing to landing allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct RampPlan {
    pub n_runs: u32,
    pub run_length_m: f64,
    pub rise_per_run_m: f64,
    pub slope: f64,
}

impl RampPlan {
    /// `None` where no ramp of 1:12 or flatter fits into that length.
    pub fn new(length_m: f64, drop_m: f64) -> Option<Self> {
        let landing_m = in_metres(ramp_landing());
        let mut n_runs = 1_u32;
        loop {
            let landings_m = f64::from(n_runs + 1) * landing_m;
            let sloping_m = length_m - landings_m;
            let rise_m = drop_m - landings_m * LEAST_TO_DRAIN;
            if sloping_m <= 0.0 || !at_most(rise_m / sloping_m, STEEPEST_RAMP) {
                return None;
            }
            let rise_per_run_m = rise_m / f64::from(n_runs);
            if at_most(rise_per_run_m, in_metres(highest_ramp_run())) {
                let run_length_m = sloping_m / f64::from(n_runs);
                return Some(Self {
                    n_runs,
                    run_length_m,
                    rise_per_run_m,
                    slope: rise_m / sloping_m,
                });
            }
            n_runs += 1;
        }
    }
}

/// Equal risers, and the proper fall on what is left between the level treads: every number of risers whose height is right.
fn steps(site: &Site, run: &Run, grade: &GradeLine) -> Vec<Offer> {
    let fall = proper_fall(site);
    let drop_m = in_metres(grade.start - grade.end);
    let plans = step_plans(in_metres(run.length()), drop_m, fall);
    plans
        .into_iter()
        .map(|plan| step_offer(site, grade, fall, plan))
        .collect()
}

fn step_offer(site: &Site, grade: &GradeLine, fall: Fall, plan: StepPlan) -> Offer {
    let riser = metres(plan.riser_m);
    let height = site.shown_in.length(riser);
    let (title, what) = match plan.n_risers {
        1 => (
            format!("one riser of {height}"),
            format!("one riser of {height}"),
        ),
        n_risers => {
            let n_treads = n_risers - 1;
            let treads = if n_treads == 1 {
                "a level tread".to_owned()
            } else {
                format!("{n_treads} level treads")
            };
            let tread = site.shown_in.length(shortest_tread());
            (
                format!("{n_risers} risers of {height}"),
                format!("{n_risers} equal risers of {height} with {treads} of {tread} between"),
            )
        }
    };
    let handrail = if plan.n_risers >= 4 {
        " Four risers and more need a handrail."
    } else {
        ""
    };
    let mut breaks = broken_by(fall, grade.cross_fall, false);
    breaks.push(format!(
        "{}: steps are no way for wheels",
        LEVEL_CHANGE.words()
    ));
    Offer {
        title,
        words: format!(
            "Build {what}, and let the other {} fall {}. The steps may stand anywhere along it, but leave {} in front of the door, and as much beyond the last riser.{handrail}",
            site.shown_in.length(metres(plan.sloping_m)),
            site.shown_in.fall(fall),
            site.shown_in.length(step_landing()),
        ),
        fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - grade.end,
        risers: Some((plan.n_risers, riser)),
        breaks,
        take: Some(Taking::Shape(GradeShape::Steps {
            n_risers: plan.n_risers,
            first_at: None,
            tread: Some(shortest_tread()),
        })),
    }
}

/// A flight of equal risers in a run.
#[derive(Clone, Copy, Debug, PartialEq)]
struct StepPlan {
    n_risers: u32,
    riser_m: f64,
    /// Length left to slope after the treads.
    sloping_m: f64,
}

/// Every number of risers that leaves them no higher than 7 3/4 in and no lower than 4 in, fewest first.
///
/// With n risers there are n − 1 treads, laid level; L′ = L − 10 in × (n − 1) slopes by p, and a riser is (D − p L′) ÷ n.
///
/// # Source
/// Highest riser and shortest tread: International Residential Code R311.7. Lowest riser: International Building Code, from memory.
/// Landings: [`step_landing`]. Handrail from four risers on: International Residential Code R311.7.8, from memory.
fn step_plans(length_m: f64, drop_m: f64, fall: Fall) -> Vec<StepPlan> {
    let landings_m = 2.0 * in_metres(step_landing());
    let mut plans = Vec::new();
    let mut n_risers = 1_u32;
    loop {
        let sloping_m = length_m - f64::from(n_risers - 1) * in_metres(shortest_tread());
        let riser_m = (drop_m - fall.ratio() * sloping_m) / f64::from(n_risers);
        if sloping_m < landings_m || !at_least(riser_m, in_metres(lowest_riser())) {
            return plans;
        }
        if at_most(riser_m, in_metres(highest_riser())) {
            plans.push(StepPlan {
                n_risers,
                riser_m,
                sloping_m,
            });
        }
        n_risers += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::feet;
    use proptest::prelude::*;

    #[track_caller]
    fn check_risers(rise_in: f64, n_risers: u32, riser_in: f64) {
        // On a long level run the risers take the whole drop.
        let plans = step_plans(100.0, in_metres(inches(rise_in)), Fall::default());
        let plan = plans.first().unwrap();
        assert_eq!(plan.n_risers, n_risers);
        assert!(
            (plan.riser_m / 0.0254 - riser_in).abs() < 1e-6,
            "{} in",
            plan.riser_m / 0.0254
        );
    }

    #[test]
    fn fewest_risers_as_published() {
        check_risers(29.0, 4, 7.25); // row A20: ceil(29 ÷ 7.75) = 4
        check_risers(31.0, 4, 7.75); // row A21: exactly at the limit
        check_risers(31.01, 5, 6.202); // row A21: just above it
    }

    #[test]
    fn a_rise_of_32_in_takes_two_ramp_runs() {
        // Row A19: 32 in at 1:12 is 32 ft of ramp, at least two runs. Three landings of 5 ft drop 60 in ÷ 48 each, 3.75 in, so that
        // 32 ft + 15 ft of run must drop 35.75 in to slope at exactly 1:12.
        let plan = RampPlan::new(in_metres(feet(47.0)), in_metres(inches(35.75))).unwrap();
        assert_eq!(plan.n_runs, 2);
        assert!((plan.run_length_m - in_metres(feet(16.0))).abs() < 1e-9);
        assert!((plan.rise_per_run_m - in_metres(inches(16.0))).abs() < 1e-9);
        assert!((plan.slope - 1.0 / 12.0).abs() < 1e-12);
        // An inch more of drop does not fit.
        assert_eq!(
            RampPlan::new(in_metres(feet(47.0)), in_metres(inches(36.75))),
            None
        );
    }

    #[test]
    fn risers_and_falls_add_up_to_the_drop() {
        let fall = Fall::inches_per_foot(0.25);
        let plans = step_plans(in_metres(feet(20.0)), in_metres(inches(30.0)), fall);
        // n = 4: L′ = 240 − 30 = 210 in, falls 4.375 in; (30 − 4.375) ÷ 4 = 6.406 in. n = 5: (30 − 4.167) ÷ 5 = 5.167. n = 6: 4.34.
        assert_eq!(
            plans.iter().map(|plan| plan.n_risers).collect::<Vec<_>>(),
            [4, 5, 6]
        );
        for plan in plans {
            let drop_m = f64::from(plan.n_risers) * plan.riser_m + fall.ratio() * plan.sloping_m;
            assert!((drop_m - in_metres(inches(30.0))).abs() < 1e-12);
        }
    }

    proptest! {
        /// Runs and landings make up the whole length and the whole drop, within the rule of ramps, with no run to spare.
        #[test]
        fn ramps_meet_both_ends(length_m in 4.0..80.0_f64, slope in 0.05..0.09_f64) {
            let drop_m = slope * length_m;
            if let Some(plan) = RampPlan::new(length_m, drop_m) {
                let n_runs = f64::from(plan.n_runs);
                let landings_m = (n_runs + 1.0) * 60.0 * 0.0254;
                prop_assert!((n_runs * plan.run_length_m + landings_m - length_m).abs() < 1e-9);
                prop_assert!((n_runs * plan.rise_per_run_m + landings_m / 48.0 - drop_m).abs() < 1e-9);
                prop_assert!((plan.rise_per_run_m / plan.run_length_m - plan.slope).abs() < 1e-9);
                prop_assert!(plan.slope <= 1.0 / 12.0 + 1e-9 && plan.rise_per_run_m <= 30.0 * 0.0254 + 1e-9);
                prop_assert!(n_runs < 2.0 || n_runs * plan.rise_per_run_m > (n_runs - 1.0) * 30.0 * 0.0254 - 2.5 * 0.0254);
            }
        }
    }
}

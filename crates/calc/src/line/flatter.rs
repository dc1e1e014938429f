//! What can be done where the far end is too high: the walk is too flat, or falls towards the house.

use super::offers::{Offer, Taking, proper_fall};
use super::rules::{
    HOUSE, LEAST_TO_DRAIN, RAMP, STEEPEST_RAMP, STEEPEST_WALK, WALK, at_least, at_most, broken_by,
    near_the_house,
};
use super::wording::from_sill;
use super::{GradeLine, Run, towards_wall};
use crate::measure::slope::Fall;
use crate::quantity::{Length, in_metres, metres};
use crate::site::{GradeShape, ShownIn, Site};

pub(super) fn offers(site: &Site, run: &Run, grade: &GradeLine) -> Vec<Offer> {
    if !grade.end_is_fixed {
        return drain_aside(site, run, grade).into_iter().collect();
    }
    let offers = [
        Some(lower_far_end(site, run, grade)),
        drain_aside(site, run, grade),
        drain_part_way(site, run, grade),
    ];
    offers.into_iter().flatten().collect()
}

/// Lower what the walk meets, until the fall is right.
fn lower_far_end(site: &Site, run: &Run, grade: &GradeLine) -> Offer {
    let fall = Fall::from_ratio(LEAST_TO_DRAIN).unwrap_or_default();
    let end = grade.level_down(fall.drop_over(run.length()));
    let lower = site.shown_in.length(grade.end - end);

    Offer {
        title: format!("far end {lower} lower"),
        words: format!(
            "Lower what the walk meets by {lower}, to {}: the walk then falls {} all along.",
            from_sill(end, site.shown_in),
            site.shown_in.fall(fall)
        ),
        fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - end,
        risers: None,
        breaks: broken_by(fall, grade.cross_fall, false),
        take: Some(Taking::FarEndBelowSill(metres(0.0) - end)),
    }
}

/// Keep the fall along and let the water leave sideways. Only where the walk does not fall towards the house.
fn drain_aside(site: &Site, run: &Run, grade: &GradeLine) -> Option<Offer> {
    if grade.fall.ratio() < 0.0 || at_least(grade.cross_fall.ratio().abs(), LEAST_TO_DRAIN) {
        return None;
    }
    let falls_back = |ratio| {
        Fall::from_ratio(ratio).is_some_and(|tilt| towards_wall::falls_back(run, grade, tilt))
    };
    // To the side it tilts to already; where it is level, to the right unless that is the side of the house.
    let to_the_left = grade.cross_fall.ratio() < 0.0
        || (grade.cross_fall == Fall::default()
            && falls_back(LEAST_TO_DRAIN)
            && !falls_back(-LEAST_TO_DRAIN));
    let cross_fall = Fall::from_ratio(if to_the_left {
        -LEAST_TO_DRAIN
    } else {
        LEAST_TO_DRAIN
    })?;
    let size = Fall::from_ratio(LEAST_TO_DRAIN)?;
    let width = run.clear_width_at(metres(0.0));
    let side = if to_the_left { "left" } else { "right" };
    Some(Offer {
        title: format!("cross-fall of {} to the {side}", site.shown_in.fall(size)),
        words: format!(
            "Keep the fall along and let the walk fall {} to the {side}: {} over its width of {} at the door. The ground on that side must be lower and lead away from the house.",
            site.shown_in.fall(size),
            site.shown_in.length(size.drop_over(width)),
            site.shown_in.length(width)
        ),
        fall: grade.fall,
        cross_fall,
        far_end_below_sill: metres(0.0) - grade.end,
        risers: None,
        breaks: broken_by(grade.fall, cross_fall, false),
        take: Some(Taking::CrossFall(cross_fall)),
    })
}

/// Fall from the house to a drain across the walk, and to the same drain from the far end.
fn drain_part_way(site: &Site, run: &Run, grade: &GradeLine) -> Option<Offer> {
    let fall = proper_fall(site);
    let drop_m = in_metres(grade.start - grade.end);
    let DrainPlan { drain_m, back } = DrainPlan::new(in_metres(run.length()), drop_m, fall)?;
    let mut breaks = broken_by(fall, grade.cross_fall, false);
    if !at_least(drain_m, in_metres(near_the_house())) {
        breaks.push(format!(
            "{}: beyond the drain it falls back within them",
            HOUSE.words()
        ));
    }
    if !at_most(back.ratio(), STEEPEST_WALK) {
        breaks.push(WALK.words().to_owned());
        breaks.push(format!("{}: no landing is planned", RAMP.words()));
    }
    let at = shown_station(metres(drain_m), site.shown_in);
    Some(Offer {
        title: format!("drain across the walk at {at}"),
        words: format!(
            "Let the walk fall {} from the door to a channel drain across it at {at}, {}, and {} back to that drain from the far end. The drain needs an outlet.",
            site.shown_in.fall(fall),
            from_sill(
                grade.level_down(fall.drop_over(metres(drain_m))),
                site.shown_in
            ),
            site.shown_in.fall(back)
        ),
        fall,
        cross_fall: grade.cross_fall,
        far_end_below_sill: metres(0.0) - grade.end,
        risers: None,
        breaks,
        take: Some(Taking::Shape(GradeShape::Break {
            at: Some(metres(drain_m)),
            below_sill: Some(fall.drop_over(metres(drain_m)) - grade.start),
        })),
    })
}

/// Where a drain stands, and the fall back to it from the far end.
#[derive(Clone, Copy, Debug, PartialEq)]
struct DrainPlan {
    drain_m: f64,
    back: Fall,
}

impl DrainPlan {
    /// With the same fall p on both sides and a far end D below the door the drain stands at (L + D ÷ p) ÷ 2. Where that is nearer
    /// to the house than its rule reaches, the drain goes to the end of that reach (half way at most) and the far stretch is
    /// steeper. `None` where that is steeper than a ramp.
    fn new(length_m: f64, drop_m: f64, fall: Fall) -> Option<Self> {
        let even_m = 0.5 * (length_m + drop_m / fall.ratio());
        let drain_m = even_m.max(in_metres(near_the_house()).min(0.5 * length_m));
        let beyond_m = length_m - drain_m;
        let back = Fall::from_ratio((fall.ratio() * drain_m - drop_m) / beyond_m)?;
        (beyond_m > 0.0 && at_most(back.ratio(), STEEPEST_RAMP)).then_some(Self { drain_m, back })
    }
}

fn shown_station(station: Length, shown_in: ShownIn) -> String {
    format!("{} from the door", shown_in.length(station))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{feet, inches};
    use proptest::prelude::*;

    #[test]
    fn a_drain_stands_where_both_sides_fall_alike() {
        // 24 ft long, far end level with the door, 1/4 in per ft: half way, 3 in down.
        let plan = DrainPlan::new(in_metres(feet(24.0)), 0.0, Fall::inches_per_foot(0.25)).unwrap();
        assert!((plan.drain_m - in_metres(feet(12.0))).abs() < 1e-12);
        assert!((plan.back.ratio() - 1.0 / 48.0).abs() < 1e-12);
        // Far end 2 in above the door: (24 - 8) ÷ 2 = 8 ft would be too near; at 10 ft the rest climbs 4 1/2 in over 14 ft.
        let plan = DrainPlan::new(
            in_metres(feet(24.0)),
            in_metres(inches(-2.0)),
            Fall::inches_per_foot(0.25),
        )
        .unwrap();
        assert!((plan.drain_m - in_metres(feet(10.0))).abs() < 1e-12);
        assert!((plan.back.ratio() - 4.5 / 168.0).abs() < 1e-12);
        // 2 ft above the door over 10 ft is a stair, not a walk.
        assert_eq!(
            DrainPlan::new(
                in_metres(feet(10.0)),
                in_metres(feet(-2.0)),
                Fall::inches_per_foot(0.25)
            ),
            None
        );
    }

    proptest! {
        /// Down to the drain and up again arrives at the far end, with the drain in the run and no stretch flatter than the first.
        #[test]
        fn a_drain_meets_both_ends(length_m in 1.0..60.0_f64, part in -1.0..1.0_f64, percent in 2.1..5.0_f64) {
            let fall = Fall::percent(percent);
            let drop_m = part * fall.ratio() * length_m;
            if let Some(plan) = DrainPlan::new(length_m, drop_m, fall) {
                let arrived_m = fall.ratio() * plan.drain_m - plan.back.ratio() * (length_m - plan.drain_m);
                prop_assert!((arrived_m - drop_m).abs() < 1e-9);
                prop_assert!(plan.drain_m > 0.0 && plan.drain_m < length_m);
                prop_assert!(plan.back.ratio() >= fall.ratio() - 1e-9);
            }
        }
    }
}

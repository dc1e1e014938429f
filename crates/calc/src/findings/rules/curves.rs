//! Curves that whole brick cannot follow.

use super::look::{Facts, Reading, some};
use crate::lay::{LayWishes, LeastRadii};
use crate::place::Place;
use crate::quantity::{Length, in_metres};
use crate::site::{LegShape, Site};

/// Curves of less radius to the centreline than whole brick needs.
pub(super) fn too_tight(facts: &Facts<'_>) -> Option<Vec<Reading>> {
    let legs = facts.site.line.legs.iter().enumerate();
    some(
        legs.filter_map(|(leg_idx, leg)| match leg.shape {
            LegShape::Curve {
                radius: Some(radius),
                ..
            } if least_radius(facts, leg_idx).is_some_and(|least| radius < least) => Some(
                Reading::measured(Place::LegRadius(leg_idx), middle(facts, leg_idx)),
            ),
            LegShape::Curve { .. } | LegShape::Straight { .. } => None,
        })
        .collect(),
    )
}

/// Least radius to the centreline for whole brick laid along this leg. `None` where the joint limits leave no play: then no curve is
/// more to blame than another.
///
/// The joint between courses is taken midway between the narrowest and the widest, which leaves the bow of the course the most play on
/// both sides. The width is that of the middle of the leg, else that of the door.
pub(super) fn least_radius(facts: &Facts<'_>, leg_idx: usize) -> Option<Length> {
    let wishes = LayWishes::of(facts.site);
    let between_courses = (wishes.least_joint + wishes.widest_joint) * 0.5;
    let width = clear_width(facts, leg_idx).unwrap_or(wishes.brick_width);
    let least = LeastRadii::of(&wishes, width, between_courses).whole;
    in_metres(least).is_finite().then_some(least)
}

fn clear_width(facts: &Facts<'_>, leg_idx: usize) -> Option<Length> {
    let on_run = facts.line.zip(middle(facts, leg_idx));
    on_run
        .map(|(line, station)| line.run.clear_width_at(station))
        .or(at_the_door(facts.site))
}

const fn at_the_door(site: &Site) -> Option<Length> {
    site.line.width
}

fn middle(facts: &Facts<'_>, leg_idx: usize) -> Option<Length> {
    let leg = facts.line?.run.legs().get(leg_idx)?;
    Some(leg.start + leg.length * 0.5)
}

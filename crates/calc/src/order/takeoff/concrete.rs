//! Concrete of the haunch.

use super::super::item::Item;
use super::super::need::{Figure, Need, NeedAmount, Step};
use super::draft::Draft;
use super::{Job, missing};
use crate::bed::Restraint;
use crate::defaults;
use crate::field::check_length;
use crate::place::Place;
use crate::quantity::Length;
use crate::site::RestraintInput;

/// Concrete on both sides, mixed, where a haunch holds the edge.
pub(super) fn haunch(job: &Job<'_>) -> Option<Need> {
    let RestraintInput::Haunch {
        height,
        width,
        top_width,
    } = job.site.edge.restraint
    else {
        return None;
    };
    let draft = Draft::of(Item::HaunchConcrete)
        .from([Place::Restraint])
        .steps([
            size(
                "height",
                Place::HaunchHeight,
                height,
                defaults::haunch_height,
            ),
            size(
                "width at the bottom",
                Place::HaunchWidth,
                width,
                defaults::haunch_width,
            ),
            size(
                "width at the top",
                Place::HaunchTopWidth,
                top_width,
                defaults::haunch_top_width,
            ),
        ]);
    let Some(bed) = job.bed() else {
        return Some(draft.misses(missing::of_bed(job)));
    };
    let Restraint::Haunch { concrete, .. } = bed.edge.restraint else {
        return None;
    };
    let outer = bed.edge.left.outer_length + bed.edge.right.outer_length;
    let need = draft
        .step("outer faces of both edges", Figure::Length(outer))
        .step("concrete, mixed", Figure::Volume(concrete))
        .needs(NeedAmount::Mixed(concrete));
    Some(need)
}

/// A size as it was taken: what was written down where it can be true, else what is usual.
fn size(what: &'static str, place: Place, given: Option<Length>, usual: fn() -> Length) -> Step {
    match given.and_then(|given| check_length(place, given).ok()) {
        Some(given) => Step::new(what, Figure::Length(given)),
        None => {
            Step::new(what, Figure::Length(usual())).from("not given: common practice, no source")
        }
    }
}

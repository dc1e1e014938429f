//! Figures of the section and of the lifts.

use crate::figure::{Figure, Group, Measure};
use crate::wording::{Wording, counted, ratio};
use underbrick_calc::bed::{Bed, Lift};
use underbrick_calc::quantity::Length;

/// Brick, setting bed and base.
pub(super) fn section(bed: Option<&Bed>, base_is_least: bool, say: Wording) -> Vec<Figure> {
    let deepest = bed.map(|bed| bed.base_top_below_grade + bed.thickest_base);
    let length = |of: fn(&Bed) -> Length| say.length(bed.map(of));
    let figure =
        |key: &str, name: &str, measure: Measure| Figure::new(Group::Section, key, name, measure);
    vec![
        figure(
            "brick_thickness",
            "Brick thickness",
            length(|bed| bed.unit_thickness),
        ),
        figure(
            "setting_bed",
            "Setting bed, compacted",
            length(|bed| bed.setting_bed),
        ),
        figure(
            "base_top_below_grade_line",
            "Base top below the grade line",
            length(|bed| bed.base_top_below_grade),
        ),
        figure(
            "least_base",
            "Least base asked for, compacted",
            length(|bed| bed.least_base),
        ),
        figure(
            "thinnest_base",
            "Thinnest base, compacted",
            length(|bed| bed.thinnest_base),
        )
        .at_least(base_is_least),
        figure(
            "thickest_base",
            "Thickest base, compacted",
            length(|bed| bed.thickest_base),
        )
        .at_least(base_is_least),
        figure(
            "deepest_dig_below_grade_line",
            "Deepest dig below the grade line",
            say.length(deepest),
        )
        .at_least(base_is_least),
    ]
}

/// What holds for all lifts, then each from the bottom.
pub(super) fn lifts(bed: Option<&Bed>, base_is_least: bool, say: Wording) -> Vec<Figure> {
    let lifts = bed.map(|bed| &bed.lifts);
    let figure =
        |key: &str, name: &str, measure: Measure| Figure::new(Group::Lifts, key, name, measure);
    let general = [
        figure(
            "lifts",
            "Lifts",
            counted(lifts.map(|lifts| lifts.each.len())),
        )
        .at_least(base_is_least),
        figure(
            "full_lift_compacted",
            "Full lift, compacted",
            say.length(lifts.map(|lifts| lifts.full_compacted)),
        ),
        figure(
            "compacted_lift_limit",
            "Most that one lift may be, compacted",
            say.length(lifts.map(|lifts| lifts.compacted_limit)),
        ),
        figure(
            "loose_lift_limit",
            "Most that one lift may be, loose",
            say.length(lifts.map(|lifts| lifts.loose_limit)),
        ),
        figure(
            "loose_to_compacted",
            "Loose ÷ compacted thickness",
            ratio(lifts.map(|lifts| lifts.loose_to_compacted)),
        ),
        figure(
            "thinnest_partial_lift",
            "Thinnest partial lift placed by itself",
            say.length(lifts.map(|lifts| lifts.thinnest_partial)),
        ),
    ];
    let each = lifts
        .iter()
        .flat_map(|lifts| &lifts.each)
        .flat_map(|lift| each(lift, say));
    general.into_iter().chain(each).collect()
}

fn each(lift: &Lift, say: Wording) -> [Figure; 5] {
    let number = lift.number;
    let figure = |what: &str, name: &str, measure: Measure| {
        Figure::new(
            Group::EachLift,
            format!("lift_{number}_{what}"),
            format!("Lift {number} {name}"),
            measure,
        )
    };
    [
        figure(
            "top_below_string",
            "top below a string on the grade line",
            say.length(Some(lift.top_below_grade)),
        ),
        figure(
            "compacted",
            "thickest place, compacted",
            say.length(Some(lift.compacted)),
        ),
        figure(
            "loose",
            "thickest place, loose",
            say.length(Some(lift.loose)),
        ),
        figure(
            "compacted_volume",
            "in place",
            say.volume(Some(lift.compacted_volume)),
        ),
        figure(
            "loose_volume",
            "as delivered",
            say.volume(Some(lift.loose_volume)),
        ),
    ]
}

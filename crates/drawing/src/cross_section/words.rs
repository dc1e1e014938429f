//! A cross-section in words.

use super::{Cut, said};
use crate::material;
use crate::tongue;
use crate::wording;
use underbrick_calc::defaults;
use underbrick_calc::findings::rules::evidence_words;
use underbrick_calc::quantity::{Length, metres};

/// Everything that is drawn, one sentence a line.
pub(super) fn of(cut: &Cut<'_>) -> String {
    let shown_in = cut.site.shown_in;
    let written = |length: Length| shown_in.length(length);
    let station = shown_in.along(cut.section.station);
    let mut lines = vec![format!(
        "Cross-section at {station}, looking away from the door, to scale."
    )];
    let grade = metres(cut.grade_at(0.0));
    lines.push(format!(
        "The grade line is {} the sill here.",
        wording::below(-grade, shown_in)
    ));
    if let Some(old) = cut.old_at(0.0) {
        let measured = if cut.section.old_surface_known {
            ""
        } else {
            ", not measured here"
        };
        lines.push(format!(
            "The old surface is {} the grade line{measured}.",
            wording::below(grade - metres(old), shown_in)
        ));
    } else {
        lines.push("The old surface is not measured.".to_owned());
    }
    let (outer_left, outer_right) = cut.outer_faces();
    let (dig_left, dig_right) = cut.dig_sides();
    lines.push(format!(
        "Clear width {} in {}, {} over the edge brick, dig {} wide: {} past the edge brick each side.",
        written(cut.section.clear_width),
        wording::counted(cut.section.bricks.len(), "brick"),
        written(metres(outer_right - outer_left)),
        written(metres(dig_right - dig_left)),
        written(metres(dig_right - outer_right)),
    ));
    lines.push(format!(
        "Brick {} thick, {} joints, on a setting bed of {}.",
        written(cut.unit_thickness),
        written(cut.site.brick.joint.unwrap_or_else(defaults::joint)),
        written(cut.setting_bed)
    ));
    lines.push(format!(
        "Base top {} below the grade line.",
        written(metres(cut.grade_at(0.0) - cut.base_top_at(0.0)))
    ));
    lines.push(format!(
        "Base {} thick in {} of at most {} compacted, {} loose.",
        written(metres(cut.base_top_at(0.0) - cut.dig_bottom_at(0.0))),
        wording::counted(cut.section.lifts.len(), "lift"),
        written(cut.lifts.full_compacted),
        written(cut.lifts.full_compacted * cut.lifts.loose_to_compacted),
    ));
    lines.push(format!(
        "Bottom of the dig {} below the grade line.",
        written(grade - metres(cut.dig_bottom_at(0.0)))
    ));
    if cut.section.fabric {
        lines.push("Fabric lies on the undisturbed ground.".to_owned());
    }
    lines.push(format!(
        "{} on both sides, {} deep, {}.",
        wording::edge_name(cut.site.edge.stands),
        written(cut.edge_brick.depth),
        held_by(cut)
    ));
    match cut.section.unsuitable_bottom {
        Some(bottom) if bottom.found => lines.push(format!(
            "What must come out ends {} the grade line.",
            wording::below(grade - bottom.level, shown_in)
        )),
        Some(bottom) => lines.push(format!(
            "The bottom of what must come out was not found: {}.",
            said::at_least(grade - bottom.level, shown_in)
        )),
        None => {}
    }
    match cut.nearest_pit {
        Some(pit) => {
            let layers = pit
                .layers
                .iter()
                .map(|layer| super::ground::layer_name(cut, layer));
            let mut log = tongue::said_each(layers, ", ");
            if let Some(seep) = pit.seep {
                let seep = tongue::said(format!("seep {} down", written(pit.top - seep)));
                log = format!("{log}; {seep}");
            }
            let station = shown_in.along(pit.station);
            lines.push(format!(
                "Nearest pit, pit {} at {station}, {}: {log}.",
                pit.pit_idx + 1,
                said::pit_away(cut, pit),
            ));
        }
        None => lines.push("No pit: depth not known; the least base is drawn.".to_owned()),
    }
    for spotted in &cut.spotted {
        let words = evidence_words(cut.site, cut.catalogue, spotted.place);
        lines.push(format!("Near the cut, {}: {words}.", spotted.title));
    }
    let base = material::name_of(cut.catalogue, &cut.site.bed.base_material);
    if !base.is_empty() {
        lines.push(format!("Base of {base}."));
    }
    lines.join("\n")
}

/// The restraint as its callout names it.
fn held_by(cut: &Cut<'_>) -> String {
    let (title, note) = said::restraint(cut);
    let parts = [title.to_owned(), note].into_iter();
    tongue::said_each(parts.filter(|part| !part.is_empty()), " ")
}

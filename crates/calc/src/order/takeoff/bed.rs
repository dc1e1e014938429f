//! Setting bed.

use super::super::item::{Item, Way};
use super::super::need::{Figure, Need};
use super::bulk::{Compacted, from_loose, tipped};
use super::draft::Draft;
use super::{Job, missing};
use crate::place::Place;
use crate::quantity::{cubic_metres, in_metres};

/// Setting bed between the edge bricks, and under them where they stand above the base.
///
/// On an old base it is as thick as designed everywhere: what the hollows of that base take is not known until the brick is lifted, so
/// that it is the least.
pub(super) fn setting_bed(job: &Job<'_>) -> Need {
    let draft = Draft::of(Item::SettingBed).from([Place::SettingBed]);
    let Some((material, figures)) = sand(job) else {
        return draft.misses("a sand for the setting bed in the catalogue");
    };
    let draft = draft.material(&material.key, &material.name);
    let Some(bed) = job.bed() else {
        return draft.misses(missing::of_bed(job));
    };
    let earthwork = &bed.earthwork;
    let mut draft = draft
        .step("area between the edges", Figure::Area(earthwork.field_area))
        .step("thickness", Figure::Length(bed.setting_bed));
    let mut in_place = earthwork.setting_bed_compacted;
    let under_edge = bed.base_top_below_grade - bed.edge.brick.depth;
    if in_metres(under_edge) > NOTHING_M {
        let edges = earthwork.paved_area - earthwork.field_area;
        draft = draft
            .step("area under the edge brick", Figure::Area(edges))
            .step("thickness under the edge brick", Figure::Length(under_edge));
        in_place += (edges * under_edge).max(cubic_metres(0.0));
    }
    if job.way == Way::Relay {
        draft = draft.least(true).step(
            "on the old base",
            Figure::Words("its hollows take more: not known until the brick is lifted".to_owned()),
        );
    }
    let offer = job.offer(Item::SettingBed, Some(&material.key));
    let (amount, steps) = tipped(in_place, &figures, offer);
    draft.steps(steps).needs(amount)
}

/// A hundredth of a millimetre: less is a rounding of the arithmetic.
const NOTHING_M: f64 = 1e-5;

/// The sand that is bought, with its figures; the joints are filled with it too.
pub(super) fn sand<'a>(job: &Job<'a>) -> Option<(&'a crate::catalogue::Material, Compacted<'a>)> {
    let bedding = job.catalogue.bedding.as_ref()?;
    let material = job.catalogue.find(&bedding.key)?;
    let figures = Compacted {
        loose_to_compacted: bedding.loose_to_compacted,
        ratio_source: &bedding.source,
        density: material.loose_density * bedding.loose_to_compacted,
        density_source: from_loose(material),
        moisture: job.catalogue.moisture(&material.key),
    };
    Some((material, figures))
}
